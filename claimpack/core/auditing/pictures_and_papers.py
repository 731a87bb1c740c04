"""Audit rules about pictures: shown in two claims, or taken when they could not show what they should."""

from __future__ import annotations

from collections.abc import Hashable, Iterable, Iterator, Mapping, Sequence
from datetime import date, timedelta
from itertools import accumulate, combinations
from typing import NamedTuple

from claimpack.core.auditing.audited import AuditedClaim, AuditedFile, Irregularity, Measures, Weight, listed
from claimpack.core.values.likeness import has_contrast

_BANDS = (11, 11, 11, 11, 10, 10)


class PictureSeen(NamedTuple):
    """A picture as one claim shows it."""

    claim: str
    path: str
    sha256: str
    likeness: str
    serial: str


def _pictures(audited: AuditedClaim) -> list[AuditedFile]:
    named = {photo.file for photo in audited.claim.photos}
    return [file for file in audited.files if file.path in named or file.likeness]


def _seen(audited: AuditedClaim) -> Iterator[PictureSeen]:
    if audited.standing.state != "withdrawn":
        serial = audited.unit_key
        for file in _pictures(audited):
            yield PictureSeen(audited.number, file.path, file.sha256, file.likeness, serial)


def pictures_by_content(audited: AuditedClaim) -> Iterator[tuple[Hashable, PictureSeen]]:
    """The pictures of a claim, by the hash of their content."""
    for picture in _seen(audited):
        yield picture.sha256, picture


def pictures_by_likeness(audited: AuditedClaim) -> Iterator[tuple[Hashable, PictureSeen]]:
    """The pictures of a claim that have a perceptual hash, all under one key: any two may look alike."""
    for picture in _seen(audited):
        if picture.likeness:
            yield "", picture


def same_picture(seen: Sequence[PictureSeen], _measures: Measures) -> Iterator[Irregularity]:
    """The same file in two claims; worth a look only where both are about one unit.

    Source: common practice, no source.
    """
    if len({picture.claim for picture in seen}) > 1:
        yield _shown_twice("same-picture", seen, "show the same picture", _weight(seen))


def _weight(seen: Iterable[PictureSeen]) -> Weight:
    serials = {picture.serial for picture in seen}
    return "look" if len(serials) == 1 and "" not in serials else "serious"


def _shown_twice(rule: str, seen: Sequence[PictureSeen], what: str, weight: Weight) -> Irregularity:
    claims = tuple(sorted({picture.claim for picture in seen}))
    shown = sorted(f"{picture.claim}: {picture.path}" for picture in seen)
    more = f" and {len(shown) - 10} more" if len(shown) > 10 else ""
    return Irregularity(
        rule=rule,
        claims=claims,
        what=f"Claims {listed(claims)} {what}.",
        evidence={"pictures": ", ".join(shown[:10]) + more},
        weight=weight,
    )


def alike_pictures(seen: Sequence[PictureSeen], measures: Measures) -> Iterator[Irregularity]:
    """Pictures in two claims that look alike: their 64-bit perceptual hashes differ by a few bits at most.

    A picture without contrast looks like every other and is left out. Copies of one file are told by another rule.

    Source: common practice, no source.
    """
    by_hash: dict[int, list[PictureSeen]] = {}
    for picture in seen:
        by_hash.setdefault(int(picture.likeness, 16), []).append(picture)
    hashes = [each for each in by_hash if has_contrast(each)]
    near = near_hashes(hashes, measures.alike_bits)
    grouped = {each for alike in near for each in alike}
    equal = [[each] for each in hashes if len(by_hash[each]) > 1 and each not in grouped]
    for alike in (*near, *equal):
        pictures = [picture for each in alike for picture in by_hash[each]]
        if _goes_beyond_copies(pictures):
            yield _shown_twice("alike-pictures", pictures, "show pictures that look alike", "look")


def _goes_beyond_copies(pictures: Sequence[PictureSeen]) -> bool:
    """Whether pictures of different content lie in different claims."""
    claims: dict[str, set[str]] = {}
    for picture in pictures:
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
        leader[each] = leader[leader[each]]
        each = leader[each]
    return each


def picture_before_unit(audited: AuditedClaim, _measures: Measures) -> Iterator[Irregularity]:
    """A picture taken before the unit was built, or before it was bought.

    Source: a rule of this tool's, no source.
    """
    dates = audited.claim.dates
    built = audited.claim.unit.built
    sold = min((day for day in (dates.purchased, dates.delivered) if day), default=None)
    for path, taken in _taken(audited).items():
        if built and taken < built:
            yield _dated(
                audited, "picture-before-unit", path, taken, f"before the unit was built on {built}", "serious"
            )
        elif sold and taken < sold:
            yield _dated(audited, "picture-before-unit", path, taken, f"before the unit was sold on {sold}", "serious")


def picture_long_before(audited: AuditedClaim, measures: Measures) -> Iterator[Irregularity]:
    """A picture taken long before the unit came in: it may show another failure.

    Source: a rule of this tool's, no source.
    """
    presented = audited.claim.dates.presented
    for path, taken in _taken(audited).items():
        if taken < presented - timedelta(days=measures.oldest_picture_days):
            said = f"{(presented - taken).days} days before the unit came in on {presented}"
            yield _dated(audited, "picture-long-before", path, taken, said, "look")


def picture_after_filing(audited: AuditedClaim, _measures: Measures) -> Iterator[Irregularity]:
    """A picture taken after the claim was last filed: the packet sent cannot show it.

    Source: a rule of this tool's, no source.
    """
    filed = audited.standing.filed
    if filed is None or not audited.is_with_the_maker:
        return
    for path, taken in _taken(audited).items():
        if taken > filed:
            yield _dated(audited, "picture-after-filing", path, taken, f"after the claim was filed on {filed}", "look")


def _taken(audited: AuditedClaim) -> Mapping[str, date]:
    return {file.path: file.taken.date() for file in _pictures(audited) if file.taken}


def _dated(audited: AuditedClaim, rule: str, path: str, taken: date, said: str, weight: Weight) -> Irregularity:
    return Irregularity(
        rule=rule,
        claims=(audited.number,),
        what=f"{path} was taken on {taken}, {said}.",
        evidence={"picture": path, "taken": str(taken)},
        weight=weight,
    )


_MOST_SHOWN = 10


class ProofSeen(NamedTuple):
    """A proof of purchase as one claim names it, with the serial number of the claim's unit."""

    claim: str
    path: str
    serial: str


def proofs_by_content(audited: AuditedClaim) -> Iterator[tuple[Hashable, ProofSeen]]:
    """The proof of purchase of a claim that was not withdrawn, by the hash of its content."""
    path = audited.claim.proof.file
    kept = next((file for file in audited.files if file.path == path), None)
    if path and kept and audited.standing.state != "withdrawn":
        yield kept.sha256, ProofSeen(audited.number, path, audited.unit_key)


def same_paper(seen: Sequence[ProofSeen], _measures: Measures) -> Iterator[Irregularity]:
    """One paper as the proof of purchase of different units: it may list them all, or be the wrong one.

    Source: common practice, no source.
    """
    if len({proof.serial for proof in seen}) < 2:
        return
    claims = tuple(sorted({proof.claim for proof in seen}))
    shown = sorted(f"{proof.claim}: {proof.path}" for proof in seen)
    more = f" and {len(shown) - _MOST_SHOWN} more" if len(shown) > _MOST_SHOWN else ""
    yield Irregularity(
        rule="same-paper",
        claims=claims,
        what=f"Claims {listed(claims)} prove the purchase of different units with the same paper.",
        evidence={"papers": ", ".join(shown[:_MOST_SHOWN]) + more},
        weight="look",
    )
