from __future__ import annotations

from collections import Counter

from book_builders import ANA, EDITED, OPENED, SUMMARY, an_entry
from forked import forked

from claimpack.book.keeping.proof import book_problems
from claimpack.book.opening import open_book
from claimpack.book.tables.entries import Author
from claimpack.errors import AlreadyChanged, BadInput

WRITERS = 8
CHANGES = 15
SHARED = ("26-0001", "26-0002", "26-0003")


def busy(place, name):
    """A writer that changes shared claims in turn and opens claims of its own, between changes of others."""

    def work(say):
        book, author = open_book(place), Author(f"writer {name}", ANA.at)
        for turn in range(CHANGES):
            number = SHARED[(turn + name) % len(SHARED)]
            with book.change(number, author) as change:
                change.save(change.claim, SUMMARY, EDITED)
            say(number)
            if turn % 5 == 0:
                own = [f"26-{name}{turn:03}a", f"26-{name}{turn:03}b"]
                book.add([an_entry(each) for each in own], author, OPENED)
                say("\n".join(own))

    return work


def all_at_once(works):
    """What the writers told, started together."""
    return [line for writer in [forked(work) for work in works] for line in writer.finish()]


def test_eight_processes_writing_at_once_lose_nothing(place):
    book = open_book(place, create=True)
    book.add([an_entry(number) for number in SHARED], ANA, OPENED)
    book.engine.dispose()
    told = Counter(all_at_once([busy(place, name) for name in range(WRITERS)]))
    assert [line for line in told if line.startswith("error")] == []
    assert told.total() == WRITERS * (CHANGES + 2 * CHANGES // 5)
    stored = {row.number: row.revision for row in book.claims()}
    assert stored == {number: times + (number in SHARED) for number, times in told.items()}
    assert len(book.history()) == told.total() + len(SHARED)
    assert book_problems(book) == []
    book.engine.dispose()


def test_of_eight_changes_from_the_same_look_one_is_taken(place):
    book = open_book(place, create=True)
    book.add([an_entry("26-0001")], ANA, OPENED)
    book.engine.dispose()

    def late(say):
        try:
            with open_book(place).change("26-0001", ANA, 1) as change:
                change.save(change.claim, SUMMARY, EDITED)
            say("taken")
        except AlreadyChanged:
            say("refused")

    told = Counter(all_at_once([late] * WRITERS))
    assert told == {"taken": 1, "refused": WRITERS - 1}
    assert book.get("26-0001").revision == 2
    book.engine.dispose()


def test_a_number_opened_by_eight_at_once_is_one_claim(place):
    book = open_book(place, create=True)
    book.engine.dispose()

    def opens(say):
        try:
            open_book(place).add([an_entry("26-0001")], ANA, OPENED)
            say("taken")
        except BadInput:
            say("refused")

    told = Counter(all_at_once([opens] * WRITERS))
    assert told == {"taken": 1, "refused": WRITERS - 1}
    assert book_problems(book) == []
    book.engine.dispose()


def test_a_new_book_opened_by_eight_at_once_is_made_once(place):
    def opens(say):
        open_book(place, create=True)
        say("open")

    told = all_at_once([opens] * WRITERS)
    assert told == ["open"] * WRITERS
    assert book_problems(open_book(place)) == []


def test_the_proof_holds_while_others_write(place):
    book = open_book(place, create=True)
    book.add([an_entry(number) for number in SHARED], ANA, OPENED)
    book.engine.dispose()
    writers = [forked(busy(place, name)) for name in range(2)]
    problems = [problem for _ in range(5) for problem in book_problems(book)]
    told = [line for writer in writers for line in writer.finish()]
    assert (problems, [line for line in told if line.startswith("error")]) == ([], [])
    book.engine.dispose()
