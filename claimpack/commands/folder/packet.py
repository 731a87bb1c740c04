"""`claimpack packet`: the PDF packet alone."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

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
    WrittenFor,
)
from claimpack.commands.line.declared import Context, Option
from claimpack.commands.outgoing.printer import DryRun, Print, Printer, PrintJob, print_job

if TYPE_CHECKING:
    from claimpack.commands.desk.say import Say
    from claimpack.commands.desk.world import World


def packet(
    context: Context,
    claim: ClaimArgument,
    out: Annotated[
        Path | None, Option("--out", metavar="FILE", help="The PDF to write; default: NUMBER-packet.pdf.")
    ] = None,
    plans: Plans = None,
    layout: Layout = "",
    form: MakersForm = "",
    reader: WrittenFor = None,
    limit: Limit = "",
    sign: Sign = False,
    originals: Originals = None,
    today: Today = "",
    filed: Annotated[bool, Option("--filed", help="The packet as it was filed, byte for byte.")] = False,
    version: Annotated[
        int,
        Option("--version", metavar="N", help="With --filed: which filing, from 1; default: the last."),
    ] = 0,
    print_it: Print = False,
    printer: Printer = "",
    dry_run: DryRun = False,
    json: Json = False,
) -> int:
    """Write the PDF packet of a claim."""
    from claimpack.commands.desk.named_files import answering_beside, ending_of, write_named

    ending_of(out, (".pdf",), "The packet is a PDF, and under another name no portal would take it for one.")
    job = print_job(out, printer, wanted=print_it, dry_run=dry_run)
    if filed or version:
        return _write_filed(context.obj, claim, version, out, job, json=json)
    from claimpack.commands.desk.gather import gather
    from claimpack.commands.desk.say import Say
    from claimpack.commands.folder.packet_making import make_packet_and_form
    from claimpack.commands.outgoing.signing import the_key
    from claimpack.file_contents import hash_of

    say = Say(answering_beside(context.obj, out, json))
    case = gather(context.obj, claim, plans, today)
    key = the_key(say, case.shop, must=True) if sign else None
    made, _ = make_packet_and_form(case, say, form, layout, limit, key, originals, reader)
    path = context.obj.path(out or f"{case.assessment.claim.number}-packet.pdf")
    ran = job.run(context.obj, [path], lambda: write_named(context.obj, path, made.pdf))
    for note in made.notes:
        say.note(note)
    if json:
        number, sha256 = case.assessment.claim.number, hash_of(made.pdf)
        say.document({"claim": number, "file": str(path), "sha256": sha256, **job.as_json(ran)})
    else:
        _tell(say, path, job, ran)
    return case.assessment.exit_code


def _tell(say: Say, path: Path, job: PrintJob, ran: list[str]) -> None:
    if not job.dry_run:
        say.path(path)
    job.tell(say, ran)


def _write_filed(world: World, claim: str, version: int, out: Path | None, job: PrintJob, *, json: bool) -> int:
    """Bring back the frozen packet of a filing; nothing is drawn anew."""
    from claimpack.commands.desk.desk import Desk
    from claimpack.commands.desk.named_files import answering_beside, write_named
    from claimpack.commands.desk.one_claim import number_of
    from claimpack.commands.desk.say import Say
    from claimpack.core.steps.filing import filing_of

    say, desk, number = Say(answering_beside(world, out, json)), Desk(world), number_of(claim)
    # asked for its refusal: a number mistyped is told with the nearest one
    desk.book.get(number)
    event = filing_of(number, desk.book.history(number), version)
    sha256 = event.facts["packet"]
    path = world.path(out or f"{number}-packet.pdf")
    content = desk.vault.content(sha256, f"the packet filed on {event.on}")
    ran = job.run(world, [path], lambda: write_named(world, path, content))
    if json:
        told = {"claim": number, "file": str(path), "sha256": sha256, "filed": event.on.isoformat()}
        say.document(told | job.as_json(ran))
    else:
        _tell(say, path, job, ran)
    return 0
