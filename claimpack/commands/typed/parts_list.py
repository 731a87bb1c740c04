"""A part looked up in its maker's parts list, as the commands of the bench do it."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from claimpack.errors import BadInput

if TYPE_CHECKING:
    from claimpack.commands.desk.desk import Desk
    from claimpack.core.claims.parts_list_row import PartsListRow


def looked_up(desk: Desk, claim: str, number: str) -> PartsListRow | None:
    """A part in the parts list of a claim's maker; None where there is no list, or it does not have the part.

    Raises:
        NotFound: there is no such claim.
        BadInput: the list cannot be read.
    """
    return in_list_of(desk, desk.book.get(claim).claim.maker, number)


def in_list_of(desk: Desk, maker: str, number: str) -> PartsListRow | None:
    """A part in a maker's parts list.

    Raises:
        BadInput: the list cannot be read.
    """
    from claimpack.commands.desk.say import Say
    from claimpack.lists.parts_lists import listed_part, parts_list_of

    path = parts_list_of(desk.home, desk.spellings(maker))
    tell = Say(desk.world).note_once
    return listed_part(path, number, desk.shop.settings.currency or "", tell) if path else None


def must_have_a_name(keys: dict[str, Any], name: str) -> None:
    """Refuse a part that neither the user nor the list has a name for.

    Raises:
        BadInput: it has none.
    """
    if not keys.get("name"):
        raise BadInput(
            f"{name} is missing: what is part {keys['number']}?",
            "No parts list of its maker has that number: parts/MAKER.csv in the shop's folder.",
            f"Say what it is after the number, as in: {keys['number']} 'ignition coil'",
        )
