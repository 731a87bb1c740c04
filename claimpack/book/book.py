"""The book: claims read, found and changed. Writers never lose each other's work."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Iterable, Iterator, Sequence
from contextlib import contextmanager
from typing import TYPE_CHECKING

from claimpack.book import clocks, past
from claimpack.book.database import engines
from claimpack.book.database.connections import Connection
from claimpack.book.database.sql import Sql, condition
from claimpack.book.held import HELD_NOW, HeldWanted, HoldEnding, listed_held, listed_held_due
from claimpack.book.lookups import (
    DayRange,
    all_of_shop,
    claims_by_content,
    claims_of,
    events_of,
    few_of,
    holds_several,
    listed,
    listed_by_serial,
    narrowed,
    numbers_beginning,
    of_shop,
    stored_entries,
    within,
)
from claimpack.book.refusals import no_such_claim, of_another_shop, stale
from claimpack.book.tables import rows
from claimpack.book.tables.entries import EVERY, Author, Change, Clock, Entry, Wanted
from claimpack.book.tables.rows import KeptFile
from claimpack.core.steps.listed import ListedClaim, ListedPart

if TYPE_CHECKING:
    from claimpack.core.claims.claim import Claim
    from claimpack.core.events.events import Event, NewEvent


class Book:
    """A book, as one of its shops sees it: lists are of that shop's claims. Open it with `open_book`."""

    def __init__(self, place: str, shop: str, *, all_shops: bool) -> None:
        self.place, self.shop, self.all_shops = place, shop, all_shops
        self.engine = engines.engine_for(place)

    def _mine(self, connection: Connection, of: Callable[[str], Sql] = of_shop) -> list[Sql]:
        """The condition that a claim is of the shop; none where all of them are looked at."""
        if self.all_shops or not (self.shop or holds_several(connection)):
            return []
        return [of(self.shop)]

    def shops(self) -> dict[str, int]:
        """How many claims each shop has that the book holds, by its id; those of none under an empty one."""
        query = "SELECT coalesce(shop, ''), count(*) FROM claims GROUP BY 1 ORDER BY 1"
        with engines.reading(self.engine) as connection:
            return {shop: int(count) for shop, count in connection.execute(query)}

    def whose(self) -> dict[str, str]:
        """The shop of every claim that is of one, by number."""
        with engines.reading(self.engine) as connection:
            return dict(map(tuple, connection.execute("SELECT number, shop FROM claims WHERE shop IS NOT NULL")))

    def holds_several(self) -> bool:
        """Whether claims of the book are told to be of a shop."""
        with engines.reading(self.engine) as connection:
            return holds_several(connection)

    def shops_of_others(self) -> list[str]:
        """The shops whose claims the book holds, where it is one of several that has none itself."""
        if not self.shop:
            return []
        with engines.reading(self.engine) as connection:
            if connection.first("SELECT 1 FROM claims WHERE shop = ? LIMIT 1", self.shop):
                return []
            return connection.column("SELECT DISTINCT shop FROM claims WHERE shop IS NOT NULL ORDER BY shop")

    def without_a_shop(self) -> int:
        """How many claims are of no shop, where the one that looks is one of several."""
        if not self.shop:
            return 0
        with engines.reading(self.engine) as connection:
            # counted from what an index holds, since every list asks
            every = connection.value("SELECT count(*) FROM claims")
            return int(every) - int(connection.value("SELECT count(*) FROM claims WHERE shop IS NOT NULL"))

    def schema_name(self) -> str:
        """The schema that a book on a server lies in, as a statement names it; the usual one for a book in a file."""
        if not self.engine.on_server:
            return "public"
        with engines.reading(self.engine) as connection:
            return str(connection.value("SELECT quote_ident(current_schema())"))

    def get(self, number: str) -> Entry:
        """A claim by its number.

        Raises:
            NotFound: there is none; the nearest number is suggested.
        """
        with engines.reading(self.engine) as connection:
            return self._entry(connection, number)

    def numbers(self, beginning: str = "") -> list[str]:
        """Every claim number of any shop, in order; those that begin so."""
        with engines.reading(self.engine) as connection:
            return numbers_beginning(connection, beginning)

    def claims(self, wanted: Wanted = EVERY) -> list[ListedClaim]:
        """The claims wanted, the latest brought in first."""
        with engines.reading(self.engine) as connection:
            return listed(connection, narrowed(connection, wanted) + self._mine(connection), wanted.limit)

    def makers(self) -> list[str]:
        """Every maker a claim is on, by its one name, in order."""
        with engines.reading(self.engine) as connection:
            query = Sql("SELECT DISTINCT maker FROM claims").where(*self._mine(connection))
            return connection.column(query.then("ORDER BY maker"))

    def count(self, wanted: Wanted = EVERY) -> int:
        """How many claims are wanted, whatever the limit."""
        with engines.reading(self.engine) as connection:
            wished = narrowed(connection, wanted)
            mine = self._mine(connection, of_shop if wished else all_of_shop)
            return int(connection.value(Sql("SELECT count(*) FROM claims").where(*wished, *mine)))

    def with_serials(self, serials: Iterable[str]) -> list[ListedClaim]:
        """The claims of any shop about a unit with one of the serial numbers, the latest brought in first."""
        with engines.reading(self.engine) as connection:
            return listed_by_serial(connection, serials)

    def with_content(self, hashes: Iterable[str]) -> dict[str, list[str]]:
        """The claims of any shop that have a file of each content, by number in order; content none has is left out."""
        with engines.reading(self.engine) as connection:
            return claims_by_content(connection, hashes)

    def drafts_due(self, until: dt.date) -> list[ListedClaim]:
        """The drafts whose last day to file, or to repair under the maker's approval, is that day or before it."""
        last = until.isoformat()
        with engines.reading(self.engine) as connection:
            soon = condition("file_by <= ? OR approval_until <= ?", last, last)
            return listed(connection, [soon, *self._mine(connection)])

    def drafts_judged_otherwise(self, judged_by: str) -> list[ListedClaim]:
        """The drafts that were judged under other plan files than those of a mark."""
        otherwise = condition("state = 'draft' AND coalesce(judged_by, '') <> ?", judged_by)
        with engines.reading(self.engine) as connection:
            return listed(connection, [otherwise, *self._mine(connection)])

    def paid_within(self, spans: Sequence[DayRange]) -> list[ListedClaim]:
        """The claims whose last payment came in within any of the spans of days, both days included."""
        if not spans:
            return []
        with engines.reading(self.engine) as connection:
            return listed(connection, [within("paid_on", spans), *self._mine(connection)])

    def held(self, wanted: HeldWanted = HELD_NOW) -> list[ListedPart]:
        """The held parts wanted, by shelf, claim and index."""
        with engines.reading(self.engine) as connection:
            return listed_held(connection, wanted, self._mine(connection))

    def held_due(
        self, between: DayRange, ending: Sequence[HoldEnding], filed: Sequence[DayRange], received: Sequence[DayRange]
    ) -> list[ListedPart]:
        """The held parts that may have a date to keep up to a day, or missed a day to be sent by.

        Args:
            between: the day it is, and the last day looked at.
            ending: the holds of plans within reach that may end in between.
            filed: spans of filing days from which a time to inspect ends in between.
            received: the same for days of receipt.
        """
        with engines.reading(self.engine) as connection:
            return listed_held_due(connection, between, ending, filed, received, self._mine(connection))

    def entries(self, numbers: Sequence[str] | None = None) -> Iterator[Entry]:
        """Whole claims, by number in order; all of them, or those named that are there, of whatever shop."""
        with engines.reading(self.engine) as connection:
            yield from stored_entries(connection, numbers, self._mine(connection))

    def history(self, number: str = "", latest: int | None = None) -> list[Event]:
        """Every event of a claim, or of all there are, in the order they were recorded; only the latest so many."""
        with engines.reading(self.engine) as connection:
            about = [condition("claim = ?", number)] if number else self._mine(connection, claims_of)
            return past.events(connection, about, latest)

    def event_count(self) -> int:
        """How many events there are."""
        with engines.reading(self.engine) as connection:
            return int(connection.value(Sql("SELECT count(*) FROM events").where(*self._mine(connection, claims_of))))

    def each_event(self) -> Iterator[Event]:
        """Every event, in the order they were recorded, without holding them all at once."""
        with engines.reading(self.engine) as connection:
            yield from past.each_event(connection, self._mine(connection, claims_of))

    def histories(self, facts: Sequence[str] = ()) -> Iterator[tuple[str, list[Event]]]:
        """Every claim with its events in the order they were recorded, one by one, as `entries` orders them.

        Args:
            facts: only the events that carry a fact of one of these names, and the claims that have some.
        """
        with engines.reading(self.engine) as connection:
            yield from past.by_claim(connection, self._mine(connection, claims_of), facts)

    def told(self, fact: str, said: str | None = None) -> list[Event]:
        """Every event that carries a fact of that name, the latest first; only those where it says that."""
        with engines.reading(self.engine) as connection:
            return past.with_fact(connection, fact, said, self._mine(connection, few_of))

    def chain_end(self) -> tuple[int, str]:
        """How many events the book counted, and the hash of the last."""
        from claimpack.book.tables.writing import chain_end

        with engines.reading(self.engine) as connection:
            return chain_end(connection)

    def revision(self, number: str, revision: int) -> Claim:
        """A claim as it once was.

        Raises:
            NotFound: it has no such revision.
        """
        from claimpack.core.claims.claim import Claim

        with engines.reading(self.engine) as connection:
            return Claim.model_validate_json(past.kept(connection, number, revision)["document"])

    def revision_files(self, number: str, revision: int) -> dict[str, str]:
        """The files a claim once had: the hash of the content, by path.

        Raises:
            NotFound: it has no such revision.
        """
        with engines.reading(self.engine) as connection:
            return dict(rows.files_in(past.kept(connection, number, revision)["files"]))

    def files_ever(self, number: str) -> list[tuple[str, str]]:
        """Path and content of every file a claim has or once had, each once, the earliest first."""
        with engines.reading(self.engine) as connection:
            return past.files_ever(connection, number)

    def erased(self, number: str = "") -> set[str]:
        """The hashes of the content that was erased on request, of one claim or of all."""
        from claimpack.book.tables.erasures import contents_erased

        with engines.reading(self.engine) as connection:
            return contents_erased(connection, number)

    def position_of(self, head: str) -> int | None:
        """The place in the history of the event whose hash begins so; None where there is none, or several."""
        with engines.reading(self.engine) as connection:
            return past.position_of(connection, head)

    def files_not_recorded(self) -> Iterator[tuple[str, KeptFile]]:
        """Claim and file, of the kept files whose size, time and likeness the last revision does not tell."""
        with engines.reading(self.engine) as connection:
            yield from past.files_not_recorded(connection)

    def erased_from(self) -> list[str]:
        """The claims from which something was erased on request, by number."""
        from claimpack.book.tables.erasures import erasures

        with engines.reading(self.engine) as connection:
            return sorted({event.claim for event in erasures(connection)})

    def documents(self) -> Iterator[tuple[str, int, str]]:
        """Number, revision and the text its history carries the hash of, of every revision, by number and revision."""
        with engines.reading(self.engine) as connection:
            yield from past.documents(connection)

    @contextmanager
    def _writing(self) -> Iterator[Connection]:
        """One transaction that changes claims, before which their words are taken in that happened to them earlier."""
        from claimpack.book.tables.finder import follow

        with engines.writing(self.engine) as connection:
            follow(connection)
            yield connection

    def add(self, entries: Iterable[Entry], author: Author, new_event: NewEvent, *more: NewEvent) -> int:
        """Put new claims into the book, all or none; returns how many.

        Raises:
            BadInput: a number already exists.
        """
        from claimpack.book.tables.writing import insert, refuse_known

        added = list(entries)
        with self._writing() as connection:
            refuse_known(connection, [entry.claim.number for entry in added])
            insert(connection, added, self._in_shop((new_event, *more)), author)
        return len(added)

    @contextmanager
    def change(self, number: str, author: Author, revision: int | None = None) -> Iterator[Change]:
        """Change one claim; leaving without `save` changes nothing.

        Args:
            number: the claim.
            author: who, and when.
            revision: the revision that was looked at before; None when it was not shown to anybody.

        Raises:
            NotFound: there is no such claim.
            AlreadyChanged: somebody changed it after that revision; the message says who, when and what. Or somebody
                stopped the clock that is to be stopped with it.
            WrongState: it is another shop's.
        """
        with self._writing() as connection:
            # Read inside the transaction that writes: nobody changes the claim between the look and the save.
            entry = self._to_change(self._entry(connection, number))
            if revision is not None and revision != entry.revision:
                raise stale(connection, number, revision)
            change = Change(entry, past.events(connection, [condition("claim = ?", number)]))
            yield change
            self._put(connection, change, author)

    @contextmanager
    def change_all(
        self, numbers: Sequence[str], author: Author, coming: Sequence[tuple[Entry, tuple[NewEvent, ...]]] = ()
    ) -> Iterator[list[Change]]:
        """Change several claims, each named once, in one transaction: all or none.

        Args:
            numbers: the claims.
            author: who, and when.
            coming: new claims put in together with the changes, each with what happened to it.

        Raises:
            NotFound: there is no such claim.
            BadInput: the number of a new claim already exists.
            WrongState: one is another shop's.
        """
        from claimpack.book.tables.writing import insert, refuse_known

        with self._writing() as connection:
            # before anything is read: a number that is taken is the likelier mistake, and the cheaper to find
            refuse_known(connection, [entry.claim.number for entry, _ in coming])
            changes = self._changes(connection, numbers)
            yield changes
            for change in changes:
                self._put(connection, change, author)
            for entry, happened in coming:
                insert(connection, [entry], self._in_shop(happened), author)

    def _in_shop(self, happened: tuple[NewEvent, ...]) -> tuple[NewEvent, ...]:
        """What happened to new claims, the first of it telling whose they are."""
        from claimpack.core.events.events import SHOP

        if not self.shop:
            return happened
        first, *more = happened
        return (first.model_copy(update={"facts": {**first.facts, SHOP: self.shop}}), *more)

    def _to_change(self, entry: Entry) -> Entry:
        """A claim that is to be changed; another shop's only where all shops are meant."""
        if entry.standing.shop != self.shop and not self.all_shops:
            raise of_another_shop(entry.claim.number, entry.standing.shop)
        return entry

    def _changes(self, connection: Connection, numbers: Sequence[str]) -> list[Change]:
        """Several claims to be changed, in the order named, read together."""
        entries = {entry.claim.number: entry for entry in stored_entries(connection, numbers)}
        missing = next((number for number in numbers if number not in entries), None)
        if missing is not None:
            raise no_such_claim(connection, missing, self.shop)
        histories = events_of(connection, numbers)
        return [Change(self._to_change(entries[number]), histories[number]) for number in numbers]

    def _put(self, connection: Connection, change: Change, author: Author) -> None:
        """Write a change down, if one was made."""
        from claimpack.book.tables.writing import update

        # left without a save: the look was all
        if not change.new_events:
            return
        revision = change.entry.revision + 1
        after = Entry(change.claim, revision, change.standing, change.summary, change.files)
        update(connection, after, change.new_events, author)
        # in the transaction that writes its hours, so that no time is counted twice or lost between
        if change.stopped:
            clocks.take(connection, change.stopped)

    def clocks(self) -> list[Clock]:
        """Every running labour clock, the longest running first."""
        with engines.reading(self.engine) as connection:
            return clocks.running(connection, self._mine(connection, claims_of))

    def start_clock(self, technician: str, number: str, operation: str, at: dt.datetime) -> None:
        """Start a technician's clock on a claim.

        Raises:
            NotFound: there is no such claim.
            BadInput: the technician's clock runs already.
            WrongState: the claim is another shop's.
        """
        with engines.writing(self.engine) as connection:
            # Asked for its refusal alone: time on a claim that is not there could never be written down.
            self._to_change(self._entry(connection, number))
            clocks.start(connection, Clock(technician, number, operation, at))

    def drop_clock(self, technician: str) -> None:
        """Forget a technician's running clock."""
        with engines.writing(self.engine) as connection:
            connection.execute("DELETE FROM clocks WHERE technician = ?", technician)

    def _entry(self, connection: Connection, number: str) -> Entry:
        found = next(stored_entries(connection, [number]), None)
        if found is None:
            raise no_such_claim(connection, number, self.shop)
        return found
