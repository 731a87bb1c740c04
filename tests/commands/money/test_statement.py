import csv

import pytest
from builders import CLAIM, changed
from made_once import made_once
from running import NOW, claimpack
from screen_columns import ending_under
from shop_builders import a_shop, happen, the_desk
from shops_with_claims import a_copy

from claimpack.core.claims.claim import Claim
from claimpack.core.events.events import NewEvent

THREE = ("26-0001", "26-0002", "26-0003")
HEAD = "Claim,Reference,Amount,Reason\n"
MEMO = f"Credit memo,CM-1,,\n{HEAD}26-0001,,150.00,\n,M-2,120.00,labour rate\nTotal,,270.00,\n"


@made_once
def three_filed(place):
    """A shop with three claims of 150.00 filed, 26-0002 as M-2 of the maker."""
    shop = a_shop(place, *THREE)
    for number in THREE:
        happen(shop, number, "filed", claimed="150.00", currency="USD", reference=f"M-{number[-1]}")
    return shop


@pytest.fixture
def shop(tmp_path):
    return three_filed(tmp_path)


def statement(shop, text=MEMO, *options, name="memo.csv"):
    (shop / name).write_text(text)
    return claimpack("statement", name, "--maker", "halden", *options, folder=shop)


def standings(shop):
    return [the_desk(shop).book.get(number).standing for number in THREE]


def states(shop):
    return [standing.state for standing in standings(shop)]


def test_a_statement_is_booked_in_one_go_and_tells_what_is_missing(shop):
    told = statement(shop, MEMO, "--yes", "--json").json
    assert [(one["claim"], one["kind"], one["difference"]) for one in told["claims"]] == [
        ("26-0001", "paid in full", "0.00"),
        ("26-0002", "short", "30.00"),
    ]
    assert (told["memo"], told["booked"], [one["claim"] for one in told["missing"]]) == ("CM-1", True, ["26-0003"])
    assert states(shop) == ["paid", "filed", "filed"]


@pytest.mark.parametrize("options", [["--dry-run"], []], ids=["a dry run", "no yes"])
def test_nothing_is_booked_by_looking(shop, options):
    ran = statement(shop, MEMO, *options)
    assert (ran.code, states(shop)) == (0 if options else 4, ["filed"] * 3)


@pytest.mark.parametrize(
    ("text", "options", "said"),
    [
        (MEMO, [], "memo CM-1 is already booked, on 2026-03-01\n"),
        (MEMO, ["--memo", "CM-9"], "on 2026-03-01; this is the same file as that of memo CM-1\n"),
        (MEMO + "\n\n", [], "memo CM-1 is already booked, on 2026-03-01\n"),
    ],
    ids=["the same", "the same file under another number", "another file under the same number"],
)
def test_the_same_statement_twice_is_refused(shop, text, options, said):
    statement(shop, MEMO, "--yes")
    ran = statement(shop, text, "--yes", *options)
    assert (ran.code, said in ran.err, str(standings(shop)[1].paid)) == (2, True, "120.00")


def test_one_command_takes_it_back_and_it_may_be_booked_again(shop):
    statement(shop, MEMO, "--yes")
    assert claimpack("statement", "--undo", "CM-1", "--yes", folder=shop).code == 0
    assert states(shop) == ["filed"] * 3
    assert (statement(shop, MEMO, "--yes").code, states(shop)[0]) == (0, "paid")
    assert claimpack("shop", "verify", folder=shop).code == 0


def test_what_was_paid_since_keeps_all_of_it_booked(shop):
    statement(shop, MEMO, "--yes")
    claimpack("pay", "26-0002", "10.00", folder=shop)
    ran = claimpack("statement", "--undo", "CM-1", "--yes", folder=shop)
    assert (ran.code, "26-0002" in ran.err, states(shop)[0]) == (2, True, "paid")


STRAY = f"{HEAD}26-0001,,150.00,\n26-7777,,10.00,\n"


def test_rows_that_nobody_knows_are_left_out_on_request_alone(shop):
    assert (statement(shop, STRAY, "--memo", "CM-2", "--yes").code, states(shop)[0]) == (4, "filed")
    assert (statement(shop, STRAY, "--memo", "CM-2", "--yes", "--leave-out").code, states(shop)[0]) == (0, "paid")
    (booked,) = claimpack("statement", "--booked", "--json", folder=shop).json["statements"]
    assert [each["named"] for each in booked["left"]] == ["26-7777"]


def test_a_row_is_booked_on_the_claim_that_somebody_says(shop):
    statement(shop, STRAY, "--memo", "CM-2", "--row", "3=26-0003", "--yes")
    assert str(standings(shop)[2].paid) == "10.00"


def test_a_statement_without_a_number_is_refused(shop):
    assert (statement(shop, STRAY, "--yes", "--leave-out").code, states(shop)[0]) == (2, "filed")


def test_columns_are_shown_the_first_time_and_kept_for_the_maker(shop):
    text = "Claim,Amount,Pay this,Clerk\n26-0001,200.00,100.00,Ann\n"
    first = statement(shop, text, "--memo", "CM-1", "--column", "amount=Pay this", "--yes")
    again = statement(shop, text.replace("100.00", "50.00"), "--memo", "CM-2", "--yes")
    assert ("Columns" in first.out, "Columns" in again.out, str(standings(shop)[0].paid)) == (True, False, "150.00")
    assert ("not taken" in again.out, "not in this file" in again.out) == (False, False)
    assert "not taken: Amount, Clerk" in first.out


def test_the_history_and_the_claim_tell_the_memo(shop):
    statement(shop, MEMO, "--yes")
    assert [claimpack(command, "26-0001", folder=shop).out.count("CM-1") > 0 for command in ("history", "show")] == [
        True,
        True,
    ]


def test_the_journal_has_an_entry_a_payment_with_the_accounts_of_the_shop(shop):
    settings = (shop / "shop.toml").read_text()
    (shop / "shop.toml").write_text(settings.replace("[accounts]", '[accounts]\nmoney = "1010"'))
    statement(shop, MEMO, "--yes")
    told = claimpack("export", "--journal", "journal.csv", "--json", folder=shop).json["journal"]
    rows = list(csv.DictReader((shop / "journal.csv").open(newline="")))
    assert (told["entries"], told["debits"], [row["debit"] for row in rows]) == (2, {"USD": "270.00"}, ["1010", "1010"])


def test_a_journal_of_some_claims_has_their_entries_alone_and_names_its_file(shop):
    settings = (shop / "shop.toml").read_text()
    (shop / "shop.toml").write_text(settings.replace("[accounts]", '[accounts]\nmoney = "1010"'))
    statement(shop, MEMO, "--yes")
    told = claimpack("export", "26-0002", "--journal", "journal.csv", "--json", folder=shop).json["journal"]
    assert (told["entries"], told["debits"], told["file"]) == (1, {"USD": "120.00"}, str(shop / "journal.csv"))


TWO_MEMOS = "Claim,Memo,Amount\n26-0001,CM-1,150.00\n26-0002,CM-2,150.00\n"


def test_the_memos_of_one_file_are_booked_one_after_the_other_and_each_once(shop):
    codes = [statement(shop, TWO_MEMOS, "--memo", memo, "--yes").code for memo in ("CM-1", "CM-2", "CM-2")]
    assert (codes, states(shop)) == ([0, 0, 2], ["paid", "paid", "filed"])


def test_a_row_that_pays_two_claims_is_booked_as_somebody_says(shop):
    text = f"{HEAD}26-0001 / 26-0002,,270.00,\n"
    assert statement(shop, text, "--memo", "CM-2", "--yes").code == 4
    assert statement(shop, text, "--memo", "CM-2", "--row", "2=26-0001:150.00,26-0002:120.00", "--yes").code == 0
    assert [str(standing.paid) for standing in standings(shop)] == ["150.00", "120.00", "0"]


def test_amounts_in_another_currency_are_booked_on_no_claim_in_the_shops(shop):
    text = "Claim,Amount (CAD)\n26-0001,150.00\n"
    assert statement(shop, text, "--memo", "CM-2", "--yes").code == 2
    assert (statement(shop, text, "--memo", "CM-2", "--currency", "CAD", "--yes").code, states(shop)[0]) == (4, "filed")


def test_what_is_short_of_several_claims_is_told_of_all(shop):
    text = f"{HEAD}26-0001,,100.00,\n26-0002,,140.00,\n"
    err = statement(shop, text, "--memo", "CM-2", "--yes").err
    assert ("The rest of 26-0001, 26-0002, 60.00 USD" in err, "chase CLAIM" in err) == (True, True)


def test_what_is_short_of_one_claim_is_told_with_what_to_type_for_it(shop):
    assert "chase 26-0002" in statement(shop, MEMO, "--yes").err


TWICE = f"{HEAD}26-0001,,100.00,\n26-0001,,100.00,\n"


def test_of_two_rows_alike_one_may_be_counted(shop):
    asked = statement(shop, TWICE, "--memo", "CM-1", "--yes")
    told = statement(shop, TWICE, "--memo", "CM-1", "--once", "--yes", "--json").json
    assert (asked.code, told["counted_once"], str(standings(shop)[0].paid)) == (4, [3], "100.00")


def test_a_column_that_one_file_lacks_stays_remembered_for_the_next(shop):
    statement(shop, MEMO, "--yes")
    statement(shop, "Claim,Amount\n26-0003,150.00\n", "--memo", "CM-2", "--yes")
    kept = next((shop / "statements").iterdir()).read_text()
    assert (states(shop)[2], "Reason" in kept) == ("paid", True)


WITH_A_STRAY = MEMO.replace("Total,,270.00,\n", "HX-9999,,55.00,\n")


def test_rows_left_out_are_added_up_at_booking_and_told_again_later(shop):
    told = statement(shop, WITH_A_STRAY, "--leave-out", "--yes", "--json").json
    (booked,) = claimpack("statement", "--booked", "--json", folder=shop).json["statements"]
    assert (told["left_out"], booked["memo"], booked["amount"]) == ("55.00", "CM-1", "270.00")
    assert booked["left"] == [{"place": 5, "amount": "55.00", "named": "HX-9999"}]
    assert "CM-1" in claimpack("find", "hx-9999", folder=shop).err


def test_a_statement_taken_back_is_not_told_as_booked(shop):
    statement(shop, WITH_A_STRAY, "--leave-out", "--yes")
    claimpack("statement", "--undo", "CM-1", "--yes", folder=shop)
    assert claimpack("statement", "--booked", "--json", folder=shop).json["statements"] == []


def test_a_row_left_out_once_and_booked_since_is_not_told_as_left_out(shop):
    statement(shop, WITH_A_STRAY, "--leave-out", "--yes")
    claimpack("statement", "--undo", "CM-1", "--yes", folder=shop)
    statement(shop, WITH_A_STRAY, "--row", "5=26-0003", "--yes")
    (booked,) = claimpack("statement", "--booked", "--json", folder=shop).json["statements"]
    assert (booked["amount"], booked["left"]) == ("325.00", [])


def test_where_a_known_column_is_gone_those_that_are_not_read_are_named(shop):
    statement(shop, MEMO, "--yes")
    told = statement(shop, "Claim,Amount,Offsets\n26-0003,150.00,20.00\n", "--memo", "CM-2", "--dry-run")
    assert "Offsets" in f"{told.out}{told.err}"
    assert "not in this file: Reference, Reason" in told.out


FOUR_KINDS = f"{HEAD}26-0001,,50.00,\n26-0001,,-50.00,\n26-0002,,9.00,\n26-0003,,1150.00,\n"


def test_rows_and_amounts_of_a_statement_stand_under_each_other(shop):
    told = statement(shop, FOUR_KINDS, "--memo", "CM-2").out
    told = told[told.index(" Row") :]
    found = {title: ending_under(told, title)[:3] for title in ("Outstanding", "Paid", "Difference")}
    assert found == {
        "Outstanding": ["150.00", "150.00", "150.00"],
        "Paid": ["0.00", "9.00", "1,150.00"],
        "Difference": ["100.00", "141.00", "-1,000.00"],
    }
    assert ending_under(told, "Row") == ["3", "4", "5"]


@pytest.mark.parametrize(("options", "asked"), [([], 1), (["--anyway", "freight"], 0)])
def test_only_what_is_over_and_has_no_reason_is_asked_for_one(shop, options, asked):
    assert statement(shop, FOUR_KINDS, "--memo", "CM-2", *options).out.count("--anyway") == asked


def test_a_statement_whose_rows_nobody_knows_shows_no_table_of_claims(shop):
    ran = statement(shop, f"{HEAD}26-7777,,10.00,\n", "--memo", "CM-2", "--dry-run")
    assert (ran.code, "Outstanding" in ran.out, "row 2, 26-7777" in ran.out) == (4, False, True)


@pytest.mark.parametrize(("number", "several"), [("26-7777", False), ("26-7777 / 26-7778", True)])
def test_how_to_say_several_claims_is_told_where_a_row_names_several(shop, number, several):
    ran = statement(shop, f"{HEAD}{number},,10.00,\n", "--memo", "CM-2", "--dry-run")
    assert ("=CLAIM:AMOUNT,CLAIM:AMOUNT" in ran.err) == several


@pytest.mark.parametrize(("words", "lacking"), [(["--maker", "halden"], "FILE"), (["memo.csv"], "--maker")])
def test_a_statement_needs_a_file_and_a_maker(shop, words, lacking):
    ran = claimpack("statement", *words, folder=shop)
    assert (ran.code, f"{lacking} is missing" in ran.err) == (2, True)


@pytest.mark.parametrize("row", ["x=26-0001", "3=", "\N{SUPERSCRIPT TWO}=26-0001", "26-0001"])
def test_a_row_is_said_by_its_number_and_a_claim(shop, row):
    ran = statement(shop, STRAY, "--memo", "CM-2", "--row", row, "--yes")
    assert (ran.code, "names no row and claim" in ran.err) == (2, True)


def test_a_dry_run_tells_what_would_be_booked_as_not_booked(shop):
    told = statement(shop, MEMO, "--dry-run", "--json").json
    assert (told["booked"], [one["books"] for one in told["claims"]]) == (False, [True, True])
    assert "2 claims to book" in statement(shop, MEMO, "--dry-run").out


def test_columns_that_somebody_edited_are_not_written_anew_for_nothing(shop):
    statement(shop, MEMO, "--yes")
    kept = next((shop / "statements").iterdir())
    kept.write_text(f"# as Ann said\n{kept.read_text()}")
    statement(shop, f"{HEAD}26-0003,,150.00,\n", "--memo", "CM-2", "--yes")
    assert kept.read_text().startswith("# as Ann said\n")


@pytest.mark.parametrize(("taken", "missing"), [("answered", []), ("noted", ["26-0003"])])
def test_only_claims_that_wait_for_the_maker_are_missing_on_a_statement(shop, taken, missing):
    happen(shop, "26-0003", taken, answer="refused")
    told = statement(shop, MEMO, "--dry-run", "--json").json["missing"]
    assert [one["claim"] for one in told] == missing


def test_what_is_left_out_is_told_at_booking_and_where_it_is_told_again(shop):
    assert "claimpack statement --booked" in statement(shop, WITH_A_STRAY, "--leave-out", "--yes").err
    ran = claimpack("statement", "--booked", folder=shop)
    assert ("row 5, HX-9999" in ran.out, ran.err) == (True, "")


def test_where_nothing_is_left_out_nothing_is_told_of_it(shop):
    assert "--booked" not in statement(shop, MEMO, "--yes").err


def test_where_no_statement_is_booked_that_is_said(shop):
    ran = claimpack("statement", "--booked", folder=shop)
    assert (ran.code, ran.out, ran.err) == (0, "", "No statement is booked.\n")


@pytest.mark.parametrize(
    ("claimed", "paid", "reason"),
    [("147.20", "128.00", True), ("147.20", "0.00", False), ("150.00", "128.00", False)],
    ids=["another labour rate", "nothing", "claimed elsewhere"],
)
def test_why_a_claim_is_short_is_said_where_its_lines_come_to_what_was_claimed(
    draft_shop, tmp_path, claimed, paid, reason
):
    shop = a_copy(draft_shop, tmp_path)
    happen(shop, "26-0001", "filed", claimed=claimed, currency="USD")
    rows = f"{HEAD}26-0001,,{paid},\n26-7777,,1.00,\n"
    assert ("it comes to labour at 80.00 an hour" in statement(shop, rows, "--memo", "CM-1").out) == reason


@made_once
def two_makers(place):
    """A shop with a claim of 150.00 on each of two makers."""
    shop = a_shop(place)
    desk = the_desk(shop)
    other = Claim.model_validate(changed(CLAIM, {"number": "26-0002", "maker": "tessaly", "unit__model": "TP-30"}))
    desk.add(other, NewEvent(what="opened", on=NOW.date()))
    for number in ("26-0001", "26-0002"):
        happen(shop, number, "filed", claimed="150.00", currency="USD")
    return shop


def test_a_memo_that_two_makers_number_alike_is_booked_of_each_and_taken_back_of_the_one_named(tmp_path):
    shop = two_makers(tmp_path)
    for maker, number in (("halden", "26-0001"), ("tessaly", "26-0002")):
        (shop / "memo.csv").write_text(f"{HEAD}{number},,150.00,\n")
        assert claimpack("statement", "memo.csv", "--maker", maker, "--memo", "7", "--yes", folder=shop).code == 0
    asked = claimpack("statement", "--undo", "7", "--yes", folder=shop)
    told = claimpack("statement", "--undo", "7", "--maker", "Tessaly", "--yes", "--json", folder=shop)
    assert (asked.code, "halden and of tessaly" in asked.err, told.json["claims"]) == (2, True, ["26-0002"])
