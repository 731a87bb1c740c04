"""Several shops in one book, as each of them and their manager sees it."""

from __future__ import annotations

import pytest
from manager_shop import on, open_in
from pypdf import PdfReader
from running import claimpack
from several_shops import two_shops
from shop_builders import an_empty_shop, photographed, the_desk

from claimpack import open_book
from claimpack.commands.auditing.house import Houses

BOTH = {"ashby", "hollis"}


@pytest.fixture
def shops(tmp_path):
    return two_shops(tmp_path)


@pytest.fixture
def ashby(shops):
    return shops / "ashby"


@pytest.fixture
def hollis(shops):
    return shops / "hollis"


LISTS = {
    "list": ("claims", "number"),
    "find halden": ("claims", "number"),
    "pending": ("claims", "claim"),
    "due --within 60": ("items", "claim"),
    "hold list": ("parts", "claim"),
}


def rows(shop, command, *options):
    key, _ = LISTS[command]
    return claimpack(*command.split(), "--json", *options, folder=shop).json[key]


@pytest.mark.parametrize("command", LISTS)
def test_a_list_is_of_this_folders_claims_and_says_nothing_of_shops(hollis, command):
    told = rows(hollis, command)
    assert {row[LISTS[command][1]][0] for row in told} == {"H"}
    assert not any("shop" in row for row in told)


@pytest.mark.parametrize("command", LISTS)
def test_all_shops_are_listed_with_whose_each_claim_is(ashby, command):
    told = rows(ashby, command, "--all-shops")
    assert {(row[LISTS[command][1]][0], row["shop"]) for row in told} == {("A", "ashby"), ("H", "hollis")}


@pytest.mark.parametrize("command", ["list", "pending", "due --within 60", "hold list"])
def test_the_screen_has_a_column_of_shops_where_there_are_several(ashby, command):
    whole, own = (claimpack(*command.split(), *more, folder=ashby).out for more in (["--all-shops"], []))
    assert ("hollis" in whole, "shop" in whole.casefold(), "ashby" in own) == (True, True, False)


def test_the_environment_may_say_so_for_good(ashby):
    ran = claimpack("list", "--json", folder=ashby, environ={"CLAIMPACK_SHOPS": "all"})
    assert {row["shop"] for row in ran.json["claims"]} == BOTH


def test_dates_come_from_the_terms_of_each_claims_own_shop(ashby):
    told = rows(ashby, "pending", "--all-shops")
    assert {row["claim"]: row["terms"] for row in told} == {"A-2": "us-tx", "H-2": "us-mn"}


def test_terms_of_a_shop_whose_folder_nobody_named_are_not_made_up(hollis):
    ran = claimpack("pending", "--json", "--all-shops", folder=hollis)
    assert {row["claim"]: row["terms"] for row in ran.json["claims"]} == {"A-2": None, "H-2": "us-mn"}
    assert "ashby" in ran.err


def test_a_folder_named_that_is_another_shops_is_refused(ashby):
    text = (ashby / "shop.toml").read_text()
    (ashby / "shop.toml").write_text(text.replace("../hollis", "."))
    assert claimpack("pending", "--all-shops", folder=ashby).code == 2


def test_the_three_amounts_are_told_by_shop_and_come_to_the_whole(ashby):
    told = on("2026-03-30", "pending", "--json", "--all-shops", shop=ashby).json["three_amounts"]
    late = {one["shop"]: one["late"] for one in told["by_shop"]}
    assert (late, told["late"]["amounts"]) == (
        {"ashby": "150.00", "hollis": "150.00", "all": "300.00"},
        {"USD": "300.00"},
    )


def test_the_report_of_all_shops_has_a_table_of_them(ashby):
    told = claimpack("report", "--html", "--json", "--all-shops", folder=ashby).json
    table = next(table for table in told["sections"][0]["tables"] if table["name"] == "by-shop")
    assert [row["Shop"] for row in table["rows"]] == ["ashby", "hollis"]


def test_the_report_of_one_shop_has_none(ashby):
    told = claimpack("report", "--html", "--json", folder=ashby).json
    assert "by-shop" not in {table["name"] for table in told["sections"][0]["tables"]}


def test_an_exported_list_says_whose_each_claim_is(ashby):
    lines = claimpack("export", "--csv", "-", "--all-shops", folder=ashby).out.splitlines()
    assert [line.rpartition(",")[2] for line in lines] == ["shop", "ashby", "ashby", "hollis", "hollis"]


@pytest.mark.parametrize("command", ["show H-2", "check H-2", "history H-2"])
def test_a_claim_of_another_shop_can_be_looked_at(ashby, command):
    assert claimpack(*command.split(), folder=ashby).code in (0, 3, 4)


def test_looked_at_it_says_whose_it_is_and_goes_by_its_own_shops_terms(ashby):
    ran = claimpack("show", "H-2", "--json", folder=ashby)
    assert (ran.json["standing"]["shop"], "hollis" in ran.err) == ("hollis", True)


CHANGES = (
    "set H-1 unit.kind saw",
    "note H-1 hello",
    "pay H-2 150.00",
    "labour start H-1 find-fault --technician Ben",
    "hold move H-1/1 C1",
    "shop forget H-1 --owner --because asked",
)
PAPERS = ("packet H-2", "tag H-1", "build H-2 --out o", "hold tag H-1/1", "chase H-2", "photo sheet H-1")


@pytest.mark.parametrize("command", [*CHANGES, *PAPERS, "audit H-2", "file H-1"])
def test_what_is_another_shops_is_neither_changed_nor_printed(ashby, command):
    ran = claimpack(*command.split(), folder=ashby)
    assert (ran.code, "hollis" in ran.err) == (2, True)


@pytest.mark.parametrize("command", PAPERS)
def test_papers_are_refused_even_where_all_shops_are_meant(ashby, command):
    assert claimpack(*command.split(), "--all-shops", folder=ashby).code == 2


@pytest.mark.parametrize("command", ["pay H-2 150.00", "answer H-2 accepted", "note H-2 hello"])
def test_what_the_maker_did_is_recorded_of_any_shops_claim_when_told_so(ashby, command):
    assert claimpack(*command.split(), "--all-shops", folder=ashby).code == 0


def test_a_shop_whose_folder_is_not_known_is_not_judged_from_here(hollis):
    ran = claimpack("pay", "A-2", "150.00", "--all-shops", folder=hollis)
    assert (ran.code, "shops = {ashby" in ran.err) == (2, True)


def test_the_next_number_begins_as_the_shops_do(hollis):
    given = ("--maker", "halden", "--model", "CS-70", "--serial", "HC70-118-20999", "--complaint", "no spark")
    told = [claimpack("open", *given, "--json", folder=hollis).json["claim"] for _ in range(2)]
    assert told == ["H26-0001", "H26-0002"]


STATEMENT = "Credit memo,CM-7,\nClaim,Amount\nA-2,150.00\nH-2,150.00\n"


def booked(shop, *options):
    (shop / "memo.csv").write_text(STATEMENT)
    return claimpack("statement", "memo.csv", "--maker", "halden", "--yes", "--json", *options, folder=shop)


def test_a_row_of_a_statement_that_pays_another_shop_is_left_alone_and_said_whose(ashby):
    ran = booked(ashby)
    assert (ran.code, ran.json["booked"], "hollis" in ran.json["unknown"][0]["why"]) == (4, False, True)


def test_each_shop_books_its_own_rows_of_one_statement(ashby, hollis):
    assert [booked(shop, "--leave-out").json["booked"] for shop in (ashby, hollis)] == [True, True]
    assert {row["state"] for row in rows(ashby, "list", "--all-shops", "--state", "paid")} == {"paid"}


def test_a_statement_of_several_shops_is_booked_at_once_when_told_so(ashby):
    told = booked(ashby, "--all-shops").json
    assert [(one["claim"], one["shop"], one["books"]) for one in told["claims"]] == [
        ("A-2", "ashby", True),
        ("H-2", "hollis", True),
    ]


def test_letters_of_all_shops_are_one_of_each_under_its_own_name(ashby):
    told = on("2026-03-30", "chase", "--maker", "halden", "--json", "--all-shops", shop=ashby).json["shops"]
    assert {one["shop"]: [claim["claim"] for claim in one["claims"]] for one in told} == {
        "ashby": ["A-2"],
        "hollis": ["H-2"],
    }
    assert ["Hollis" in PdfReader(one["file"]).pages[0].extract_text() for one in told] == [False, True]


def test_a_shelf_is_counted_in_its_own_shop_even_where_all_are_meant(ashby):
    told = claimpack("hold", "count", "B3", "A-1/1", "A-2/1", "--json", "--all-shops", folder=ashby)
    assert (told.code, told.json["missing"]) == (0, [])


def test_shops_that_share_a_file_share_the_vault_beside_it(shops, ashby):
    assert the_desk(ashby).vault.folder.resolve() == (shops / "vault").resolve()


def test_claims_from_before_are_told_of_and_taken(tmp_path):
    shop = an_empty_shop(tmp_path)
    claimpack("open", "--maker", "halden", "--model", "CS-70", "--serial", "1", "--complaint", "x", folder=shop)
    with (shop / "shop.toml").open("r+") as settings:
        told = settings.read()
        settings.seek(0)
        settings.write(f'id = "ashby"\n{told}')
    before = claimpack("list", folder=shop)
    taken = claimpack("shop", "take", "--yes", "--json", folder=shop)
    assert ("shop take" in before.err, taken.json["claims"]) == (True, ["26-0001"])
    assert len(claimpack("list", "--json", folder=shop).json["claims"]) == 1


def a_shop_under_a_mistyped_id(shops):
    """The folder of Hollis, with a claim that it opened as another shop than it is."""
    settings, misspelt = shops / "hollis" / "shop.toml", 'id = "hallow"'
    told = settings.read_text()
    settings.write_text(told.replace('id = "hollis"', misspelt))
    open_in(shops / "hollis", "X-1")
    settings.write_text(told)
    return shops / "hollis"


def test_a_claim_opened_under_an_id_that_no_shop_has_comes_home_with_a_reason(shops):
    hollis = a_shop_under_a_mistyped_id(shops)
    refused = claimpack("shop", "take", "X-1", "--yes", folder=hollis)
    how = ("--from", "hallow", "--because", "Mistyped.", "--yes", "--json")
    taken = claimpack("shop", "take", "X-1", *how, folder=hollis)
    assert (refused.code, "--from hallow --because" in refused.err, taken.json["claims"]) == (2, True, ["X-1"])
    assert claimpack("history", "X-1", "--json", folder=hollis).json["events"][-1]["why"] == "Mistyped."
    assert claimpack("shop", "verify", folder=hollis).code == 0


def test_a_claim_of_a_shop_whose_folder_is_known_is_not_taken(ashby):
    ran = claimpack("shop", "take", "H-1", "--from", "hollis", "--because", "Mine.", "--yes", folder=ashby)
    assert (ran.code, the_desk(ashby).book.whose()["H-1"]) == (2, "hollis")


@pytest.mark.parametrize("said", [(), ("--from", "hallow")], ids=["none", "another"])
def test_a_claim_of_a_shop_that_settings_do_not_name_is_not_taken_unless_its_id_is_said(hollis, said):
    ran = claimpack("shop", "take", "A-1", *said, "--because", "Mine.", "--yes", folder=hollis)
    assert (ran.code, the_desk(hollis).book.whose()["A-1"]) == (2, "ashby")


def test_what_the_book_holds_of_an_id_is_told_before_a_claim_is_taken_from_it(hollis):
    refused = claimpack("shop", "take", "A-1", "--yes", folder=hollis)
    assert "holds 2 claims of ashby" in refused.err


@pytest.mark.parametrize(("said", "code"), [("holis", 2), ("quarry", 0)], ids=["much like another", "like none"])
def test_no_claim_is_opened_under_an_id_that_is_likely_mistyped(hollis, said, code):
    settings = hollis / "shop.toml"
    settings.write_text(settings.read_text().replace('id = "hollis"', f'id = "{said}"'))
    how = ("--maker", "halden", "--model", "CS-70", "--serial", "1", "--complaint", "x")
    assert claimpack("open", *how, folder=hollis).code == code


def test_claims_of_no_shop_are_not_taken_under_an_id_that_is_likely_mistyped(hollis):
    settings = hollis / "shop.toml"
    told = settings.read_text()
    settings.write_text(told.replace('id = "hollis"', ""))
    open_in(hollis, "N-1")
    settings.write_text(told.replace('id = "hollis"', 'id = "holis"'))
    assert claimpack("shop", "take", "--yes", folder=hollis).code == 2
    settings.write_text(told)
    assert claimpack("shop", "take", "--yes", "--json", folder=hollis).json["claims"] == ["N-1"]


def test_whose_the_claims_of_a_joined_book_are_is_told_by_their_shops(shops):
    joined = claimpack("shop", "init", "kettle", "--id", "kettle", "--book", "claims.sqlite", folder=shops)
    assert "ashby 2, hollis 2" in joined.out


def test_making_a_shop_says_whether_it_joined_a_book_and_what_is_in_it(shops):
    how = ("--id", "kettle", "--json", "--book")
    joined = claimpack("shop", "init", "kettle", *how, "claims.sqlite", folder=shops).json
    new = claimpack("shop", "init", "quarry", *how, "others.sqlite", folder=shops).json
    assert (joined["joined"], joined["claims"]) == (True, {"ashby": 2, "hollis": 2})
    assert (new["joined"], new["claims"]) == (False, {})
    after = claimpack("shop", "init", "ashlar", "--id", "ashlar", *how[2:], "others.sqlite", folder=shops).json
    assert (after["joined"], after["claims"]) == (True, {})


def test_that_shops_of_one_book_keep_one_vault_is_noted_of_a_server_alone(tmp_path):
    ran = claimpack("shop", "init", "quarry", "--id", "quarry", "--book", "others.sqlite", folder=tmp_path)
    assert (ran.code, "vault" in ran.err) == (0, False)


def test_a_folder_named_for_an_id_without_claims_is_told(ashby):
    settings = ashby / "shop.toml"
    settings.write_text(settings.read_text().replace("{hollis =", '{holis = "../hollis", hollis ='))
    told = next(line for line in claimpack("shop", "show", folder=ashby).out.splitlines() if "folders" in line)
    assert "holis in ../hollis (no claim" in " ".join(told.split())


def test_nothing_is_taken_without_a_yes_nor_without_an_id(ashby, tmp_path):
    assert claimpack("shop", "take", "--yes", folder=an_empty_shop(tmp_path / "other")).code == 2


@pytest.mark.parametrize("given", [["--book", "b.sqlite"], ["--id", "Not A Word"], ["--id", "all"], ["--numbers", "-"]])
def test_a_shop_is_not_made_that_a_book_could_not_tell_apart(tmp_path, given):
    assert claimpack("shop", "init", "new", *given, folder=tmp_path).code == 2


def test_a_folder_whose_number_is_another_shops_is_not_imported_and_says_whose_it_is(ashby, hollis, tmp_path):
    claimpack("export", "A-1", "--out", tmp_path / "out", folder=ashby)
    ran = claimpack("import", tmp_path / "out" / "A-1", folder=hollis)
    assert (ran.code, "ashby" in ran.err) == (2, True)


def test_a_list_of_claims_comes_into_the_shop_that_takes_it_in(hollis):
    (hollis / "claims.csv").write_text(
        "number,maker,model,presented,state,filed,claimed\nH-7,halden,CS-70,2026-01-02,filed,2026-01-05,50.00\n"
    )
    assert claimpack("import", "claims.csv", "--yes", folder=hollis).code == 0
    assert "H-7" in {row["number"] for row in rows(hollis, "list")}


def test_the_picture_of_another_shops_claim_does_not_go_into_this_ones_vault(ashby, hollis):
    photographed(ashby / "a.jpg")
    assert claimpack("photo", "add", "H-1", "a.jpg", "--shot", "whole unit", "--all-shops", folder=ashby).code == 2


def test_a_backup_is_of_every_shop_and_restored_as_it_was(ashby, tmp_path):
    claimpack("shop", "backup", tmp_path / "b.zip", folder=ashby)
    claimpack("shop", "restore", "b.zip", "again", folder=tmp_path)
    assert {row["shop"] for row in rows(tmp_path / "again", "list", "--all-shops")} == BOTH
    assert {row["number"][0] for row in rows(tmp_path / "again", "list")} == {"A"}


def test_the_whole_book_is_proved_from_every_folder(hollis):
    assert claimpack("shop", "verify", "--json", folder=hollis).json["claims"] == 4


def test_whose_a_forgotten_owners_claim_is_stays_known(hollis):
    claimpack("shop", "forget", "H-2", "--owner", "--because", "asked", folder=hollis)
    assert {row["number"] for row in rows(hollis, "list")} == {"H-1", "H-2"}


@pytest.mark.parametrize("command", ["find H-1", "hold find H-1/1"])
def test_what_is_another_shops_is_not_found_and_said_to_be_its(ashby, command):
    said = claimpack(*command.split(), folder=ashby).err
    assert ("hollis" in said, "No claim" in said) == (True, False)


def test_a_tag_of_another_shop_on_a_shelf_is_said_to_be_its(ashby):
    told = claimpack("hold", "count", "B3", "A-1/1", "A-2/1", "H-1/1", "--json", folder=ashby).json
    assert [(one["code"], "hollis" in one["because"]) for one in told["extra"]] == [("H-1/1", True)]


def test_a_count_typed_alone_means_the_shops_own_claim_first(ashby, hollis):
    assert ["A-1" in claimpack("show", "1", folder=ashby).err, "H-1" in claimpack("show", "1", folder=hollis).err] == [
        True,
        True,
    ]


def test_scripts_open_the_book_as_the_shop_sees_it(hollis):
    book = open_book(hollis)
    assert {row.number for row in book.claims()} == {"H-1", "H-2"}
    book.engine.dispose()


def test_a_statement_of_several_shops_is_taken_back_as_it_was_booked(ashby):
    booked(ashby, "--all-shops")
    undone = claimpack("statement", "--undo", "CM-7", "--yes", "--json", "--all-shops", folder=ashby)
    assert undone.json["claims"] == ["A-2", "H-2"]


def test_letters_that_went_out_are_noted_of_every_shop(ashby):
    ran = on("2026-03-30", "chase", "--maker", "halden", "--sent", "--json", "--all-shops", shop=ashby)
    assert [one["claim"] for one in ran.json["sent"]] == ["A-2", "H-2"]


def test_pending_claims_are_grouped_by_shop(ashby):
    told = claimpack("pending", "--group", "shop", "--json", "--all-shops", folder=ashby).json["groups"]
    assert [one["group"] for one in told] == ["ashby", "hollis"]


def test_a_shop_that_names_its_own_folder_too_writes_one_letter(ashby):
    text = (ashby / "shop.toml").read_text()
    (ashby / "shop.toml").write_text(text.replace("shops = {", 'shops = {ashby = ".", '))
    ran = on("2026-03-30", "chase", "--maker", "halden", "--json", "--all-shops", shop=ashby)
    assert [one["shop"] for one in ran.json["shops"]] == ["ashby", "hollis"]


def test_a_folder_that_is_named_and_gone_is_told_by_its_key(ashby):
    text = (ashby / "shop.toml").read_text()
    (ashby / "shop.toml").write_text(text.replace("../hollis", "../gone"))
    ran = claimpack("pending", "--all-shops", folder=ashby)
    assert (ran.code, "shops.hollis" in ran.err) == (2, True)


def test_a_folder_without_an_id_in_a_book_of_several_is_told_so(shops, tmp_path):
    shop = an_empty_shop(tmp_path / "third")
    with (shop / "shop.toml").open("r+") as settings:
        told = settings.read()
        settings.seek(0)
        settings.write(f'book = "{shops / "claims.sqlite"}"\n{told}')
    ran = claimpack("list", "--json", folder=shop)
    assert (ran.json["claims"], "no id" in ran.err) == ([], True)


def test_what_makers_are_late_with_is_not_known_of_a_shop_whose_terms_are_not(hollis):
    told = on("2026-03-30", "pending", "--json", "--all-shops", shop=hollis).json["three_amounts"]["by_shop"]
    assert {one["shop"]: one["late"] for one in told} == {"ashby": None, "hollis": "150.00", "all": None}


def test_a_report_says_whose_terms_are_not_known(hollis):
    claimpack("report", "--html", "--out", "r", "--all-shops", folder=hollis)
    page = next((hollis / "r").glob("*.html")).read_text()
    assert ("Terms not known here" in page, "told as late: ashby." in page, "not known</td>" in page) == (True,) * 3


def change_id(shop, old, new):
    text = (shop / "shop.toml").read_text()
    (shop / "shop.toml").write_text(text.replace(f'\nid = "{old}"', f'\nid = "{new}"'))


def test_a_shop_whose_id_was_changed_is_told_that_no_claim_is_its_own(ashby):
    change_id(ashby, "ashby", "ashbey")
    ran = claimpack("pending", "--json", folder=ashby)
    assert (ran.json["claims"], "ashby, hollis" in ran.err) == ([], True)


def test_what_makers_are_late_with_is_not_known_where_claims_are_no_shops(ashby):
    change_id(ashby, "ashby", "")
    open_in(ashby, "N-1")
    change_id(ashby, "", "ashby")
    told = claimpack("pending", "--json", "--all-shops", folder=ashby).json["three_amounts"]["by_shop"]
    assert {one["shop"]: one["late"] for one in told}["all"] is None


def test_entries_of_the_journal_are_under_the_accounts_of_each_claims_own_shop(ashby, hollis):
    text = (hollis / "shop.toml").read_text()
    (hollis / "shop.toml").write_text(text.replace("[maker_accounts]\n", '[maker_accounts]\nhalden = "2110"\n'))
    booked(ashby, "--all-shops")
    entries = claimpack("export", "--journal", "-", "--all-shops", folder=ashby).out.splitlines()[1:]
    assert {tuple(entry.split(",")[number] for number in (2, 7)) for entry in entries} == {
        ("A-2", "Bank"),
        ("H-2", "2110"),
    }


def test_no_journal_is_written_under_accounts_that_nobody_knows(ashby, hollis):
    booked(ashby, "--all-shops")
    assert claimpack("export", "--journal", "-", "--all-shops", folder=hollis).code == 2


def test_a_forgotten_owners_claims_in_other_shops_are_named(hollis):
    told = claimpack("shop", "forget", "H-2", "--owner", "--because", "asked", "--json", folder=hollis).json
    assert set(told["others"]) == {"A-1", "A-2", "H-1"}


def test_a_list_says_whose_terms_are_not_known(hollis):
    assert "ashby" in claimpack("list", "--json", "--all-shops", folder=hollis).err


def test_a_backup_says_that_it_holds_the_claims_of_the_other_shops_and_not_their_settings(ashby, hollis):
    said = [claimpack("shop", "backup", "b.zip", folder=shop).err for shop in (ashby, hollis)]
    assert ["claims of hollis too" in said[0], "claims of ashby too" in said[1]] == [True, True]


def parts_list(shop, cost):
    (shop / "parts").mkdir(exist_ok=True)
    (shop / "parts" / "halden.csv").write_text(f"number,name,cost\nP-1,piston,{cost}\n")


def test_what_a_part_costs_is_looked_up_in_the_list_of_each_claims_own_shop(ashby, hollis):
    for shop, cost in ((ashby, "10.00"), (hollis, "95.00")):
        parts_list(shop, cost)
    houses = Houses(the_desk(ashby))
    assert [houses.of(shop).price_list("halden").cost_of("P-1") for shop in ("ashby", "hollis", "gone")] == [
        10,
        95,
        None,
    ]
