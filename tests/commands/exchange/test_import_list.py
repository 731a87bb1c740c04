import csv
import io
import json

import pytest
from openpyxl import Workbook
from running import claimpack, claimpack_in_bytes
from screen_columns import ending_under
from shop_builders import an_empty_shop, the_desk

HEAD = "Claim no,Manufacturer,Model,Serial,Date in,Status,Date filed,Answer date,Amount,Paid,Date paid,Clerk\n"
LIST = (
    HEAD
    + "25-0300,Halden,CS-70,HC70-118-20988,2025-11-03,sent,10 Nov 2025,,$147.20,,,Ann\n"
    + '25-0301,halden,CS-70,HC70-118-20989,2025-10-01,paid,2025-10-09,2025-10-20,"1,200.00","$1,200.00",2025-11-01,\n'
    + "25-0302,Halden,CS-70,HC70-118-20990,2025-10-02,approved,2025-10-09,2025-10-21,90,40,2025-11-02,\n"
    + "25-0303,Halden,CS-70,,2025-12-02,draft,,,,,,\n"
)


@pytest.fixture
def shop(tmp_path):
    shop = an_empty_shop(tmp_path)
    settings = shop / "shop.toml"
    settings.write_text(f'currency = "USD"\n{settings.read_text()}')
    return shop


def taken(shop, text=LIST, *options):
    (shop / "claims.csv").write_text(text)
    return claimpack("import", "claims.csv", *options, folder=shop)


def standing(shop, number):
    return the_desk(shop).book.get(number).standing


def test_claims_come_in_with_their_history_on_the_days_the_list_says(shop):
    assert taken(shop, LIST, "--yes").code == 0
    told = [(event.what, str(event.on)) for event in the_desk(shop).book.history("25-0301")]
    assert told[1:] == [("filed", "2025-10-09"), ("answered", "2025-10-20"), ("paid", "2025-11-01")]
    assert [standing(shop, number).state for number in ("25-0300", "25-0301", "25-0302", "25-0303")] == [
        "filed",
        "paid",
        "accepted",
        "draft",
    ]
    assert (str(standing(shop, "25-0301").paid), str(standing(shop, "25-0302").outstanding)) == ("1200.00", "50.00")


def test_what_came_in_is_pending_and_the_book_is_sound(shop):
    taken(shop, LIST, "--yes")
    pending = claimpack("pending", "--json", folder=shop).json
    assert (pending["totals"]["outstanding"], claimpack("shop", "verify", folder=shop).code) == ("197.20", 0)


def test_an_audit_does_not_say_what_went_with_a_claim_that_was_filed_elsewhere(shop):
    taken(shop, LIST, "--yes")
    told = claimpack("audit", "--json", folder=shop).json["exceptions"]
    assert {each["weight"] for each in told if each["rule"] == "evidence-missing"} == {"look"}


def test_a_dry_run_shows_the_columns_and_what_is_odd_and_takes_nothing(shop):
    ran = taken(shop, LIST, "--dry-run")
    assert ("Columns, as their headings suggest" in ran.out, "not taken: Clerk" in ran.out) == (True, True)
    assert ("row 4, 25-0302: paid, and 50.00 USD is outstanding" in ran.out, the_desk(shop).book.numbers()) == (
        True,
        [],
    )
    table = ran.out[ran.out.index("Row ") : ran.out.index("Odd")]
    assert ([line.split()[2:5] for line in table.splitlines()[1:3]], "halden" in table) == (
        [["Halden", "filed", "2025-11-10"], ["Halden", "paid", "2025-10-09"]],
        False,
    )


def test_a_dry_run_tells_scripts_that_nothing_was_taken(shop):
    told = taken(shop, LIST, "--dry-run", "--json").json
    assert (told["taken"], told["import"], len(told["claims"])) == (False, None, 4)


def test_of_drafts_alone_nothing_is_outstanding(shop):
    ran = taken(shop, f"{HEAD}25-0303,Halden,CS-70,,2025-12-02,draft,,,,,,\n", "--dry-run")
    assert "1 claim would be taken in, nothing outstanding" in ran.out


def test_a_list_that_was_taken_back_and_comes_in_again_the_same_day_is_another_import(shop):
    first = taken(shop, LIST, "--yes", "--json").json["import"]
    claimpack("import", "--undo", first, "--yes", folder=shop)
    second = taken(shop, LIST, "--yes", "--json").json["import"]
    assert (second.startswith(first), second != first) == (True, True)


def test_rows_and_amounts_to_come_stand_under_each_other(shop):
    told = taken(shop, LIST, "--dry-run").out
    told = told[told.index("Row ") : told.index("Odd")]
    found = {title: ending_under(told, title) for title in ("Row", "Claimed", "Paid", "Outstanding")}
    assert found == {
        "Row": ["2", "3", "4", "5"],
        "Claimed": ["147.20", "1200.00", "90.00"],
        "Paid": ["1200.00", "40.00"],
        "Outstanding": ["147.20", "0.00", "50.00"],
    }


def test_the_amount_of_a_draft_is_worked_out_here_and_the_lists_is_told(shop):
    ran = taken(shop, LIST.replace("draft,,,,", "draft,,,99.00,"), "--dry-run")
    assert "row 5, 25-0303: a draft, so its amount is worked out here; the list's 99.00 is not taken." in ran.out


def test_amounts_are_read_in_the_currency_of_their_row(shop):
    head = HEAD.replace("Clerk", "Currency")
    ran = taken(shop, f'{head}25-1,Halden,CS-70,,2025-11-03,sent,2025-11-04,,"€ 12,50",,,EUR\n', "--yes")
    assert (ran.code, str(standing(shop, "25-1").claimed), standing(shop, "25-1").currency) == (0, "12.50", "EUR")


def test_a_list_may_be_a_workbook_or_come_in_on_standard_input(shop):
    workbook = Workbook()
    for line in csv.reader(io.StringIO(LIST)):
        workbook.active.append(line)
    workbook.save(shop / "claims.xlsx")
    named = claimpack("import", "claims.xlsx", "--dry-run", "--json", folder=shop).json
    piped = claimpack_in_bytes("import", "-", "--dry-run", "--json", folder=shop, typed=LIST.encode())
    told = [[claim["claim"] for claim in one["claims"]] for one in (named, json.loads(piped.out))]
    assert told == [["25-0300", "25-0301", "25-0302", "25-0303"]] * 2


def test_nothing_is_taken_without_a_yes(shop):
    assert (taken(shop).code, the_desk(shop).book.numbers()) == (4, [])


@pytest.mark.parametrize(
    ("row", "named"),
    [
        ("25-0300,Halden,CS-70,,2025-11-03,,,,,,,", "row 6: claim 25-0300 stands in row 2 too"),
        ("25-1,Quarl,CS-70,,2025-11-03,,,,,,,", "row 6, column 'Manufacturer': no plan is of 'Quarl'"),
        ("25-1,Halden,CS-70,,2025-02-30,,,,,,,", "row 6, column 'Date in': '2025-02-30'"),
        ("25-1,Halden,CS-70,,3/4/2025,,,,,,,", "2025-03-04 or 2025-04-03"),
        ("25-1,Halden,CS-70,,2025-11-03,sent,2025-11-04,,12 dollars,,,", "row 6, column 'Amount': '12 dollars'"),
        ("25-1,Halden,CS-70,,2025-11-03,sent,2025-11-04,,-5,,,", "row 6, column 'Amount': "),
        ("25-1,Halden,CS-70,,2025-11-03,sent,,,5,,,", "row 6, column 'Date filed': the day it was filed is missing"),
        ("25-1,Halden,CS-70,,2025-11-03,open,,,5,,,", "row 6, column 'Status': 'open' is no state"),
        ("25-1,Halden,CS-70,,2025-11-03,sent,2026-11-04,,5,,,", "is still to come"),
        ("25-1,Halden,CS-70,,2025-11-03,paid,2025-11-04,,5,2,2025-11-05,", "column 'Paid': it is said to be paid"),
        ("25-1,Halden,CS-70,,2025-11-03,paid,2025-11-04,,5,5,2025-11-01,", "column 'Paid': 2025-11-01 is before"),
        ("no number!,Halden,CS-70,,2025-11-03,,,,,,,", "row 6, column 'Claim no'"),
    ],
)
def test_a_row_that_cannot_be_is_named_with_its_column_and_nothing_is_taken(shop, row, named):
    ran = taken(shop, f"{LIST}{row}\n", "--yes")
    assert (ran.code, named in ran.err, the_desk(shop).book.numbers()) == (2, True, [])


def test_every_row_and_every_column_is_named_in_one_run(shop):
    rows = (
        "25-1,Quarl,CS-70,,2025-02-30,open,,,12 dollars,,,\n"
        "25-2,Halden,,,,sent,,,,,,\n"
        "25-3,Halden,CS-70,,2025-11-03,paid,2025-11-04,,5,2,2025-11-05,\n"
        "25-0300,Halden,CS-70,,2025-11-03,paid,,,5,5,,\n"
    )
    err = taken(shop, f"{LIST}{rows}", "--yes").err
    wanted = {6: "Manufacturer,Date in,Status,Amount", 7: "Model,Date in,Date filed,Amount", 8: "Paid"}
    wanted[9] = "Date filed,Date paid"
    named = [f"row {place}, column {name!r}" for place, names in wanted.items() for name in names.split(",")]
    assert [each for each in named if err.count(each) != 1] == []


def test_a_row_of_totals_and_one_without_a_number_are_odd_and_left_out(shop):
    ran = taken(shop, f"{LIST}Total,,,,,,,,1437.20,,,\n,,,,,,,,5,,,\n", "--yes", "--json")
    assert (ran.code, len(ran.json["claims"]), [told[:5] for told in ran.json["odd"][:2]]) == (0, 4, ["row 6", "row 7"])


def test_what_no_column_says_is_not_called_a_column(shop):
    err = taken(shop, f"{LIST}25-1,Halden,CS-70,,2025-11-03,partial,2025-11-04,2025-11-05,5,,,\n", "--yes").err
    assert "row 6: how much the maker accepts is missing (no column says accepted)" in err


@pytest.mark.parametrize(("accepted", "state"), [("1100", "paid"), ("1200", "accepted")])
def test_a_claim_paid_short_stands_where_what_was_accepted_leaves_it(shop, accepted, state):
    row = f"25-1,Halden,CS-70,,2025-11-03,paid,2025-11-04,2025-11-05,1200,1100,2025-11-06,{accepted}\n"
    assert taken(shop, HEAD.replace("Clerk", "Amount accepted") + row, "--yes").code == 0
    assert (standing(shop, "25-1").state, str(standing(shop, "25-1").paid)) == (state, "1100.00")


def test_no_row_of_a_list_is_skipped(shop):
    assert (taken(shop, LIST, "--yes", "--skip-bad").code, the_desk(shop).book.numbers()) == (2, [])


def test_an_import_that_is_not_there_is_told_with_those_that_are(shop):
    imported = taken(shop, LIST, "--yes", "--json").json["import"]
    assert imported in claimpack("import", "--undo", "1", "--yes", folder=shop).err


def test_one_command_takes_an_import_back_and_a_corrected_list_comes_in_again(shop):
    imported = taken(shop, LIST, "--yes", "--json").json["import"]
    assert claimpack("import", "--undo", imported, "--yes", folder=shop).code == 0
    states = {standing(shop, number).state for number in the_desk(shop).book.numbers()}
    assert (states, claimpack("pending", "--json", folder=shop).json["claims"]) == ({"withdrawn"}, [])
    assert taken(shop, LIST.replace("$147.20", "150"), "--yes").code == 0
    assert (str(standing(shop, "25-0300").claimed), standing(shop, "25-0301").state) == ("150", "paid")
    assert claimpack("shop", "verify", folder=shop).code == 0


def test_an_import_is_not_taken_back_once_a_claim_of_it_changed(shop):
    imported = taken(shop, LIST, "--yes", "--json").json["import"]
    claimpack("answer", "25-0300", "accepted", folder=shop)
    ran = claimpack("import", "--undo", imported, "--yes", folder=shop)
    assert (ran.code, "25-0300" in ran.err, standing(shop, "25-0303").state) == (2, True, "draft")


def test_a_number_that_is_in_the_book_does_not_come_in_again(shop):
    taken(shop, LIST, "--yes")
    ran = taken(shop, LIST, "--yes")
    assert (ran.code, "row 2, column 'Claim no': claim 25-0300 is already in the book" in ran.err) == (2, True)


def test_a_mapping_names_columns_words_and_what_is_the_same_in_every_row(shop):
    (shop / "map.toml").write_text(
        '[columns]\nnumber = "Job"\nstate = "Where"\nmodel = "Unit"\npresented = "Came"\nfiled = "Came"\n'
        'claimed = "Sum"\n[values]\nmaker = "halden"\n[states]\n"with the maker" = "filed"\n'
    )
    text = "Job,Where,Unit,Came,Sum\nJ-1,With the maker,CS-70,2025-11-03,5\n"
    ran = taken(shop, text, "--mapping", "map.toml", "--yes")
    assert (ran.code, str(standing(shop, "J-1").filed)) == (0, "2025-11-03")


def test_the_mapping_that_the_headings_suggest_is_written_down_and_reads_the_same(shop):
    taken(shop, LIST, "--write-mapping", "map.toml")
    assert (the_desk(shop).book.numbers(), taken(shop, LIST, "--mapping", "map.toml", "--yes").code) == ([], 0)


def test_a_list_without_a_column_that_every_claim_needs_says_which(shop):
    ran = taken(shop, "Claim no,Amount\n25-1,5\n", "--yes")
    assert (ran.code, "no column says maker, model, presented" in ran.err) == (2, True)
