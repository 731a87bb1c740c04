"""The tables of the book, the same in SQLite and PostgreSQL."""

from __future__ import annotations

from sqlalchemy import Column, ForeignKey, Index, Integer, MetaData, String, Table, Text

metadata = MetaData()
"""Every table of the book. Dates and times are ISO 8601 text, money and hours decimal text: exact, and they sort."""

claims = Table(
    "claims",
    metadata,
    Column("number", String, primary_key=True),
    Column("revision", Integer, nullable=False),
    Column("document", Text, nullable=False),
    Column("standing", Text, nullable=False),
    Column("digest", Text, nullable=False),
    Column("state", String, nullable=False),
    Column("maker", String, nullable=False),
    Column("model", String, nullable=False),
    Column("component", String, nullable=False),
    Column("owner", String, nullable=False),
    Column("serial", String, nullable=False),
    Column("presented", String, nullable=False),
    Column("filed", String),
    Column("received", String),
    Column("accepted_on", String),
    Column("paid_on", String),
    Column("currency", String, nullable=False),
    Column("claimed", String, nullable=False),
    Column("paid", String, nullable=False),
    Column("outstanding", String, nullable=False),
    Column("plan", String, nullable=False),
    Column("terms", String, nullable=False),
    Column("verdict", String, nullable=False),
    Column("file_by", String),
    Column("words", Text, nullable=False),
)

serials = Table(
    "serials",
    metadata,
    Column("claim", ForeignKey("claims.number"), primary_key=True),
    Column("role", String, primary_key=True),
    Column("serial", String, nullable=False),
    Column("component", String, nullable=False),
)

held = Table(
    "held",
    metadata,
    Column("claim", ForeignKey("claims.number"), primary_key=True),
    Column("part_index", Integer, primary_key=True),
    Column("part", String, nullable=False),
    Column("number", String, nullable=False),
    Column("shelf", String, nullable=False),
    Column("state", String, nullable=False),
    Column("since", String),
    Column("send_by", String),
)

kept_files = Table(
    "kept_files",
    metadata,
    Column("claim", ForeignKey("claims.number"), primary_key=True),
    Column("path", String, primary_key=True),
    Column("sha256", String, nullable=False),
    Column("bytes", Integer, nullable=False),
    Column("taken", String),
    Column("likeness", String),
)

revisions = Table(
    "revisions",
    metadata,
    Column("claim", String, primary_key=True),
    Column("revision", Integer, primary_key=True),
    Column("document", Text, nullable=False),
)

events = Table(
    "events",
    metadata,
    Column("position", Integer, primary_key=True, autoincrement=False),
    Column("claim", String, nullable=False),
    Column("revision", Integer, nullable=False),
    Column("at", String, nullable=False),
    Column("on_day", String, nullable=False),
    Column("who", String, nullable=False),
    Column("what", String, nullable=False),
    Column("why", Text, nullable=False),
    Column("facts", Text, nullable=False),
    Column("document", String, nullable=False),
    Column("previous", String, nullable=False),
    Column("hash", String, nullable=False),
)

chain = Table(
    "chain",
    metadata,
    Column("id", Integer, primary_key=True),
    Column("length", Integer, nullable=False),
    Column("hash", String, nullable=False),
)

clocks = Table(
    "clocks",
    metadata,
    Column("technician", String, primary_key=True),
    Column("claim", String, nullable=False),
    Column("operation", String, nullable=False),
    Column("started", String, nullable=False),
)

migrations = Table(
    "migrations",
    metadata,
    Column("number", Integer, primary_key=True),
    Column("name", String, nullable=False),
)

Index("claims_by_state", claims.c.state, claims.c.presented)
Index("claims_by_presented", claims.c.presented)
Index("serials_by_serial", serials.c.serial)
Index("held_by_state", held.c.state, held.c.shelf)
Index("kept_files_by_content", kept_files.c.sha256)
Index("events_by_claim", events.c.claim, events.c.position)
