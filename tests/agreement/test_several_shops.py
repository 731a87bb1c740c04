"""What is told of all shops of a book, against what each of them tells of its own claims in its own folder."""

from __future__ import annotations

import csv
from decimal import Decimal
from io import StringIO
from pathlib import Path

import pytest
from manager_shop import on, open_in
from several_shops import two_shops

HALDEN = Path(__file__).parents[2] / "templates" / "coverage" / "halden-2025.toml"
LISTS = {
    "list": ("claims", "number"),
    "pending": ("claims", "claim"),
    "due --within 30": ("items", "claim"),
    "hold list": ("parts", "claim"),
}
DAYS = ["2026-01-05", "2026-03-30", "2026-05-25"]
"""A draft of one shop alone is still in time; both makers are late; one shop's hold alone still runs."""


@pytest.fixture(scope="module")
def shops(tmp_path_factory):
    """Both folders; Hollis's own plan has changed since: other limits and windows than Ashby's."""
    place = two_shops(tmp_path_factory.mktemp("several"))
    open_in(place / "hollis", "H-3", dates__purchased="2025-01-05", dates__delivered="2025-01-05")
    plan = HALDEN.read_text(encoding="utf-8")
    for old, new in (('"P30D"', '"P40D"'), ('"P90D"', '"P150D"'), ('"P12M"', '"P10M"')):
        plan = plan.replace(old, new)
    (place / "hollis" / "coverage" / "halden-2025.toml").write_text(plan, encoding="utf-8")
    return place / "ashby", place / "hollis"


@pytest.fixture(params=DAYS)
def told(shops, request):
    """What a command tells on a day, by whom: of all shops, and of each alone."""

    def of(*command):
        every = on(request.param, *command, "--all-shops", shop=shops[0])
        return [every, *(on(request.param, *command, shop=shop) for shop in shops)]

    return of


def sorted_rows(rows):
    return sorted(repr(sorted((key, each) for key, each in row.items() if key not in ("shop", "Shop"))) for row in rows)


@pytest.mark.parametrize("command", LISTS)
def test_a_list_of_all_shops_is_the_lists_of_each_put_together(told, command):
    every, *own = (ran.json[LISTS[command][0]] for ran in told(*command.split(), "--json"))
    assert sorted_rows(every) == sorted_rows([row for rows in own for row in rows])


def test_the_ledger_of_all_shops_is_the_ledgers_of_each_put_together(told):
    every, *own = (list(csv.DictReader(StringIO(ran.out))) for ran in told("export", "--csv", "-"))
    assert sorted_rows(every) == sorted_rows([row for rows in own for row in rows])


def amounts(told_of_shop):
    names = ("can_be_lost", "late", "only_the_shop")
    return [Decimal(told_of_shop["three_amounts"][name]["amounts"].get("USD", 0)) for name in names]


def test_the_three_amounts_of_each_shop_are_what_it_tells_itself_and_all_are_their_sum(told):
    every, *own = (ran.json for ran in told("pending", "--json"))
    by_shop = [
        [Decimal(one[name]) for name in ("can_be_lost", "late", "only_the_shop")]
        for one in every["three_amounts"]["by_shop"]
    ]
    each = [amounts(one) for one in own]
    assert by_shop == [*each, amounts(every)] == [*each, [sum(one) for one in zip(*each, strict=True)]]


def test_what_is_outstanding_of_all_shops_is_the_sum_of_each(told):
    every, *own = (Decimal(ran.json["totals"]["outstanding"]) for ran in told("pending", "--json"))
    assert every == sum(own) != 0


def tables(report):
    return {table["name"]: table["rows"] for section in report["sections"] for table in section["tables"]}


def test_a_report_of_all_shops_tells_of_every_claim_what_the_report_of_its_shop_does(told):
    every, *own = (tables(ran.json) for ran in told("report", "--html", "--out", "r", "--json"))
    of_claims = [name for name, rows in every.items() if {"Claim", "Code"} & set(rows[0])]
    assert of_claims
    for name in of_claims:
        assert sorted_rows(every[name]) == sorted_rows([row for one in own for row in one.get(name, [])])
