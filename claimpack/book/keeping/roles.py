"""What logins of a PostgreSQL server may do with a book: three roles, granted and kept to by the server itself.

Source: PostgreSQL documentation, 5.8 (privileges) and 5.9 (row security policies): without a policy that lets a row
through it is not there, whoever owns the table is held to none, and policies of one command are joined by OR.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from typing import NamedTuple

from claimpack.book.tables import schema
from claimpack.core.events.event_kinds import EventName

ACCOUNTANT, TECHNICIAN, OFFICE = "claimpack_accountant", "claimpack_technician", "claimpack_office"

AT_THE_BENCH: tuple[EventName, ...] = (
    "edited",
    "corrected",
    "noted",
    "part moved",
    "part sent",
    "part sending undone",
    "shelf counted",
)
"""What a technician records; everything else, such as payments and what is written off, is the office's."""


class Policy(NamedTuple):
    """A policy on the history: its name, for which command and role, which rows are seen, which may be put in."""

    name: str
    command: str
    role: str
    seen: str = ""
    put_in: str = ""

    def made(self) -> str:
        """The statement that makes it."""
        seen = f" USING ({self.seen})" if self.seen else ""
        put_in = f" WITH CHECK ({self.put_in})" if self.put_in else ""
        return f"CREATE POLICY {self.name} ON events FOR {self.command} TO {self.role}{seen}{put_in};"


_KINDS = ", ".join(f"'{kind}'" for kind in AT_THE_BENCH)
POLICIES = (
    Policy("history_is_read", "SELECT", "PUBLIC", seen="true"),
    Policy("office_records", "INSERT", OFFICE, put_in="true"),
    Policy("technician_records", "INSERT", TECHNICIAN, put_in=f"what = ANY (ARRAY[{_KINDS}])"),
)
"""Every policy of a book with roles, all of them on the history: no change is kept without its event."""

_CHANGED = {
    "claims": "UPDATE",
    "chain": "UPDATE",
    "revisions": "INSERT",
    "events": "INSERT",
    "serials": "INSERT, DELETE",
    "held": "INSERT, DELETE",
    "kept_files": "INSERT, DELETE",
    "clocks": "INSERT, DELETE",
}
"""What a change to a claim writes, by table: nothing that was recorded is rewritten or taken away."""


def statements(place: str) -> Iterator[str]:
    """The SQL that makes the roles and lets them in, for the owner of the book; run again it does no harm.

    Args:
        place: the schema the book lies in, as the server names it.
    """
    roles = (ACCOUNTANT, TECHNICIAN, OFFICE)
    every = ", ".join(roles)
    yield "BEGIN;"
    # whoever runs it may look for tables elsewhere first
    yield f"SET LOCAL search_path TO {place};"
    for role in roles:
        yield f"DO $$ BEGIN CREATE ROLE {role} NOLOGIN; EXCEPTION WHEN duplicate_object THEN NULL; END $$;"
    yield f"GRANT USAGE ON SCHEMA {place} TO {every};"
    yield f"GRANT SELECT ON {', '.join(schema.TABLES)} TO {every};"
    for table, what in _CHANGED.items():
        yield f"GRANT {what} ON {table} TO {TECHNICIAN}, {OFFICE};"
    yield f"GRANT INSERT ON claims TO {OFFICE};"
    yield f"GRANT INSERT, DELETE ON backups TO {OFFICE};"
    yield "ALTER TABLE events ENABLE ROW LEVEL SECURITY;"
    for policy in POLICIES:
        yield f"DROP POLICY IF EXISTS {policy.name} ON events;"
        yield policy.made()
    yield "COMMIT;"


def as_told(command: str, role: str, seen: str | None, put_in: str | None) -> frozenset[str]:
    """What a policy says, in whatever way a server writes it."""
    told = {"for": command, "to": role, "seen": seen or "", "put in": put_in or ""}
    return frozenset(f"{name} {said(text)}" for name, text in told.items())


def said(text: str) -> str:
    """A definition in whatever way a server writes it: it casts, and puts brackets, quotes and blanks, as it likes."""
    return _LIKES.sub("", text).casefold()


_LIKES = re.compile(r"""::[a-z ]+(\[\])?|[()"\s]""")


def definitions() -> dict[tuple[str, str], frozenset[str]]:
    """What acts on the tables of a book with roles, by kind and name."""
    ours = {("policy", each.name): as_told(*each[1:]) for each in POLICIES}
    return ours | {("row security of", "events"): frozenset[str]()}


def found(rows: Sequence[Sequence[str]]) -> dict[tuple[str, str], frozenset[str]]:
    """The policies that a server tells of, by kind and name."""
    return {("policy", name): as_told(*told) | _elsewhere(table) for table, name, *told in rows}


def _elsewhere(table: str) -> frozenset[str]:
    return frozenset() if table == "events" else frozenset([f"on {table}"])


ON_SERVER = """
SELECT c.relname, p.polname,
    CASE p.polcmd WHEN 'r' THEN 'SELECT' WHEN 'a' THEN 'INSERT' ELSE p.polcmd::text END
        || CASE WHEN p.polpermissive THEN '' ELSE ' restrictive' END,
    (SELECT string_agg(coalesce(r.rolname, 'public'), ',' ORDER BY r.rolname)
        FROM unnest(p.polroles) AS o (id) LEFT JOIN pg_roles r ON r.oid = o.id),
    pg_get_expr(p.polqual, p.polrelid), pg_get_expr(p.polwithcheck, p.polrelid)
FROM pg_policy p JOIN pg_class c ON c.oid = p.polrelid
WHERE c.relnamespace = current_schema()::regnamespace AND c.relname = ANY(?)
"""
"""The policies on the book's tables."""
