"""A claim under the shipped agreement with every way of paying: the sums worked by hand, step by step."""

from __future__ import annotations

import tomllib
from datetime import date
from decimal import Decimal
from pathlib import Path

from booklets import told, totals

from claimpack.core.claims.claim import Claim
from claimpack.core.judging.assessment import assess
from claimpack.core.plans.plan import Plan
from claimpack.template_files import shipped

CLAIM = """
number = "26-0210"
maker = "tessaly"
unit = {model = "DP-40", use = "professional", serials = [ {role = "unit", value = "DP40-20417"} ]}
dates = {purchased = 2026-02-02, presented = 2026-09-01, repaired = 2026-09-10}
earlier = [ {component = "injection pump", repaired = 2026-04-01, paid = "1300.00"} ]
failure = [
    {component = "injection pump", defect = "material"},
    {component = "starting battery", defect = "material"},
    {component = "controller", defect = "material"},
]
findings = [ {what = "capacity", value = "72", unit = "%"} ]
parts = [
    {name = "pump", unit_cost = "420.00", core = "110.00"},
    {name = "seal kit", number = "TK-900", unit_cost = "38.00"},
    {name = "seal", number = "TS-11", quantity = 2, unit_cost = "4.50"},
    {name = "battery", unit_cost = "95.00", failure = 2},
    {name = "controller", unit_cost = "210.00", failure = 3},
]
labour = [ {operation = "find-fault"}, {operation = "injection-pump"} ]
extras = [
    {what = "freight", kind = "freight", amount = "62.00"},
    {what = "call", kind = "travel", distance = "34"},
]
"""


def assessed():
    plan = Path(str(shipped("coverage") / "tessaly-diesel-2026.toml")).read_text(encoding="utf-8")
    claim, terms = (tomllib.loads(text, parse_float=Decimal) for text in (CLAIM, plan))
    return assess(Claim.model_validate(claim), [Plan.model_validate(terms)], date(2026, 9, 11))


def test_every_line_is_what_the_agreement_makes_of_it():
    assert told(assessed()) == [
        ("pump", "420.00", "84.00", "maker"),  # 420.00 x 0.20
        ("pump", "110.00", "0.00", "maker"),  # the deposit
        ("seal kit", "38.00", "11.40", "maker"),  # 38.00 x 0.30
        ("seal", "4.50", "1.35", "maker"),  # one of two; 4.50 x 0.30
        ("seal", "0.00", "0.00", "maker"),  # the other is in the kit
        ("battery", "95.00", "0.00", "owner"),  # 72 % is no failure
        ("controller", "210.00", "0.00", "other maker"),
        # up to here 669.25; 0.5 h of 0.8 h x 88.00 = 44.00 makes 713.25
        ("Find the fault", "5.75", "0.00", "maker"),  # 30.75 less the deductible
        ("Find the fault", "25.00", "0.00", "owner"),  # the deductible
        ("Find the fault", "13.25", "0.00", "shop"),  # 2000.00 - 1300.00 = 700.00 are left for the unit
        ("Find the fault", "26.40", "0.00", "shop"),  # 0.3 h x 88.00
        ("Replace injection pump", "186.75", "0.00", "shop"),  # 2.4 h x 96.00 = 230.40; 900.00 - 713.25 under the cap
        ("Replace injection pump", "43.65", "0.00", "shop"),  # and this above it
        ("freight", "40.00", "0.00", "shop"),
        ("freight", "22.00", "0.00", "shop"),  # 62.00 - 40.00
        ("call", "22.10", "0.00", "shop"),  # 34 x 0.65
    ]


def test_the_totals_are_the_sums_of_the_lines():
    # tax at 5 %: 25.20 + 5.50 + 2.47 + 0.29 + 0.29 = 33.75; 700.00 - 25.00 + 33.75
    names = ("parts", "handling", "core", "labour", "extras", "tax", "claimed")
    assert totals(assessed(), *names) == ("572.50", "96.75", "110.00", "5.75", "0.00", "33.75", "708.75")


def test_owner_shop_and_the_other_maker_pay_the_rest():
    assert totals(assessed(), "owner", "shop", "other_maker", "deductible") == ("120.00", "354.15", "210.00", "25.00")
