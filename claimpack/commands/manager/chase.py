"""`claimpack chase`: a letter that asks a maker for a late answer or payment."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any

from claimpack.commands.desk.options import Json, Today
from claimpack.commands.line.declared import Argument, Context, Option
from claimpack.errors import BadInput

if TYPE_CHECKING:
    from claimpack.commands.desk.desk import Desk
    from claimpack.commands.desk.say import Say
    from claimpack.commands.desk.world import World
    from claimpack.core.payment.chasing import Chased
    from claimpack.printing.papers import Page


def chase(
    context: Context,
    claim: Annotated[str, Argument(metavar="[CLAIM]", help="The claim's number in the book.")] = "",
    maker: Annotated[str, Option(metavar="ID", help="One letter about all that this maker is late with.")] = "",
    early: Annotated[
        bool, Option("--early", help="With --maker: ask too for what silence accepted and is not late yet.")
    ] = False,
    sent: Annotated[bool, Option("--sent", help="The letter went out: note it, with the next day to ask.")] = False,
    again: Annotated[str, Option(metavar="DATE", help="With --sent: the next day to ask.")] = "",
    out: Annotated[
        Path | None, Option("--out", metavar="FILE", help="The PDF to write; default: NUMBER-letter.pdf.")
    ] = None,
    text: Annotated[bool, Option("--text", help="Say the letter as text; a PDF only with --out.")] = False,
    paper: Annotated[str, Option("--paper", metavar="letter|legal|a4", help="The paper of the PDF.")] = "letter",
    grounds: Annotated[
        str,
        Option(
            "--grounds",
            metavar="TEXT",
            help="Contest a refusal or a charge-back: why it does not stand. The evidence goes along.",
        ),
    ] = "",
    json: Json = False,
    today: Today = "",
) -> int:
    """Write a letter: answers or payments are late, or one is contested."""
    from claimpack.commands.desk.desk import Desk, note_past
    from claimpack.commands.desk.named_files import answering_beside, ending_of, write_named
    from claimpack.commands.desk.one_claim import number_of
    from claimpack.commands.desk.say import Say
    from claimpack.commands.desk.terms_in_force import TermsInForce
    from claimpack.commands.manager.chase_maker import chase_maker, chased_in, mark_sent, note_sent, to_ask
    from claimpack.commands.outgoing.correspondence import address_in, sender_in
    from claimpack.core.payment.chasing import matter, why_not
    from claimpack.core.payment.letters.chase_letter import letter as the_letter
    from claimpack.core.payment.letters.contest_letter import contested_on
    from claimpack.core.payment.letters.letter import as_text
    from claimpack.printing.papers import page_of

    ending_of(out, (".pdf",), "The letter is a PDF; --text says it as text.")
    say, desk = Say(answering_beside(context.obj, out, json or text)), Desk(context.obj, today)
    page = page_of(paper)
    if bool(claim) == bool(maker):
        raise BadInput(
            "chase is about one claim, or about one maker",
            "Both were named." if claim else "Neither was named.",
            "As in: claimpack chase 26-0041; or: claimpack chase --maker halden",
        )
    if early and not maker:
        raise BadInput("--early is of a letter about one maker", do="A letter about one claim needs no such word.")
    if maker and sent:
        late = to_ask(desk, say, maker, early=early).late
        for one in late:
            note_sent(say, one.chased, desk.day)
        letters = [(one.chased.number, one.asked.asks, one.asked.by) for one in late]
        return mark_sent(desk, say, letters, again, json=json) if late else _none_sent(say, maker)
    if maker:
        return chase_maker(desk, say, maker, (out, page), early=early, text=text, json=json)
    entry = desk.book.get(number_of(claim))
    # one that went out is noted as a change, which asks the same
    if not sent:
        desk.shops.must_be_ours(entry.claim.number, entry.standing.shop)
    chased = chased_in(desk, TermsInForce(desk, say), entry)
    note_sent(say, chased, desk.day)
    if grounds and sent:
        by = contested_on(chased, desk.day).by
        return mark_sent(desk, say, [(chased.number, "an answer", by)], again, json=json)
    if grounds:
        return _contest(desk, say, chased, grounds, (out, page), text=text, json=json)
    asked = matter(chased, desk.day)
    if asked is None:
        return _nothing_to_ask(say, chased, why_not(chased, desk.day), json=json)
    if sent:
        return mark_sent(desk, say, [(chased.number, asked.asks, asked.by)], again, json=json)
    # a letter written as on another day carries that day, and somebody will sign it
    note_past(desk, say)
    maker = entry.claim.maker
    letter = the_letter(chased, asked, sender_in(desk, maker), desk.day)
    letter = letter._replace(address=address_in(desk, maker, chased.maker))
    path = _path(context.obj, out, chased, text=text)
    if path:
        # what draws takes long to load, and a letter told as text needs none of it
        from claimpack.reports.letter import letter_pdf

        write_named(context.obj, path, letter_pdf(letter, page))
    facts = {"claim": chased.number, "asks": asked.asks, "contests": asked.contests, "by": asked.by.isoformat()}
    return _tell(say, facts, path, as_text(letter), _SIGN, text=text, json=json)


_SIGN = "Read it, check the section and the dealer agreement, and sign it; it is not legal advice."
_SIGN_GROUNDS = "Read it and sign it: the grounds are yours, and it is not legal advice."


def _path(world: World, out: Path | None, chased: Chased, *, text: bool) -> Path | None:
    """Where the PDF goes; nowhere where the text alone is wanted."""
    return world.path(out or f"{chased.number}-letter.pdf") if out or not text else None


def _tell(
    say: Say, facts: dict[str, Any], path: Path | None, written: str, sign: str, *, text: bool, json: bool
) -> int:
    """A letter written: its text, where its PDF lies, and that a person has to read it."""
    if json:
        say.document({**facts, "file": str(path) if path else None, "text": written})
        return 0
    if text:
        say.answer(written)
    if path:
        say.path(path)
    say.note(sign)
    return 0


def _contest(
    desk: Desk, say: Say, chased: Chased, grounds: str, to: tuple[Path | None, Page], *, text: bool, json: bool
) -> int:
    """Write the letter against what the maker did, the evidence behind it."""
    from claimpack.commands.desk.gather import from_book
    from claimpack.commands.desk.named_files import write_named
    from claimpack.commands.folder.packet_making import evidence_pages
    from claimpack.commands.outgoing.correspondence import address_in, evidence_behind, sender_in
    from claimpack.core.payment.letters.approval_letter import evidence_named
    from claimpack.core.payment.letters.contest_letter import contest, contested_on
    from claimpack.core.payment.letters.letter import as_text
    from claimpack.packet.enclosed_pages import page_count

    (out, page), world = to, desk.world
    case = from_book(world, desk.shop, chased.number, None, desk.day)
    contested = contested_on(chased, desk.day)
    evidence = evidence_pages(case, say)
    enclosed = evidence_named(case.claim, page_count(evidence)) if evidence else ()
    maker = case.claim.maker
    letter = contest(chased, contested, grounds, sender_in(desk, maker), desk.day, enclosed)
    letter = letter._replace(address=address_in(desk, maker, chased.maker))
    path = _path(world, out, chased, text=text)
    if path:
        write_named(world, path, evidence_behind(letter, evidence, page))
    facts = {"claim": chased.number, "asks": "answer", "contests": True, "by": contested.by.isoformat()}
    return _tell(say, facts, path, as_text(letter), _SIGN_GROUNDS, text=text, json=json)


def _none_sent(say: Say, maker: str) -> int:
    say.answer(f"{maker}: nothing is late, so no letter is noted.")
    return 3


def _nothing_to_ask(say: Say, chased: Chased, why: str, *, json: bool) -> int:
    """Say why there is no letter; the exit code is no, or not yet where nobody can say whether one is due."""
    from claimpack.core.payment.next_step import what_next

    number, unread = chased.number, chased.terms.unread if chased.terms else ""
    code = 4 if unread else 3
    if json:
        nothing = {"asks": None, "contests": False, "by": None, "file": None, "text": None}
        say.document({"claim": number, **nothing, "because": why, "terms_unread": unread or None})
        return code
    say.answer(f"{number}: no letter. {why[0].upper()}{why[1:]}.")
    for way in what_next(number, chased.standing, is_favour=chased.is_favour):
        say.note(way)
    return code
