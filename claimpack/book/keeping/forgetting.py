"""Something of a claim erased from the whole book: every revision, every event, and the file of the book itself."""

from __future__ import annotations

import datetime as dt
import json
from collections.abc import Callable, Collection
from contextlib import closing
from typing import Any, NamedTuple

from claimpack.book.book import Book
from claimpack.book.database import engines
from claimpack.book.database.connections import Connection, Engine, FoundRow, database_errors
from claimpack.book.database.sql import Sql, condition, has, select
from claimpack.book.lookups import stored_entries
from claimpack.book.refusals import no_such_claim
from claimpack.book.tables import finder, rows, schema
from claimpack.book.tables.entries import Author, Entry
from claimpack.book.tables.erasures import contents_erased
from claimpack.book.tables.rows import KeptFile
from claimpack.book.tables.schema import Table
from claimpack.book.tables.writing import update
from claimpack.core.claims.claim import Claim
from claimpack.core.claims.forgetting import (
    Document,
    Erased,
    facts_struck,
    owner_words,
    says,
    struck,
    without_files,
    without_owner,
)
from claimpack.core.events.events import Event, NewEvent
from claimpack.core.events.fold import stand
from claimpack.core.judging.claim_summary import ClaimSummary
from claimpack.errors import BadInput
from claimpack.file_contents import hash_of

_REWRITTEN = ("claims", "serials", "held", "kept_files", "revisions", "events")


class Wish(NamedTuple):
    """What is to be erased of a claim: its owner's data, files by the hash of their content; what it is, why, when."""

    number: str
    owner: bool
    contents: frozenset[str]
    what: str
    why: str
    on: dt.date


class Forgotten(NamedTuple):
    """What was erased: revisions and events rewritten, contents, those of them other claims keep, what still names it.

    `remains` are keys and facts in which the owner's words still stand, such as the names of files.
    """

    revisions: int
    events: int
    contents: tuple[str, ...]
    kept_elsewhere: tuple[str, ...]
    remains: tuple[str, ...]


Judge = Callable[[Claim, tuple[KeptFile, ...]], ClaimSummary]


def forget(book: Book, wish: Wish, author: Author, judge: Judge, drop: Callable[[str], None]) -> Forgotten:
    """Erase what is wished from every revision and event of a claim, in one transaction, and record that it was.

    The hashes in the history stay as they are; what was left of each revision and event is hashed anew, and those
    hashes are recorded with the erasure, so that the chain can still be proved.

    Args:
        book: the shop's book.
        wish: what is to be erased.
        author: who erases it, and when.
        judge: gives the summary of a draft as it is then; any other claim keeps its own, with its figures.
        drop: takes a content out of the vault. It is called before the book is written: stopped in between, the
            content is gone, the book says so, and the erasure can be asked for again.

    Raises:
        NotFound: there is no such claim.
        BadInput: the reason says what is to be erased.
    """
    with engines.writing(book.engine) as connection:
        entry = next(stored_entries(connection, [wish.number]), None)
        if entry is None:
            raise no_such_claim(connection, wish.number)
        erasing = _Erasing(connection, wish)
        documents = erasing.revisions()
        events = erasing.events()
        contents = tuple(sorted(wish.contents | erasing.packets))
        elsewhere = tuple(sha256 for sha256 in contents if erasing.is_kept(sha256))
        for sha256 in contents:
            if sha256 not in elsewhere:
                # before the book is written: a stop in between leaves a book that misses a file, and says so, rather
                # than a file nobody misses
                drop(sha256)
        erased = Erased(contents, documents, events)
        # the new hashes stand in an event, which the chain seals: nobody can add another later
        facts = {"what": wish.what, **erased.facts()}
        new_event = NewEvent(what="erased", on=wish.on, why=wish.why, facts=facts)
        update(connection, _after(entry, erasing, new_event, judge), (new_event,), author)
        finder.make_anew(connection)
        return Forgotten(len(documents), len(events), contents, elsewhere, erasing.remains())


def _after(entry: Entry, erasing: _Erasing, new_event: NewEvent, judge: Judge) -> Entry:
    claim = Claim.model_validate(
        erasing.without(json.loads(entry.claim.model_dump_json(exclude_unset=True)), entry.files)
    )
    files = tuple(file for file in entry.files if file.sha256 not in erasing.wish.contents)
    # what was filed stays priced as it was filed, whatever is erased of it
    summary = judge(claim, files) if entry.standing.state == "draft" else entry.summary
    return Entry(claim, entry.revision + 1, stand([*erasing.history, new_event]), summary, files)


class _Erasing:
    """An erasure being made in one claim."""

    def __init__(self, connection: Connection, wish: Wish) -> None:
        self.connection, self.wish = connection, wish
        self._kept = self._read(schema.REVISIONS, "revision")
        told = [json.loads(row["document"]) for row in self._kept]
        self.words = owner_words(told) if wish.owner else ()
        # the reason would keep for ever what it asks to be erased
        if says(wish.why, self.words):
            raise BadInput(
                "--because says what is to be erased",
                "The reason stays in the history.",
                "Give it in other words, as in: --because 'On request of the owner'",
            )
        self.history: list[Event] = []
        self.packets: set[str] = set()

    def _read(self, table: Table, order: str) -> list[FoundRow]:
        of_the_claim = select(table.names, table.name).where(condition("claim = ?", self.wish.number))
        return self.connection.all(of_the_claim.then(f"ORDER BY {order}"))

    def without(self, document: Document, files: Collection[KeptFile] | Collection[tuple[str, str]]) -> Document:
        """A claim's document without what is erased, given the files it had."""
        paths = {path for path, sha256, *_ in files if sha256 in self.wish.contents}
        left = without_files(document, paths) if paths else document
        return without_owner(left, self.words) if self.wish.owner else left

    def revisions(self) -> dict[int, str]:
        """Rewrite every revision that says it; the new hash of each, by its number."""
        found: dict[int, str] = {}
        for row in self._kept:
            told, files = json.loads(row["document"]), rows.files_in(row["files"])
            left = self.without(told, files)
            lines = [line for line in row["files"].split("\n") if line.partition("  ")[0] not in self.wish.contents]
            # a revision that says nothing of it keeps its hash, and needs no proof beside it
            if left == told and "\n".join(lines) == row["files"]:
                continue
            document, kept = _text(left), "\n".join(lines)
            # without its salt, which goes as well: with it the erased text could be guessed and checked by the hash
            # that stays
            found[row["revision"]] = hash_of(rows.proven_text(document, kept, row["digest"]).encode())
            rewritten = "UPDATE revisions SET document = ?, files = ?, salt = NULL WHERE claim = ? AND revision = ?"
            self.connection.execute(rewritten, document, kept, row["claim"], row["revision"])
        return found

    def events(self) -> dict[int, str]:
        """Rewrite every event that says it; the new hash of each, by its place in the history."""
        found: dict[int, str] = {}
        gone, known = self._revisions_with(), contents_erased(self.connection, self.wish.number)
        for row in self._read(schema.EVENTS, "position"):
            event = rows.event_of(row)
            left = self._event_left(event)
            self.history.append(left)
            packet = event.facts.get("packet", "") if event.what == "filed" else ""
            # a packet prints the owner on its first page, and pictures only from the revision it was drawn from
            carries = self.wish.owner or int(event.facts.get("revision", "0") or "0") in gone
            if packet and carries and packet not in known:
                self.packets.add(packet)
            if left is event:
                continue
            found[row["position"]] = left.computed_hash()
            rewritten = "UPDATE events SET why = ?, facts = ?, salt = NULL WHERE position = ?"
            self.connection.execute(rewritten, left.why, rows.facts_text(left.facts), row["position"])
        return found

    def _event_left(self, event: Event) -> Event:
        why, facts = struck(event.why, self.words), facts_struck(event.facts, self.words)
        if (why, facts) == (event.why, event.facts):
            return event
        return event.model_copy(update={"why": why, "facts": facts, "salt": ""})

    def _revisions_with(self) -> set[int]:
        """The revisions that had one of the files."""
        had = {row["revision"]: {sha256 for _, sha256 in rows.files_in(row["files"])} for row in self._kept}
        return {revision for revision, contents in had.items() if contents & self.wish.contents}

    def is_kept(self, sha256: str) -> bool:
        """Whether another claim keeps the same content."""
        others = condition("claim <> ?", self.wish.number)
        # in any revision: what an earlier one named is still in the vault for it
        kept = Sql("SELECT claim FROM revisions").where(others, has("files", sha256)).then("LIMIT 1")
        return self.connection.first(kept) is not None

    def remains(self) -> tuple[str, ...]:
        """Where the owner's words still stand in what was left."""
        found: dict[str, None] = {}
        for row in self._read(schema.REVISIONS, "revision"):
            found |= dict.fromkeys(key for key, said in _texts(json.loads(row["document"])) if says(said, self.words))
            # a file's name is part of what its hash proves, and is told rather than changed
            paths = "\n".join(path for path, _ in rows.files_in(row["files"]))
            found |= dict.fromkeys(["the name of a file"] if says(paths.replace("/", " "), self.words) else [])
        return tuple(found)


def _texts(value: Any, key: str = "") -> list[tuple[str, str]]:
    """Every text of a document with its key."""
    if isinstance(value, dict):
        return [each for name, held in value.items() for each in _texts(held, f"{key}.{name}" if key else name)]
    if isinstance(value, list):
        return [each for held in value for each in _texts(held, key)]
    return [(key, value)] if isinstance(value, str) else []


def _text(document: Document) -> str:
    return json.dumps(document, ensure_ascii=False, separators=(",", ":"))


def wipe(engine: Engine) -> bool:
    """Write a book's file anew, so that nothing erased is left between its pages or in its log.

    Returns:
        Whether it could be: not while another program reads the book.
    """
    # our own connections first, since a reader of any kind keeps the file from being written anew
    engine.dispose()
    try:
        with closing(engine.driver()) as driver:
            return _wipe_on_server(driver) if engine.on_server else _wipe_file(driver)
    except database_errors():
        return False


def _wipe_file(driver: Any) -> bool:
    # else freed pages keep what stood in them
    driver.execute("PRAGMA secure_delete = ON")
    driver.execute("VACUUM")
    # the log holds the pages from before, too
    busy, _, _ = driver.execute("PRAGMA wal_checkpoint(TRUNCATE)").fetchone()
    return not busy


def _wipe_on_server(driver: Any) -> bool:
    driver.execute("SET lock_timeout = '60s'")
    for table in _REWRITTEN:
        # a plain VACUUM marks old rows as free and leaves what they say
        driver.execute(f"VACUUM (FULL, ANALYZE) {table}")
    return True
