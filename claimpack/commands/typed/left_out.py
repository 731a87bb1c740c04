"""CLAIM left out: the claim at hand stands in, told in every answer; never where another may be meant."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from claimpack.errors import NotFound

if TYPE_CHECKING:
    from collections.abc import Sequence
    from pathlib import Path

    from claimpack.book.tables.entries import Entry
    from claimpack.commands.desk.world import World
    from claimpack.folder.at_hand import AtHand

_LOOKALIKES = str.maketrans("OoIl", "0011")
_USUAL_FORM = "9-9"
_SETTLED = ("paid", "written off", "withdrawn")


def number_left_out(world: World, words: Sequence[str], most: int | None, *, before_a_part: bool) -> str:
    """The number of the claim at hand, where the words of a command leave out its CLAIM; empty where they do not.

    Args:
        world: the world of the command.
        words: what was typed but options.
        most: how many words the command takes with its CLAIM; None for any number.
        before_a_part: a part's number follows CLAIM in the command.

    Raises:
        NotFound: the first word looks like a claim's number, and the book has no such claim.
    """
    first = words[0] if words else ""
    # Nearly every run names its claim, and must not wait for the shop to be looked for.
    if (most is not None and len(words) + 1 > most) or _is_a_folder(world, first):
        return ""
    shop = shop_folder(world)
    if shop is None:
        return ""
    from claimpack.folder.at_hand import at_hand

    chosen = at_hand(shop, world.who())
    if chosen is None:
        return ""
    is_part = before_a_part and _is_part(world, first, chosen.claim)
    if not is_part and _is_another(world, first, chosen.claim, before_a_part=before_a_part):
        return ""
    tell_at_hand(world, chosen)
    return chosen.claim


def shop_folder(world: World) -> Path | None:
    """The folder of the shop one stands in, or that is named; None where there is none."""
    from pathlib import Path

    from claimpack.folder.shop_folder import shop_above

    named = world.environ.get("CLAIMPACK_SHOP", "")
    return Path(named) if named else shop_above(world.folder)


def _is_a_folder(world: World, word: str) -> bool:
    """Whether a word is meant for a claim folder; a picture or a paper has a path as well."""
    from claimpack.commands.desk.gather import is_folder

    return bool(word) and is_folder(world, word) and (word.endswith("claim.toml") or not world.path(word).is_file())


def _is_part(world: World, word: str, chosen: str) -> bool:
    """Whether a word is the number of a part that the claim at hand has, or its maker's parts list; no claim has it."""
    from claimpack.commands.desk.desk import Desk
    from claimpack.commands.typed.parts_list import in_list_of
    from claimpack.core.values.words import run_on

    entry = _entry(world, chosen)
    if entry is None or not word or _entry(world, word):
        return False
    on_it = {
        run_on(number) for number in (entry.claim.failure.part.number, *(part.number for part in entry.claim.parts))
    }
    return run_on(word) in on_it or in_list_of(Desk(world), entry.claim.maker, word) is not None


def _is_another(world: World, word: str, chosen: str, *, before_a_part: bool) -> bool:
    """Whether a word names a claim itself.

    Raises:
        NotFound: it looks as if it should.
    """
    if not word or world.path(word).is_file():
        return False
    if _entry(world, word):
        return True
    if _form(word) in (_form(chosen), _USUAL_FORM):
        raise NotFound(
            f"there is no claim {word}",
            "It looks like a claim's number, so nothing was done with the claim at hand.",
            f"Correct it; if it is a part's number, name the claim before it: {chosen} {word} …"
            if before_a_part
            else "Correct it, or see which claims there are: claimpack list",
        )
    return False


def _form(word: str) -> str:
    """How a word looks: runs of digits and of letters, with the marks between."""
    digits = re.sub(r"\d+", "9", word.translate(_LOOKALIKES))
    return re.sub(r"[A-Za-z]+", "A", digits)


def _entry(world: World, number: str) -> Entry | None:
    from claimpack.commands.desk.gather import the_book

    return next(the_book(world).entries([number]), None)


def tell_at_hand(world: World, chosen: AtHand) -> None:
    """Which claim is at hand, whose, since when if not of today, and whether it is settled.

    Raises:
        NotFound: the book has no such claim.
    """
    from claimpack.commands.desk.say import Say
    from claimpack.core.judging.claim_summary import maker_shown
    from claimpack.core.payment.ledger import state_in_words
    from claimpack.core.values.numbers_said import how_many

    entry = _entry(world, chosen.claim)
    if entry is None:
        raise NotFound(
            f"the claim at hand, {chosen.claim}, is not in the book",
            "Another book may be in use than when it was chosen.",
            "Choose another: claimpack at-hand CLAIM",
        )
    claim = entry.claim
    days = (world.today() - chosen.since.date()).days
    parts = (
        f"Claim at hand: {claim.number}",
        claim.owner.name,
        f"{maker_shown(claim, entry.summary)} {claim.unit.model}",
        f"{state_in_words(entry.standing).upper()}" if entry.standing.state in _SETTLED else "",
        f"chosen {how_many(days, 'day')} ago: is it still the one?" if days > 0 else "",
    )
    Say(world).note_once(", ".join(part for part in parts if part))
