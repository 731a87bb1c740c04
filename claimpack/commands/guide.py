"""`claimpack guide`: a page for each role, with commands that can be tried as they stand."""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

from claimpack.commands.desk.options import Json
from claimpack.commands.line.declared import Argument, Context

if TYPE_CHECKING:
    from claimpack.commands.desk.say import Say

GUIDES = Path(__file__).parent.parent / "guides"
ROLES = ("writer", "technician", "manager")
PAGES = (*ROLES, "scripts")


def guide(
    context: Context,
    role: Annotated[str, Argument(metavar="ROLE", help="writer, technician, manager or scripts.")] = "",
    json: Json = False,
) -> int:
    """Read the guide of a role: writer, technician, manager."""
    from claimpack.commands.desk.say import Say
    from claimpack.core.values.words import did_you_mean
    from claimpack.errors import BadInput
    from claimpack.file_contents import read_text

    say = Say(context.obj)
    if not role:
        if json:
            say.document({"guides": PAGES})
            return 0
        for each in PAGES:
            say.answer(f"claimpack guide {each}")
        return 0
    if role not in PAGES:
        raise BadInput(
            f"there is no guide for {role!r}", "A guide is for a role, or for scripts.", did_you_mean(role, PAGES)
        )
    text = read_text(GUIDES / f"{role}.md")
    lines = text.splitlines()
    if json:
        commands = [line for line in lines if line.startswith("claimpack ")]
        say.document({"guide": role, "commands": commands, "text": text})
        return 0
    if say.world.columns() is None:
        for line in lines:
            say.answer(line)
    else:
        _tell(say, lines)
    return 0


def _tell(say: Say, lines: Iterable[str]) -> None:
    """A guide on a screen: its paragraphs as wide as there is room, its commands set in, each to be copied whole."""
    from claimpack.commands.desk.wrapping import continued, hanging

    paragraph, is_code, room = "", False, say.world.width()
    for line in [*lines, ""]:
        is_fence = line.startswith("```")
        if is_code and not is_fence:
            for part in continued(line, room - 2) if line.startswith("claimpack ") else [line]:
                say.answer(f"  {part}")
        elif not line or line.startswith(("#", "- ", "```")):
            if paragraph:
                lead = "- " * paragraph.startswith("- ")
                say.answer(hanging(lead, paragraph.removeprefix(lead), room))
            paragraph = line if line.startswith("- ") else ""
            if not (paragraph or is_fence):
                say.answer(say.styled(line.lstrip("# "), "strong") if line else "")
        else:
            paragraph = f"{paragraph} {line.strip()}".strip()
        is_code ^= is_fence
