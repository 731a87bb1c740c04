"""Audit rules about pictures: shown in two claims, or taken when they could not show what they should."""

from __future__ import annotations

import re
from collections.abc import Hashable, Iterable, Iterator, Mapping, Sequence
from datetime import date, timedelta
from typing import NamedTuple

from claimpack.core.auditing.audited import AuditedClaim, AuditedFile, Irregularity, Measures, Weight, listed
from claimpack.core.auditing.rule import OURS, PRACTICE, AcrossRule, OneClaimRule
from claimpack.core.values.wording.sentence import say
from claimpack.core.values.words import folded, folded_often, some_of


class PictureSeen(NamedTuple):
    """A picture as one claim shows it."""

    claim: str
    path: str
    sha256: str
    likeness: str
    serial: str
    shot: str = ""

    @property
    def is_plate(self) -> bool:
        """Whether it is of a plate: those of one design are alike but for what is written on them."""
        return "plate" in self.shot

    @property
    def is_of_the_whole(self) -> bool:
        """Whether it is of a whole unit, which looks like every other of its model."""
        return "whole" in self.shot


def _pictures(audited: AuditedClaim) -> list[AuditedFile]:
    named = {photo.file for photo in audited.claim.photos}
    # a receipt that was photographed is a picture as well, whatever the claim calls it
    return [file for file in audited.files if file.path in named or file.likeness]


def pictures_seen(audited: AuditedClaim) -> Iterator[PictureSeen]:
    """The pictures of a claim that was not withdrawn."""
    if not audited.is_withdrawn:
        serial, shots = audited.unit_key, {photo.file: folded_often(photo.shot) for photo in audited.claim.photos}
        for file in _pictures(audited):
            shot = shots.get(file.path, "")
            yield PictureSeen(audited.number, file.path, file.sha256, file.likeness, serial, shot)


def pictures_with_looks(audited: AuditedClaim) -> Iterator[PictureSeen]:
    """The pictures of a claim that have a perceptual hash: any two may look alike."""
    return (picture for picture in pictures_seen(audited) if picture.likeness)


def pictures_by_content(audited: AuditedClaim) -> Iterator[tuple[Hashable, PictureSeen]]:
    """The pictures of a claim, by the hash of their content."""
    for picture in pictures_seen(audited):
        yield picture.sha256, picture


def same_picture(seen: Sequence[PictureSeen], _measures: Measures) -> Iterator[Irregularity]:
    """The same file in two claims; worth a look only where both are about one unit, whose plate stays the same.

    Source: common practice, no source.
    """
    weight = _weight(seen)
    # one good picture of the plate may serve every claim about that unit
    if weight == "look" and all(picture.is_plate for picture in seen):
        return
    if len({picture.claim for picture in seen}) > 1:
        yield shown_twice("same-picture", seen, weight)


def _weight(seen: Iterable[PictureSeen]) -> Weight:
    serials = {picture.serial for picture in seen}
    # without a number it is not known whether it is the same unit
    return "look" if len(serials) == 1 and "" not in serials else "serious"


def shown_twice(rule: str, seen: Sequence[PictureSeen], weight: Weight) -> Irregularity:
    """Pictures of several claims that are one, as they are told."""
    claims = tuple(sorted({picture.claim for picture in seen}))
    shown = sorted(f"{picture.claim}: {picture.path}" for picture in seen)
    said = say(rule, claims=listed(claims))
    return Irregularity((said,), claims, weight, {"pictures": some_of(shown, 10)})


def picture_before_unit(audited: AuditedClaim, _measures: Measures) -> Iterator[Irregularity]:
    """A picture taken before the unit was built, or before it was bought.

    Source: a rule of this tool's, no source.
    """
    dates = audited.claim.dates
    built = audited.claim.unit.built
    sold = min((day for day in (dates.purchased, dates.delivered) if day), default=None)
    for path, taken in _taken(audited).items():
        if built and taken < built:
            yield _dated(audited, "picture-before-unit.built", path, taken, built, "serious")
        elif sold and taken < sold:
            yield _dated(audited, "picture-before-unit.sold", path, taken, sold, "serious")


def picture_long_before(audited: AuditedClaim, measures: Measures) -> Iterator[Irregularity]:
    """A picture taken long before the unit came in: it may show another failure.

    Source: a rule of this tool's, no source.
    """
    presented = audited.claim.dates.presented
    for path, taken in _taken(audited).items():
        if taken < presented - timedelta(days=measures.oldest_picture_days):
            yield _dated(audited, "picture-long-before", path, taken, presented, "look")


def picture_before_failure(audited: AuditedClaim, _measures: Measures) -> Iterator[Irregularity]:
    """A picture of what failed that was taken before the day it failed; plates and whole units look as they did before.

    Source: a rule of this tool's, no source.
    """
    failed = audited.claim.dates.failed
    shots = {photo.file: folded_often(photo.shot) for photo in audited.claim.photos}
    for path, taken in _taken(audited).items() if failed else ():
        shot = shots.get(path, "")
        # a day to spare: owners tell the day it failed by heart
        if _OF_THE_FAILURE.search(shot) and failed and taken < failed - timedelta(days=1):
            yield _dated(audited, "picture-before-failure", path, taken, failed, "look")


_OF_THE_FAILURE = re.compile(r"\b(?:failed|damaged?|crack\w*|broken|leak\w*|fault\w*|teardown|old and new)\b")


def picture_after_filing(audited: AuditedClaim, _measures: Measures) -> Iterator[Irregularity]:
    """A picture taken after the claim was last filed: the packet sent cannot show it.

    Source: a rule of this tool's, no source.
    """
    filed = audited.standing.filed
    if filed is None or not audited.is_with_the_maker:
        return
    for path, taken in _taken(audited).items():
        # the day itself is sound: a filing has no hour to compare with
        if taken > filed:
            yield _dated(audited, "picture-after-filing", path, taken, filed, "look")


def _taken(audited: AuditedClaim) -> Mapping[str, date]:
    return {file.path: file.taken.date() for file in _pictures(audited) if file.taken}


def _dated(audited: AuditedClaim, key: str, path: str, taken: date, day: date, weight: Weight) -> Irregularity:
    said = say(key, picture=path, taken=taken, day=day, days=abs((day - taken).days))
    return audited.irregular(said, {"picture": path, "taken": str(taken)}, weight)


_MOST_SHOWN = 10


class ProofSeen(NamedTuple):
    """A proof of purchase as one claim names it, with the serial number of the claim's unit."""

    claim: str
    path: str
    serial: str
    buyer: tuple[str, date | None] = ("", None)


def proofs_by_content(audited: AuditedClaim) -> Iterator[tuple[Hashable, ProofSeen]]:
    """The proof of purchase of a claim that was not withdrawn, by the hash of its content."""
    path = audited.claim.proof.file
    kept = next((file for file in audited.files if file.path == path), None)
    if path and kept and not audited.is_withdrawn:
        buyer = folded(audited.claim.owner.name), audited.claim.dates.purchased
        yield kept.sha256, ProofSeen(audited.number, path, audited.unit_key, buyer)


def same_paper(seen: Sequence[ProofSeen], _measures: Measures) -> Iterator[Irregularity]:
    """One paper as the proof of purchase of different units: the wrong one, where they are not of one buyer and day.

    Source: common practice, no source.
    """
    # whoever bought several units on one receipt has one proof for all
    if len({proof.serial for proof in seen}) < 2 or len({proof.buyer for proof in seen}) < 2:
        return
    claims = tuple(sorted({proof.claim for proof in seen}))
    shown = sorted(f"{proof.claim}: {proof.path}" for proof in seen)
    said = say("same-paper", claims=listed(claims))
    yield Irregularity((said,), claims, "look", {"papers": some_of(shown, _MOST_SHOWN)})


SAME_PICTURE_RULES = (
    AcrossRule(
        "same-picture",
        "Two claims show the same picture.",
        PRACTICE,
        pictures_by_content,
        same_picture,
    ),
)
"""The rule about one picture in two claims."""


PAPER_AND_DAY_RULES = (
    AcrossRule(
        "same-paper",
        "One paper proves the purchase of different units.",
        PRACTICE,
        proofs_by_content,
        same_paper,
    ),
    OneClaimRule(
        "picture-before-unit",
        "A picture was taken before the unit was built or bought.",
        OURS,
        picture_before_unit,
    ),
    OneClaimRule(
        "picture-long-before",
        "A picture was taken long before the unit came in.",
        OURS,
        picture_long_before,
    ),
    OneClaimRule(
        "picture-before-failure",
        "A picture of the failed part was taken before it failed.",
        OURS,
        picture_before_failure,
    ),
    OneClaimRule(
        "picture-after-filing",
        "A picture was taken after the claim was filed.",
        OURS,
        picture_after_filing,
    ),
)
"""The rules about receipts, and about the days pictures were taken."""
