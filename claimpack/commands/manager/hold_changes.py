"""What happens to held parts: moved, called back, sent, released, scrapped."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

from claimpack.commands.desk.options import Because, Json, On, Today, Yes
from claimpack.commands.line.declared import Argument, Context, Option
from claimpack.commands.manager.hold_work import HoldStep

if TYPE_CHECKING:
    from collections.abc import Sequence

    from claimpack.commands.desk.world import World
    from claimpack.commands.manager.held_parts import PartFound
    from claimpack.core.holding.release_rules import LetGo
    from claimpack.core.shelf.part_steps import PartUndo

Code = Annotated[str, Argument(metavar="CODE", help="As on the tag: 26-0041/1; or a claim with one part.")]

Undo = Annotated[bool, Option("--undo", help="It was entered by mistake: the part stands where it stood.")]


def move(
    context: Context,
    code: Code,
    shelf: Annotated[str, Argument(metavar="SHELF", help="Where it is now.")],
    on: On = "",
    json: Json = False,
    today: Today = "",
) -> int:
    """Put a held part on another shelf."""
    from claimpack.core.shelf.part_steps import moved_to, moving

    work = HoldStep.begun(context.obj, on, "", today)
    part = work.find(code)
    claim = moved_to(part.entry.claim, part.code.nth, shelf)
    now = claim.held[part.code.nth - 1].shelf
    work.keep(part, claim, moving(part.code.nth, part.held.shelf, now, work.step.on))
    before = f" (was {part.held.shelf})" if part.held.shelf else ""
    return work.tell(part, f"is on shelf {now}{before}", {"shelf": now}, json=json)


def call_back(
    context: Context,
    code: Code,
    on: On = "",
    send_by: Annotated[str, Option("--send-by", metavar="DATE", help="The maker wants it sent by then.")] = "",
    because: Because = "",
    undo: Undo = False,
    json: Json = False,
    today: Today = "",
) -> int:
    """Note that the maker wants a held part back, or by another day."""
    from claimpack.commands.desk.options import a_date
    from claimpack.core.shelf.part_steps import calling_back

    work = HoldStep.begun(context.obj, on, because, today)
    part = work.find(code)
    if undo:
        return _undo(work, [part], "part call-back undone", json=json)
    last = a_date(send_by, "--send-by") if send_by else None
    work.keep(part, part.entry.claim, calling_back(part.code.nth, work.step, last))
    before = part.entry.standing.part(part.code.nth)
    # another day named later does not change when it was called back
    called_back = before.called_back or work.step.on
    shelf = f"; it is on shelf {part.held.shelf}" if part.held.shelf else ""
    said = f"was called back on {called_back}{f', to be sent by {last}' if last else ''}{shelf}"
    if before.called_back:
        said = f"is to be sent by {last} now{f', not by {before.send_by}' if before.send_by else ''}{shelf}"
    facts = {"called_back": str(called_back), "send_by": str(last) if last else None, "shelf": part.held.shelf}
    return work.tell(part, said, facts, json=json, next_step=f"When it goes: claimpack hold send {part.code}")


def send(
    context: Context,
    code: Code,
    on: On = "",
    carrier: Annotated[str, Option(metavar="TEXT", help="Who carries it.")] = "",
    tracking: Annotated[str, Option(metavar="TEXT", help="The carrier's number.")] = "",
    slip: Annotated[
        Path | None,
        Option("--slip", metavar="FILE", help="Write a packing slip (PDF) for the box."),
    ] = None,
    paper: Annotated[str, Option("--paper", metavar="letter|legal|a4", help="The slip's paper.")] = "letter",
    because: Because = "",
    undo: Undo = False,
    json: Json = False,
    today: Today = "",
) -> int:
    """Send a part that was called back to the maker."""
    from claimpack.commands.desk.named_files import answering_beside, ending_of
    from claimpack.core.shelf.part_steps import late_sending, sending

    ending_of(slip, (".pdf",), "The packing slip is printed from a PDF.", "--slip")
    work = HoldStep.begun(answering_beside(context.obj, slip, json, "--slip"), on, because, today)
    part = work.find(code)
    if undo:
        return _undo(work, [part], "part sending undone", json=json)
    new_event = sending(part.code.nth, work.step, carrier, tracking, part.tag.hazard)
    # before the slip is written: paper for a part that does not go would lie in a box
    work.refuse_unless_it_follows(part, new_event)
    written = context.obj.path(slip) if slip else None
    if written:
        _write_slip(context.obj, work, part, written, (carrier, tracking), paper)
    work.keep(part, part.entry.claim, new_event)
    facts = {
        "sent": str(work.step.on),
        "slip": str(written) if written else None,
        "cautions": list(part.tag.cautions_on_the_way),
    }
    code_said = work.tell(part, f"was sent to the maker on {work.step.on}", facts, json=json)
    for note in late_sending(part.entry.standing.part(part.code.nth).send_by, work.step.on):
        work.say.note(note)
    if written and not json:
        work.say.path(written)
    work.caution([part], on_the_way=True)
    return code_said


def _write_slip(world: World, work: HoldStep, part: PartFound, path: Path, way: tuple[str, str], paper: str) -> None:
    from claimpack.commands.desk.named_files import write_named
    from claimpack.core.holding.cautions import names_air
    from claimpack.printing.papers import page_of
    from claimpack.reports.packing_slip import Slip, packing_slip_pdf

    settings, claim = work.desk.shop.settings, part.entry.claim
    spellings = work.desk.spellings(claim.maker)
    reach = "\n".join(line for line in (settings.address, settings.phone, settings.email) if line)
    slip = Slip(
        tag=part.tag,
        shop=settings.name,
        reach=reach,
        dealer_number=settings.dealer_number(*spellings),
        reference=part.entry.standing.reference,
        serials=tuple((serial.role, serial.value) for serial in claim.unit.serials),
        sent=work.step.on,
        # a name that tells of the air stands beside a caution against it, and is explained there
        carrier=" · ".join(filter(None, (way[0], work.step.why if names_air(way[0]) else ""))),
        tracking=way[1],
        to=tuple(line.strip() for line in settings.address_of(*spellings).split(",") if line.strip()),
    )
    write_named(world, path, packing_slip_pdf(slip, page_of(paper)))


def release(
    context: Context,
    code: Code,
    on: On = "",
    because: Because = "",
    undo: Undo = False,
    json: Json = False,
    today: Today = "",
) -> int:
    """Note that the maker lets a held part go."""
    from claimpack.core.shelf.part_steps import releasing

    work = HoldStep.begun(context.obj, on, because, today)
    part = work.find(code)
    if undo:
        return _undo(work, [part], "part release undone", json=json)
    work.keep(part, part.entry.claim, releasing(part.code.nth, work.step))
    said = f"was released by the maker on {work.step.on}"
    facts = {"released": str(work.step.on), "because": work.step.why}
    return work.tell(part, said, facts, json=json, next_step=f"It may be scrapped: claimpack hold scrap {part.code}")


def scrap(
    context: Context,
    codes: Annotated[list[str], Argument(metavar="CODE…", help="As on the tags: 26-0041/1.")],
    on: On = "",
    because: Because = "",
    yes: Yes = False,
    undo: Undo = False,
    json: Json = False,
    today: Today = "",
) -> int:
    """Scrap held parts that may be let go."""
    from claimpack.commands.talk.yes_or_no import agrees
    from claimpack.core.shelf.part_steps import scrapping

    work = HoldStep.begun(context.obj, on, because, today)
    # a scanner may read a tag twice
    parts = list({part.code: part for part in map(work.find, codes)}.values())
    if undo:
        return _undo(work, parts, "part scrapping undone", json=json)
    work.refuse_what_is_gone(parts)
    going = _going(work, parts, json=json)
    if not going:
        return 3
    told = [(part, scrapping(part.code.nth, part.keeping.state, work.step, rule)) for part, rule in going]
    work.refuse_impossible_days(told)
    work.caution(parts)
    what = ", ".join(f"{part.code} {part.held.part}" for part in parts)
    # asked last, when nothing else can keep it from being done
    if not agrees(work.say, f"Scrap {what}? What is thrown away does not come back.", yes):
        if json:
            work.say.document({"scrapped": [], "refused": []})
        return 4
    work.keep_all(told)
    if json:
        scrapped = [{"code": str(part.code), "rule": rule.rule, "because": rule.because} for part, rule in going]
        work.say.document({"scrapped": scrapped, "refused": []})
        return 0
    for part, rule in going:
        work.say.answer(f"{part.code} {part.held.part} was scrapped on {work.step.on}: {rule.because}")
    return 0


def _going(work: HoldStep, parts: Sequence[PartFound], *, json: bool) -> list[tuple[PartFound, LetGo]]:
    """Every part with the rule that lets it go; none of them where one is to be kept, which is told."""
    from claimpack.core.holding.release_rules import lets_go, why_kept
    from claimpack.core.shelf.part_steps import refuse_unexplained

    kept = [(part, why_kept(part.keeping)) for part in parts if lets_go(part.keeping, work.step.on) is None]
    if kept:
        code = str(kept[0][0].code) if len(kept) == 1 else "CODE"
        work.say.note(f"When the maker lets it go: claimpack hold release {code} --because TEXT")
        _refuse(work, kept, json=json)
        return []
    going = [(part, found) for part in parts if (found := lets_go(part.keeping, work.step.on))]
    for part, rule in going:
        refuse_unexplained(part.code, work.step, rule)
    doubted = [(part, doubt) for part, rule in going if (doubt := _doubt(part, rule))]
    # a rule lets it go, and money may still hang on it: somebody has to say why
    if doubted and not work.step.why:
        work.say.note("Say why it may go all the same: --because REASON")
        _refuse(work, doubted, json=json)
        return []
    for part, doubt in doubted:
        work.say.note(f"{part.code}: {doubt}.")
    return going


def _doubt(part: PartFound, rule: LetGo) -> str:
    from claimpack.commands.manager.held_parts import money_open
    from claimpack.core.holding.release_rules import worth_keeping

    standing = part.entry.standing
    return worth_keeping(rule, standing.state, *money_open(standing))


def _refuse(work: HoldStep, kept: Sequence[tuple[PartFound, str]], *, json: bool) -> None:
    if json:
        told = [{"code": str(part.code), "because": why} for part, why in kept]
        work.say.document({"scrapped": [], "refused": told})
        return
    work.say.answer("Nothing was scrapped. What must be kept:")
    for part, why in kept:
        work.say.item(work.say.mark("fail"), f"{part.code} {part.held.part}: {why}.")


def _undo(work: HoldStep, parts: Sequence[PartFound], what: PartUndo, *, json: bool) -> int:
    """Take the last step with each part back, all or none of them."""
    from claimpack.core.shelf.part_steps import step_undone, undone_in_words

    undone = [(part, step_undone(part.entry.standing, part.code, what, work.step)) for part in parts]
    work.keep_all([(part, [new_event]) for part, new_event in undone])
    if json:
        told = [
            {"code": str(part.code), "part": part.held.part, "undone": what, "state": new_event.facts["state"]}
            for part, new_event in undone
        ]
        work.say.document({"undone": told})
        return 0
    for part, new_event in undone:
        work.say.answer(f"{part.code} {part.held.part} is {_again(work, part)}")
        work.say.note(undone_in_words(new_event))
    return 0


def _again(work: HoldStep, part: PartFound) -> str:
    """Where a part stands again after its last step was undone."""
    now = work.desk.book.get(part.code.claim).standing.part(part.code.nth)
    send_by = f", to be sent by {now.send_by}" if now.state == "called back" and now.send_by else ""
    shelf = f"; the book has it on shelf {part.held.shelf}" if part.held.shelf else ""
    return f"{now.state} again{send_by}{shelf}"
