"""Rows of a maker's statement matched to claims: by number, reference, serial, part returned; never by amount alone."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from decimal import Decimal

from claimpack.core.settlement.booking import matched
from claimpack.core.settlement.statement import (
    By,
    KnownClaim,
    Matched,
    RowsSaid,
    Statement,
    StatementMatch,
    StatementRow,
    Unknown,
    numbers_in,
)
from claimpack.core.values.money import ZERO, plain
from claimpack.core.values.words import run_on
from claimpack.errors import BadInput


def match(
    statement: Statement,
    known: Iterable[KnownClaim],
    by_amount: Mapping[Decimal, Sequence[str]],
    said: RowsSaid,
    anyway: str = "",
) -> Matched:
    """Every row with its claim, and what will be recorded of each claim; rows about none for certain are left.

    Args:
        statement: the statement.
        known: every claim that a number, a reference, a serial or a part of it may mean.
        by_amount: the numbers of the maker's claims that an amount is outstanding of.
        said: the claim of a row, where somebody says it.
        anyway: why more than is outstanding is taken.

    Source: common practice, no source.
    """
    index = _Index(known)
    rows_of: dict[str, list[StatementRow]] = {}
    how: dict[str, By] = {}
    unknown = []
    for row in (piece for whole in statement.rows for piece in _pieces(whole, said, index)):
        found = _said(row, index) if row.place in said else _claim_of(row, index, by_amount)
        # a row about nothing, as a heading or a subtotal of zero, need not be asked about
        if isinstance(found, Unknown) and not row.amount:
            continue
        if isinstance(found, Unknown):
            unknown.append(found)
            continue
        claim, by = found
        if claim.whose:
            do = "book it in its own folder, or every shop's at once with --all-shops"
            unknown.append(Unknown(row, f"{claim.number} is {claim.whose}: {do}"))
            continue
        rows_of.setdefault(claim.number, []).append(row)
        how.setdefault(claim.number, by)
    matches: list[StatementMatch] = [
        matched(statement, index.by_number[run_on(number)], tuple(rows), how[number], anyway)
        for number, rows in rows_of.items()
    ]
    return Matched(tuple(matches), tuple(unknown))


class _Index:
    """Claims by every word that a row may name them by."""

    def __init__(self, known: Iterable[KnownClaim]) -> None:
        self.by_number: dict[str, KnownClaim] = {}
        self.by_reference: dict[str, list[KnownClaim]] = {}
        self.by_serial: dict[str, list[KnownClaim]] = {}
        self.by_part: dict[str, list[KnownClaim]] = {}
        for claim in known:
            self.by_number[run_on(claim.number)] = claim
            for words, index in (
                ((claim.reference,), self.by_reference),
                (claim.serials, self.by_serial),
                (claim.parts, self.by_part),
            ):
                for word in words:
                    if word and claim.is_of_maker:
                        index.setdefault(word, []).append(claim)

    def called(self, name: str) -> list[KnownClaim]:
        """The claims that a number means: a maker's column may hold the shop's number, or its own."""
        word = run_on(name)
        claim = self.by_number.get(word)
        return [claim] if claim else self.by_reference.get(word, [])


_Found = tuple[KnownClaim, By] | Unknown


def _pieces(row: StatementRow, said: RowsSaid, index: _Index) -> list[StatementRow]:
    """A row as it is, or a row a claim where it pays several, whose amounts somebody says or all of which it pays.

    Raises:
        BadInput: the amounts that somebody says do not come to the row's.
    """
    if row.place in said:
        return _as_said(row, said[row.place])
    # a cell with several numbers is taken apart only where all that is outstanding of them is what was paid
    several = _several(row, index)
    owed = [claim.standing.outstanding for claim in several]
    if several and sum(owed, ZERO) == row.amount:
        return [row._replace(number=each.number, amount=part) for each, part in zip(several, owed, strict=True)]
    return [row]


def _as_said(row: StatementRow, said: Sequence[tuple[str, Decimal | None]]) -> list[StatementRow]:
    # what a person says goes before everything the row says
    named = row._replace(reference="", serial="", part="", same_as=0)
    if len(said) == 1 and said[0][1] is None:
        return [named._replace(number=said[0][0])]
    come = sum((amount or ZERO for _, amount in said), ZERO)
    if come != row.amount:
        raise BadInput(
            f"--row {row.place}: its parts come to {plain(come)}, and the row to {plain(row.amount)}",
            "Every cent of a row goes to one claim.",
            f"As in: --row {row.place}=CLAIM:AMOUNT,CLAIM:AMOUNT",
        )
    return [named._replace(number=number, amount=amount or ZERO) for number, amount in said]


def _several(row: StatementRow, index: _Index) -> list[KnownClaim]:
    """The claims of the maker that one cell names side by side; none where it names one alone, or one nobody knows."""
    names = numbers_in(row.number)
    # a claim's number may itself have a mark in it that parts numbers
    if len(names) < 2 or index.called(row.number):
        return []
    found = [claim for name in names if (claim := index.by_number.get(run_on(name))) and claim.is_of_maker]
    return found if len(found) == len(names) == len({claim.number for claim in found}) else []


def _said(row: StatementRow, index: _Index) -> _Found:
    claim = index.by_number.get(run_on(row.number))
    if claim is None:
        return Unknown(row, f"there is no claim {row.number}")
    return (claim, "said") if claim.is_of_maker else _of_another(row, claim)


def _of_another(row: StatementRow, claim: KnownClaim) -> Unknown:
    return Unknown(row, f"{claim.number} is a claim on {claim.maker}")


def _claim_of(row: StatementRow, index: _Index, by_amount: Mapping[Decimal, Sequence[str]]) -> _Found:
    """The one claim that everything a row names agrees on."""
    several = tuple(claim.number for claim in _several(row, index))
    if several:
        return Unknown(row, f"it pays {_side_by_side(several)}; how much of each is not said", several)
    named: list[tuple[By, str, list[KnownClaim]]] = [
        ("number", row.number, index.called(row.number)),
        ("reference", row.reference, index.called(row.reference)),
        ("serial", row.serial, index.by_serial.get(run_on(row.serial), [])),
        ("part", row.part, index.by_part.get(run_on(row.part), [])),
    ]
    found = [(by, claims) for by, word, claims in named if word and claims]
    if not found:
        return _by_amount_alone(row, by_amount, any(word for _, word, _ in named))
    # all that a row names must lead to one claim; where two things it names lead to different ones, neither is believed
    left = found[0][1]
    for by, claims in found[1:]:
        both = [claim for claim in left if claim in claims]
        if not both:
            return Unknown(
                row,
                f"its {found[0][0]} says {_numbers(left)}, its {by} {_numbers(claims)}",
                tuple(claim.number for claim in (*left, *claims)),
            )
        left = both
    return _one_of(row, found[0][0], left, astray=[by for by, word, claims in named[:2] if word and not claims])


def _one_of(row: StatementRow, by: By, left: list[KnownClaim], astray: list[By]) -> _Found:
    if len(left) == 1 and not left[0].is_of_maker:
        return _of_another(row, left[0])
    agrees = [claim for claim in left if _fits(row, claim)]
    # a serial or a part is no claim's own; with a number that nobody knows, the amount must agree as well
    must_fit = by == "part" or (by == "serial" and astray)
    if len(left) > 1 or must_fit:
        left = agrees
    if len(left) == 1:
        return left[0], by
    if not left:
        return Unknown(row, f"nothing that its {by} means has {abs(row.amount):f} outstanding")
    return Unknown(row, f"its {by} means {len(left)} claims", tuple(claim.number for claim in left))


def _fits(row: StatementRow, claim: KnownClaim) -> bool:
    if row.amount < 0:
        return claim.standing.paid >= -row.amount
    # nothing is what many claims have outstanding, and tells none of them apart
    return bool(row.amount) and claim.standing.outstanding == row.amount


def _by_amount_alone(row: StatementRow, by_amount: Mapping[Decimal, Sequence[str]], names: bool) -> Unknown:
    why = "no claim goes by what it names" if names else "it names no claim"
    # an amount alone is a hint and no match: two claims may well be owed the same
    return Unknown(row, why, tuple(by_amount.get(row.amount, ()))[:3])


def _side_by_side(names: Sequence[str]) -> str:
    return f"{', '.join(names[:-1])} and {names[-1]}"


def _numbers(claims: Sequence[KnownClaim]) -> str:
    return " or ".join(claim.number for claim in claims[:3])
