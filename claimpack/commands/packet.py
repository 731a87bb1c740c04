"""`claimpack packet`: the PDF packet alone."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from claimpack.commands.options import ClaimArgument, Json, Layout, Limit, Plans, Today


def packet(
    context: typer.Context,
    claim: ClaimArgument,
    out: Annotated[
        Path | None, typer.Option("--out", metavar="FILE", help="The PDF to write; default: NUMBER-packet.pdf.")
    ] = None,
    plans: Plans = None,
    layout: Layout = "",
    limit: Limit = "",
    today: Today = "",
    json: Json = False,
) -> int:
    """Write the PDF packet of a claim."""
    from claimpack.commands.gather import gather
    from claimpack.commands.making import make_packet
    from claimpack.commands.say import Say
    from claimpack.files import hash_of, write_atomically

    say = Say(context.obj)
    case = gather(context.obj, claim, plans, today)
    made = make_packet(case, say, layout, limit)
    path = context.obj.folder / (out or f"{case.assessment.claim.number}-packet.pdf")
    write_atomically(path, made.pdf)
    for note in made.notes:
        say.note(note)
    if json:
        say.document({"claim": case.assessment.claim.number, "file": str(path), "sha256": hash_of(made.pdf)})
    else:
        say.answer(str(path))
    return case.assessment.exit_code
