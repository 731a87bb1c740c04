"""The payment terms in force for each claim: its own, else the maker's, else the shop's."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from datetime import date
from functools import cached_property
from typing import TYPE_CHECKING

from claimpack.commands.desk.shops import shop_said
from claimpack.errors import ClaimpackError

if TYPE_CHECKING:
    from claimpack.commands.desk.desk import Desk
    from claimpack.commands.desk.say import Say
    from claimpack.core.claims.claim import Claim
    from claimpack.core.plans.terms import Terms
    from claimpack.core.steps.listed import ListedClaim, ListedPart
    from claimpack.template_files import Template


_TAKE = "  If they are this shop's: claimpack shop take"


class TermsInForce:
    """The terms of the shop's claims, each read once; terms that cannot be read leave no dates, and may be told of."""

    def __init__(self, desk: Desk, say: Say | None) -> None:
        self._desk, self._say = desk, say
        self._read: dict[str, Terms | None] = {}
        self._by_maker: dict[str, str] = {}
        self._of_others: dict[str, TermsInForce | None] = {}

    def of(self, claim: Claim | ListedClaim | ListedPart) -> Terms | None:
        """The terms in force for a claim, as its own shop names them; None where it names none.

        Terms that are named and cannot be read are terms that are not known.
        """
        from claimpack.core.plans.terms import NOT_KNOWN

        if self._desk.shops.told is None:
            return self.of_ours(claim)
        shop = self._desk.shops.whose(claim.number if hasattr(claim, "owner") else claim.claim)
        in_force = self if shop == self._desk.shop_id else self._of_shop(shop)
        return in_force.of_ours(claim) if in_force else NOT_KNOWN

    def _of_shop(self, shop: str) -> TermsInForce | None:
        """The terms of another shop's claims; None where nobody said which folder is that shop's."""
        if shop not in self._of_others:
            desk = self._desk.shops.desk_of(shop)
            self._of_others[shop] = TermsInForce(desk, self._say) if desk else None
            if desk is None:
                self._note(f"Claims that are {shop_said(shop)} have no dates here: its terms are not known here.")
                self._note(f'  Name its folder in shop.toml: shops = {{{shop} = "DIR"}}' if shop else _TAKE)
        return self._of_others[shop]

    def of_ours(self, claim: Claim | ListedClaim | ListedPart) -> Terms | None:
        """The terms in force for a claim of this shop."""
        from claimpack.core.plans.terms import not_read

        wanted = claim.terms or self._of_maker(claim.maker)
        if wanted not in self._read:
            self._read[wanted] = self._found(wanted) or not_read(wanted) if wanted else None
        return self._read[wanted]

    def by_claim(self, claims: Iterable[tuple[str, ListedClaim | ListedPart]]) -> Mapping[str, Terms]:
        """The terms of many claims, by number; a claim that has none is left out."""
        found = ((number, self.of(claim)) for number, claim in claims)
        return {number: terms for number, terms in found if terms}

    def every(self) -> list[Terms]:
        """All terms that could be in force: every file within reach, of this shop or of others that are looked at."""
        others = [self._of_shop(desk.shop_id) for desk in self._desk.shops.desks[1:]]
        return [terms for each in (self, *others) if each for terms in each.of_files()]

    def of_files(self) -> list[Terms]:
        """The terms of every file of this shop."""
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
                self._note(f"Payment terms {wanted!r} are not there: their claims have no dates here.")
                self._note("  See them all: claimpack plan list")
                return None
            return record_from(Terms, file.keys, str(file.path))
        except ClaimpackError as error:
            self._note(f"{error.what}: claims under these terms have no dates here.")
            return None

    def _note(self, said: str) -> None:
        if self._say:
            self._say.note_once(said)


def tell_unread(say: Say, terms_of: Mapping[str, str]) -> None:
    """Which claims have no dates because the terms they are under cannot be read, by the id these are named by."""
    from claimpack.core.plans.terms import unread_said

    for said in unread_said(terms_of):
        say.item(say.mark("unknown"), said)


def tell_sections(say: Say, terms: Iterable[Terms], today: date) -> None:
    """The sections the dates come from, each once with the day it was read, and the advice to check them."""
    from claimpack.core.payment.payment_dates import CHECK

    cited = {one.id: one for one in terms if one.is_known}
    if not cited:
        return
    say.heading("Where the dates come from")
    for one in sorted(cited.values(), key=lambda one: one.id):
        read = f", read on {one.read_on}" if one.read_on and one.read_on <= today else ""
        say.item("·", f"{one.id}: {one.section}{read}")
    say.item("·", CHECK)
