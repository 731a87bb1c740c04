"""A book for every test: SQLite in memory, SQLite in a file, PostgreSQL on a server of our own."""

from __future__ import annotations

import os
import shutil
import subprocess
import tempfile
from collections.abc import Iterator
from pathlib import Path
from typing import NamedTuple

import pytest
from book_builders import ANA, OPENED, an_empty_book, an_entry
from own_server import as_nobody_special, binaries, free_port, quiet

from claimpack.book.book import Book
from claimpack.book.opening import open_book


class Server(NamedTuple):
    """A running PostgreSQL server; urls of its databases need no password."""

    port: int
    home: Path

    def url(self, database: str) -> str:
        return f"postgresql://postgres@127.0.0.1:{self.port}/{database}"

    def run(self, database: str, *statements: str) -> None:
        import psycopg

        with psycopg.connect(self.url(database), autocommit=True) as connection:
            for statement in statements:
                connection.execute(statement)

    def fresh(self) -> str:
        """The URL of an empty database, the same one every time; whoever is still connected to it is cut off."""
        others = (
            "SELECT pg_terminate_backend(pid) FROM pg_stat_activity WHERE datname = 'fresh' AND pid <> pg_backend_pid()"
        )
        self.run("fresh", others, "DROP SCHEMA public CASCADE", "CREATE SCHEMA public")
        return self.url("fresh")


@pytest.fixture(scope="session")
def server() -> Iterator[Server]:
    programs = binaries()
    if programs is None or not (programs / "pg_ctl").exists():
        pytest.skip("PostgreSQL is not installed (no initdb on PATH or under /usr/lib/postgresql)")
    pytest.importorskip("psycopg", reason="PostgreSQL: the client library psycopg is not installed")
    how = as_nobody_special()
    # Not under pytest's own folder, which another user cannot enter.
    home = Path(tempfile.mkdtemp(prefix="pg."))
    if "user" in how:
        os.chown(home, how["user"], how["group"])
    try:
        yield from running(programs, home, how)
    finally:
        shutil.rmtree(home, ignore_errors=True)


def running(programs: Path, home: Path, how: dict[str, object]) -> Iterator[Server]:
    port, place, log = free_port(), home / "data", home / "log"

    def run(*command: str) -> None:
        done = subprocess.run(command, check=False, cwd=home, env=quiet(), capture_output=True, text=True, **how)
        if done.returncode:
            pytest.fail(f"{command[0]}: {done.stderr}{log.read_text() if log.exists() else ''}")

    run(str(programs / "initdb"), "-D", str(place), "-U", "postgres", "-A", "trust", "-E", "UTF8", "--no-sync")
    options = f"-p {port} -h 127.0.0.1 -k {home} -c fsync=on -c shared_buffers=32MB"
    control = [str(programs / "pg_ctl"), "-D", str(place), "-w"]
    # pg_ctl's own output goes to the log: the server would hold a pipe open for as long as it runs.
    subprocess.run(
        [*control, "-l", str(log), "-o", options, "start"],
        check=True,
        cwd=home,
        env=quiet(),
        stdout=subprocess.DEVNULL,
        stderr=subprocess.DEVNULL,
        **how,
    )
    try:
        started = Server(port, place)
        started.run("postgres", "CREATE DATABASE fresh", "CREATE DATABASE emptied")
        yield started
    finally:
        run(*control, "-m", "immediate", "stop")


@pytest.fixture(params=["file", "server"])
def place(request: pytest.FixtureRequest, tmp_path: Path) -> str:
    """Where a book that several processes open is to be."""
    if request.param == "file":
        return str(tmp_path / "book.sqlite")
    return request.getfixturevalue("server").fresh()


@pytest.fixture(params=["memory", "file", "server"])
def lies_in(request: pytest.FixtureRequest) -> str:
    """Where the book lies; tests of what is alike for SQLite in memory and in a file leave one of them out."""
    return request.param


@pytest.fixture
def book(lies_in: str, request: pytest.FixtureRequest, tmp_path: Path) -> Iterator[Book]:
    """An empty book."""
    if lies_in == "server":
        opened = request.getfixturevalue("book_on_server")
        empty(opened)
    else:
        place = ":memory:" if lies_in == "memory" else str(an_empty_book(tmp_path))
        opened = open_book(place, create=True)
    yield opened
    opened.engine.dispose()


@pytest.fixture
def one(book: Book) -> Book:
    """A book of one claim."""
    book.add([an_entry("26-0001")], ANA, OPENED)
    return book


@pytest.fixture
def three(book: Book) -> Book:
    """A book of three claims."""
    book.add([an_entry(f"26-000{index}") for index in (1, 2, 3)], ANA, OPENED)
    return book


@pytest.fixture(scope="session")
def book_on_server(server: Server) -> Book:
    return open_book(server.url("emptied"))


def empty(book: Book) -> None:
    """Take everything out of a book, which is quicker than a new database for every test."""
    children_first = ("serials", "held", "kept_files", "claims", "revisions", "events", "clocks")
    with book.engine.transaction() as connection:
        for table in children_first:
            connection.execute(f"DELETE FROM {table}")  # noqa: S608
        connection.execute("UPDATE chain SET length = 0, hash = repeat('0', 64)")
