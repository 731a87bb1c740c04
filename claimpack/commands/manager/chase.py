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


def chase(
    context: typer.Context,
    claim: BookClaim,
    out: Annotated[
        Path | None, typer.Option("--out", metavar="FILE", help="The PDF to write; default: NUMBER-letter.pdf.")
    ] = None,
    text: Annotated[bool, typer.Option("--text", help="Say the letter as text; a PDF only with --out.")] = False,
    paper: Annotated[str, typer.Option("--paper", metavar="letter|a4", help="The paper of the PDF.")] = "letter",
    json: Json = False,
    today: Today = "",
) -> int:
    """Write a letter about a late answer or payment."""
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


def _nothing_to_ask(say: Say, chased: Chased, why: str, *, json: bool) -> int:
    from claimpack.core.payment.next_step import of_the_rest

    number = chased.number
    if json:
        say.document(
            {"claim": number, "asks": None, "contests": False, "by": None, "file": None, "text": None, "because": why}
        )
        return 3
    say.answer(f"{number}: no letter. {why[0].upper()}{why[1:]}.")
    for way in of_the_rest(number, chased.standing):
        say.note(way)
    return 3


def _chased(desk: Desk, say: Say, entry: Entry) -> Chased:
    from claimpack.commands.desk.terms_in_force import TermsInForce
    from claimpack.core.judging.claim_summary import maker_shown
    from claimpack.core.payment.chasing import Chased
    from claimpack.core.payment.lost_money import lost_money
    from claimpack.core.payment.silence import standing_as_of

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
    )


def _write(world: World, path: Path, letter: Letter, page: tuple[float, float]) -> None:
    from claimpack.commands.desk.options import write_named
    from claimpack.reports.letter import letter_pdf

    write_named(world, path, letter_pdf(letter, page))
