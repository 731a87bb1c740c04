"""The payment terms in force for each claim: its own, else the maker's, else the shop's."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from datetime import date
from functools import cached_property
from typing import TYPE_CHECKING

from claimpack.errors import ClaimpackError

if TYPE_CHECKING:
    from claimpack.commands.desk.desk import Desk
    from claimpack.commands.desk.say import Say
    from claimpack.core.claims.claim import Claim
    from claimpack.core.plans.terms import Terms
    from claimpack.core.steps.listed import ListedClaim, ListedPart
    from claimpack.template_files import Template


class TermsInForce:
    """The terms of the shop's claims, each read once; terms that are not there leave no dates, and may be told of."""

    def __init__(self, desk: Desk, say: Say | None) -> None:
        self._desk, self._say = desk, say
        self._read: dict[str, Terms | None] = {}
        self._by_maker: dict[str, str] = {}

    def of(self, claim: Claim | ListedClaim | ListedPart) -> Terms | None:
        """The terms in force for a claim; None where nobody named any."""
        wanted = claim.terms or self._of_maker(claim.maker)
        if wanted not in self._read:
            self._read[wanted] = self._found(wanted) if wanted else None
        return self._read[wanted]

    def by_claim(self, claims: Iterable[tuple[str, ListedClaim | ListedPart]]) -> Mapping[str, Terms]:
        """The terms of many claims, by number; a claim that has none is left out."""
        found = ((number, self.of(claim)) for number, claim in claims)
        return {number: terms for number, terms in found if terms}

    def every(self) -> list[Terms]:
        """All terms that could be in force: every file within reach."""
        return [terms for name in self._files for terms in [self._found(name)] if terms]

    @cached_property
    def _files(self) -> Mapping[str, Template]:
        from claimpack.template_files import TERMS, templates

        return templates(TERMS, self._desk.places)

    def _of_maker(self, maker: str) -> str:
        if maker not in self._by_maker:
            self._by_maker[maker] = self._desk.terms_with(maker)
        return self._by_maker[maker]

    def _found(self, wanted: str) -> Terms | None:
        from claimpack.core.facts.keys import record_from
        from claimpack.core.plans.terms import Terms

        try:
            file = self._files.get(wanted)
            if file is None:
                self._note(f"Payment terms {wanted!r} are not there: their claims are listed without dates.")
                self._note("  See them all: claimpack plan list")
                return None
            return record_from(Terms, file.keys, str(file.path))
        except ClaimpackError as error:
            self._note(f"{error.what}: claims under these terms are listed without dates.")
            return None

    def _note(self, said: str) -> None:
        if self._say:
            self._say.note(said)


def tell_sections(say: Say, terms: Iterable[Terms], today: date) -> None:
    """The sections the dates come from, each once with the day it was read, and the advice to check them."""
    from claimpack.core.payment.payment_dates import CHECK

    cited = {one.id: one for one in terms}
    if not cited:
        return
    say.heading("Where the dates come from")
    for one in sorted(cited.values(), key=lambda one: one.id):
        read = f", read on {one.read_on}" if one.read_on and one.read_on <= today else ""
        say.item("·", f"{one.id}: {one.section}{read}")
    say.item("·", CHECK)
