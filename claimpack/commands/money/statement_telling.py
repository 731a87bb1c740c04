"""A matched statement told: its columns, every claim with what it comes to, the rows left over, what is missing."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from claimpack.core.values.numbers_said import how_many
from claimpack.core.values.words import some_of

if TYPE_CHECKING:
    from collections.abc import Sequence

    from claimpack.commands.desk.say import Say
    from claimpack.commands.money.statement_matching import MatchedStatement
    from claimpack.core.settlement.booking import BookedStatement, LeftOut
    from claimpack.core.settlement.statement import StatementMatch, StatementRow

_MOST_MISSING = 10


def show(say: Say, found: MatchedStatement) -> None:
    """Which column says what, where nobody said so before; then the claims and the rows that are left."""
    from claimpack.core.settlement.statement import numbers_in

    columns, known = found.read.columns, found.known
    is_new = known is None or any(known.columns.get(key) != heading for key, heading in columns.items())
    if is_new:
        say.heading(f"Columns of {found.maker_name}, kept once it is booked")
        say.table(list(columns.items()))
    gone = [
        heading for key, heading in (found.kept.columns if found.kept else {}).items() if key not in columns and heading
    ]
    if gone:
        say.quiet_item(f"not in this file: {', '.join(gone)}")
    left = [heading for heading in found.read.sheet.headings if heading not in columns.values()]
    # what a column is called may have changed, and money stand in it
    if left and (is_new or gone):
        say.quiet_item(f"not taken: {', '.join(left)}")
    say.heading(f"Memo {found.statement.memo} of {found.maker_name}: {how_many(len(found.statement.rows), 'row')}")
    _show_matches(say, found)
    for row in found.repeated:
        say.quiet_item(f"row {row.place} says the same as row {row.same_as}, and is counted once")
    for one in found.matched.unknown:
        perhaps = f"; perhaps {', '.join(one.perhaps)}" if one.perhaps else ""
        say.item(say.mark("unknown"), f"row {one.row.place}, {_named(one.row)}: {one.why}{perhaps}")
    if found.matched.unknown:
        first = found.matched.unknown[0].row
        say.note(f"To say which claim a row is about: --row {first.place}=CLAIM")
        if len(numbers_in(first.number)) > 1:
            say.note(f"Of several, each with its amount: --row {first.place}=CLAIM:AMOUNT,CLAIM:AMOUNT")


def _named(row: StatementRow | LeftOut) -> str:
    return f"{row.named}, {row.amount:,f}"


def _show_matches(say: Say, found: MatchedStatement) -> None:
    from claimpack.commands.screen.columns import ScreenColumn, Under, tell_columns
    from claimpack.core.values.money import coins, grouped

    matches, currency = found.matched.matches, found.statement.currency
    if not matches:
        return
    columns = [
        ScreenColumn("Row", [", ".join(str(row.place) for row in one.rows) for one in matches], right=True, most=12),
        ScreenColumn("Claim", [one.claim.number for one in matches]),
        ScreenColumn("Shop", [one.claim.standing.shop if say.world.all_shops else "" for one in matches]),
        ScreenColumn("By", [one.by for one in matches], lesser=2),
        ScreenColumn(
            "Outstanding", [grouped(coins(one.claim.standing.outstanding, currency)) for one in matches], right=True
        ),
        ScreenColumn("Paid", [grouped(coins(one.paid - one.charged_back, currency)) for one in matches], right=True),
        ScreenColumn("", [one.kind for one in matches]),
        ScreenColumn(
            "Difference",
            [grouped(coins(one.difference, currency)) if one.kind in ("short", "over") else "" for one in matches],
            right=True,
            lesser=1,
        ),
    ]
    tell_columns(say, columns, [Under(_MARKS.get(one.kind, ""), _why(one)) for one in matches], indent=0)


_MARKS = {"short": "todo", "over": "unknown", "charge-back": "fail", "cannot be booked": "unknown"}


def _why(one: StatementMatch) -> str:
    said = [f"the maker: {one.because}"] if one.because else []
    if one.kind == "short" and one.reasons and one.paid:
        said.append(f"it comes to {', or to '.join(one.reasons)}")
    elif one.reasons:
        said.append("; ".join(one.reasons))
    if one.kind == "over" and not one.events:
        said.append("more than is outstanding; to book it, say why: --anyway REASON")
    return "; ".join(said)


def told(say: Say, found: MatchedStatement, *, json: bool, booked: bool) -> int:
    """What was booked, or would be, and what is not on the statement; the exit code is done."""
    from claimpack.commands.desk.terms_in_force import tell_unread
    from claimpack.core.settlement.booking import total_of
    from claimpack.core.values.money import ZERO, in_money

    if json:
        say.document(_document(found, booked=booked, all_shops=say.world.all_shops))
        return 0
    matches = [one for one in found.matched.matches if one.events]
    said = f"{how_many(len(matches), 'claim')} {'booked' if booked else 'to book'}"
    left = f", {_left_said(found.left_out, found.statement.currency)}" if found.left_out else ""
    say.answer()
    say.answer(f"{said}, {total_of(matches, found.statement.currency)}{left}")
    if found.missing:
        numbers = some_of([one.number for one in found.missing], _MOST_MISSING)
        say.note(f"Waiting for the maker, but not on this statement: {numbers}.")
    tell_unread(say, found.unread)
    short = [one for one in matches if one.kind == "short"]
    if booked and short:
        number = short[0].claim.number if len(short) == 1 else "CLAIM"
        rest = in_money(sum((one.difference for one in short), ZERO), short[0].claim.standing.currency)
        names = some_of([one.claim.number for one in short], _MOST_MISSING)
        say.note(
            f"The rest of {names}, {rest}: claimpack chase {number}, or claimpack write-off {number} --because TEXT"
        )
    if booked and found.left_out:
        say.note("What was left out is told again by: claimpack statement --booked")
    if booked:
        every = " --all-shops" if say.world.all_shops else ""
        say.note(f"To take all of it back: claimpack statement --undo {found.statement.memo}{every}")
    return 0


def _left_said(left: Sequence[LeftOut], currency: str) -> str:
    """How many rows are left out, and what they come to."""
    from claimpack.core.values.money import ZERO, in_money

    come = in_money(sum((row.amount for row in left), ZERO), currency)
    return f"{how_many(len(left), 'row')} of {come} left out"


def tell_booked(say: Say, statements: Sequence[BookedStatement], *, json: bool) -> int:
    """The statements that are booked, with the rows that were left out of each; the exit code."""
    from claimpack.core.values.money import coins, in_money, plain

    if json:
        told = [
            {
                **one._asdict(),
                "on": one.on.isoformat(),
                "amount": plain(coins(one.amount, one.currency)),
                "left": [{**row._asdict(), "amount": plain(coins(row.amount, one.currency))} for row in one.left],
            }
            for one in statements
        ]
        say.document({"statements": told})
        return 0
    for one in statements:
        left = f", {_left_said(one.left, one.currency)}" if one.left else ""
        claims = how_many(len(one.claims), "claim")
        say.answer(f"{one.on}  memo {one.memo}: {claims}, {in_money(one.amount, one.currency)}{left}")
        for row in one.left:
            say.item(say.mark("unknown"), f"row {row.place}, {_named(row)}")
    if not statements:
        say.note("No statement is booked.")
    return 0


def _document(found: MatchedStatement, *, booked: bool, all_shops: bool) -> dict[str, Any]:
    from claimpack.core.plans.terms import claims_by_terms
    from claimpack.core.values.money import ZERO, coins, plain

    currency = found.statement.currency

    def money(amount: Any) -> str:
        return plain(coins(amount, currency))

    return {
        "memo": found.statement.memo,
        "maker": found.maker,
        "on": found.statement.on.isoformat(),
        "booked": booked,
        "currency": currency,
        "columns": found.read.columns,
        "counted_once": [row.place for row in found.repeated],
        "claims": [
            {
                "claim": one.claim.number,
                "kind": one.kind,
                "by": one.by,
                "rows": [row.place for row in one.rows],
                "paid": money(one.paid),
                "charged_back": money(one.charged_back),
                "outstanding": money(one.claim.standing.outstanding),
                "difference": money(one.difference),
                "reasons": list(one.reasons),
                "because": one.because,
                "books": bool(one.events),
                **({"shop": one.claim.standing.shop} if all_shops else {}),
            }
            for one in found.matched.matches
        ],
        "unknown": [
            {"row": one.row.place, "amount": money(one.row.amount), "why": one.why, "perhaps": list(one.perhaps)}
            for one in found.matched.unknown
        ],
        "left_out": money(sum((row.amount for row in found.left_out), ZERO)),
        "missing": [{"claim": one.number, "outstanding": money(one.outstanding)} for one in found.missing],
        "terms_unread": claims_by_terms(found.unread),
    }
