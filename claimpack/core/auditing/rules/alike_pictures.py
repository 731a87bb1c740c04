"""The audit rule about pictures that look alike: one scene saved again, cut, turned, mirrored or taken off a screen."""

from __future__ import annotations

from collections.abc import Hashable, Iterable, Iterator, Sequence
from itertools import accumulate, combinations

from claimpack.core.auditing.audited import AuditedClaim, Irregularity, Measures
from claimpack.core.auditing.rules.pictures_and_papers import PictureSeen, pictures_seen, shown_twice
from claimpack.core.values.likeness import (
    ALIKE_CUT_BITS,
    ALIKE_DETAIL_BITS,
    cuts,
    detail,
    has_contrast,
    show_one_scene,
    whole,
)

_BANDS = (11, 11, 11, 11, 10, 10)
_SLOW_BITS, _FINE_BITS = 15, 48
_MOST_PROBED = 3_000
_LARGEST_HEAP = 500


def pictures_by_likeness(audited: AuditedClaim) -> Iterator[tuple[Hashable, PictureSeen]]:
    """The pictures of a claim that have a perceptual hash, all under one key: any two may look alike."""
    for picture in pictures_seen(audited):
        if picture.likeness:
            yield "", picture


def alike_pictures(seen: Sequence[PictureSeen], measures: Measures) -> Iterator[Irregularity]:
    """Pictures in two claims that look alike, by their perceptual hashes.

    Two are alike where the hashes of the whole differ by a few bits at most, or those of two cuts do, whichever way the
    pictures lie. Plates of one design differ in what is written on them: they are alike where their detail is, too.
    A picture without contrast looks like every other and is left out. Copies of one file are told by another rule.

    Source: common practice, no source.
    """
    by_hash: dict[int, list[PictureSeen]] = {}
    for picture in seen:
        if not picture.is_plate:
            by_hash.setdefault(whole(picture.likeness), []).append(picture)
    hashes = [each for each in by_hash if has_contrast(each)]
    # one hash may stand for several files, and one that is near no other is in no group
    groups = [[p for each in near for p in by_hash[each]] for near in near_hashes(hashes, measures.alike_bits)]
    grouped = {id(picture) for group in groups for picture in group}
    groups += [by_hash[each] for each in hashes if len(by_hash[each]) > 1 and id(by_hash[each][0]) not in grouped]
    pairs = [*_shown_in_part(seen), *_alike_plates(seen, measures)]
    for pictures in _joined(groups, pairs):
        # not a sure thing: two honest pictures of one bench can look alike
        if _goes_beyond_copies(pictures):
            yield shown_twice("alike-pictures", pictures, "show pictures that look alike", "look")


def _joined(
    groups: Iterable[Sequence[PictureSeen]], pairs: Iterable[tuple[PictureSeen, PictureSeen]]
) -> Iterator[list[PictureSeen]]:
    """Groups and pairs that share a picture, as one; in the order in which their first picture comes."""
    leader: dict[int, int] = {}
    every: dict[int, PictureSeen] = {}
    for pictures in (*groups, *pairs):
        for picture in pictures:
            every.setdefault(id(picture), picture)
            leader[_led_by(leader, id(picture))] = _led_by(leader, id(pictures[0]))
    found: dict[int, list[PictureSeen]] = {}
    for key, picture in every.items():
        found.setdefault(_led_by(leader, key), []).append(picture)
    yield from found.values()


def _alike_plates(seen: Sequence[PictureSeen], measures: Measures) -> Iterator[tuple[PictureSeen, PictureSeen]]:
    """Pictures of plates that are alike in the whole and in detail; those of one unit are of one plate."""
    by_hash: dict[int, list[PictureSeen]] = {}
    for picture in seen:
        if picture.is_plate and detail(picture.likeness) is not None:
            by_hash.setdefault(whole(picture.likeness), []).append(picture)
    hashes = [each for each in by_hash if has_contrast(each)]
    near = [[p for each in group for p in by_hash[each]] for group in near_hashes(hashes, measures.alike_bits)]
    grouped = {whole(picture.likeness) for group in near for picture in group}
    near += [by_hash[each] for each in hashes if len(by_hash[each]) > 1 and each not in grouped]
    for group in near:
        # every pair of a heap is compared; of a heap without end the time would grow with its square
        for one, other in combinations(group, 2) if len(group) <= _LARGEST_HEAP else ():
            # one unit has one plate, which may be photographed for each of its claims
            if one.serial != other.serial and _differ_by(one, other) <= ALIKE_DETAIL_BITS:
                yield one, other


def _differ_by(one: PictureSeen, other: PictureSeen) -> int:
    return ((detail(one.likeness) or 0) ^ (detail(other.likeness) or 0)).bit_count()


def _shown_in_part(seen: Sequence[PictureSeen]) -> Iterator[tuple[PictureSeen, PictureSeen]]:
    """Pictures of two claims of which a cut of one shows what a cut of the other does, among those of one shot.

    Cuts of one scene nearly always have the slowest waves in common, but for one in few pictures; those alone are
    compared. A heap that is too large tells nothing.
    """
    by_shot: dict[str, list[PictureSeen]] = {}
    for picture in seen:
        if not picture.is_plate and len(picture.likeness) > _FINE_BITS:
            by_shot.setdefault(picture.shot, []).append(picture)
    for pictures in by_shot.values():
        # cuts whose slowest waves differ in one bit are looked up too, while that is cheap enough
        probes = [0, *(1 << bit for bit in range(_SLOW_BITS))] if len(pictures) <= _MOST_PROBED else [0]
        heaps: dict[int, list[tuple[int, PictureSeen]]] = {}
        for picture in pictures:
            own = cuts(picture.likeness)
            near = {
                id(other): other
                for cut in own
                for probe in probes
                for other_cut, other in heaps.get(cut >> _FINE_BITS ^ probe, ())
                if (cut ^ other_cut).bit_count() <= ALIKE_CUT_BITS and other.claim != picture.claim
            }
            for other in near.values():
                # two machines of one model on one bench come near without being one
                if show_one_scene(own, cuts(other.likeness), surely=picture.is_of_the_whole):
                    yield other, picture
            # after it was compared, so that no picture meets itself
            for cut in dict.fromkeys(own):
                heap = heaps.setdefault(cut >> _FINE_BITS, [])
                if len(heap) < _LARGEST_HEAP:
                    heap.append((cut, picture))


def _goes_beyond_copies(pictures: Sequence[PictureSeen]) -> bool:
    """Whether pictures of different content lie in different claims."""
    claims: dict[str, set[str]] = {}
    for picture in pictures:
        # one content that is in every claim of the group explains all of it, and the rule about copies tells that
        claims.setdefault(picture.sha256, set()).add(picture.claim)
    every = set().union(*claims.values())
    return all(of_one != every for of_one in claims.values())


def near_hashes(hashes: Iterable[int], bits: int) -> list[list[int]]:
    """Hashes of 64 bits gathered into groups whose members are each within so many bits, 4 at most, of another.

    Of six bands of a hash, four changed bits leave two whole: hashes that near agree in some pair of bands, and only
    those that do are compared. A hash near no other is in no group.
    """
    ordered = sorted(set(hashes))
    leader: dict[int, int] = {}
    for one, other in _pairs_that_share_two_bands(ordered):
        if (one ^ other).bit_count() <= bits:
            leader[_led_by(leader, other)] = _led_by(leader, one)
    groups: dict[int, list[int]] = {}
    for each in sorted(leader):
        groups.setdefault(_led_by(leader, each), []).append(each)
    return list(groups.values())


def _pairs_that_share_two_bands(hashes: Iterable[int]) -> Iterator[tuple[int, int]]:
    """Every two different hashes that agree in two bands, once for each pair of bands they agree in."""
    places = _places()
    for index, (shift, mask) in enumerate(places):
        # Dealt out by one band first, each heap is small enough to stay near the processor.
        heaps: dict[int, list[int]] = {}
        for each in hashes:
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
        yield from combinations(alike, 2)


def _led_by(leader: dict[int, int], each: int) -> int:
    leader.setdefault(each, each)
    while leader[each] != each:
        # every step halves the way to the leader, so that long chains stay quick
        leader[each] = leader[leader[each]]
        each = leader[each]
    return each
