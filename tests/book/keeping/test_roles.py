"""Logins of a real server, each held to its part by the server and not by this program."""

from __future__ import annotations

import pytest
from book_builders import ANA, BEN, OPENED, SUMMARY, an_entry, at, happened, kept

from claimpack.book.keeping.backups import remember_backup
from claimpack.book.keeping.proof import book_problems
from claimpack.book.keeping.roles import AT_THE_BENCH, statements
from claimpack.book.opening import open_book
from claimpack.core.events.event_kinds import EVENT_KINDS
from claimpack.errors import CannotWrite, NotFound

LOGINS = {"una": "claimpack_accountant", "ted": "claimpack_technician", "olga": "claimpack_office", "ned": None}
FILED = happened("filed", claimed="150.00", currency="USD")
PAID = happened("paid", amount="150.00")


@pytest.fixture(scope="module")
def with_roles(server):
    """An empty book on the server, its owner's statements run; una, ted and olga may log in, and ned."""
    server.run("postgres", "CREATE DATABASE roles")
    opened = open_book(server.url("roles"), create=True)
    made = [f"CREATE ROLE {name} LOGIN" + (f" IN ROLE {role}" if role else "") for name, role in LOGINS.items()]
    server.run("roles", *statements("public"), *made)
    yield opened
    opened.engine.dispose()


@pytest.fixture
def owner(with_roles):
    """The book as its owner sees it, with one filed claim."""
    emptied(with_roles)
    with_roles.add([an_entry("26-0001", kept("photos/a.jpg"))], ANA, OPENED, FILED)
    return with_roles


def emptied(book):
    with book.engine.transaction() as connection:
        for table in ("serials", "held", "kept_files", "claims", "revisions", "events", "clocks", "backups"):
            connection.execute(f"DELETE FROM {table}")  # noqa: S608
        connection.execute("UPDATE chain SET length = 0, hash = repeat('0', 64)")


@pytest.fixture(scope="module")
def logged_in(with_roles, server):
    """The book as each of them opens it."""
    by = {
        name: open_book(server.url("roles").replace("postgres@", f"{name}@")) for name, role in LOGINS.items() if role
    }
    yield by
    for book in by.values():
        book.engine.dispose()


@pytest.fixture
def as_login(owner, logged_in):
    """Opens the book as somebody logs in."""
    return logged_in.get


def record(book, *events):
    with book.change("26-0001", BEN) as change:
        change.save(change.claim, SUMMARY, *events, files=change.files)


def test_an_accountant_reads_everything(as_login):
    una = as_login("una")
    assert (len(una.claims()), len(una.history()), len(una.held()), una.count()) == (1, 2, 0, 1)
    assert next(una.entries()).claim.number == "26-0001"


def test_an_accountant_proves_the_book(as_login):
    assert book_problems(as_login("una")) == []


@pytest.mark.parametrize(
    "change",
    [
        lambda book: record(book, PAID),
        lambda book: book.add([an_entry("26-0002")], ANA, OPENED),
        lambda book: book.start_clock("Ben Marsh", "26-0001", "find-fault", at(9)),
        lambda book: book.drop_clock("Ben Marsh"),
        lambda book: remember_backup(book, ANA, "b.zip", 2),
    ],
    ids=["a payment", "a new claim", "a clock", "a clock dropped", "a backup"],
)
def test_an_accountant_changes_nothing(as_login, owner, change):
    with pytest.raises(CannotWrite):
        change(as_login("una"))
    assert len(owner.history()) == 2


def test_an_accountants_book_says_beforehand_that_it_is_read_alone(as_login):
    assert [bool(as_login(name).engine.hindered) for name in ("una", "ted", "olga")] == [True, False, False]


@pytest.mark.parametrize("what", ["corrected", "noted"])
def test_a_technician_changes_a_claim(as_login, owner, what):
    record(as_login("ted"), happened(what))
    assert owner.history()[-1].what == what


def test_a_technician_logs_time(as_login, owner):
    as_login("ted").start_clock("Ben Marsh", "26-0001", "find-fault", at(9))
    assert len(owner.clocks()) == 1


MONEY = {
    "paid": [PAID],
    "answered": [happened("answered", answer="accepted")],
    "written off": [happened("written off", amount="150.00")],
    "withdrawn": [happened("withdrawn")],
    "paid beside a note": [happened("noted"), PAID],
}


@pytest.mark.parametrize("events", MONEY.values(), ids=MONEY)
def test_the_server_takes_nothing_about_money_from_a_technician(as_login, owner, events):
    with pytest.raises(CannotWrite):
        record(as_login("ted"), *events)
    assert (len(owner.history()), owner.get("26-0001").standing.state) == (2, "filed")


def test_a_technician_takes_no_claim_in(as_login, owner):
    with pytest.raises(CannotWrite):
        as_login("ted").add([an_entry("26-0002")], ANA, OPENED)
    assert owner.count() == 1


PAID_AS_SUCH = """
INSERT INTO events SELECT position + 9, claim, revision, at, on_day, who, 'paid', why, facts, document, previous, hash
FROM events
"""


@pytest.mark.parametrize(
    "statement",
    [
        "UPDATE events SET what = 'paid'",
        "DELETE FROM events",
        "UPDATE revisions SET document = ''",
        "DELETE FROM claims",
        PAID_AS_SUCH,
        "ALTER TABLE events DISABLE ROW LEVEL SECURITY",
    ],
)
@pytest.mark.parametrize("login", ["una", "ted"])
def test_without_this_program_the_server_holds_a_login_to_its_part_all_the_same(as_login, login, statement):
    import psycopg

    with pytest.raises(psycopg.errors.InsufficientPrivilege), as_login(login).engine.transaction() as connection:
        connection.execute(statement)


def test_what_a_technician_writes_into_a_claim_without_an_event_is_found(as_login, owner):
    with as_login("ted").engine.transaction() as connection:
        connection.execute("UPDATE claims SET paid = '150.00'")
    assert book_problems(owner) == ["claim 26-0001 is not as its history left it: paid"]


def test_the_office_takes_claims_in_and_pays(as_login, owner):
    olga = as_login("olga")
    olga.add([an_entry("26-0002")], ANA, OPENED)
    record(olga, PAID)
    remember_backup(olga, ANA, "b.zip", 4)
    assert (owner.count(), owner.get("26-0001").standing.state) == (2, "paid")


def test_the_owner_is_held_to_nothing(owner):
    record(owner, PAID)
    assert owner.get("26-0001").standing.state == "paid"


def test_a_book_with_roles_is_whole(owner):
    assert book_problems(owner) == []


def test_the_statements_may_be_run_again(owner, server):
    server.run("roles", *statements("public"))
    assert book_problems(owner) == []


PLANTED = {
    "hidden rows": "CREATE POLICY x ON events AS RESTRICTIVE FOR SELECT TO PUBLIC USING (what <> 'paid')",
    "a wider one": "ALTER POLICY technician_records ON events WITH CHECK (true)",
    "one gone": "DROP POLICY office_records ON events",
    "another role": "ALTER POLICY office_records ON events TO PUBLIC",
    "another table": "ALTER TABLE claims ENABLE ROW LEVEL SECURITY",
    "on another table": "CREATE POLICY x ON claims FOR SELECT TO PUBLIC USING (paid = '0.00')",
}


@pytest.fixture
def planted(owner, server):
    """Lets a statement act on the book, until the test ends."""
    yield lambda statement: server.run("roles", statement)
    gone = [f"DROP POLICY IF EXISTS x ON {table}" for table in ("events", "claims")]
    server.run("roles", *gone, "ALTER TABLE claims DISABLE ROW LEVEL SECURITY", *statements("public"))


@pytest.mark.parametrize("statement", PLANTED.values(), ids=PLANTED)
def test_a_policy_that_is_not_ours_is_found(owner, planted, statement):
    planted(statement)
    assert len(book_problems(owner)) == 1


def test_a_login_without_a_role_is_not_let_in(with_roles, server):
    with pytest.raises(NotFound):
        open_book(server.url("roles").replace("postgres@", "ned@"))


def test_what_a_technician_records_are_events_that_there_are():
    assert set(AT_THE_BENCH) <= set(EVENT_KINDS)


@pytest.mark.parametrize("what", ["paid", "written off", "answered", "filed", "charged back", "erased", "opened"])
def test_nothing_about_money_is_recorded_at_the_bench(what):
    assert what not in AT_THE_BENCH


def test_the_statements_let_into_the_schema_the_book_lies_in_whoever_runs_them():
    assert list(statements("branch"))[:2] == ["BEGIN;", "SET LOCAL search_path TO branch;"]
