"""The payment terms that are shipped, against the table of sections read on 2026-11-25."""

from __future__ import annotations

from datetime import date
from decimal import Decimal
from typing import Any

import pytest

from claimpack.core.payment.payment_dates import CHECK
from claimpack.core.plans.terms import Terms
from claimpack.template_files import TERMS, Places, read_terms, templates

COMMON = {"answer_within": "P30D", "answer_from": "received", "silence": "accepted", "pay_within": "P30D"}
TABLE: dict[str, tuple[str, dict[str, Any]]] = {
    "us-sc": ("S.C. Code 39-59-100", COMMON | {"inspect_within": "P60D", "inspect_from": "filed"}),
    "us-tx": (
        "Tex. Bus. & Com. Code 57.253, 57.257",
        COMMON | {"answer_within": "P45D", "without_grounds": "accepted", "audit_reach": "P1Y", "audit_from": "paid"},
    ),
    "us-wa": ("RCW 19.98.170", COMMON | {"resubmit_within": "P30D", "audit_reach": "P1Y", "audit_from": "paid"}),
    "us-la": ("La. R.S. 51:501", COMMON | {"parts_floor": "0.15", "labour_floor": "retail"}),
    "us-mn": ("Minn. Stat. 325E.0631", COMMON | {"labour_floor": "retail"}),
    "us-ny": ("N.Y. Gen. Bus. Law 696-h", COMMON | {"labour_floor": "retail"}),
    "us-sd-agricultural": (
        "S.D. Codified Laws 32-39-1",
        COMMON | {"resubmit_within": "P30D", "audit_reach": "P1Y", "audit_from": "paid"},
    ),
    "us-sd-outdoor-power": ("S.D. Codified Laws 37-5-17", {"parts_floor": "0.30", "labour_floor": "retail"}),
}
ABOUT = {"format", "id", "name", "cites", "read_on", "note"}
LAWS = [pytest.param(name, marks=pytest.mark.source(cites), id=name) for name, (cites, _) in TABLE.items()]


def terms(wanted: str) -> Terms:
    return read_terms(wanted, Places())


@pytest.mark.parametrize("law", LAWS)
def test_the_terms_say_what_the_section_says_and_leave_out_the_rest(law):
    given = terms(law).model_dump(mode="json", exclude_unset=True)
    assert {key: value for key, value in given.items() if key not in ABOUT} == TABLE[law][1]


@pytest.mark.parametrize("law", LAWS)
def test_the_terms_name_their_section_the_day_it_was_read_and_a_caution(law):
    found = terms(law)
    assert (found.cites, found.read_on) == (TABLE[law][0], date(2026, 11, 25))
    assert CHECK in found.note


@pytest.mark.practice
def test_no_other_terms_are_shipped():
    assert set(templates(TERMS, Places())) == set(TABLE)


@pytest.mark.source("S.D. Codified Laws 37-5-17")
def test_thirty_percent_over_a_cost_of_40_is_52():
    assert terms("us-sd-outdoor-power").floor_of(Decimal("40.00")) == Decimal("52.00")


@pytest.mark.source("La. R.S. 51:501")
def test_fifteen_percent_over_a_cost_of_40_is_46():
    assert terms("us-la").floor_of(Decimal("40.00")) == Decimal("46.00")


@pytest.mark.source("S.C. Code 39-59-100")
def test_a_law_without_a_floor_for_parts_gives_none():
    assert terms("us-sc").floor_of(Decimal("40.00")) is None
