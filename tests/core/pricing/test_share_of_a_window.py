"""How much of a line one window pays: kinds, steps by age, whole months left, and a day in repair that is not given."""

from __future__ import annotations

from datetime import date, timedelta
from decimal import Decimal

import pytest
from builders import a_plan, a_window

from claimpack.core.pricing.lines import PricedLine
from claimpack.core.pricing.window_pays import PaidPart, WindowSpell, paid_by, shared
from claimpack.core.values.wording.sentence import say

STARTS = date(2023, 1, 31)
STEPS = {"shares": [{"until": "P12M", "maker": "1"}, {"until": "P24M", "maker": "0.5"}]}
MONTHS = {"shares": {"full_until": "P12M", "of": "P36M"}}
LACKING = ("the day it was ready", "earlier[1].returned")


def later(days):
    return lambda _, ends: ends + timedelta(days)


def paid(on, kind="parts", starts=STARTS, spell=None, plan=None, **window):
    plan = a_plan(window=[a_window(period="P36M", **window)], **(plan or {}))
    judged = WindowSpell("battery warranty", starts, **spell or {})
    return paid_by(plan.window[0], plan, kind, judged, on and date.fromisoformat(on))


def key(part):
    return part.why and part.why.key


@pytest.mark.parametrize(
    ("part", "said"),
    [
        (PaidPart(), "100 %"),
        (PaidPart(Decimal("0.5")), "50 %"),
        (PaidPart(Decimal(23), Decimal(36)), "23 / 36"),
    ],
)
def test_a_share_is_told_in_percent_or_in_months_of_months(part, said):
    assert part.said() == said


@pytest.mark.parametrize(("kind", "maker"), [("parts", 1), ("labour", 0)])
def test_a_window_pays_the_kinds_of_line_it_names(kind, maker):
    assert paid("2023-06-01", kind, pays=["parts"]).maker == maker


def test_a_window_that_names_no_kinds_pays_all_of_them():
    assert paid("2023-06-01", "extras") == PaidPart()


def test_the_window_of_a_replaced_part_pays_all():
    assert paid_by(None, a_plan(), "parts", WindowSpell("replaced", STARTS), STARTS) == PaidPart()


@pytest.mark.parametrize("unknown", [{"starts": None, "on": "2025-06-01"}, {"on": None}], ids=["its start", "the day"])
def test_where_a_day_is_not_known_that_a_share_goes_by_all_is_paid(unknown):
    assert paid(**unknown, **STEPS).maker == 1


@pytest.mark.parametrize(
    ("on", "maker"),
    [("2024-01-31", "1"), ("2024-02-01", "0.5"), ("2025-01-31", "0.5"), ("2025-02-01", "0")],
    ids=["12 months", "a day more", "24 months", "a day more than all steps"],
)
def test_a_step_is_paid_up_to_its_last_day(on, maker):
    assert paid(on, **STEPS).maker == Decimal(maker)


@pytest.mark.parametrize(
    ("on", "left"),
    [("2024-01-31", (1, 1)), ("2024-02-29", (23, 36)), ("2024-03-01", (22, 36)), ("2026-01-31", (0, 36))],
    ids=["in full", "month 13", "month 14", "month 36"],
)
def test_by_months_the_whole_months_left_are_paid_of_all(on, left):
    found = paid(on, **MONTHS)
    assert (found.maker, found.of) == left


def test_shares_by_months_that_are_never_full_fall_from_the_first_month():
    found = paid("2023-02-01", shares={"of": "P36M"})
    assert (found.maker, found.of) == (35, 36)


def test_a_full_share_is_no_remark_where_nothing_moved_its_last_day():
    assert [key(paid(on, **way)) for on, way in (("2024-01-31", STEPS), ("2024-01-31", MONTHS))] == [None, None]


@pytest.mark.parametrize(
    ("days", "on", "shares", "told"),
    [
        (0, "2024-02-01", STEPS, "price.share"),
        (1, "2024-02-02", STEPS, "price.share-moved"),
        (1, "2024-02-01", STEPS, "price.share-full-moved"),
        (0, "2024-02-01", MONTHS, "price.share-months"),
        (1, "2024-02-02", MONTHS, "price.share-months-moved"),
        (1, "2024-02-01", MONTHS, "price.share-full-moved"),
    ],
)
def test_a_share_says_that_days_in_repair_moved_its_last_day(days, on, shares, told):
    assert key(paid(on, spell={"moved": later(days)}, **shares)) == told


def test_the_days_that_moved_a_share_by_months_are_told():
    assert paid("2024-02-03", spell={"moved": later(2)}, **MONTHS).why.facts["days_period"] == "P2D"


def test_a_month_whose_last_day_nothing_moved_says_nothing_of_those_after_it():
    moved = {"moved": lambda _, ends: ends + timedelta(ends > date(2024, 12, 31))}
    assert key(paid("2024-02-29", spell=moved, **MONTHS)) == "price.share-months"


@pytest.mark.parametrize(
    ("window", "plan", "maker"),
    [
        ("day-before", "anniversary", "0.5"),
        ("anniversary", "day-before", "1"),
        (None, "day-before", "0.5"),
        (None, "anniversary", "1"),
    ],
)
def test_the_last_day_of_a_share_is_counted_as_its_window_says_else_as_its_plan_does(window, plan, maker):
    assert paid("2024-01-31", plan={"last_day": plan}, last_day=window, **STEPS).maker == Decimal(maker)


def test_a_share_by_months_goes_by_the_months_left_though_a_fraction_stands_beside_it():
    assert paid("2024-02-01", shares={"of": "P36M", "maker": "0.5"}) == paid("2024-02-01", shares={"of": "P36M"})


def test_a_share_is_told_no_longer_than_its_window_lasts():
    assert str(paid("2024-02-01", spell={"ends": date(2024, 6, 30)}, **STEPS).why.facts["until"]) == "2024-06-30"


@pytest.mark.parametrize(
    ("on", "most", "told"),
    [
        ("2024-01-31", 0, None),
        ("2024-01-31", 5, None),
        ("2024-02-01", 0, "price.share"),
        ("2024-02-05", 5, "price.share-or-more"),
        ("2024-02-06", 5, "price.share-open"),
        ("2025-02-05", 5, "price.share-or-more"),
    ],
    ids=[
        "in full",
        "in full for longer perhaps",
        "half, whatever the day is",
        "half, or in full",
        "half, for longer perhaps",
        "nothing, or half",
    ],
)
def test_a_day_in_repair_that_is_not_given_is_told_where_the_share_may_be_more_or_last_longer(on, most, told):
    assert key(paid(on, spell={"lacking": LACKING, "at_most": later(most)}, **STEPS)) == told


def test_a_share_by_months_that_a_day_not_given_may_raise_is_paid_at_least():
    found = paid("2024-03-01", spell={"lacking": LACKING, "at_most": later(1)}, **MONTHS)
    assert (key(found), found.maker, found.of) == ("price.share-or-more", 22, 36)


def test_the_day_that_is_not_given_is_named_by_its_key():
    found = paid("2024-02-05", spell={"lacking": LACKING, "at_most": later(5)}, **STEPS)
    assert (found.why.facts["fact_word"], found.why.facts["named"]) == LACKING


WHY = say("price.share-over", window="battery warranty", event="2026-02-05")
NOTHING, HALF, ALL = PaidPart(Decimal(0), why=WHY), PaidPart(Decimal("0.5"), why=WHY), PaidPart(why=WHY)


def split(payer, part):
    """Who pays what of a part of 9.99 with a handling of 1.01 for the maker, and of a core that is the shop's."""

    def made(by):
        handling = Decimal("1.01") if by == "maker" else Decimal(0)
        core = PricedLine("part", "core", Decimal("4.00"), "shop", is_core=True)
        return [PricedLine("part", "starter", Decimal("9.99"), by, handling=handling), core]

    return [(line.payer, str(line.amount), len(line.notes)) for line in shared(payer, part, made, a_plan())]


@pytest.mark.parametrize(
    ("payer", "part", "lines"),
    [
        ("maker", None, [("maker", "9.99", 0)]),
        ("maker", PaidPart(), [("maker", "9.99", 0)]),
        ("owner", HALF, [("owner", "9.99", 0)]),
        ("maker", ALL, [("maker", "9.99", 1)]),
        ("maker", HALF, [("maker", "5.00", 1), ("owner", "5.49", 2)]),
        ("maker", HALF._replace(rest="shop"), [("maker", "5.00", 1), ("shop", "5.49", 2)]),
    ],
    ids=["nothing said", "all of it", "the owner's", "all, and a remark", "half", "half, the rest the shop's"],
)
def test_a_line_is_split_between_the_maker_and_who_pays_the_rest(payer, part, lines):
    assert split(payer, part) == [*lines, ("shop", "4.00", 0)]


def test_a_line_of_which_nothing_is_paid_is_as_if_it_were_given_to_who_pays_the_rest():
    assert split("maker", NOTHING) == [("owner", "9.99", 1), ("shop", "4.00", 1)]
