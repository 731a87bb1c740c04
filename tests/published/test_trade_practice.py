"""Common practice of the trade, shown on the sample claims and on the plans that are shipped; no source."""

from __future__ import annotations

from datetime import date
from decimal import Decimal
from pathlib import Path

import pytest

from claimpack.core.judging.assessment import Assessment, assess
from claimpack.core.pricing.pricing import PricedLine
from claimpack.folder.claim_folder import read_claim_folder
from claimpack.template_files import Places, read_plans

pytestmark = pytest.mark.practice
SAMPLES = Path(__file__).parents[2] / "sample_claims"
TODAY = date(2026, 6, 30)
MOWER, BLOCK, LATE = "26-0080-mower-engine", "26-0041-short-block", "26-0052-one-day-late"


def assessed(folder: str) -> Assessment:
    return assess(read_claim_folder(SAMPLES / folder).claim, read_plans(Places()), TODAY)


def line(folder: str, what: str) -> PricedLine:
    return next(line for line in assessed(folder).price.lines if line.what == what)


def test_a_part_the_maker_sent_is_listed_at_no_charge():
    engine = line(MOWER, "Engine assembly E-540V")
    assert (engine.quantity, engine.unit_price, engine.amount, engine.handling) == (1, 0, 0, 0)
    assert "price.from-maker" in [note.key for note in engine.notes]


def test_where_the_maker_sent_the_part_only_labour_is_claimed():
    amounts = assessed(MOWER).amounts
    assert (amounts.parts, amounts.handling, amounts.extras) == (0, 0, 0)
    assert amounts.claimed == amounts.labour == Decimal("345.15")


def test_a_wear_part_renewed_along_the_way_is_the_owners():
    blade = line(MOWER, "Blade, right")
    assert (blade.payer, blade.amount, blade.handling) == ("owner", Decimal("38.46"), 0)


def test_what_the_shop_gives_away_is_claimed_from_nobody():
    assert assessed(MOWER).amounts.shop == Decimal("10.00")


def test_the_day_the_unit_is_brought_in_decides_not_the_day_of_the_repair():
    found = assessed(MOWER)
    assert found.claim.dates.presented < found.window.ends < found.claim.dates.repaired
    assert (found.verdict, found.judged_on) == ("covered", date(2026, 5, 12))


def test_the_day_of_the_failure_does_not_rescue_a_unit_brought_in_late():
    found = assessed(LATE)
    assert found.claim.dates.failed == date(2026, 2, 28)
    assert (found.verdict, found.judged_on) == ("not covered", date(2026, 3, 2))


def test_handling_is_added_to_parts_from_stock_alone():
    lines = assessed("26-0074-three-parts").price.lines
    added = {line.what: line.handling for line in lines if line.kind == "part"}
    assert added["Pump head"] == Decimal("53.60")
    assert added["Nozzle 25 degrees"] == 0
    assert line(BLOCK, "Short block CS-70").handling == 0


def test_an_operation_inside_another_is_not_claimed_twice():
    inside = line(MOWER, "Leak-down test")
    assert (inside.quantity, inside.amount) == (0, 0)
    assert "Included in Replace engine assembly." in [str(note) for note in inside.notes]


def test_a_clock_beyond_the_schedule_is_shown_and_not_claimed():
    block = line(BLOCK, "Replace short block")
    assert (block.quantity, block.amount) == (Decimal("1.6"), Decimal("147.20"))
    assert "price.beyond" in [note.key for note in block.notes]


def test_freight_above_what_the_plan_pays_is_the_shops():
    extras = [line for line in assessed("26-0074-three-parts").price.lines if line.kind == "extra"]
    assert sum(line.amount for line in extras if line.payer == "maker") == Decimal("50.00")
    assert sum(line.amount for line in extras if line.payer == "shop") == Decimal("18.00")


def test_a_failed_part_keeps_a_tag_of_its_own():
    found = assessed("26-0074-three-parts")
    assert [tag.code for tag in found.tags] == ["26-0074/1", "26-0074/2", "26-0074/3"]


def test_lines_in_yen_are_whole_yen():
    found = assessed("26-0083-accents-yen")
    assert all(line.amount == line.amount.to_integral_value() for line in found.price.lines)
    assert found.amounts.claimed == Decimal(20925)


VERDICTS = {
    "26-0041-short-block": ("covered", "engine-professional", 0),
    "26-0052-one-day-late": ("not covered", None, 3),
    "26-0057-missing-date": ("undecided", None, 4),
    "26-0063-statutory-coil": ("covered", "us-ca-small-offroad", 0),
    "26-0068-hour-limit": ("not covered", None, 3),
    "26-0071-replaced-seal": ("covered", "replaced", 0),
    "26-0074-three-parts": ("covered", "casing", 0),
    "26-0080-mower-engine": ("covered", "unit-household", 0),
    "26-0083-accents-yen": ("covered", "casing", 0),
    "26-0090-battery": ("covered", "battery-household", 0),
    "26-0110-approval-first": ("covered", "engine-professional", 4),
    "26-0112-stock-unit": ("covered", "unit-rental", 0),
    "26-0114-counter-part": ("covered", "part-sold", 0),
    "26-0116-campaign": ("covered", "HC-2026-03", 0),
    "26-0118-goodwill": ("not covered", None, 3),
}


@pytest.mark.parametrize("folder", VERDICTS)
def test_a_sample_claim_comes_out_as_its_readme_says(folder):
    found = assessed(folder)
    window = found.window.id if found.window else None
    assert (found.verdict, window, found.exit_code) == VERDICTS[folder]


def test_every_sample_claim_is_listed_here_and_in_the_readme():
    folders = sorted(folder.parent.name for folder in SAMPLES.glob("*/claim.toml"))
    readme = (SAMPLES / "README.md").read_text(encoding="utf-8")
    assert folders == list(VERDICTS)
    assert [folder for folder in folders if folder not in readme] == []


@pytest.mark.parametrize("folder", VERDICTS)
def test_the_readme_says_what_is_claimed(folder):
    amounts = assessed(folder).amounts
    claimed = f"{amounts.claimed} {amounts.currency}" if amounts.claimed else "none"
    (row,) = [row for row in (SAMPLES / "README.md").read_text(encoding="utf-8").splitlines() if f"`{folder}`" in row]
    assert row.endswith(f"| {claimed} |")


def test_the_undecided_sample_asks_for_the_one_date():
    assert assessed("26-0057-missing-date").asks == ("dates.registered",)


@pytest.mark.parametrize("folder", VERDICTS)
def test_exactly_one_plan_fits_each_sample_without_naming_it(folder):
    claim = read_claim_folder(SAMPLES / folder).claim
    found = assess(claim.model_copy(update={"plan": ""}), read_plans(Places()), TODAY)
    assert found.plan.id == assessed(folder).plan.id
