"""The money: what is claimed from the maker line by line, and what is not claimed because somebody else pays."""

from __future__ import annotations

from collections.abc import Sequence
from decimal import Decimal
from typing import Any

from claimpack.core.pricing.lines import PricedLine
from claimpack.core.pricing.pricing import Price
from claimpack.core.values.money import ZERO, percent
from claimpack.core.values.wording.sentence import say
from claimpack.packet.drawing.amount_strip import amount_strip
from claimpack.packet.drawing.draft import Draft
from claimpack.printing.drawn import gap, opening, section, subsection
from claimpack.printing.lettering import escaped, marked_up, text
from claimpack.printing.palette import QUIET
from claimpack.printing.tables import TableColumn

_UNKNOWN = "\N{EN DASH}"


def money_section(draft: Draft) -> list[Any]:
    """The amount; parts, labour and extras claimed, line by line; what is not claimed."""
    words, price = draft.words, draft.assessment.price
    if price is None:
        return section("money", draft.title_of("money"), draft.width, _unpriced(draft))
    others = [line for line in price.lines if line.payer != "maker"]
    body = [amount_strip(draft), gap(8)]
    if draft.layout.tells_prices:
        body += _claimed(draft, price.lines)
        body += subsection(words.not_claimed, draft.width, [_not_claimed(draft, price, others)]) if others else []
    elif price.lines:
        body.append(_for_the_owner(draft, price))
    # The heading and the amount would look forgotten at the foot of a page whose tables begin on the next.
    first = opening(body[0], draft.width) + (8 + opening(body[2], draft.width) if len(body) > 2 else 0)
    return section("money", draft.title_of("money"), draft.width, body, first)


def _claimed(draft: Draft, lines: Sequence[PricedLine]) -> list[Any]:
    claimed = [line for line in lines if line.payer == "maker"]
    parts = [line for line in claimed if line.kind == "part"]
    labour = [line for line in claimed if line.kind == "labour"]
    extras = [line for line in claimed if line.kind == "extra"]
    words, width, amounts = draft.words, draft.width, draft.assessment.amounts
    title = words.claimed if amounts is None or amounts.would_be is None else words.would_be
    body: list[Any] = []
    if parts:
        body += subsection(f"{title}: {words.parts}", width, [_parts(draft, parts)])
    if labour:
        body += subsection(f"{title}: {words.labour}", width, [_labour(draft, labour)])
    if extras:
        body += subsection(f"{title}: {words.extras}", width, [_extras(draft, extras)])
    return body


def _parts(draft: Draft, lines: Sequence[PricedLine]) -> Any:
    words = draft.words
    columns = (
        TableColumn(words.number, 19),
        TableColumn(words.description, 37),
        TableColumn(words.quantity, 10, right=True),
        TableColumn(words.unit_price, 13, right=True),
        TableColumn(words.amount, 14, right=True),
        TableColumn(_handling(draft), 13, right=True),
    )
    rows = [
        [
            line.code,
            _described(draft, line),
            quantity,
            each,
            draft.number(line.amount),
            draft.number(line.handling),
        ]
        for line, quantity, each in zip(
            lines,
            draft.numbers([line.quantity for line in lines]),
            draft.numbers([line.unit_price or line.amount for line in lines]),
            strict=True,
        )
    ]
    amount, handling = _sum(line.amount for line in lines), _sum(line.handling for line in lines)
    return draft.table(columns, rows, ["", words.total, "", "", draft.number(amount), draft.number(handling)])


def _handling(draft: Draft) -> str:
    """The heading over the handling, with its rate where the plan has one for every part."""
    words, plan = draft.words, draft.assessment.plan
    bands = plan.pays.parts_handling if plan else ()
    return (
        f"{words.handling} {percent(bands[0].rate)}\N{NO-BREAK SPACE}%"
        if len(bands) == 1 and bands[0].rate
        else words.handling
    )


def _labour(draft: Draft, lines: Sequence[PricedLine]) -> Any:
    words = draft.words
    columns = (
        TableColumn(words.operation, 40),
        TableColumn(words.technician, 17),
        TableColumn(words.schedule, 11, right=True),
        TableColumn(words.clocked, 11, right=True),
        TableColumn(words.claimed_hours, 11, right=True),
        TableColumn(words.rate, 12, right=True),
        TableColumn(words.amount, 14, right=True),
    )
    *hours, whole = draft.numbers([*(line.quantity for line in lines), _sum(line.quantity for line in lines)])
    rows = [
        [
            _described(draft, line),
            line.technician,
            schedule,
            clocked,
            claimed,
            draft.number(line.unit_price),
            draft.number(line.amount),
        ]
        for line, schedule, clocked, claimed in zip(
            lines,
            draft.numbers([line.schedule for line in lines]),
            draft.numbers([line.clocked for line in lines]),
            hours,
            strict=True,
        )
    ]
    amount = _sum(line.amount for line in lines)
    return draft.table(columns, rows, [words.total, "", "", "", whole, "", draft.number(amount)])


def _extras(draft: Draft, lines: Sequence[PricedLine]) -> Any:
    columns = (TableColumn(draft.words.extra, 86), TableColumn(draft.words.amount, 14, right=True))
    rows = [[_described(draft, line), draft.number(line.amount)] for line in lines]
    return draft.table(columns, rows, [draft.words.total, draft.number(_sum(line.amount for line in lines))])


def _not_claimed(draft: Draft, price: Price, lines: Sequence[PricedLine]) -> Any:
    lines = sorted(lines, key=lambda line: line.payer)
    rows = [
        [_described(draft, line, code=True), counted, each, _payers(draft)[line.payer], draft.number(line.amount)]
        for line, counted, each in _under_each_other(draft, lines)
    ]
    return draft.table(_of_others(draft), [*rows, *_tax_of_owner(draft, price)])


def _tax_of_owner(draft: Draft, price: Price) -> list[list[Any]]:
    """The shop's tax on what the owner pays, which is in the amount beside it; nothing where there is none."""
    if not price.amounts.owner_tax:
        return []
    said = draft.said(say("price.tax-of-owner", percent=percent(price.owner_tax)))
    return [[text(said, "cell"), "", "", draft.words.payer_owner, draft.number(price.amounts.owner_tax)]]


def _for_the_owner(draft: Draft, price: Price) -> Any:
    """What was done and fitted and who pays it; amounts where the owner pays them."""
    return draft.table(
        _of_others(draft),
        [*(_for_owner(draft, *line) for line in _under_each_other(draft, price.lines)), *_tax_of_owner(draft, price)],
    )


def _for_owner(draft: Draft, line: PricedLine, counted: str, each: str) -> list[Any]:
    prices = (each, draft.number(line.amount)) if line.payer == "owner" else ("", "")
    return [line.what, counted, prices[0], _payers(draft)[line.payer], prices[1]]


def _of_others(draft: Draft) -> tuple[TableColumn, ...]:
    words = draft.words
    return (
        TableColumn(words.description, 52),
        TableColumn(words.quantity, 10, right=True),
        TableColumn(words.unit_price, 12, right=True),
        TableColumn(words.paid_by, 13),
        TableColumn(words.amount, 13, right=True),
    )


def _payers(draft: Draft) -> dict[str, str]:
    words = draft.words
    return {
        "owner": words.payer_owner,
        "shop": words.payer_shop,
        "maker": words.payer_maker,
        "other maker": words.payer_other_maker,
    }


def _under_each_other(draft: Draft, lines: Sequence[PricedLine]) -> list[tuple[PricedLine, str, str]]:
    """Lines with their pieces or hours and the price of each; nothing where a line is what another leaves."""
    counted = [None if line.is_rest and line.kind != "extra" else line.quantity for line in lines]
    each = [None if line.is_rest else line.unit_price or None for line in lines]
    columns = ([number.strip(_UNKNOWN) for number in draft.numbers(column)] for column in (counted, each))
    return list(zip(lines, *columns, strict=True))


def _described(draft: Draft, line: PricedLine, code: bool = False) -> Any:
    shown = escaped(line.what)
    if line.code and (code or line.kind == "labour"):
        shown += f' <font size="7.5" color="{QUIET}">({escaped(line.code)})</font>'
    for note in line.notes:
        shown += f'<br/><font size="7.5" color="{QUIET}">{escaped(draft.said(note))}</font>'
    return marked_up(shown, "cell")


def _sum(amounts: Any) -> Decimal:
    return sum(amounts, ZERO)


def _unpriced(draft: Draft) -> list[Any]:
    """Parts, labour and extras as the claim states them, where no plan is there to price them by."""
    words, claim = draft.words, draft.claim
    columns = (
        TableColumn(words.number, 20),
        TableColumn(words.description, 44),
        TableColumn(words.quantity, 14, right=True),
        TableColumn(words.paid_by, 12),
        TableColumn(words.amount, 14, right=True),
    )
    payers = _payers(draft)
    rows: list[list[Any]] = [
        [part.number, part.name, draft.number(part.quantity), payers[part.payer], ""] for part in claim.parts
    ]
    rows += [
        ["", work.operation, "" if work.hours is None else f"{draft.number(work.hours)} h", payers[work.payer], ""]
        for work in claim.labour
    ]
    for extra in claim.extras:
        told = draft.layout.tells_prices or extra.payer == "owner"
        rows.append(
            [
                "",
                extra.what,
                "",
                payers[extra.payer],
                draft.number(extra.amount) if told and extra.amount is not None else "",
            ]
        )
    said = text(words.not_priced, "strong")
    if not rows:
        return [said]
    return [said, *subsection(words.as_stated, draft.width, [draft.table(columns, rows)])]
