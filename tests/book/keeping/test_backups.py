from __future__ import annotations

import datetime as dt

from book_builders import ANA, EDITED, OPENED, an_entry
from forked import forked
from running import claimpack
from shops_with_claims import a_shop_with

from claimpack.book.keeping.backups import last_backup, remember_backup
from claimpack.book.opening import open_book


def test_only_the_latest_backup_is_remembered(book):
    with book.engine.transaction() as connection:
        connection.execute("DELETE FROM backups")
    assert last_backup(book) is None
    for place in ("monday.zip", "tuesday.zip"):
        remember_backup(book, ANA, place, 7)
    assert last_backup(book) == (dt.datetime(2026, 3, 1, 9, tzinfo=dt.UTC), "Ana", "tuesday.zip", 7)


def test_a_backup_taken_while_others_write_is_one_moment_of_the_book(tmp_path):
    shop = a_shop_with(tmp_path)

    def busy(say):
        book = open_book(str(shop / "book.sqlite"))
        for turn in range(60):
            book.add([an_entry(f"27-{turn:04}")], ANA, OPENED)
            with book.change("26-0001", ANA) as change:
                change.save(change.claim, change.entry.summary, EDITED)
            say(str(turn))

    writer = forked(busy)
    taken = [claimpack("shop", "backup", tmp_path / f"{turn}.zip", folder=shop).code for turn in range(3)]
    assert (len(writer.finish()), taken) == (60, [0, 0, 0])
    claimpack("shop", "restore", "2.zip", "again", folder=tmp_path)
    assert claimpack("shop", "verify", folder=tmp_path / "again").code == 0


def test_a_shop_is_restored_into_a_database_on_a_server_and_forgets_there(server, tmp_path):
    shop, url = a_shop_with(tmp_path), server.fresh()
    claimpack("shop", "backup", "../b.zip", folder=shop)
    restored = claimpack("shop", "restore", "b.zip", "again", "--book", url, folder=tmp_path)
    again = tmp_path / "again"
    forgot = claimpack("shop", "forget", "26-0001", "--owner", "--because", "asked for", "--json", folder=again)
    assert (restored.code, forgot.json["wiped"], claimpack("shop", "verify", folder=again).code) == (0, True, 0)


def test_a_database_that_holds_a_book_is_not_restored_into(server, tmp_path):
    shop, url = a_shop_with(tmp_path), server.fresh()
    claimpack("shop", "backup", "../b.zip", folder=shop)
    codes = [claimpack("shop", "restore", "b.zip", name, "--book", url, folder=tmp_path).code for name in ("a", "b")]
    assert (codes, (tmp_path / "b").exists()) == ([0, 2], False)
