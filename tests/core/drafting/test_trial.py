from __future__ import annotations

from datetime import date
from decimal import Decimal

import pytest
from builders import a_plan

from claimpack.core.drafting.imagined import NOTHING_ASKED, TrialAsked, axes_of
from claimpack.core.drafting.imagined_claims import at_age, imagined_claim, knowing
from claimpack.core.drafting.trial import cells_of, try_plan
from claimpack.core.verdict.coverage import judge
from claimpack.template_files import Places, read_plans

SOLD = date(2025, 3, 14)
UNIT = {"id": "unit", "covers": ["*"], "period": "P12M"}


def tried(*windows, asked=NOTHING_ASKED, **keys):
    plan = a_plan(window=list(windows), **keys)
    return try_plan(plan, axes_of([plan], SOLD, asked))


def told(block):
    """Each row of a block: its components and uses, and of each age the windows that pay, or the first mark."""
    return {
        (", ".join(row.components), ", ".join(row.uses)): [
            "" if paid is None else "+".join(paid.windows) or paid.verdict for paid in row.paid
        ]
        for row in block.rows
    }


ALL_USES = "household, professional, rental"


def test_the_last_day_is_paid_and_the_day_after_is_not():
    rows = told(tried(UNIT).blocks[0])
    assert rows == {("any other part, blade", ALL_USES): ["unit", "unit", "unit", "not covered"]}


def test_uses_that_are_paid_alike_share_a_row():
    rows = told(tried({**UNIT, "uses": ["rental"], "period": "P90D"}, {**UNIT, "id": "all"}).blocks[0])
    assert list(rows) == [("any other part, blade", ALL_USES)]


def test_another_unit_is_told_of_only_where_it_is_paid_otherwise():
    blocks = tried(UNIT, {"id": "engine", "covers": ["engine"], "period": "P24M", "first_owner_only": True}).blocks
    assert [("sold again" in block.unit.says, list(told(block))) for block in blocks[1:]] == [
        (True, [("engine", ALL_USES)])
    ]


def test_a_reading_beyond_the_limit_pays_nothing_and_the_limit_itself_changes_nothing():
    at_limit, beyond = tried({**UNIT, "hours": 300}).blocks[1:]
    assert (at_limit.rows, set(told(beyond)["any other part, blade", ALL_USES])) == ((), {"", "not covered"})


def test_a_unit_cannot_have_run_longer_than_it_has_been_sold():
    beyond = tried({**UNIT, "hours": 300}).blocks[2]
    assert beyond.rows[0].paid[0] is None


@pytest.mark.parametrize(("hours", "can_be"), [(24, True), (25, False)])
def test_a_unit_has_run_a_whole_day_at_most_on_the_day_it_is_sold(hours, can_be):
    plan = a_plan(window=[{**UNIT, "hours": hours}])
    axes = axes_of([plan], SOLD)
    at_limit = next(unit for unit in axes.units if unit.says == f"{hours} hours")
    assert {paid[0] is not None for paid in cells_of(plan, axes, at_limit).values()} == {can_be}


def test_a_reading_that_changes_nothing_more_than_the_one_below_is_left_out():
    blocks = tried(
        {**UNIT, "hours": 300}, {"id": "engine", "covers": ["engine"], "period": "P24M", "hours": 500}
    ).blocks
    assert [block.unit.says for block in blocks[1:]] == ["300 hours", "more than 300 hours", "more than 500 hours"]


def test_a_unit_is_paid_alike_whether_or_not_it_is_held_against_the_first():
    plan = a_plan(window=[UNIT, {"id": "engine", "covers": ["engine"], "period": "P24M", "hours": 500}])
    axes = axes_of([plan], SOLD)
    first, *others = axes.units
    base = cells_of(plan, axes, first)
    for unit in others:
        alone, held = cells_of(plan, axes, unit), cells_of(plan, axes, unit, base)
        pairs = [pair for place in base for pair in zip(alone[place], held[place], strict=True)]
        # what no meter limits is told of days as well on which the unit cannot have run so long
        assert all(one in (None, other) for one, other in pairs)


def test_shares_are_those_of_the_day():
    row = (
        tried({**UNIT, "shares": [{"until": "P6M", "maker": "1"}, {"until": "P12M", "maker": "0.5"}]}).blocks[0].rows[0]
    )
    assert [paid.shares[0] for paid in row.paid if paid] == [1, 1, 1, *[Decimal("0.5")] * 3, 0]


def test_the_window_told_is_the_one_that_pays():
    half = {"id": "long", "covers": ["*"], "period": "P24M", "shares": [{"until": "P24M", "maker": "0.5"}]}
    assert told(tried(UNIT, half).blocks[0])["any other part, blade", ALL_USES][:4] == ["unit", "unit", "unit", "long"]


def test_kinds_of_line_that_different_windows_pay_name_both():
    parts, labour = ({**UNIT, "id": kind, "pays": [kind]} for kind in ("parts", "labour"))
    assert told(tried(parts, labour).blocks[0])["any other part, blade", ALL_USES][0] == "parts+labour"


def test_a_measurement_that_cover_goes_by_is_taken_as_failed():
    findings = [{"what": "capacity", "unit": "%", "at_most": "70"}]
    assert told(tried(UNIT, requires={"findings": findings}).blocks[0])["any other part, blade", ALL_USES][0] == "unit"


def test_a_second_owner_has_the_period_for_second_owners():
    blocks = tried({**UNIT, "owners": {"transfer_within": "P30D", "then": "P6M"}}).blocks
    assert told(blocks[1])["any other part, blade", ALL_USES] == ["unit"] * 3 + ["not covered"] * 4


def test_what_a_plan_contradicts_itself_about_cannot_be_said():
    engine = {"id": "engine", "covers": ["engine"], "period": "P12M"}
    rows = told(tried(UNIT, engine, excluded={"components": ["engines"]}).blocks[0])
    assert rows["engine", ALL_USES][0] == "undecided"


def test_a_component_is_judged_as_the_whole_plan_judges_it():
    for plan in read_plans(Places()):
        axes = axes_of([plan], plan.sold_from or SOLD, TrialAsked(uses=("professional",)))
        claim, cells = imagined_claim(plan, axes.sold, axes.units[0]), cells_of(plan, axes, axes.units[0])
        for component, *_ in axes.components:
            found = judge(at_age(claim, axes.ages[3], "professional", component), knowing(plan))
            paid = cells[component, "professional"][3]
            assert (paid.verdict, set(paid.windows) <= {one.id for one in found.windows if one.holds}) == (
                found.verdict,
                True,
            )


def test_a_unit_in_stock_is_tried_where_the_plan_says_from_when_it_covers_one():
    registered = {**UNIT, "registered_within": "P30D", "registered_adds": "P12M"}
    says = "in stock, never sold; built and invoiced that day"
    stock = next(block for block in tried(registered, start_stock=["invoiced"]).blocks if block.unit.says == says)
    assert told(stock)["any other part, blade", ALL_USES][4:] == ["not covered"] * 3
    assert says not in [block.unit.says for block in tried(registered).blocks]


def test_a_unit_repaired_before_is_tried_where_that_adds_to_a_window():
    trial = tried({**UNIT, "repair_adds": "P6M"}, replaced={"period": "P90D"})
    (repaired,) = [block for block in trial.blocks if block.unit.repaired]
    assert told(repaired)["any other part, blade", ALL_USES] == ["unit"] * 6 + ["not covered"]
