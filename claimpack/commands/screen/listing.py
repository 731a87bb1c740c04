"""Claims in a list: a line each where the terminal is wide enough, else two, or three where they are long."""

from __future__ import annotations

import datetime as dt
from typing import TYPE_CHECKING, Any, NamedTuple

from claimpack.core.values.money import coins, grouped, in_money, plain

if TYPE_CHECKING:
    from collections.abc import Container, Sequence

    from claimpack.book.tables.entries import Wanted
    from claimpack.commands.desk.desk import Desk
    from claimpack.commands.desk.say import Say
    from claimpack.core.steps.listed import ListedClaim

_HEAD = (
    *("Claim", "State", "Came in", "Maker, model", "Serial", "Component", "Owner", "Claimed", "Outstanding", "Next"),
    "Shop",
)
_RIGHT = (7, 8)
_MODEL, _COMPONENT, _CLAIMED, _NEXT, _SHOP = 3, 5, 7, 9, 10
_EVERY = (0, _SHOP, *range(1, _SHOP))
# A model that is cut is another model, and the next step is what the list is read for.
_WHOLE = (_MODEL, _NEXT)
_LONGEST, _SHORTEST, _GAP = 28, 12, 2
# On a narrow terminal a claim takes two lines: what names it first, then whose it is and what to do.
_FIRST_LINE = (0, _SHOP, 1, 2, 3, 5, 7)
_SECOND_LINE = (4, 6, 8, _NEXT)


class _Waits(NamedTuple):
    """What a claim waits for, and what its terms are named by where they cannot be read."""

    step: str
    unread: str


def tell_claims(say: Say, desk: Desk, wanted: Wanted, *, json: bool) -> tuple[int, int]:
    """The claims wanted, the latest first; returns how many were shown and how many there are."""
    rows, count = (
        _on_the_day(say, desk, wanted) if len(_SPLIT & set(wanted.states)) == 1 else _as_kept(say, desk, wanted)
    )
    if json:
        told = [
            {**_json(row), "next": waits.step, "terms_unread": waits.unread or None, **desk.shops.with_shop(row.number)}
            for row, waits in rows
        ]
        say.document({"claims": told, "count": count})
    elif rows:
        from claimpack.core.payment.next_step import is_late

        late = {row.number for row, _ in rows if is_late(row, desk.day)}
        currencies = {row.currency for row, _ in rows if row.claimed}
        cells = [_cells(row, waits.step, desk.shops.shown(row.number), len(currencies) > 1) for row, waits in rows]
        _tell(say, cells, late, currencies.pop() if len(currencies) == 1 else "")
    return len(rows), count


# States that silence makes a claim pass between, without anything being recorded.
_SPLIT = {"filed", "refused"}


def _as_kept(say: Say, desk: Desk, wanted: Wanted) -> tuple[list[tuple[ListedClaim, _Waits]], int]:
    rows = desk.claims(wanted)
    count = len(rows) if wanted.limit is None or len(rows) < wanted.limit else desk.book.count(wanted)
    return _waits(say, desk, rows), count


def _on_the_day(say: Say, desk: Desk, wanted: Wanted) -> tuple[list[tuple[ListedClaim, _Waits]], int]:
    """The claims in some states, of which silence may have refused one that is kept as filed."""
    either = wanted._replace(states=tuple({*wanted.states, *_SPLIT}), limit=None)
    found = [(row, waits) for row, waits in _waits(say, desk, desk.claims(either)) if row.state in wanted.states]
    return found[: wanted.limit], len(found)


def _waits(say: Say, desk: Desk, rows: Sequence[ListedClaim]) -> list[tuple[ListedClaim, _Waits]]:
    """Each claim as it stands on the day, and what it waits for, under the terms in force."""
    from claimpack.commands.desk.terms_in_force import TermsInForce
    from claimpack.core.events.states import PENDING
    from claimpack.core.payment.next_step import waits_for
    from claimpack.core.payment.silence import as_of

    # what is missing is told of where it is another shop's, whose claims would seem to wait
    in_force = TermsInForce(desk, say if desk.world.all_shops else None)
    found = []
    for row in rows:
        terms = in_force.of(row) if row.state in PENDING or row.refused_rest else None
        waits = _Waits(waits_for(row, terms, desk.day), terms.unread if terms else "")
        found.append((as_of(row, terms, desk.day), waits))
    return found


def _json(row: ListedClaim) -> dict[str, Any]:
    """A row as scripts read it; dates are ISO 8601, money is decimal text."""
    told = {name: value for name, value in row._asdict().items() if name != "judged_by"}
    return {name: _plainly(value, row.currency) for name, value in told.items()}


def _plainly(value: Any, currency: str) -> Any:
    if isinstance(value, dt.date):
        return value.isoformat()
    return value if value is None or isinstance(value, (str, int)) else plain(coins(value, currency))


def _cells(row: ListedClaim, next_step: str, shop: str, several_currencies: bool) -> tuple[str, ...]:
    money = in_money(row.claimed, row.currency) if several_currencies else grouped(row.claimed)
    return (
        row.number,
        row.state,
        row.presented.isoformat(),
        f"{row.maker} {row.model}",
        row.serial,
        row.component,
        row.owner,
        money if row.claimed else "",
        grouped(row.outstanding) if row.outstanding else "",
        next_step,
        shop,
    )


def _tell(say: Say, cells: Sequence[tuple[str, ...]], late: Container[str], currency: str) -> None:
    """The rows under their titles; `currency` is that of all amounts, empty where each row tells its own."""

    def told(line: str, row: Sequence[str]) -> str:
        """The line with its next step in the colour of lateness where the claim is late."""
        step = row[_NEXT] if row[0] in late and line.endswith(row[_NEXT]) else ""
        return line.removesuffix(step) + say.styled(step, "bad") if step else line

    columns = say.world.columns()
    short = [tuple(cell if at in _WHOLE else shortened(cell) for at, cell in enumerate(row)) for row in cells]
    # a list of one shop's claims has no column for it
    shops = any(row[_SHOP] for row in cells)
    every = [at for at in _EVERY if at != _SHOP or shops]
    wide = [f"{title} {currency}".rstrip() if at == _CLAIMED else title for at, title in enumerate(_HEAD)]
    head, *lines = _aligned([[row[at] for at in every] for row in (wide, *short)], [every.index(at) for at in _RIGHT])
    if columns is None or max(map(len, (head, *lines))) <= columns:
        say.answer(say.styled(head, "quiet"))
        for line, row in zip(lines, short, strict=True):
            say.answer(told(line, row))
        return
    (head, *first), has_model = _first_lines([_HEAD, *short], columns, () if shops else (_SHOP,))
    say.answer(say.styled(head, "quiet"))
    indent = " " * (max(len(row[0]) for row in (_HEAD, *short)) + _GAP)
    below = f"{indent}Serial · Owner · Outstanding → Next"
    say.answer(say.styled(below + currency.rjust(max(len(head) - len(below), len(currency) + _GAP)).rstrip(), "quiet"))
    for line, row in zip(first, short, strict=True):
        number, rest = row[0], shortened(line, columns)[len(row[0]) :]
        say.answer(say.styled(number, "strong") + rest)
        unit = () if has_model else (row[_MODEL],)
        for more in (*unit, *_more_lines(row, columns - len(indent))):
            say.answer(told(shortened(f"{indent}{more}", columns), row))


def _more_lines(row: Sequence[str], room: int) -> list[str]:
    """Serial, owner, what is outstanding and what is next in one line; in two where that is too long."""
    serial, owner, outstanding, next_step = (row[column] for column in _SECOND_LINE)
    owed = f"{outstanding} outstanding" if outstanding else ""
    then = f"→ {next_step}" if next_step else ""
    unit = " · ".join(part for part in (serial, owner) if part)
    money = " ".join(part for part in (owed, then) if part)
    whole = f"{unit}{' · ' if unit and owed else ' ' if unit and then else ''}{money}"
    return [whole] if len(whole) <= room else [line for line in (unit, money) if line]


def _first_lines(rows: Sequence[Sequence[str]], columns: int, left_out: tuple[int, ...]) -> tuple[list[str], bool]:
    """The upper lines under their titles, and whether the model stands in them.

    The component gives way where the amount would not fit, then goes; last the model, which is never cut.
    """
    for less in ((), (_COMPONENT,), (_COMPONENT, _MODEL)):
        shown = [at for at in _FIRST_LINE if at not in (*left_out, *less)]
        widths = {at: max(len(row[at]) for row in rows) for at in shown}
        longest = widths.get(_COMPONENT, 0) + columns - sum(widths.values()) - _GAP * (len(shown) - 1)
        if longest >= min(widths.get(_COMPONENT, 0), _SHORTEST):
            break
    cells = [[shortened(row[at], longest) if at == _COMPONENT else row[at] for at in shown] for row in rows]
    return _aligned(cells, (len(shown) - 1,)), _MODEL in shown


def _aligned(rows: Sequence[Sequence[str]], right: Sequence[int]) -> list[str]:
    """Rows as lines, each column as wide as its widest cell."""
    widths = [max(len(row[column]) for row in rows) for column in range(len(rows[0]))]
    return [
        (" " * _GAP)
        .join(
            cell.rjust(width) if column in right else cell.ljust(width)
            for column, (cell, width) in enumerate(zip(row, widths, strict=True))
        )
        .rstrip()
        for row in rows
    ]


def shortened(text: str, longest: int = _LONGEST) -> str:
    """Text that harms no terminal, cut with a mark where it is longer than a column has room for."""
    from claimpack.core.values.harmless import harmless

    line = " ".join(harmless(text).split("\n"))
    return line if len(line) <= longest else f"{line[: longest - 1]}…"
