from __future__ import annotations

import pytest
from builders import TODAY, a_claim, a_plan
from drawn_packets import a_layout, draw, text_of

from claimpack.core.judging.assessment import Circumstances, assess
from claimpack.packet.drawing.evidence import PageEvidence
from claimpack.packet.drawn_pages import draw_pages


def told(*sections, plan=None, layout="letter", reader="maker", **changes) -> str:
    shown = a_layout(layout, sections=[*sections, "declaration"], reader=reader)
    return text_of(draw(a_claim(**changes), plan or a_plan(), shown))


@pytest.mark.parametrize(
    ("within", "said"),
    [
        ("P4D", "2026-02-28 file by 1 day past"),
        ("P5D", "2026-03-01 file by today is the last day"),
        ("P6D", "2026-03-02 file by 1 day left"),
    ],
)
def test_a_date_is_told_with_the_time_left(within, said):
    assert said in told("dates", plan=a_plan(filing={"within": within, "of": "repaired"}))


def test_what_blocks_filing_is_told_before_what_is_worth_a_look():
    plan = a_plan(requires={"shots": ["whole unit"]})
    said = told("missing", plan=plan, reader="shop", owner=None)
    assert said.index("Needed before filing What Why photo: whole unit") < said.index("Worth a look What Why the owner")


def test_a_clock_of_no_minutes_beside_scheduled_hours_is_told():
    plan = a_plan(operation=[{"code": "coil", "name": "Replace coil", "hours": "0.5"}])
    stopped = {"operation": "coil", "started": "2026-02-24T09:00:00", "ended": "2026-02-24T09:00:00"}
    assert "0.00 h" in told("missing", plan=plan, reader="shop", labour=[stopped])


def test_the_makers_packet_leaves_out_what_the_shop_should_look_at():
    assert "Worth a look" not in told("missing", owner=None)


def test_the_facts_that_would_decide_are_named():
    plan = a_plan(window=[{"id": "w", "covers": ["*"], "period": "P12M", "hours": "300"}])
    assert "Would decide the claim the hour-meter reading" in told("missing", plan=plan, unit__hours=None)


def test_a_claim_that_lacks_nothing_says_so():
    said = told("missing", plan=a_plan(requires={"held_part": False}))
    assert "Nothing is missing that is needed before filing." in said


def test_dates_are_in_the_layouts_language():
    plan = a_plan(filing={"within": "P30D", "of": "repaired"})
    assert "presentar la reclamación en 25 días" in told("dates", plan=plan, layout="carta-a4")


def test_of_a_claim_that_is_not_covered_nothing_is_needed_before_filing():
    plan = a_plan(requires={"shots": ["whole unit"]}, window=[{"id": "w", "covers": ["*"], "period": "P1M"}])
    said = told("missing", plan=plan, reader="shop")
    assert ("photo: whole unit" in said, "Needed before filing" in said) == (True, False)


@pytest.mark.parametrize(
    ("changes", "titles"),
    [
        ({}, (False, True)),
        ({"failure__cause": ""}, (True, True)),
    ],
    ids=["wrong alone", "and something absent"],
)
def test_what_is_there_and_wrong_is_not_told_as_not_enclosed(changes, titles):
    plan = a_plan(requires={"serial_patterns": {"unit": "OV-[0-9]+"}})
    filed = assess(a_claim(**changes), [plan], TODAY, Circumstances(anyway="Agreed by phone."))
    said = text_of(draw_pages(filed, a_layout(sections=["missing", "declaration"]), PageEvidence()))
    assert ("Not enclosed" in said, "Not as the plan asks for it" in said) == titles
