from datetime import date

import pytest

from claimpack.core.events.events import NewEvent
from claimpack.core.events.fold import stand
from claimpack.core.payment.next_step import of_earlier_money, what_next


def happened(what, **facts):
    return NewEvent(what=what, on=date(2026, 3, 2), facts=facts)


def standing(*more):
    """A claim filed for 159.70, and what happened to it since."""
    return stand([happened("opened"), happened("filed", claimed="159.70", currency="USD"), *more])


ACCEPTED = happened("answered", answer="accepted")
PAID = happened("paid", amount="100.00")


@pytest.mark.parametrize(
    ("more", "said"),
    [
        ([], "claimpack answer 26-1"),
        ([ACCEPTED], "claimpack pay 26-1"),
        ([ACCEPTED, PAID], "59.70 USD is still to come"),
        ([PAID], "claimpack answer 26-1"),
        ([happened("answered", answer="refused", form="yes")], "Only form was wrong"),
        ([happened("answered", answer="refused")], "claimpack write-off 26-1"),
        ([happened("answered", answer="questioned")], "claimpack file 26-1"),
        ([happened("withdrawn"), happened("reopened")], "claimpack file 26-1"),
    ],
)
def test_what_to_do_next_follows_from_where_a_claim_stands(more, said):
    assert said in what_next("26-1", standing(*more), is_favour=False)[0]


def test_a_paid_claim_leaves_nothing_to_do():
    assert what_next("26-1", standing(happened("paid", amount="159.70")), is_favour=False) == ()


PART = happened("answered", answer="part", amount="100.00")


def test_a_claim_accepted_in_part_waits_for_money_and_says_what_was_refused():
    money, rest = what_next("26-1", standing(PART), is_favour=False)
    assert "claimpack pay 26-1" in money
    assert rest.startswith("59.70 USD was not accepted.")


@pytest.mark.parametrize(
    "command",
    [
        "claimpack answer 26-1 accepted, or part --amount MORE",
        "claimpack file 26-1",
        "claimpack write-off 26-1 --because TEXT",
    ],
)
def test_a_claim_paid_in_part_names_every_way_on(command):
    assert command in what_next("26-1", standing(PART, PAID), is_favour=False)[0]


def test_while_the_part_is_waited_for_the_rest_is_let_go_alone():
    assert "claimpack write-off 26-1 --rest --because TEXT" in what_next("26-1", standing(PART), is_favour=False)[1]


def test_a_rest_that_was_let_go_leaves_nothing_to_do():
    assert (
        what_next("26-1", standing(PART, PAID, happened("written off", amount="59.70", rest="59.70")), is_favour=False)
        == ()
    )


FILED_AGAIN = happened("filed", claimed="159.70", currency="USD")


def test_money_that_came_before_a_claim_was_filed_again_is_told():
    said = of_earlier_money(standing(PART, PAID), standing(PART, PAID, FILED_AGAIN))
    assert said == ("100.00 USD was paid for it before and counts; 59.70 USD is outstanding now.",)


def test_an_accepted_part_still_to_come_when_filed_again_is_told():
    said = of_earlier_money(standing(PART), standing(PART, FILED_AGAIN))
    assert said == ("100.00 USD that the maker had accepted is waited for with the rest.",)


def test_a_claim_that_brought_no_money_is_filed_again_without_a_word():
    refused = happened("answered", answer="refused")
    assert of_earlier_money(standing(refused), standing(refused, FILED_AGAIN)) == ()


@pytest.mark.parametrize(("favour", "contests"), [(False, True), (True, False)])
@pytest.mark.parametrize("events", [[happened("answered", answer="refused")], [PART, PAID]], ids=["all", "a part"])
def test_a_refusal_may_be_contested_but_not_that_of_a_favour(events, favour, contests):
    assert ("--grounds" in what_next("26-1", standing(*events), is_favour=favour)[0]) == contests
