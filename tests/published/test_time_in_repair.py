"""Time in repair that lengthens a warranty, by law: worked examples, judged with the shipped rule.

A year from 2025-03-01, of a unit bought for use at home in California, ends on 2026-03-01 without any.
"""

from __future__ import annotations

from datetime import date
from typing import Any

import pytest
from pydantic import ValidationError

from claimpack.core.claims.claim import Claim
from claimpack.core.facts.keys import record_from
from claimpack.core.judging.assessment import Assessment, assess
from claimpack.core.plans.plan import Plan, WindowSet
from claimpack.core.verdict.coverage import Judgement, judge
from claimpack.template_files import COVERAGE, Places, template

JUNE = {"component": "starter", "presented": "2025-06-10", "repaired": "2025-06-20", "returned": "2025-06-24"}
WORDS: dict[str, list[str]] = {"engine": [], "starter": []}
SEPTEMBER = {"component": "starter", "presented": "2025-09-01", "repaired": "2025-09-03", "returned": "2025-09-03"}


def judged(presented: str, *earlier: dict[str, Any], use: str | None = "household") -> Judgement:
    """A claim for an engine under a plan of a year, which takes the rule in."""
    keys = {
        "number": "1",
        "maker": "maker",
        "unit": {"model": "S-1", "sold_in": "US-CA", "use": use, "serials": []},
        "dates": {"purchased": "2025-03-01", "presented": presented},
        "failure": {"component": "engine"},
        "earlier": earlier,
    }
    window = {"id": "year", "covers": ["*"], "period": "P1Y"}
    own = Plan.model_validate({"id": "p", "maker": "maker", "currency": "USD", "window": [window], "words": WORDS})
    rule = record_from(WindowSet, template(COVERAGE, "us-ca-repair-time", Places()).keys, "us-ca-repair-time")
    return judge(Claim.model_validate(keys), own.with_windows_of(rule))


@pytest.mark.source("Cal. Civ. Code 1795.6(a), as a public page quotes it; the days are counted from it")
@pytest.mark.parametrize(("presented", "verdict"), [("2026-03-16", "covered"), ("2026-03-17", "not covered")])
def test_fifteen_days_in_repair_end_the_year_fifteen_days_later(presented, verdict):
    found = judged(presented, JUNE)
    assert (found.verdict, found.windows[0].ends) == (verdict, date(2026, 3, 16))


@pytest.mark.source("Cal. Civ. Code 1795.6(a), as a public page quotes it; the days are counted from it")
def test_the_days_of_two_repairs_add_up():
    assert judged("2026-03-19", JUNE, SEPTEMBER).window.ends == date(2026, 3, 19)


@pytest.mark.source("Cal. Civ. Code 1795.6(a)(1)-(3), as a public page quotes it: the first of three ends counts")
def test_the_days_end_when_the_owner_was_told_that_it_is_ready():
    assert judged("2026-03-01", {**JUNE, "returned": "2025-06-20"}).window.ends == date(2026, 3, 12)


@pytest.mark.source("Cal. Civ. Code 1795.6, 1795.7")
def test_the_section_is_cited_where_the_maker_owes_for_longer_because_of_it():
    (told,) = [reason.says for reason in judged("2026-03-16", JUNE).windows[0].reasons if "cites" in reason.says.facts]
    assert (told.key, told.facts["cites"]) == ("repair-time.by-law", "Cal. Civ. Code 1795.6, 1795.7")


@pytest.mark.source("Cal. Civ. Code 1795.6(a): consumer goods")
def test_a_unit_bought_for_work_is_not_lengthened():
    assert judged("2026-03-02", JUNE, use="professional").verdict == "not covered"


NOTIFIED = pytest.mark.source("Cal. Civ. Code 1795.6(b), as a public page quotes it; CACI 3231; the days are counted")
FEBRUARY = {"component": "engine", "presented": "2026-02-24", "repaired": "2026-02-24", "returned": "2026-02-24"}
NOT_MENDED = {**FEBRUARY, "mended": False}
DAY_60, DAY_61 = "2026-04-25", "2026-04-26"


def told_of_the_age(found: Judgement) -> list[str]:
    return [reason.says.key for reason in found.windows[0].reasons if reason.says.key.startswith("repair.")]


@NOTIFIED
@pytest.mark.parametrize(
    ("presented", "found"),
    [(DAY_60, ("covered", ["repair.unmended-by-law"])), (DAY_61, ("not covered", ["repair.unmended-late"]))],
    ids=["day 60", "day 61"],
)
def test_a_repair_that_did_not_mend_it_and_is_told_of_within_sixty_days_keeps_cover_open(presented, found):
    judgement = judged(presented, NOT_MENDED)
    assert (judgement.verdict, told_of_the_age(judgement)) == found


@NOTIFIED
@pytest.mark.parametrize(
    ("repair", "verdict"),
    [
        ({"mended": True}, "not covered"),
        ({"component": "starter"}, "not covered"),
        ({"repaired": "2026-03-03", "presented": "2026-03-03", "returned": "2026-03-03"}, "not covered"),
    ],
    ids=["mended", "of another component", "repaired after the year"],
)
def test_no_other_repair_keeps_cover_open(repair, verdict):
    assert judged("2026-04-20", {**NOT_MENDED, **repair}).verdict == verdict


@NOTIFIED
def test_whether_the_repair_mended_it_is_asked_where_it_decides_and_not_guessed():
    found = judged(DAY_60, FEBRUARY)
    asked = [reason.asks for reason in found.windows[0].reasons if reason.outcome == "unknown"]
    assert (found.verdict, asked) == ("undecided", ["earlier.mended"])


@NOTIFIED
@pytest.mark.parametrize(("told", "verdict"), [(DAY_60, "covered"), (DAY_61, "not covered")])
def test_an_owner_who_told_of_it_before_bringing_it_in_told_on_that_day(told, verdict):
    assert judged("2026-05-10", {**NOT_MENDED, "told": told}).verdict == verdict


@NOTIFIED
def test_a_repair_whose_day_of_completion_is_not_given_is_not_taken_in():
    with pytest.raises(ValidationError, match="repaired"):
        judged(DAY_60, {key: value for key, value in NOT_MENDED.items() if key != "repaired"})


@NOTIFIED
def test_an_owner_whose_use_is_not_given_is_asked_for_it():
    unit = judged(DAY_60, NOT_MENDED, use=None)
    asked = {reason.asks for reason in unit.windows[0].reasons if reason.outcome == "unknown"}
    assert (unit.verdict, asked) == ("undecided", {"unit.use"})


CONFORMITY = {"id": "conformity", "covers": ["*"], "period": "P2Y", "repair_adds": "P12M", "presumed_within": "P1Y"}
UNION = {"id": "p", "maker": "maker", "currency": "EUR", "start": ["delivered"]}
REPAIR = {"component": "starter", "repaired": "2027-05-04"}


def sold_in_the_union(presented: str, *earlier: dict[str, str], **window: Any) -> Assessment:
    """A consumer sale delivered on 2026-09-01, under a window that owes what the seller owes by law."""
    keys = {
        "number": "1",
        "maker": "maker",
        "unit": {"model": "S-1", "serials": []},
        "dates": {"delivered": "2026-09-01", "presented": presented},
        "failure": {"component": "engine"},
        "parts": [{"name": "ring", "unit_cost": "10.00"}],
        "earlier": earlier,
    }
    plan = Plan.model_validate({**UNION, "window": [{**CONFORMITY, **window}], "excluded": {"defects": ["wear"]}})
    return assess(Claim.model_validate(keys), [plan], date(2030, 1, 1))


@pytest.mark.memory
@pytest.mark.parametrize(("presented", "verdict"), [("2028-09-01", "covered"), ("2028-09-02", "not covered")])
def test_a_consumer_sale_in_the_union_binds_the_seller_for_two_years_from_delivery(presented, verdict):
    # From memory: Directive (EU) 2019/771 art. 10(1).
    assert sold_in_the_union(presented).verdict == verdict


@pytest.mark.memory
@pytest.mark.parametrize(("presented", "verdict"), [("2029-09-01", "covered"), ("2029-09-02", "not covered")])
@pytest.mark.parametrize("more", [(), ({"component": "engine", "repaired": "2028-10-01"},)], ids=["one", "two"])
def test_a_repair_lengthens_the_two_years_once_by_twelve_months(presented, verdict, more):
    # From memory: art. 10(2a) of that directive, as added by Directive (EU) 2024/1799 art. 16.
    assert sold_in_the_union(presented, REPAIR, *more).verdict == verdict


@pytest.mark.memory
@pytest.mark.parametrize(
    ("presented", "told"), [("2028-09-01", False), ("2028-09-02", True), ("2029-09-01", True), ("2029-09-02", False)]
)
def test_a_no_that_a_repair_would_turn_says_so(presented, told):
    # From memory, as above.
    reasons = sold_in_the_union(presented).windows[0].reasons
    assert ("repair.none" in [reason.says.key for reason in reasons]) is told


@pytest.mark.memory
def test_a_repair_after_the_two_years_lengthens_nothing():
    # From memory, as above.
    late = {"component": "starter", "repaired": "2028-09-02"}
    assert sold_in_the_union("2028-09-03", late).verdict == "not covered"


@pytest.mark.memory
@pytest.mark.parametrize(("presented", "asked"), [("2027-09-01", False), ("2027-09-02", True)])
def test_what_shows_within_a_year_is_presumed_to_have_been_there_at_delivery(presented, asked):
    # From memory: Directive (EU) 2019/771 art. 11(1).
    missing = [item.what.key for item in sold_in_the_union(presented).missing]
    assert ("missing.defect" in missing) is asked


@pytest.mark.memory
@pytest.mark.parametrize(("recourse", "paid"), [(True, ("10.00", "0.00")), (False, ("0.00", "10.00"))])
def test_what_the_seller_owes_is_claimed_from_the_maker_where_there_is_recourse(recourse, paid):
    # From memory: Directive (EU) 2019/771 art. 18; how is for national law to say.
    amounts = sold_in_the_union("2027-01-05", owed_by="seller", recourse=recourse).amounts
    assert (str(amounts.claimed), str(amounts.shop)) == paid
