"""`claimpack help`: how a command is used; the same as a manual page."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence
from typing import TYPE_CHECKING, Annotated, Any

from claimpack.commands.desk.options import Json
from claimpack.commands.line.declared import Argument, Context, Option
from claimpack.errors import BadInput

if TYPE_CHECKING:
    from claimpack.commands.manual.described import Described


def help_of(
    context: Context,
    words: Annotated[
        list[str] | None, Argument(metavar="[COMMAND]…", help="The command's words; without them, all there is.")
    ] = None,
    man: Annotated[bool, Option("--man", help="Write the manual page of the program, for man(1).")] = False,
    json: Json = False,
) -> int:
    """Show how a command is used, or write the manual page."""
    from claimpack.commands.catalogue import overview
    from claimpack.commands.desk.say import Say
    from claimpack.commands.manual.described import as_help

    say = Say(context.obj)
    if json and man:
        raise BadInput("--man writes a page for man(1), which is no JSON", do="Give --json without --man.")
    if json:
        say.document(_as_json(words or ()))
        return 0
    if man:
        say.content(_page(context.obj.today()).encode())
        return 0
    told = as_help(_found(words)) if words else overview()
    for line in told.split("\n"):
        say.answer(line)
    return 0


def _as_json(words: Sequence[str]) -> dict[str, Any]:
    """How a command is used as scripts read it; every command there is, where no words are given."""
    from claimpack.commands.catalogue import GROUPS

    if not words:
        listed = [{"group": title, "command": each.name, "says": each.says} for title, some in GROUPS for each in some]
        return {"commands": listed}
    told = _found(words)
    return {
        **told._asdict(),
        **{name: [each._asdict() for each in getattr(told, name)] for name in ("arguments", "options", "commands")},
    }


def _found(words: Sequence[str]) -> Described:
    """The command that words lead to.

    Raises:
        NotFound: there is none; the nearest one is suggested.
    """
    from claimpack.commands.found import described_at, members_of
    from claimpack.core.values.words import did_you_mean
    from claimpack.errors import NotFound

    for place, word in enumerate(words):
        above = " ".join(words[:place])
        known = members_of(above)
        if word not in known:
            family = f"claimpack {above}".strip()
            why = f"{family} takes no further words." if not known else ""
            raise NotFound(f"there is no command {family} {word}", why, did_you_mean(word, known))
    return described_at(" ".join(words))


def _page(day: dt.date) -> str:
    from claimpack.commands.catalogue import ABOUT, EXITS, GROUPS
    from claimpack.commands.found import described_at, members_of
    from claimpack.commands.manual.man_page import man_page
    from claimpack.version import __version__

    groups = []
    for title, group in GROUPS:
        inside = {listed.name: members_of(listed.name) for listed in group}
        words = [f"{name} {each}".strip() for name, members in inside.items() for each in members or ("",)]
        groups.append((title, [described_at(each) for each in words]))
    return man_page(ABOUT, groups, EXITS, day, __version__)
