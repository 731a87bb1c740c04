"""`claimpack at-hand`: the claim that commands take where CLAIM is left out."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated

from claimpack.commands.desk.options import Json
from claimpack.commands.line.declared import Argument, Context, Option

if TYPE_CHECKING:
    from claimpack.commands.desk.desk import Desk


def at_hand(
    context: Context,
    claim: Annotated[str, Argument(metavar="CLAIM", help="The claim to have at hand.")] = "",
    none: Annotated[bool, Option("--none", help="Have none at hand.")] = False,
    json: Json = False,
) -> int:
    """Choose the claim that is meant where CLAIM is left out."""
    from claimpack.commands.desk.desk import Desk
    from claimpack.commands.desk.say import Say
    from claimpack.commands.typed.left_out import tell_at_hand
    from claimpack.errors import BadInput
    from claimpack.folder.at_hand import at_hand, put_away

    if claim and none:
        raise BadInput(f"{claim} and --none contradict each other", do="Leave one of them out.")
    desk, say = Desk(context.obj), Say(context.obj)
    if none:
        put_away(desk.home, context.obj.who())
    elif claim:
        have_at_hand(desk, claim)
    chosen = at_hand(desk.home, context.obj.who())
    if json:
        say.document({"claim": chosen.claim if chosen else None, "since": chosen.since.isoformat() if chosen else None})
    elif chosen:
        tell_at_hand(context.obj, chosen)
        say.answer(chosen.claim)
    else:
        say.note("No claim is at hand: claimpack at-hand CLAIM")
    return 0


def have_at_hand(desk: Desk, number: str) -> None:
    """Have a claim of the book at hand from now on.

    Raises:
        NotFound: there is no such claim.
    """
    from claimpack.commands.desk.one_claim import number_of
    from claimpack.folder.at_hand import take_at_hand

    found = desk.book.get(number_of(number))
    take_at_hand(desk.home, desk.world.who(), found.claim.number, desk.world.now())
