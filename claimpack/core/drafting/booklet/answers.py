"""Which answers about a warranty booklet say several things at once, how each is read, and how it is said back."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any, NamedTuple

from claimpack.core.drafting.booklet import cover_answers as cover
from claimpack.core.drafting.booklet import pay_answers as pay
from claimpack.core.drafting.booklet.pieces import Amount


class AnswerForm(NamedTuple):
    """How an answer that says several things is read, and how it is said back."""

    read: Callable[[str, Amount], Any]
    said: Callable[[Any], str]


ANSWERS: Mapping[str, AnswerForm] = {
    "shares": AnswerForm(cover.shares_read, cover.shares_said),
    "handling": AnswerForm(pay.handling_read, pay.handling_said),
    "labour_rates": AnswerForm(pay.rates_read, pay.rates_said),
    "extras": AnswerForm(pay.extras_read, pay.extras_said),
    "travel": AnswerForm(pay.travel_read, pay.travel_said),
    "unit_cap": AnswerForm(pay.unit_cap_read, pay.unit_cap_said),
    "papers": AnswerForm(pay.papers_read, pay.papers_said),
    "findings": AnswerForm(pay.findings_read, pay.findings_said),
    "serials": AnswerForm(cover.serials_read, cover.serials_said),
    "model_years": AnswerForm(cover.years_read, cover.years_said),
}
"""Answers by their question; those about limits go by the question's key, which ends in `.hours`."""

OF_LIMITS = AnswerForm(cover.limits_read, cover.limits_said)


def answer_of(key: str) -> AnswerForm | None:
    """How the answer to a question is read, where it says several things."""
    return OF_LIMITS if key.endswith(".hours") else ANSWERS.get(key)
