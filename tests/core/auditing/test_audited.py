from datetime import date
from decimal import Decimal

import pytest
from audits import DRAFT, FILED, REFUSED, WITHDRAWN, an_audited, found_by

from claimpack.core.auditing.audited import Scope, listed
from claimpack.core.events.events import NewEvent
from claimpack.core.judging.claim_summary import ClaimSummary
from claimpack.core.steps.filing import filing_course


def happened(what, day, why=""):
    return NewEvent(what=what, on=date(2026, 3, day), why=why)


def test_a_claim_sent_again_was_first_filed_on_its_first_day():
    course = filing_course([happened("filed", 1), happened("answered", 2), happened("filed", 5)])
    assert course.first_filed == date(2026, 3, 1)


def test_a_correction_counts_until_the_claim_is_sent_again():
    events = [happened("filed", 1), happened("corrected", 2, "hours"), happened("filed", 5)]
    assert filing_course(events[:2])[1:3] == (date(2026, 3, 2), "hours")
    assert filing_course(events).corrected is None


def test_what_spoke_against_the_last_filing_counts():
    over = NewEvent(what="filed", on=date(2026, 3, 1), why="They know.", facts={"verdict": "undecided"})
    course = filing_course([over])
    assert (course.verdict, course.anyway) == ("undecided", "They know.")
    assert filing_course([over, happened("filed", 5)]).anyway == ""


def test_a_reason_that_nothing_asked_for_is_no_filing_over_a_block():
    over = NewEvent(what="filed", on=date(2026, 3, 1), why="They know.", facts={"against": "nothing"})
    assert filing_course([over])[3:6] == ("", "", "")


def test_a_withdrawn_claim_begins_anew():
    course = filing_course([happened("filed", 1), happened("withdrawn", 2), happened("filed", 9)])
    assert course.first_filed == date(2026, 3, 9)


@pytest.mark.parametrize(
    ("standing", "with_the_maker", "asks"),
    [(DRAFT, False, True), (FILED, True, True), (REFUSED, True, False), (WITHDRAWN, False, False)],
    ids=lambda value: getattr(value, "state", None),
)
def test_where_a_claim_stands_says_what_it_asks_for(standing, with_the_maker, asks):
    audited = an_audited()._replace(standing=standing)
    assert (audited.is_with_the_maker, audited.asks_for_money) == (with_the_maker, asks)


def test_a_filed_claim_claims_what_it_was_filed_with():
    audited = an_audited()._replace(summary=ClaimSummary(claimed="90.00"))
    assert audited.claimed == Decimal("100.00")
    assert audited._replace(standing=DRAFT).claimed == Decimal("90.00")


def test_a_unit_without_a_serial_of_its_own_is_known_by_the_first():
    assert an_audited(unit__serials=[{"role": "engine", "value": "E70-1"}]).unit_key == "e701"


def test_a_unit_without_serials_is_not_known():
    assert an_audited(unit__serials=[]).unit_serial == ""


@pytest.mark.parametrize(
    ("numbers", "said"),
    [
        (["2"], "2"),
        (["2", "1", "2"], "1 and 2"),
        (["1", "2", "3"], "1, 2 and 3"),
        (list("12345"), "1, 2, 3, 4 and 5"),
        (list("123456"), "1, 2, 3, 4, 5 and 1 more"),
        (list("1234567"), "1, 2, 3, 4, 5 and 2 more"),
    ],
    ids=["one", "two", "three", "five", "six", "seven"],
)
def test_numbers_are_listed_as_a_person_would(numbers, said):
    assert listed(numbers) == said


def paid_beyond():
    paid = {"claimed": "1000.00", "payments": [{"on": "2026-03-02", "amount": "1908.82"}]}
    standing = FILED.model_validate(FILED.model_dump() | paid)
    return found_by("paid-beyond", an_audited("2026", "1240")._replace(standing=standing))[0]


def test_amounts_are_said_with_their_thousands_apart_and_read_as_they_were_written():
    assert paid_beyond().said == "1,000.00 was claimed, and 1,908.82 came in."
    assert paid_beyond().what == "1000.00 was claimed, and 1908.82 came in."


def test_evidence_is_said_like_its_sentence_and_its_days_stay_days():
    assert paid_beyond().evidence_said == {"payments": "2026-03-02 1,908.82"}
    assert paid_beyond().evidence == {"payments": "2026-03-02 1908.82"}


def test_a_number_that_counts_nothing_is_never_grouped():
    part = {"number": "4410", "name": "Coil", "unit_cost": "1240"}
    claims = [an_audited(str(2026 + place), "7001", parts=[part]) for place in range(2)]
    said = next(each for each in found_by("part-claimed-twice", *claims))
    assert ("4410" in said.said, said.evidence_said["serial"]) == (True, "7001")


def test_meter_readings_under_a_claim_s_number_are_said_as_figures():
    read = [an_audited(f"26-000{n}", unit__hours=hours) for n, hours in ((1, "1240"), (2, "1100.5"))]
    (found,) = found_by("meter-backwards", *read)
    assert [found.evidence_said[f"26-000{n}"] for n in (1, 2)] == ["1,240", "1,100.5"]


def test_an_empty_scope_holds_every_claim():
    assert Scope().holds(an_audited())


@pytest.mark.parametrize(
    ("scope", "holds"),
    [
        (Scope(numbers=frozenset(["26-0001"])), True),
        (Scope(numbers=frozenset(["26-0002"])), False),
        (Scope(maker="HALDEN"), True),
        (Scope(maker="orrin-vale"), False),
        (Scope(since=date(2026, 2, 25)), True),
        (Scope(since=date(2026, 2, 26)), False),
    ],
    ids=["number", "other number", "maker", "other maker", "filed that day", "filed before"],
)
def test_a_scope_narrows_what_an_audit_is_about(scope, holds):
    assert scope.holds(an_audited()) is holds


def test_a_claim_not_filed_is_counted_from_the_day_it_came_in():
    draft = an_audited()._replace(standing=DRAFT)
    assert Scope(since=date(2026, 2, 5)).holds(draft)
    assert not Scope(since=date(2026, 2, 6)).holds(draft)
