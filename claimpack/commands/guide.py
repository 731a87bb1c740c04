"""`claimpack guide`: a page for each role, with commands that can be tried as they stand."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

from claimpack.commands.line.declared import Argument, Context

GUIDES = Path(__file__).parent.parent / "guides"
ROLES = ("writer", "technician", "manager")
PAGES = (*ROLES, "scripts")


def guide(
    context: Context,
    role: Annotated[str, Argument(metavar="ROLE", help="writer, technician, manager or scripts.")] = "",
) -> int:
    """Read the guide of a role: writer, technician, manager."""
    from claimpack.commands.desk.say import Say
    from claimpack.core.values.words import did_you_mean
    from claimpack.errors import BadInput
    from claimpack.file_contents import read_text

    say = Say(context.obj)
    if not role:
        for each in PAGES:
            say.answer(f"claimpack guide {each}")
        return 0
    if role not in PAGES:
        raise BadInput(
            f"there is no guide for {role!r}", f"There is one for {', '.join(PAGES)}.", did_you_mean(role, PAGES)
        )
    for line in read_text(GUIDES / f"{role}.md").splitlines():
        say.answer(line)
    return 0
