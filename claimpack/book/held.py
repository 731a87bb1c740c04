"""Held parts as lists show them, each with what its claim says of it."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Any, NamedTuple

from claimpack.book.database.connections import Connection
from claimpack.book.database.sql import Sql, all_of, any_of, condition, has, one_of, select
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


# a field called index would hide the method of a tuple; both tables have a column called state
_BY_OTHER_NAMES = {"nth": "held.part_index", "claim_state": "claims.state"}
_COLUMNS = tuple(
    _BY_OTHER_NAMES.get(name) or f"{'held' if name in schema.HELD.names else 'claims'}.{name}"
    for name in ListedPart._fields
)
_READERS = readers(ListedPart, frozenset(ListedPart._fields))
_STARTS = {"filed": "claims.filed", "paid": "claims.paid_on", "repaired": "held.repaired"}
_SOME = 500


def listed_held(connection: Connection, wanted: HeldWanted, of_claims: Sequence[Sql] = ()) -> list[ListedPart]:
    """The held parts wanted, by shelf, claim and index, of the claims that meet some conditions."""
    conditions = list(of_claims)
    if wanted.states:
        conditions.append(one_of("held.state", wanted.states))
    if wanted.shelf:
        conditions.append(condition("held.shelf_word = ?", folded(wanted.shelf)))
    if wanted.maker:
        conditions.append(of_maker(wanted.maker))
    conditions += [_says(piece) for piece in folded(wanted.text).split()]
    # without claims named there is one question; with many the values would be too many for one
    if not wanted.claims:
        return _listed(connection, conditions)
    found: list[ListedPart] = []
    for first in range(0, len(wanted.claims), _SOME):
        named = one_of("held.claim", wanted.claims[first : first + _SOME])
        found += _listed(connection, [*conditions, named])
    return found


def _says(piece: str) -> Sql:
    return any_of([has(text, piece) for text in ("claims.words", "lower(held.part)", "lower(held.number)")])


def listed_held_due(
    connection: Connection,
    between: DayRange,
    ending: Sequence[HoldEnding],
    filed: Sequence[DayRange],
    received: Sequence[DayRange],
    of_claims: Sequence[Sql] = (),
) -> list[ListedPart]:
    """The held parts whose hold or time to inspect ends in between, and those called back to be sent by its end.

    A part is told once. The state is not asked for beside the days of filing: the database would take the index of
    states, which reads every part that was ever held.
    """
    ends = all_of([condition("held.state = 'held'"), within("held.keep_until", [between])])
    # from no first day on: a part that missed its day is told until it is sent
    to_send = condition("held.state = 'called back' AND held.send_by <= ?", between[1].isoformat())
    found = _listed(connection, [ends, *of_claims]) + _listed(connection, [to_send, *of_claims])
    for column, spans in (("claims.filed", filed), ("claims.received", received)):
        if spans:
            found += _listed(connection, [within(column, spans), *of_claims])
    for start, column in _STARTS.items():
        holds = [
            all_of([condition("claims.plan = ?", plan), within(column, [span])])
            for plan, of, span in ending
            if of == start
        ]
        if holds:
            found += _listed(connection, [any_of(holds), *of_claims])
    # several questions with an index each, rather than one that no index answers; a part may meet more than one
    return sorted(dict.fromkeys(found), key=lambda row: (row.claim, row.nth))


def _listed(connection: Connection, conditions: Iterable[Sql]) -> list[ListedPart]:
    query = select(_COLUMNS, "held JOIN claims ON held.claim = claims.number").where(*conditions)
    ordered = query.then("ORDER BY held.shelf_word, held.claim, held.part_index")
    return [_held_row(row) for row in connection.execute(ordered)]


def _held_row(row: Any) -> ListedPart:
    values = list(row)
    for place, read in _READERS:
        values[place] = read(values[place])
    return ListedPart(*values)
