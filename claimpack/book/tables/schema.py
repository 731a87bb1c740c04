"""The tables of the book, the same in SQLite and PostgreSQL."""

from __future__ import annotations

from typing import Any

from sqlalchemy import Column, ForeignKey, Index, Integer, MetaData, String, Table

from claimpack.book.tables.columns import kinds_of
from claimpack.core.steps.listed import ListedClaim

metadata = MetaData()
"""Every table of the book. Dates and times are ISO 8601 text, money and hours decimal text: exact, and they sort."""

_TEXT = String().with_variant(String(collation="C"), "postgresql")
"""Text that sorts by its letters' numbers, whatever language the server speaks."""

NEVER_EMPTY = frozenset(
    {
        *("number", "revision", "state", "maker", "model", "component", "owner", "serial", "presented"),
        *("refused_for_form", "currency", "claimed", "paid", "outstanding", "plan", "terms", "verdict"),
    }
)
"""Columns of claims that are always filled; what came later is empty where it has nothing to say."""


def _listed(name: str, kind: Any) -> Column[Any]:
    """The column of a field of a listed claim."""
    if name == "number":
        return Column(name, _TEXT, primary_key=True)
    filled = name in NEVER_EMPTY
    return Column(name, Integer if filled and kind in {int, bool} else _TEXT, nullable=not filled)


claims = Table(
    "claims",
    metadata,
    *(_listed(name, kind) for name, kind in kinds_of(ListedClaim).items()),
    Column("standing", _TEXT, nullable=False),
    # the summary of a claim; the column keeps the name it has in the books and archives that shops have
    Column("digest", _TEXT, nullable=False),
    Column("maker_word", _TEXT, nullable=False),
    Column("words", _TEXT, nullable=False),
    # the maker's number for the claim, as such numbers are compared
    Column("reference_word", _TEXT),
)

serials = Table(
    "serials",
    metadata,
    Column("claim", ForeignKey("claims.number"), primary_key=True),
    Column("role", _TEXT, primary_key=True),
    Column("serial", _TEXT, primary_key=True),
    Column("component", _TEXT, nullable=False),
)

held = Table(
    "held",
    metadata,
    Column("claim", ForeignKey("claims.number"), primary_key=True),
    Column("part_index", Integer, primary_key=True),
    Column("part", _TEXT, nullable=False),
    Column("number", _TEXT, nullable=False),
    Column("shelf", _TEXT, nullable=False),
    Column("shelf_word", _TEXT, nullable=False),
    Column("state", _TEXT, nullable=False),
    Column("since", _TEXT),
    Column("send_by", _TEXT),
    Column("keep_until", _TEXT),
    Column("missing", _TEXT),
    Column("repaired", _TEXT),
)

kept_files = Table(
    "kept_files",
    metadata,
    Column("claim", ForeignKey("claims.number"), primary_key=True),
    Column("path", _TEXT, primary_key=True),
    Column("sha256", _TEXT, nullable=False),
    Column("bytes", Integer, nullable=False),
    Column("taken", _TEXT),
    Column("likeness", _TEXT),
)

revisions = Table(
    "revisions",
    metadata,
    Column("claim", _TEXT, primary_key=True),
    Column("revision", Integer, primary_key=True),
    Column("document", _TEXT, nullable=False),
    Column("files", _TEXT, nullable=False),
    Column("digest", _TEXT),
    Column("salt", _TEXT),
)

events = Table(
    "events",
    metadata,
    Column("position", Integer, primary_key=True, autoincrement=False),
    Column("claim", _TEXT, nullable=False),
    Column("revision", Integer, nullable=False),
    Column("at", _TEXT, nullable=False),
    Column("on_day", _TEXT, nullable=False),
    Column("who", _TEXT, nullable=False),
    Column("what", _TEXT, nullable=False),
    Column("why", _TEXT, nullable=False),
    Column("facts", _TEXT, nullable=False),
    Column("document", _TEXT, nullable=False),
    Column("previous", _TEXT, nullable=False),
    Column("hash", _TEXT, nullable=False),
    Column("salt", _TEXT),
)

chain = Table(
    "chain",
    metadata,
    Column("id", Integer, primary_key=True),
    Column("length", Integer, nullable=False),
    Column("hash", _TEXT, nullable=False),
)

clocks = Table(
    "clocks",
    metadata,
    Column("technician", _TEXT, primary_key=True),
    Column("claim", _TEXT, nullable=False),
    Column("operation", _TEXT, nullable=False),
    Column("started", _TEXT, nullable=False),
)

backups = Table(
    "backups",
    metadata,
    Column("at", _TEXT, primary_key=True),
    Column("who", _TEXT, nullable=False),
    Column("place", _TEXT, nullable=False),
    Column("length", Integer, nullable=False),
)

migrations = Table(
    "migrations",
    metadata,
    Column("number", Integer, primary_key=True),
    Column("name", _TEXT, nullable=False),
)

Index("claims_by_state", claims.c.state, claims.c.presented, claims.c.number)
Index("claims_by_presented", claims.c.presented, claims.c.number)
Index("claims_by_filed", claims.c.filed)
Index("claims_by_paid_on", claims.c.paid_on)
Index("claims_by_file_by", claims.c.file_by)
Index("claims_by_approval_until", claims.c.approval_until)
Index("claims_by_reference", claims.c.reference_word)
_WITH_A_REST = claims.c.refused_rest.is_not(None)
Index("claims_by_refused_rest", claims.c.refused_rest, sqlite_where=_WITH_A_REST, postgresql_where=_WITH_A_REST)
Index("serials_by_serial", serials.c.serial)
Index("held_by_state", held.c.state, held.c.keep_until)
Index("held_by_shelf", held.c.shelf_word)
Index("held_by_repaired", held.c.repaired)
Index("kept_files_by_content", kept_files.c.sha256)
Index("events_by_claim", events.c.claim, events.c.position)
