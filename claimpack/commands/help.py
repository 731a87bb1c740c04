"""`claimpack help`: how a command is used; the same as a manual page."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING, Annotated, Any

import typer

if TYPE_CHECKING:
    from claimpack.commands.manual.described import Described


def help_of(
    context: typer.Context,
    words: Annotated[
        list[str] | None, typer.Argument(metavar="[COMMAND]…", help="The command's words; without them, all there is.")
    ] = None,
    man: Annotated[bool, typer.Option("--man", help="Write the manual page of the program, for man(1).")] = False,
) -> int:
    """Show how a command is used, or write the manual page."""
    from claimpack.commands.catalogue import overview
    from claimpack.commands.desk.say import Say
    from claimpack.commands.manual.described import as_help, described

    say, program = Say(context.obj), context.find_root().command
    if man:
        say.content(_page(context, program).encode())
        return 0
    told = as_help(described(_found(program, words), " ".join(words))) if words else overview()
    for line in told.split("\n"):
        say.answer(line)
    return 0


def _found(program: Any, words: Sequence[str]) -> Any:
    """The command that words lead to.

    Raises:
        NotFound: there is none; the nearest one is suggested.
    """
    from claimpack.core.values.words import did_you_mean
    from claimpack.errors import NotFound

    found = program
    for place, word in enumerate(words):
        known = getattr(found, "commands", {})
        if word not in known:
            family = " ".join(("claimpack", *words[:place]))
            why = f"{family} takes no further words." if not known else ""
            raise NotFound(f"there is no command {family} {word}", why, did_you_mean(word, known))
        found = known[word]
    return found


def _page(context: typer.Context, program: Any) -> str:
    from claimpack import __version__
    from claimpack.commands.catalogue import ABOUT, EXITS, GROUPS
    from claimpack.commands.manual.man_page import man_page

    groups = [
        (title, [one for listed in group for one in _all_of(program.commands[listed.name], listed.name)])
        for title, group in GROUPS
    ]
    return man_page(ABOUT, groups, EXITS, context.obj.today(), __version__)


def _all_of(command: Any, words: str) -> Iterator[Described]:
    """A command, or every command of a family."""
    from claimpack.commands.manual.described import described

    inner = getattr(command, "commands", {})
    if not inner:
        yield described(command, words)
    for name, each in inner.items():
        yield from _all_of(each, f"{words} {name}")
