from __future__ import annotations

import datetime as dt
import json
import zipfile
from pathlib import Path

import pytest
from running import NOW, claimpack
from shop_builders import an_empty_shop
from shops_with_claims import a_copy

from claimpack.commands.shop.backing_up import own_files


@pytest.fixture
def filed(filed_shop, tmp_path):
    return a_copy(filed_shop, tmp_path)


def verified(shop, *options):
    return claimpack("shop", "verify", *options, "--json", folder=shop)


def test_a_shop_comes_back_with_settings_plans_book_and_vault(filed):
    (filed / "coverage" / "own.toml").write_text("# own\n", encoding="utf-8")
    claimpack("shop", "backup", "../b.zip", folder=filed)
    ran = claimpack("shop", "restore", "../b.zip", "../again", folder=filed)
    again = filed.parent / "again"
    assert (ran.code, (again / "shop.toml").read_bytes()) == (0, (filed / "shop.toml").read_bytes())
    assert (again / "coverage" / "own.toml").read_text(encoding="utf-8") == "# own\n"
    assert verified(again).json["head"] == verified(filed).json["head"]


def test_what_an_editor_or_the_system_left_in_a_folder_of_the_shop_is_not_backed_up(tmp_path):
    shop = an_empty_shop(tmp_path)
    for name in ("own.toml", ".own.toml.swp", ".trash/old.toml", "older/own.toml"):
        (shop / "coverage" / name).parent.mkdir(parents=True, exist_ok=True)
        (shop / "coverage" / name).write_text("# own\n")
    assert set(own_files(shop)) == {"shop.toml", "coverage/own.toml", "coverage/older/own.toml"}


def test_the_age_of_the_last_backup_is_shown(filed):
    before = claimpack("shop", "show", "--json", folder=filed).json["backup"]
    claimpack("shop", "backup", "../b.zip", folder=filed)
    later = NOW + dt.timedelta(days=3)
    after = claimpack("shop", "show", "--json", folder=filed, now=later).json["backup"]
    assert (before, after) == ("none known", "2026-03-01 09:30, 3 days ago")


def test_an_old_backup_is_remarked_upon_once_the_book_was_changed(filed):
    claimpack("shop", "backup", "../b.zip", folder=filed)
    later = NOW + dt.timedelta(days=8)
    unchanged = claimpack("shop", "verify", folder=filed, now=later).err
    claimpack("answer", "26-0001", "accepted", "--on", "2026-02-28", folder=filed, now=later)
    assert ("backup" in unchanged, "8 days old" in claimpack("shop", "verify", folder=filed, now=later).err) == (
        False,
        True,
    )


def test_a_backup_is_not_written_over_a_file_that_is_there(filed):
    (filed.parent / "b.zip").write_bytes(b"of yesterday")
    refused = claimpack("shop", "backup", "../b.zip", folder=filed)
    assert (refused.code, (filed.parent / "b.zip").read_bytes()) == (2, b"of yesterday")
    assert claimpack("shop", "backup", "../b.zip", "--replace", folder=filed).code == 0


def test_a_backup_that_cannot_be_read_back_does_not_take_the_place_of_a_good_one(filed):
    claimpack("shop", "backup", "../b.zip", folder=filed)
    good = (filed.parent / "b.zip").read_bytes()
    picture = next(path for path in (filed / "vault").rglob("*") if path.is_file())
    picture.chmod(0o644)
    picture.write_bytes(b"other")
    ran = claimpack("shop", "backup", "../b.zip", "--replace", folder=filed)
    assert (ran.code, (filed.parent / "b.zip").read_bytes()) == (2, good)


def test_a_restored_shop_touches_no_book_and_no_vault_but_its_own(filed):
    settings = filed / "shop.toml"
    settings.write_text('vault = "../elsewhere"\n' + settings.read_text(encoding="utf-8"), encoding="utf-8")
    (filed / "vault").rename(filed.parent / "elsewhere")
    claimpack("shop", "backup", "../b.zip", folder=filed)
    told = claimpack("shop", "restore", "../b.zip", "../again", "--json", folder=filed).json
    assert (told["changed"], verified(filed.parent / "again").code) == ({"vault": "../elsewhere"}, 0)


def test_a_folder_that_holds_anything_is_not_restored_into(filed):
    claimpack("shop", "backup", "../b.zip", folder=filed)
    ran = claimpack("shop", "restore", "../b.zip", "../incoming", folder=filed)
    assert (ran.code, (filed.parent / "incoming" / "shop.toml").exists()) == (2, False)


def test_an_archive_without_settings_is_not_a_backup(filed):
    claimpack("export", "--everything", "../e.zip", folder=filed)
    ran = claimpack("shop", "restore", "../e.zip", "../again", folder=filed)
    assert (ran.code, (filed.parent / "again").exists()) == (2, False)


@pytest.mark.parametrize(
    "name", ["../evil.toml", "coverage/../../evil.toml", "/evil.toml", "book.sqlite", "vault/x", "a\nb"]
)
def test_a_backup_that_would_write_elsewhere_is_refused_whole(filed, name):
    claimpack("shop", "backup", "../b.zip", folder=filed)
    with zipfile.ZipFile(filed.parent / "b.zip") as whole:
        members = {member: whole.read(member) for member in whole.namelist()}
    told = json.loads(members["contents.json"])
    told["settings"][name] = told["settings"]["shop.toml"]
    members |= {"contents.json": json.dumps(told).encode(), f"settings/{name}": members["settings/shop.toml"]}
    with zipfile.ZipFile(filed.parent / "evil.zip", "w") as evil:
        for member, content in members.items():
            evil.writestr(member, content)
    before = sorted(filed.parent.iterdir())
    ran = claimpack("shop", "restore", "../evil.zip", "../again", folder=filed)
    assert (ran.code, sorted(filed.parent.iterdir())) == (2, before)


def test_a_head_noted_earlier_is_found_in_the_history(filed):
    noted = verified(filed).json["head"]["hash"]
    claimpack("answer", "26-0001", "accepted", "--on", "2026-02-28", folder=filed)
    told = verified(filed, "--head", noted[:16].upper()).json
    assert (told["whole"], told["noted"]["event"], told["head"]["events"]) == (True, 2, 3)


def test_a_head_of_another_history_is_told(filed):
    ran = verified(filed, "--head", "ab" * 32)
    assert (ran.code, ran.json["noted"]["event"], len(ran.json["problems"])) == (3, None, 1)


def test_the_report_carries_the_head_on_paper_page_and_in_json(filed):
    from pypdf import PdfReader

    head = verified(filed).json["head"]
    told = claimpack("report", "--out", "r", "--pdf", "--html", "--json", folder=filed).json
    paper, page = sorted(told["files"], reverse=True)
    text = "".join(PdfReader(paper).pages[0].extract_text().split())
    assert told["history"] == {"events": head["events"], "hash": head["hash"]}
    assert (head["hash"] in text, head["hash"] in Path(page).read_text(encoding="utf-8")) == (True, True)


def test_a_damaged_book_is_not_whole_and_nothing_of_its_claims_is_told(filed):
    book = filed / "book.sqlite"
    content = bytearray(book.read_bytes())
    at = content.find(b"Will not start")
    content[at] = 0xFF
    book.write_bytes(content)
    ran = claimpack("shop", "verify", folder=filed)
    assert (ran.code, ran.out.startswith("NOT WHOLE"), "ill not start" in ran.out + ran.err) == (3, True, False)


def test_a_damaged_book_is_told_by_other_commands_without_a_word_of_its_claims(filed):
    book = filed / "book.sqlite"
    book.write_bytes(book.read_bytes().replace(b"Will not start", b"\xffill not start"))
    ran = claimpack("show", "26-0001", folder=filed)
    assert (ran.code, "ill not start" in ran.err) == (2, False)


@pytest.mark.parametrize("left", [0, 99, 5000])
def test_a_book_cut_off_is_not_whole(filed, left):
    book = filed / "book.sqlite"
    book.write_bytes(book.read_bytes()[:left])
    assert claimpack("shop", "verify", folder=filed).code == 3
