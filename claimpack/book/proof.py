"""The book proved: the chain of its history, and every claim against the hash its history carries."""

from __future__ import annotations

from claimpack.book.book import Book
from claimpack.book.rows import document_of
from claimpack.core.events import breaks
from claimpack.core.states import stand
from claimpack.files import hash_of


def book_problems(book: Book) -> list[str]:
    """Everything in a book that does not follow from its history; empty when it is whole."""
    history = book.history()
    problems = breaks(history)
    end = book.chain_end()
    if (len(history), history[-1].hash if history else end[1]) != end:
        problems.append(f"the history holds {len(history)} events, and the book counted {end[0]}")
    recorded = {(event.claim, event.revision): event.document for event in history}
    for number, revision, document in book.documents():
        if recorded.get((number, revision)) != hash_of(document.encode()):
            problems.append(f"revision {revision} of claim {number} is not the one that was recorded")
    return problems + _lists_that_differ(book)


def _lists_that_differ(book: Book) -> list[str]:
    """Claims whose present row is not what their last revision and their events give."""
    problems = []
    events = book.history()
    by_claim: dict[str, list[int]] = {}
    for position, event in enumerate(events):
        by_claim.setdefault(event.claim, []).append(position)
    for entry in book.entries():
        number = entry.claim.number
        own = [events[position] for position in by_claim.pop(number, [])]
        if not own or own[-1].document != hash_of(document_of(entry.claim).encode()):
            problems.append(f"claim {number} is not as its history left it")
        elif stand(own) != entry.standing:
            problems.append(f"claim {number} does not stand where its history left it")
    problems += [f"claim {number} is in the history, and gone from the book" for number in by_claim]
    return problems
