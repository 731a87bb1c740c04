"""Whether two pictures look alike, by what the book keeps of each.

That is sixteen hexadecimal digits of the whole picture; pictures kept since have more behind them: sixty-four of its
detail, and sixteen for each of several cuts of it, the whole one first, whichever way it is turned or mirrored.
"""

from __future__ import annotations

from collections.abc import Sequence

ALIKE_BITS = 4
"""By how many bits the hashes of two pictures may differ that look alike, such as one picture saved twice."""

ALIKE_DETAIL_BITS = 12
"""By how many of 256 bits the details of two pictures of one plate may differ; others of its design do by more."""

ALIKE_CUT_BITS, SURE_CUT_BITS = 10, 7
"""By how many of 63 bits two cuts may differ that show one scene; with more than the second, other cuts must agree."""

_OTHER_CUTS, _OTHER_CUT_BITS = 3, 16

_BITS = 64
_WHOLE, _DETAIL, _CUT = 16, 64, 16
_LEAST_CONTRAST = 5


def has_contrast(likeness: int) -> bool:
    """Whether a picture's hash tells it from others: one without contrast looks like every other."""
    return _LEAST_CONTRAST <= likeness.bit_count() <= _BITS - _LEAST_CONTRAST


def differ(one: str, other: str) -> bool:
    """Whether two hashes are too far apart to be of the same file, read by two versions of a decoder."""
    return (whole(one) ^ whole(other)).bit_count() > ALIKE_BITS


def whole(likeness: str) -> int:
    """The 64 bits of the whole picture."""
    return int(likeness[:_WHOLE], 16)


def detail(likeness: str) -> int | None:
    """The 256 bits of its detail; None where they are not kept."""
    told = likeness[_WHOLE : _WHOLE + _DETAIL]
    return int(told, 16) if told else None


def cuts(likeness: str) -> tuple[int, ...]:
    """The 63 bits of each cut that tells anything; none where they are not kept."""
    told = likeness[_WHOLE + _DETAIL :]
    bits = (int(told[place : place + _CUT], 16) for place in range(0, len(told), _CUT))
    return tuple(each for each in bits if each)


def show_one_scene(some: Sequence[int], others: Sequence[int], *, surely: bool = False) -> bool:
    """Whether cuts of two pictures show one scene: two are nearly the same, or some are and others come near.

    Args:
        some: the cuts of one picture.
        others: the cuts of the other.
        surely: only where two are nearly the same.

    Source: a rule of this tool's, no source; measured by tests/bench/bench_planted.py.
    """
    apart = [(one ^ other).bit_count() for one in some for other in others]
    nearest = min(apart, default=_BITS)
    if surely or nearest <= SURE_CUT_BITS:
        return nearest <= SURE_CUT_BITS
    return nearest <= ALIKE_CUT_BITS and sum(bits <= _OTHER_CUT_BITS for bits in apart) >= _OTHER_CUTS


def look_alike(one: str, other: str) -> bool:
    """Whether two pictures look alike; not where the hash of one is not known, or it has no contrast.

    Args:
        one: sixteen hexadecimal digits or more, or an empty text.
        other: the same of the other picture.

    Source: common practice, no source.
    """
    if not one or not other:
        return False
    first, second = whole(one), whole(other)
    return has_contrast(first) and has_contrast(second) and (first ^ second).bit_count() <= ALIKE_BITS
