"""A claim being filled in at the counter: how an answer goes into it, and what it says so far."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cached_property
from pathlib import Path
from typing import Any

import tomlkit
from tomlkit import TOMLDocument

from claimpack.commands.talk.claim_document import put_in, value_in
from claimpack.commands.talk.counter_questions import QUESTIONS, meter_keys, words_of
from claimpack.commands.talk.question import Question
from claimpack.core.claims.claim import Claim
from claimpack.core.facts.keys import record_from
from claimpack.core.plans.plan import Plan
from claimpack.core.values.typed.choices import beginning, chosen
from claimpack.core.values.typed.days import DateOrder, day_written
from claimpack.core.values.words import did_you_mean, folded, nearest
from claimpack.errors import BadInput
from claimpack.file_contents import read_text
from claimpack.files import write_atomically
from claimpack.folder.claim_folder import CLAIM_FILE
from claimpack.folder.file_kinds import with_schema_line
from claimpack.folder.toml_files import parse_toml
from claimpack.folders import make_folders
from claimpack.template_files import Places, read_plans, shipped

_WITHOUT_WHICH_NO_CLAIM = {
    "maker": "the maker",
    "unit.model": "the model",
    "unit.serials": "the unit's serial number",
    "dates.presented": "the day it was brought in",
}
_NEEDED = {
    "number": "0",
    "maker": "?",
    "unit": {"model": "?", "serials": []},
    # a day so late that no rule about days in order speaks while it stands for the one that is missing
    "dates": {"presented": "2999-12-31"},
}


@dataclass
class CounterSession:
    """A claim being filled in; where it has a folder, every answer is saved in its claim.toml at once."""

    folder: Path | None
    places: Places
    today: dt.date
    document: TOMLDocument
    is_new: bool = False
    dates: DateOrder = ""
    doubted: set[tuple[str, str]] = field(default_factory=set)
    meant: dict[str, str] = field(default_factory=dict)

    @property
    def questions(self) -> tuple[Question, ...]:
        """What this conversation asks, in order."""
        return QUESTIONS

    @classmethod
    def open(cls, folder: Path, places: Places, today: dt.date) -> CounterSession:
        """Go on with a folder's claim.toml, or begin one.

        Raises:
            BadInput: the file there is no TOML or says what no claim can, or the place is no folder.
        """
        path = folder / CLAIM_FILE
        if folder.exists() and not folder.is_dir():
            raise BadInput(f"{folder} is a file, not a folder", do="Give the claim a folder of its own.")
        if path.exists():
            text = read_text(path)
            keys = parse_toml(text, str(path))
            session = cls(folder, places, today, tomlkit.parse(text))
            session._tentative(keys, str(path))
            return session
        document = tomlkit.parse(
            with_schema_line(read_text(shipped("claim") / CLAIM_FILE), "claim", folder, places.shop)
        )
        document["number"] = _number_from(folder.name)
        return cls(folder, places, today, document, is_new=True)

    @classmethod
    def in_memory(
        cls, places: Places, today: dt.date, answers: Mapping[str, Any], options: Mapping[str, str], begun: str = ""
    ) -> CounterSession:
        """Begin a claim without a folder, with some keys answered already; they are taken as they are written.

        Args:
            places: where plans are found.
            today: the day it is.
            answers: what the command line says, by the question it answers.
            options: the option that gave each key of the claim, for messages.
            begun: TOML of what another claim tells already; answers go before it.

        Raises:
            BadInput: an answer has no meaning, or contradicts another.
        """
        session = cls(None, places, today, tomlkit.parse(begun))
        for key, typed in answers.items():
            session._put(key, meter_keys(typed) if key == "unit.meter" else typed)
        # options that contradict each other are refused before anything is asked
        session._tentative(session._keys(), "open", options)
        return session

    @cached_property
    def plans(self) -> list[Plan]:
        """The plans within reach."""
        return read_plans(self.places)

    def must_be_new(self) -> None:
        """Refuse to write over a claim that is there.

        Raises:
            BadInput: the folder holds a claim already.
        """
        if self.folder and not self.is_new:
            raise BadInput(
                f"{self.folder / CLAIM_FILE} already exists",
                "A blank file would wipe out what it says.",
                "Edit it, or start in another folder.",
            )

    def is_open(self, question: Question) -> bool:
        """Whether a question is to be asked: it is due, and its key has no answer yet."""
        return self.value(question.key) is None and not self.said(question.key) and question.is_due(self)

    def lacks(self) -> list[str]:
        """The keys without which there is no claim yet."""
        return [key for key in _WITHOUT_WHICH_NO_CLAIM if self.value(key) is None]

    def lacks_in_words(self) -> str:
        """What is missing, as in "the maker, the model and the unit's serial number are missing"."""
        named = [_WITHOUT_WHICH_NO_CLAIM[key] for key in self.lacks()]
        told = " and ".join(filter(None, (", ".join(named[:-1]), *named[-1:])))
        return f"{told} {'is' if len(named) == 1 else 'are'} missing"

    def said(self, key: str) -> str:
        """What the file says under a dotted key, as a person would type it; empty where it says nothing."""
        value = self.value(key)
        if key == "unit.meter" and value is not None:
            hours = self.value("unit.hours")
            return ("" if hours is None else str(hours)) if value else "none"
        if key == "dates.registered" and self.value("dates.never_registered"):
            return "never"
        if isinstance(value, bool):
            return "yes" if value else "no"
        return "" if value is None else str(value)

    def value(self, key: str) -> Any:
        """What the file says under a dotted key; None where it says nothing."""
        return value_in(self.document, key)

    def plan(self) -> Plan | None:
        """The plan of the maker and model answered so far, where it is one."""
        from claimpack.core.verdict.matching import match

        return match(self.so_far(), self.plans).plan

    def words(self) -> Mapping[str, str]:
        """What each key of the claim is called in the words of the questions, for messages."""
        return words_of(self)

    def kept(self, question: Question) -> str:
        """What was made of the last answer to a question."""
        return self.said(question.key)

    def take_back(self, _question: Question) -> str:
        """Take the last answer to a question that repeats away, and tell it; empty where there is none."""
        return ""

    def clear(self, key: str) -> None:
        """Take what is said under a dotted key away."""
        self._put(key, None)

    def fill(self, keys: Mapping[str, Any]) -> None:
        """Put in what is known from elsewhere, where nobody answered yet.

        Raises:
            BadInput: it contradicts an answer; the claim stays as it was.
        """
        before = tomlkit.dumps(self.document)
        try:
            for key, value in keys.items():
                if self.value(key) is None:
                    self._put(key, value)
            self._tentative(self._keys(), "")
        except BadInput:
            self.document = tomlkit.parse(before)
            raise
        self.save()

    def answer(self, question: Question, typed: str) -> None:
        """Take one answer, check the claim with it, and save.

        Args:
            question: the question.
            typed: the answer.

        Raises:
            BadInput: the answer has no meaning, or contradicts another; the file stays as it was.
        """
        value = self._understood(question, typed)
        for day in value.values() if isinstance(value, dict) else (value,):
            if isinstance(day, dt.date) and day > self.today:
                raise BadInput(f"{day} is still to come; today is {self.today}.", do="Give the day it happened.")
        before = tomlkit.dumps(self.document)
        self._put(question.key, value)
        try:
            self._tentative(self._keys(), "", self.words())
        except BadInput:
            self.document = tomlkit.parse(before)
            raise
        self.save()

    def skip(self, question: Question) -> None:
        """Leave a question open; one without whose answer there is no claim is asked twice.

        Raises:
            BadInput: the first time, where there would be no claim.
        """
        # serials are one key, and are asked for by what they are of
        needed = question.key.partition(".@unit")[0] in self.lacks()
        if needed and self._is_new_doubt(question.key, ""):
            raise BadInput("There is no claim without it.", do="Enter again leaves it open.")

    def claim(self, number: str) -> Claim:
        """The claim as answered, under a number.

        Raises:
            BadInput: a key without which there is no claim has no answer.
        """
        return record_from(Claim, {**self._keys(), "number": number}, "the answers")

    def so_far(self) -> Claim:
        """The claim as answered so far; what it lacks stands as a question mark."""
        return self._tentative(self._keys(), "the answers so far")

    def save(self) -> None:
        """Write claim.toml, whole; nothing where there is no folder."""
        if self.folder is None:
            return
        make_folders(self.folder / name for name in ("photos", "papers"))
        write_atomically(self.folder / CLAIM_FILE, tomlkit.dumps(self.document).encode())

    def _understood(self, question: Question, typed: str) -> Any:
        choices = question.choices(self)
        try:
            same = chosen(typed, choices, question.numbered(self), closed=question.closed)
            if same is not None:
                return question.read(same)
            if choices and question.closed:
                raise BadInput(f"{typed!r} is not one of {', '.join(choices)}.", do=did_you_mean(typed, choices))
            return question.read(self._not_doubted(question, self._day(typed) if question.days else typed, choices))
        except ValueError as error:
            raise BadInput(str(error)) from None

    def _day(self, typed: str) -> str:
        day = day_written(typed, self.today, self.dates)
        return day.isoformat() if day else typed

    def _not_doubted(self, question: Question, typed: str, choices: list[str]) -> str:
        """What was typed; of a word that is like a known one, or a maker no plan is for, it asks back once."""
        if folded(typed) in ("y", "yes") and question.key in self.meant:
            return self.meant[question.key]
        begin = beginning(typed, choices)
        # a word typed in part means the one it begins, before any that only looks like it
        near = begin[0] if len(begin) == 1 else nearest(typed, choices)
        strange = bool(choices) and question.key == "maker"
        if (near or strange) and self._is_new_doubt(question.key, typed):
            self.meant = {question.key: near} if near else {}
            hint = f"Did you mean {near!r}?" if near else did_you_mean(typed, choices)
            do = f"{'y takes it; type' if near else 'Type'} it again to keep it as it is."
            raise BadInput(f"{typed!r} is not known. {hint}", do=do.replace("it again", f"{typed!r} again"))
        return typed

    def _is_new_doubt(self, key: str, typed: str) -> bool:
        doubt = (key, folded(typed))
        new = doubt not in self.doubted
        self.doubted.add(doubt)
        return new

    def _put(self, key: str, value: Any) -> None:
        self.document = put_in(self.document, key, value)

    def _keys(self) -> dict[str, Any]:
        return parse_toml(tomlkit.dumps(self.document), CLAIM_FILE)

    def _tentative(self, keys: dict[str, Any], source: str, options: Mapping[str, str] | None = None) -> Claim:
        filled = _NEEDED | keys
        for table in ("unit", "dates"):
            if isinstance(filled[table], dict):
                filled[table] = {**_NEEDED[table], **keys.get(table, {})}  # type: ignore[dict-item]
        return record_from(Claim, filled, source, options)


def _number_from(name: str) -> str:
    # a number goes on tags and into file names, which take no other marks everywhere
    kept = "".join(mark for mark in name if (mark.isascii() and mark.isalnum()) or mark == "-")
    return kept[:24].strip("-") or "1"
