"""`claimpack packet`: the PDF packet alone."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from claimpack.commands.desk.options import (
    ClaimArgument,
    Json,
    Layout,
    Limit,
    MakersForm,
    Originals,
    Plans,
    Sign,
    Today,
)

if TYPE_CHECKING:
    from claimpack.commands.desk.world import World


def packet(
    context: typer.Context,
    claim: ClaimArgument,
    out: Annotated[
        Path | None, typer.Option("--out", metavar="FILE", help="The PDF to write; default: NUMBER-packet.pdf.")
    ] = None,
    plans: Plans = None,
    layout: Layout = "",
    form: MakersForm = "",
    limit: Limit = "",
    sign: Sign = False,
    originals: Originals = None,
    today: Today = "",
    filed: Annotated[bool, typer.Option("--filed", help="The packet as it was filed, byte for byte.")] = False,
    version: Annotated[
        int, typer.Option("--version", metavar="N", help="With --filed: which filing, from 1; default: the last.")
    ] = 0,
    json: Json = False,
) -> int:
    """Write the PDF packet of a claim."""
    from claimpack.commands.desk.options import answering_beside, ending_of, write_named

    ending_of(out, (".pdf",), "The packet is a PDF, and under another name no portal would take it for one.")
    if filed or version:
        return _write_filed(context.obj, claim, version, out, json=json)
    from claimpack.commands.desk.gather import gather
    from claimpack.commands.desk.say import Say
    from claimpack.commands.desk.signing import the_key
    from claimpack.commands.folder.form_filling import form_in_front, front_of
    from claimpack.commands.folder.making import make_packet
    from claimpack.file_contents import hash_of

    say = Say(answering_beside(context.obj, out, json))
    case = gather(context.obj, claim, plans, today)
    key = the_key(say, case.shop, must=True) if sign else None
    filled, left_out = form_in_front(case, form)
    front = front_of(filled) if filled else None
    made = make_packet(case, say, layout, limit, key, originals=originals, front=front)
    path = context.obj.path(out or f"{case.assessment.claim.number}-packet.pdf")
    write_named(context.obj, path, made.pdf)
    for note in (*left_out, *made.notes):
        say.note(note)
    if json:
        say.document({"claim": case.assessment.claim.number, "file": str(path), "sha256": hash_of(made.pdf)})
    else:
        say.path(path)
    return case.assessment.exit_code


def _write_filed(world: World, claim: str, version: int, out: Path | None, *, json: bool) -> int:
    """Bring back the frozen packet of a filing; nothing is drawn anew."""
    from claimpack.commands.desk.desk import Desk
    from claimpack.commands.desk.one_claim import number_of
    from claimpack.commands.desk.options import answering_beside, write_named
    from claimpack.commands.desk.say import Say
    from claimpack.core.steps.filing import filing_of

    say, desk, number = Say(answering_beside(world, out, json)), Desk(world), number_of(claim)
    desk.book.get(number)
    event = filing_of(number, desk.book.history(number), version)
    sha256 = event.facts["packet"]
    path = world.path(out or f"{number}-packet.pdf")
    write_named(world, path, desk.vault.content(sha256, f"the packet filed on {event.on}"))
    if json:
        say.document({"claim": number, "file": str(path), "sha256": sha256, "filed": event.on.isoformat()})
    else:
        say.path(path)
    return 0
