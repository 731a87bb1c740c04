"""The audit rule about pictures that look alike: one scene saved again, cut, turned, mirrored or taken off a screen."""

from __future__ import annotations

from array import array
from collections.abc import Iterable, Iterator, Sequence
from itertools import combinations

from claimpack.core.auditing.audited import Irregularity, Measures
from claimpack.core.auditing.near_hashes import LARGEST_HEAP, led_by, met_again, near_by_key, near_hashes
from claimpack.core.auditing.rule import PRACTICE, Heap, NearRule, NotCompared, NumbersKept
from claimpack.core.auditing.rules.pictures_and_papers import PictureSeen, pictures_with_looks, shown_twice
from claimpack.core.values.likeness import (
    ALIKE_CUT_BITS,
    ALIKE_DETAIL_BITS,
    cuts,
    detail,
    has_contrast,
    show_one_scene,
    whole,
)
from claimpack.core.values.wording.sentence import say

_SLOW_BITS, _FINE_BITS = 15, 48
_MOST_PROBED = 3_000
_MOST_BY_SLOW_WAVES = 200_000
_CUTS_AT_ONCE = 400_000

Places = Sequence[int]
"""Where pictures stand among those seen: what is told of millions of them is a number each."""


class _Looks:
    """The hashes of whole pictures, and where each stands among those seen; those without contrast are left out."""

    def __init__(self) -> None:
        self.hashes, self.places = array("Q"), array("L")

    def add(self, likeness: str, place: int) -> None:
        """Add one picture."""
        looks = whole(likeness)
        if has_contrast(looks):
            self.hashes.append(looks)
            self.places.append(place)

    def near(self, bits: int) -> list[list[int]]:
        """The places of those that are near others or the same, in groups."""
        leader = {each: each for each in met_again(self.hashes)}
        leader |= {each: group[0] for group in near_hashes(self.hashes, bits) for each in group}
        groups: dict[int, list[int]] = {}
        for looks, place in zip(self.hashes, self.places, strict=True):
            if looks in leader:
                groups.setdefault(leader[looks], []).append(place)
        return list(groups.values())


def alike_pictures(seen: Heap, measures: Measures, kept: NumbersKept) -> Iterator[Irregularity | NotCompared]:
    """Pictures in two claims that look alike, by their perceptual hashes.

    Two are alike where the hashes of the whole differ by a few bits at most, or those of two cuts do, whichever way the
    pictures lie. Plates of one design differ in what is written on them: they are alike where their detail is, too.
    A picture without contrast looks like every other and is left out. Copies of one file are told by another rule.

    Pictures alike in the whole are found among any number. Of those of one shot, 3,000 are compared in part where all
    but one of their slowest waves are the same, more where all are, and above 200,000 where finer ones are, too: what
    looks so by chance grows with the square of their number, and so would the time. Of 118 drawn scenes that were cut,
    110 are known again among few, 71 among 200,000, 67 among a million; such a shot is told as not compared in full.

    Source: common practice, no source.
    """
    plates, others = _Looks(), _Looks()
    shots: dict[str, array[int]] = {}
    for place, picture in enumerate(seen):
        if not picture.is_plate:
            others.add(picture.likeness, place)
            if cuts(picture.likeness):
                shots.setdefault(picture.shot, array("L")).append(place)
        elif detail(picture.likeness) is not None:
            plates.add(picture.likeness, place)
    groups: list[Places] = [*others.near(measures.alike_bits)]
    near_plates = plates.near(measures.alike_bits)
    too_many = (len(places) for places in near_plates if len(places) > LARGEST_HEAP)
    yield from (NotCompared(say("alike-pictures.too-many-plates", count=count)) for count in too_many)
    groups += _alike_plates(seen, near_plates)
    for shot, of_one_shot in shots.items():
        if len(of_one_shot) <= _MOST_PROBED:
            groups += _shown_in_part(seen, of_one_shot)
        else:
            groups += _shown_in_part_of_many(seen, of_one_shot, kept)
            key = "alike-pictures.too-many" if shot else "alike-pictures.too-many-without-shot"
            yield NotCompared(say(key, count=len(of_one_shot), shot=shot))
    for places in _joined(groups):
        # what is told of a picture is where it is; a heap of them with all that is kept of their looks is too large
        pictures = [seen[place]._replace(likeness="") for place in places]
        # not a sure thing: two honest pictures of one bench can look alike
        if _goes_beyond_copies(pictures):
            yield shown_twice("alike-pictures", pictures, "look")


def _joined(groups: Iterable[Places]) -> Iterator[list[int]]:
    """Groups that share a picture, as one."""
    leader: dict[int, int] = {}
    for places in groups:
        for place in places:
            leader[led_by(leader, place)] = led_by(leader, places[0])
    found: dict[int, list[int]] = {}
    for place in sorted(leader):
        found.setdefault(led_by(leader, place), []).append(place)
    yield from found.values()


def _alike_plates(seen: Heap, near: Iterable[Places]) -> Iterator[Places]:
    """Pictures of plates that are alike in the whole and in detail; those of one unit are of one plate."""
    for places in near:
        # every pair of a heap is compared; of a heap without end the time would grow with its square
        group = [(place, seen[place]) for place in places] if len(places) <= LARGEST_HEAP else []
        for (place, one), (other_place, other) in combinations(group, 2):
            # one unit has one plate, which may be photographed for each of its claims
            if one.serial != other.serial and _differ_by(one, other) <= ALIKE_DETAIL_BITS:
                yield place, other_place


def _differ_by(one: PictureSeen, other: PictureSeen) -> int:
    return ((detail(one.likeness) or 0) ^ (detail(other.likeness) or 0)).bit_count()


def _shown_in_part(seen: Heap, places: Places) -> Iterator[Places]:
    """Pictures of two claims of which a cut of one shows what a cut of the other does, among not many of one shot.

    Cuts of one scene nearly always have the slowest waves in common but for one bit; those alone are compared.
    """
    # cuts whose slowest waves differ in one bit are looked up too, which is cheap enough among so few
    probes = [0, *(1 << bit for bit in range(_SLOW_BITS))]
    heaps: dict[int, list[tuple[int, int]]] = {}
    for place in places:
        own = cuts(seen[place].likeness)
        near = {
            other
            for cut in own
            for probe in probes
            for other_cut, other in heaps.get(cut >> _FINE_BITS ^ probe, ())
            if (cut ^ other_cut).bit_count() <= ALIKE_CUT_BITS
        }
        yield from ((other, place) for other in near if _show_one_scene(seen[other], seen[place]))
        # after it was compared, so that no picture meets itself
        for cut in dict.fromkeys(own):
            heap = heaps.setdefault(cut >> _FINE_BITS, [])
            if len(heap) < LARGEST_HEAP:
                heap.append((cut, place))


def _shown_in_part_of_many(seen: Heap, places: Places, kept: NumbersKept) -> Iterator[Places]:
    """The same among many: those alone are compared that are the same by a key, a share of them at a time."""
    cuts_of_each = len(cuts(seen[places[0]].likeness))
    shares = [kept.numbers() for _ in range(0, len(places) * cuts_of_each, _CUTS_AT_ONCE)]
    for place in places:
        for cut in dict.fromkeys(cuts(seen[place].likeness)):
            shares[(cut >> _FINE_BITS) % len(shares)].extend((cut, place))
    keys = keys_of_cuts(len(places))
    for share in shares:
        each = iter(share)
        for other, place in near_by_key(zip(each, each, strict=True), keys, ALIKE_CUT_BITS):
            if _show_one_scene(seen[other], seen[place]):
                yield other, place


def keys_of_cuts(pictures: int, most: int = _MOST_BY_SLOW_WAVES) -> tuple[int, ...]:
    """The bits in which cuts of so many pictures must be the same to be compared: all those of one of the keys.

    They are the slowest waves; above so many pictures, also the next of those that are finer, or the ones after these:
    one more for each doubling, so that a cut is compared with no more others than among few.
    """
    slowest = -1 << _FINE_BITS
    if pictures <= most:
        return (slowest,)
    # two keys find more than one that is a bit shorter, and have no more to compare
    more = 1 + ((pictures - 1) // most).bit_length()
    finer = (1 << more) - 1
    return slowest | finer << _FINE_BITS - more, slowest | finer << _FINE_BITS - 2 * more


def _show_one_scene(one: PictureSeen, other: PictureSeen) -> bool:
    # two machines of one model on one bench come near without being one
    sure = one.is_of_the_whole
    return one.claim != other.claim and show_one_scene(cuts(one.likeness), cuts(other.likeness), surely=sure)


def _goes_beyond_copies(pictures: Sequence[PictureSeen]) -> bool:
    """Whether pictures of different content lie in different claims."""
    claims: dict[str, set[str]] = {}
    for picture in pictures:
        # one content that is in every claim of the group explains all of it, and the rule about copies tells that
        claims.setdefault(picture.sha256, set()).add(picture.claim)
    every = set().union(*claims.values())
    return all(of_one != every for of_one in claims.values())


ALIKE_PICTURE_RULES = (
    NearRule(
        "alike-pictures",
        "Two claims show pictures that look alike.",
        PRACTICE,
        pictures_with_looks,
        alike_pictures,
    ),
)
"""The rule about pictures that look alike."""
