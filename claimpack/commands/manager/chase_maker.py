"""One letter to a maker about all that is late, and letters that went out, noted with the next day to ask."""

from __future__ import annotations

from pathlib import Path
from shlex import quote
from typing import TYPE_CHECKING, Any, NamedTuple

from claimpack.core.values.numbers_said import how_many

if TYPE_CHECKING:
    from collections.abc import Collection, Sequence
    from datetime import date

    from claimpack.book.tables.entries import Entry
    from claimpack.commands.desk.desk import Desk
    from claimpack.commands.desk.say import Say
    from claimpack.commands.desk.terms_in_force import TermsInForce
    from claimpack.core.payment.chasing import Chased
    from claimpack.core.payment.letters.maker_letter import LateClaim
    from claimpack.printing.papers import Page


def chased_in(desk: Desk, terms_in_force: TermsInForce, entry: Entry) -> Chased:
    """A claim as letters tell it, as it stands on the day."""
    from claimpack.core.judging.claim_summary import maker_shown
    from claimpack.core.payment.chasing import Chased
    from claimpack.core.payment.lost_money import lost_money
    from claimpack.core.payment.silence import standing_as_of
    from claimpack.core.steps.listed import at_hand, awaits_part, is_favour

    back = entry.standing.charged_back_on
    taken_back = lost_money(desk.book.history(entry.claim.number)).taken_back if back else None
    claim = entry.claim
    terms, favour = terms_in_force.of(claim), is_favour(entry.summary.verdict)
    if terms and favour:
        terms = terms.of_a_favour
    unit = claim.unit
    return Chased(
        number=claim.number,
        maker=maker_shown(claim, entry.summary),
        unit=" ".join(part for part in (unit.model, unit.kind) if part),
        serial=unit.own_serial,
        # a letter must not ask for an answer that silence has given meanwhile
        standing=standing_as_of(entry.standing, terms, desk.day),
        terms=terms,
        taken_back_because=taken_back.why if taken_back else "",
        part_awaited=awaits_part(claim, entry.summary, entry.standing.parts_gone),
        part_held=bool(at_hand(claim, entry.standing)),
        is_favour=favour,
    )


class ToAsk(NamedTuple):
    """What a maker is to be asked for: what it is late with, what it has time for, what a letter must contest.

    `unread` tells what the terms of claims are named by where they cannot be read, so that nobody can say it.
    """

    late: list[LateClaim]
    early: list[LateClaim]
    contested: list[str]
    unread: dict[str, str]


def to_ask(desk: Desk, say: Say, maker: str, *, early: bool) -> ToAsk:
    """What a maker is to be asked for, by claim number; what is not late is among it where early is wanted."""
    from claimpack.book.tables.entries import Wanted
    from claimpack.commands.desk.terms_in_force import TermsInForce
    from claimpack.core.events.states import PENDING
    from claimpack.core.payment.chasing import is_late, matter
    from claimpack.core.payment.letters.maker_letter import LateClaim

    desk.must_know_maker(maker)
    terms = TermsInForce(desk, say)
    numbers = [row.number for row in desk.book.claims(Wanted(states=PENDING, refused_rest=True, maker=maker))]
    found = ToAsk([], [], [], {})
    for entry in desk.book.entries(numbers):
        chased = chased_in(desk, terms, entry)
        asked = matter(chased, desk.day)
        # grounds and evidence are of one claim, so each is contested in a letter of its own
        if asked and asked.contests:
            found.contested.append(chased.number)
        elif asked:
            some = found.late if early or is_late(chased, asked, desk.day) else found.early
            some.append(LateClaim(chased, asked))
        elif chased.terms and chased.terms.unread:
            found.unread[chased.number] = chased.terms.unread
    return found


def note_sent(say: Say, chased: Chased, today: date) -> None:
    """Say of a claim that a letter about it went out already, and when to ask again."""
    from claimpack.core.payment.next_step import letter_sent

    sent = letter_sent(chased.standing, today)
    if sent:
        say.note(f"{chased.number}: {sent}")


def chase_maker(
    desk: Desk, say: Say, maker: str, to: tuple[Path | None, Page], *, early: bool, text: bool, json: bool
) -> int:
    """Write the letter about all that a maker is late with; one of each shop's, where every shop is meant."""
    from claimpack.commands.desk.desk import Desk

    if not desk.world.all_shops:
        facts = _written(desk, say, maker, to, early=early, text=text)
        if json:
            say.document(facts)
        else:
            _tell(say, maker, facts, text=text)
        return _exit_code([facts])
    # each letter goes out under its own shop's name, number and terms
    ones = [Desk(known.world.of_one_shop(), desk.day.isoformat()) for known in desk.shops.desks]
    told = {one.shop_id: _written(one, say, maker, to, early=early, text=text, of=f"{one.shop_id}-") for one in ones}
    if json:
        say.document({"maker": maker, "shops": [{"shop": shop, **facts} for shop, facts in told.items()]})
    for shop, facts in () if json else told.items():
        say.answer(say.styled(shop, "strong"))
        _tell(say, maker, facts, text=text)
    _note_unknown(desk, say)
    return _exit_code(told.values())


def _exit_code(told: Collection[dict[str, Any]]) -> int:
    """0 where a letter was written, 4 where nobody can say whether one is due, 3 where none is."""
    if any(facts["claims"] for facts in told):
        return 0
    return 4 if any(facts["terms_unread"] for facts in told) else 3


def _note_unknown(desk: Desk, say: Say) -> None:
    """Say which shops of the book no letter was written for, since nobody said where their folders are."""
    unknown = [shop for shop in desk.book.shops() if shop and desk.shops.desk_of(shop) is None]
    if unknown:
        say.note(f'No letters of {", ".join(unknown)}: name the folder in shop.toml: shops = {{{unknown[0]} = "DIR"}}')


def _written(
    desk: Desk, say: Say, maker: str, to: tuple[Path | None, Page], *, early: bool, text: bool, of: str = ""
) -> dict[str, Any]:
    """The letter written where something is late, and what scripts are told of it; of is what its file begins with."""
    from claimpack.commands.desk.named_files import write_named
    from claimpack.commands.outgoing.correspondence import address_in, sender_in
    from claimpack.core.payment.letters.letter import as_text
    from claimpack.core.payment.letters.maker_letter import maker_letter
    from claimpack.core.plans.terms import claims_by_terms
    from claimpack.reports.letter import letter_pdf

    found = to_ask(desk, say, maker, early=early)
    beside = {
        "not_late_yet": _as_told(found.early),
        "contested": found.contested,
        "terms_unread": claims_by_terms(found.unread),
    }
    late = found.late
    if not late:
        return {"maker": maker, "claims": [], **beside, "file": None, "text": None}
    for one in late:
        note_sent(say, one.chased, desk.day)
    (out, page), name = to, late[0].chased.maker
    letter = maker_letter(late, sender_in(desk, maker), desk.day)._replace(address=address_in(desk, maker, name))
    path = desk.world.path(out or f"{_as_file_name(maker)}-letter.pdf") if out or not text else None
    # one file a shop, where one command writes for several
    path = path.with_name(f"{of}{path.name}") if path else None
    if path:
        write_named(desk.world, path, letter_pdf(letter, page))
    told = {"maker": name, "claims": _as_told(late), **beside, "file": str(path) if path else None}
    return {**told, "text": as_text(letter)}


def _as_told(some: Sequence[LateClaim]) -> list[dict[str, str]]:
    return [{"claim": one.chased.number, "asks": one.asked.asks, "by": one.asked.by.isoformat()} for one in some]


def _tell(say: Say, maker: str, facts: dict[str, Any], *, text: bool) -> None:
    if not facts["claims"]:
        but = " but what is contested" if facts["contested"] else ""
        but += ", as far as terms can be read" if facts["terms_unread"] else ""
        say.answer(f"{maker}: no letter. There is nothing late to ask for{but}.")
        _note_left_out(say, facts)
        return
    if text:
        say.answer(facts["text"])
    if facts["file"]:
        say.path(Path(facts["file"]))
    _note_left_out(say, facts)
    count = how_many(len(facts["claims"]), "claim")
    say.note(f"{count}. Read it, check the sections and the dealer agreement, and sign it.")
    every = " --all-shops" if say.world.all_shops else ""
    say.note_once(f"Once it went out: claimpack chase --maker {quote(maker)} --sent{every}")


def _as_file_name(maker: str) -> str:
    import re

    from claimpack.core.values.words import folded

    return re.sub(r"[^a-z0-9]+", "-", folded(maker)).strip("-") or "maker"


def _note_left_out(say: Say, facts: dict[str, Any]) -> None:
    """What the letter leaves out: what is not late yet, and what is contested."""
    from claimpack.commands.desk.terms_in_force import tell_unread

    early = facts["not_late_yet"]
    if early:
        numbers = ", ".join(f"{one['claim']} (by {one['by']})" for one in early)
        say.note(f"Accepted by silence, not late yet, left out: {numbers}. To take it in: --early")
    tell_unread(say, {claim: terms for terms, claims in facts["terms_unread"].items() for claim in claims})
    for number in facts["contested"]:
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

    from claimpack.commands.desk.options import a_date
    from claimpack.core.steps.notes import chased
    from claimpack.core.steps.settling import refuse_impossible_day

    day = a_date(again, "--again") if again else None
    # the day after the one the letter names: on that day itself the maker is still in time
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
