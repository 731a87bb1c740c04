"""A claim: what the shop knows of one repair, as it stands in claim.toml."""

from __future__ import annotations

from typing import Literal, Self

from claimpack.core.facts.cases import Approval, EarlierRepair, Goodwill, PartSold, Question
from claimpack.core.facts.dates import Dates, day_at
from claimpack.core.facts.failure import AllFailures, Failure, Failures, Finding
from claimpack.core.facts.fields import CaseKind, ClaimNumber, Currency
from claimpack.core.facts.keys import Contradiction, contradiction
from claimpack.core.facts.lines import Extra, HeldPart, Labour, Part
from claimpack.core.facts.pictures import Papers, Photo, Proof
from claimpack.core.facts.record import Record
from claimpack.core.facts.unit import Owner, Unit
from claimpack.core.values.marks import model_validator
from claimpack.core.values.words import Line, Named


class Claim(Record):
    """One claim: a unit, a failure, a repair, and what shows them.

    Args:
        format: the form of the file, always 1.
        number: the shop's number of the claim; letters, digits and '-', at most 24, as in `26-0041`.
        maker: the maker, as its plan writes it, as in `halden`.
        case: a plain repair, or one of the other kinds of claim.
        campaign: the maker's number of the campaign it falls under.
        plan: the id of the plan, where more than one fits, as in `halden-2025`.
        terms: the id of the payment terms, if not those of the maker or the shop, as in `us-tx`.
        currency: what the amounts are in, if not the plan's currency, a code of ISO 4217, as in `USD`.
        unit: the machine.
        owner: who owns it.
        dates: the days that decide cover.
        proof: what shows the day of purchase.
        failure: what is wrong and what was done.
        approval: the maker's approval before the repair.
        goodwill: what is asked of the maker as a favour, out of cover.
        part_sold: the part that was sold and failed.
        questions: what the maker asked, and what the shop answered, one `[[questions]]` each.
        findings: what was measured, one `[[findings]]` each.
        parts: parts used in the repair, one `[[parts]]` each.
        labour: work done, one `[[labour]]` each.
        extras: freight, outside work, travel, disposal, one `[[extras]]` each.
        photos: pictures, one `[[photos]]` each.
        papers: receipts and other papers, as in `["papers/invoice.pdf"]`.
        held: failed parts that are kept, one `[[held]]` each.
        earlier: repairs of the same unit before this one, one `[[earlier]]` each.
    """

    format: Literal[1] = 1
    number: ClaimNumber
    maker: Named
    case: CaseKind = "repair"
    campaign: Line = ""
    plan: Line = ""
    terms: Line = ""
    currency: Currency | None = None
    unit: Unit
    owner: Owner = Owner.model_construct()
    dates: Dates
    proof: Proof = Proof.model_construct()
    failure: AllFailures = Failures.model_construct()
    approval: Approval | None = None
    goodwill: Goodwill = Goodwill.model_construct()
    part_sold: PartSold = PartSold.model_construct()
    questions: tuple[Question, ...] = ()
    findings: tuple[Finding, ...] = ()
    parts: tuple[Part, ...] = ()
    labour: tuple[Labour, ...] = ()
    extras: tuple[Extra, ...] = ()
    photos: tuple[Photo, ...] = ()
    papers: Papers = ()
    held: tuple[HeldPart, ...] = ()
    earlier: tuple[EarlierRepair, ...] = ()

    @model_validator(mode="after")
    def _can_all_be_true(self) -> Self:
        # all that contradicts is told at once: a person who mends one day mends the others too
        found = [*self._built_first(), *self._sold_first(), *self._part_sold_first(), *self._one_owner()]
        found += self._lines_of_no_failure()
        if found:
            raise contradiction(found)
        return self

    def _built_first(self) -> list[Contradiction]:
        built, invoiced = self.unit.built, self.unit.invoiced
        found = [
            Contradiction(f"{{}} {built} is after {{}} {day_at(self.dates, role)}", ("unit.built", f"dates.{role}"))
            for role in ("delivered", "in_service", "failed", "presented")
            if built and day_at(self.dates, role) and day_at(self.dates, role) < built
        ]
        if built and invoiced and invoiced < built:
            found.append(Contradiction(f"{{}} {built} is after {{}} {invoiced}", ("unit.built", "unit.invoiced")))
        return found

    def _lines_of_no_failure(self) -> list[Contradiction]:
        """A line is for a failure that is there."""
        count = len(self.failures)
        lines = [(f"parts[{place}]", part.failure) for place, part in enumerate(self.parts, start=1)]
        lines += [(f"labour[{place}]", work.failure) for place, work in enumerate(self.labour, start=1)]
        lines += [(f"extras[{place}]", extra.failure) for place, extra in enumerate(self.extras, start=1)]
        places = [(f"{line}.failure", number) for line, number in lines if number > count]
        said = "one failure" if count == 1 else f"{count} failures"
        return [Contradiction(f"{{}} is {number}, and the claim has {said}", (key,)) for key, number in places]

    def _sold_first(self) -> list[Contradiction]:
        """A unit was sold before it failed and came in; one in stock was not."""
        dates, found = self.dates, []
        for sale in ("purchased", "delivered"):
            sold = day_at(dates, sale)
            if sold and self.is_stock and sold < dates.presented:
                says = f"{{}} {sold} is before {{}} {dates.presented}, when a stock unit is not sold yet"
                found.append(Contradiction(says, (f"dates.{sale}", "dates.presented")))
            # a stock unit may well fail and be repaired before it is sold
            for role in () if self.is_stock else ("failed", "presented"):
                on = day_at(dates, role)
                if sold and on and on < sold:
                    says = f"{{}} {on} is before {{}} {sold}"
                    found.append(Contradiction(says, (f"dates.{role}", f"dates.{sale}")))
        return found

    def _part_sold_first(self) -> list[Contradiction]:
        """A part was sold, and fitted, before it failed and came back."""
        found = []
        for role in ("sold", "fitted"):
            then = getattr(self.part_sold, role)
            for later in ("failed", "presented"):
                on = day_at(self.dates, later)
                if then and on and on < then:
                    keys = (f"dates.{later}", f"part_sold.{role}")
                    found.append(Contradiction(f"{{}} {on} is before {{}} {then}", keys))
        return found

    def _one_owner(self) -> list[Contradiction]:
        resold = self.dates.resold
        # sold on after it was here, it came in with its first owner
        if not (self.owner.first_owner and resold and resold <= self.dates.presented):
            return []
        return [Contradiction(f"{{}} is true, but {{}} is {resold}", ("owner.first_owner", "dates.resold"))]

    def component(self) -> str:
        """The word for what failed that windows are matched with."""
        # of a part sold over the counter the part is what failed
        return self.failure.word or self.part_sold.name

    @property
    def failures(self) -> tuple[Failure, ...]:
        """Everything that failed, in the order in which lines name it, counted from 1."""
        return (self.failure, *self.failure.also)

    def of_failure(self, number: int) -> Claim:
        """The claim as if that failure were all that it is about; the lines stay."""
        one = self.failures[number - 1]
        alone = Failures(**{name: getattr(one, name) for name in Failure.declared})
        return self.model_copy(update={"failure": alone})

    def components(self) -> tuple[str, ...]:
        """The words for everything that failed, each once."""
        # without any word there is still one failure, whose word is empty
        return tuple(dict.fromkeys(word for one in self.failures if (word := one.word))) or (self.component(),)

    def what_failed(self) -> str:
        """Everything that failed, as a list has room for it."""
        return ", ".join(self.components())

    @property
    def asks_goodwill(self) -> bool:
        """Whether what is out of cover is asked of the maker as a favour, by the claim's own word."""
        return self.case == "goodwill"

    @property
    def is_stock(self) -> bool:
        """Whether the unit was never sold when it came in: it has no owner and no day of purchase yet."""
        return self.case == "stock"

    def paper_files(self) -> tuple[str, ...]:
        """Every paper named, the proof of purchase first, each once."""
        named = ([self.proof.file] if self.proof.file else []) + [paper.file for paper in self.papers]
        return tuple(dict.fromkeys(named))
