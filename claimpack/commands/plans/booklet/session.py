"""A plan being filled in from a warranty booklet: how an answer goes into it, and what it says so far."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence
from dataclasses import dataclass, field
from decimal import Decimal
from typing import Any

from claimpack.commands.plans.booklet.questions import FIGURES, NEEDED, QUESTIONS
from claimpack.commands.plans.booklet.reading import NONE
from claimpack.commands.talk.question import Question
from claimpack.core.drafting.booklet.answers import answer_of
from claimpack.core.drafting.booklet.keys import plan_keys, timed_and_left_out, windows_of
from claimpack.core.facts.keys import record_from
from claimpack.core.plans.plan import Plan
from claimpack.core.values.money import exact, percent
from claimpack.core.values.periods import Period
from claimpack.core.values.typed.amounts import amount_written, without_unit
from claimpack.core.values.typed.choices import chosen
from claimpack.core.values.typed.days import DateOrder, day_written
from claimpack.core.values.words import did_you_mean
from claimpack.errors import BadInput

_INSTEAD = {"maker": "x", "currency": "USD", "window": [{"id": "x", "covers": ["*"], "period": "P1D"}]}


@dataclass
class BookletSession:
    """The answers so far, as they were typed and as they were read."""

    plan_id: str
    today: dt.date
    dates: DateOrder = ""
    currency: str = ""
    typed: dict[str, str] = field(default_factory=dict)
    values: dict[str, Any] = field(default_factory=dict)
    passed: set[str] = field(default_factory=set)

    @property
    def questions(self) -> Sequence[Question]:
        """What is asked, in the order of a booklet."""
        return QUESTIONS

    def is_open(self, question: Question) -> bool:
        """Whether a question is to be asked: it is due, and was neither answered nor skipped."""
        return question.key not in self.typed and question.key not in self.passed and self._is_due(question)

    def _is_due(self, question: Question) -> bool:
        due: Any = question.is_due
        return bool(due(self))

    def said(self, key: str) -> str:
        """What was answered to a question; empty where nothing was."""
        return self.typed.get(key, "")

    def kept(self, question: Question) -> str:
        """What was taken of the answer just given."""
        value, answer = self.values.get(question.key), answer_of(question.key)
        if answer and value is not None:
            return answer.said(value)
        if isinstance(value, list):
            return ", ".join(value) or "none"
        if isinstance(value, Period):
            return value.in_words()
        if isinstance(value, dt.date):
            return value.isoformat()
        if isinstance(value, Decimal) and question.key not in FIGURES:
            return f"{percent(value)} %"
        return self.typed.get(question.key, "")

    def take_back(self, _question: Question) -> str:
        """Nothing: no question is asked more than once."""
        return ""

    def skip(self, question: Question) -> None:
        """Leave a question without an answer.

        Raises:
            BadInput: there is no plan without the answer.
        """
        if question.key in NEEDED:
            raise BadInput("There is no plan without it.", do=question.help)
        self.passed.add(question.key)

    def answer(self, question: Question, typed: str) -> None:
        """Take one answer, and see whether the plan so far can be one.

        Raises:
            BadInput: the answer has no meaning, or contradicts another; what was said before stays.
        """
        value, before = self._read(question, typed), dict(self.values)
        self.values[question.key] = value
        try:
            self._tentative()
        except BadInput:
            self.values = before
            raise
        self.typed[question.key] = typed
        self.passed.discard(question.key)

    def _read(self, question: Question, typed: str) -> Any:
        ask: Any = question
        try:
            if question.days:
                day = day_written(typed, self.today, self.dates, ahead=True)
                if day is None:
                    raise BadInput(f"{typed!r} is not a day such as 2025-01-01.")
                return day
            if question.key in FIGURES and typed.casefold() not in NONE:
                typed = self._as_coins(typed)
            answer = answer_of(question.key)
            if answer:
                return None if typed.casefold() in NONE else answer.read(typed, self._amount)
            choices = ask.choices(self)
            one = chosen(typed, choices, ask.numbered(self), closed=question.closed) if choices else None
            if one is None and question.closed:
                raise BadInput(f"{typed!r} is not one of {', '.join(choices)}.", do=did_you_mean(typed, choices))
            return question.read(one or typed)
        except ValueError as error:
            raise BadInput(str(error)) from None

    def _as_coins(self, typed: str) -> str:
        currency = self.values.get("currency") or self.currency
        return amount_written(without_unit(typed), currency, "the plan's")

    def _amount(self, typed: str) -> Decimal:
        return exact(self._as_coins(typed))

    def _tentative(self) -> None:
        both = timed_and_left_out(self.values)
        if both:
            raise BadInput(
                f"{', '.join(both)}: said to be covered for a time of its own, and not to be covered",
                do="Say it in one place: leave it out of the answer here, or type back and change the other.",
            )
        keys = plan_keys(self.values, self.plan_id)
        record_from(Plan, {**_INSTEAD, **keys}, "")

    def lacks(self) -> list[str]:
        """What there is no plan without, in words."""
        needed = [question.word for question in QUESTIONS if question.key in NEEDED and question.key not in self.values]
        return needed + ([] if windows_of(self.values) else ["how long anything is covered"])
