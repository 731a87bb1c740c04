"""A repair written down at its end: what was found, done, used and kept, and the day it was ready."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any, get_args

import tomlkit

from claimpack.commands.talk.counter_questions import QUESTIONS
from claimpack.commands.talk.counter_session import CounterSession
from claimpack.commands.talk.question import Question
from claimpack.commands.typed.parts_list import in_list_of, must_have_a_name
from claimpack.core.claims.claim import Claim
from claimpack.core.claims.parts_list_row import differs, filled_in
from claimpack.core.facts.fields import Defect
from claimpack.core.facts.keys import record_from
from claimpack.core.facts.lines import HeldPart, Labour, Part
from claimpack.core.pricing.labour import operation_meant
from claimpack.core.pricing.working_time import must_fit_a_day
from claimpack.core.values.money import grouped, plain
from claimpack.core.values.typed.amounts import amount_written
from claimpack.core.values.typed.choices import chosen
from claimpack.core.values.words import folded
from claimpack.errors import BadInput
from claimpack.folder.claim_toml import claim_to_toml

if TYPE_CHECKING:
    from claimpack.commands.desk.desk import Desk

PART, LABOUR, HELD, DRAINED = "+part", "+labour", "+held", "+drained"
_LAST = {"sent": {"source": "maker"}, "owner": {"payer": "owner"}, "shop": {"payer": "shop"}}
_QUANTITY = re.compile(r"x\d[\d.]*", re.IGNORECASE)
_HOURS = re.compile(r"\d+(\.\d+)?", re.ASCII)


def _operations(session: CounterSession) -> list[str]:
    plan = session.plan()
    return [operation.code for operation in plan.operation] if plan else []


def _counts_days(session: CounterSession) -> bool:
    plan = session.plan()
    return plan is not None and plan.counts_time_in_repair


FINISHING: tuple[Question, ...] = (
    Question("failure.cause", "What caused it?", "What the technician found.", several_lines=True),
    Question("failure.correction", "What was done about it?", "The repair, in a sentence.", several_lines=True),
    next(question for question in QUESTIONS if question.key == "failure.component"),
    Question(
        "failure.defect",
        "What kind of defect?",
        "Some kinds are excluded by every plan.",
        choices=lambda _session: list(get_args(Defect)),
        closed=True,
    ),
    Question(
        PART,
        "Part used? (Enter: no more)",
        "Its number; the parts list knows the rest. Else: NUMBER x2 =38.15 NAME; at the end sent, owner or shop.",
        repeats=True,
    ),
    Question(
        LABOUR,
        "Labour? (Enter: no more)",
        "An operation of the maker's schedule, or words; then the hours, as in: coil-replace 0.8.",
        choices=_operations,
        repeats=True,
    ),
    Question(
        HELD,
        "Failed part kept on shelf? (n = not kept)",
        "The maker may call it back; without it the claim is charged back.",
        is_due=lambda session: not session.value("held"),
    ),
    Question(
        DRAINED,
        "Fuel and oil drained (y/n)?",
        "A used engine is a fire hazard.",
        read=next(question for question in QUESTIONS if question.key == "owner.first_owner").read,
        is_due=lambda session: bool(session.value(HELD)),
    ),
    Question(
        "dates.repaired",
        "Repaired on?",
        "The maker's time to file runs from it.",
        read=next(question for question in QUESTIONS if question.key == "dates.failed").read,
        days=True,
        suggestion=lambda session: session.today.isoformat(),
    ),
    Question(
        "dates.returned",
        "Owner told that it is ready on?",
        "Days in repair lengthen cover under this plan. Enter if nobody told the owner yet.",
        read=next(question for question in QUESTIONS if question.key == "dates.failed").read,
        days=True,
        is_due=_counts_days,
    ),
)
"""What a finished repair is asked about, in the order of the bench."""
_ASKED = {question.key: question for question in FINISHING}


@dataclass
class FinishSession(CounterSession):
    """A claim of the book being finished; what is added to its lists stands beside its document until it is kept."""

    desk: Desk | None = None
    parts: list[Part] = field(default_factory=list)
    labour: list[Labour] = field(default_factory=list)
    held: list[HeldPart] = field(default_factory=list)
    notes: dict[str, str] = field(default_factory=dict)

    @classmethod
    def of(cls, desk: Desk, claim: Claim) -> FinishSession:
        """Finish a claim of the book."""
        document = tomlkit.parse(claim_to_toml(claim))
        return cls(None, desk.places, desk.day, document, dates=desk.shop.settings.dates, desk=desk)

    @property
    def questions(self) -> tuple[Question, ...]:
        """What this conversation asks, in order."""
        return FINISHING

    def words(self) -> Mapping[str, str]:
        """What each key of the claim is called, for messages."""
        return {question.key: question.word for question in FINISHING}

    def value(self, key: str) -> Any:
        """What the claim says under a key; what was added to a list only where it is asked for once."""
        if key == HELD:
            return self.held[-1].part if self.held else None
        if key == DRAINED:
            return self.held[-1].drained if self.held else None
        # never answered, so that they are asked until nobody has any more
        return None if key in (PART, LABOUR) else super().value(key)

    def kept(self, question: Question) -> str:
        """What was made of the last answer to a question."""
        if question.key not in (PART, LABOUR, HELD):
            return super().kept(question)
        listed: list[Any] = self.held if question.key == HELD else self._added(question)
        if not listed:
            return "not kept"
        last = listed[-1]
        said = self.notes.pop(last.number, "") if isinstance(last, Part) else ""
        return ". ".join(text for text in (_told(last), said) if text)

    def answer(self, question: Question, typed: str) -> None:
        """Take one answer; one that is refused leaves no trace in the lists either."""
        # lists are replaced and never changed in place, so that keeping the old ones is enough
        before = self.parts, self.labour, self.held
        try:
            super().answer(question, typed)
        except BadInput:
            self.parts, self.labour, self.held = before
            raise

    def take_back(self, question: Question) -> str:
        """Take the last part or labour that was added away, and tell it; empty where there is none."""
        listed = self._added(question)
        return _told(listed.pop()) if listed else ""

    def _added(self, question: Question) -> list[Any]:
        return self.parts if question.key == PART else self.labour if question.key == LABOUR else []

    def _put(self, key: str, value: Any) -> None:
        if key == PART:
            self.parts = [*self.parts, value]
        elif key == LABOUR:
            self.labour = [*self.labour, value]
        elif key == HELD:
            self.held = [value] if value else []
        elif key == DRAINED:
            self.held = [held.model_copy(update={"drained": value}) for held in self.held]
        else:
            super()._put(key, value)

    def _keys(self) -> dict[str, Any]:
        keys = super()._keys()
        for name in ("parts", "labour", "held"):
            added = [each.model_dump(mode="json", exclude_unset=True) for each in getattr(self, name)]
            if added:
                keys[name] = [*keys.get(name, []), *added]
        return keys

    def _understood(self, question: Question, typed: str) -> Any:
        reads = {PART: self._part, LABOUR: self._labour, HELD: self._held}.get(question.key)
        return reads(typed) if reads else super()._understood(question, typed)

    def _part(self, typed: str) -> Part:
        """A part by `NUMBER [xN] [=COST] [NAME] [sent] [owner|shop]`."""
        number, *words = typed.split()
        keys: dict[str, Any] = {"number": number, "source": "stock"}
        # from the end alone: a part may be called owner's manual
        while words and words[-1].casefold() in _LAST:
            keys |= _LAST[words.pop().casefold()]
        named = []
        for word in words:
            if _QUANTITY.fullmatch(word):
                keys["quantity"] = word[1:]
            elif word.startswith("="):
                keys["unit_cost"] = self._amount(word[1:])
            else:
                named.append(word)
        keys["name"] = " ".join(named)
        listed = in_list_of(self.desk, self.said("maker"), number) if self.desk else None
        keys = filled_in(keys, listed)
        must_have_a_name(keys, "NAME")
        used = record_from(Part, keys, "part", {"quantity": "xN", "unit_cost": "=COST"})
        self.notes[used.number] = differs(used, listed)
        return used

    def _amount(self, written: str) -> str:
        plan = self.plan()
        own = str(self._keys().get("currency") or (plan.currency if plan else ""))
        shops = self.desk.shop.settings.currency if self.desk else None
        try:
            return amount_written(written, own or shops or "", "the claim's" if own else "the shop's")
        except ValueError as error:
            raise BadInput(f"=COST: {error}") from None

    def _labour(self, typed: str) -> Labour:
        """Labour by `OPERATION [HOURS]`; the operation by its number, code or name, or in words with the hours."""
        *words, last = typed.split()
        said, hours = (" ".join(words), last) if words and _HOURS.fullmatch(last) else (typed, "")
        codes, plan = _operations(self), self.plan()
        try:
            # numbers are taken only where they stood on the screen beside the codes
            code = chosen(said, codes, _ASKED[LABOUR].numbered(self), closed=True)
        except ValueError as error:
            raise BadInput(str(error)) from None
        meant = operation_meant(code or said, plan)
        known = plan is not None and plan.scheduled_operation(meant.operation) is not None
        # work outside the schedule has no hours but those that are said
        if not hours and not known:
            raise BadInput(
                f"{said!r} is not in the maker's schedule, so say how long it took.",
                do=f"As in: {said} 0.5{''.join(meant.note.partition(' Did')[1:])}",
            )
        keys = {"operation": meant.operation, "technician": self.desk.world.own_name() if self.desk else ""}
        entry = record_from(Labour, keys | ({"hours": hours} if hours else {}), "labour")
        if self.desk:
            must_fit_a_day(
                entry, self.desk.world.shown, "Correct it; work over several days is written down day by day."
            )
        return entry

    def _held(self, typed: str) -> HeldPart | None:
        """The failed part, kept on a shelf; None where it was not kept."""
        if folded(typed) in ("n", "no", "not kept"):
            return None
        part = self.said("failure.component")
        if not part:
            raise BadInput("Nobody said what failed.", do="Say it first: back, to what failed.")
        shelf = "" if folded(typed) in ("y", "yes") else typed
        number = str(super().value("failure.part.number") or "")
        return record_from(HeldPart, {"part": part, "number": number, "shelf": shelf, "since": self.today}, "held")


def _told(added: Part | Labour | HeldPart) -> str:
    """A part, labour or held part as it is told."""
    if isinstance(added, Part):
        cost = ", sent by the maker" if added.source == "maker" else f" x {grouped(added.unit_cost)}"
        pays = "" if added.payer == "maker" else f", the {added.payer} pays"
        return f"{added.name} ({added.number}), {plain(added.quantity)}{cost}{pays}"
    if isinstance(added, Labour):
        return f"{added.operation}, {f'{plain(added.hours)} h' if added.hours is not None else 'by the schedule'}"
    return f"{added.part} held since {added.since}{f', shelf {added.shelf}' if added.shelf else ''}"
