"""`claimpack build`: the main job, a claim folder to a packet, tags and data."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

from claimpack.commands.desk.options import (
    ClaimArgument,
    Json,
    Layout,
    Limit,
    MakersForm,
    Originals,
    Plans,
    Sign,
    Stock,
    Today,
    WrittenFor,
)
from claimpack.commands.line.declared import Context, Option


def build(
    context: Context,
    claim: ClaimArgument,
    out: Annotated[Path | None, Option("--out", metavar="DIR", help="Where to; default: the claim's number.")] = None,
    plans: Plans = None,
    layout: Layout = "",
    stock: Stock = "",
    form: MakersForm = "",
    reader: WrittenFor = None,
    limit: Limit = "",
    sign: Sign = False,
    originals: Originals = None,
    today: Today = "",
    json: Json = False,
) -> int:
    """Write a claim's packet, tags and data."""
    from claimpack.commands.desk.gather import gather
    from claimpack.commands.desk.say import Say
    from claimpack.commands.folder.making import claim_data, make_tags
    from claimpack.commands.folder.packet_making import make_packet_and_form
    from claimpack.commands.outgoing.signing import the_key
    from claimpack.commands.screen.telling import tell_summary
    from claimpack.core.judging.assessment_json import as_json
    from claimpack.files import write_folder

    say = Say(context.obj)
    case = gather(context.obj, claim, plans, today)
    folder = context.obj.path(out or case.assessment.claim.number)
    # before minutes are spent on drawing: the passphrase may be wrong
    key = the_key(say, case.shop, must=True) if sign else None
    packet, filled = make_packet_and_form(case, say, form, layout, limit, key, originals, reader)
    tags = make_tags(case, stock)
    files = {"packet.pdf": packet.pdf, "claim.json": claim_data(case)} | ({"tag.pdf": tags.pdf} if tags.pdf else {})
    files |= {"form.pdf": filled.pdf} if filled else {}
    # all files together or none: a packet beside last week's tags would be worse than either
    write_folder(folder, files)
    if json:
        say.document(as_json(case.assessment) | {"files": {name: str(folder / name) for name in sorted(files)}})
    else:
        tell_summary(say, case.assessment)
        for name in sorted(files, key=("packet.pdf", "form.pdf", "tag.pdf", "claim.json").index):
            say.answer(f"  {say.world.from_here(folder / name)}")
    for note in (*packet.notes, *tags.notes):
        say.note(note)
    return case.assessment.exit_code
