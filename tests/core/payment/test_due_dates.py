from datetime import date, timedelta
from decimal import Decimal
from typing import NamedTuple

import pytest

from claimpack.core.claims.part_codes import PartCode
from claimpack.core.payment.due_dates import due, look_again, starts_of
from claimpack.core.plans.terms import Terms
from claimpack.core.steps.notes import Note
from claimpack.core.values.periods import moved, period

TODAY = date(2026, 2, 15)
UNTIL = date(2026, 3, 1)
TERMS = Terms(
    id="x",
    name="x",
    cites="Code 1",
    answer_within="P30D",
    silence="accepted",
    pay_within="P30D",
    resubmit_within="P30D",
    inspect_within="P60D",
    audit_reach="P1Y",
)


class Dated(NamedTuple):
    """A claim as the list of dates sees it."""

    number: str = "26-0001"
    state: str = "filed"
    filed: date | None = None
    received: date | None = None
    answered: date | None = None
    heard: date | None = None
    accepted_on: date | None = None
    refused_for_form: bool = False
    paid_on: date | None = None
    owed_again: date | None = None
    charged_back_on: date | None = None
    charged_from: date | None = None
    refused_rest: Decimal = Decimal(0)
    file_by: date | None = None
    approval_until: date | None = None
    part_awaited: bool = False
    gave_no_grounds: bool = False
    chased_on: date | None = None
    ask_again: date | None = None


class Part(NamedTuple):
    code: PartCode = PartCode("26-0001", 1)
    part: str = "short block"
    state: str = "held"
    send_by: date | None = None
    keep_until: date | None = None
    filed: date | None = None
    received: date | None = None


def listed(*claims, parts=(), terms=TERMS, today=TODAY, until=UNTIL):
    return due(claims, parts, {"26-0001": terms} if terms else {}, (today, until))


def dates(*claims, **how):
    return [(item.what, item.on, item.whose) for item in listed(*claims, **how)]


def filed(day, **facts):
    return Dated(filed=day, received=day, **facts)


def test_a_draft_must_be_filed_by_the_makers_limit():
    assert dates(Dated(state="draft", file_by=UNTIL)) == [("file by", UNTIL, "shop")]


def test_an_approval_expires_while_the_repair_waits():
    assert dates(Dated(state="draft", approval_until=UNTIL)) == [("approval expires", UNTIL, "shop")]


@pytest.mark.parametrize(("left", "missed"), [(-1, True), (0, False), (1, False)])
def test_a_day_to_file_is_missed_from_the_day_after(left, missed):
    assert listed(Dated(state="draft", file_by=TODAY + timedelta(left)))[0].missed(TODAY) is missed


@pytest.mark.parametrize(("on", "told"), [(UNTIL - timedelta(1), 1), (UNTIL, 1), (UNTIL + timedelta(1), 0)])
def test_the_last_day_looked_at_is_included(on, told):
    assert len(dates(Dated(state="draft", file_by=on))) == told


def test_an_answer_is_expected_of_the_maker():
    assert dates(filed(date(2026, 1, 20))) == [("answer expected", date(2026, 2, 19), "maker")]


def test_when_silence_has_spoken_a_payment_is_expected_instead():
    assert dates(filed(date(2026, 1, 10)), until=date(2026, 3, 31)) == [
        ("payment expected", date(2026, 3, 11), "maker")
    ]


def test_a_payment_is_expected_after_an_acceptance():
    claim = filed(date(2026, 1, 10), state="accepted", accepted_on=date(2026, 1, 20))
    assert dates(claim) == [("payment expected", date(2026, 2, 19), "maker")]


def test_a_claim_refused_for_form_must_be_sent_in_again():
    claim = filed(date(2026, 1, 2), state="refused", answered=date(2026, 1, 25), refused_for_form=True)
    assert dates(claim) == [("resubmit by", date(2026, 2, 24), "shop")]


def test_an_answer_counted_from_filing_says_so():
    item = listed(Dated(filed=date(2026, 1, 20)))[0]
    assert "not noted" in item.because


def test_records_are_kept_as_long_as_an_audit_reaches():
    claim = filed(date(2025, 1, 2), state="paid", paid_on=date(2025, 2, 20))
    assert dates(claim) == [("keep records until", date(2026, 2, 20), "shop")]


@pytest.mark.parametrize(("ago", "kept"), [(-1, 1), (0, 1), (1, 0)])
def test_records_are_kept_for_the_last_day_of_an_audit_and_not_after(ago, kept):
    paid_on = date(2025, 2, 15) - timedelta(ago)
    assert len(dates(filed(date(2024, 1, 2), state="paid", paid_on=paid_on))) == kept


def test_a_part_called_back_must_be_sent():
    part = Part(state="called back", send_by=date(2026, 2, 10))
    assert dates(parts=[part]) == [("send the part by", date(2026, 2, 10), "shop")]


def test_a_part_called_back_without_a_day_has_none():
    assert dates(parts=[Part(state="called back")]) == []


@pytest.mark.parametrize(("on", "kept"), [(TODAY - timedelta(1), 0), (TODAY, 1), (UNTIL, 1)])
def test_a_part_must_be_kept_until_its_hold_ends(on, kept):
    assert dates(parts=[Part(keep_until=on)]) == [("keep the part until", on, "shop")] * kept


def test_a_part_is_kept_no_longer_than_the_time_to_inspect():
    item = listed(parts=[Part(keep_until=UNTIL, filed=date(2025, 12, 20))])[0]
    assert (item.on, item.cites) == (date(2026, 2, 18), "Code 1")


@pytest.mark.parametrize("state", ["released", "scrapped", "sent"])
def test_a_part_that_was_let_go_has_no_date(state):
    assert dates(parts=[Part(state=state, keep_until=UNTIL)]) == []


def test_without_terms_the_makers_dates_are_not_known():
    assert dates(filed(date(2026, 1, 20)), terms=None) == []


def test_the_earliest_comes_first():
    draft = Dated(number="26-0002", state="draft", file_by=date(2026, 2, 20))
    assert [item.on.day for item in listed(draft, filed(date(2026, 1, 20)))] == [19, 20]


def test_a_claim_named_twice_has_its_dates_once():
    claim = filed(date(2026, 1, 20))
    assert len(listed(claim, claim)) == 1


def test_a_date_of_the_terms_cites_their_section():
    assert listed(filed(date(2026, 1, 20)))[0].cites == "Code 1"


@pytest.mark.parametrize("what", ["file_by", "approval_until"])
def test_a_date_that_the_plan_or_the_maker_set_cites_no_section_of_the_terms(what):
    assert listed(Dated(state="draft", **{what: UNTIL}))[0].cites == ""


def test_what_a_letter_asked_for_says_that_it_went_out():
    item = listed(filed(date(2026, 1, 20), chased_on=TODAY))[0]
    assert item.because.endswith("; chased on 2026-02-15")


def test_what_no_letter_asks_for_says_nothing_of_one():
    assert "chased" not in listed(Dated(state="draft", file_by=UNTIL, chased_on=TODAY))[0].because


def test_a_claim_is_looked_at_again_on_the_day_that_its_note_names():
    item = look_again("26-0001", Note(TODAY, "Ann", "Owner calls\nback.", UNTIL))
    assert (item.on, item.claim, item.whose, item.because) == (
        UNTIL,
        "26-0001",
        "shop",
        "Ann on 2026-02-15: Owner calls back.",
    )


def test_a_date_keeps_its_name_when_its_day_moves():
    first, later = listed(filed(date(2026, 1, 20))), listed(filed(date(2026, 1, 22)))
    assert first[0].uid("Quarry Road") == later[0].uid("Quarry Road")


def test_two_shops_never_share_a_name():
    item = listed(filed(date(2026, 1, 20)))[0]
    assert item.uid("Quarry Road") != item.uid("Mill Lane")


def test_two_parts_of_a_claim_have_names_of_their_own():
    parts = [Part(keep_until=UNTIL), Part(code=PartCode("26-0001", 2), keep_until=UNTIL)]
    assert len({item.uid("") for item in listed(parts=parts)}) == 2


@pytest.mark.parametrize("between", [(date(2026, 2, 27), date(2026, 3, 2)), (date(2026, 5, 1), date(2026, 5, 11))])
@pytest.mark.parametrize("length", ["P30D", "P1M", "P1Y", "P13M", "P1M15D", "P1M1W", "P1Y30D"])
def test_no_day_that_ends_between_two_days_is_left_out(length, between):
    first, last = starts_of(period(length), between)
    days = [date(2024, 1, 1) + timedelta(days=count) for count in range(900)]
    ending = [day for day in days if between[0] <= moved(day, period(length)) <= between[1]]
    assert all(first <= day <= last for day in ending)


def test_an_answer_counted_from_receipt_says_so():
    assert listed(filed(date(2026, 1, 20)))[0].because.endswith("days from receipt on 2026-01-20")


REFUSING = TERMS.model_copy(update={"silence": "refused"})


@pytest.mark.parametrize(("today", "what"), [(date(2026, 2, 1), "answer expected"), (date(2026, 2, 2), "resubmit by")])
def test_a_claim_that_silence_refused_must_be_sent_in_again(today, what):
    items = listed(filed(date(2026, 1, 2)), terms=REFUSING, today=today, until=date(2026, 3, 3))
    assert [item.what for item in items] == [what]


def test_a_charge_back_after_an_audit_could_reach_is_to_be_contested():
    taken = {"charged_back_on": date(2026, 2, 10), "charged_from": date(2025, 2, 9)}
    claim = filed(
        date(2024, 12, 2), state="accepted", accepted_on=date(2025, 1, 2), owed_again=date(2026, 2, 10), **taken
    )
    assert [(item.what, item.on, item.cites) for item in listed(claim)] == [
        ("contest the charge-back", date(2026, 2, 10), "Code 1")
    ]


LATE = {"answered": date(2026, 2, 10), "heard": date(2026, 2, 10)}


def test_a_refusal_after_silence_is_to_be_contested_by_the_last_day_to_pay():
    claim = filed(date(2026, 1, 2), state="refused", **LATE)
    item = listed(claim, until=date(2026, 3, 3))[0]
    assert (item.what, item.on, item.whose, item.cites) == ("contest the refusal", date(2026, 3, 3), "shop", "Code 1")
    assert item.because.startswith("silence accepted it on 2026-02-01, before the refusal of 2026-02-10")


def test_an_acceptance_after_silence_is_paid_from_the_day_of_silence():
    claim = filed(date(2026, 1, 2), state="accepted", accepted_on=date(2026, 2, 10), **LATE)
    item = next(item for item in listed(claim, until=date(2026, 3, 3)) if item.what == "payment expected")
    assert (item.on, item.because) == (date(2026, 3, 3), "30 days from acceptance by silence on 2026-02-01")


def part_paid(rest):
    paid = {"state": "paid", "accepted_on": date(2026, 2, 10), "paid_on": date(2026, 2, 12)}
    return filed(date(2026, 1, 2), refused_rest=Decimal(rest), **paid, **LATE)


def test_a_rest_refused_after_silence_is_to_be_contested_though_the_accepted_part_is_paid():
    items = listed(part_paid("59.70"), until=date(2026, 3, 3))
    assert [(item.what, item.on, item.whose) for item in items] == [("contest the refusal", date(2026, 3, 3), "shop")]
    assert items[0].because.startswith("silence accepted all of it on 2026-02-01, before the refusal of the rest of")


def test_a_rest_that_was_let_go_is_not_to_be_contested():
    assert listed(part_paid("0"), until=date(2026, 3, 3)) == []
