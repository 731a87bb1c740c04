"""`claimpack chase`: a letter that asks a maker for a late answer or payment."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from claimpack.commands.desk.options import BookClaim, Json, Today

if TYPE_CHECKING:
    from claimpack.book.tables.entries import Entry
    from claimpack.commands.desk.desk import Desk
    from claimpack.commands.desk.say import Say
    from claimpack.commands.desk.world import World
    from claimpack.core.payment.chasing import Chased
    from claimpack.core.payment.letters import Letter
    from claimpack.printing.papers import Page


def chase(
    context: typer.Context,
    claim: BookClaim,
    out: Annotated[
        Path | None, typer.Option("--out", metavar="FILE", help="The PDF to write; default: NUMBER-letter.pdf.")
    ] = None,
    text: Annotated[bool, typer.Option("--text", help="Say the letter as text; a PDF only with --out.")] = False,
    paper: Annotated[str, typer.Option("--paper", metavar="letter|a4", help="The paper of the PDF.")] = "letter",
    grounds: Annotated[
        str,
        typer.Option(
            "--grounds",
            metavar="TEXT",
            help="Contest a refusal or a charge-back: why it does not stand. The evidence goes along.",
            show_default=False,
        ),
    ] = "",
    json: Json = False,
    today: Today = "",
) -> int:
    """Write a letter: an answer or payment is late, or one is contested."""
    from claimpack.commands.desk.correspondence import address_in, sender_in
    from claimpack.commands.desk.desk import Desk, note_past
    from claimpack.commands.desk.one_claim import number_of
    from claimpack.commands.desk.options import answering_beside, ending_of
    from claimpack.commands.desk.say import Say
    from claimpack.core.payment.chase_letter import letter as the_letter
    from claimpack.core.payment.chasing import matter, why_not
    from claimpack.core.payment.letters import as_text
    from claimpack.printing.papers import page_of

    ending_of(out, (".pdf",), "The letter is a PDF; --text says it as text.")
    say, desk = Say(answering_beside(context.obj, out, json or text)), Desk(context.obj, today)
    page = page_of(paper)
    entry = desk.book.get(number_of(claim))
    chased = _chased(desk, say, entry)
    if grounds:
        return _contest(desk, say, chased, grounds, (out, page), text=text, json=json)
    asked = matter(chased, desk.day)
    if asked is None:
        return _nothing_to_ask(say, chased, why_not(chased, desk.day), json=json)
    note_past(desk, say)
    letter = the_letter(chased, asked, sender_in(desk, entry.claim.maker), desk.day)
    letter = letter._replace(address=address_in(desk, entry.claim.maker, chased.maker))
    path = context.obj.path(out or f"{chased.number}-letter.pdf") if out or not text else None
    if path:
        _write(context.obj, path, letter, page)
    written = as_text(letter)
    if json:
        facts = {"claim": chased.number, "asks": asked.asks, "contests": asked.contests, "by": asked.by.isoformat()}
        say.document({**facts, "file": str(path) if path else None, "text": written})
        return 0
    if text:
        say.answer(written)
    if path:
        say.path(path)
    say.note("Read it, check the section and the dealer agreement, and sign it; it is not legal advice.")
    return 0


def _contest(
    desk: Desk, say: Say, chased: Chased, grounds: str, to: tuple[Path | None, Page], *, text: bool, json: bool
) -> int:
    """Write the letter against what the maker did, the evidence behind it."""
    from claimpack.commands.desk.correspondence import address_in, evidence_behind, sender_in
    from claimpack.commands.desk.gather import from_book
    from claimpack.commands.desk.options import write_named
    from claimpack.commands.folder.making import evidence_pages
    from claimpack.core.payment.approval_letter import evidence_named
    from claimpack.core.payment.contest_letter import contest, contested_on
    from claimpack.core.payment.letters import as_text
    from claimpack.packet.enclosed_pages import page_count

    (out, page), world = to, desk.world
    case = from_book(world, desk.shop, chased.number, None, desk.day)
    contested = contested_on(chased, desk.day, is_favour=case.assessment.goodwill is not None)
    evidence = evidence_pages(case, say)
    enclosed = evidence_named(case.claim, page_count(evidence)) if evidence else ()
    maker = case.claim.maker
    letter = contest(chased, contested, grounds, sender_in(desk, maker), desk.day, enclosed)
    letter = letter._replace(address=address_in(desk, maker, chased.maker))
    path = world.path(out or f"{chased.number}-letter.pdf") if out or not text else None
    if path:
        write_named(world, path, evidence_behind(letter, evidence, page))
    written = as_text(letter)
    if json:
        facts = {"claim": chased.number, "asks": "answer", "contests": True, "by": contested.by.isoformat()}
        say.document({**facts, "file": str(path) if path else None, "text": written})
        return 0
    if text:
        say.answer(written)
    if path:
        say.path(path)
    say.note("Read it and sign it: the grounds are yours, and it is not legal advice.")
    return 0


def _nothing_to_ask(say: Say, chased: Chased, why: str, *, json: bool) -> int:
    from claimpack.core.payment.next_step import of_the_rest

    number = chased.number
    if json:
        say.document(
            {"claim": number, "asks": None, "contests": False, "by": None, "file": None, "text": None, "because": why}
        )
        return 3
    say.answer(f"{number}: no letter. {why[0].upper()}{why[1:]}.")
    if chased.standing.state == "refused" or chased.standing.refused_rest:
        say.note(f"To contest it on grounds of your own: claimpack chase {number} --grounds TEXT")
    for way in of_the_rest(number, chased.standing):
        say.note(way)
    return 3


def _chased(desk: Desk, say: Say, entry: Entry) -> Chased:
    from claimpack.commands.desk.terms_in_force import TermsInForce
    from claimpack.core.judging.claim_summary import maker_shown
    from claimpack.core.payment.chasing import Chased
    from claimpack.core.payment.lost_money import lost_money
    from claimpack.core.payment.silence import standing_as_of
    from claimpack.core.steps.listed import awaits_part

    taken_back = lost_money(desk.book.history(entry.claim.number)).taken_back
    claim = entry.claim
    terms = TermsInForce(desk, say).of(claim)
    unit = claim.unit
    return Chased(
        number=claim.number,
        maker=maker_shown(claim, entry.summary),
        unit=" ".join(part for part in (unit.model, unit.kind) if part),
        serial=unit.own_serial,
        standing=standing_as_of(entry.standing, terms, desk.day),
        terms=terms,
        taken_back_because=taken_back.why if taken_back else "",
        part_awaited=awaits_part(claim, entry.summary, entry.standing.parts_gone),
    )


def _write(world: World, path: Path, letter: Letter, page: tuple[float, float]) -> None:
    from claimpack.commands.desk.options import write_named
    from claimpack.reports.letter import letter_pdf

    write_named(world, path, letter_pdf(letter, page))
