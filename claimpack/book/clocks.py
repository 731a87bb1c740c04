"""Running labour clocks: one a technician, kept until its hours are written down."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence

from claimpack.book.database.connections import Connection
from claimpack.book.database.sql import Sql, condition, select
from claimpack.book.refusals import clock_changed, clock_runs
from claimpack.book.tables import schema
from claimpack.book.tables.entries import Clock

_CLOCKS = select(schema.CLOCKS.names, "clocks")


def running(connection: Connection, about: Sequence[Sql] = ()) -> list[Clock]:
    """Every running clock that meets some conditions, the longest running first."""
    # sorted here: times of different offsets do not sort as text
    found = connection.all(_CLOCKS.where(*about))
    each = [Clock(who, claim, operation, dt.datetime.fromisoformat(at)) for who, claim, operation, at in found]
    return sorted(each, key=lambda clock: (clock.started, clock.technician))


def start(connection: Connection, clock: Clock) -> None:
    """Start a technician's clock.

    Raises:
        BadInput: it runs already.
    """
    from claimpack.book.tables.writing import put

    runs = connection.first(_CLOCKS.where(condition("technician = ?", clock.technician)))
    if runs:
        raise clock_runs(*runs)
    put(connection, schema.CLOCKS, [(*clock[:3], clock.started.isoformat())])


def take(connection: Connection, clock: Clock) -> None:
    """Take a clock away as it was looked at, so that its hours are counted once.

    Raises:
        AlreadyChanged: somebody stopped or started it meanwhile.
    """
    same = "DELETE FROM clocks WHERE technician = ? AND claim = ? AND operation = ? AND started = ?"
    if not connection.changed(same, *clock[:3], clock.started.isoformat()):
        raise clock_changed(clock.technician)
