"""`claimpack file`: a claim goes to the maker; the packet that went out is frozen."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any

from claimpack.commands.desk.options import BookClaim, Json, Layout, Limit, MakersForm, Originals, Plans, Today
from claimpack.commands.line.declared import Context, Option

if TYPE_CHECKING:
    from claimpack.commands.desk.desk import Desk
    from claimpack.commands.desk.gather import Case
    from claimpack.commands.desk.say import Say
    from claimpack.commands.desk.world import World
    from claimpack.commands.folder.form_filling import FormMade
    from claimpack.core.events.events import NewEvent
    from claimpack.core.events.standing import Standing
    from claimpack.core.steps.filing import Sent

_NAMED = {"on": "--on", "received": "--received", "reference": "--ref", "anyway": "--anyway"}


def file(
    context: Context,
    claim: BookClaim,
    on: Annotated[str, Option(metavar="DATE", help="The day it is sent; default: today.")] = "",
    ref: Annotated[str, Option(metavar="TEXT", help="The maker's number for the claim.")] = "",
    received: Annotated[str, Option(metavar="DATE", help="The day the maker received it.")] = "",
    anyway: Annotated[str, Option(metavar="REASON", help="File it even though something blocks it.")] = "",
    out: Annotated[
        Path | None, Option("--out", metavar="FILE", help="The PDF to write; default: NUMBER-packet.pdf.")
    ] = None,
    mail: Annotated[
        Path | None,
        Option("--mail", metavar="FILE", help="Also write a mail to the maker, .eml, for you to send."),
    ] = None,
    reply: Annotated[str, Option("--reply", metavar="TEXT", help="Your answer to what the maker asked.")] = "",
    plans: Plans = None,
    layout: Layout = "",
    form: MakersForm = "",
    limit: Limit = "",
    originals: Originals = None,
    today: Today = "",
    json: Json = False,
) -> int:
    """File a claim: freeze its packet, start its dates."""
    from claimpack.commands.desk.desk import Desk
    from claimpack.commands.desk.gather import from_book
    from claimpack.commands.desk.named_files import answering_beside, ending_of, goes_to_stdout
    from claimpack.commands.desk.one_claim import number_of
    from claimpack.commands.desk.say import Say
    from claimpack.commands.desk.terms_in_force import TermsInForce
    from claimpack.commands.folder.packet_making import make_packet_and_form
    from claimpack.commands.outgoing.signing import the_key
    from claimpack.core.payment.next_step import of_earlier_money
    from claimpack.core.payment.remarks import too_late_again
    from claimpack.core.payment.silence import refusal_recorded, standing_as_of
    from claimpack.core.steps.filing import blocks, filed, layout_before, refuse_unfilable
    from claimpack.core.steps.questioning import asked_without_words, unanswered, with_reply
    from claimpack.file_contents import hash_of

    ending_of(mail, (".eml",), "Mail programs know a mail by that ending.", "--mail")
    beside = answering_beside(context.obj, out, json or goes_to_stdout(mail))
    say = Say(answering_beside(beside, mail, json, "--mail", is_text=True))
    desk = Desk(context.obj, today, plans)
    number = number_of(claim)
    sent = _sent(on or desk.day.isoformat(), received, ref, anyway)
    entry = desk.book.get(number)
    # judged as on the day of filing, which may be noted days later
    case = from_book(context.obj, desk.shop, number, plans, sent.on)
    case = case._replace(claim=with_reply(case.claim, reply, sent.on))
    terms = TermsInForce(desk, say).of(entry.claim) if entry.standing.filed else None
    # silence may have refused it meanwhile, though nobody recorded that
    before = standing_as_of(entry.standing, terms, sent.on)
    # first what --anyway cannot help
    refuse_unfilable(case.assessment, before, sent, desk.day)
    asked = unanswered(case.claim) if entry.standing.state == "questioned" else ()
    others = (*too_late_again(before, terms, sent.on), *asked, *asked_without_words(entry.standing))
    against = (*blocks(case.assessment), *others)
    if against and not sent.anyway:
        shown = against if json else (*blocks(case.assessment, str), *others)
        return _refuse(say, case, shown, json=json)
    case = _as_sent(case, sent, entry.standing)
    # a claim sent in again looks like the one the maker has
    layout = layout or layout_before(desk.book.history(number))
    key = the_key(say, desk.shop, must=False)
    packet, filled = make_packet_and_form(case, say, form, layout, limit, key, originals)
    path = context.obj.path(out or f"{number}-packet.pdf")
    mailed = _mail(context.obj, case, mail, path, packet.pdf, filled)
    as_sent = sent.model_copy(update={"layout": layout})
    new_event = filed(case.assessment, as_sent, hash_of(packet.pdf), entry.revision, against)
    # before the book: a packet nobody names does no harm, a claim filed without its packet does
    desk.vault.keep_content(packet.pdf)
    with desk.changing(number, entry.revision) as changing:
        # inside the change: where a file cannot be written, nothing is filed
        _write(context.obj, {path: packet.pdf, **mailed})
        changing.keep(case.claim, *refusal_recorded(entry.standing, terms, sent.on), new_event)
    earlier = of_earlier_money(entry.standing, changing.standing)
    notes = (*packet.notes, *_without(case), *_late(case), *earlier, *unanswered(case.claim))
    facts = _facts(desk, case, new_event, path) | ({"mail": str(context.obj.path(mail))} if mail else {})
    return _tell(say, facts, notes, json=json)


def _mail(
    world: World, case: Case, mail: Path | None, packet_at: Path, packet: bytes, form: FormMade | None
) -> dict[Path, bytes]:
    """The mail with its place, where one is wanted; packet and form are attached under the claim's number."""
    from claimpack.commands.money.mailing import mail_of
    from claimpack.errors import BadInput

    if mail is None:
        return {}
    if world.path(mail) == packet_at:
        raise BadInput(f"--out and --mail: both name {mail}", "One would replace the other.", "Give two names.")
    number = case.claim.number
    forms = [(f"{number}-{form.id}.pdf", form.pdf)] if form else []
    return {world.path(mail): mail_of(world, case, [(f"{number}-packet.pdf", packet), *forms])}


def _write(world: World, files: dict[Path, bytes]) -> None:
    """Put the files in place together; one that goes to standard output comes after the others."""
    from claimpack.commands.desk.named_files import STANDARD_OUTPUT, write_named
    from claimpack.files import write_together

    stream = world.path(STANDARD_OUTPUT)
    # a pipe cannot be taken back, so it comes last
    write_together({path: content for path, content in files.items() if path != stream})
    if stream in files:
        write_named(world, stream, files[stream])


def _sent(on: str, received: str, reference: str, anyway: str) -> Sent:
    from claimpack.commands.desk.options import a_date
    from claimpack.core.facts.keys import record_from
    from claimpack.core.steps.filing import Sent

    days = {"on": a_date(on, "--on"), "received": a_date(received, "--received") if received else None}
    return record_from(Sent, {**days, "reference": reference, "anyway": anyway}, "file", _NAMED)


def _refuse(say: Say, case: Case, against: tuple[str, ...], *, json: bool) -> int:
    from claimpack.core.judging.assessment import NOT_YET

    # a covered claim that is blocked for another reason is not a yes
    number, code = case.claim.number, case.assessment.exit_code or NOT_YET
    if json:
        say.document({"claim": number, "filed": False, "verdict": case.assessment.verdict, "blocks": list(against)})
        return code
    say.answer(f"{number} is not filed. What blocks it:")
    for sentence in against:
        say.item(say.mark("todo"), sentence)
    say.note("Put it right, or say why it goes all the same with --anyway REASON; the reason stays in the history.")
    return code


def _as_sent(case: Case, sent: Sent, before: Standing) -> Case:
    """The claim assessed as filed on that day: with the dates that follow, what was paid before, and why it goes."""
    from claimpack.commands.desk.gather import assessed

    circumstances = case.circumstances.model_copy(
        update={
            "filed": sent.on,
            # by the plan it is filed under, whatever the book went by until now
            "hold": None,
            "first_filed": before.first_filed or sent.on,
            "anyway": sent.anyway,
            # sent in again, it asks for what is still lacking and says so
            "paid_before": before.paid if before.filed else None,
        }
    )
    assessment = assessed(case.claim, case.places, sent.on, circumstances)
    return case._replace(circumstances=circumstances, assessment=assessment)


def _facts(desk: Desk, case: Case, new_event: NewEvent, path: Path) -> dict[str, Any]:
    from claimpack.core.steps.filing import filings

    number, told = case.claim.number, new_event.facts
    return {
        "claim": number,
        "filed": True,
        "on": new_event.on.isoformat(),
        "claimed": told["claimed"],
        "currency": told["currency"],
        "revision": int(told["revision"]),
        "version": len(filings(desk.book.history(number))),
        "packet": told["packet"],
        "file": str(path),
    }


def _tell(say: Say, facts: dict[str, Any], notes: tuple[str, ...], *, json: bool) -> int:
    number = facts["claim"]
    if json:
        say.document(facts)
    else:
        say.answer(f"{number} is filed on {facts['on']}: {facts['claimed']} {facts['currency']} claimed")
        say.answer(f"  {say.world.from_here(Path(facts['file']))}")
        frozen = f"frozen as version {facts['version']} (revision {facts['revision']} of the claim)"
        if "mail" in facts:
            say.answer(f"  {say.world.from_here(Path(facts['mail']))}, for you to look at and send")
        say.answer(f"  {frozen}, SHA-256 {facts['packet'][:12]}…")
        say.note(f"When the maker answers: claimpack answer {number} accepted|part|refused|questioned --on DATE")
    for note in notes:
        say.note(note)
    return 0


def _late(case: Case) -> list[str]:
    return [str(case.assessment.late.says)] if case.assessment.late else []


def _without(case: Case) -> list[str]:
    """What goes out missing or wrong with a claim that is filed all the same."""
    from claimpack.core.judging.conditions.missing_items import absent_and_wrong, told_in_short

    absent, wrong = absent_and_wrong(case.assessment.missing)
    told = {"Not enclosed": absent, "Not as the plan asks for it": wrong}
    return [f"{how}, and the packet says so: {told_in_short(items)}." for how, items in told.items() if items]
