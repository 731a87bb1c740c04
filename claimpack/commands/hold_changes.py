"""What happens to held parts: moved, called back, sent, released, scrapped."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated, NamedTuple

import typer

from claimpack.commands.options import Because, Json, On, Today

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping, Sequence

    from claimpack.commands.desk import Desk
    from claimpack.commands.held_parts import AtHand
    from claimpack.commands.say import Say
    from claimpack.commands.world import World
    from claimpack.core.claim import Claim
    from claimpack.core.events import Happening
    from claimpack.core.letting_go import LetGo
    from claimpack.core.settling import Step

Code = Annotated[str, typer.Argument(metavar="CODE", help="As on the tag: 26-0041/1; or a claim with one part.")]


def move(
    context: typer.Context,
    code: Code,
    shelf: Annotated[str, typer.Argument(metavar="SHELF", help="Where it lies now.")],
    on: On = "",
    json: Json = False,
    today: Today = "",
) -> int:
    """Put a held part on another shelf."""
    from claimpack.core.part_steps import moved_to, moving

    work = _Work.begun(context.obj, on, "", today)
    part = work.find(code)
    claim = moved_to(part.entry.claim, part.code.nth, shelf)
    now = claim.held[part.code.nth - 1].shelf
    work.keep(part, claim, moving(part.code.nth, part.held.shelf, now, work.step.on))
    before = f" (was {part.held.shelf})" if part.held.shelf else ""
    return work.tell(part, f"is on shelf {now}{before}", {"shelf": now}, json=json)


def call_back(
    context: typer.Context,
    code: Code,
    on: On = "",
    send_by: Annotated[
        str, typer.Option("--send-by", metavar="DATE", help="The maker wants it sent by then.", show_default=False)
    ] = "",
    because: Because = "",
    json: Json = False,
    today: Today = "",
) -> int:
    """The maker wants a held part sent back."""
    from claimpack.commands.gather import a_date
    from claimpack.core.part_steps import calling_back

    work = _Work.begun(context.obj, on, because, today)
    part = work.find(code)
    last = a_date(send_by, "--send-by") if send_by else None
    work.keep(part, part.entry.claim, calling_back(part.code.nth, work.step, last))
    shelf = f"; it is on shelf {part.held.shelf}" if part.held.shelf else ""
    said = f"was called back on {work.step.on}{f', to be sent by {last}' if last else ''}{shelf}"
    facts = {"called_back": str(work.step.on), "send_by": str(last) if last else None, "shelf": part.held.shelf}
    return work.tell(part, said, facts, json=json, next_step=f"When it goes: claimpack hold send {part.code}")


def send(
    context: typer.Context,
    code: Code,
    on: On = "",
    carrier: Annotated[str, typer.Option(metavar="TEXT", help="Who carries it.", show_default=False)] = "",
    tracking: Annotated[str, typer.Option(metavar="TEXT", help="The carrier's number.", show_default=False)] = "",
    slip: Annotated[
        Path | None,
        typer.Option("--slip", metavar="FILE", help="Write a packing slip (PDF) for the box.", show_default=False),
    ] = None,
    paper: Annotated[str, typer.Option("--paper", metavar="letter|a4", help="The slip's paper.")] = "letter",
    json: Json = False,
    today: Today = "",
) -> int:
    """A part called back goes to the maker."""
    from claimpack.core.part_steps import late_sending, sending

    work = _Work.begun(context.obj, on, "", today)
    part = work.find(code)
    happening = sending(part.code.nth, work.step, carrier, tracking)
    work.refuse_unless_it_follows(part, happening)
    written = context.obj.path(slip) if slip else None
    if written:
        _write_slip(work, part, written, (carrier, tracking), paper)
    work.keep(part, part.entry.claim, happening)
    facts = {"sent": str(work.step.on), "slip": str(written) if written else None, "cautions": list(part.tag.cautions)}
    code_said = work.tell(part, f"was sent to the maker on {work.step.on}", facts, json=json)
    for note in late_sending(part.entry.standing.part(part.code.nth).send_by, work.step.on):
        work.say.note(note)
    if written and not json:
        work.say.path(written)
    work.caution([part])
    return code_said


def _write_slip(work: _Work, part: AtHand, path: Path, way: tuple[str, str], paper: str) -> None:
    from claimpack.files import write_atomically
    from claimpack.reports.lettering import page_of
    from claimpack.reports.packing_slip import Slip, packing_slip_pdf

    settings, claim = work.desk.shop.settings, part.entry.claim
    reach = "\n".join(line for line in (settings.address, settings.phone, settings.email) if line)
    slip = Slip(
        tag=part.tag,
        shop=settings.name,
        reach=reach,
        dealer_number=settings.dealer_number(*work.desk.spellings(claim.maker)),
        reference=part.entry.standing.reference,
        serials=tuple((serial.role, serial.value) for serial in claim.unit.serials),
        sent=work.step.on,
        carrier=way[0],
        tracking=way[1],
    )
    write_atomically(path, packing_slip_pdf(slip, page_of(paper)))


def release(
    context: typer.Context,
    code: Code,
    on: On = "",
    because: Because = "",
    json: Json = False,
    today: Today = "",
) -> int:
    """The maker lets a held part go."""
    from claimpack.core.part_steps import releasing

    work = _Work.begun(context.obj, on, because, today)
    part = work.find(code)
    work.keep(part, part.entry.claim, releasing(part.code.nth, work.step))
    said = f"was released by the maker on {work.step.on}"
    facts = {"released": str(work.step.on), "because": work.step.why}
    return work.tell(part, said, facts, json=json, next_step=f"It may be scrapped: claimpack hold scrap {part.code}")


def scrap(
    context: typer.Context,
    codes: Annotated[list[str], typer.Argument(metavar="CODE…", help="As on the tags: 26-0041/1.")],
    on: On = "",
    because: Because = "",
    yes: Annotated[bool, typer.Option("--yes", help="Do not ask.")] = False,
    json: Json = False,
    today: Today = "",
) -> int:
    """Scrap held parts that may be let go."""
    from claimpack.core.letting_go import lets_go, why_kept

    work = _Work.begun(context.obj, on, because, today)
    parts = list({part.code: part for part in map(work.find, codes)}.values())
    work.refuse_what_is_gone(parts)
    kept = [(part, why_kept(part.keeping)) for part in parts if lets_go(part.keeping, work.step.on) is None]
    if kept:
        code = str(kept[0][0].code) if len(kept) == 1 else "CODE"
        work.say.note(f"When the maker lets it go: claimpack hold release {code} --because TEXT")
        return _refuse(work, kept, json=json)
    going = [(part, found) for part in parts if (found := lets_go(part.keeping, work.step.on))]
    doubted = [(part, doubt) for part, rule in going if (doubt := _doubt(part, rule))]
    if doubted and not because:
        work.say.note("Say why it may go all the same: --because REASON")
        return _refuse(work, doubted, json=json)
    for part, doubt in doubted:
        work.say.note(f"{part.code}: {doubt}.")
    work.caution(parts)
    what = ", ".join(f"{part.code} {part.held.part}" for part in parts)
    if not work.say.agrees(f"Scrap {what}? It cannot be undone.", yes):
        if json:
            work.say.document({"scrapped": [], "refused": []})
        return 4
    _scrap(work, going)
    if json:
        told = [{"code": str(part.code), "rule": rule.rule, "because": rule.because} for part, rule in going]
        work.say.document({"scrapped": told, "refused": []})
        return 0
    for part, rule in going:
        work.say.answer(f"{part.code} {part.held.part} was scrapped on {work.step.on}: {rule.because}")
    return 0


def _doubt(part: AtHand, rule: LetGo) -> str:
    from claimpack.commands.held_parts import money_open
    from claimpack.core.letting_go import worth_keeping

    standing = part.entry.standing
    return worth_keeping(rule, standing.state, *money_open(standing))


def _scrap(work: _Work, going: Sequence[tuple[AtHand, LetGo]]) -> None:
    from claimpack.core.part_steps import scrapping

    by_claim: dict[str, list[tuple[AtHand, LetGo]]] = {}
    for part, rule in going:
        by_claim.setdefault(part.code.claim, []).append((part, rule))
    for some in by_claim.values():
        told = [each for part, rule in some for each in scrapping(part.code.nth, part.keeping.state, work.step, rule)]
        first = some[0][0]
        work.keep(first, first.entry.claim, *told)


def _refuse(work: _Work, kept: Sequence[tuple[AtHand, str]], *, json: bool) -> int:
    if json:
        told = [{"code": str(part.code), "because": why} for part, why in kept]
        work.say.document({"scrapped": [], "refused": told})
        return 3
    work.say.answer("Nothing was scrapped. What must be kept:")
    for part, why in kept:
        work.say.item(work.say.mark("fail"), f"{part.code} {part.held.part}: {why}.")
    return 3


class _Work(NamedTuple):
    """One step with held parts: the desk, the voice, and the step taken."""

    desk: Desk
    say: Say
    step: Step
    find: Callable[[str], AtHand]

    @classmethod
    def begun(cls, world: World, on: str, because: str, today: str) -> _Work:
        """Gather what every step needs.

        Raises:
            BadInput: the day is none.
        """
        from claimpack.commands.desk import Desk
        from claimpack.commands.gather import a_date
        from claimpack.commands.held_parts import at_hand
        from claimpack.commands.say import Say
        from claimpack.commands.terms_in_force import TermsInForce
        from claimpack.core.keys import record_from
        from claimpack.core.settling import Step

        say, desk = Say(world), Desk(world, today)
        day = a_date(on, "--on") if on else desk.day
        step = record_from(Step, {"on": day, "why": because}, "hold", {"on": "--on", "why": "--because"})
        terms = TermsInForce(desk, say)
        return cls(desk, say, step, lambda said: at_hand(desk, terms, said))

    def keep(self, part: AtHand, claim: Claim, *happenings: Happening) -> None:
        """Record what happened, unless somebody changed the claim meanwhile.

        Raises:
            WrongState: it does not follow from where the part stands.
            BadInput: the day cannot be.
        """
        from claimpack.core.settling import refuse_impossible_day

        refuse_impossible_day(part.entry.standing, happenings[-1], self.desk.day)
        with self.desk.changing(part.code.claim, part.entry.revision) as changing:
            changing.keep(claim, *happenings)

    def refuse_unless_it_follows(self, part: AtHand, happening: Happening) -> None:
        """Refuse a step before anything is written.

        Raises:
            WrongState: it does not follow from where the part stands.
        """
        from claimpack.core.following import may_follow
        from claimpack.core.settling import refuse_impossible_day

        may_follow(part.entry.standing, happening, part.code.claim)
        refuse_impossible_day(part.entry.standing, happening, self.desk.day)

    def refuse_what_is_gone(self, parts: Sequence[AtHand]) -> None:
        """Refuse parts that are no longer in the shop.

        Raises:
            WrongState: one was sent or scrapped.
        """
        from claimpack.core.counting import GONE
        from claimpack.errors import WrongState

        for part in parts:
            if part.keeping.state in GONE:
                raise WrongState(
                    f"{part.code} {part.held.part} was {part.keeping.state} already",
                    "A part leaves the shop once.",
                    f"See: claimpack history {part.code.claim}",
                )

    def tell(self, part: AtHand, said: str, facts: Mapping[str, object], *, json: bool, next_step: str = "") -> int:
        """Say what was done; the exit code is done."""
        if json:
            self.say.document({"code": str(part.code), "part": part.held.part, **facts})
            return 0
        self.say.answer(f"{part.code} {part.held.part} {said}")
        if next_step:
            self.say.note(next_step)
        return 0

    def caution(self, parts: Sequence[AtHand]) -> None:
        """Show what whoever handles the parts must know, each caution once."""
        for caution in dict.fromkeys(caution for part in parts for caution in part.tag.cautions):
            self.say.note(f"! {caution}")
