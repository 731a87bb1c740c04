"""Whether two pictures look alike, by the 64 bits that the book keeps of each."""

from __future__ import annotations

ALIKE_BITS = 4
"""By how many bits the hashes of two pictures may differ that look alike, such as one picture saved twice."""

_BITS = 64
_LEAST_CONTRAST = 5


def has_contrast(likeness: int) -> bool:
    """Whether a picture's hash tells it from others: one without contrast looks like every other."""
    return _LEAST_CONTRAST <= likeness.bit_count() <= _BITS - _LEAST_CONTRAST


def differ(one: str, other: str) -> bool:
    """Whether two hashes are too far apart to be of the same file, read by two versions of a decoder."""
    return (int(one, 16) ^ int(other, 16)).bit_count() > ALIKE_BITS


def look_alike(one: str, other: str) -> bool:
    """Whether two pictures look alike; not where the hash of one is not known, or it has no contrast.

    Args:
        one: sixteen hexadecimal digits, or an empty text.
        other: the same of the other picture.

    Source: common practice, no source.
    """
    if not one or not other:
        return False
    first, second = int(one, 16), int(other, 16)
    return has_contrast(first) and has_contrast(second) and (first ^ second).bit_count() <= ALIKE_BITS
