"""A sentence: a key and its facts, said in English or in the words of a layout."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import NamedTuple

from claimpack.core.values.numbers_said import figures_said
from claimpack.core.values.periods import Period, counted
from claimpack.core.values.wording import amounts, answers, conditions, cover
from claimpack.core.values.wording.words import WORDS

SAYS: Mapping[str, str] = {**cover.SAYS, **answers.SAYS, **conditions.SAYS, **amounts.SAYS}
"""Every English sentence, by key."""


# fmt: off
FIGURES = frozenset((
    "amount", "asked", "beyond", "cap", "claimed", "clocked", "core", "cost", "distance", "fee", "hours", "least",
    "left", "limit", "limits", "limits_word", "list", "most", "over", "paid", "rate", "reading", "schedule", "step",
    "tax", "value", "worked", "a_week", "count", "days", "hits", "minutes", "short", "usual", "weeks",
))
# fmt: on
"""The facts that hold amounts, hours and readings: kept as scripts read them, said with their thousands apart."""

_OF_SERIALS = frozenset(("why.serial-form",))
"""Sentences whose value is a serial number, and no figure."""


class Sentence(NamedTuple):
    """One thing said: a key of the table and the facts it names.

    Facts whose name ends in `_word` hold keys of the word table, joined by `|` for "or" or `&` for "and"; those that
    end in `_period` hold an ISO 8601 duration. The role of a serial number is said by its word where there is one.
    """

    key: str
    facts: Mapping[str, str] = MappingProxyType({})

    def said(self, says: Mapping[str, str] = SAYS, words: Mapping[str, str] = WORDS, language: str = "en") -> str:
        """The sentence in the words given; English where a table lacks it. Figures are grouped as the language does."""
        facts = {name: _spoken(name, fact, words) for name, fact in self.facts.items()}
        figures = FIGURES - {"value"} if self.key in _OF_SERIALS else FIGURES
        numbers = (name for name in facts if name in figures or name.endswith("_period"))
        return self._with(says, facts | {name: figures_said(facts[name], language) for name in numbers})

    def plainly(self, says: Mapping[str, str] = SAYS) -> str:
        """The sentence in English for scripts, which read figures as they were written down."""
        return self._with(says, {name: _spoken(name, fact, WORDS) for name, fact in self.facts.items()})

    def _with(self, says: Mapping[str, str], facts: Mapping[str, str]) -> str:
        return (says.get(self.key) or SAYS[self.key]).format_map(facts).replace("….", "…")

    def __str__(self) -> str:
        """The sentence in English."""
        return self.said()


def say(key: str, **facts: object) -> Sentence:
    """A sentence with its facts as text."""
    return Sentence(key=key, facts={name: str(fact) for name, fact in facts.items()})


def placeholders(template: str) -> set[str]:
    """The names of the facts a sentence asks for."""
    from string import Formatter

    return {name for _, name, _, _ in Formatter().parse(template) if name}


def _spoken(name: str, fact: str, words: Mapping[str, str]) -> str:
    if name.endswith("_word"):
        return _joined(fact, words)
    if name.endswith("_period"):
        return period_in_words(fact, words)
    return serial_role(fact, words) if name == "role" else fact


def _joined(fact: str, words: Mapping[str, str]) -> str:
    for mark, between in (("|", "or"), ("&", "and")):
        if mark in fact:
            said = [_word(part, words) for part in fact.split(mark)]
            return f"{', '.join(said[:-1])} {_word(between, words)} {said[-1]}"
    return _word(fact, words)


def _word(key: str, words: Mapping[str, str]) -> str:
    return words.get(key) or WORDS.get(key, key)


def serial_role(role: str, words: Mapping[str, str] = WORDS) -> str:
    """What a serial number is of, in words; as the claim or the plan writes it where no word is known for it."""
    key = f"serial.{role.casefold()}"
    return words.get(key) or WORDS.get(key, role)


def period_in_words(iso: str, words: Mapping[str, str] = WORDS) -> str:
    """An ISO 8601 duration as a person says it: `24 months`, `1 year and 6 months`."""
    units = ("year", "month", "week", "day")
    parts = [
        f"{count} {_word(unit if count == 1 else unit + 's', words)}"
        for count, unit in zip(counted(iso) or Period(), units, strict=True)
        if count
    ]
    return f" {_word('and', words)} ".join(parts) or f"0 {_word('days', words)}"


def days_in_words(count: int) -> str:
    """A number of days as an ISO 8601 duration, for a fact that is spoken."""
    return f"P{count}D"
