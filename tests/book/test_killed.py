from __future__ import annotations

import hashlib
import os
import random
from itertools import count

import pytest
from book_builders import ANA, EDITED, OPENED, SUMMARY, an_entry, kept
from forked import files_in, forked

from claimpack.book.keeping.proof import book_problems
from claimpack.book.opening import open_book
from claimpack.evidence.vault import Vault

KILLS = {"file": 25, "server": 10}
"""More of them by hand: `python tests/trust/try_kills.py`."""

LONGEST_LIFE = 0.05
CLAIMS = 12


def lead_a_day(place, folder, seed):
    """A writer that opens claims and changes them for ever, each change with a new photo."""

    def work(say):
        book, vault, chance = open_book(place), Vault(folder / "vault"), random.Random(seed)
        for turn in count():
            photo = folder / f"camera-{seed}-{turn}.jpg"
            photo.write_bytes(os.urandom(20_000))
            sha256, _ = vault.keep(photo)
            say(f"photo {sha256}")
            number = f"26-{chance.randrange(CLAIMS):04}"
            if number not in book.numbers():
                book.add([an_entry(number)], ANA, OPENED)
                say(f"claim {number} 1")
            with book.change(number, ANA) as change:
                revision = change.entry.revision + 1
                claim = an_entry(number, owner__name=f"Owner {revision}").claim
                change.save(claim, SUMMARY, EDITED, files=[kept("photos/plate.jpg", sha256)])
            say(f"claim {number} {revision}")

    return work


class Acknowledged:
    """What writers were told is safe."""

    def __init__(self):
        self.photos = set()
        self.claims = {}

    def take(self, lines):
        for line in lines:
            kind, name, *revision = line.split()
            assert kind != "error", line
            if kind == "photo":
                self.photos.add(name)
            else:
                self.claims[name] = int(revision[0])

    def missing_from(self, book, folder):
        """What was acknowledged and is not there; the book may be ahead of what was acknowledged."""
        stored = {row.number: row.revision for row in book.claims()}
        lost = [number for number, revision in self.claims.items() if stored.get(number, 0) < revision]
        self.claims = stored
        return lost + [photo for photo in self.photos if not (folder / "vault" / photo[:2] / photo).is_file()]


@pytest.fixture
def kills(request):
    return KILLS[request.node.callspec.params["place"]]


def test_nothing_acknowledged_is_lost_and_the_book_is_whole_when_writers_are_killed(place, tmp_path, kills):
    chance, safe = random.Random(7), Acknowledged()
    open_book(place, create=True).engine.dispose()
    for kill in range(kills):
        writer = forked(lead_a_day(place, tmp_path, kill))
        safe.take(writer.kill_after(chance.uniform(0, LONGEST_LIFE), lines=kill % 4))
        book = open_book(place)
        assert safe.missing_from(book, tmp_path) == []
        if kill % 20 == 0 or kill == kills - 1:
            assert book_problems(book) == []
        book.engine.dispose()
    kept_files = files_in(tmp_path / "vault")
    assert safe.claims
    assert len(safe.photos) >= kills / 4
    assert [name for name, content in kept_files.items() if hashlib.sha256(content).hexdigest() != name] == []
    book = open_book(place)
    assert {file.sha256 for entry in book.entries() for file in entry.files} <= kept_files.keys()
    assert all(entry.claim.owner.name == f"Owner {entry.revision}" for entry in book.entries() if entry.revision > 1)
    book.engine.dispose()


def test_a_book_whose_making_was_killed_can_be_made(tmp_path):
    chance = random.Random(7)
    for kill in range(8):
        place = str(tmp_path / f"{kill}.sqlite")
        forked(lambda _say, place=place: open_book(place, create=True)).kill_after(chance.uniform(0, 0.02))
        book = open_book(place, create=True)
        book.add([an_entry("26-0001")], ANA, OPENED)
        assert book_problems(book) == []
        book.engine.dispose()
