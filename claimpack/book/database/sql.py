"""Statements as text with a question mark for every value, and the values beside it; pieces of them put together."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Any, NamedTuple

# not the backslash, which PostgreSQL takes for an escape unasked and SQLite does not
_ESCAPE = "/"
_LAST_LETTER = chr(0x10FFFF)


class Sql(NamedTuple):
    """A statement, or a piece of one, with the values of its question marks in order."""

    text: str
    values: tuple[Any, ...] = ()

    def where(self, *conditions: Sql) -> Sql:
        """The statement about the rows that meet every condition; about all of them where there is none."""
        return self.then(Sql("WHERE").then(all_of(conditions))) if conditions else self

    def then(self, piece: Sql | str, *values: Any) -> Sql:
        """The statement with a piece after it."""
        more = piece if isinstance(piece, Sql) else Sql(piece, values)
        return Sql(f"{self.text} {more.text}", (*self.values, *more.values))


def condition(text: str, *values: Any) -> Sql:
    """A condition as it is written, with its values."""
    return Sql(text, values)


def select(columns: Iterable[str], source: str) -> Sql:
    """Columns of a table, or of joined tables; all of them by name, since a book may have them in any order."""
    return Sql(f"SELECT {', '.join(columns)} FROM {source}")  # noqa: S608  names are the program's


def all_of(conditions: Sequence[Sql]) -> Sql:
    """The condition that every one of some conditions is met; at least one."""
    return _joined(" AND ", conditions)


def any_of(conditions: Sequence[Sql]) -> Sql:
    """The condition that one of some conditions is met, or more; at least one."""
    return _joined(" OR ", conditions)


def _joined(word: str, conditions: Sequence[Sql]) -> Sql:
    values = tuple(value for each in conditions for value in each.values)
    # in parentheses, so that an OR inside does not reach beyond them
    return Sql(word.join([f"({each.text})" for each in conditions]), values)


def one_of(column: str, values: Iterable[Any]) -> Sql:
    """The condition that a column says one of some values; none does where there are none."""
    wanted = tuple(values)
    # an empty list in parentheses is a fault of syntax to PostgreSQL
    return Sql(f"{column} IN ({marks(len(wanted))})", wanted) if wanted else Sql("1 = 0")


def marks(count: int) -> str:
    """So many question marks."""
    return ", ".join("?" * count)


def has(text: str, piece: str, *, in_any_case: bool = False) -> Sql:
    """The condition that a text has a piece in it, whatever signs the piece is made of."""
    return _like(text, f"%{_plain(piece)}%", in_any_case=in_any_case)


def begins(text: str, piece: str, *, in_any_case: bool = False) -> Sql:
    """The condition that a text begins so."""
    return _like(text, f"{_plain(piece)}%", in_any_case=in_any_case)


def ranges(text: str, piece: str) -> Sql:
    """The condition that a text begins so, said as a range: an index answers it, where texts sort by their letters."""
    return condition(f"{text} >= ? AND {text} < ?", piece, piece + _LAST_LETTER)


def ends(text: str, piece: str) -> Sql:
    """The condition that a text ends so, in whatever case its letters are."""
    return _like(text, f"%{_plain(piece)}", in_any_case=True)


def _like(text: str, pattern: str, *, in_any_case: bool) -> Sql:
    # The database folds both sides: SQLite knows the case of plain letters alone.
    said, wanted = (f"lower({text})", "lower(?)") if in_any_case else (text, "?")
    return Sql(f"{said} LIKE {wanted} ESCAPE '{_ESCAPE}'", (pattern,))


def _plain(piece: str) -> str:
    # the escape itself first, or those put in for the others would be escaped again
    for mark in (_ESCAPE, "%", "_"):
        piece = piece.replace(mark, f"{_ESCAPE}{mark}")
    return piece
