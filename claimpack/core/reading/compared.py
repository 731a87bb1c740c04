"""What was read, beside what the claim says under the same key, and how it is kept and taken over."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Mapping, Sequence
from decimal import Decimal
from typing import Literal, NamedTuple, TypeVar

from claimpack.core.claims.claim import Claim
from claimpack.core.claims.editing.key_paths import key_path
from claimpack.core.claims.editing.key_values import placed, with_values
from claimpack.core.clauses.serial_pattern import has_form
from claimpack.core.facts.pictures import Photo, Proof, ReadArea, ReadOff
from claimpack.core.plans.plan import Plan
from claimpack.core.reading.look_alikes import Differing, differing, is_near, same_number
from claimpack.core.reading.plates import proposed_build, proposed_hours, proposed_model
from claimpack.core.reading.read_text import WHOLE, Proposal, Spot, TextRead
from claimpack.core.reading.receipts import ReceiptRead
from claimpack.core.reading.serials import KEY, proposed_serials
from claimpack.core.values.money import plain_or_none
from claimpack.core.values.typed.days import DateOrder
from claimpack.core.values.words import word_set

PURCHASED = "dates.purchased"
"""The key of the day of purchase."""

_METERS = {"meter", "hours", "hour"}
_PLATES = {"plate", "serial", "label", "tag", *_METERS}
# A box that has no height, as a bar code's may, is drawn this high.
_LEAST = Decimal("0.005")


_Shown = TypeVar("_Shown", Photo, Proof)


class Compared(NamedTuple):
    """One proposal, what the claim says under its key, and the form the plans give; empty for nothing, and for none."""

    proposal: Proposal
    typed: str
    form: str = ""

    @property
    def state(self) -> Literal["as typed", "differs", "new"]:
        """Whether the claim says the same, something else, or nothing."""
        if not self.typed:
            return "new"
        return "as typed" if says_the_same(self.proposal.key, self.typed, self.proposal.text) else "differs"

    @property
    def is_open(self) -> bool:
        """Whether a person has to say which is right before the claim is filed."""
        proposal = self.proposal
        return self.state == "differs" and may_be_meant(proposal.key, self.typed, proposal.text, self.form)

    @property
    def differing(self) -> tuple[Differing, ...]:
        """The characters in which a serial number differs; none where it is another number altogether."""
        proposal = self.proposal
        if not proposal.key.startswith(KEY) or not is_near(self.typed, proposal.text):
            return ()
        return differing(self.typed, proposal.text)


def shows_a_plate(shot: str) -> bool:
    """Whether a shot is of something to be read: a plate, a serial number, a meter."""
    return not _PLATES.isdisjoint(word_set(shot))


def shows_a_meter(shot: str) -> bool:
    """Whether a shot is of an hour meter."""
    return not _METERS.isdisjoint(word_set(shot))


def proposed(
    lines: Sequence[TextRead], claim: Claim, plans: Sequence[Plan], shot: str, today: dt.date, order: DateOrder
) -> list[Compared]:
    """What a picture of a claim is taken to say, beside what the claim says.

    Args:
        lines: what was read.
        claim: the claim.
        plans: those it may fall under; a form counts that all of them give.
        shot: what the picture shows; hours are looked for on a meter alone.
        today: no day of build is later.
        order: which comes first in a day in figures.
    """
    typed = {serial.role: serial.value for serial in claim.unit.serials}
    # the unit's own number is looked for though nobody typed one: that is what a plate is read for
    typed.setdefault("unit", "")
    models = [model for plan in plans for model in plan.models]
    found: list[Proposal | None] = [*proposed_serials(lines, forms_of(plans), typed)]
    found.append(proposed_model(lines, models, claim.unit.model))
    found.append(proposed_build(lines, today, order))
    # a number alone on any other picture may be anything, a horsepower or a part number
    if shows_a_meter(shot):
        found.append(proposed_hours(lines))
    return _beside_typed([each for each in found if each], claim, plans)


def _beside_typed(found: Sequence[Proposal], claim: Claim, plans: Sequence[Plan]) -> list[Compared]:
    forms = forms_of(plans)
    return [Compared(each, typed_under(claim, each.key), forms.get(each.key.removeprefix(KEY), "")) for each in found]


def forms_of(plans: Sequence[Plan]) -> Mapping[str, str]:
    """The forms of serial numbers that every one of the plans gives."""
    given = [plan.requires.serial_patterns for plan in plans]
    return (
        {role: form for role, form in given[0].items() if all(each.get(role) == form for each in given)}
        if given
        else {}
    )


def typed_under(claim: Claim, key: str) -> str:
    """What a claim says under a key that is read; empty for nothing."""
    if key.startswith(KEY):
        return claim.unit.serial(key.removeprefix(KEY))
    said = {
        PURCHASED: str(claim.dates.purchased or ""),
        "unit.model": claim.unit.model,
        "unit.built": str(claim.unit.built or ""),
        "unit.hours": plain_or_none(claim.unit.hours) or "",
    }
    return said.get(key, "")


def says_the_same(key: str, typed: str, read: str) -> bool:
    """Whether two texts say the same under a key."""
    if key.startswith(KEY) or key == "unit.model":
        return same_number(typed, read)
    return Decimal(typed) == Decimal(read) if key == "unit.hours" else typed == read


def may_be_meant(key: str, typed: str, read: str, form: str) -> bool:
    """Whether what was read can be what the claim's key asks for; a serial number by its form, or by the typed one.

    Args:
        key: a key that is read.
        typed: what the claim says.
        read: what was read.
        form: the form the plan gives the number; empty for none.

    Source: a rule of this tool's, no source. A date code or a part number on a label is no other serial number.
    """
    return not key.startswith(KEY) or is_near(typed, read) or bool(form and has_form(form, read))


def of_receipt(
    read: ReceiptRead, claim: Claim, lines: Sequence[TextRead], plans: Sequence[Plan] = ()
) -> list[Compared]:
    """The day of purchase and the serial numbers that a receipt proposes, beside what the claim says.

    Args:
        read: what its lines say.
        claim: the claim.
        lines: what was read, from the top.
        plans: those the claim may fall under; a form counts that all of them give.

    Source: a rule of this tool's, no source. Figures alone, unlike the typed number, are any number of the seller's.
    """
    typed = {serial.role: serial.value for serial in claim.unit.serials}
    found = _beside_typed(proposed_serials(lines, forms_of(plans), typed), claim, plans)
    numbers = [
        each
        for each in found
        if is_near(each.typed, each.proposal.text) or (each.form and any(mark.isalpha() for mark in each.proposal.text))
    ]
    if read.day is None:
        return numbers
    proposal = Proposal(PURCHASED, read.day.isoformat(), lines[0].by, WHOLE)
    return [Compared(proposal, typed_under(claim, PURCHASED)), *numbers]


def is_kept(key: str) -> bool:
    """Whether what is read under a key is kept on the claim, and compared as long as it is there."""
    return key.startswith(KEY) or key == PURCHASED


def with_read(claim: Claim, file: str, found: Iterable[Compared], said: Mapping[str, str]) -> Claim:
    """The claim with what was read off one of its files, in place of what was read under the same keys before.

    Args:
        claim: the claim.
        file: a photo of it, or its proof of purchase.
        found: what was read.
        said: what a person who looked says is there, by key; what was said before stays where the same was read.
    """
    kept = [each.proposal for each in found if is_kept(each.proposal.key)]
    if any(photo.file == file for photo in claim.photos):
        photos = tuple(_with_reads(photo, kept, said) if photo.file == file else photo for photo in claim.photos)
        return claim.model_copy(update={"photos": photos})
    if claim.proof.file == file:
        return claim.model_copy(update={"proof": _with_reads(claim.proof, kept, said)})
    return claim


def _with_reads(shown: _Shown, kept: Sequence[Proposal], said: Mapping[str, str]) -> _Shown:
    reads = _reads(shown.read, kept, said)
    # a file off which nothing was read says nothing of it
    return shown.model_copy(update={"read": reads}) if reads != shown.read else shown


def _reads(before: Sequence[ReadOff], kept: Sequence[Proposal], said: Mapping[str, str]) -> tuple[ReadOff, ...]:
    known = {(read.key, read.text): read.confirmed for read in before}
    # what a person confirmed of the same text stays confirmed
    now = [_read_off(each, said.get(each.key) or known.get((each.key, each.text), "")) for each in kept]
    read_now = {each.key for each in kept}
    # A picture from which codes alone are read this time still shows the letters that were read before.
    return (*(read for read in before if read.key not in read_now), *now)


def _read_off(proposal: Proposal, confirmed: str) -> ReadOff:
    area = {"area": _area(proposal.spot)} if proposal.spot != WHOLE else {}
    said = {"confirmed": confirmed} if confirmed else {}
    return ReadOff.model_validate({"key": proposal.key, "text": proposal.text, "by": proposal.by, **area, **said})


def _area(spot: Spot) -> ReadArea:
    x, y, width, height = (round(Decimal(str(side)), 4) for side in spot)
    return ReadArea(x=x, y=y, width=max(width, _LEAST), height=max(height, _LEAST))


def taken_over(claim: Claim, values: Mapping[str, str], source: str) -> Claim:
    """The claim with values that were read put under their keys.

    Raises:
        BadInput: the whole makes no sense then, as a purchase after the repair.
    """
    changes = [(key_path(Claim, key.replace(" ", "-")), value) for key, value in values.items()]
    return with_values(claim, placed(claim, changes), source) if changes else claim
