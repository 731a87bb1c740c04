import datetime as dt
from datetime import date
from decimal import Decimal

import pytest
from filed import FiledClaim
from reported_claims import paid, shelved, told, waiting

from claimpack.core.events.events import Event
from claimpack.core.reporting.findings import (
    amount_said,
    held_finding,
    labour_finding,
    listed,
    lost_finding,
    months_finding,
    outstanding_finding,
    percent,
    recovery_finding,
    refusals_finding,
    repeats_finding,
    speed_finding,
)
from claimpack.core.reporting.losses import LostByCause
from claimpack.core.reporting.refusals import AnswersIn
from claimpack.core.reporting.work import Work

LONG_AGO = date(2025, 12, 1)


def answered(claim, answer="refused", why="", form=""):
    facts = {"answer": answer, "form": form}
    return Event.model_construct(claim=claim, what="answered", on=dt.date(2026, 2, 1), why=why, facts=facts)


@pytest.mark.parametrize(
    ("amount", "currency", "said"),
    [("1204.5", "USD", "1,204.50 USD"), ("1204.5", "JPY", "1,205 JPY"), ("7.1", "", "7.1")],
)
def test_an_amount_has_the_decimals_of_its_currency(amount, currency, said):
    assert amount_said(Decimal(amount), currency) == said


@pytest.mark.parametrize(
    ("share", "said"),
    [("0", "0 %"), ("0.004", "under 1 %"), ("0.005", "1 %"), ("0.725", "73 %"), ("0.999", "over 99 %"), ("1", "100 %")],
)
def test_little_is_not_nothing_and_nearly_all_is_not_all(share, said):
    assert percent(Decimal(share)) == said


@pytest.mark.parametrize(
    ("names", "said"),
    [("abcde", "a, b, c, d, e"), ("abcdef", "a, b, c, d, e, f"), ("abcdefg", "a, b, c, d, e and 2 more")],
)
def test_many_names_are_cut_short_and_counted(names, said):
    assert listed([*names]) == said


def test_what_is_old_is_told_first():
    found = told(owed=(FiledClaim("1", filed=LONG_AGO, outstanding=Decimal("812.40")), FiledClaim("2")))
    assert outstanding_finding(found.outstanding, "filed") == (
        "1 claim for 812.40 USD is older than 60 days since the last filing; 2 claims for 912.40 USD are unpaid in all."
    )


def test_nothing_old_is_said():
    found = told(owed=(FiledClaim(),))
    said = "1 claim for 100.00 USD is unpaid, none older than 60 days since the last filing."
    assert outstanding_finding(found.outstanding, "filed") == said


def test_two_currencies_are_two_sentences():
    found = told(owed=(FiledClaim("1"), FiledClaim("2", currency="CAD")))
    assert outstanding_finding(found.outstanding, "filed").count(" is unpaid") == 2


def test_nothing_unpaid_is_said():
    assert outstanding_finding((), "filed") == "Nothing is filed and unpaid."


def test_the_median_is_told_with_what_it_rests_on():
    claims = (*(paid(f"{n}") for n in range(5)), waiting("6"))
    assert speed_finding(told(claims).speed) == (
        "Half of the claims are paid in full within 30 days of filing "
        "(5 paid in full, 1 still open and counted as open)."
    )


def test_claims_that_nobody_waits_for_are_told_beside_the_median():
    claims = (*(paid(f"{n}") for n in range(5)), waiting("6", state="refused"))
    assert "1 more is refused, withdrawn or written off)." in speed_finding(told(claims).speed)


def test_nothing_settled_is_not_said_to_be_paid():
    assert recovery_finding(told((waiting("1"),)).recovered) == "No claim is settled yet."


def test_no_median_is_told_before_half_are_paid():
    found = told((*(paid(f"{n}") for n in range(5)), *(waiting(f"{n}") for n in range(10, 20))))
    assert speed_finding(found.speed).startswith("Fewer than half of the claims are paid in full so far")


def test_fewer_than_five_payments_are_told_one_by_one():
    found = told((paid("1"), paid("2", paid_on=date(2026, 2, 20)), waiting("3")))
    assert speed_finding(found.speed) == (
        "2 claims are paid in full, 30 and 41 days after filing: too few to draw a curve; 1 claim is still open."
    )


def test_a_single_payment_is_told_by_its_days():
    assert "in full, 30 days after filing: too few" in speed_finding(told((paid("1"),)).speed)


def test_as_many_paid_as_open_are_not_said_to_be_none():
    assert "1 claim is still open" in speed_finding(told((paid("1"), waiting("2"))).speed)


@pytest.mark.parametrize(
    ("in_part", "end"), [(1, " and paid in part."), (2, " 1 of them paid in part.")], ids=["the only one", "one of two"]
)
def test_an_open_claim_that_is_paid_in_part_is_told_so(in_part, end):
    some = [waiting("1", paid=Decimal("50.00")), waiting("2")][:in_part]
    assert speed_finding(told(tuple(some)).speed).endswith(end)


def test_no_payment_at_all_is_said():
    said = speed_finding(told((waiting(),)).speed)
    assert said == "No claim is paid in full yet, so no time to payment can be told: 1 claim is still open."


def test_part_payments_are_told_apart_from_claims_paid_in_full():
    part = waiting("2", state="accepted", paid=Decimal("50.00"))
    said = speed_finding(told((paid("3"), waiting(), part)).speed)
    assert said.startswith("1 claim is paid in full, ")
    assert said.endswith("; 2 claims are still open, 1 of them paid in part.")


def test_claims_that_nobody_waits_for_are_not_said_to_be_none():
    said = speed_finding(told((waiting(state="refused"),)).speed)
    assert said.startswith("1 claim filed in this period is refused, withdrawn or written off")


def test_no_claim_at_all_is_said():
    assert speed_finding(told().speed).startswith("No claim was filed in this period")


def test_the_money_is_told_with_its_share():
    short = paid("2", accepted=Decimal("70.00"), paid=Decimal("70.00"))
    assert months_finding(told((paid("1"), short, waiting("3"))).months) == (
        "Of 300.00 USD claimed, 170.00 USD (57 %) is paid, 100.00 USD is still outstanding and "
        "30.00 USD was not accepted."
    )


def test_of_nothing_claimed_no_share_is_told():
    nothing = waiting(claimed=Decimal(0), outstanding=Decimal(0))
    assert months_finding(told((nothing,)).months) == "Of 0.00 USD claimed, 0.00 USD is paid."


def test_refusals_are_told_with_the_reason_given_most():
    answers = (answered("1", why="No plate", form="yes"), answered("2", why="no plate."), answered("3", "accepted"))
    found = told((paid("1"), paid("2"), paid("3")), answers=answers)
    assert refusals_finding(found.answers) == (
        "2 of 3 answers were refusals, 1 of them for form alone; given most, 2 times: “No plate”."
    )


@pytest.mark.parametrize(
    ("refusals", "said"),
    [
        (1, "1 of 2 answers was a refusal, for form alone."),
        (2, "2 of 3 answers were refusals, all of them for form alone; given most, 2 times: “No plate”."),
    ],
)
def test_refusals_that_are_all_for_form_are_told_so(refusals, said):
    answers = [answered(f"{n}", why="No plate", form="yes") for n in range(refusals)]
    claims = tuple(paid(f"{n}") for n in range(10))
    found = told(claims, answers=(*answers, answered("9", "accepted")))
    assert refusals_finding(found.answers) == said


def test_reasons_given_equally_often_are_all_said_to_be_given_most():
    answers = [answered(f"{n}", why=("No plate", "Late")[n % 2]) for n in range(4)]
    found = told(tuple(paid(f"{n}") for n in range(4)), answers=answers)
    assert refusals_finding(found.answers).endswith("; given most, 2 times each: “Late”, “No plate”.")


def test_no_refusal_is_said():
    assert refusals_finding(told((paid("1"),), answers=(answered("1", "accepted"),)).answers) == (
        "1 answer came in, no refusal among them."
    )


def test_a_repeat_failure_names_model_and_component():
    found = told((paid("1", unit="A"), paid("2", unit="B")))
    assert repeats_finding(found.repeats) == "The short block failed on 2 different units of Halden CS-70."


def test_failures_on_equally_many_units_are_all_named():
    claims = [paid(f"{n}", unit=f"{n}", component=("coil", "piston")[n % 2]) for n in range(4)]
    assert repeats_finding(told(tuple(claims)).repeats) == (
        "The coil of Halden CS-70 and the piston of Halden CS-70 failed on 2 different units each."
    )


def test_no_repeat_failure_is_said():
    assert repeats_finding(told((paid(),)).repeats).startswith("No component failed on two units")


def test_held_parts_are_told_with_what_may_go_and_what_to_send():
    parts = (shelved(rule="r"), shelved(state="called back", send_by=date(2026, 3, 4)))
    assert held_finding(told(held=parts).held) == (
        "2 parts are in the shop; 1 may go now; 1 called back and to be sent, the first by 2026-03-04."
    )


def test_held_parts_of_claims_not_settled_are_told_as_better_kept():
    parts = (shelved(rule="r"), shelved(rule="r", doubt="unpaid"))
    assert held_finding(told(held=parts).held) == (
        "2 parts are in the shop; 1 may go now; 1 is better kept until the claim is settled."
    )


def test_no_held_part_is_said():
    assert held_finding(told().held) == "No part is held."


@pytest.mark.parametrize(
    ("parts", "unknown", "none_yet"),
    [
        ([shelved(terms_unread="us-zz")], 1, False),
        ([shelved(terms_unread="us-zz", rule="kept long enough")], 0, False),
        ([shelved(terms_unread="us-zz", state="called back")], 0, True),
        ([shelved()], 0, True),
    ],
)
def test_no_part_is_said_to_stay_by_terms_that_nobody_can_read(parts, unknown, none_yet):
    held = told(held=parts).held
    assert len(held.may_be_free) == unknown
    assert ("none may go yet" in held_finding(held)) == none_yet


@pytest.mark.parametrize(("count", "whose"), [(1, "its terms"), (2, "their terms")])
def test_terms_that_cannot_be_read_are_those_of_one_part_or_of_several(count, whose):
    held = told(held=[shelved(f"26-000{nth}/1", terms_unread="us-zz") for nth in range(count)]).held
    assert whose in held_finding(held)


def test_claims_that_nobody_waits_for_are_told_beside_the_others():
    said = speed_finding(told((waiting("1"), waiting("2", state="refused"))).speed)
    assert said.endswith("1 claim is still open; 1 more is refused, withdrawn or written off.")


def test_money_of_claims_that_nobody_waits_for_is_told():
    taken_back = paid(state="written off", paid=Decimal(0), outstanding=Decimal(0))
    found = speed_finding(told((taken_back, paid("2", state="refused", paid_on=None))).speed)
    assert found.endswith("so no time to payment can be told; 1 of them had brought money.")


def test_what_is_lost_is_told_with_what_the_shop_might_have_saved():
    found = (LostByCause("missed filing", "USD", 1, Decimal(7)), LostByCause("refused", "USD", 2, Decimal(5)))
    assert lost_finding(found) == "12.00 USD counts as lost; 7.00 USD of it the shop might have saved."


@pytest.mark.parametrize(("second", "hours"), [(Decimal(100), "they"), (None, "1 h of them")], ids=["known", "unknown"])
def test_only_hours_of_days_with_a_known_rate_are_held_against_it(second, hours):
    work = Work("Replace seal", "Jory", Decimal(1), Decimal(1), Decimal(90), Decimal(100))
    said = labour_finding(told((paid(work=(work, work._replace(retail=second))),)))
    assert f"at the shop's own rate {hours} would bring" in said


@pytest.mark.parametrize(("retail", "than"), [("89.99", "less"), ("90.00", "more"), ("90.01", "more")])
def test_the_shops_own_rate_is_told_to_bring_less_or_more_than_the_makers(retail, than):
    work = Work("Replace seal", "Jory", Decimal(1), Decimal(1), Decimal("90.00"), Decimal(retail))
    assert labour_finding(told((paid(work=(work,)),))).endswith(f" USD {than}.")


def test_where_only_favours_were_answered_that_is_not_told_as_no_answer():
    assert refusals_finding(AnswersIn(0, (), 1)) != refusals_finding(AnswersIn(0, ()))
