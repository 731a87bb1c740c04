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


def words_beginning(connection: Connection, kind: str, begun: str, shop: str = "") -> list[str]:
    """The words of a kind that begin so, in any case, each once and a screen's worth of them.

    Args:
        connection: of the book.
        kind: the kind of words.
        begun: how they begin.
        shop: whose claims and shelves, by its id; empty for everybody's. Makers and models are everybody's.
    """
    said, table, order, of_the_latest = _WORDS[kind]
    if of_the_latest:
        table = f"(SELECT {said} FROM {table} ORDER BY presented DESC, number DESC LIMIT 2000) AS late"  # noqa: S608
    mine = [_of_shop(table, shop)] if shop and not of_the_latest else []
    query = Sql(f"SELECT DISTINCT {said} FROM {table}").where(begins(said, begun, in_any_case=True), *mine)  # noqa: S608
    return connection.column(query.then(f"{f'ORDER BY {order} ' if order else ''}LIMIT {_MOST}"))


def _of_shop(table: str, shop: str) -> Sql:
    # loaded where a book may hold several shops
    from claimpack.book.lookups import claims_of, of_shop

    return of_shop(shop) if table == "claims" else claims_of(shop)
