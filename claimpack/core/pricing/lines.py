"""A line of a priced claim, and how it is split between those who pay."""

from __future__ import annotations

from decimal import Decimal
from typing import Literal, NamedTuple

from claimpack.core.facts.fields import Payer
from claimpack.core.values.money import ZERO, plain
from claimpack.core.values.wording.sentence import Sentence, say

PricedPayer = Payer | Literal["other maker"]
"""Who pays a line: another maker where that one covers what failed, on a claim of its own."""


class PricedLine(NamedTuple):
    """One line of the claim; quantity is pieces for a part, hours for labour; handling is the plan's addition.

    Schedule and clocked are hours of labour beside the claimed ones; None where they are not known. Group is the kind
    of an extra. A rest is what another line leaves to somebody else: it counts no pieces and no hours of its own. A
    core is the deposit on a part. The tax is what the maker pays on the line, beside the whole of it. The failure is
    which of the claim's it is for.
    """

    kind: Literal["part", "labour", "extra"]
    what: str
    amount: Decimal
    payer: PricedPayer
    code: str = ""
    technician: str = ""
    quantity: Decimal = Decimal(1)
    unit_price: Decimal = ZERO
    handling: Decimal = ZERO
    schedule: Decimal | None = None
    clocked: Decimal | None = None
    notes: tuple[Sentence, ...] = ()
    group: str = ""
    is_rest: bool = False
    is_deductible: bool = False
    is_core: bool = False
    tax: Decimal = ZERO
    failure: int = 1

    @property
    def whole(self) -> Decimal:
        """The amount and its handling."""
        return self.amount + self.handling

    def noted(self, why: Sentence) -> PricedLine:
        """The line with one more note."""
        return self._replace(notes=(*self.notes, why))

    def split(self, paid: Decimal, to: PricedPayer, why: Sentence) -> list[PricedLine]:
        """The line with what its payer still pays, and the rest as a line of somebody else's that says why.

        Args:
            paid: how much of the whole stays, the amount before the handling.
            to: who pays the rest.
            why: the reason.
        """
        amount = min(self.amount, paid)
        own, *rest = self.cut(amount, paid - amount, to, why)
        if rest:
            own = own._replace(notes=(*own.notes, _less(rest[0].amount, why)))
        return [own, *rest]

    def cut(self, amount: Decimal, handling: Decimal, to: PricedPayer, why: Sentence) -> list[PricedLine]:
        """The same, where amount and handling that stay are known each; the line alone where all of it stays."""
        rest = self.whole - amount - handling
        if not rest:
            return [self]
        added = self.handling - handling
        over = self._replace(
            amount=rest,
            handling=ZERO,
            unit_price=rest,
            quantity=Decimal(1),
            payer=to,
            notes=(why, *handling_in(added)),
            is_rest=True,
        )
        return [self._replace(amount=amount, handling=handling), over]


def handling_in(amount: Decimal) -> tuple[Sentence, ...]:
    """What an amount that somebody else bears has of handling in it, told where it has any."""
    return (say("price.handling-in", amount=plain(amount)),) if amount else ()


def _less(amount: Decimal, why: Sentence) -> Sentence:
    return say("price.less", amount=plain(amount), cause_word=why.key.replace("price.", "less."))
