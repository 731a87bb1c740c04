"""Hashes of 64 bits that are near each other, found without comparing each with every other."""

from __future__ import annotations

from array import array
from collections.abc import Collection, Iterable, Iterator, Sequence
from itertools import accumulate, combinations

_BANDS = (11, 11, 11, 11, 10, 10)
AT_ONCE = 500_000
"""So many hashes are looked at together; of more, a part after the other, as all would not fit into memory."""

LARGEST_HEAP = 500
"""What more have in common than that is how such pictures look, and tells nothing."""


def near_hashes(hashes: Collection[int], bits: int, at_once: int = AT_ONCE) -> list[list[int]]:
    """Hashes of 64 bits gathered into groups whose members are each within so many bits, 4 at most, of another.

    Of six bands of a hash, four changed bits leave two whole: hashes that near agree in some pair of bands, and only
    those that do are compared. A hash near no other is in no group.

    Args:
        hashes: all there are.
        bits: by how many they may differ.
        at_once: how many are looked at together.
    """
    leader: dict[int, int] = {}
    for one, other in _pairs_that_share_two_bands(hashes, at_once):
        if (one ^ other).bit_count() <= bits:
            leader[led_by(leader, other)] = led_by(leader, one)
    groups: dict[int, list[int]] = {}
    for each in sorted(leader):
        groups.setdefault(led_by(leader, each), []).append(each)
    return list(groups.values())


def near_by_key(named: Iterable[tuple[int, int]], keys: Sequence[int], bits: int) -> Iterator[tuple[int, int]]:
    """The names of every two hashes that are the same in all bits of one of the keys and differ by few in the others.

    Under one key, every hash is compared with the first LARGEST_HEAP of those before it.

    Args:
        named: hashes, each with a number that names what it is of; what has one name is not compared.
        keys: bits that are set, for each of the ways to be the same.
        bits: by how many they may differ.
    """
    heaps: list[tuple[int, dict[int, list[tuple[int, int]]]]] = [(key, {}) for key in keys]
    for one in named:
        each, name = one
        for key, of_key in heaps:
            heap = of_key.setdefault(each & key, [])
            near = [known for other, known in heap if (each ^ other).bit_count() <= bits]
            yield from ((known, name) for known in near if known != name)
            # after it was compared, so that none meets itself
            if len(heap) < LARGEST_HEAP:
                heap.append(one)


def met_again(hashes: Collection[int], at_once: int = AT_ONCE) -> set[int]:
    """The hashes that are there more than once."""
    again: set[int] = set()
    for part in _parts(hashes, 0, -1, at_once):
        met: set[int] = set()
        for each in part:
            (again if each in met else met).add(each)
    return again


def _parts(hashes: Collection[int], shift: int, mask: int, at_once: int) -> list[array[int]]:
    """The hashes in as many parts as it takes; those that agree in some bits are in one part."""
    parts = [array("Q") for _ in range(1 + len(hashes) // at_once)]
    for each in hashes:
        parts[(each >> shift & mask) % len(parts)].append(each)
    return parts


def led_by(leader: dict[int, int], each: int) -> int:
    """Who leads the group that one is in, of groups told by who leads whom; one of no group leads itself."""
    leader.setdefault(each, each)
    while leader[each] != each:
        # every step halves the way to the leader, so that long chains stay quick
        leader[each] = leader[leader[each]]
        each = leader[each]
    return each


def _pairs_that_share_two_bands(hashes: Collection[int], at_once: int) -> Iterator[tuple[int, int]]:
    """Every two different hashes that agree in two bands, once for each pair of bands they agree in."""
    places = _places()
    for index, (shift, mask) in enumerate(places):
        for part in _parts(hashes, shift, mask, at_once):
            # Dealt out by one band first, each heap is small enough to stay near the processor.
            heaps: dict[int, list[int]] = {}
            for each in dict.fromkeys(part):
                heaps.setdefault(each >> shift & mask, []).append(each)
            for heap in heaps.values():
                for place in places[index + 1 :]:
                    yield from _pairs_that_share(heap, *place)


def _places() -> list[tuple[int, int]]:
    """How far each band lies from the right end of a hash, and as many set bits as it is wide."""
    shifts = accumulate(_BANDS, initial=0)
    return [(shift, (1 << width) - 1) for shift, width in zip(shifts, _BANDS, strict=False)]


def _pairs_that_share(hashes: Iterable[int], shift: int, mask: int) -> Iterator[tuple[int, int]]:
    """Every two different hashes that agree in one band."""
    firsts: dict[int, int] = {}
    several: dict[int, list[int]] = {}
    for each in hashes:
        shared = each >> shift & mask
        first = firsts.setdefault(shared, each)
        if first != each:
            several.setdefault(shared, [first]).append(each)
    for alike in several.values():
        if len(alike) <= LARGEST_HEAP:
            yield from combinations(alike, 2)
