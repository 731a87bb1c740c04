"""Connections to a book's database by the standard drivers, sqlite3 and psycopg, made alike: one text for both."""

from __future__ import annotations

import sqlite3
import sys
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager, suppress
from typing import TYPE_CHECKING, Any

from claimpack.book.database.sql import Sql

if TYPE_CHECKING:
    from claimpack.book.database.hindrances import Hindrance

FoundRow = Any
"""A row of an answer: its values in the order asked for, and by the names of their columns."""

_AT_ONCE = 500
"""Rows that a server sends at once."""


class Connection:
    """One transaction on a book's database, begun already.

    A statement has a question mark where a value belongs, whatever database reads it.
    """

    def __init__(self, driver: Any, *, on_server: bool) -> None:
        self.driver = driver
        self.on_server = on_server

    def execute(self, said: Sql | str, *values: Any) -> Any:
        """Let a statement do its work; returns the driver's cursor, whose rows have not been read."""
        text, given = (said.text, said.values) if isinstance(said, Sql) else (said, values)
        if not self.on_server:
            return self.driver.execute(text, given)
        # without values the driver reads no marks, and a percent sign stays what it is
        return self.driver.execute(_on_server(text) if given else text, given or None)

    def changed(self, said: Sql | str, *values: Any) -> int:
        """Let a statement change rows; returns how many it changed."""
        return int(self.execute(said, *values).rowcount)

    def all(self, said: Sql | str, *values: Any) -> list[FoundRow]:
        """Every row of an answer."""
        return list(self.execute(said, *values).fetchall())

    def first(self, said: Sql | str, *values: Any) -> FoundRow | None:
        """The first row of an answer; None where there is none."""
        return self.execute(said, *values).fetchone()

    def one(self, said: Sql | str, *values: Any) -> FoundRow:
        """The row of an answer that has one.

        Raises:
            LookupError: it has none.
        """
        found = self.first(said, *values)
        if found is None:
            raise LookupError("an answer that has a row has none")
        return found

    def value(self, said: Sql | str, *values: Any) -> Any:
        """The first value of the first row of an answer; None where there is none."""
        found = self.first(said, *values)
        return None if found is None else found[0]

    def column(self, said: Sql | str, *values: Any) -> list[Any]:
        """The first value of every row of an answer."""
        return [row[0] for row in self.execute(said, *values)]

    def each(self, said: Sql) -> Iterator[FoundRow]:
        """Every row of an answer, read as it is needed: a book of many years does not fit into memory at once."""
        if not self.on_server:
            yield from self.driver.execute(said.text, said.values)
            return
        # a cursor with a name stays on the server and sends its rows bit by bit; one without sends all of them at once
        with self.driver.cursor(name=f"each_{id(said)}") as cursor:
            cursor.itersize = _AT_ONCE
            cursor.execute(_on_server(said.text) if said.values else said.text, said.values or None)
            yield from cursor

    def columns_of(self, table: str) -> dict[str, bool]:
        """The columns that a table has in the database, each with whether it may be empty; none of one not there."""
        if self.on_server:
            found = self.all(_COLUMNS_ON_SERVER, table)
            return {name: empty == "YES" for name, empty in found}
        return {row["name"]: not row["notnull"] for row in self.all("SELECT * FROM pragma_table_info(?)", table)}


_COLUMNS_ON_SERVER = (
    "SELECT column_name, is_nullable FROM information_schema.columns"
    " WHERE table_schema = current_schema() AND table_name = ? ORDER BY ordinal_position"
)


def _on_server(text: str) -> str:
    """A statement with the marks of a server's driver; no text of the program has a question mark for anything else."""
    # percent signs first, or those of the new marks would be doubled with them
    return text.replace("%", "%%").replace("?", "%s")


class Engine:
    """Where a book lies, and the connections to it: each is used by one at a time, and kept for the next."""

    def __init__(
        self,
        place: str,
        connect: Callable[[], Any],
        *,
        on_server: bool = False,
        is_well: Callable[[Any], bool] = lambda _: True,
        hindered: Hindrance | None = None,
        alone: bool = False,
    ) -> None:
        """An engine that makes its connections when they are needed.

        Args:
            place: the file or the address of the book.
            connect: makes a connection of the driver, which begins and ends no transaction by itself.
            on_server: whether it speaks to PostgreSQL.
            is_well: whether a connection that was kept can still be used.
            hindered: why nothing can be written; None where it can.
            alone: whether there is one connection for all, since what it holds lies nowhere else.
        """
        self.place, self.on_server, self.hindered = place, on_server, hindered
        self._connect, self._is_well, self._alone = connect, is_well, alone
        self._kept: list[Any] = []

    @contextmanager
    def transaction(self, begin: str = "BEGIN") -> Iterator[Connection]:
        """A connection in a transaction: all that it did is kept when it ends well, and nothing when it does not."""
        driver = self.driver()
        # a book in memory has one connection: whoever reads while it writes is inside the writer's transaction
        if self._alone and driver.in_transaction:
            yield Connection(driver, on_server=False)
            return
        try:
            driver.execute(begin)
            yield Connection(driver, on_server=self.on_server)
            driver.commit()
        # Ctrl-C, too, leaves nothing half written
        except BaseException:
            self._undo(driver)
            raise
        self.take_back(driver)

    def _undo(self, driver: Any) -> None:
        try:
            driver.rollback()
        except database_errors():
            # What is told is why it had to be undone.
            self._close([driver])
        else:
            self.take_back(driver)

    def driver(self) -> Any:
        """A connection of the driver, one that was kept or a new one."""
        if self._alone:
            self._kept = self._kept or [self._connect()]
            return self._kept[0]
        while self._kept:
            driver = self._kept.pop()
            # asked when it is taken and not when it is given back: the server may go away in between
            if self._is_well(driver):
                return driver
            self._close([driver])
        return self._connect()

    def take_back(self, driver: Any) -> None:
        """Keep a connection that is not used any more for whoever needs one next."""
        if driver not in self._kept:
            self._kept.append(driver)

    def dispose(self) -> None:
        """Close the connections that were kept."""
        kept, self._kept = self._kept, []
        self._close(kept)

    def _close(self, drivers: Sequence[Any]) -> None:
        for driver in drivers:
            with suppress(*database_errors()):
                driver.close()


def database_errors() -> tuple[type[Exception], ...]:
    """What the drivers raise; the one for servers only where it is in use."""
    # looked up and not imported: most shops have no server, and importing it takes long
    psycopg = sys.modules.get("psycopg")
    return (sqlite3.Error, psycopg.Error) if psycopg else (sqlite3.Error,)


def is_operational(error: Exception) -> bool:
    """Whether an error is about the database or its server rather than about what was asked of it."""
    psycopg = sys.modules.get("psycopg")
    return isinstance(error, (sqlite3.OperationalError, *((psycopg.OperationalError,) if psycopg else ())))


def file_driver(place: str, wait: float) -> sqlite3.Connection:
    """A connection to a SQLite file, or to memory: durable at every commit; readers do not wait for the writer.

    Args:
        place: the path, or `:memory:`.
        wait: seconds to wait for another writer.
    """
    # one thread at a time, and not always the one that made it; Python is to begin no transaction by itself
    driver = sqlite3.connect(place, timeout=wait, check_same_thread=False, isolation_level=None)
    driver.row_factory = sqlite3.Row
    # a log, so that readers do not wait for the writer; full, so that a commit outlives a power cut; foreign keys are
    # off by default
    for setting in ("journal_mode = WAL", "synchronous = FULL", "foreign_keys = ON"):
        driver.execute(f"PRAGMA {setting}")
    return driver


def server_driver(address: str) -> Any:
    """A connection to PostgreSQL.

    Raises:
        ModuleNotFoundError: its client library is not there.
    """
    import psycopg

    # committing by itself means that nothing begins a transaction but our own BEGIN
    return psycopg.connect(address, autocommit=True, row_factory=_rows_of)


def has_readable_ports(address: str) -> bool:
    """Whether the ports of a server's address are numbers; the client library itself reads the rest of it.

    Raises:
        ModuleNotFoundError: its client library is not there.
    """
    from psycopg.conninfo import conninfo_to_dict

    ports = str(conninfo_to_dict(address).get("port") or "")
    return all(port.isdecimal() for port in ports.split(",") if port)


def answers(driver: Any) -> bool:
    """Whether a server still answers on a connection."""
    try:
        driver.execute("SELECT 1")
    except database_errors():
        return False
    return True


class _ServerRow:
    """A row that a server sent, as SQLite gives one."""

    __slots__ = ("_names", "_values")

    def __init__(self, names: dict[str, int], values: Sequence[Any]) -> None:
        self._names, self._values = names, values

    def __getitem__(self, at: int | str) -> Any:
        return self._values[self._names[at] if isinstance(at, str) else at]

    def __iter__(self) -> Iterator[Any]:
        return iter(self._values)

    def __len__(self) -> int:
        return len(self._values)

    def keys(self) -> list[str]:
        """The names of the columns, in order."""
        return list(self._names)


def _rows_of(cursor: Any) -> Callable[[Sequence[Any]], _ServerRow]:
    names = {column.name: place for place, column in enumerate(cursor.description or ())}
    return lambda values: _ServerRow(names, values)
