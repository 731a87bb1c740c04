"""Text as people type it: checked, cleaned, and compared word for word."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterable, Sequence, Sized
from functools import lru_cache
from typing import Annotated, Any

from claimpack.core.values.marks import BeforeValidator, Field

LONGEST_TEXT = 20_000
LONGEST_LINE = 300
_MOST_CHOICES = 12


def clean(value: Any) -> Any:
    """Text in composed Unicode, outer blanks off; anything but text is left for the model to refuse.

    Raises:
        ValueError: the text carries control characters, or half of a surrogate pair.
    """
    if not isinstance(value, str):
        return value
    # one letter written two ways would be two names to a search
    text = unicodedata.normalize("NFC", value.replace("\r\n", "\n")).strip()
    # what can be printed holds none, which is nearly every text
    for mark in "" if text.isprintable() else text:
        # a terminal obeys them, and no typeface has them
        if unicodedata.category(mark) in ("Cc", "Cs") and mark not in "\n\t":
            raise ValueError(f"holds the control character U+{ord(mark):04X}, which cannot be printed")
    return text


def one_line(value: Any) -> Any:
    """Clean text without line breaks or tabs.

    Raises:
        ValueError: the text carries control characters.
    """
    text = clean(value)
    return " ".join(text.split()) if isinstance(text, str) else text


Text = Annotated[str, BeforeValidator(clean), Field(max_length=LONGEST_TEXT)]
"""Text of several lines."""

Line = Annotated[str, BeforeValidator(one_line), Field(max_length=LONGEST_LINE)]
"""Text of one line."""

Named = Annotated[str, BeforeValidator(one_line), Field(min_length=1, max_length=LONGEST_LINE)]
"""Text of one line that says something."""


def folded(word: str) -> str:
    """A word for comparing: no matter its case, or blanks, hyphens and underscores between its parts."""
    return " ".join(word.casefold().replace("_", " ").replace("-", " ").split())


folded_often = lru_cache(maxsize=2000)(folded)
"""The same for words that come again and again: components, roles, shelves."""


@lru_cache(maxsize=2000)
def word_set(phrase: str) -> tuple[str, ...]:
    """The words of a phrase for comparing, whatever their order and the marks between: parts lists say COIL, IGNITION.

    A phrase of marks alone is one word.
    """
    return tuple(sorted(re.findall(r"\w+", folded(phrase)))) or (folded(phrase),)


def run_on(number: str) -> str:
    """A serial or part number for comparing: people leave out its hyphens and blanks, or put in others."""
    return folded(number).replace(" ", "")


def is_among(word: str, words: Iterable[str]) -> bool:
    """Whether a word is one of the words; `*` stands for every word."""
    return any(other == "*" or folded(other) == folded(word) for other in words)


def is_said(word: str, words: Iterable[str]) -> bool:
    """Whether somebody said a word among others; what people say has no `*`."""
    return folded(word) in {folded(other) for other in words}


def nearest(word: str, known: Iterable[str], alike: float = 0.6) -> str | None:
    """The known word that a mistyped one most likely meant, if any is near; `alike` is the least likeness, up to 1."""
    from difflib import get_close_matches

    by_fold = {folded_often(other): other for other in known}
    found = get_close_matches(folded_often(word), by_fold, n=1, cutoff=alike)
    return by_fold[found[0]] if found else None


def beginning(told: str, longest: int) -> str:
    """A text as far as so many letters go, ended after a word, with a mark where more follows."""
    if len(told) <= longest:
        return told
    head = told[:longest]
    if not told[longest].isspace():
        whole = head.rsplit(None, 1)
        # a word that is longer than all of it is cut
        if len(whole) < 2:
            return f"{head}…"
        head = whole[0]
    return f"{head.rstrip()} …"


def on_one_line(address: str) -> str:
    """The lines of an address behind each other, a comma between them."""
    lines = (" ".join(line.split()).rstrip(",") for line in address.splitlines())
    return ", ".join(line for line in lines if line)


def some_of(names: Sequence[str], most: int, between: str = ", ") -> str:
    """Names in a row; of many the first so many, and how many more there are, as in `A1, B2 and 3 more`."""
    return " ".join(part for part in (between.join(names[:most]), more_than(names, most)) if part)


def more_than(things: Sized, most: int) -> str:
    """How many there are beyond the first so many, as in `and 3 more`; empty where there are none."""
    return f"and {len(things) - most:,} more" if len(things) > most else ""


def some_lines(lines: Sequence[str], most: int) -> list[str]:
    """Lines below each other; of many the first so many, and how many more there are, as far in as those."""
    told = list(lines[:most])
    lead = told[0][: len(told[0]) - len(told[0].lstrip())] if told else ""
    return [*told, f"{lead}{more}"] if (more := more_than(lines, most)) else told


def did_you_mean(word: str, known: Iterable[str]) -> str:
    """A sentence that suggests the nearest known word, or lists the known ones, or nothing."""
    choices = list(known)
    near = nearest(word, choices)
    if near:
        return f"Did you mean {near!r}?"
    return f"Known: {some_of(sorted(choices), _MOST_CHOICES)}." if choices else ""
