"""The tables of the book, the same in SQLite and PostgreSQL."""

from __future__ import annotations

from sqlalchemy import Column, ForeignKey, Index, Integer, MetaData, Table
from sqlalchemy import String as DatabaseString

metadata = MetaData()
"""Every table of the book. Dates and times are ISO 8601 text, money and hours decimal text: exact, and they sort."""

_Text = DatabaseString().with_variant(DatabaseString(collation="C"), "postgresql")
"""Text that sorts by its letters' numbers, whatever language the server speaks."""

claims = Table(
    "claims",
    metadata,
    Column("number", _Text, primary_key=True),
    Column("revision", Integer, nullable=False),
    Column("standing", _Text, nullable=False),
    Column("digest", _Text, nullable=False),
    Column("state", _Text, nullable=False),
    Column("maker", _Text, nullable=False),
    Column("maker_word", _Text, nullable=False),
    Column("model", _Text, nullable=False),
    Column("component", _Text, nullable=False),
    Column("owner", _Text, nullable=False),
    Column("serial", _Text, nullable=False),
    Column("presented", _Text, nullable=False),
    Column("filed", _Text),
    Column("received", _Text),
    Column("accepted_on", _Text),
    Column("paid_on", _Text),
    Column("currency", _Text, nullable=False),
    Column("claimed", _Text, nullable=False),
    Column("paid", _Text, nullable=False),
    Column("outstanding", _Text, nullable=False),
    Column("plan", _Text, nullable=False),
    Column("terms", _Text, nullable=False),
    Column("verdict", _Text, nullable=False),
    Column("file_by", _Text),
    Column("words", _Text, nullable=False),
)

serials = Table(
    "serials",
    metadata,
    Column("claim", ForeignKey("claims.number"), primary_key=True),
    Column("role", _Text, primary_key=True),
    Column("serial", _Text, nullable=False),
    Column("component", _Text, nullable=False),
)

held = Table(
    "held",
    metadata,
    Column("claim", ForeignKey("claims.number"), primary_key=True),
    Column("part_index", Integer, primary_key=True),
    Column("part", _Text, nullable=False),
    Column("number", _Text, nullable=False),
    Column("shelf", _Text, nullable=False),
    Column("state", _Text, nullable=False),
    Column("since", _Text),
    Column("send_by", _Text),
)

kept_files = Table(
    "kept_files",
    metadata,
    Column("claim", ForeignKey("claims.number"), primary_key=True),
    Column("path", _Text, primary_key=True),
    Column("sha256", _Text, nullable=False),
    Column("bytes", Integer, nullable=False),
    Column("taken", _Text),
    Column("likeness", _Text),
)

revisions = Table(
    "revisions",
    metadata,
    Column("claim", _Text, primary_key=True),
    Column("revision", Integer, primary_key=True),
    Column("document", _Text, nullable=False),
    Column("files", _Text, nullable=False),
)

events = Table(
    "events",
    metadata,
    Column("position", Integer, primary_key=True, autoincrement=False),
    Column("claim", _Text, nullable=False),
    Column("revision", Integer, nullable=False),
    Column("at", _Text, nullable=False),
    Column("on_day", _Text, nullable=False),
    Column("who", _Text, nullable=False),
    Column("what", _Text, nullable=False),
    Column("why", _Text, nullable=False),
    Column("facts", _Text, nullable=False),
    Column("document", _Text, nullable=False),
    Column("previous", _Text, nullable=False),
    Column("hash", _Text, nullable=False),
)

chain = Table(
    "chain",
    metadata,
    Column("id", Integer, primary_key=True),
    Column("length", Integer, nullable=False),
    Column("hash", _Text, nullable=False),
)

clocks = Table(
    "clocks",
    metadata,
    Column("technician", _Text, primary_key=True),
    Column("claim", _Text, nullable=False),
    Column("operation", _Text, nullable=False),
    Column("started", _Text, nullable=False),
)

migrations = Table(
    "migrations",
    metadata,
    Column("number", Integer, primary_key=True),
    Column("name", _Text, nullable=False),
)

Index("claims_by_state", claims.c.state, claims.c.presented, claims.c.number)
Index("claims_by_presented", claims.c.presented, claims.c.number)
Index("serials_by_serial", serials.c.serial)
Index("held_by_state", held.c.state, held.c.shelf)
Index("kept_files_by_content", kept_files.c.sha256)
Index("events_by_claim", events.c.claim, events.c.position)
