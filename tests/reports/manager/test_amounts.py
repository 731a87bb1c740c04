from __future__ import annotations

from decimal import Decimal

import pytest
from reported_claims import told

from claimpack.core.reporting.three_amounts import Watched
from claimpack.core.steps.listed import ListedPart
from claimpack.reports.manager.amounts import amounts_section
from claimpack.reports.manager.page import report_page
from claimpack.reports.manager.sections import report_of

BACK = dict.fromkeys(ListedPart._fields, "") | {"state": "called back", "send_by": None, "part": "short block"}
BACK |= {"nth": 1, "currency": "USD", "outstanding": Decimal(0), "paid": Decimal("1204.50")}


def called_back(*numbers):
    return Watched(parts=[ListedPart(**{**BACK, "claim": number}) for number in numbers])


@pytest.fixture(scope="module")
def section():
    return amounts_section(told(watched=called_back("26-0001", "26-0002")))


def test_three_figures_stand_before_all_else(section):
    assert [(one.amount, one.about) for one in section.figures] == [
        ("2,409.00 USD", "on 2 claims"),
        ("0", ""),
        ("0", ""),
    ]


def test_the_claims_an_amount_hangs_on_are_listed_below(section):
    table = section.tables[0]
    assert (table.name, [row[:2] for row in table.rows]) == (
        "can-be-lost-this-week",
        [("26-0001", Decimal("1204.50")), ("26-0002", Decimal("1204.50"))],
    )


def test_a_phone_has_no_room_for_the_maker_of_a_claim(section):
    (table,) = section.tables
    assert [column.heading for column in table.columns if not column.narrow] == ["Maker"]


def test_an_amount_that_hangs_on_no_claim_has_no_table():
    assert amounts_section(told()).tables == ()


def test_the_page_shows_the_figures_before_what_is_said_in_short():
    page = report_page(report_of(told(watched=called_back("26-0001")))).decode()
    assert 0 < page.index("1,204.50\N{NO-BREAK SPACE}USD") < page.index('<nav aria-labelledby="short">')


@pytest.fixture(scope="module")
def by_shop():
    """The table of shops, the terms of one of which are not known."""
    whole = told(watched=called_back("26-0001", "26-0002"))
    whose = {"26-0001": "ashby", "26-0002": "hollis"}
    return amounts_section(whole._replace(whose=whose, undated=("hollis",))).tables[0]


def test_what_makers_are_late_with_is_told_of_shops_whose_terms_are_known_alone(by_shop):
    late = {row[0]: row[2] for row in (*by_shop.rows, *by_shop.totals)}
    assert late == {"ashby": Decimal(0), "hollis": "not known", "all": "not known"}


def test_only_the_sum_of_all_shops_stands_below_the_table(by_shop):
    assert ([row[0] for row in by_shop.rows], [row[0] for row in by_shop.totals]) == (["ashby", "hollis"], ["all"])


def test_amounts_stand_at_the_right_of_their_columns(section, by_shop):
    tables = (section.tables[0], by_shop)
    assert [[column.heading for column in table.columns if column.right] for table in tables] == [
        ["Amount"],
        ["Can be lost this week", "Makers are late with", "Only the shop can move"],
    ]
