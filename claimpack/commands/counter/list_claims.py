"""`claimpack list`: the claims of the book, the latest first."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated

from claimpack.commands.desk.options import Json, Today
from claimpack.commands.line.declared import Context, Option
from claimpack.core.values.numbers_said import how_many

if TYPE_CHECKING:
    from collections.abc import Sequence


def list_claims(
    context: Context,
    state: Annotated[list[str] | None, Option(metavar="STATE", help="As in filed; repeatable.")] = None,
    maker: Annotated[str, Option(help="Of one maker.")] = "",
    still_open: Annotated[bool, Option("--open", help="Not settled yet; this is the default.")] = False,
    every: Annotated[bool, Option("--all", help="Settled and withdrawn ones too.")] = False,
    limit: Annotated[int, Option(min=0, metavar="N", help="Show at most so many; 0 shows all.")] = 30,
    today: Today = "",
    json: Json = False,
) -> int:
    """List claims, the latest first."""
    from claimpack.book.tables.entries import Wanted
    from claimpack.commands.desk.desk import Desk
    from claimpack.commands.desk.say import Say
    from claimpack.commands.screen.listing import tell_claims
    from claimpack.core.events.states import OPEN
    from claimpack.errors import BadInput

    if sum((bool(state), still_open, every)) > 1:
        raise BadInput("--state, --open and --all are three ways to choose; give one of them")
    states = _states(state or ())
    chosen = states or (() if every else OPEN)
    wanted = Wanted(chosen, refused_rest=not (states or every), maker=maker, limit=limit or None)
    say, desk = Say(context.obj), Desk(context.obj, today)
    desk.must_know_maker(maker)
    shown, count = tell_claims(say, desk, wanted, json=json)
    if not json:
        kind = f"{' or '.join(states)} " if states else "" if every else "open "
        which = f"{how_many(count, kind + 'claim')}{f' of {maker}' if maker else ''}"
        more = "All: add --limit 0" if every or states else "All: add --limit 0; settled ones too: add --all"
        say.note(f"{shown} of {which}, the latest first. {more}." if shown < count else f"{which}.")
    return 0


def _states(written: Sequence[str]) -> tuple[str, ...]:
    """States by their names, `written-off` as well as `written off`.

    Raises:
        BadInput: there is no such state.
    """
    from typing import get_args

    from claimpack.core.events.states import State
    from claimpack.core.values.words import did_you_mean, folded
    from claimpack.errors import BadInput

    known = {folded(name): str(name) for name in get_args(State)}
    for word in written:
        if folded(word) not in known:
            raise BadInput(f"--state: {word!r} is no state of a claim", do=did_you_mean(word, known.values()))
    return tuple(known[folded(word)] for word in written)
