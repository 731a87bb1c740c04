from datetime import date
from decimal import Decimal

import pytest
from filed import FiledClaim
from new_events import accepted_in_part, happened, paid

from claimpack.core.events.fold import stand
from claimpack.core.payment.pending import pending
from claimpack.core.payment.refused_rests import refused_rests
from claimpack.core.payment.remarks import first_said, of_the_charge_back, remarks, rests_said, too_late_again
from claimpack.core.plans.terms import NOT_KNOWN, Terms
from claimpack.core.values.periods import period

TERMS = Terms(id="x", name="X", cites="Code 57.253", answer_within="P45D", silence="accepted", pay_within="P30D")
FILED = happened("filed", date(2026, 1, 2), claimed="150.00", currency="USD", received="2026-01-02", revision="1")
IN_TIME, LATE = date(2026, 2, 16), date(2026, 2, 17)


def answer(kind, on=LATE, why=""):
    return happened("answered", on, why, answer=kind)


def said(*since, terms=TERMS):
    return remarks("26-0001", stand([FILED, *since]), terms)


def test_a_late_answer_is_remarked_on_with_the_days_the_section_and_a_caution():
    assert " ".join(said(answer("accepted"))) == (
        "Silence accepted it on 2026-02-16, before the answer of 2026-02-17, and the last day to pay stays 2026-03-18: "
        "Code 57.253 (check the current text; not legal advice)."
    )


@pytest.mark.parametrize(
    ("late", "letter"),
    [
        (answer("refused", why="Misuse."), "A letter that contests the refusal: claimpack chase 26-0001."),
        (accepted_in_part("100.00", LATE), "A letter that contests the refusal of the rest: claimpack chase 26-0001."),
        (answer("questioned"), "A letter that says so: claimpack chase 26-0001."),
    ],
    ids=["refused", "part", "questioned"],
)
def test_a_late_answer_that_can_be_contested_names_the_letter(late, letter):
    assert said(late)[1].startswith(letter)


@pytest.mark.parametrize("answer_", [answer("refused"), answer("questioned"), accepted_in_part("100.00", LATE)])
def test_what_can_be_contested_is_given_up_by_filing_it_again(answer_):
    assert said(answer_)[1].endswith("Filing it again would start its time to answer anew.")


def test_a_late_answer_that_accepts_no_more_than_was_paid_names_the_letter_too():
    assert "letter that contests" in said(paid("100.00", LATE), accepted_in_part("100.00", LATE))[1]


def test_money_that_came_after_silence_and_was_taken_back_is_told_by_the_day_it_was_paid():
    (told,) = said(paid("150.00", LATE), happened("charged back", date(2026, 3, 2), amount="50.00"))
    assert "before the payment of 2026-02-17:" in told


def test_a_late_answer_to_a_claim_paid_in_full_is_not_remarked_on():
    assert said(paid("150.00", LATE), answer("accepted")) == ()


def test_an_answer_in_time_is_not_remarked_on():
    assert said(answer("refused", IN_TIME, "Misuse.")) == ()


def test_a_refusal_without_a_reason_says_that_none_is_recorded_and_how_to_give_it():
    assert " ".join(said(answer("refused", IN_TIME))) == (
        "No reason is recorded. Where the maker gave one: claimpack answer 26-0001 --undo --because TEXT, then the "
        "answer again with --because."
    )


def test_where_the_terms_say_so_a_refusal_without_grounds_counts_as_acceptance():
    terms = TERMS.model_copy(update={"without_grounds": "accepted"})
    told, letter = said(answer("refused", IN_TIME), terms=terms)[1:]
    assert ("57.253" in told, "last day to pay is" in told, "claimpack chase" in letter) == (True, True, True)


@pytest.mark.parametrize(
    ("day", "terms"),
    [(LATE, TERMS), (IN_TIME, TERMS.model_copy(update={"pay_within": None}))],
    ids=["silence had accepted it before", "no time to pay"],
)
def test_a_refusal_without_grounds_sets_no_day_to_pay_where_none_runs_from_it(day, terms):
    told = said(answer("refused", day), terms=terms.model_copy(update={"without_grounds": "accepted"}))
    assert [part for part in told if "counts as acceptance" in part and "last day" not in part]


AGAIN = Terms(id="x", name="X", cites="Code 19.98", resubmit_within="P30D", audit_reach="P1Y")
FOR_FORM = happened("answered", date(2026, 1, 10), answer="refused", form="yes")


@pytest.mark.parametrize(("day", "told"), [(8, 0), (9, 0), (10, 1)], ids=["before", "the last day", "after"])
def test_the_day_after_the_last_one_to_send_it_in_again_is_too_late(day, told):
    said = too_late_again(stand([FILED, FOR_FORM]), AGAIN, date(2026, 2, day))
    assert len(said) == told
    assert all("Code 19.98" in each for each in said)


def test_a_refusal_of_substance_has_no_last_day_to_send_it_in_again():
    refused = happened("answered", date(2026, 1, 10), answer="refused")
    assert too_late_again(stand([FILED, refused]), AGAIN, date(2027, 1, 1)) == ()


PAID = [FILED, answer("accepted", IN_TIME), paid("150.00", date(2026, 3, 1))]


def taken_back(on, terms=AGAIN):
    return of_the_charge_back("26-1", stand([*PAID, happened("charged back", on, "Audit.", amount="40.00")]), terms)


def test_a_charge_back_in_time_is_not_remarked_on():
    assert taken_back(date(2027, 3, 1)) == ()


@pytest.mark.parametrize(("day", "late"), [(2, "1 day before"), (3, "2 days before")])
def test_how_late_a_charge_back_came_is_told_in_days(day, late):
    assert late in taken_back(date(2027, 3, day))[0]


def test_without_terms_no_charge_back_is_remarked_on():
    assert taken_back(date(2029, 1, 1), None) == ()


IN_A_MONTH = TERMS.model_copy(update={"answer_within": period("P30D")})


def rests(*amounts, currency="USD", terms=None, **facts):
    claims = [
        FiledClaim(f"26-{place:04}", "Halden", "paid", currency=currency, refused_rest=Decimal(amount), **facts)
        for place, amount in enumerate(amounts, start=1)
    ]
    return refused_rests(reversed(claims), {claim.number: terms for claim in claims} if terms else {})


def test_nothing_refused_is_nothing_said():
    assert rests_said(rests("0")) == ()


@pytest.mark.parametrize(
    ("amounts", "said"),
    [
        (["59.70"], "59.70 USD refused on 1 claim accepted in part; resubmit or write off: 26-0001"),
        (["5", "7"], "12.00 USD refused on 2 claims accepted in part; resubmit or write off: 26-0001, 26-0002"),
    ],
)
def test_the_sum_and_the_claims_are_said(amounts, said):
    assert rests_said(rests(*amounts)) == (said,)


def test_of_many_claims_six_are_named_and_the_others_counted():
    assert rests_said(rests(*["1"] * 8))[0].endswith("26-0005, 26-0006 and 2 more")


def test_currencies_are_not_added_up():
    (said,) = rests_said([*rests("5"), *rests("6", currency="EUR")])
    assert said.startswith("6.00 EUR and 5.00 USD refused on 2 claims")


def test_what_silence_had_accepted_is_to_be_contested_and_told_apart():
    silent = rests("5.00", terms=IN_A_MONTH, heard=date(2026, 2, 2))
    in_time = rests("7.00", terms=IN_A_MONTH, heard=date(2026, 2, 1))
    contested, to_decide = rests_said([*in_time, *silent])
    assert contested.startswith("5.00 USD refused on 1 claim accepted in part after silence had accepted the whole")
    assert ("claimpack chase CLAIM" in contested, "resubmit or write off" in to_decide) == (True, True)


def test_a_refusal_for_form_has_its_reason():
    assert said(happened("answered", IN_TIME, answer="refused", form="yes")) == ()


WATCHED = Terms(id="x", name="X", answer_within="P30D", silence="accepted", pay_within="P30D", audit_reach="P30D")
TODAY = date(2026, 3, 13)
ACCEPTED = {"state": "accepted", "accepted_on": date(2026, 1, 10)}
CHARGED = {**ACCEPTED, "charged_back_on": date(2026, 3, 1), "charged_from": date(2026, 1, 20)}
KINDS = ("is overdue", "owed again", "an audit could reach", "silence had accepted", "for the shop", "nobody can say")


def first(*claims, terms=WATCHED, today=TODAY):
    numbered = [claim._replace(number=f"26-{place}") for place, claim in enumerate(claims)]
    return first_said(pending(numbered, {claim.number: terms for claim in numbered}, today), today)


def kinds(*claims, **how):
    sentence = first(*claims, **how)
    return [kind for kind in KINDS if kind in sentence]


@pytest.mark.parametrize(
    ("facts", "kind"),
    [
        ({}, "is overdue"),
        ({**ACCEPTED, "owed_again": date(2026, 3, 1)}, "owed again"),
        (CHARGED, "an audit could reach"),
        ({**CHARGED, "owed_again": date(2026, 3, 1)}, "an audit could reach"),
        ({"part_awaited": True}, "for the shop"),
        ({"state": "questioned"}, "for the shop"),
    ],
    ids=["late", "taken back", "of a part paid", "too late", "waits for its part", "a question"],
)
def test_each_claim_is_counted_once_under_what_a_letter_about_it_would_ask(facts, kind):
    assert kinds(FiledClaim(**facts)) == [kind]


def test_of_several_late_claims_the_latest_gives_the_days():
    older = FiledClaim(filed=date(2025, 12, 27), received=date(2025, 12, 27))
    assert "2 claims, by up to 16 days" in first(FiledClaim(), older)


@pytest.mark.parametrize(("count", "verb"), [(1, "1 filed claim waits"), (2, "2 filed claims wait ")])
def test_how_many_claims_wait_for_the_shop_is_said(count, verb):
    assert verb in first(*[FiledClaim(state="questioned")] * count)


@pytest.mark.parametrize("state", ["refused", "questioned"])
@pytest.mark.parametrize(
    ("today", "terms", "kind"),
    [
        (date(2026, 3, 3), WATCHED, "for the shop"),
        (date(2026, 3, 4), WATCHED, "silence had accepted"),
        (date(2026, 2, 20), WATCHED.model_copy(update={"pay_within": None}), "silence had accepted"),
    ],
    ids=["the last day to pay", "the day after", "no day to pay"],
)
def test_an_answer_after_silence_is_to_be_contested_once_no_time_to_pay_is_left(state, today, terms, kind):
    late = FiledClaim(state=state, answered=date(2026, 2, 10), heard=date(2026, 2, 10))
    assert kinds(late, today=today, terms=terms) == [kind]


def test_an_answer_in_time_is_the_shops_to_move_and_not_said_to_be_contested():
    in_time = FiledClaim(state="refused", answered=date(2026, 1, 10), heard=date(2026, 1, 10))
    assert kinds(in_time) == ["for the shop"]


@pytest.mark.parametrize(
    ("facts", "kind"),
    [
        ({}, "nobody can say"),
        (ACCEPTED, "nobody can say"),
        ({"state": "refused"}, "for the shop"),
        ({**ACCEPTED, "owed_again": date(2026, 3, 1)}, "owed again"),
    ],
    ids=["filed", "accepted", "refused", "taken back"],
)
def test_where_terms_are_not_known_nobody_can_say_of_what_the_maker_owes_by_them(facts, kind):
    assert kinds(FiledClaim(**facts), terms=NOT_KNOWN) == [kind]


@pytest.mark.parametrize(("count", "whose"), [(1, ": its terms"), (2, ": their terms")])
def test_one_claim_has_its_terms_and_two_have_theirs(count, whose):
    assert whose in first(*[FiledClaim()] * count, terms=NOT_KNOWN)
