"""A maker's statement gathered with the claims it may be about, and matched."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple

from claimpack.errors import BadInput

if TYPE_CHECKING:
    from decimal import Decimal

    from claimpack.book.tables.entries import Entry
    from claimpack.commands.desk.desk import Desk
    from claimpack.core.settlement.booking import LeftOut
    from claimpack.core.settlement.statement import (
        KnownClaim,
        Matched,
        RowsSaid,
        Statement,
        StatementMatch,
        StatementRow,
    )
    from claimpack.core.steps.listed import ListedClaim
    from claimpack.lists.statement_columns import StatementColumns
    from claimpack.lists.statement_files import StatementRead


class StatementWanted(NamedTuple):
    """What somebody says of a statement: file, maker, memo, day, columns, rows, why more is taken, its currency.

    `once`: rows that say the same are one.
    """

    file: Path
    maker: str
    memo: str
    on: str
    columns: tuple[str, ...]
    rows: tuple[str, ...]
    anyway: str
    currency: str
    once: bool


class MatchedStatement(NamedTuple):
    """A statement matched: whose, how its file was read, the matches, and open claims of the maker not on it.

    `unread` tells what the terms of open claims are named by where they cannot be read: whether they wait for the maker
    nobody can say.
    """

    maker: str
    maker_name: str
    read: StatementRead
    known: StatementColumns | None
    kept: StatementColumns | None
    statement: Statement
    matched: Matched
    missing: tuple[ListedClaim, ...]
    unread: dict[str, str]

    @property
    def repeated(self) -> tuple[StatementRow, ...]:
        """The rows that say the same as one before them, and are not counted again."""
        return tuple(row for row in self.read.rows if row not in self.statement.rows)

    @property
    def left_out(self) -> list[LeftOut]:
        """The rows with money in them that will not be booked."""
        from claimpack.core.settlement.booking import LeftOut

        lost = [row for one in self.matched.matches if not one.events for row in one.rows if row.amount]
        rows = [*lost, *(one.row for one in self.matched.unknown)]
        return [LeftOut(row.place, row.amount, row.named) for row in sorted(rows, key=lambda row: row.place)]

    def keep_columns(self, desk: Desk) -> None:
        """Keep which column says what, for the next statement of this maker."""
        from claimpack.files import write_atomically
        from claimpack.folders import make_folders
        from claimpack.lists.statement_columns import StatementColumns, columns_text

        # a column that one file lacks may be in the next
        columns = {**(self.kept.columns if self.kept else {}), **self.read.columns}
        # a file that somebody edited is not written anew for nothing
        if self.known and self.known.columns == columns:
            return
        path = _columns_file(desk, self.maker)
        make_folders([path.parent])
        write_atomically(path, columns_text(StatementColumns(columns=columns), self.maker_name).encode())


def gathered(desk: Desk, wanted: StatementWanted) -> MatchedStatement:
    """Read a statement, look its claims up, and match them.

    Raises:
        BadInput: nobody knows the maker, the file cannot be read, or its memo has no number.
    """
    from claimpack.commands.desk.named_files import read_from
    from claimpack.core.plans.makers import is_maker_of
    from claimpack.core.settlement.matching import match
    from claimpack.folder.toml_files import read_record
    from claimpack.lists.statement_columns import StatementColumns, with_columns
    from claimpack.lists.statement_files import StatementReading, cells_of, read_statement

    desk.must_know_maker(wanted.maker)
    plan = next((plan for plan in desk.plans if is_maker_of(plan, wanted.maker)), None)
    maker, name = (plan.maker, plan.maker_name or plan.maker) if plan else (wanted.maker, wanted.maker)
    settings, kept = desk.shop.settings, _columns_file(desk, maker)
    known = read_record(StatementColumns, kept) if kept.is_file() else None
    currency = wanted.currency or settings.currency or (plan.currency if plan else "")
    path, file = read_from(desk.world, wanted.file, otherwise=".csv"), str(wanted.file)
    now, columns = with_columns(None, wanted.columns), with_columns(known, wanted.columns)
    reading = StatementReading(
        currency, settings.dates, desk.day, wanted.memo.strip(), tuple(now.columns) if now else ()
    )
    read = read_statement(cells_of(path, file), file, columns, reading)
    statement = _statement(desk, wanted, read, currency, path)
    claims = _known(desk, read.rows, _said(wanted.rows), maker)
    open_claims, unread = _open(desk, maker)
    # only to be hinted at: an amount alone books nothing
    by_amount: dict[Decimal, list[str]] = {}
    for claim in open_claims:
        by_amount.setdefault(claim.outstanding, []).append(claim.number)
    found = match(statement, claims, by_amount, _said(wanted.rows), wanted.anyway)
    on_it = {one.claim.number for one in found.matches}
    missing = tuple(claim for claim in open_claims if claim.number not in on_it)
    return MatchedStatement(maker, name, read, known, columns, statement, _with_reasons(desk, found), missing, unread)


def _columns_file(desk: Desk, maker: str) -> Path:
    import re

    from claimpack.core.values.words import folded
    from claimpack.lists.statement_files import FOLDER

    return desk.home / FOLDER / f"{re.sub(r'[^a-z0-9]+', '-', folded(maker)).strip('-') or 'maker'}.toml"


def _statement(desk: Desk, wanted: StatementWanted, read: StatementRead, currency: str, path: Path) -> Statement:
    from claimpack.commands.desk.options import a_date
    from claimpack.core.settlement.statement import Statement
    from claimpack.file_contents import content_hash

    memo = wanted.memo.strip() or read.memo
    if not memo:
        raise BadInput(
            f"{wanted.file} names no number of its memo",
            "Payments carry it, and by it the same statement is refused a second time.",
            "Say it: --memo NUMBER",
        )
    on = a_date(wanted.on, "--on") if wanted.on else desk.day
    mark = content_hash(path)
    # one file may hold several memos, each of which is booked once
    rows = tuple(row for row in read.rows if not (wanted.once and row.same_as))
    return Statement(memo, on, f"{mark} {memo}" if read.is_part else mark, currency, rows)


def _said(rows: tuple[str, ...]) -> RowsSaid:
    """The claims of each row that somebody names, as in `7=26-0041`, or `7=26-0041:100.00,26-0042:59.70`."""
    told: dict[int, list[tuple[str, Decimal | None]]] = {}
    for each in rows:
        place, _, claims = each.partition("=")
        if not (place.strip().isdecimal() and place.isascii() and claims.strip()):
            raise BadInput(f"--row: {each!r} names no row and claim", do="As in: --row 7=26-0041")
        told[int(place)] = [_of_row(each, one) for one in claims.split(",")]
    return told


def _of_row(row: str, said: str) -> tuple[str, Decimal | None]:
    from claimpack.core.values.money import exact

    number, colon, amount = (piece.strip() for piece in said.partition(":"))
    try:
        return number, exact(amount) if colon else None
    except ValueError as error:
        raise BadInput(f"--row: {row!r}: {error}", do="As in: --row 7=26-0041:100.00,26-0042:59.70") from None


def _known(desk: Desk, rows: tuple[StatementRow, ...], said: RowsSaid, maker: str) -> list[KnownClaim]:
    from claimpack.book.lookups import claims_called
    from claimpack.core.judging.claim_summary import maker_shown
    from claimpack.core.settlement.statement import KnownClaim, numbers_in
    from claimpack.core.values.words import folded, run_on

    # makers write numbers with words around them
    names = [name for row in rows for name in (row.number, *numbers_in(row.number), row.reference)]
    names += [number for claims in said.values() for number, _ in claims]
    serials = claims_called(desk.book.engine, names, [row.serial for row in rows], [row.part for row in rows])
    spelt = {folded(word) for word in desk.spellings(maker)}

    def known(entry: Entry) -> KnownClaim:
        own = {folded(entry.claim.maker), folded(entry.summary.maker), folded(entry.summary.maker_name)}
        return KnownClaim(
            number=entry.claim.number,
            is_of_maker=bool(spelt & own),
            maker=maker_shown(entry.claim, entry.summary),
            standing=entry.standing,
            revision=entry.revision,
            serials=serials[entry.claim.number],
            reference=run_on(entry.standing.reference),
            parts=tuple(run_on(held.number) for held in entry.claim.held if held.number),
            whose="" if desk.world.all_shops else desk.shops.other(entry.standing.shop),
        )

    return [known(entry) for entry in desk.book.entries(list(serials))]


def _open(desk: Desk, maker: str) -> tuple[list[ListedClaim], dict[str, str]]:
    """The claims of the maker that money is to come for, the longest filed first; those whose terms are unread."""
    from claimpack.book.tables.entries import Wanted
    from claimpack.commands.desk.terms_in_force import TermsInForce
    from claimpack.core.payment.payment_dates import payment_dates, turn
    from claimpack.core.plans.terms import unread_of

    rows = desk.book.claims(Wanted(states=("filed", "accepted", "refused"), maker=maker))
    in_force = TermsInForce(desk, None).by_claim((row.number, row) for row in rows if row.outstanding)
    waited_for = (
        row for row in rows if row.outstanding and turn(row, payment_dates(row, in_force.get(row.number))) == "maker"
    )
    return sorted(waited_for, key=lambda row: (str(row.filed), row.number)), unread_of(in_force)


def _with_reasons(desk: Desk, found: Matched) -> Matched:
    """What the difference of every claim that is short comes to, by the lines it was filed with."""
    from claimpack.core.settlement.short_pay import likely_reasons

    short = [one.claim.number for one in found.matches if one.kind == "short"]
    entries = {entry.claim.number: entry for entry in desk.book.entries(short)} if short else {}

    def told(one: StatementMatch) -> StatementMatch:
        entry = entries.get(one.claim.number)
        if entry is None:
            return one
        theirs, standing = desk.shops.desk_of(entry.standing.shop), entry.standing
        priced = theirs.assess(entry).price if theirs else None
        if priced is None or priced.amounts.claimed != standing.claimed:
            return one
        return one._replace(reasons=likely_reasons(priced.lines, one.difference, standing.currency))

    return found._replace(matches=tuple(told(one) for one in found.matches))
