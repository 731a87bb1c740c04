from datetime import date

import pytest
from settled_claims import ACCEPTED, FILED, PAID, STEP, TODAY, happened, standing

from claimpack.core.events.events import NewEvent
from claimpack.core.steps import settling
from claimpack.core.steps.settling import Step, amount_in, refuse_impossible_day
from claimpack.errors import BadInput, WrongState


def answered(answer, amount="", form=False, start=None):
    return settling.answered(start or standing(), STEP, answer, amount, form)


@pytest.mark.parametrize("written", ["12.50", " 12.50", "12.5"])
def test_an_amount_is_in_whole_coins(written):
    assert str(amount_in(written, "AMOUNT", "USD")) == "12.50"


@pytest.mark.parametrize(
    ("written", "currency", "said"),
    [
        ("", "USD", "AMOUNT is missing"),
        ("1,200.00", "USD", "not a decimal number"),
        ("0", "USD", "not above zero"),
        ("-5", "USD", "not above zero"),
        ("12.505", "USD", "more decimals than USD, which has 2"),
        ("12.5", "JPY", "more decimals than JPY, which has 0"),
        ("NaN", "USD", "nobody|anybody"),
    ],
)
def test_what_is_no_amount_is_refused(written, currency, said):
    with pytest.raises(BadInput, match=said):
        amount_in(written, "AMOUNT", currency)


@pytest.mark.parametrize("on", [FILED, TODAY], ids=["the day of filing", "today"])
def test_a_day_from_filing_to_today_can_be(on):
    assert refuse_impossible_day(standing(), NewEvent(what="paid", on=on), TODAY) is None


@pytest.mark.parametrize(
    ("on", "said"), [(date(2026, 3, 1), "before 2026-03-02"), (date(2026, 3, 21), "still to come")]
)
def test_a_day_before_filing_or_after_today_cannot_be(on, said):
    with pytest.raises(BadInput, match=said):
        refuse_impossible_day(standing(), NewEvent(what="paid", on=on), TODAY)


@pytest.mark.parametrize(
    ("what", "reason"),
    [
        ("answered", "The maker cannot act"),
        ("part called back", "The maker cannot act"),
        ("withdrawn", "taken back after it went out"),
        ("written off", "claimed first"),
        ("reopened", "taken up again after"),
        ("answer undone", "came after the filing"),
        ("payment undone", "came after the filing"),
    ],
)
def test_why_a_day_before_filing_cannot_be_depends_on_the_step(what, reason):
    with pytest.raises(BadInput) as caught:
        refuse_impossible_day(standing(), NewEvent(what=what, on=date(2026, 3, 1)), TODAY)
    assert reason in caught.value.why


@pytest.mark.parametrize("what", ["part moved", "part scrapped", "part sending undone"])
def test_what_the_shop_does_with_a_part_may_come_before_the_filing(what):
    step = NewEvent(what=what, on=date(2026, 3, 1), facts={"part": "1"})
    assert refuse_impossible_day(standing(), step, TODAY) is None


def test_an_answer_is_recorded_with_its_reason():
    told = answered("refused", form=True)
    assert (told.what, told.why, told.facts) == ("answered", "As agreed.", {"answer": "refused", "form": "yes"})


def test_a_part_carries_its_amount():
    assert answered("part", "120").facts == {"answer": "part", "amount": "120.00"}


@pytest.mark.parametrize("amount", ["0.01", "159.69", "159.70"])
def test_a_part_is_more_than_nothing_and_at_most_the_whole(amount):
    assert answered("part", amount).facts["amount"] == amount


@pytest.mark.parametrize(
    ("answer", "amount", "form", "said"),
    [
        ("part", "", False, "--amount is missing"),
        ("part", "159.71", False, "more than was claimed, 159.70 USD"),
        ("part", "0", False, "not above zero"),
        ("accepted", "100", False, "goes with part"),
        ("refused", "100", False, "goes with part"),
        ("accepted", "", True, "goes with refused"),
        ("acepted", "", False, "no answer of a maker's"),
        ("", "", False, "ANSWER is missing"),
    ],
)
def test_an_answer_that_makes_no_sense_is_refused(answer, amount, form, said):
    with pytest.raises(BadInput, match=said):
        answered(answer, amount, form)


def test_accepted_may_say_the_whole_amount():
    assert answered("accepted", "159.70").facts == {"answer": "accepted", "amount": "159.70"}


def test_an_accepted_claim_is_not_answered_again():
    with pytest.raises(WrongState, match="the claim is accepted"):
        answered("refused", start=standing(ACCEPTED))


def test_one_answer_is_not_entered_twice():
    once = standing(answered("refused"))
    with pytest.raises(BadInput, match="already recorded"):
        answered("refused", start=once)


def test_a_later_answer_of_the_same_kind_is_another_answer():
    before = standing(happened("answered", answer="refused"))
    assert answered("refused", start=before).facts == {"answer": "refused"}


IN_PART = happened("answered", answer="part", amount="100.00")


@pytest.mark.parametrize("paid_before", [(), (PAID,)], ids=["waited for", "paid"])
@pytest.mark.parametrize("amount", ["100.01", "159.70"])
def test_a_maker_that_gives_in_accepts_more_in_all(paid_before, amount):
    assert answered("part", amount, start=standing(IN_PART, *paid_before)).facts["amount"] == amount


@pytest.mark.parametrize("amount", ["99.99", "100.00"])
def test_giving_in_to_no_more_than_before_is_refused(amount):
    with pytest.raises(BadInput, match=r"is not more than is accepted already, 100\.00 USD"):
        answered("part", amount, start=standing(IN_PART, PAID))


@pytest.mark.parametrize("answer", ["refused", "questioned"])
def test_what_is_accepted_is_not_refused_or_questioned_afterwards(answer):
    with pytest.raises(BadInput, match=r"100\.00 USD is accepted already"):
        answered(answer, start=standing(IN_PART, PAID))


@pytest.mark.parametrize(
    ("paid_before", "way"),
    [
        ((), "mistake: claimpack answer 26-0007 --undo --because TEXT"),
        ((PAID,), "claimpack pay 26-0007 --undo --because TEXT, then claimpack answer 26-0007 --undo --because TEXT"),
    ],
    ids=["waited for", "paid"],
)
def test_how_a_mistaken_answer_is_taken_back_depends_on_the_money(paid_before, way):
    step = Step(on=TODAY, claim="26-0007")
    with pytest.raises(BadInput) as caught:
        settling.answered(standing(IN_PART, *paid_before), step, "refused", "", form=False)
    assert way in caught.value.do


def test_a_maker_may_give_in_twice_on_one_day():
    first = standing(IN_PART, answered("part", "120", start=standing(IN_PART)))
    assert answered("part", "130", start=first).facts["amount"] == "130.00"


def test_an_answer_that_is_not_given_is_asked_for():
    with pytest.raises(BadInput, match="ANSWER is missing: what did the maker say to claim 26-0001"):
        settling.answered(standing(), Step(on=TODAY, claim="26-0001"), "", "", form=False)
