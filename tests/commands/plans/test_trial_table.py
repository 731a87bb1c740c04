from __future__ import annotations

import datetime as dt
from decimal import Decimal

import pytest
from builders import a_plan, a_window
from tried_plans import tried

from claimpack.commands.plans.trial_table import Legend, legend_of, tables, window_said
from claimpack.core.drafting.imagined import Axes
from claimpack.core.drafting.imagined_claims import Age, ImaginedUnit
from claimpack.core.drafting.trial import Paid, TrialBlock, TrialRow
from claimpack.core.values.periods import period

SOLD = dt.date(2025, 3, 14)
ONE, HALF, NONE = Decimal(1), Decimal("0.5"), Decimal(0)
LEGEND = Legend({"unit": "a", "engine": "b"}, {(ONE, HALF, NONE): "1"})
AGES = (Age(SOLD), *(Age(SOLD, period(length), days) for length in ("P12M", "P24M") for days in (-1, 0, 1)))
COVERED = Paid("covered", ("unit",), (ONE,) * 3)


def a_block(*rows):
    return TrialBlock(ImaginedUnit(), tuple(TrialRow(names, uses, (COVERED,) * len(AGES)) for names, uses in rows))


def drawn(block, width, uses=("household", "rental")):
    return list(tables(block, Axes(SOLD, AGES, uses, (), ()), LEGEND, width))


@pytest.mark.parametrize(
    ("paid", "cell"),
    [
        (None, ""),
        (Paid("not covered"), "-"),
        (Paid("undecided"), "?"),
        (COVERED, "a"),
        (Paid("covered", ("engine",), (HALF,) * 3), "b 50%"),
        (Paid("covered", ("unit",), (ONE, HALF, NONE)), "a1"),
        (Paid("covered", ("unit", "engine"), (ONE,) * 3), "a+b"),
    ],
)
def test_a_cell_says_the_window_and_how_much_it_pays_where_that_is_not_all(paid, cell):
    assert LEGEND.cell(paid) == cell


def test_windows_that_pay_have_letters_in_the_order_of_the_plan_two_beyond_the_alphabet():
    names = [f"w{nth:02}" for nth in range(28)]
    plan = a_plan(window=[a_window(id=name) for name in [*names, "unused"]])
    paid = (*(Paid("covered", (name,), (ONE,) * 3) for name in reversed(names)), Paid("not covered", ("unused",)), None)
    found = legend_of(plan, [TrialBlock(ImaginedUnit(), (TrialRow(("engine",), ("rental",), paid),))])
    assert [found.letters[name] for name in (names[0], names[25], names[26], names[27])] == ["a", "z", "aa", "ab"]
    assert (len(found.letters), found.mixtures) == (28, {})


def test_only_shares_that_are_not_alike_are_marked_as_a_mixture():
    paid = tuple(Paid("covered", ("engine",), shares) for shares in ((HALF,) * 3, (ONE, HALF, NONE)))
    found = legend_of(a_plan(), [TrialBlock(ImaginedUnit(), (TrialRow(("engine",), ("rental",), paid),))])
    assert found.mixtures == {(ONE, HALF, NONE): "1"}


# 18 of names, 9 of uses, two gaps of 2, and three spans of 11: 64 in all
@pytest.mark.parametrize(("width", "parts"), [(64, 1), (63, 2)])
def test_as_many_ages_stand_beside_each_other_as_fit(width, parts):
    found = drawn(a_block((("engine",), ("household",))), width)
    assert len(found) == parts
    days = [day for _, heads, *_ in found for day in heads.split()[3:]]
    assert days == ["-1", "0", "+1", "-1", "0", "+1"]


def test_what_is_paid_on_a_day_ends_under_that_day():
    ((periods, days, line),) = drawn(a_block((("engine",), ("household",))), 80)
    # a quarter of 80 for names, 9 for uses, two gaps of 2; then spans of 11
    assert [periods.index(period_) for period_ in ("sale", "12 months", "24 months")] == [33, 44, 55]
    ends = [place for place, mark in enumerate(days) if mark in "10" and place > 30]
    assert [place for place, mark in enumerate(line) if mark == "a" and place > 30][1:] == ends


def test_every_use_is_said_so_where_there_are_several():
    found = [
        drawn(a_block((("engine",), said)), 80, uses)[0][2].split()[1]
        for said, uses in (
            (("household", "rental"), ("household", "rental")),
            (("rental",), ("household", "rental")),
            (("rental",), ("rental",)),
        )
    ]
    assert found == ["every", "rental", "rental"]


def test_names_take_no_more_lines_than_the_uses_beside_them_or_three():
    many = tuple(f"component number {nth}" for nth in range(9))
    ((_, _, *lines),) = drawn(a_block((many, ("household",))), 80)
    names = [line[:20].strip() for line in lines]
    assert (len(lines), all(names), names[-1].endswith("more"), "household" in lines[0]) == (3, True, True, True)


def test_uses_beside_one_name_go_on_below_without_it():
    block = a_block((("engine",), ("household",)), (("engine",), ("rental",)))
    ((_, _, first, second),) = drawn(block, 80)
    assert (first.split()[:2], second.split()[0]) == (["engine", "household"], "rental")


@pytest.mark.parametrize(
    ("changes", "said"),
    [
        ({"name": "the engine"}, "engine: the engine; 12 months"),
        ({}, "engine: 12 months"),
        ({"hours": "300"}, "engine: 12 months or 300 hours, whichever comes first"),
        ({"registered_within": "P30D", "start": ["purchased"]}, "engine: 12 months; only if registered within 30 days"),
        (
            {"registered_within": "P30D", "registered_adds": "P6M"},
            "engine: 12 months; 6 months more if registered within 30 days",
        ),
        ({"repair_adds": "P6M"}, "engine: 12 months; 6 months more once after a repair"),
        ({"owed_by": "seller"}, "engine: 12 months; owed by the seller"),
        (
            {"owed_by": "seller", "recourse": True},
            "engine: 12 months; owed by the seller, who may claim it from the maker",
        ),
        ({"first_owner_only": True}, "engine: 12 months; first owner only"),
        ({"sold_in": ["US-CA", "US-OR"]}, "engine: 12 months; sold in US-CA, US-OR"),
    ],
)
def test_a_window_is_said_in_a_line(changes, said):
    (window,) = a_plan(window=[a_window(**changes)]).window
    assert window_said(window) == said


def test_a_table_has_a_line_for_each_use_and_a_cell_for_each_day(tmp_path):
    lines = [line.split() for line in tried(tmp_path).out.splitlines()]
    assert ["any", "other", "part", "household", *"aaa", *["a", "50%"] * 3, "-"] in lines


def test_every_letter_of_a_table_is_told(tmp_path):
    assert "\n  a unit: whole-unit warranty; 24 months; pays less with age\n" in tried(tmp_path).out


def test_a_table_fits_the_terminal(tmp_path):
    assert max(map(len, tried(tmp_path, "--age", "P18M", "--age", "P20M", terminal=True).out.splitlines())) <= 80
