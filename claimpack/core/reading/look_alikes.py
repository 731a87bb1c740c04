"""Letters and digits that are taken for one another, and where two serial numbers differ."""

from __future__ import annotations

import itertools
import re
from collections.abc import Iterator
from difflib import SequenceMatcher
from typing import NamedTuple

_GROUPS = ("0ODQ", "1IL", "8B", "5S", "2Z", "6G")
_BY_MARK = {mark: group.replace(mark, "") for group in _GROUPS for mark in group}
_LOOKS_LIKE = str.maketrans({mark: group[0] for group in _GROUPS for mark in group})
_MOST_SWAPPED, _MOST_TRIED = 4, 3000
# A person who typed a number got most of it right; another number differs in more than every third mark.
_SAME_NUMBER = 3


class Differing(NamedTuple):
    """A place at which two numbers differ: its place in the typed one, counted from 1, and both marks.

    An empty mark stands for one that is not there.
    """

    place: int
    typed: str
    read: str

    @property
    def looks_alike(self) -> bool:
        """Whether the two are easily taken for one another, as O and 0 are."""
        return self.read in _BY_MARK.get(self.typed, "") if self.read else False


def marks_of(number: str) -> str:
    """A number's letters and digits, in capitals: blanks and hyphens are set as there is room on a plate."""
    return "".join(mark for _, mark in _placed(number))


def _placed(number: str) -> list[tuple[int, str]]:
    return [(place, mark.upper()) for place, mark in enumerate(number, start=1) if mark.isalnum()]


def as_it_looks(number: str) -> str:
    """A number's letters and digits, each as the first of those it is taken for: O and Q as 0, I as 1, B as 8."""
    return marks_of(number).translate(_LOOKS_LIKE)


def same_number(one: str, other: str) -> bool:
    """Whether two numbers have the same letters and digits."""
    return marks_of(one) == marks_of(other)


def differing(typed: str, read: str) -> tuple[Differing, ...]:
    """Where a typed number differs from the one that was read, in order; empty where they are the same.

    Source: a rule of this tool's, no source.
    """
    places, old, new = _placed(typed), marks_of(typed), marks_of(read)
    # of one length they are compared mark by mark; a matcher would slide them against each other
    if len(old) == len(new):
        pairs = [(place, mark, other) for (place, mark), other in zip(places, new, strict=True) if mark != other]
        return tuple(Differing(*pair) for pair in pairs)
    found: list[Differing] = []
    for what, first, last, start, end in SequenceMatcher(None, old, new, autojunk=False).get_opcodes():
        if what == "equal":
            continue
        for mine, read_mark in itertools.zip_longest(places[first:last], new[start:end], fillvalue=None):
            after = places[min(first, len(places) - 1)][0] if places else 1
            place, mark = mine or (after, "")
            found.append(Differing(place, mark, read_mark or ""))
    return tuple(found)


def is_near(typed: str, read: str) -> bool:
    """Whether two numbers may be one, mistyped or misread in a few of its marks."""
    longest = max(len(marks_of(typed)), len(marks_of(read)))
    # short numbers are all near each other
    return longest > _SAME_NUMBER and len(differing(typed, read)) * _SAME_NUMBER <= longest


def swapped(text: str) -> Iterator[tuple[int, str]]:
    """A text as it was read, then with marks that look alike swapped, and how many were; the fewest first.

    Only so many are given: a text that needs more of them was not read.
    """
    yield 0, text
    open_places = [place for place, mark in enumerate(text) if mark.upper() in _BY_MARK]
    tried = 0
    # the fewest swaps first: the reading that takes least for granted
    for count in range(1, min(_MOST_SWAPPED, len(open_places)) + 1):
        for places in itertools.combinations(open_places, count):
            for marks in itertools.product(*(_BY_MARK[text[place].upper()] for place in places)):
                tried += 1
                if tried > _MOST_TRIED:
                    return
                changed = list(text)
                for place, mark in zip(places, marks, strict=True):
                    changed[place] = mark
                yield count, "".join(changed)


_DASH = re.compile("[\N{HYPHEN}-\N{HORIZONTAL BAR}\N{MINUS SIGN}=_~]")


def tidied(text: str) -> str:
    """A text with its dashes as hyphens, blanks single, and no marks before or after it."""
    return " ".join(_DASH.sub("-", text).split()).strip(" .,:;'\"-|*#")
