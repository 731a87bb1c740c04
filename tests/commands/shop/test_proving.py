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


def test_what_an_early_version_did_not_record_of_a_picture_is_held_against_the_picture(filed):
    with closing(sqlite3.connect(filed / "book.sqlite")) as book:
        lines = book.execute("SELECT files FROM revisions WHERE revision = 2").fetchone()[0].splitlines()
        early = "\n".join(line.partition("\t")[0] for line in lines)
        book.execute("UPDATE revisions SET files = ? WHERE revision = 2", (early,))
        book.execute("UPDATE kept_files SET likeness = '00ff00ff00ff00ff' WHERE path = 'photos/0.jpg'")
        book.commit()
    problems = claimpack("shop", "verify", "--json", folder=filed).json["problems"]
    assert [problem for problem in problems if "likeness of photos/0.jpg" in problem]
