from __future__ import annotations

from datetime import date, timedelta
from decimal import Decimal

import pytest

from claimpack.core.payment.next_step import waits_for
from claimpack.core.payment.pending import pending
from claimpack.core.payment.remarks import first_said
from claimpack.core.plans.terms import NOT_KNOWN, Terms, not_read
from claimpack.core.reporting.three_amounts import Watched, as_json, by_shop, left_out, three_amounts
from claimpack.core.steps.listed import ListedClaim, ListedPart
from claimpack.core.values.periods import Period

TODAY = date(2026, 3, 2)
TERMS = Terms(id="x", name="x", answer_within="P30D", silence="accepted", pay_within="P30D", resubmit_within="P30D")
BLANK = dict.fromkeys(ListedClaim._fields, None) | {"claimed": Decimal("100.00"), "outstanding": Decimal("100.00")}
BLANK |= {"paid": Decimal(0), "refused_rest": Decimal(0), "currency": "USD", "maker": "Halden", "verdict": "covered"}
PART = dict.fromkeys(ListedPart._fields, "") | {"state": "called back", "currency": "USD", "paid": Decimal("80.00")}
PART |= {"claim": "26-0001", "nth": 1, "part": "short block", "outstanding": Decimal("20.00")}


def day(days):
    return TODAY + timedelta(days=days)


def claim(number="26-0001", **facts):
    return ListedClaim(**{**BLANK, "number": number, **facts})


def draft(**facts):
    return claim(state="draft", **facts)


def filed(number="26-0001", ago=10, **facts):
    return claim(number, **{"state": "filed", "filed": day(-ago), "received": day(-ago), **facts})


def part(send_by, **facts):
    return ListedPart(**{**PART, "send_by": send_by, **facts})


def amounts(*claims, parts=(), terms=TERMS):
    return three_amounts(Watched(claims, parts, {one.number: terms for one in claims}), TODAY)


def numbers(some):
    return [one.claim for one in some]


@pytest.mark.parametrize(("ahead", "lost"), [(-1, 0), (0, 1), (7, 1), (8, 0)])
@pytest.mark.parametrize("what", ["file_by", "approval_until"])
def test_a_day_of_a_draft_within_the_week_can_lose_its_money(what, ahead, lost):
    assert len(amounts(draft(**{what: day(ahead)})).can_be_lost) == lost


def test_a_draft_can_lose_what_it_would_claim_and_a_refused_claim_what_is_outstanding():
    unpaid = draft(file_by=TODAY, claimed=Decimal(90), outstanding=Decimal(0))
    refused = claim("2", state="refused", filed=day(-60), answered=day(-25), refused_for_form=True)
    found = amounts(unpaid, refused._replace(claimed=Decimal(80), outstanding=Decimal(70))).can_be_lost
    assert [one.amount for one in found] == [90, 70]


@pytest.mark.parametrize(("ago", "lost"), [(22, 0), (23, 1), (30, 1), (31, 0)])
def test_a_refused_claim_whose_time_to_resubmit_ends_within_the_week_can_be_lost(ago, lost):
    found = amounts(claim(state="refused", filed=day(-60), answered=day(-ago), refused_for_form=True))
    assert len(found.can_be_lost) == lost


@pytest.mark.parametrize(("send_by", "lost"), [(day(-90), 1), (day(7), 1), (day(8), 0), (None, 1)])
def test_a_part_called_back_puts_at_stake_all_that_its_claim_brings(send_by, lost):
    found = amounts(parts=[part(send_by)]).can_be_lost
    assert [one.amount for one in found] == [Decimal("100.00")] * lost


@pytest.mark.parametrize(("send_by", "is_missed"), [(day(-1), True), (TODAY, False), (day(1), False), (None, False)])
def test_what_was_to_be_done_by_a_day_is_missed_once_that_day_is_over(send_by, is_missed):
    found = amounts(parts=[part(send_by)])
    assert [found.is_missed(one) for one in found.can_be_lost] == [is_missed]


@pytest.mark.parametrize(("send_by", "late"), [(day(-1), True), (TODAY, False), (day(1), False)])
def test_a_part_is_late_from_the_day_after_it_was_to_be_sent(send_by, late):
    assert [" late" in one.what for one in amounts(parts=[part(send_by)]).can_be_lost] == [late]


def test_a_part_called_back_puts_more_at_stake_than_its_claim_has_outstanding():
    refused = filed(ago=60, state="refused", answered=day(-25), refused_for_form=True, outstanding=Decimal("20.00"))
    assert [one.amount for one in amounts(refused, parts=[part(None)]).can_be_lost] == [Decimal("100.00")]


def test_two_parts_of_one_claim_put_its_money_at_stake_once():
    found = amounts(parts=[part(day(3)), part(day(1), nth=2)]).can_be_lost
    assert [(one.claim, one.amount, one.by) for one in found] == [("26-0001", Decimal("100.00"), day(1))]


@pytest.mark.parametrize(("ago", "late"), [(30, 0), (60, 0), (61, 1)], ids=["to answer", "silent, to pay", "late"])
def test_a_maker_is_late_once_its_day_to_pay_is_past(ago, late):
    assert len(amounts(filed(ago=ago)).late) == late


@pytest.mark.parametrize(
    ("facts", "by"),
    [({}, day(-10)), ({"state": "accepted", "accepted_on": day(-31)}, day(-1))],
    ids=["to answer", "to pay"],
)
def test_what_a_maker_is_late_with_was_due_by_its_day_to_pay_else_to_answer(facts, by):
    asks = TERMS.model_copy(update={"silence": "nothing"})
    assert [one.by for one in amounts(filed(ago=40, **facts), terms=asks).late] == [by]


@pytest.mark.parametrize(("received", "is_asked"), [(day(-31), False), (None, True)], ids=["noted", "not noted"])
def test_an_answer_counted_from_filing_is_late_as_far_as_anybody_noted(received, is_asked):
    asks = TERMS.model_copy(update={"silence": "nothing"})
    late = amounts(filed(ago=31, received=received), terms=asks).late
    assert ["ask when it was received" in one.what for one in late] == [is_asked]


def test_money_taken_back_is_late_from_the_day_after():
    back = filed(state="accepted", accepted_on=day(-9), owed_again=day(-1))
    assert (numbers(amounts(back).late), numbers(amounts(back._replace(owed_again=TODAY)).late)) == (["26-0001"], [])


@pytest.mark.parametrize(
    "facts",
    [
        {"state": "accepted", "accepted_on": day(-50)},
        {"state": "refused", "answered": day(-50), "heard": day(-50), "gave_no_grounds": True},
    ],
    ids=["accepted", "refused without grounds"],
)
def test_an_accepted_claim_that_waits_for_its_part_is_the_shops_and_not_late(facts):
    bare = TERMS.model_copy(update={"without_grounds": "accepted"})
    found = amounts(filed(ago=60, part_awaited=True, **facts), terms=bare)
    assert (numbers(found.late), numbers(found.only_the_shop)) == ([], ["26-0001"])


SHOPS = [
    (draft(), True),
    (draft(approval_state="asked"), False),
    (draft(verdict="not covered", claimed=Decimal(0)), False),
    (filed(state="questioned"), True),
    (filed(state="refused", answered=day(-40)), True),
    (filed(), False),
    (claim(state="paid", filed=day(-50), outstanding=Decimal(0), refused_rest=Decimal(9)), True),
]


@pytest.mark.parametrize(
    ("one", "ours"), SHOPS, ids=["draft", "asked", "not covered", "question", "refusal", "filed", "a refused rest"]
)
def test_what_waits_for_the_shop_alone_is_its_to_move(one, ours):
    assert bool(amounts(one).only_the_shop) == ours


def test_a_refused_rest_has_the_step_that_lists_have():
    one = claim(state="paid", filed=day(-50), outstanding=Decimal(0), refused_rest=Decimal(9))
    assert [each.what for each in amounts(one).only_the_shop] == [waits_for(one, TERMS, TODAY)]


def test_most_money_stands_first_whatever_the_days_and_currencies_apart():
    many = [
        filed("1", ago=300),
        filed("2", ago=70, outstanding=Decimal(900)),
        filed("3", ago=99, currency="CAD", outstanding=Decimal(999)),
    ]
    assert numbers(amounts(*many).late) == ["2", "1", "3"]


def test_currencies_are_never_added():
    found = as_json(amounts(filed("1", ago=70), filed("2", ago=70, currency="JPY", outstanding=Decimal(90))))
    assert found["late"]["amounts"] == {"JPY": "90", "USD": "100.00"}


def test_a_claim_in_two_lists_is_counted():
    late = filed(ago=70)
    assert amounts(late, filed("2", ago=70), parts=[part(day(-1))]).in_two == 1


def test_without_terms_nothing_is_late():
    assert three_amounts(Watched((filed(ago=500),)), TODAY).late == ()


def test_a_refusal_after_silence_is_late_once_the_day_to_pay_is_past():
    def refused(ago):
        return filed(state="refused", ago=ago, answered=day(-ago + 40), heard=day(-ago + 40), decided=day(-ago + 40))

    assert [len(amounts(refused(ago)).late) for ago in (60, 61)] == [0, 1]


AUDITED = TERMS.model_copy(update={"audit_reach": Period(days=30), "audit_from": "paid"})
ACCEPTED = {"state": "accepted", "accepted_on": day(-60)}
BACK = filed("back", 90, **ACCEPTED, owed_again=day(-20))
BEYOND = filed("beyond", 90, **ACCEPTED, charged_back_on=day(-1), charged_from=day(-50))
REFUSED = filed("refused", 90, state="refused", answered=day(-40), heard=day(-40))


def first(*claims):
    terms = {one.number: AUDITED for one in claims}
    return first_said(pending(claims, terms, TODAY), TODAY), len(amounts(*claims, terms=AUDITED).late)


@pytest.mark.parametrize(
    ("claims", "said"),
    [
        ([filed(ago=70)], ("The maker's answer or payment is overdue on 1 claim, by up to 10 days.", 1)),
        ([BACK], ("Money charged back is owed again on 1 claim.", 1)),
        ([BEYOND], ("1 charge-back came after an audit could reach, to be contested.", 1)),
        ([REFUSED], ("1 answer came after silence had accepted, to be contested.", 1)),
        ([filed(state="questioned")], ("1 filed claim waits for the shop.", 0)),
        ([filed()], ("No answer and no payment is overdue, and no filed claim waits for the shop.", 0)),
        ([], ("Nothing is filed and not settled.", 0)),
    ],
    ids=["overdue", "owed again", "beyond an audit", "refused too late", "asked", "nothing to do", "nothing"],
)
def test_what_makers_are_late_with_is_said_as_it_is_counted(claims, said):
    assert first(*claims) == said


@pytest.mark.parametrize("terms", [NOT_KNOWN, not_read("us-zz")], ids=["another shop's", "not read"])
def test_of_a_claim_whose_terms_are_not_known_nobody_says_that_nothing_is_overdue(terms):
    assert first_said(pending([filed()], {"26-0001": terms}, TODAY), TODAY) == (
        "Whether the maker is late with 1 claim nobody can say: its terms are not known here."
    )


def test_a_claim_that_is_late_in_two_ways_is_said_once():
    said, late = first(filed("late", 70), BEYOND._replace(owed_again=day(-2)))
    assert (said.count("1 c"), late) == (2, 2)


def test_whose_claims_are_left_out_is_said_where_terms_are_not_known():
    assert left_out("late", amounts(), ("", "mill")) == ", without those of no shop, mill"
    assert left_out("late", amounts(), ()) == left_out("can_be_lost", amounts(), ("mill",)) == ""


def test_a_claim_whose_terms_cannot_be_read_is_left_out_of_what_is_late():
    found = amounts(filed(ago=400), terms=not_read("us-zz"))
    assert (found.late, left_out("late", found, ())) == ((), ", without those under us-zz")
    assert [one.late for one in by_shop(found, {"26-0001": "ashby"})] == [None, None]


def test_a_rest_to_decide_stays_the_shops_when_the_payment_of_the_part_is_late():
    part = filed(ago=90, state="accepted", accepted_on=day(-30), answered=day(-30), heard=day(-30), decided=day(-30))
    part = part._replace(outstanding=Decimal("60.00"), refused_rest=Decimal("40.00"), received=None)
    sums = [[amounts(part._replace(accepted_on=day(-ago))) for ago in (30, 31)]]
    assert [[one.amount for one in found.late + found.only_the_shop] for found in sums[0]] == [
        [Decimal("40.00")],
        [Decimal("60.00"), Decimal("40.00")],
    ]


def test_a_rest_that_silence_had_accepted_is_late_with_the_part_and_counted_once():
    part = filed(ago=90, state="accepted", accepted_on=day(-40), answered=day(-40), heard=day(-40), decided=day(-40))
    found = amounts(part._replace(outstanding=Decimal("60.00"), refused_rest=Decimal("40.00")))
    assert ([one.amount for one in found.late], found.only_the_shop) == ([Decimal("100.00")], ())
