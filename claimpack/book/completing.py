"""The words of a book that a shell completes at a TAB, whatever their case, from either kind of database alike."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from claimpack.book.database.sql import Sql, begins

if TYPE_CHECKING:
    from claimpack.book.database.connections import Connection

_MOST = 200


class _Words(NamedTuple):
    """What says the words, the table, the order; of the latest claims alone, so that no shop waits for old ones."""

    said: str
    table: str
    order: str = ""
    of_the_latest: bool = False


_WORDS = {
    "claims": _Words("number", "claims", "number DESC"),
    "codes": _Words("claim || '/' || part_index", "held"),
    "makers": _Words("maker", "claims", of_the_latest=True),
    "models": _Words("model", "claims", of_the_latest=True),
    "shelves": _Words("shelf", "held", "shelf"),
}
KINDS = frozenset(_WORDS)
"""The kinds of words a book has."""


def words_beginning(connection: Connection, kind: str, begun: str) -> list[str]:
    """The words of a kind that begin so, in any case, each once and a screen's worth of them."""
    said, table, order, of_the_latest = _WORDS[kind]
    if of_the_latest:
        table = f"(SELECT {said} FROM {table} ORDER BY presented DESC, number DESC LIMIT 2000) AS late"  # noqa: S608
    query = Sql(f"SELECT DISTINCT {said} FROM {table}").where(begins(said, begun, in_any_case=True))  # noqa: S608
    return connection.column(query.then(f"{f'ORDER BY {order} ' if order else ''}LIMIT {_MOST}"))
