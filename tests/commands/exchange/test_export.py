import csv
import hashlib
import io
import json
import zipfile

import pytest
from claim_folders import CLAIM
from made_once import made_once
from openpyxl import load_workbook
from running import claimpack, claimpack_in_bytes
from shop_builders import the_desk
from shops_with_claims import a_shop_with, numbered, walked

FORMULA = numbered("26-0002").replace("A. Customer", "=HYPERLINK(1)")


@pytest.fixture
def shop(tmp_path):
    return a_paid_shop(tmp_path)


@made_once
def a_paid_shop(place):
    shop = a_shop_with(place, CLAIM, FORMULA)
    walked(shop, "file --on 2026-02-25 --ref H-17", "answer part --amount 100", "pay 60")
    return shop


@pytest.fixture
def other(tmp_path):
    """Another shop, its book empty."""
    claimpack("shop", "init", "other", folder=tmp_path)
    return tmp_path / "other"


def tree(folder):
    """Every file below a folder, with the hash of its content."""
    files = (path for path in sorted(folder.rglob("*")) if path.is_file())
    return {str(path.relative_to(folder)): hashlib.sha256(path.read_bytes()).hexdigest() for path in files}


def exported(shop, *options):
    ran = claimpack("export", *options, folder=shop)
    assert ran.code == 0, ran.err
    return ran


def test_a_claim_goes_out_as_the_folder_it_came_in_as(shop, tmp_path):
    exported(shop, "26-0001", "--out", "out")
    came, went = tree(tmp_path / "incoming" / "0"), tree(shop / "out" / "26-0001")
    assert came.keys() == went.keys()
    assert [name for name in came if came[name] != went[name]] == ["claim.toml"]


def test_exported_imported_and_exported_again_is_identical(shop, other, tmp_path):
    exported(shop, "--out", tmp_path / "first")
    claimpack("import", tmp_path / "first", folder=other)
    exported(other, "--out", tmp_path / "second")
    assert len(tree(tmp_path / "first")) == 14
    assert tree(tmp_path / "first") == tree(tmp_path / "second")


def test_the_claims_named_go_out_and_no_other(shop):
    ran = exported(shop, "26-0002", "--out", "out")
    assert (ran.out, [path.name for path in (shop / "out").iterdir()]) == ("out/26-0002\n", ["26-0002"])


def test_a_path_beside_the_shop_is_told_from_where_one_stands(shop):
    assert exported(shop, "26-0002", "--out", "../beside/../folders").out == "../folders/26-0002\n"


def test_scripts_get_the_whole_path(shop):
    answer = exported(shop, "26-0002", "--out", "../folders", "--json").json
    assert answer["folders"] == [str(shop.parent / "folders" / "26-0002")]


def test_a_folder_that_is_there_is_not_mixed_with(shop):
    (shop / "out" / "26-0002").mkdir(parents=True)
    ran = claimpack("export", "--out", "out", folder=shop)
    assert (ran.code, "26-0002 already exists" in ran.err) == (2, True)
    assert not (shop / "out" / "26-0001").exists()


def test_of_several_folders_that_are_there_the_others_are_counted(shop):
    exported(shop, "--out", "out")
    assert "and 1 more already exist" in claimpack("export", "--out", "out", folder=shop).err


def test_folders_of_claims_past_draft_say_that_they_come_back_as_drafts(shop):
    assert "the one that is no draft comes back as a draft" in exported(shop, "--out", "out").err
    assert "draft" not in exported(shop, "26-0002", "--out", "drafts").err


@pytest.mark.parametrize("options", [(), ("--bom",), ("26-0002",)])
def test_a_list_goes_to_standard_output_as_it_goes_into_a_file(shop, options):
    exported(shop, *options, "--csv", "claims.csv")
    assert exported(shop, *options, "--csv", "-").out.encode() == (shop / "claims.csv").read_bytes()
    assert not (shop / "-").exists()


@pytest.mark.parametrize("other", [("--out", "folders"), ("--xlsx", "l.xlsx"), ("--everything", "a.zip")])
def test_a_list_on_standard_output_goes_alone(shop, other):
    ran = claimpack("export", "--csv", "-", *other, folder=shop)
    assert (ran.code, ran.out, "nothing else can go there" in ran.err) == (2, "", True)


def test_a_list_and_an_answer_cannot_both_go_to_standard_output(shop):
    assert claimpack("export", "--csv", "-", "--json", folder=shop).json["exit_code"] == 2


def test_a_list_that_is_replaced_is_said_to_be(shop):
    assert "replaced" not in exported(shop, "--csv", "claims.csv").err
    assert "claims.csv was there before; it is replaced." in exported(shop, "--csv", "claims.csv").err


def test_an_archive_that_is_there_is_kept(shop):
    (shop / "all.zip").write_text("yesterday")
    ran = claimpack("export", "--everything", "all.zip", folder=shop)
    assert (ran.code, "--replace" in ran.err, (shop / "all.zip").read_text()) == (2, True, "yesterday")


def test_an_archive_is_replaced_when_told_to(shop):
    (shop / "all.zip").write_text("yesterday")
    exported(shop, "--everything", "all.zip", "--replace")
    assert (shop / "all.zip").read_bytes().startswith(b"PK")


def test_a_claim_that_is_not_in_the_book_is_not_found(shop):
    ran = claimpack("export", "26-0003", "--out", "out", folder=shop)
    assert (ran.code, (shop / "out").exists()) == (2, False)


def test_an_export_needs_to_know_where_to(shop):
    ran = claimpack("export", folder=shop)
    assert (ran.code, "nothing says where to" in ran.err) == (2, True)


def test_a_file_gone_from_the_vault_is_named(shop):
    file = the_desk(shop).book.get("26-0001").files[0]
    the_desk(shop).vault.place(file.sha256).unlink()
    ran = claimpack("export", "26-0001", "--out", "out", folder=shop)
    assert (ran.code, f"claim 26-0001: {file.path} " in ran.err) == (2, True)


def rows(content, encoding="utf-8"):
    return list(csv.DictReader(io.StringIO(content.decode(encoding), newline="")))


def test_the_list_has_a_claim_a_row_with_its_money(shop):
    exported(shop, "--csv", "claims.csv")
    first, second = rows((shop / "claims.csv").read_bytes())
    assert (first["number"], first["state"], first["reference"]) == ("26-0001", "accepted", "H-17")
    amounts = [first[name] for name in ("claimed", "accepted", "paid", "outstanding", "currency")]
    assert amounts == ["147.20", "100.00", "60.00", "40.00", "USD"]
    assert (second["state"], second["claimed"], second["filed"]) == ("draft", "147.20", "")


def test_the_list_makes_text_safe_for_spreadsheets(shop):
    exported(shop, "--csv", "claims.csv")
    assert rows((shop / "claims.csv").read_bytes())[1]["owner"] == "'=HYPERLINK(1)"


def test_the_list_begins_with_a_mark_when_asked(shop):
    exported(shop, "26-0001", "--csv", "claims.csv", "--bom")
    content = (shop / "claims.csv").read_bytes()
    assert (content[:3], len(rows(content, "utf-8-sig"))) == (b"\xef\xbb\xbf", 1)


def test_the_spreadsheet_has_numbers_days_and_texts(shop):
    exported(shop, "--xlsx", "claims.xlsx")
    headings, first, second = load_workbook(shop / "claims.xlsx")["Claims"].iter_rows()
    cells = {heading.value: cell for heading, cell in zip(headings, first, strict=True)}
    assert (cells["paid"].value, cells["paid"].data_type, cells["filed"].is_date) == (60, "n", True)
    owner = second[[heading.value for heading in headings].index("owner")]
    assert (owner.value, owner.data_type) == ("=HYPERLINK(1)", "s")


def test_everything_moves_into_an_empty_book_with_its_history(shop, other):
    exported(shop, "--everything", "../all.zip")
    ran = claimpack("import", "../all.zip", "--json", folder=other)
    assert (ran.code, ran.json["same"], ran.json["book"]["claims"]) == (0, True, 2)
    assert the_desk(other).book.history() == the_desk(shop).book.history()
    assert claimpack("shop", "verify", folder=other).out.startswith("WHOLE")


def test_a_moved_shop_exports_the_same_archive(shop, other, tmp_path):
    exported(shop, "--everything", "../all.zip")
    claimpack("import", "../all.zip", folder=other)
    exported(other, "--everything", "../again.zip")
    assert (tmp_path / "again.zip").read_bytes() == (tmp_path / "all.zip").read_bytes()


def test_a_moved_shop_brings_back_its_frozen_packet(shop, other):
    exported(shop, "--everything", "../all.zip")
    claimpack("import", "../all.zip", folder=other)
    claimpack("packet", "26-0001", "--filed", folder=other)
    assert (other / "26-0001-packet.pdf").read_bytes() == (shop / "26-0001-packet.pdf").read_bytes()


def test_a_move_tells_counts_and_hashes_of_both(shop, other):
    told = exported(shop, "--everything", "../all.zip", "--json").json["archive"]
    ran = claimpack("import", "../all.zip", folder=other)
    assert ran.out.count(told["history"]) == 2
    assert "counts and hashes are the same" in ran.out


def test_everything_is_taken_into_an_empty_book_alone(shop):
    exported(shop, "--everything", "../all.zip")
    ran = claimpack("import", "../all.zip", folder=shop)
    assert (ran.code, the_desk(shop).book.count()) == (2, 2)


def test_an_archive_that_was_changed_is_not_taken_in(shop, other, tmp_path):
    exported(shop, "--everything", "../all.zip")
    content = bytearray((tmp_path / "all.zip").read_bytes())
    content[len(content) // 2] ^= 1
    (tmp_path / "all.zip").write_bytes(content)
    ran = claimpack("import", "../all.zip", folder=other)
    assert (ran.code, the_desk(other).book.count()) == (2, 0)


@pytest.mark.parametrize(("option", "begins"), [("--xlsx", b"PK"), ("--everything", b"PK"), ("--csv", b"number,")])
def test_what_is_exported_goes_to_standard_output_byte_for_byte(shop, option, begins):
    exported(shop, option, "file")
    ran = claimpack_in_bytes("export", option, "-", folder=shop)
    assert (ran.code, ran.out[: len(begins)], ran.out == (shop / "file").read_bytes()) == (0, begins, True)
    assert not (shop / "-").exists()


@pytest.mark.parametrize("option", ["--csv", "--xlsx", "--everything"])
def test_a_folder_that_was_mistyped_is_not_made(shop, option):
    ran = claimpack("export", option, "nosuch/file", folder=shop)
    assert (ran.code, "nosuch" in ran.err, (shop / "nosuch").exists()) == (2, True, False)


def test_an_archive_is_no_answer_for_a_terminal(shop):
    ran = claimpack("export", "--everything", "-", folder=shop, terminal=True)
    assert (ran.code, ran.out, "is a terminal" in ran.err) == (2, "", True)


def forged(archive):
    """Write an archive anew with a history that somebody changed, its counts and hashes set right."""
    with zipfile.ZipFile(archive) as old:
        entries = {name: old.read(name) for name in old.namelist()}
    entries["events.jsonl"] = entries["events.jsonl"].replace(b'"ann"', b'"bob"')
    contents = json.loads(entries["contents.json"])
    contents["sha256"]["events"] = hashlib.sha256(entries["events.jsonl"]).hexdigest()
    entries["contents.json"] = json.dumps(contents).encode()
    with zipfile.ZipFile(archive, "w") as new:
        for name, content in entries.items():
            new.writestr(name, content)


def test_an_archive_that_is_refused_leaves_nothing_in_the_vault(shop, other, tmp_path):
    exported(shop, "--everything", "../all.zip")
    forged(tmp_path / "all.zip")
    ran = claimpack("import", "../all.zip", folder=other)
    assert (ran.code, [path for path in (other / "vault").rglob("*") if path.is_file()]) == (2, [])


def test_a_file_that_was_kept_before_outlives_an_archive_that_is_refused(shop, other, tmp_path):
    exported(shop, "--everything", "../all.zip")
    forged(tmp_path / "all.zip")
    kept = next(path for path in (shop / "vault").rglob("*") if path.is_file())
    the_desk(other).vault.keep(kept)
    claimpack("import", "../all.zip", folder=other)
    assert [path.name for path in (other / "vault").rglob("*") if path.is_file()] == [kept.name]


def test_an_archive_may_come_in_on_standard_input(shop, other):
    whole = claimpack_in_bytes("export", "--everything", "-", folder=shop).out
    ran = claimpack_in_bytes("import", "-", folder=other, typed=whole)
    assert (ran.code, the_desk(other).book.count()) == (0, 2)
