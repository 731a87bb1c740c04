"""What a maker answers to a filed claim, and where its answers leave the claim."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from decimal import Decimal
from typing import Literal

from claimpack.core.claim import Record
from claimpack.core.money import Number
from claimpack.core.words import Text

AnswerKind = Literal["accepted", "part", "refused", "questioned"]


class Answer(Record):
    """What the maker answered, on the day it came in; amount where it accepts a part, form where only that is wrong.

    `after` counts the payments recorded before it. `silent`: nobody answered, and the terms count that as a refusal.
    """

    on: date
    answer: AnswerKind
    amount: Number | None = None
    because: Text = ""
    form: bool = False
    after: int = 0
    silent: bool = False

    @property
    def accepts(self) -> bool:
        """Whether the maker pays all of it or a part."""
        return self.answer in ("accepted", "part")


UNANSWERED: Mapping[str, object] = {
    "answers": (),
    "answered": None,
    "because": "",
    "refused_for_form": False,
    "accepted": None,
    "accepted_on": None,
}
"""What is known of the answer to a claim that has none."""


def left_by(answers: tuple[Answer, ...], claimed: Decimal) -> dict[str, object]:
    """Where the answers since the last filing leave a claim; the last one counts, and without one it is filed.

    Source: common practice, no source.
    """
    if not answers:
        return {**UNANSWERED, "state": "filed"}
    last = answers[-1]
    amount = claimed if last.amount is None else last.amount
    return {
        "state": "accepted" if last.accepts else last.answer,
        "answers": answers,
        "answered": last.on,
        "because": last.because,
        "refused_for_form": last.answer == "refused" and last.form,
        "accepted": amount if last.accepts else None,
        "accepted_on": last.on if last.accepts else None,
    }
