"""Files in the vault that no claim needs: left by programs that were killed, or by claims that were never kept."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from claimpack.core.values.numbers_said import how_many
from claimpack.core.values.words import some_lines

if TYPE_CHECKING:
    from claimpack.commands.desk.say import Say
    from claimpack.commands.desk.world import World
    from claimpack.evidence.vault import Vault
    from claimpack.shop import Shop

_MOST = 12


def orphans_in(world: World, shop: Shop) -> Sequence[Path | str]:
    """Files in the vault that the book does not name, by name; nothing where the vault cannot be written anyway."""
    from claimpack.book.keeping.moving import content_named
    from claimpack.commands.desk.gather import the_book, the_vault
    from claimpack.errors import CannotWrite

    try:
        return the_vault(world, shop).orphans(content_named(the_book(world, shop)))
    # nothing could be taken away there anyway
    except CannotWrite:
        return []


def sweep_orphans(say: Say, vault: Vault, orphans: Sequence[Path | str], *, yes: bool) -> bool:
    """Take them away where the user agrees, since another book may keep its files in the same vault; whether they went.

    Raises:
        CannotWrite: the vault cannot be written.
    """
    from claimpack.commands.talk.yes_or_no import agrees

    count = how_many(len(orphans), "file")
    if not orphans or not agrees(say, f"Does no other book use this vault, so that {count} can go?", yes):
        return False
    vault.sweep(orphans)
    return True


def tell_orphans(say: Say, orphans: Sequence[Path | str], *, swept: bool) -> None:
    """Name them, beside the answer: a vault with more in it than is needed is whole."""
    if not orphans:
        return
    count = f"{how_many(len(orphans), 'file')} in the vault that no claim needs"
    say.note(f"{count}: removed." if swept else f"{count}; take them away with: claimpack shop verify --sweep")
    for line in some_lines([f"  {path}" for path in orphans], _MOST):
        say.note(line)
