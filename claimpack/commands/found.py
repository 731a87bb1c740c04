"""What a command is, found by its name: its function, what it says of itself, its subcommands."""

from __future__ import annotations

from functools import cache
from importlib import import_module
from typing import TYPE_CHECKING, Any

from claimpack.commands.catalogue import COMMANDS, Subcommand
from claimpack.commands.line.declared import Family

if TYPE_CHECKING:
    from claimpack.commands.manual.described import Described


BY_NAME = {listed.name: listed for listed in COMMANDS}
"""Every command as the list of commands has it, by its name."""


@cache
def found_at(listed: Subcommand) -> Any:
    """The function of a command, or its family."""
    module, _, attribute = listed.place.partition(":")
    return getattr(import_module(f"claimpack.commands.{module}"), attribute)


def described_at(words: str) -> Described:
    """A command or a family described, by the words that lead to it.

    Raises:
        KeyError: there is none.
    """
    from claimpack.commands.catalogue import events_of
    from claimpack.commands.manual.described import described, described_family

    first, _, second = words.partition(" ")
    listed = BY_NAME[first]
    found = found_at(listed)
    if not isinstance(found, Family):
        return described(found, words, events_of(listed))
    return described(found.members[second].function, words) if second else described_family(found, words)


def members_of(words: str) -> tuple[str, ...]:
    """The words that may follow words that lead to a command or a family; every command for none."""
    if not words:
        return tuple(BY_NAME)
    listed = BY_NAME.get(words)
    found = found_at(listed) if listed else None
    return tuple(found.members) if isinstance(found, Family) else ()
