"""One letter to a maker about all that is late, and letters that went out, noted with the next day to ask."""

from __future__ import annotations

from pathlib import Path
from shlex import quote
from typing import TYPE_CHECKING

from claimpack.core.values.numbers_said import how_many

if TYPE_CHECKING:
    from collections.abc import Sequence
    from datetime import date

    from claimpack.book.tables.entries import Entry
    from claimpack.commands.desk.desk import Desk
    from claimpack.commands.desk.say import Say
    from claimpack.commands.desk.terms_in_force import TermsInForce
    from claimpack.core.payment.chasing import Chased
    from claimpack.core.settlement.maker_letter import LateClaim
    from claimpack.printing.papers import Page


def chased_in(desk: Desk, terms_in_force: TermsInForce, entry: Entry) -> Chased:
    """A claim as letters tell it, as it stands on the day."""
    from claimpack.core.judging.claim_summary import maker_shown
    from claimpack.core.payment.chasing import Chased
    from claimpack.core.payment.lost_money import lost_money
    from claimpack.core.payment.silence import standing_as_of
    from claimpack.core.steps.listed import awaits_part

    back = entry.standing.charged_back_on
    taken_back = lost_money(desk.book.history(entry.claim.number)).taken_back if back else None
    claim = entry.claim
    terms = terms_in_force.of(claim)
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


def late_of(desk: Desk, say: Say, maker: str) -> tuple[list[LateClaim], list[str]]:
    """The claims that a maker is late with, by number, and those whose letter must contest something."""
    from claimpack.book.tables.entries import Wanted
    from claimpack.commands.desk.terms_in_force import TermsInForce
    from claimpack.core.events.states import PENDING
    from claimpack.core.payment.chasing import matter
    from claimpack.core.settlement.maker_letter import LateClaim

    desk.must_know_maker(maker)
    terms = TermsInForce(desk, say)
    numbers = [row.number for row in desk.book.claims(Wanted(states=PENDING, refused_rest=True, maker=maker))]
    late, contested = list[LateClaim](), list[str]()
    for entry in desk.book.entries(numbers):
        chased = chased_in(desk, terms, entry)
        asked = matter(chased, desk.day)
        if asked and asked.contests:
            contested.append(chased.number)
        elif asked:
            late.append(LateClaim(chased, asked))
    return late, contested


def chase_maker(desk: Desk, say: Say, maker: str, to: tuple[Path | None, Page], *, text: bool, json: bool) -> int:
    """Write the letter about all that a maker is late with."""
    from claimpack.commands.desk.named_files import write_named
    from claimpack.commands.outgoing.correspondence import address_in, sender_in
    from claimpack.core.payment.letters.letter import as_text
    from claimpack.core.settlement.maker_letter import maker_letter
    from claimpack.reports.letter import letter_pdf

    late, contested = late_of(desk, say, maker)
    if not late:
        return _nothing_late(say, maker, contested, json=json)
    (out, page), name = to, late[0].chased.maker
    letter = maker_letter(late, sender_in(desk, maker), desk.day)._replace(address=address_in(desk, maker, name))
    path = desk.world.path(out or f"{_as_file_name(maker)}-letter.pdf") if out or not text else None
    if path:
        write_named(desk.world, path, letter_pdf(letter, page))
    written = as_text(letter)
    if json:
        claims = [{"claim": one.chased.number, "asks": one.asked.asks, "by": one.asked.by.isoformat()} for one in late]
        say.document(
            {"maker": name, "claims": claims, "contested": contested, "file": str(path) if path else None}
            | {"text": written}
        )
        return 0
    if text:
        say.answer(written)
    if path:
        say.path(path)
    _note_contested(say, contested)
    say.note(f"{how_many(len(late), 'claim')}. Read it, check the sections and the dealer agreement, and sign it.")
    say.note(f"Once it went out: claimpack chase --maker {quote(maker)} --sent")
    return 0


def _as_file_name(maker: str) -> str:
    import re

    from claimpack.core.values.words import folded

    return re.sub(r"[^a-z0-9]+", "-", folded(maker)).strip("-") or "maker"


def _nothing_late(say: Say, maker: str, contested: list[str], *, json: bool) -> int:
    if json:
        say.document({"maker": maker, "claims": [], "contested": contested, "file": None, "text": None})
        return 3
    say.answer(f"{maker}: no letter. Nothing is late that it could be asked for.")
    _note_contested(say, contested)
    return 3


def _note_contested(say: Say, contested: list[str]) -> None:
    for number in contested:
        say.note(f"{number} is contested in a letter of its own: claimpack chase {number}")


def mark_sent(desk: Desk, say: Say, sent: Sequence[tuple[str, str, date]], again: str, *, json: bool) -> int:
    """Note that a letter went out about every claim: what it asks for, and the next day to ask.

    Args:
        desk: the desk.
        say: what is told.
        sent: each claim's number, what it asks for, and by when.
        again: another next day to ask, as it was written; empty for the day after that of the letter.
        json: whether a script asks.
    """
    from datetime import timedelta

    from claimpack.commands.desk.gather import a_date
    from claimpack.core.steps.notes import chased
    from claimpack.core.steps.settling import refuse_impossible_day

    day = a_date(again, "--again") if again else None
    told = {number: (asks, day or by + timedelta(days=1)) for number, asks, by in sent}
    with desk.changing_all(list(told)) as changings:
        for changing in changings:
            asks, then = told[changing.claim.number]
            event = chased(changing.standing, changing.claim.number, desk.day, asks, then)
            refuse_impossible_day(changing.standing, event, desk.day)
            changing.record(event)
    if json:
        facts = [{"claim": each, "asks": asks, "again": then.isoformat()} for each, (asks, then) in told.items()]
        say.document({"sent": facts})
        return 0
    for number, (asks, then) in told.items():
        say.answer(f"{number}: letter sent, asking for {asks}; comes up in due on {then}")
    return 0
