"""Held parts as lists show them, each with what its claim says of it."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Any, NamedTuple

from sqlalchemy import ColumnElement, Connection, and_, func, or_, select

from claimpack.book.lookups import DayRange, of_maker, within
from claimpack.book.tables import schema
from claimpack.book.tables.columns import readers
from claimpack.core.steps.listed import ListedPart
from claimpack.core.values.words import did_you_mean, folded
from claimpack.errors import BadInput

ON_THE_SHELF = ("held", "called back", "released")
"""States of a part that is still in the shop."""


EVERY_STATE = (*ON_THE_SHELF, "sent", "scrapped")
"""Every state of a held part."""


HoldEnding = tuple[str, str, DayRange]
"""A plan by its id, what its hold is counted from, and the days counted from on which it ends when it is asked for."""


class HeldWanted(NamedTuple):
    """Which held parts a list is about; what is empty does not narrow it. `text` is looked up in part and claim."""

    states: tuple[str, ...] = ON_THE_SHELF
    shelf: str = ""
    text: str = ""
    claims: tuple[str, ...] = ()
    maker: str = ""


HELD_NOW = HeldWanted()
"""Everything that is still in the shop."""


def states_named(said: str) -> tuple[str, ...]:
    """The states a list is asked for: one by name, `all`, or those still in the shop where none is named.

    Raises:
        BadInput: it is no state of a held part.
    """
    if not said:
        return ON_THE_SHELF
    if folded(said) == "all":
        return EVERY_STATE
    if folded(said) not in EVERY_STATE:
        raise BadInput(
            f"--state: {said!r} is no state of a held part",
            f"A held part is {', '.join(EVERY_STATE)}.",
            did_you_mean(said, (*EVERY_STATE, "all")),
        )
    return (folded(said),)


_HELD, _CLAIMS = schema.held.c, schema.claims.c
_BY_OTHER_NAMES = {"nth": _HELD.part_index, "claim_state": _CLAIMS.state.label("claim_state")}
_COLUMNS = tuple(
    _BY_OTHER_NAMES[name] if name in _BY_OTHER_NAMES else _HELD[name] if name in _HELD else _CLAIMS[name]
    for name in ListedPart._fields
)
_READERS = readers(ListedPart, frozenset(ListedPart._fields))
_STARTS = {"filed": _CLAIMS.filed, "paid": _CLAIMS.paid_on, "repaired": _HELD.repaired}
_SOME = 500


def listed_held(connection: Connection, wanted: HeldWanted) -> list[ListedPart]:
    """The held parts wanted, by shelf, claim and index."""
    conditions: list[ColumnElement[bool]] = []
    if wanted.states:
        conditions.append(_HELD.state.in_(wanted.states))
    if wanted.shelf:
        conditions.append(_HELD.shelf_word == folded(wanted.shelf))
    if wanted.maker:
        conditions.append(of_maker(wanted.maker))
    conditions += [_says(piece) for piece in folded(wanted.text).split()]
    if not wanted.claims:
        return _listed(connection, conditions)
    found: list[ListedPart] = []
    for first in range(0, len(wanted.claims), _SOME):
        named = _HELD.claim.in_(wanted.claims[first : first + _SOME])
        found += _listed(connection, [*conditions, named])
    return found


def _says(piece: str) -> ColumnElement[bool]:
    return or_(
        _CLAIMS.words.contains(piece, autoescape=True),
        func.lower(_HELD.part).contains(piece, autoescape=True),
        func.lower(_HELD.number).contains(piece, autoescape=True),
    )


def listed_held_due(
    connection: Connection,
    between: DayRange,
    ending: Sequence[HoldEnding],
    filed: Sequence[DayRange],
    received: Sequence[DayRange],
) -> list[ListedPart]:
    """The held parts whose hold or time to inspect ends in between, and those called back to be sent by its end.

    A part is told once. The state is not asked for beside the days of filing: the database would take the index of
    states, which reads every part that was ever held.
    """
    ends = and_(_HELD.state == "held", within(_HELD.keep_until, [between]))
    to_send = and_(_HELD.state == "called back", _HELD.send_by <= between[1].isoformat())
    found = _listed(connection, [ends]) + _listed(connection, [to_send])
    for column, spans in ((_CLAIMS.filed, filed), (_CLAIMS.received, received)):
        if spans:
            found += _listed(connection, [within(column, spans)])
    for start, column in _STARTS.items():
        holds = [and_(_CLAIMS.plan == plan, within(column, [span])) for plan, of, span in ending if of == start]
        if holds:
            found += _listed(connection, [or_(*holds)])
    return sorted(dict.fromkeys(found), key=lambda row: (row.claim, row.nth))


def _listed(connection: Connection, conditions: Iterable[ColumnElement[bool]]) -> list[ListedPart]:
    query = select(*_COLUMNS).join_from(schema.held, schema.claims, _HELD.claim == _CLAIMS.number).where(*conditions)
    ordered = query.order_by(_HELD.shelf_word, _HELD.claim, _HELD.part_index)
    return [_held_row(row) for row in connection.execute(ordered)]


def _held_row(row: Any) -> ListedPart:
    values = list(row)
    for place, read in _READERS:
        values[place] = read(values[place])
    return ListedPart(*values)
