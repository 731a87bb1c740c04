"""`claimpack statement`: many claims that a maker pays with one credit memo or transfer, matched and booked at once."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

from claimpack.commands.desk.options import Because, Json, On, Today, Yes
from claimpack.commands.line.declared import Argument, Context, Option
from claimpack.core.values.numbers_said import how_many
from claimpack.errors import BadInput, NotFound, WrongState

if TYPE_CHECKING:
    from collections.abc import Sequence

    from claimpack.commands.desk.desk import Desk
    from claimpack.commands.desk.say import Say
    from claimpack.core.settlement.booking import LeftOut
    from claimpack.core.settlement.statement import Matched, Statement


def statement(
    context: Context,
    file: Annotated[
        Path | None,
        Argument(metavar="FILE", help="The statement: .csv, .xlsx, or a PDF of text."),
    ] = None,
    maker: Annotated[str, Option("--maker", metavar="ID", help="Whose statement it is.")] = "",
    memo: Annotated[
        str,
        Option("--memo", metavar="NUMBER", help="Its number; default: as the file has it."),
    ] = "",
    on: On = "",
    column: Annotated[
        list[str] | None,
        Option("--column", metavar="KEY=HEADING", help="Which column says what, kept for this maker."),
    ] = None,
    row: Annotated[
        list[str] | None,
        Option("--row", metavar="N=CLAIM", help="Which claim a row is about; of several, N=CLAIM:AMOUNT,CLAIM:AMOUNT."),
    ] = None,
    currency: Annotated[
        str,
        Option(metavar="CODE", help="The currency of its amounts; default: the shop's."),
    ] = "",
    leave_out: Annotated[bool, Option("--leave-out", help="Book the others where some rows cannot be booked.")] = False,
    once: Annotated[bool, Option("--once", help="Count rows that say the same only once.")] = False,
    anyway: Annotated[str, Option(metavar="REASON", help="Book more than is outstanding too.")] = "",
    dry_run: Annotated[bool, Option("--dry-run", help="Show the matches and book nothing.")] = False,
    undo: Annotated[str, Option("--undo", metavar="MEMO", help="Take a booked statement back, whole.")] = "",
    booked: Annotated[bool, Option("--booked", help="List booked statements and the rows left out of each.")] = False,
    because: Because = "",
    yes: Yes = False,
    today: Today = "",
    json: Json = False,
) -> int:
    """Book a maker's statement, which pays many claims at once.

    Rows go to claims by number, the maker's reference, serial, and part returned; all is booked, or nothing.
    """
    from claimpack.commands.desk.desk import Desk
    from claimpack.commands.desk.say import Say
    from claimpack.commands.money.statement_matching import StatementWanted, gathered
    from claimpack.commands.money.statement_telling import show, told
    from claimpack.commands.talk.yes_or_no import agrees

    desk, say = Desk(context.obj, today), Say(context.obj)
    if booked:
        return _booked(desk, say, json=json)
    if undo:
        return _undo(desk, say, undo, maker, because, yes=yes, json=json)
    if file is None or not maker:
        raise BadInput(
            f"{'FILE' if file is None else '--maker'} is missing",
            "Claims are matched with those of one maker.",
            "As in: claimpack statement memo.csv --maker halden; to take one back: claimpack statement --undo MEMO",
        )
    wanted = StatementWanted(
        file, maker, memo, on, tuple(column or ()), tuple(row or ()), anyway, _code(currency), once
    )
    with say.progress("Matching", 1) as advance:
        found = gathered(desk, wanted)
        advance()
    # before it is shown: the matches of a statement booked already would all look odd
    _refuse_twice(desk, found.statement, found.maker)
    if not json:
        show(say, found)
    left, to_book = found.left_out, [one for one in found.matched.matches if one.events]
    if dry_run or not to_book:
        return told(say, found, json=json, booked=False) or (4 if left else 0)
    # nobody is there to be asked, and money left out unseen is lost
    if left and not leave_out and (yes or json):
        told(say, found, json=json, booked=False)
        say.note(f"Nothing was booked: {how_many(len(left), 'row')} would be left out. To leave them out: --leave-out")
        return 4
    but = f", and leave {how_many(len(left), 'row')} out" if left else ""
    if not agrees(say, f"Book {how_many(len(to_book), 'claim')}{but}?", yes, json=json):
        return 4
    _book(desk, found.matched, left)
    found.keep_columns(desk)
    return told(say, found, json=json, booked=True)


def _code(said: str) -> str:
    """A currency as its code.

    Raises:
        BadInput: it is none.
    """
    from claimpack.core.values.money import minor_unit

    code = said.strip().upper()
    if code:
        minor_unit(code)
    return code


def _refuse_twice(desk: Desk, statement: Statement, maker: str) -> None:
    """Refuse a statement that is booked: the maker's memo of that number, or the same file.

    Raises:
        WrongState: with how to take it back.
    """
    from claimpack.core.settlement.booking import booked_of

    for fact, said in (("memo", statement.memo), ("statement", statement.mark)):
        for entry in desk.book.entries(_claims_told(desk, fact, said)):
            # two makers may number their memos alike; one file is one file
            by_memo = fact == "memo" and maker in (entry.summary.maker, entry.claim.maker)
            own = booked_of(entry.standing, said if by_memo else "", said if fact == "statement" else "").payments
            if own:
                raise WrongState(
                    f"memo {own[0].memo} is already booked, on {own[0].on}"
                    + ("" if fact == "memo" else f"; this is the same file as that of memo {own[0].memo}"),
                    "Booked twice, it would count twice.",
                    f"See: claimpack history {entry.claim.number}; to take it back: "
                    f"claimpack statement --undo {own[0].memo}",
                )


def _claims_told(desk: Desk, fact: str, said: str) -> list[str]:
    return sorted({event.claim for event in desk.book.told(fact, said)})


def _booked(desk: Desk, say: Say, *, json: bool) -> int:
    """Every statement that is booked and stands."""
    from claimpack.commands.money.statement_telling import tell_booked
    from claimpack.core.settlement.booking import booked_statements

    events = desk.book.told("statement")
    entries = desk.book.entries(sorted({event.claim for event in events}))
    standings = {entry.claim.number: entry.standing for entry in entries}
    return tell_booked(say, booked_statements(standings, events), json=json)


def _book(desk: Desk, matched: Matched, left: Sequence[LeftOut]) -> None:
    """Record every match in one transaction, the first with the rows that are left out.

    Raises:
        WrongState: a claim was changed meanwhile.
    """
    from claimpack.core.settlement.booking import with_left_out

    found = {one.claim.number: one for one in matched.matches if one.events}
    first = next(iter(found))
    with desk.changing_all(list(found)) as changings:
        for changing in changings:
            match = found[changing.claim.number]
            # matched without the lock, which nobody holds while a person reads
            if changing.entry.revision != match.claim.revision:
                raise WrongState(f"claim {changing.claim.number} was changed meanwhile", do="Try again.")
            changing.record(*with_left_out(match.events, left if match.claim.number == first else ()))


def _undo(desk: Desk, say: Say, memo: str, maker: str, because: str, *, yes: bool, json: bool) -> int:
    """Take back everything that was booked with a memo.

    Raises:
        NotFound: nothing is booked with it.
        WrongState: money moved since on one of its claims.
    """
    from claimpack.commands.talk.yes_or_no import agrees
    from claimpack.core.settlement.booking import booked_of, undoing

    spelt = {word.casefold() for word in desk.spellings(maker)} if maker else set()
    numbers: Sequence[str] = [
        entry.claim.number
        for entry in desk.book.entries(_claims_told(desk, "memo", memo))
        if booked_of(entry.standing, memo).payments
        and (not spelt or spelt & {entry.claim.maker.casefold(), entry.summary.maker.casefold()})
    ]
    if not numbers:
        raise NotFound(f"no statement is booked with memo {memo}", do="Its number is told in: claimpack history")
    makers = {entry.summary.maker or entry.claim.maker for entry in desk.book.entries(numbers)}
    if len(makers) > 1:
        raise BadInput(f"memo {memo} is one of {' and of '.join(sorted(makers))}", do="Say whose: --maker ID")
    if not agrees(say, f"Take {how_many(len(numbers), 'claim')} of memo {memo} back?", yes, json=json):
        return 4
    why = because or f"memo {memo} taken back"
    with desk.changing_all(numbers) as changings:
        for changing in changings:
            changing.record(*undoing(changing.history, memo, desk.day, why))
    if json:
        say.document({"undone": memo, "claims": list(numbers)})
        return 0
    say.answer(f"{how_many(len(numbers), 'claim')} of memo {memo} taken back; the statement may be booked again")
    return 0
