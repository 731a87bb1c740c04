"""What a maker pays, as a plan writes it: rates, handling, caps."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal
from typing import Annotated, Any, Literal, Self

from claimpack.core.facts.fields import ExtraKind
from claimpack.core.facts.record import Record
from claimpack.core.values.days import Day
from claimpack.core.values.marks import BeforeValidator, Field, PlainSerializer, model_validator
from claimpack.core.values.money import NotNegative, PartOfOne, Positive, exact, no_percent, part_of_one, plain
from claimpack.core.values.words import Line, Named, folded
from claimpack.core.values.written import WrittenAs


class LabourRate(Record):
    """An hour's rate for some labour alone.

    Args:
        class_: the class of operation it is for; absent for every class, as in `engine`.
        level: the dealer's level it is for; absent for every level, as in `gold`.
        from_: the first day of repair it is for; absent for every day, as in `2026-07-01`.
        rate: what an hour is paid, in the plan's currency, as in `"98.00"`.
    """

    class_: Line = Field(default="", alias="class")
    level: Line = ""
    from_: Day | None = Field(default=None, alias="from")
    rate: NotNegative

    def of(self) -> tuple[str, str, Day | None]:
        """What it is for, in the form in which two rates are compared."""
        return folded(self.class_), folded(self.level), self.from_


class HandlingBand(Record):
    """What is added to parts of some cost.

    Args:
        up_to: the highest unit cost in the band, itself in it; absent for every higher one, as in `"50.00"`.
        rate: what is added, as a fraction of the cost, as in `"0.30"`.
    """

    up_to: NotNegative | None = None
    rate: PartOfOne


def _bands(said: Any) -> Any:
    """One rate, where no list of bands is given, as one band."""
    if isinstance(said, (list, tuple)):
        return said
    # one rate for all parts is a band without an end
    rate = part_of_one(exact(no_percent(said)))
    if rate < 0:
        raise ValueError(f"{plain(rate)} is below 0")
    return (HandlingBand(rate=rate),)


def _as_written(bands: tuple[HandlingBand, ...]) -> Any:
    # written as short as it was read, so that the plan in a packet reads like the maker's file
    if len(bands) == 1 and bands[0].up_to is None:
        return plain(bands[0].rate)
    return [band.model_dump(mode="json", exclude_none=True) for band in bands]


class ExtraTerms(Record):
    """What is paid of one kind of extra.

    Args:
        kind: the kind; `*` is for every kind that no other entry names.
        cap: the most for all of the kind on one claim, taken after the window's share, as in `"50.00"`.
        approval: whether the maker wants to approve each before.
        per: what is paid for one mile or kilometre, or for one visit, as in `"0.65"`.
        of: what `per` is paid for.
        most: the most for one visit, as in `"65.00"`.
        most_distance: the longest distance that is paid of one visit, in the unit of `of`, as in `100`.
    """

    kind: ExtraKind | Literal["*"]
    cap: NotNegative | None = None
    approval: bool = False
    per: NotNegative | None = None
    of: Literal["mile", "km", "visit"] = "mile"
    most: NotNegative | None = None
    most_distance: NotNegative | None = None

    @model_validator(mode="after")
    def _goes_by_distance(self) -> Self:
        if self.most_distance is not None and (self.per is None or self.of == "visit"):
            raise ValueError("most_distance needs per, of a mile or km: what is one of them paid?")
        if self.per is not None and self.kind != "travel":
            raise ValueError(f"per is for travel, and this is {self.kind}")
        return self


class Deductible(Record):
    """What the maker leaves of each claim to somebody else.

    Args:
        amount: how much, as in `"25.00"`.
        payer: who pays it.
    """

    amount: NotNegative
    payer: Literal["owner", "shop"] = "owner"


class UnitCap(Record):
    """The most that is paid for all claims of one unit.

    Args:
        amount: the most, before the deductible and the tax.
        per: in the unit's life, or in each year of its cover, counted from the day the plan's own `start` gives,
            whichever windows pay.
    """

    amount: NotNegative
    per: Literal["life", "year"]


class Diagnosis(Record):
    """What is paid for finding the fault.

    Args:
        operation: the operation it is written down as: a code of the schedule, or free text.
        hours: the most hours paid for it on one claim; absent for all.
        only_if: where it is paid at all.
        else_: who pays it where the maker does not.
    """

    operation: Named
    hours: NotNegative | None = None
    only_if: Literal["covered"] = "covered"
    else_: Literal["owner", "shop"] = Field(default="owner", alias="else")


class Pays(Record):
    """What the maker pays.

    The order of money: price of the line, share, caps by kind of extra, cap of all extras, cap of the claim, cap of the
    unit, deductible, least, tax.

    Args:
        labour_rate: what an hour is paid where none of `labour_rates` fits, as in `"92.00"`.
        labour_rates: rates for a class of operation, a dealer's level, days from one on; the narrowest counts, as in
            `[{class = "engine", rate = "98.00"}]`.
        labour_step: what claimed hours are rounded to, in hours, as in `"0.1"`.
        labour_rounding: how they are rounded to it; nearest takes a half up.
        claim_time: whether the hours of the schedule, those clocked, or the lower of both are claimed.
        parts_handling: what is added to parts, as a fraction of their cost, or bands of it by unit cost, the lowest
            first, as in `"0.20"`.
        handling_on_supplied: what is added for parts the maker sent, as a fraction of their list price, as in `"0.10"`.
        extras: what is paid of each kind of extra; a kind it does not name is paid in full, as in `[{kind = "freight",
            cap = "50.00"}]`.
        extras_cap: the most that is paid for all extras of a claim together, as in `"50.00"`.
        diagnosis: what is paid for finding the fault; without it that is labour like any other, as in `{operation =
            "find-fault", hours = "0.5"}`.
        core: whether the deposit on a part is claimed until its core is returned; without it the shop bears it. Shares
            and tax reach the deposit as they reach the part.
        claim_cap: the most that is paid for a claim, after shares and caps by kind, before the deductible and
            the tax, as in `"600.00"`.
        unit_cap: the most that is paid for all claims of one unit, as in `{amount = "1200.00", per = "life"}`.
        deductible: what the maker leaves of each claim to somebody else, as in `{amount = "25.00", payer = "owner"}`.
        claim_least: a claim that comes to less is not paid; compared after the deductible, before the tax, as in
            `"10.00"`.
        tax: the tax that the maker pays on its lines, as a fraction, as in `"0.081"`.
    """

    labour_rate: NotNegative = Decimal(0)
    labour_rates: tuple[LabourRate, ...] = ()
    labour_step: Positive = Decimal("0.1")
    labour_rounding: Literal["nearest", "up", "down"] = "nearest"
    claim_time: Literal["schedule", "actual", "lower"] = "schedule"
    parts_handling: Annotated[
        tuple[HandlingBand, ...],
        WrittenAs(PartOfOne | tuple[HandlingBand, ...]),
        BeforeValidator(_bands),
        PlainSerializer(_as_written),
        Field(min_length=1),
    ] = (HandlingBand(rate=Decimal(0)),)
    handling_on_supplied: PartOfOne | None = None
    extras: tuple[ExtraTerms, ...] = ()
    extras_cap: NotNegative | None = None
    diagnosis: Diagnosis | None = None
    core: Literal["claimed"] | None = None
    claim_cap: NotNegative | None = None
    unit_cap: UnitCap | None = None
    deductible: Deductible | None = None
    claim_least: NotNegative | None = None
    tax: PartOfOne = Decimal(0)

    @model_validator(mode="after")
    def _says_each_rate_once(self) -> Self:
        said = [rate.of() for rate in self.labour_rates]
        if len(set(said)) < len(said):
            raise ValueError("labour_rates has two rates for one class, level and day; which counts nobody could tell")
        return self

    @model_validator(mode="after")
    def _names_each_kind_once(self) -> Self:
        kinds = [terms.kind for terms in self.extras]
        twice = next((kind for kind in kinds if kinds.count(kind) > 1), None)
        if twice:
            raise ValueError(f"extras names {twice!r} twice; which counts nobody could tell")
        return self

    @model_validator(mode="after")
    def _has_bands_in_order(self) -> Self:
        limits = [band.up_to for band in self.parts_handling]
        closed = [limit for limit in limits if limit is not None]
        if None in limits[:-1] or closed != sorted(set(closed)):
            raise ValueError("parts_handling: write the bands by rising up_to; only the last may be without")
        return self

    def terms_of_extra(self, kind: str | None) -> ExtraTerms | None:
        """What is said of a kind of extra, by itself or among the rest; None where nothing is."""
        by_kind: dict[str | None, ExtraTerms] = {terms.kind: terms for terms in self.extras}
        # an extra of no kind falls among the rest as well
        return by_kind.get(kind) or by_kind.get("*")

    def amounts(self) -> Iterator[tuple[str, Decimal]]:
        """Every cap and limit in money, by its key; the cap for all extras is left out."""
        whole = {
            "claim_cap": self.claim_cap,
            "unit_cap": self.unit_cap.amount if self.unit_cap else None,
            "claim_least": self.claim_least,
            "deductible": self.deductible.amount if self.deductible else None,
        }
        yield from ((key, amount) for key, amount in whole.items() if amount is not None)
        for terms in self.extras:
            named = {f"extras, {terms.kind}, cap": terms.cap, f"extras, {terms.kind}, most": terms.most}
            yield from ((key, amount) for key, amount in named.items() if amount is not None)

    def handling_rate(self, unit_cost: Decimal) -> Decimal:
        """What is added to a part of that cost, as a fraction; nothing above the last band."""
        fitting = (band.rate for band in self.parts_handling if band.up_to is None or unit_cost <= band.up_to)
        return next(fitting, Decimal(0))
