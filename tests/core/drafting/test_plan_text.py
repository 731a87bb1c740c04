from __future__ import annotations

import re
import tomllib
from datetime import date
from decimal import Decimal

import pytest

from claimpack.core.drafting.plan_text import HEAD, plan_text
from claimpack.core.facts.keys import record_from
from claimpack.core.plans.plan import Plan
from claimpack.core.values.periods import Period

UNIT = {"id": "unit", "covers": ["*"], "period": Period(months=12)}
KEYS = {
    "id": "own",
    "maker": "halden",
    "currency": "USD",
    "window": [UNIT, {**UNIT, "id": "more", "hours": Decimal(300)}],
}


def read(text):
    return tomllib.loads(text, parse_float=Decimal)


def test_what_is_written_is_read_as_the_same_plan():
    text = plan_text({**KEYS, "sold_from": date(2025, 1, 1), "pays": {"labour_rate": Decimal("92.00")}})
    plan = record_from(Plan, read(text), "own.toml")
    assert (plan.window[1].hours, plan.sold_from, plan.pays.labour_rate) == (300, date(2025, 1, 1), Decimal(92))


def test_every_key_stands_below_what_it_means_once():
    lines = plan_text(KEYS).splitlines()
    first = lines.index('period = "P12M"')
    assert (lines[first - 1].startswith("# "), lines[lines.index('period = "P12M"', first + 1) - 1]) == (
        True,
        'covers = ["*"]',
    )


@pytest.mark.parametrize("line", ['id = "own"', 'maker = "halden"', 'currency = "USD"'])
def test_a_key_of_the_plan_itself_stands_below_what_it_means(line):
    lines = plan_text(KEYS).removeprefix(HEAD).splitlines()
    assert lines[lines.index(line) - 1].startswith("# ")


def test_a_quote_in_an_answer_does_not_end_its_text():
    assert read(plan_text({**KEYS, "name": 'The "long" booklet \\ 2026'}))["name"] == 'The "long" booklet \\ 2026'


def test_a_whole_file_has_every_key_and_says_nothing_but_what_is_given():
    text = plan_text({"id": "own"}, whole=True)
    assert (read(text), "# unit_cap = " in text or "# claim_cap = " in text) == ({"id": "own"}, True)


def test_a_file_that_is_not_whole_has_no_key_but_those_that_are_given():
    said = [line for line in plan_text({"id": "own"}).removeprefix(HEAD).splitlines() if " = " in line or "[" in line]
    assert said == ['id = "own"']


def test_in_a_whole_file_what_a_window_does_not_say_stands_in_the_first_alone():
    lines = plan_text(KEYS, whole=True).splitlines()
    unsaid = [at for at, line in enumerate(lines) if line.startswith("# first_owner_only = ")]
    first, second = (at for at, line in enumerate(lines) if line == "[[window]]")
    assert (len(unsaid), first < unsaid[0] < second) == (1, True)


@pytest.mark.parametrize(
    ("keys", "heading"),
    [
        ({"start_without_proof": {"from": "built", "after": Period(months=6)}}, "[start_without_proof]"),
        ({"pays": {"labour_rate": Decimal("92.00")}}, "[pays]"),
    ],
    ids=["two keys", "many"],
)
def test_a_table_of_two_keys_stands_on_one_line(keys, heading):
    assert (heading in plan_text(keys)) == (heading == "[pays]")


def test_a_line_of_a_whole_file_can_be_used_when_its_mark_is_taken_away():
    lines = re.findall(r"^# (\w+ = .+|\[\[?\w+\]\]?)$", plan_text({}, whole=True), re.MULTILINE)
    assert [line for line in lines if not read(line)] == []
