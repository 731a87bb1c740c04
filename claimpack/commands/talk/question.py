"""A question of a conversation: the key it fills, how it is asked, and which answers it knows."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

AnySession = Any
"""What is being filled in: a claim or a plan; the questions of each know their own."""

_ONE_KEY, _AT_ONCE = 9, 12


@dataclass(frozen=True)
class Question:
    """One question: the key it fills, how it is asked and explained, and how the answer is read.

    Of lines that come at once, one of `several_lines` takes all; one that `repeats` is asked until it is skipped. An
    answer to one of `days` is a day as people write it, to one of `letters` it begins with no figure. Up to
    `most_numbered` choices have numbers; `offers` are those shown. `example` stands above the question.
    """

    key: str
    asks: str
    help: str
    read: Callable[[str], Any] = str
    choices: Callable[[AnySession], list[str]] = lambda _session: []
    offers: Callable[[AnySession], list[str]] | None = None
    suggestion: Callable[[AnySession], str] = lambda _session: ""
    is_due: Callable[[AnySession], bool] = lambda _session: True
    closed: bool = False
    several_lines: bool = False
    example: str = ""
    repeats: bool = False
    days: bool = False
    letters: bool = False
    most_numbered: int = _ONE_KEY

    @property
    def word(self) -> str:
        """What the question is about, as in `Hour-meter reading`."""
        return re.split(r"[?,:(]", self.asks)[0].strip()

    def numbered(self, session: AnySession) -> list[str]:
        """The choices that have numbers, from 1; none where there are too many."""
        found = (self.offers or self.choices)(session)
        return found if 1 < len(found) <= self.most_numbered else []

    def at_once(self, session: AnySession) -> str:
        """The figures that choose without Enter: none where another answer may begin with one."""
        found = self.numbered(session)
        if len(found) > _ONE_KEY or not (self.closed or self.letters):
            return ""
        begin = {choice[:1] for choice in self.choices(session)}
        return "".join(figure for figure in map(str, range(1, len(found) + 1)) if figure not in begin)

    def shown(self, session: AnySession) -> tuple[list[str], str]:
        """The choices above the question by number, of many the first, which are the likeliest; and what then."""
        found = self.numbered(session)
        return (found, "") if len(found) <= _AT_ONCE else (found[:_ONE_KEY], "? shows all")

    def listed(self, session: AnySession) -> list[str]:
        """All the choices that have numbers, where they do not all stand above the question."""
        found = self.numbered(session)
        return found if len(found) > _AT_ONCE else []

    def explains(self, session: AnySession) -> str:
        """What the question is for, and which answers are known."""
        known = self.choices(session)
        return f"{self.help} One of: {', '.join(known[:20])}." if known and not self.listed(session) else self.help
