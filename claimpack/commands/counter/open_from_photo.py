"""A claim taken in from a picture of the unit's plate: what it shows is proposed, and the picture goes on the claim."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Sequence

    from claimpack.commands.desk.desk import Desk
    from claimpack.commands.desk.say import Say
    from claimpack.commands.talk.counter_session import CounterSession
    from claimpack.core.reading.read_text import Proposal, TextRead

_SHOT = "serial plate"


class PlatePhoto:
    """The picture of a plate: read once, offered, and put on the claim that was opened."""

    def __init__(self, desk: Desk, say: Say, file: Path) -> None:
        from claimpack.commands.desk.named_files import read_from
        from claimpack.evidence.reading.letters import can_read_letters, no_letters
        from claimpack.evidence.reading.reading import read_picture

        self._desk, self._say, self._file = desk, say, file
        self._path = read_from(desk.world, file, "photo")
        if not can_read_letters():
            say.note(no_letters())
        self._lines: Sequence[TextRead] = read_picture(self._path, str(file), letters=can_read_letters())

    def offer(self, session: CounterSession, *, take: bool) -> None:
        """Fill in what the plate shows, where nobody answered yet and somebody says that it holds."""
        from claimpack.core.claims.recalled import facts_in_words
        from claimpack.core.reading.unit_shown import unit_shown
        from claimpack.errors import BadInput

        order = self._desk.shop.settings.dates
        shown = unit_shown(self._lines, session.plans, session.said("maker"), self._desk.day, order)
        facts = {_question(each): each.text for each in shown}
        facts = {key: text for key, text in facts.items() if session.value(key) is None}
        if not facts:
            self._say.note(f"{self._file}: nothing in it reads as a maker, a model or a serial number that is wanted.")
            return
        self._say.paragraph(f"  {self._file} shows: {facts_in_words(facts)}", hanging=2)
        if take or self._agrees():
            try:
                session.fill(facts)
            except BadInput as wrong:
                self._say.note(f"  Not taken over: {wrong.lines()[0]}")

    def _agrees(self) -> bool:
        from claimpack.commands.talk.yes_or_no import says_yes

        if not self._say.world.stdin.isatty():
            self._say.note("  Nobody has looked at it, so it is not taken over; --take does that.")
            return False
        return bool(says_yes(self._say, "  Take it over?"))

    def put_on(self, number: str) -> None:
        """Put the picture on the claim, as its serial plate, with what was read off it."""
        from claimpack.commands.pictures.photo_filing import Incoming, take_in
        from claimpack.core.reading.compared import proposed, with_read
        from claimpack.core.verdict.matching import may_fall_under
        from claimpack.evidence.pictures.likeness import look_at

        desk, name = self._desk, str(self._file)
        seen = look_at(self._path, name)
        desk.keep_all([self._path], [seen.sha256])
        with desk.changing(number) as changing:
            taken = take_in(changing, [Incoming(name, self._path, seen, _SHOT)], f"photos: {self._path.name}"[:200])
        with desk.changing(number) as changing:
            claim, fitting = changing.claim, may_fall_under(changing.claim, desk.plans)
            found = proposed(self._lines, claim, fitting, _SHOT, desk.day, desk.shop.settings.dates)
            after = with_read(claim, taken.added[0][1].file, found, {})
            if after != claim:
                told = ", ".join(f"{each.proposal.key} {each.proposal.text}" for each in found)
                changing.keep(after, why=f"read: {taken.added[0][1].file}"[:200], facts={"proposed": told})
        self._say.note(f"{name} is on {number}, as its serial plate.")


def _question(proposal: Proposal) -> str:
    """The question that a proposal answers."""
    from claimpack.core.reading.serials import KEY

    key = proposal.key
    return f"unit.serials.@{key.removeprefix(KEY)}" if key.startswith(KEY) else key
