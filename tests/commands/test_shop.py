from __future__ import annotations

import sqlite3
import tomllib

import pytest
from running import claimpack
from shops_with_claims import a_copy


def settings(shop):
    return tomllib.loads((shop / "shop.toml").read_text(encoding="utf-8"))


@pytest.fixture
def filed(filed_shop, tmp_path):
    return a_copy(filed_shop, tmp_path)


def test_a_new_shop_has_room_for_its_own_rules_and_an_empty_book(tmp_path):
    claimpack("shop", "init", "shop", folder=tmp_path)
    folders = sorted(path.name for path in (tmp_path / "shop").iterdir() if path.is_dir())
    assert folders == ["coverage", "packet", "tag", "terms", "vault"]
    assert claimpack("shop", "show", "--json", folder=tmp_path / "shop").json["claims"] == 0


def test_the_settings_say_what_was_told(tmp_path):
    name = 'A "B" \\ <b> Zoë'
    claimpack("shop", "init", "shop", "--name", name, "--terms", "us-tx", "--currency", "CAD", folder=tmp_path)
    found = settings(tmp_path / "shop")
    assert (found["name"], found["terms"], found["currency"]) == (name, "us-tx", "CAD")


def test_a_shop_that_names_no_currency_has_none(tmp_path):
    claimpack("shop", "init", "shop", folder=tmp_path)
    assert "currency" not in settings(tmp_path / "shop")


def test_the_next_step_can_be_typed_as_it_is_shown(tmp_path):
    ran = claimpack("shop", "init", "Quarry Road", folder=tmp_path)
    assert "(cd 'Quarry Road')" in ran.err


def test_a_shop_is_not_made_twice(tmp_path):
    claimpack("shop", "init", "shop", "--name", "Quarry Road", folder=tmp_path)
    ran = claimpack("shop", "init", "shop", folder=tmp_path)
    assert (ran.code, settings(tmp_path / "shop")["name"]) == (2, "Quarry Road")


@pytest.mark.parametrize(
    ("option", "value", "says"),
    [
        ("--currency", "usd", "Did you mean 'USD'?"),
        ("--terms", "us-txx", "Did you mean 'us-tx'?"),
        ("--name", "a\x07", "--name: holds the control character"),
    ],
)
def test_what_has_no_meaning_makes_no_shop(tmp_path, option, value, says):
    ran = claimpack("shop", "init", "shop", option, value, folder=tmp_path)
    assert (ran.code, says in ran.err, (tmp_path / "shop").exists()) == (2, True, False)


def test_a_shop_whose_book_cannot_be_made_can_be_made_once_that_is_put_right(tmp_path):
    (tmp_path / "book.sqlite").write_bytes(b"no book" * 200)
    failed = claimpack("shop", "init", ".", folder=tmp_path)
    (tmp_path / "book.sqlite").unlink()
    assert (failed.code, claimpack("shop", "init", ".", folder=tmp_path).code) == (2, 0)


def test_outside_a_shop_it_says_how_to_make_one(tmp_path):
    ran = claimpack("shop", "show", folder=tmp_path)
    assert (ran.code, "claimpack shop init FOLDER" in ran.err) == (2, True)


def test_a_shop_is_shown_from_any_folder_in_it(filed):
    ran = claimpack("shop", "show", folder=filed / "coverage")
    assert [line.split() for line in ran.out.splitlines()][1:4] == [
        ["name", "Quarry", "Road"],
        ["book", "book.sqlite"],
        ["claims", "1"],
    ]


def test_a_shop_that_was_only_used_is_whole(filed):
    ran = claimpack("shop", "verify", folder=filed)
    assert (ran.code, ran.out.splitlines()[0]) == (0, "WHOLE  2 events, 1 claim, 7 files")


def a_picture_kept(shop):
    with sqlite3.connect(shop / "book.sqlite") as book:
        sha256 = book.execute("SELECT sha256 FROM kept_files WHERE path = 'photos/0.jpg'").fetchone()[0]
    return next(path for path in (shop / "vault").rglob("*") if sha256 in path.name or sha256.endswith(path.name))


@pytest.mark.parametrize(
    "harm", [lambda path: path.unlink(), lambda path: path.write_bytes(b"other"), lambda path: path.write_bytes(b"")]
)
def test_a_file_that_was_lost_or_changed_is_named_by_its_claim(filed, harm):
    path = a_picture_kept(filed)
    path.chmod(0o644)
    harm(path)
    told = claimpack("shop", "verify", "--json", folder=filed)
    assert (told.code, told.json["whole"], len(told.json["problems"])) == (3, False, 1)
    assert told.json["problems"][0].startswith("claim 26-0001: photos/0.jpg ")


def test_a_row_that_was_edited_is_told(filed):
    with sqlite3.connect(filed / "book.sqlite") as book:
        book.execute("UPDATE claims SET outstanding = '0.01'")
    ran = claimpack("shop", "verify", folder=filed)
    assert (ran.code, ran.out.startswith("NOT WHOLE"), "outstanding" in ran.out) == (3, True, True)


def test_as_many_files_are_proved_as_are_exported(filed):
    claimpack("photo", "remove", "26-0001", "1", folder=filed)
    proved = claimpack("shop", "verify", "--json", folder=filed).json
    told = claimpack("export", "--everything", "book.zip", "--json", folder=filed).json["archive"]
    assert (proved["files"], proved["events"]) == (told["files"], told["events"])


def test_a_file_of_an_earlier_revision_is_proved_too(filed):
    path = a_picture_kept(filed)
    claimpack("photo", "remove", "26-0001", "1", folder=filed)
    path.unlink()
    ran = claimpack("shop", "verify", folder=filed)
    assert (ran.code, "claim 26-0001: photos/0.jpg, as in revision" in ran.out) == (3, True)
