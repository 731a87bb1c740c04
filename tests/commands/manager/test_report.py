import csv
import datetime as dt
import io
import sys
from decimal import Decimal
from pathlib import Path

import openpyxl
import pytest
from busy_shop import a_busy_shop
from manager_shop import a_managed_shop, filed_in, on, took_place
from pages import Page
from printed import page_texts
from running import claimpack
from shop_builders import a_shop

NOW = dt.datetime(2026, 9, 7, 8, 0, tzinfo=dt.UTC)


@pytest.fixture(scope="module")
def shop(tmp_path_factory):
    return a_busy_shop(tmp_path_factory.mktemp("report"), 120)


@pytest.fixture(scope="module")
def written(shop):
    """What the whole report wrote: its files by name."""
    ran = claimpack("report", "--out", "whole", folder=shop, now=NOW)
    assert ran.code == 0, ran.err
    return {path.name: path for path in (shop / "whole").iterdir()}


def run(shop, *arguments):
    return claimpack("report", *arguments, folder=shop, now=NOW)


def rows(path):
    return list(csv.DictReader(io.StringIO(path.read_bytes().decode("utf-8-sig"), newline="")))


def section(ran, key):
    return next(part for part in ran.json["sections"] if part["section"] == key)


def test_paper_page_spreadsheet_and_lists_are_written(written):
    assert {name.rpartition(".")[2] for name in written} == {"pdf", "html", "xlsx", "csv"}


def test_every_file_carries_the_day(written):
    assert all(name.startswith("report-2026-09-07") for name in written)


def test_the_pdf_can_be_read(written):
    assert "Monday report" in page_texts(written["report-2026-09-07.pdf"])[0]


def test_the_page_is_whole(written):
    page = Page(written["report-2026-09-07.html"].read_bytes())
    assert page.wrong == []
    assert page.texts("h1") == ["Monday report"]


def test_the_spreadsheet_has_a_page_a_list(written):
    sheets = openpyxl.load_workbook(written["report-2026-09-07.xlsx"]).sheetnames
    lists = {name.removeprefix("report-2026-09-07-").removesuffix(".csv") for name in written if name.endswith("csv")}
    assert set(sheets) == lists


def test_the_list_of_what_to_do_holds_what_pending_holds(shop, written):
    listed = claimpack("pending", "--json", folder=shop, now=NOW).json["claims"]
    found = rows(written["report-2026-09-07-what-to-do-first.csv"])
    assert [row["Claim"] for row in found] == [item["claim"] for item in listed]


def test_what_is_outstanding_adds_up_to_what_pending_says(shop, written):
    totals = claimpack("pending", "--json", folder=shop, now=NOW).json["totals"]["by_currency"]
    for currency, sums in totals.items():
        found = [row for row in rows(written["report-2026-09-07-outstanding.csv"]) if row["Currency"] == currency]
        cents = sum(int(row["Total"].replace(".", "")) for row in found)
        assert cents == int(sums["outstanding"].replace(".", ""))


def test_what_may_go_is_what_the_shelves_say(shop, written):
    listed = claimpack("hold", "list", "--may-go", "--json", folder=shop, now=NOW).json["parts"]
    found = rows(written["report-2026-09-07-parts-that-may-go.csv"])
    assert [row["Code"] for row in found] == [part["code"] for part in listed]


def test_the_same_book_on_the_same_day_gives_the_same_bytes(shop, written):
    run(shop, "--out", "again")
    assert {name: path.read_bytes() for name, path in written.items()} == {
        path.name: path.read_bytes() for path in (shop / "again").iterdir()
    }


def test_one_kind_alone_is_written_when_asked_for(shop):
    run(shop, "--out", "one", "--html")
    assert [path.suffix for path in (shop / "one").iterdir()] == [".html"]


def test_findings_are_told_and_then_the_files(shop):
    out = run(shop, "--out", "told", "--html").out
    assert "What to do first:" in out
    assert out.splitlines()[-1].endswith("report-2026-09-07.html")


@pytest.fixture(scope="module")
def of_halden(shop):
    """The report of one maker."""
    return run(shop, "--out", "maker", "--html", "--maker", "halden", "--json")


def test_one_maker_alone_is_told_of(of_halden):
    found = section(of_halden, "first")
    assert {row["Maker"] for row in found["tables"][0]["rows"]} == {"Halden"}


def test_scripts_read_which_maker_a_report_is_of(shop, of_halden):
    assert of_halden.json["maker"] == "Halden"
    assert run(shop, "--out", "every", "--html", "--json").json["maker"] is None


def test_parts_of_other_makers_are_left_out(of_halden):
    found = section(of_halden, "held")
    table = next(table for table in found["tables"] if table["name"] == "parts-that-may-go")
    assert all(row["Unit"].startswith("Halden ") for row in table["rows"])


def test_a_maker_that_is_not_in_the_book_is_refused(shop):
    ran = run(shop, "--maker", "haldn")
    assert ran.code == 2
    assert "Did you mean 'Halden'?" in ran.err


def test_months_outside_the_days_are_left_out(shop):
    ran = run(shop, "--out", "days", "--html", "--from", "2026-05-01", "--to", "2026-06-30", "--json")
    months = {row["Month"] for row in section(ran, "months")["tables"][0]["rows"]}
    assert months == {"2026-05", "2026-06"}


def test_days_that_end_before_they_begin_are_refused(shop):
    ran = run(shop, "--from", "2026-06-30", "--to", "2026-05-01")
    assert ran.code == 2
    assert "--from 2026-06-30 is after --to 2026-05-01" in ran.err


def test_the_day_is_the_one_told(shop):
    assert run(shop, "--out", "day", "--html", "--today", "2026-08-01", "--json").json["today"] == "2026-08-01"


def test_json_names_the_files_and_nothing_else_is_said(shop):
    ran = run(shop, "--out", "json", "--pdf", "--json")
    assert [name.rpartition("/")[2] for name in ran.json["files"]] == ["report-2026-09-07.pdf"]
    assert ran.err == ""


def test_an_empty_book_has_a_report(tmp_path):
    claimpack("shop", "init", "shop", folder=tmp_path)
    ran = claimpack("report", "--json", folder=tmp_path / "shop", now=NOW)
    rows = [table["rows"] for section in ran.json["sections"] for table in section["tables"]]
    assert (ran.code, any(rows), all(Path(file).is_file() for file in ran.json["files"])) == (0, False, True)


def test_a_draft_alone_has_a_report(tmp_path):
    assert claimpack("report", "--json", folder=a_shop(tmp_path), now=NOW).code == 0


def test_a_paper_that_is_none_is_refused(shop):
    assert run(shop, "--paper", "a5").code == 2


def test_a_folder_that_takes_no_files_is_told(shop):
    (shop / "taken").write_text("a file")
    ran = run(shop, "--out", "taken", "--html")
    assert (ran.code, "File exists" in ran.err, (shop / "taken").read_text()) == (2, True, "a file")


AMOUNTS = {
    "can_be_lost": "can-be-lost-this-week",
    "late": "makers-are-late-with",
    "only_the_shop": "only-the-shop-can-move",
}


@pytest.fixture(scope="module")
def amounts(shop):
    """The three amounts as `pending` has them for scripts."""
    return claimpack("pending", "--json", folder=shop, now=NOW).json["three_amounts"]


def test_a_busy_shop_has_something_in_each_of_the_three_amounts(amounts):
    assert all(amounts[name]["claims"] for name in AMOUNTS)


def test_report_and_pending_tell_scripts_the_same_three_amounts(shop, amounts):
    assert run(shop, "--out", "amounts", "--html", "--json").json["three_amounts"] == amounts


@pytest.mark.parametrize("name", AMOUNTS)
def test_the_lists_of_the_report_have_the_claims_of_the_three_amounts(written, amounts, name):
    found = rows(written[f"report-2026-09-07-{AMOUNTS[name]}.csv"])
    listed = [(one["claim"], one["amount"]) for one in amounts[name]["claims"]]
    assert [(row["Claim"], row["Amount"]) for row in found] == listed


def test_paper_page_and_screen_show_the_three_amounts_first(shop, written, amounts):
    paper = page_texts(written["report-2026-09-07.pdf"])[0]
    page = written["report-2026-09-07.html"].read_text().partition("<nav")[0]
    screen = claimpack("pending", folder=shop, now=NOW).out.partition("Pending on")[0]
    sums = [amount for name in AMOUNTS for amount in amounts[name]["amounts"].values()]
    for said in (paper, page, screen):
        assert [amount for amount in sums if amount not in said.replace(",", "")] == []


@pytest.mark.parametrize("kind", ["pdf", "csv", "xlsx"])
def test_any_kind_may_be_written_alone(shop, kind):
    run(shop, "--out", kind, f"--{kind}")
    assert {path.suffix for path in (shop / kind).iterdir()} == {f".{kind}"}


def test_lists_begin_with_the_mark_that_tells_a_spreadsheet_their_encoding(written):
    lists = [path for path in written.values() if path.suffix == ".csv"]
    assert all(path.read_bytes().startswith(b"\xef\xbb\xbf") for path in lists)


def test_a_spreadsheet_that_cannot_be_written_is_left_out_unless_it_was_asked_for(shop, monkeypatch):
    monkeypatch.setitem(sys.modules, "xlsxwriter", None)
    whole, alone = run(shop, "--out", "without"), run(shop, "--out", "none", "--xlsx")
    assert (whole.code, "No spreadsheet" in whole.err, alone.code) == (0, True, 2)
    assert {path.suffix for path in (shop / "without").iterdir()} == {".pdf", ".html", ".csv"}


RATES = "[{since = 2025-01-01, rate = '100'}, {since = 2026-01-15, rate = '200'}]"


@pytest.fixture(scope="module")
def small(tmp_path_factory):
    """Of three claims repaired on 1 December one is refused, and two were paid short and given up: one after a letter.

    The other one's note only said to look at it again.
    """
    shop = a_managed_shop(tmp_path_factory.mktemp("small"))
    settings = shop / "shop.toml"
    settings.write_text(f"labour_rates = {RATES}\n{settings.read_text()}")
    work = [{"operation": "short-block", "hours": "2.0"}]
    for number in ("26-0001", "26-0002", "26-0003"):
        filed_in(shop, number, labour=work)
    took_place(shop, "26-0001", "answered", "2026-02-01", answer="refused")
    for number, letter, lost in (("26-0002", "chased", 50), ("26-0003", "noted", 30)):
        took_place(shop, number, "paid", "2026-02-01", amount=f"{150 - lost}.00")
        took_place(shop, number, letter, "2026-02-10", again="2026-03-01")
        took_place(shop, number, "written off", "2026-03-02", amount=f"{lost}.00")
    return on("2026-03-20", "report", "--html", "--json", shop=shop)


def test_what_is_lost_of_a_claim_paid_short_tells_whether_a_letter_went_out(small):
    found = section(small, "lost")["tables"][0]["rows"]
    assert {row["Cause"]: row["Amount"] for row in found} == {
        "short pay, chased in vain": "50.00",
        "short pay, no letter noted": "30.00",
    }


def test_refusals_are_those_that_makers_answered_with(small):
    assert [row["Claims"] for row in section(small, "refusals")["tables"][0]["rows"]] == [1]


def test_labour_is_told_beside_what_an_owner_paid_for_it_on_the_day_of_repair(small):
    (row,) = section(small, "labour")["tables"][0]["rows"]
    assert Decimal(row["At the shop's own"]) == 100 * Decimal(row["Hours"])


def test_a_report_of_no_claims_tells_nothing_in_the_shops_currency(tmp_path):
    ran = on("2026-03-20", "report", "--html", "--json", shop=a_managed_shop(tmp_path))
    assert section(ran, "amounts")["finding"].count("0.00 USD") == 3
