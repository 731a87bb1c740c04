"""Which of the texts on a plate is a serial number, by the plan's forms, by what is typed, or by the word beside it."""

from __future__ import annotations

import itertools
import re
from collections.abc import Collection, Iterator, Mapping, Sequence
from typing import NamedTuple

from claimpack.core.clauses.serial_pattern import has_form
from claimpack.core.reading.labels import behind
from claimpack.core.reading.look_alikes import as_it_looks, is_near, marks_of, same_number, swapped, tidied
from claimpack.core.reading.read_text import Proposal, Spot, TextRead

KEY = "unit.serials."
"""What the keys of serial numbers begin with; the role follows."""

_SHORTEST, _LONGEST, _MOST_WORDS, _LEAST_DIGITS, _MOST_HYPHENS = 4, 40, 4, 2, 2
_LABEL = r"(?:SERIAL(?: ?(?:NO|NUMBER|NUM|NR))?|SER(?:\.? ?NO)?|S/?N|S\.N)(?![A-Z-])"
_LABELLED = re.compile(rf"(?:.*[^A-Z0-9])?{_LABEL}[ .:#°º]*(?P<value>.*)", re.IGNORECASE)
# ANSI MH10.8.2 data identifier S, GS1 application identifier (21): a serial number follows.
_IN_A_CODE = re.compile(
    r"\(21\)(?P<gs1>[^(]+)|(?:^|[\s;,|&?/\x1d\x1e])(?:SN?[:=]|S(?=\d|[A-Z]{1,3}\d))(?P<mh10>[^\s;,|&\x1d\x1e]+)"
)
_BETWEEN = re.compile(r"[\s;,|&?=\x1d\x1e\x04()]+")


class _Piece(NamedTuple):
    """A part of what was read that may be a number by itself."""

    text: str
    line: TextRead


class _Found(NamedTuple):
    """A piece with the form wanted, and how far it had to be bent to have it."""

    bent: int
    text: str
    piece: _Piece


def proposed_serials(lines: Sequence[TextRead], forms: Mapping[str, str], typed: Mapping[str, str]) -> list[Proposal]:
    """The serial numbers a picture shows, one a role at most, in the order of the roles.

    Args:
        lines: what was read, in the order it was read.
        forms: the form the plan gives each role's number, a regular expression.
        typed: the number that the claim gives each role; empty for none.

    Source: a rule of this tool's, no source. A number that may be read two ways is proposed only if one of them is
    typed; what has not the plan's form is none.
    """
    pieces = list(_pieces(lines))
    found: list[Proposal] = []
    for role in dict.fromkeys((*forms, *typed)):
        # the number of the engine stands on the plate of the unit too, and is not taken for its own; it may be read
        # with an O for a 0; two roles that share one number keep it
        others = {*map(as_it_looks, typed.values())} - {as_it_looks(typed.get(role, ""))}
        left = [piece for piece in pieces if as_it_looks(piece.text) not in others]
        proposal = _of_form(role, left, forms[role], typed.get(role, "")) if role in forms else None
        if role not in forms:
            proposal = _near_typed(role, left, typed[role]) or (
                _labelled(role, lines, others) if role == "unit" else None
            )
        if proposal:
            found.append(proposal)
    return found


def _of_form(role: str, pieces: Sequence[_Piece], form: str, typed: str) -> Proposal | None:
    fitting = [*_fitting(pieces, form)]
    least = min((each.bent for each in fitting), default=0)
    best = [each for each in fitting if each.bent == least]
    # a code is read right or not at all, while letters are read as what they look like
    codes = [each for each in best if each.piece.line.by == "code"]
    chosen = _one_of(codes or best, typed)
    return _proposed(role, chosen.text, chosen.piece) if chosen else None


def _one_of(found: Sequence[_Found], typed: str) -> _Found | None:
    """The one number they all tell; of several the one that is typed, else the only one that is near it."""
    by_marks = {marks_of(each.text): each for each in reversed(found)}
    # of several that fit the form the typed one is believed; without it nothing is chosen
    if len(by_marks) == 1 or marks_of(typed) in by_marks:
        return by_marks.get(marks_of(typed)) or next(iter(by_marks.values()))
    near = [each for each in by_marks.values() if typed and is_near(typed, each.text)]
    return near[0] if len(near) == 1 else None


def _fitting(pieces: Sequence[_Piece], form: str) -> Iterator[_Found]:
    """Pieces with the form: as they were read, with hyphens put in, with marks that look alike swapped."""
    whole = [_Found(0, piece.text, piece) for piece in pieces if has_form(form, piece.text)]
    # a number as it stands goes before all that have to be bent into the form
    if whole:
        yield from whole
        return
    for piece in pieces:
        text = piece.text.upper()
        if has_form(form, text):
            yield _Found(0, text, piece)
        elif piece.line.by != "code" and sum(map(str.isdecimal, text)) >= _LEAST_DIGITS:
            yield from _bent(piece, text, form)


def _bent(piece: _Piece, text: str, form: str) -> Iterator[_Found]:
    # hyphens are what plates lose first, before a single mark is taken for another
    hyphened = [each for each in _with_hyphens(text) if has_form(form, each)]
    if hyphened:
        yield from (_Found(0, each, piece) for each in hyphened)
        return
    least = None
    for bent, changed in swapped(text):
        if least is not None and bent > least:
            return
        if has_form(form, changed):
            least = bent
            yield _Found(bent, changed, piece)


def _with_hyphens(text: str) -> Iterator[str]:
    """A text with one hyphen put in, or two: on a plate they are easily overlooked."""
    for count in range(1, _MOST_HYPHENS + 1 - text.count("-")):
        for places in itertools.combinations(range(1, len(text)), count):
            cuts = [0, *places, len(text)]
            yield "-".join(text[start:end] for start, end in itertools.pairwise(cuts))


def _near_typed(role: str, pieces: Sequence[_Piece], typed: str) -> Proposal | None:
    """Without a form: the number that is typed, else the only one like it."""
    if not typed:
        return None
    near = [piece for piece in pieces if is_near(typed, piece.text) and any(map(str.isdecimal, piece.text))]
    same = [piece for piece in near if same_number(typed, piece.text)]
    by_marks = {marks_of(piece.text): piece for piece in same or near}
    piece = next(iter(by_marks.values())) if len(by_marks) == 1 else None
    return _proposed(role, piece.text, piece) if piece else None


def _labelled(role: str, lines: Sequence[TextRead], others: Collection[str]) -> Proposal | None:
    """Without a form and without anything typed: the one number in a code for serials, or behind the word for it."""
    told = [(_value_in_code(line.text), line) for line in lines if line.by == "code"] + behind(_LABELLED, lines)
    found = {
        marks_of(value): _Piece(value, line)
        for value, line in told
        if _could_be(value) and as_it_looks(value) not in others
    }
    piece = next(iter(found.values())) if len(found) == 1 else None
    return _proposed(role, piece.text, piece) if piece else None


def _value_in_code(text: str) -> str:
    told = _IN_A_CODE.search(text)
    return tidied(told["gs1"] or told["mh10"]) if told else ""


def _could_be(text: str) -> bool:
    digits = sum(map(str.isdecimal, text))
    return _SHORTEST <= len(marks_of(text)) <= _LONGEST and digits >= _LEAST_DIGITS and text.count(" ") < _MOST_WORDS


def _proposed(role: str, text: str, piece: _Piece) -> Proposal:
    raw = "" if piece.text == text else piece.text
    return Proposal(f"{KEY}{role}", text, piece.line.by, piece.line.spot, raw)


def _pieces(lines: Sequence[TextRead]) -> Iterator[_Piece]:
    """Every part of a line that may be a number: words, and words in a row with a hyphen or nothing between."""
    for line in lines:
        if line.by == "code":
            told = _value_in_code(line.text)
            texts = dict.fromkeys((tidied(line.text), *_BETWEEN.split(line.text), *([told] if told else ())))
        else:
            labelled = _LABELLED.match(tidied(line.text))
            value = _words_of(labelled["value"]) if labelled else []
            texts = dict.fromkeys((*_in_a_row(value), *_in_a_row(_words_of(line.text))))
        yield from (_Piece(text, line) for text in texts if _SHORTEST <= len(text) <= _LONGEST)
    yield from _broken_in_two(lines)


def _words_of(text: str) -> list[str]:
    words = re.split(r"[\s:#|]+", tidied(text))
    return [word for word in map(tidied, words) if word]


def _in_a_row(words: Sequence[str]) -> Iterator[str]:
    for start in range(len(words)):
        for end in range(start + 1, min(start + _MOST_WORDS, len(words)) + 1):
            yield "-".join(words[start:end])
            yield "".join(words[start:end])


def _broken_in_two(lines: Sequence[TextRead]) -> Iterator[_Piece]:
    """Two pieces side by side that the reader took for two lines."""
    for first, second in itertools.pairwise(lines):
        # an engraver's gap, or a glare, parts one number into two texts on one line
        if {first.by, second.by} == {"letters"} and _side_by_side(first.spot, second.spot):
            joined = TextRead(f"{first.text} {second.text}", first.by, _around(first.spot, second.spot))
            one, other = _words_of(first.text)[-1:], _words_of(second.text)[:1]
            yield from (
                _Piece(text, joined) for text in _in_a_row([*one, *other]) if _SHORTEST <= len(text) <= _LONGEST
            )


def _side_by_side(first: Spot, second: Spot) -> bool:
    gap = second.x - first.x - first.width
    return abs(first.y - second.y) < max(first.height, second.height) / 2 and -0.01 < gap < 2 * first.height


def _around(first: Spot, second: Spot) -> Spot:
    left, top = min(first.x, second.x), min(first.y, second.y)
    right = max(first.x + first.width, second.x + second.width)
    bottom = max(first.y + first.height, second.y + second.height)
    return Spot(left, top, right - left, bottom - top)
