from __future__ import annotations

import sqlite3
from contextlib import closing

import pytest
from bit_flips import flips, said
from running import claimpack
from shops_with_claims import a_copy


@pytest.fixture
def filed(filed_shop, tmp_path):
    return a_copy(filed_shop, tmp_path)


@pytest.mark.parametrize("seed", range(4))
def test_a_flipped_bit_is_found_wherever_it_changed_anything(filed, seed):
    claimpack("shop", "verify", folder=filed)
    taken = [how for _, how in flips(filed, 3, seed)]
    assert [how for how in taken if how.startswith("bad")] == []
    assert "found" in taken


def test_the_book_flips_are_tried_on_reads_whole(filed):
    claimpack("shop", "verify", folder=filed)
    assert said(filed / "book.sqlite")


@pytest.mark.parametrize(
    "wrong", ["likeness = '00ff00ff00ff00ff'", "taken = '2025-01-01T00:00:00'", "bytes = bytes + 1"]
)
def test_what_an_early_version_did_not_record_of_a_picture_is_held_against_the_picture(filed, wrong):
    with closing(sqlite3.connect(filed / "book.sqlite")) as book:
        lines = book.execute("SELECT files FROM revisions WHERE revision = 2").fetchone()[0].splitlines()
        early = "\n".join(line.partition("\t")[0] for line in lines)
        book.execute("UPDATE revisions SET files = ? WHERE revision = 2", (early,))
        book.execute(f"UPDATE kept_files SET {wrong} WHERE path = 'photos/0.jpg'")  # noqa: S608
        book.commit()
    problems = claimpack("shop", "verify", "--json", folder=filed).json["problems"]
    (told,) = [problem for problem in problems if "size, time or likeness" in problem]
    assert "likeness of photos/0.jpg" in told


def test_the_head_of_a_history_is_told_and_found_again_however_it_was_noted(filed):
    first = claimpack("shop", "verify", "--json", folder=filed).json
    head = first["head"]["hash"]
    noted = f"{head[:8].upper()} {head[8:20]}"
    again = claimpack("shop", "verify", "--head", noted, "--json", folder=filed).json
    assert (first["whole"], "noted" in first, again["whole"]) == (True, False, True)
    assert again["noted"]["event"] == first["head"]["events"] == first["events"]


def test_a_head_that_is_of_no_event_is_a_problem(filed):
    ran = claimpack("shop", "verify", "--head", "0" * 64, "--json", folder=filed)
    assert (ran.code, ran.json["whole"], len(ran.json["problems"])) == (3, False, 1)


@pytest.mark.parametrize(("head", "code"), [("abc", 2), ("z" * 64, 2), ("-", 2), ("0" * 9, 2), ("0" * 10, 3)])
def test_a_head_has_ten_figures_or_more(filed, head, code):
    assert claimpack("shop", "verify", "--head", head, folder=filed).code == code
