import os
import re

import pytest
from claim_folders import CLAIM, a_folder, picture
from running import claimpack
from shop_builders import an_empty_shop, the_desk
from shops_with_claims import a_shop_with, numbered


@pytest.fixture
def shop(tmp_path):
    return an_empty_shop(tmp_path)


@pytest.fixture
def folder(tmp_path):
    return a_folder(tmp_path / "incoming" / "one")


def imported(shop, *sources, **world):
    return claimpack("import", *sources, folder=shop, **world)


def numbers(shop):
    return the_desk(shop).book.numbers()


def test_a_claim_folder_is_taken_in(shop, folder):
    ran = imported(shop, folder)
    assert (ran.code, ran.out, numbers(shop)) == (0, "1 claim imported: 26-0001\n", ["26-0001"])


def test_the_history_says_that_it_was_imported(shop, folder):
    imported(shop, folder, "--today", "2026-02-28")
    (event,) = the_desk(shop).book.history("26-0001")
    assert (event.what, event.on.isoformat(), event.who) == ("imported", "2026-02-28", "ann")


def test_an_imported_claim_is_judged(shop, folder):
    imported(shop, folder)
    summary = the_desk(shop).book.get("26-0001").summary
    assert (summary.verdict, summary.complete, str(summary.claimed)) == ("covered", True, "147.20")


def test_photos_and_papers_go_into_the_vault(shop, folder):
    ran = imported(shop, folder, "--json")
    kept = {file.path: file for file in the_desk(shop).book.get("26-0001").files}
    content = the_desk(shop).vault.content(kept["photos/0.jpg"].sha256, "photos/0.jpg")
    assert (ran.json["files"], content) == (6, (folder / "photos" / "0.jpg").read_bytes())
    assert (len(kept["photos/0.jpg"].likeness), kept["papers/receipt.pdf"].likeness) == (320, "")


def test_pictures_the_claim_does_not_name_come_too(shop, folder):
    (folder / "photos" / "spare.jpg").write_bytes(picture())
    imported(shop, folder)
    assert "photos/spare.jpg" in [file.path for file in the_desk(shop).book.get("26-0001").files]


def test_a_folder_of_folders_is_taken_in_whole(tmp_path):
    shop = a_shop_with(tmp_path, CLAIM, numbered("26-0002"), numbered("26-0003"))
    assert numbers(shop) == ["26-0001", "26-0002", "26-0003"]


def test_the_claim_file_itself_names_its_folder(shop, folder):
    assert imported(shop, folder / "claim.toml").code == 0


def test_the_same_folder_twice_is_taken_in_once(shop, folder):
    assert imported(shop, folder, folder, folder.parent, "--json").json["imported"] == ["26-0001"]


def test_one_bad_folder_keeps_all_out(shop, folder, tmp_path):
    a_folder(tmp_path / "incoming" / "two", numbered("26-0002").replace("CS-70", "").replace("kind = ", "kin = "))
    ran = imported(shop, folder.parent)
    assert (ran.code, numbers(shop)) == (2, [])
    assert "1 of 2 claim folders cannot be imported; nothing was" in ran.err
    assert "incoming/two/claim.toml" in ran.err
    assert "--skip-bad" not in ran.err


def test_bad_folders_are_left_out_and_named_when_asked(shop, folder, tmp_path):
    a_folder(tmp_path / "incoming" / "two", numbered("26-0002").replace("format = 1", "format = 9"))
    ran = imported(shop, folder.parent, "--skip-bad")
    assert (ran.code, numbers(shop)) == (0, ["26-0001"])
    assert "left out" in ran.out
    assert "incoming/two" in ran.out


def test_scripts_read_what_was_left_out(shop, folder, tmp_path):
    a_folder(tmp_path / "incoming" / "two", numbered("26-0002").replace("format = 1", "format = 9"))
    told = imported(shop, folder.parent, "--skip-bad", "--json").json
    assert (told["imported"], len(told["skipped"])) == (["26-0001"], 1)


def test_numbers_in_the_book_are_refused_by_name(shop, folder):
    imported(shop, folder)
    ran = imported(shop, folder)
    assert (ran.code, "26-0001" in ran.err) == (2, True)
    assert len(the_desk(shop).book.history()) == 1


def test_a_number_given_twice_is_refused(shop, folder, tmp_path):
    a_folder(tmp_path / "incoming" / "two")
    ran = imported(shop, folder.parent)
    assert (ran.code, "26-0001" in ran.err, numbers(shop)) == (2, True, [])


def test_a_named_file_that_is_missing_is_refused(shop, folder):
    (folder / "photos" / "3.jpg").unlink()
    ran = imported(shop, folder)
    assert (ran.code, "photos/3.jpg" in ran.err, numbers(shop)) == (2, True, [])


def test_a_picture_that_is_damaged_is_refused(shop, folder):
    path = folder / "photos" / "3.jpg"
    path.write_bytes(path.read_bytes()[:200])
    ran = imported(shop, folder)
    assert (ran.code, "3.jpg" in ran.err, numbers(shop)) == (2, True, [])


@pytest.mark.skipif(os.name != "posix", reason="links need rights elsewhere")
def test_a_link_out_of_the_folder_is_refused(shop, folder, tmp_path):
    (tmp_path / "secret").write_text("secret")
    (folder / "papers" / "link.txt").symlink_to(tmp_path / "secret")
    ran = imported(shop, folder)
    assert (ran.code, "symbolic link" in ran.err) == (2, True)


def test_plans_in_the_claim_folder_are_kept_and_told(shop, folder):
    (folder / "coverage").mkdir()
    (folder / "coverage" / "own.toml").write_text("")
    ran = imported(shop, folder)
    assert "26-0001 brings plans or terms of its own" in ran.err
    assert "coverage/own.toml" in [file.path for file in the_desk(shop).book.get("26-0001").files]


@pytest.mark.parametrize("source", ["nowhere", "."])
def test_where_no_claim_folder_is_nothing_is_imported(shop, source):
    ran = imported(shop, source)
    assert (ran.code, "there is no" in ran.err) == (2, True)


def test_progress_is_shown_on_a_terminal(tmp_path):
    shop = a_shop_with(tmp_path)
    a_folder(tmp_path / "more" / "a", numbered("26-0002"))
    a_folder(tmp_path / "more" / "b", numbered("26-0003"))
    assert "Reading claims [########################] 2/2" in imported(shop, tmp_path / "more", terminal=True).err


def test_without_a_shop_there_is_no_book_to_import_into(tmp_path, folder):
    assert (imported(tmp_path, folder).code, list(tmp_path.rglob("book.sqlite"))) == (2, [])


def test_days_still_to_come_are_taken_in_and_told(shop, folder):
    ran = imported(shop, folder, "--today", "2026-02-23")
    assert (ran.code, numbers(shop)) == (0, ["26-0001"])
    assert "dates.repaired 2026-02-24, held[1].since 2026-02-24." in ran.err
    assert "claimpack set 26-0001 dates.repaired DATE" in ran.err


def test_without_days_still_to_come_none_are_told(shop, folder):
    assert imported(shop, folder, "--today", "2026-02-24").err == ""


@pytest.mark.parametrize(("today", "more"), [("2026-02-05", []), ("2026-02-04", ["1"])], ids=["three", "four"])
def test_of_the_days_still_to_come_three_are_named_and_more_are_counted(shop, folder, today, more):
    said = imported(shop, folder, "--today", today).err
    assert ("dates in the future" in said, re.findall(r"and (\d) more", said)) == (True, more)
