"""What a phone writes down, as the command line that writes it down; run as whoever started the session would."""

from __future__ import annotations

import io
import json
from collections.abc import Callable, Mapping, Sequence
from typing import TYPE_CHECKING, Any

from claimpack.errors import BadInput

if TYPE_CHECKING:
    from claimpack.book.book import Book
    from claimpack.commands.desk.world import World

CommandLine = tuple[str, ...]
"""A command line; what a phone told stands behind `--` or an equals sign, so that none of it is taken as an option."""


def written_by(action: str, number: str, told: Mapping[str, str], book: Book) -> CommandLine:
    """The command line that writes something down about a claim.

    Raises:
        BadInput: there is no such action, or it is about another claim.
    """
    if action not in _LINES:
        raise BadInput("the page asked for something that is not known")
    return _LINES[action](number, told, book)


def _start(number: str, told: Mapping[str, str], _book: Book) -> CommandLine:
    who = f"--technician={told.get('technician', '')}"
    return "labour", "start", "--json", who, "--", number, told.get("operation", "")


def _stop(number: str, told: Mapping[str, str], book: Book) -> CommandLine:
    who = told.get("technician", "")
    # the command stops whatever clock somebody has running, on whichever claim
    if not any(clock.technician == who and clock.claim == number for clock in book.clocks()):
        raise BadInput(f"{who} has no clock running on {number}")
    return "labour", "stop", "--json", f"--technician={who}"


def _finding(number: str, told: Mapping[str, str], _book: Book) -> CommandLine:
    limits = [f"--{name}={told[name]}" for name in ("low", "high") if told.get(name)]
    read = [told.get(name, "") for name in ("what", "value", "unit")]
    return "finding", "add", "--json", *limits, "--", number, *read


def _note(number: str, told: Mapping[str, str], _book: Book) -> CommandLine:
    return "note", "--json", "--", number, told.get("text", "")


def _shelf(number: str, told: Mapping[str, str], _book: Book) -> CommandLine:
    from claimpack.core.claims.part_codes import part_code

    code = part_code(told.get("code", ""))
    # a code names its claim itself, and that one may not be open on the page
    if code.claim != number:
        raise BadInput(f"{code} is no part of claim {number}")
    return "hold", "move", "--json", "--", str(code), told.get("shelf", "")


_LINES: Mapping[str, Callable[[str, Mapping[str, str], Book], CommandLine]] = {
    "start": _start,
    "stop": _stop,
    "finding": _finding,
    "note": _note,
    "shelf": _shelf,
}


def run(here: World, line: Sequence[str]) -> dict[str, Any]:
    """What a command answers in JSON; it runs as if it were typed by whoever started the session.

    Raises:
        ClaimpackError: as the command raises it.
        BadInput: what was told is nothing that the command takes.
    """
    from claimpack.commands.app import invoke
    from claimpack.commands.desk.world import World

    answer, messages = io.StringIO(), io.StringIO()
    world = World(io.StringIO(), answer, messages, here.environ, here.folder, here.clock)
    with world.closing:
        code = invoke(line, world)
    # only the command library answers so without raising: it has told what is wrong with the line, last of all why
    if code == BadInput.exit_code:
        raise BadInput(messages.getvalue().strip().splitlines()[-1])
    told: dict[str, Any] = json.loads(answer.getvalue())
    return told
