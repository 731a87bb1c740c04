"""One command line run: found, read and answered; what is wrong with it, the command library tells."""

from __future__ import annotations

import contextlib
from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

from claimpack.commands.desk.outlet import Outlet
from claimpack.commands.found import BY_NAME, described_at, found_at
from claimpack.commands.line.declared import Context, Family
from claimpack.commands.line.parameters import Parameter, parameters_of, takes_context
from claimpack.commands.line.reading import HELP, Typed, typed, with_words
from claimpack.commands.line.shells import ASKED, Completion, asked, told
from claimpack.errors import ClaimpackError

if TYPE_CHECKING:
    from claimpack.commands.desk.world import World
    from claimpack.commands.manual.described import Described


def invoke(arguments: Sequence[str], world: World) -> int:
    """Run one command in a world and return its exit code; usage errors are told on stderr and give 2."""
    question = asked(world.environ)
    if question:
        return _complete(question, world)
    code = None if ASKED in world.environ else _run(arguments, world)
    if code is not None:
        return code
    from claimpack.commands.library import run_by_library

    return run_by_library(arguments, world)


def _complete(question: Completion, world: World) -> int:
    """Tell a shell what may come next."""
    from claimpack.commands.line.completing import Offer, offers
    from claimpack.commands.manual.described import EVERYWHERE
    from claimpack.commands.typed.everywhere import in_world, taken_out
    from claimpack.commands.typed.shop_words import ShopWords

    commands = {name: listed.says for name, listed in BY_NAME.items()}
    everywhere = [Offer(word.partition(" ")[0], says) for word, says in EVERYWHERE]
    typed_before = taken_out(question.words)
    # of a folder that is no shop a shell can tell nobody
    with contextlib.suppress(ClaimpackError):
        world = in_world(world, typed_before)
    words, known = typed_before.arguments, ShopWords(world)
    is_folder = typed_before.shop == ""
    found = (
        []
        if is_folder
        else offers(words, question.begun, commands, lambda name: found_at(BY_NAME[name]), known, everywhere)
    )
    answer, code = told(question.shell, found, world.environ.get("_TYPER_COMPLETE_FISH_ACTION", ""))
    if answer:
        Outlet(world.stdout).write(f"{answer}\n")
    return code


def _run(arguments: Sequence[str], world: World) -> int | None:
    """The exit code of a command that was typed as it is declared; None where it was not."""
    listed = BY_NAME.get(arguments[0]) if arguments else None
    if listed is None:
        return None
    found, line = found_at(listed), list(arguments[1:])
    if isinstance(found, Family):
        member = line[0] if line and line[0] in found.members else found.default
        if line and line[0] in HELP:
            return _show(world, described_at(listed.name))
        if member not in found.members:
            return None
        words, function = f"{listed.name} {member}", found.members[member].function
        line = line[1:] if line and line[0] == member else line
    else:
        words, function = listed.name, found
    parameters = parameters_of(function)
    read = typed(parameters, line)
    if read is None:
        return None
    if read.asks_for_help:
        return _show(world, described_at(words))
    values = _as_meant(world, words, parameters, read, line)
    if values is None:
        return None
    with contextlib.redirect_stdout(Outlet(world.stdout)), contextlib.redirect_stderr(world.stderr):
        try:
            return int(function(**({"context": Context(world)} if takes_context(function) else {}), **values) or 0)
        except EOFError:
            raise KeyboardInterrupt from None


def _as_meant(
    world: World, words: str, parameters: Sequence[Parameter], read: Typed, line: Sequence[str]
) -> dict[str, Any] | None:
    """What was typed, as it is meant: CLAIM where it was left out, days and amounts in the shop's own writing."""
    from claimpack.commands.typed.as_written import AMOUNT, DAY, options_as_meant
    from claimpack.commands.typed.claim_left_out import may_leave_claim_out, places_of, with_claim

    places = places_of(parameters)
    if may_leave_claim_out(words.rpartition(" ")[2], places, line):
        read = read._replace(words=with_claim(world, places, read.words))
    values = with_words(parameters, read)
    if values is not None:
        kinds = {each.name: (each.declared.metavar, each.written) for each in parameters}
        options_as_meant(world, values, {name: kind for name, kind in kinds.items() if kind[0] in (DAY, AMOUNT)})
    return values


def _show(world: World, described: Described) -> int:
    from claimpack.commands.desk.paged import paged
    from claimpack.commands.desk.say import Say
    from claimpack.commands.manual.described import as_help

    with paged(world) as shown:
        for line in as_help(described).split("\n"):
            Say(shown).answer(line)
    return 0
