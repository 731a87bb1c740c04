"""Unit and owner recalled from earlier claims during a conversation: shown, and taken over only on a yes."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Sequence

    from claimpack.book.tables.entries import Entry
    from claimpack.book.tables.rows import KeptFile
    from claimpack.commands.desk.desk import Desk
    from claimpack.commands.desk.say import Say
    from claimpack.commands.talk.counter_session import CounterSession
    from claimpack.core.claims.recalled import Facts

_MOST_CLAIMS, _MOST_OWNERS = 50, 9


class Recall:
    """What the book knows of the unit and the owner of a claim being taken in, each offered once."""

    def __init__(self, say: Say, desk: Desk, session: CounterSession) -> None:
        self._say, self._desk, self._session = say, desk, session
        self._offered: set[str] = set()
        self._proved_by: Entry | None = None

    def look(self) -> None:
        """Offer what is known as soon as maker, model and serial are, or the phone is."""
        said = self._session.said
        serial, phone = said("unit.serials.@unit"), said("owner.phone")
        if serial and said("maker") and said("unit.model") and self._is_new(f"unit {serial}"):
            self._offer_unit(serial)
        if phone and self._is_new(f"owner {phone}"):
            self._offer_owner(phone)

    def _is_new(self, known_by: str) -> bool:
        new = known_by not in self._offered
        self._offered.add(known_by)
        return new

    def papers(self) -> list[KeptFile]:
        """The proof of purchase taken over; where another owner was named after all, it is taken off the claim."""
        entry, session = self._proved_by, self._session
        if entry is None:
            return []
        # a receipt of another owner proves nothing of this one
        if session.said("owner.name") != entry.claim.owner.name:
            session.clear("proof.file")
        return [file for file in entry.files if file.path == session.said("proof.file")]

    def _fill(self, facts: Facts) -> None:
        """Put facts in; where they contradict what was answered, none of them, and why is told."""
        from claimpack.errors import BadInput

        try:
            self._session.fill(facts)
        except BadInput as wrong:
            self._say.note(f"  Not taken over: {wrong.lines()[0]}")

    def _offer_unit(self, serial: str) -> None:
        from claimpack.core.claims.recalled import owner_facts, unit_facts

        entry = self._last_with(serial)
        if entry is None:
            return
        facts = self._news(unit_facts(entry.claim))
        # shown before they are taken: a number may have been typed that belongs to another machine
        if facts and self._agrees(f"The unit as on {entry.claim.number}", facts):
            self._fill(facts)
        owner = self._news(owner_facts(entry.claim, of_the_unit=True))
        if "owner.name" in owner and self._agrees("Still the same owner", owner):
            self._fill(owner)
            self._proved_by = entry

    def _last_with(self, serial: str) -> Entry | None:
        """The last claim about the unit of that serial number, of the same maker and model."""
        from claimpack.core.values.words import folded, run_on

        said = [folded(self._session.said(key)) for key in ("maker", "unit.model")]
        makers = {folded(word) for word in self._desk.spellings(self._session.said("maker"))} | {said[0]}
        rows = self._desk.book.with_serials([serial])[:_MOST_CLAIMS]
        by_number = {entry.claim.number: entry for entry in self._desk.book.entries([row.number for row in rows])}
        for row in rows:
            claim = by_number[row.number].claim
            is_unit = run_on(claim.unit.serial("unit")) == run_on(serial)
            if is_unit and folded(claim.maker) in makers and folded(claim.unit.model) == said[1]:
                return by_number[row.number]
        return None

    def _offer_owner(self, phone: str) -> None:
        from claimpack.book.tables.entries import Wanted
        from claimpack.core.claims.recalled import owner_facts, owners_by_phone

        if self._session.said("owner.name"):
            return
        rows = self._desk.book.claims(Wanted(text=phone, limit=_MOST_CLAIMS))
        entries = self._desk.book.entries([row.number for row in rows])
        known = owners_by_phone((entry.claim for entry in entries), phone)[:_MOST_OWNERS]
        facts = [self._news(owner_facts(claim)) for claim in known]
        if len(known) > 1:
            self._choose(facts)
        elif known and self._agrees(f"The owner of {known[0].number}", facts[0]):
            self._fill(facts[0])

    def _choose(self, owners: Sequence[Facts]) -> None:
        from claimpack.commands.talk.asking import typed_at
        from claimpack.core.claims.recalled import facts_in_words

        self._say.choices([facts_in_words(each) for each in owners])
        figures = "".join(str(place + 1) for place in range(len(owners)))
        asked = "  Several owners have this phone. Which? [none]"
        typed = (typed_at(self._say, asked, figures).answer or "").strip()
        if typed.isdecimal() and 1 <= int(typed) <= len(owners):
            self._fill(owners[int(typed) - 1])

    def _news(self, facts: Facts) -> Facts:
        return {key: value for key, value in facts.items() if self._session.value(key) is None}

    def _agrees(self, what: str, facts: Facts) -> bool:
        """Whether the user says that facts still hold; anything but a yes is a no."""
        from claimpack.commands.talk.yes_or_no import says_yes
        from claimpack.core.claims.recalled import facts_in_words

        self._say.paragraph(f"  {what}: {facts_in_words(facts)}", hanging=2)
        return bool(says_yes(self._say, "  Take it over?"))
