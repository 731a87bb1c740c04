import pytest
from builders import CAMPAIGN, TODAY, a_claim, a_plan
from lacked import lacking

from claimpack.core.judging.assessment import assess
from claimpack.core.judging.conditions.evidence_asked import shots_asked

PROOF = {"requires": {"proof": True}}


@pytest.mark.parametrize(
    ("proof", "lacks"),
    [
        ({}, {"proof": True}),
        ({"kind": "none"}, {"proof": True}),
        ({"kind": "receipt"}, {"proof-file": True}),
        ({"kind": "receipt", "file": "papers/r.pdf"}, {}),
        ({"kind": "dealer-record", "file": "papers/r.pdf"}, {}),
    ],
)
def test_proof_of_purchase_where_the_plan_asks_for_it(proof, lacks):
    assert lacking(a_plan(**PROOF), proof=proof) == lacks


def test_proof_is_not_asked_for_where_the_plan_does_not():
    assert lacking(proof={}) == {}


@pytest.mark.parametrize(("role", "lacks"), [("Engine", {}), ("pump", {"serial": True})])
def test_serial_numbers_the_plan_asks_for(role, lacks):
    assert lacking(a_plan(requires={"serial_roles": [role]})) == lacks


@pytest.mark.parametrize(
    ("pattern", "lacks"), [("HC70-[0-9]", {}), ("HC70", {"serial-form": True}), ("C70-1", {"serial-form": True})]
)
def test_a_serial_number_has_the_makers_form_from_end_to_end(pattern, lacks):
    assert lacking(a_plan(requires={"serial_patterns": {"unit": pattern}})) == lacks


@pytest.mark.parametrize(("shot", "lacks"), [("Serial-Plate", {}), ("unit", {"shot": True}), ("*", {"shot": True})])
def test_shots_the_plan_asks_for(shot, lacks):
    plan = a_plan(requires={"shots": ["serial plate"]})
    assert lacking(plan, photos=[{"file": "photos/a.jpg", "shot": shot}]) == lacks


@pytest.mark.parametrize(
    ("component", "lacks"), [("ignition coil", {"shot": True}), ("coil", {"shot": True}), ("short block", {})]
)
def test_a_shot_for_certain_components_is_asked_for_where_one_of_them_failed(component, lacks):
    spark = {"shot": "spark test", "components": ["ignition coil"]}
    plan = a_plan(requires={"shots": [spark]}, words={"ignition coil": ["coil"]})
    assert lacking(plan, failure__component=component) == lacks


@pytest.mark.parametrize(("what", "lacks"), [("Compression", {}), ("leak-down", {"finding": True})])
def test_findings_the_plan_asks_for(what, lacks):
    assert lacking(a_plan(requires={"findings": ["compression"]}), findings=[{"what": what, "value": "42"}]) == lacks


def test_a_plan_that_says_how_to_judge_without_proof_does_not_ask_for_it():
    plan = a_plan(requires__proof=True, start_without_proof={"from": "built"})
    claim = a_claim(proof={"kind": "none"}, unit__built="2025-03-01")
    assert "missing.proof" not in {item.what.key for item in assess(claim, [plan], TODAY).missing}


SHOTS = a_plan(
    requires={"shots": ["serial plate", "the part", "partly seen"]}, campaign=[{**CAMPAIGN, "shots": ["new guide"]}]
)


@pytest.mark.parametrize(
    ("case", "shots"),
    [
        ({}, ("serial plate", "the part", "partly seen")),
        ({"case": "part", "part_sold": {"sold": "2026-01-10"}}, ("the part",)),
        ({"case": "campaign", "campaign": "c-1"}, ("new guide",)),
    ],
    ids=["a repair", "a part sold", "a campaign"],
)
def test_each_kind_of_case_is_asked_for_its_own_shots(case, shots):
    assert shots_asked(a_claim(**case), SHOTS) == shots


RECORD = a_plan(requires__papers=[{"kind": "maintenance record", "components": ["engine"]}])


@pytest.mark.parametrize(
    ("component", "papers", "lacks"),
    [
        ("engine", [], {"paper": True}),
        ("engine", [{"file": "papers/s.pdf", "kind": "Maintenance Record"}], {}),
        ("short block", [], {}),
    ],
    ids=["lacking", "there", "another component"],
)
def test_a_paper_for_certain_components_is_asked_for_where_one_of_them_failed(component, papers, lacks):
    assert lacking(RECORD, failure__component=component, papers=papers) == lacks
