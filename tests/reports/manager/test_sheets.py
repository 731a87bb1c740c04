import datetime as dt
from decimal import Decimal

from filed import FiledClaim
from reported_claims import a_report, paid, shelved

from claimpack.core.holding.release_rules import RAN_OUT
from claimpack.reports.manager.sheets import report_as_json, report_sheets


def table(name, **changes):
    return report_sheets(a_report(**changes))[name]


def test_every_table_is_a_sheet_in_the_order_of_the_report():
    assert list(report_sheets(a_report()))[:3] == ["what-to-do-first", "outstanding", "held-parts"]


def test_a_sheet_has_the_columns_that_pages_have_no_room_for():
    sheet = table("what-to-do-first")
    row = dict(zip(sheet.headings, sheet.rows[0], strict=True))
    assert (row["Currency"], row["Section"]) == ("USD", "Tex. Bus. & Com. Code 57.253")
    assert row["Accepted by silence on"] == dt.date(2026, 1, 15)


def test_a_sheet_has_every_row():
    owed = tuple(FiledClaim(f"26-{place:04}") for place in range(40))
    assert len(table("what-to-do-first", owed=owed).rows) == 40


def test_amounts_are_numbers_in_whole_coins():
    assert table("outstanding").rows[0][-1] == Decimal("200.00")


def test_counts_are_numbers():
    assert table("held-parts").rows[0][1] == Decimal(1)


def test_scripts_read_findings_and_rows():
    _, first, *_ = report_as_json(a_report())
    assert first["section"] == "first"
    assert first["tables"][0]["rows"][0]["Outstanding"] == "100.00"
    assert first["tables"][0]["rows"][0]["Accepted by silence on"] == "2026-01-15"


def test_a_part_that_may_go_says_why():
    part = shelved(rule=RAN_OUT, because="the plan's hold ended on 2026-02-20")
    assert table("parts-that-may-go", held=(part,)).rows[0][-1] == "the plan's hold ended on 2026-02-20"


def test_a_maker_with_enough_claims_has_its_days_to_payment():
    claims = tuple(paid(f"{place}") for place in range(10))
    assert [str(cell) for cell in table("days-to-payment-by-maker", claims=claims).rows[0]] == [
        "Halden",
        "10",
        "0",
        "30",
        "30",
        "30",
    ]
