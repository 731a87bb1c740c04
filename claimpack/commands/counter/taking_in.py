"""A unit being taken in: what the book knows of it told once, its claim put in under the next free number."""

from __future__ import annotations

from typing import TYPE_CHECKING

from claimpack.commands.desk.options import OPTION_OF
from claimpack.core.values.words import more_than

if TYPE_CHECKING:
    from collections.abc import Sequence

    from claimpack.book.tables.entries import Entry
    from claimpack.book.tables.rows import KeptFile
    from claimpack.commands.desk.desk import Desk
    from claimpack.commands.desk.say import Say
    from claimpack.commands.talk.counter_session import CounterSession
    from claimpack.commands.talk.question import Question
    from claimpack.core.claims.claim import Claim
    from claimpack.core.events.events import NewEvent
    from claimpack.core.plans.campaign import Campaign
    from claimpack.core.plans.plan import Plan
    from claimpack.core.pricing.pricing import Amounts
    from claimpack.core.steps.earlier_visits import Repeat, Visit

# A unit rented out may come in for years; the latest visits tell what is worn. Two counters may take the
# same next number at once, so a few more are tried before giving up.
_MOST_VISITS, _MOST_WARNINGS, _MOST_TRIES = 50, 6, 100

_WHY_OF_A_UNIT = "A claim is about one unit, which its maker, model and serial number name."
_WHY_OF_A_PART = "The plan of a part is found by its maker and the model that the part is for."


class TakingIn:
    """One unit being taken in; every earlier claim about it is told once."""

    def __init__(self, say: Say, desk: Desk, *, quiet: bool, files: Sequence[KeptFile] = ()) -> None:
        self._say, self._desk, self._quiet, self._files = say, desk, quiet, files
        self.warned: dict[str, Repeat] = {}
        self.doubted: set[str] = set()

    def claim_from(self, session: CounterSession, others: Sequence[str], *, ask: bool) -> Claim:
        """The claim as the options and the answers tell it, asking where that is wanted or they do not tell enough.

        Raises:
            BadInput: it lacks what no claim can lack; the command to go on with has `others`, the other options, too.
        """
        from claimpack.commands.talk.answered import as_options
        from claimpack.commands.talk.asking import HOW, converse
        from claimpack.commands.talk.recall import Recall
        from claimpack.errors import BadInput

        recall = Recall(self._say, self._desk, session)

        def heard(question: Question) -> None:
            if question.key.startswith("unit.serials") or question.key == "failure.component":
                self.warn(session.so_far())
                self.doubt_serials(session.so_far(), session.plans)
            recall.look()

        if ask or session.lacks():
            self._say.paragraph(HOW.format(stop="stop ends the questions"))
            try:
                recall.look()
                converse(self._say, session, heard)
            except KeyboardInterrupt:
                self._say.note(f"\nNot opened. To go on: {as_options(session, others)} --ask")
                raise
        self._files = (*self._files, *recall.papers())
        lacks = session.lacks()
        if lacks:
            wanted = ", ".join(OPTION_OF["unit.serials.@unit" if key == "unit.serials" else key] for key in lacks)
            of_a_part = session.said("case") == "part"
            raise BadInput(
                f"not opened: {session.lacks_in_words()}",
                _WHY_OF_A_PART if of_a_part else _WHY_OF_A_UNIT,
                f"Give {wanted} as well: {as_options(session, others)}",
            )
        return session.claim("0")

    def doubt_serials(self, claim: Claim, plans: Sequence[Plan]) -> None:
        """Say of a serial number, once, that it has not the form the plan gives."""
        from claimpack.core.judging.conditions.serial_forms import odd_serials

        for odd in odd_serials(claim, plans):
            if odd not in self.doubted and not self._quiet:
                self._say.paragraph(f"! {odd}", hanging=2)
            self.doubted.add(odd)

    def warn(self, claim: Claim) -> Sequence[Visit]:
        """Say what the book knows of the unit, each earlier claim once; returns the visits."""
        from claimpack.core.steps.earlier_visits import repeats

        visits = self._visits(claim)
        fresh = [found for found in repeats(claim, visits) if self._is_news(found)]
        self.warned |= {found.claim: found for found in fresh}
        if not self._quiet:
            for found in fresh[:_MOST_WARNINGS]:
                self._say.paragraph(f"! {found.because}", hanging=2)
            if more := more_than(fresh, _MOST_WARNINGS):
                self._say.note(f"! {more.capitalize()}: claimpack find {claim.unit.serials[0].value}")
        return visits

    def _is_news(self, found: Repeat) -> bool:
        told = self.warned.get(found.claim)
        return told is None or told.kind != found.kind

    def _visits(self, claim: Claim) -> list[Visit]:
        from claimpack.core.steps.earlier_visits import visit_of

        rows = self._desk.book.with_serials(serial.value for serial in claim.unit.serials)[:_MOST_VISITS]
        entries = self._desk.book.entries([row.number for row in rows])
        return [
            visit_of(entry.claim, entry.standing, self._desk.summary_today(entry), self._amounts(entry))
            for entry in entries
        ]

    def _amounts(self, entry: Entry) -> Amounts | None:
        """What is claimed by a claim that was paid, at its own shop's prices; None where nobody knows them."""
        theirs = self._desk.shops.desk_of(entry.standing.shop) if entry.standing.paid else None
        return theirs.assess(entry).amounts if theirs else None

    def take_in(self, claim: Claim, number: str) -> Entry:
        """Put the claim into the book, with the earlier repairs of the unit, under its number or the next free one.

        Raises:
            BadInput: the number is taken.
        """
        from claimpack.core.events.events import NewEvent
        from claimpack.core.steps.earlier_visits import earlier_repairs

        visits = self.warn(claim)
        earlier = earlier_repairs(claim, visits, self._desk.plan_of(claim))
        if earlier:
            claim = claim.model_copy(update={"earlier": earlier})
        new_event = NewEvent(what="opened", on=self._desk.day)
        if number:
            return self._desk.add(_numbered(claim, number), new_event, self._files)
        return self._under_the_next_number(claim, new_event)

    def _under_the_next_number(self, claim: Claim, new_event: NewEvent) -> Entry:
        """Count on until a number is free: somebody else may take one between looking and writing."""
        from claimpack.core.claims.numbering import next_number, year_prefix
        from claimpack.errors import AlreadyChanged, BadInput

        desk, prefix = self._desk, self._desk.shop.settings.numbers
        beginning = year_prefix(desk.day, prefix)
        for _ in range(_MOST_TRIES):
            number = next_number(desk.day, desk.book.numbers(beginning), prefix)
            try:
                return desk.add(_numbered(claim, number), new_event, self._files)
            except BadInput:
                if number not in desk.book.numbers(beginning):
                    raise
        raise AlreadyChanged("no claim number stayed free long enough", do="Try again, or give one with --number.")

    def tell(self, entry: Entry) -> None:
        """The new number, the answer with its reasons, and what to do next."""
        from claimpack.commands.screen.changes import note_near_names
        from claimpack.commands.screen.telling import note_elsewhere, note_no_plan, tell_verdict
        from claimpack.core.judging.assessment_json import as_json
        from claimpack.core.payment.next_step import before_the_work
        from claimpack.core.values.wording.sentence import Sentence
        from claimpack.core.verdict.matching import near_names

        say, claim = self._say, entry.claim
        assessment = self._desk.assess(entry)
        names = near_names(claim, self._desk.plans)
        reached = self._campaigns(claim)
        self.doubt_serials(claim, self._desk.plans)
        if self._quiet:
            warnings = [found.model_dump() for found in self.warned.values()]
            keys = claim.model_dump(mode="json", include={"earlier"})
            meant = [name._asdict() for name in names]
            told = {"warnings": warnings, "did_you_mean": meant, "odd_serials": sorted(self.doubted)}
            told["first"] = list(before_the_work(assessment, Sentence.plainly))
            told["campaigns"] = [campaign.id for campaign in reached]
            say.document(as_json(assessment) | told | keys)
            return
        say.answer(say.styled(claim.number, "strong"))
        tell_verdict(say, assessment)
        say.note("")
        for step in before_the_work(assessment):
            say.note(step)
        for campaign in reached:
            what = f"campaign {campaign.id} ({campaign.name}), open until {campaign.closes}"
            open_it = f"claimpack open --like {claim.number} --serial {claim.unit.own_serial} --campaign {campaign.id}"
            say.paragraph(f"! This unit is in {what}: {open_it}", hanging=2)
        for repair in claim.earlier:
            say.note(f"Earlier repair carried over: {repair.component}, {repair.repaired}, claim {repair.claim}.")
        note_near_names(say, claim.number, names)
        if not names:
            note_no_plan(say, assessment)
        note_elsewhere(say, assessment)
        say.note(f"Opened. What it still needs: claimpack check {claim.number}")

    def _campaigns(self, claim: Claim) -> tuple[Campaign, ...]:
        """The open campaigns that the unit is in and has not come for, this visit included."""
        from claimpack.core.judging.campaigns_open import campaigns_open, has_come, is_of

        found = campaigns_open(claim, self._desk.plans, self._desk.day)
        if not found:
            return ()
        rows = self._desk.book.with_serials(serial.value for serial in claim.unit.serials)
        before = [
            (entry.claim, entry.standing.state, self._desk.summary_today(entry).verdict)
            for entry in self._desk.book.entries([row.number for row in rows])
        ]
        return tuple(one for one in found if not is_of(claim, one) and not any(has_come(*came, one) for came in before))


def _numbered(claim: Claim, number: str) -> Claim:
    from claimpack.core.claims.claim import Claim
    from claimpack.core.facts.keys import record_from

    return record_from(
        Claim, {**claim.model_dump(mode="json", exclude_unset=True), "number": number}, "open", {"number": "--number"}
    )


def papers_of(entry: Entry) -> list[KeptFile]:
    """The files of a claim's papers, as the book keeps them."""
    return [file for file in entry.files if file.path in entry.claim.paper_files()]
