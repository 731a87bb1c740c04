"""Which parts and which owners the windows of law reach, judged with the shipped sets."""

from __future__ import annotations

from datetime import date
from typing import Any

import pytest

from claimpack.core.claims.claim import Claim
from claimpack.core.facts.keys import record_from
from claimpack.core.plans.plan import Plan, WindowSet
from claimpack.core.verdict.coverage import Judgement, judge
from claimpack.template_files import COVERAGE, Places, template

SMALL, MARINE = "us-ca-small-offroad", "us-ca-marine-evaporative"


def claim_of(component: str, presented: str, **changes: Any) -> Claim:
    """A claim for a unit sold in California and delivered on 2024-03-15."""
    keys = {
        "number": "1",
        "maker": "maker",
        "unit": {"model": "S-1", "sold_in": "US-CA", "meter": False, "serials": [{"role": "unit", "value": "1"}]},
        "dates": {"delivered": "2024-03-15", "presented": presented},
        "failure": {"component": component},
    }
    return Claim.model_validate(keys | changes)


def with_hours(claim: Claim, hours: str) -> Claim:
    unit = {**claim.unit.model_dump(), "meter": True, "hours": hours}
    return claim.model_copy(update={"unit": type(claim.unit).model_validate(unit)})


def judged(claim: Claim, statute: str = SMALL, **changes: Any) -> Judgement:
    """Judged under the statute alone: the plan's own window covers nothing that fails here."""
    own = {"id": "own", "covers": ["paint"], "period": "P1D"}
    plan = Plan.model_validate({"id": "plan", "maker": "maker", "currency": "USD", "window": [own], **changes})
    found = record_from(WindowSet, template(COVERAGE, statute, Places()).keys, statute)
    return judge(claim, plan.with_windows_of(found))


REPLACED = [{"component": "carburettor", "repaired": "2025-09-15"}]


@pytest.mark.source("13 CCR 2405(c)(1), derived")
@pytest.mark.parametrize(("presented", "verdict"), [("2026-03-15", "covered"), ("2026-03-16", "not covered")])
def test_a_part_replaced_under_warranty_is_covered_for_what_remains_and_no_longer(presented, verdict):
    claim = claim_of("carburettor", presented, earlier=REPLACED)
    judgement = judged(claim, replaced={"keeps_remaining": True})
    renewed = judgement.windows[-1]
    assert (judgement.verdict, renewed.id, renewed.ends) == (verdict, "replaced", date(2026, 3, 15))


@pytest.mark.source("13 CCR 2405(c)(2)")
def test_a_part_that_is_only_inspected_has_the_full_period():
    judgement = judged(with_hours(claim_of("fuel line", "2026-03-15"), "400"))
    assert (judgement.verdict, judgement.window.ends) == ("covered", date(2026, 3, 15))


@pytest.mark.source("13 CCR 2405(c)(3), its beginning")
@pytest.mark.parametrize("hours", ["60", "99.9", "100"])
def test_a_part_with_a_scheduled_renewal_is_covered_before_it(hours):
    assert judged(with_hours(claim_of("spark plug", "2025-03-15"), hours)).verdict == "covered"


@pytest.mark.memory
@pytest.mark.parametrize("hours", ["100.1", "130"])
def test_a_part_past_its_first_scheduled_renewal_is_not_covered(hours):
    judgement = judged(with_hours(claim_of("spark plug", "2025-03-15"), hours))
    failed = [reason.rule for reason in judgement.windows[-1].reasons if reason.outcome == "fail"]
    assert (judgement.verdict, failed) == ("not covered", ["schedule"])


@pytest.mark.source("13 CCR 2405(b), 2425(b), 2435(b); 40 CFR 1039.120(a); 15 USC 2301(3), 2304(b)(4)")
def test_a_second_owner_inside_the_period_is_covered():
    claim = claim_of("carburettor", "2025-03-15", owner={"name": "second", "first_owner": False})
    assert judged(claim).verdict == "covered"


@pytest.mark.source("13 CCR 2861(d)(1)")
@pytest.mark.parametrize(("presented", "verdict"), [("2026-03-15", "covered"), ("2026-03-16", "not covered")])
def test_a_replaced_marine_evaporative_part_keeps_the_remaining_period(presented, verdict):
    claim = claim_of("fuel tank", presented, earlier=[{"component": "fuel tank", "repaired": "2025-09-15"}])
    assert judged(claim, MARINE, replaced={"keeps_remaining": True}).verdict == verdict


@pytest.mark.source("40 CFR 1068 App. A, I-II")
@pytest.mark.parametrize("component", ["carburettor", "fuel pump", "ignition coil", "catalyst", "crankcase breather"])
def test_air_fuel_ignition_and_aftertreatment_parts_are_emission_parts(component):
    assert judged(claim_of(component, "2025-03-15")).verdict == "covered"


@pytest.mark.source("40 CFR 1068 App. A, III")
@pytest.mark.parametrize("component", ["fuel tank", "fuel cap", "fuel line", "purge valve", "carbon canister"])
@pytest.mark.parametrize("statute", [SMALL, MARINE])
def test_parts_that_hold_fuel_and_vapour_are_emission_parts(component, statute):
    assert judged(claim_of(component, "2025-03-15"), statute).verdict == "covered"


@pytest.mark.source("40 CFR 1068 App. A, derived: not in the list")
@pytest.mark.parametrize("component", ["blade", "belt cover", "handle"])
def test_a_part_outside_the_list_is_no_emission_part(component):
    judgement = judged(claim_of(component, "2025-03-15"), words={component: []})
    assert (judgement.verdict, judgement.windows[-1].applies) == ("not covered", False)


@pytest.mark.source("15 USC 2304(c)")
@pytest.mark.parametrize("defect", ["misuse", "maintenance"])
def test_misuse_and_lack_of_care_defeat_a_window_of_law_too(defect):
    claim = claim_of("carburettor", "2025-03-15", failure={"component": "carburettor", "defect": defect})
    assert judged(claim, excluded={"defects": ["misuse", "maintenance"]}).verdict == "not covered"


@pytest.mark.source("13 CCR 2405")
def test_a_list_of_wear_parts_does_not_reach_a_window_of_law():
    judgement = judged(claim_of("spark plug", "2025-03-15"), excluded={"components": ["spark plug"]})
    assert judgement.verdict == "covered"


@pytest.mark.source("13 CCR 2405: engines sold in California")
def test_a_unit_sold_elsewhere_is_outside_and_an_unknown_place_is_asked_for():
    claim = claim_of("carburettor", "2025-03-15")
    elsewhere = claim.model_copy(update={"unit": claim.unit.model_copy(update={"sold_in": "US-WA"})})
    unknown = claim.model_copy(update={"unit": claim.unit.model_copy(update={"sold_in": ""})})
    assert [judged(elsewhere).verdict, judged(unknown).verdict] == ["not covered", "undecided"]
