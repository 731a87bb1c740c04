"""What a plate or a meter says beside serial numbers: the model, the day of build, the hours."""

from __future__ import annotations

import datetime as dt
import re
from collections.abc import Sequence
from contextlib import suppress
from decimal import Decimal
from fnmatch import fnmatchcase

from claimpack.core.reading.labels import behind
from claimpack.core.reading.look_alikes import same_number, swapped, tidied
from claimpack.core.reading.read_text import Proposal, TextRead
from claimpack.core.values.money import plain
from claimpack.core.values.typed.days import DateOrder, day_written
from claimpack.core.values.words import folded

_MODEL = re.compile(r"(?:MODEL|MODELL|MOD\.?|TYPE)(?: ?(?:NO|NUMBER|NR)\b)?[ .:#]*(?P<value>.*)", re.IGNORECASE)
_BUILT = re.compile(
    r"(?:BUILT|MADE|MFG|MFD|MANUFACTURED|DATE OF (?:BUILD|MANUFACTURE)|BUILD DATE)(?: (?:ON|DATE))?[ .:]*(?P<value>.*)",
    re.IGNORECASE,
)
_READS = re.compile(r"(?:HOURS?|HRS?|H)?[ .:]*(?P<value>\d{1,5}(?:[.,]\d)?)\s*(?:HOURS?|HRS?|H)?", re.IGNORECASE)


def proposed_model(lines: Sequence[TextRead], models: Sequence[str], typed: str) -> Proposal | None:
    """The model a plate names: the one that is typed, else the one text behind the word for it.

    Args:
        lines: what was read.
        models: the models of the plans in question, where `*` stands for any letters and digits; the text has to be
            one of them where there are any.
        typed: the model that the claim names; empty for none.

    Source: a rule of this tool's, no source.
    """
    # word by word as well: a plate says the model in the middle of a line
    words = [(word, line) for line in lines for word in (tidied(line.text), *map(tidied, line.text.split()))]
    for word, line in words:
        if typed and same_number(word, typed):
            return Proposal("unit.model", typed, line.by, line.spot)
    found: dict[str, Proposal] = {}
    for value, line in behind(_MODEL, lines):
        settled = _of_models(value, models)
        if settled:
            raw = value if settled != value else ""
            found.setdefault(folded(settled), Proposal("unit.model", settled, line.by, line.spot, raw))
    return next(iter(found.values())) if len(found) == 1 else None


def _of_models(value: str, models: Sequence[str]) -> str:
    """A text as one of the models, with marks that look alike swapped; empty where it is none, or may be several."""
    known = [model.upper() for model in models if model != "*"]
    if not known:
        return value
    least: int | None = None
    found: list[str] = []
    for bent, changed in swapped(value.upper()):
        # more swaps are not looked at once fewer have led to a model
        if least is not None and bent > least:
            break
        if any(fnmatchcase(changed, model) for model in known):
            least = bent
            found.append(changed)
    return found[0] if len(found) == 1 else ""


def proposed_build(lines: Sequence[TextRead], today: dt.date, order: DateOrder) -> Proposal | None:
    """The day of build behind the word for it; none where only month or year is told, or it reads two ways.

    Source: a rule of this tool's, no source.
    """
    for value, line in behind(_BUILT, lines):
        day = _day(value, today, order)
        if day and day <= today:
            return Proposal("unit.built", day.isoformat(), line.by, line.spot)
    return None


def _day(text: str, today: dt.date, order: DateOrder) -> dt.date | None:
    # without a year it would be taken for one of this year
    if re.search(r"\d{4}|\d\D+\d+\D+\d\d", text):
        with suppress(ValueError):
            return day_written(text, today, order)
    return None


def proposed_hours(lines: Sequence[TextRead]) -> Proposal | None:
    """The hours a meter reads, where one number alone is in the picture; a comma before one digit is a point.

    Source: a rule of this tool's, no source.
    """
    read = [(found["value"], line) for line in lines if (found := _READS.fullmatch(tidied(line.text)))]
    # two numbers in the picture, and nobody knows which of them is the meter
    told = {plain(Decimal(value.replace(",", "."))): (value, line) for value, line in read}
    if len(told) != 1:
        return None
    hours, (value, line) = next(iter(told.items()))
    return Proposal("unit.hours", hours, line.by, line.spot, "" if hours == value else value)
