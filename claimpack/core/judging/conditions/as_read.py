"""What was read off the claim's pictures and papers, beside what the claim says."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from claimpack.core.claims.claim import Claim
from claimpack.core.facts.pictures import ReadOff
from claimpack.core.judging.conditions.missing_items import ClaimFacts, MissingItem
from claimpack.core.plans.plan import Plan
from claimpack.core.values.wording.sentence import Sentence, say


class ReadBeside(NamedTuple):
    """One thing that was read: off which file, and what the claim says under its key; empty for nothing."""

    file: str
    read: ReadOff
    typed: str

    @property
    def differs(self) -> bool:
        """Whether the claim says something else."""
        from claimpack.core.reading.compared import says_the_same

        return bool(self.typed) and not says_the_same(self.read.key, self.typed, self.read.shows)

    def must_be_settled(self, form: str) -> bool:
        """Whether somebody has to say which is right: a person saw the other number, or it may be the one meant."""
        from claimpack.core.reading.compared import may_be_meant

        return bool(self.read.confirmed) or may_be_meant(self.read.key, self.typed, self.read.text, form)

    @property
    def role(self) -> str:
        """What the serial number that was read is of; empty for anything else."""
        from claimpack.core.reading.serials import KEY

        return self.read.key.removeprefix(KEY) if self.read.key.startswith(KEY) else ""

    @property
    def told(self) -> Sentence:
        """Whether the two agree, as it is printed beside the picture."""
        from claimpack.core.reading.compared import says_the_same

        if not self.typed:
            return say("read.alone", read=self.read.shows)
        if self.differs:
            return self.says
        if not says_the_same(self.read.key, self.typed, self.read.text):
            return say("read.confirmed", read=self.read.text, typed=self.typed)
        return say("read.same")

    @property
    def says(self) -> Sentence:
        """How the two differ."""
        from claimpack.core.reading.look_alikes import differing, is_near
        from claimpack.core.reading.serials import KEY

        told = {"file": self.file, "read": self.read.shows, "typed": self.typed}
        if not self.read.key.startswith(KEY):
            return say("why.read-day", **told)
        if not is_near(self.typed, self.read.shows):
            return say("why.read-other", **told)
        found = differing(self.typed, self.read.shows)
        marks = {
            "places": ", ".join(str(each.place) for each in found),
            "read_marks": ", ".join(each.read or "\N{EN DASH}" for each in found),
            "typed_marks": ", ".join(each.typed or "\N{EN DASH}" for each in found),
        }
        key = "why.read-looks-alike" if all(each.looks_alike for each in found) else "why.read-differs"
        return say(key, **told, **marks)


def read_beside(claim: Claim) -> Iterator[ReadBeside]:
    """Everything read that is compared with the claim, the photos first, each beside what the claim says."""
    files = [(photo.file, photo.read) for photo in claim.photos]
    if not any(reads for _, reads in (*files, ("", claim.proof.read))):
        return
    from claimpack.core.reading.compared import is_kept, typed_under

    # the proof last: a plate is told before a receipt, as serials are before days
    for file, reads in (*files, (claim.proof.file or "", claim.proof.read)):
        # a seller or a total that was read has no key of the claim's to be compared with
        yield from (ReadBeside(file, read, typed_under(claim, read.key)) for read in reads if is_kept(read.key))


def as_read(facts: ClaimFacts) -> list[MissingItem]:
    """No serial number, and no day of purchase, other than the plate or the receipt shows, until somebody looked.

    Source: a rule of this tool's, no source; makers refuse a claim whose serial number is not the one on the plate.
    """
    return read_otherwise(facts.claim, [facts.plan])


def read_otherwise(claim: Claim, plans: Sequence[Plan]) -> list[MissingItem]:
    """What was read otherwise than the claim says it, under its plan, or under those it may fall under.

    A number that is neither near the typed one nor in the form that all of the plans give may be anything, and is
    worth a look alone.

    Source: a rule of this tool's, no source.
    """
    otherwise = [each for each in read_beside(claim) if each.differs]
    if not otherwise:
        return []
    from claimpack.core.reading.compared import forms_of

    lacking, photos = [], {photo.file for photo in claim.photos}
    for each in otherwise:
        role = each.role
        key = "missing.serial-as-read" if each.file in photos else "missing.serial-on-proof"
        what = say(key, role=role) if role else say("missing.purchased-as-read")
        form = forms_of(plans).get(role, "")
        lacking.append(MissingItem(what, why=each.says, blocks_filing=each.must_be_settled(form)))
    return lacking
