"""A claim: what the shop knows of one repair, as it stands in claim.toml."""

from __future__ import annotations

import re
from collections.abc import Callable
from decimal import Decimal
from pathlib import PurePosixPath
from typing import Annotated, Any, Literal, Self

from pydantic import (
    AfterValidator,
    BaseModel,
    BeforeValidator,
    ConfigDict,
    Field,
    PlainSerializer,
    WrapSerializer,
    model_validator,
)

from claimpack.core.claims.keys import Contradiction, contradiction
from claimpack.core.values.days import Day, Moment, to_the_minute
from claimpack.core.values.money import MINOR_UNITS, NotNegative, Positive, plain, plain_or_none
from claimpack.core.values.words import Line, Named, Text, did_you_mean, folded, folded_often
from claimpack.core.values.written import WrittenAs

Payer = Literal["maker", "owner", "shop"]
Defect = Literal["material", "workmanship", "misuse", "maintenance", "wear", "accident", "unknown"]
ExtraKind = Literal["freight", "sublet", "travel", "disposal", "other"]
ProofKind = Literal["receipt", "registration", "dealer-record", "none"]

USES = ("household", "professional", "rental")
"""The uses that every plan knows."""

_BEYOND_METERS = Decimal(100_000)
_NUMBER = re.compile(r"[A-Za-z0-9][A-Za-z0-9-]{0,23}", re.ASCII)


def _claim_number(text: str) -> str:
    if not _NUMBER.fullmatch(text):
        raise ValueError(f"{text!r} is no claim number: letters, digits and '-', at most 24, not starting with '-'")
    return text


def inside_folder(text: str) -> str:
    """A path that stays inside the claim folder, without `./` and doubled slashes: one file has one name.

    Raises:
        ValueError: it leaves it, or is not written with forward slashes.
    """
    if not names_a_file_inside(text):
        raise ValueError(f"{text!r} leaves the claim folder; give a path inside it, with forward slashes")
    return str(PurePosixPath(text))


def names_a_file_inside(text: str) -> bool:
    """Whether a path stays inside the claim folder, and is written with forward slashes."""
    path = PurePosixPath(text)
    return not ("\\" in text or path.is_absolute() or ".." in path.parts or re.match("[A-Za-z]:", text))


def known_currency(code: str) -> str:
    """A currency code of ISO 4217.

    Raises:
        ValueError: it is none.
    """
    if code not in MINOR_UNITS:
        raise ValueError(f"{code!r} is not a currency code of ISO 4217. {did_you_mean(code, MINOR_UNITS)}".strip())
    return code


def _reading(hours: Decimal) -> Decimal:
    if hours < _BEYOND_METERS:
        return hours
    like_a_date = re.fullmatch(r"(?:19|20)?\d\d(?:0[1-9]|1[0-2])(?:0[1-9]|[12]\d|3[01])", f"{hours:f}")
    hint = "it looks like a date" if like_a_date else "that is more than ten years without a stop"
    raise ValueError(f"{hours:f} is no hour-meter reading: {hint}")


def _named_use(word: str) -> str:
    if folded(word) == "unknown":
        raise ValueError(f"{word!r} is no use: leave the line out while nobody knows how it is used")
    return _plain_word(word)


def _plain_word(word: str) -> str:
    if not re.fullmatch(r"[^\W_]+(?:[ '/-]+[^\W_]+)*", word):
        raise ValueError(f"{word!r} is no plain word: letters, digits, and blanks, '-', '/' between them")
    return word


ClaimNumber = Annotated[Named, AfterValidator(_claim_number)]
"""The shop's number of a claim."""

FilePath = Annotated[Named, AfterValidator(inside_folder)]
"""A path inside the claim folder, parts parted by forward slashes."""

Currency = Annotated[str, AfterValidator(known_currency)]
"""A currency code of ISO 4217."""

Use = Annotated[Named, AfterValidator(_named_use)]
"""How a unit is used, in a word that plans name."""

MeterKind = Annotated[Named, AfterValidator(_plain_word)]
"""What a meter counts, as in `cycles`, `miles` or `hours`."""

ModelYear = Annotated[int, Field(ge=1900, le=2100)]
"""The maker's model year of a unit."""

MeterHours = Annotated[NotNegative, AfterValidator(_reading)]
"""The reading of an hour meter."""

FailureNumber = Annotated[int, Field(ge=1)]
"""Which failure of the claim a line is for, counted from 1."""

Fraction = Annotated[NotNegative, Field(le=1)]
"""A fraction of a picture's width or height, from its upper left."""


class Record(BaseModel):
    """A frozen record; a key it does not know is an error."""

    model_config = ConfigDict(
        frozen=True, extra="forbid", str_max_length=100_000, defer_build=True, serialize_by_alias=True
    )


class Serial(Record):
    """One serial number and what carries it.

    Args:
        role: what carries the number, as in `unit`.
        value: the number as it is stamped, as in `HC70-118-20417`.
    """

    role: Named
    value: Named


HOURS = "hours"
"""What an hour meter counts."""


class Meter(Record):
    """What one meter reads, and what its predecessor read when it was replaced; or that the unit has no such meter.

    Args:
        kind: what it counts, as in `cycles`.
        value: what it reads, in its own unit, as in `4100`.
        replaced_at: what the meter before it read when it was replaced; counted on top, as in `"830.5"`.
        fitted: whether the unit has such a meter.
    """

    kind: MeterKind
    value: NotNegative | None = None
    replaced_at: NotNegative | None = None
    fitted: bool = True

    @model_validator(mode="after")
    def _reads_where_it_is_fitted(self) -> Self:
        if self.fitted and self.value is None:
            raise ValueError(f"the meter of {self.kind} needs its value, or fitted = false where the unit has none")
        if not self.fitted and (self.value is not None or self.replaced_at is not None):
            raise ValueError(f"the meter of {self.kind} is said not to be fitted, and to read something")
        return self

    @property
    def total(self) -> Decimal | None:
        """What was counted in all: the reading, and that of the meter before; None without a meter."""
        return None if self.value is None else self.value + (self.replaced_at or 0)

    @property
    def said(self) -> str:
        """What was counted in all, and of what it is the sum where the meter was replaced; empty without a meter."""
        if self.total is None or self.value is None:
            return ""
        parts = f" ({plain(self.value)} + {plain(self.replaced_at)})" if self.replaced_at is not None else ""
        return f"{plain(self.total)}{parts}"


def _once(meters: tuple[Meter, ...]) -> tuple[Meter, ...]:
    kinds = [folded(meter.kind) for meter in meters]
    twice = sorted({kind for kind in kinds if kinds.count(kind) > 1})
    if twice:
        raise ValueError(f"given twice: {', '.join(twice)}")
    return meters


Meters = Annotated[tuple[Meter, ...], AfterValidator(_once)]
"""The meters of a unit, one of a kind."""


class Unit(Record):
    """The machine: which one it is, how it is used and how long it ran.

    Args:
        model: the model as the maker writes it, as in `CS-70`.
        kind: what machine it is, as in `cut-off saw`.
        use: how it is used: household, professional, rental, or another word of the plan, as in
            `professional`.
        meter: whether it has an hour meter.
        hours: the reading of the hour meter when it was brought in, in hours, as in `"112.4"`.
        meters: other meters than the hour meter, as in `[{kind = "cycles", value = "4100"}]`.
        built: the day it was built.
        invoiced: the day of the dealer's own invoice, where cover of a unit in stock may start.
        model_year: the maker's model year, as in `2025`.
        sold_in: where it was sold: country, and state where law goes by state, as in `US-CA`.
        serials: its serial numbers by what carries them, as in `[{role = "unit", value = "HC70-118-20417"}]`.
    """

    model: Named
    kind: Line = ""
    use: Use | None = None
    meter: bool | None = None
    hours: MeterHours | None = None
    meters: Meters = ()
    built: Day | None = None
    invoiced: Day | None = None
    model_year: ModelYear | None = None
    sold_in: Line = ""
    serials: tuple[Serial, ...]

    @model_validator(mode="after")
    def _hours_once(self) -> Self:
        if self.meter_of(HOURS) and (self.hours is not None or self.meter is not None):
            raise ValueError("the hour meter is given by meters; take away hours and meter")
        return self

    def meter_of(self, kind: str) -> Meter | None:
        """The meter of a kind among the meters told of; None where nothing is said of it."""
        return next((meter for meter in self.meters if folded(meter.kind) == folded(kind)), None)

    @property
    def has_hour_meter(self) -> bool | None:
        """Whether the unit has an hour meter; None while that is not said."""
        told = self.meter_of(HOURS)
        return told.fitted if told else self.meter

    @property
    def hours_run(self) -> Decimal | None:
        """The hours the unit ran by its meter, those of a meter before it too; None without a reading."""
        told = self.meter_of(HOURS)
        return told.total if told else self.hours

    @property
    def hours_said(self) -> str:
        """The hours the unit ran, and what they add up from where the meter was replaced; empty without a reading."""
        told = self.meter_of(HOURS)
        return told.said if told else plain_or_none(self.hours) or ""

    @property
    def other_meters(self) -> tuple[Meter, ...]:
        """The meters but the hour meter."""
        return tuple(meter for meter in self.meters if folded(meter.kind) != HOURS)

    def serial(self, role: str) -> str:
        """The serial number of a role, or an empty text."""
        wanted = folded_often(role)
        return next((serial.value for serial in self.serials if folded_often(serial.role) == wanted), "")

    @property
    def own_serial(self) -> str:
        """The one number the machine is told by: the unit's own, else the first one; empty where there is none."""
        return self.serial("unit") or (self.serials[0].value if self.serials else "")


class Owner(Record):
    """Who owns the unit.

    Args:
        name: the owner's name.
        phone: the owner's phone number.
        email: the owner's mail address.
        address: the owner's postal address, on one line or more.
        first_owner: whether the unit was sold to this owner new.
    """

    name: Line = ""
    phone: Line = ""
    email: Line = ""
    address: Text = ""
    first_owner: bool | None = None


class Dates(Record):
    """The days that decide cover, in the order they happen; then those of a second sale and of the unit's return.

    Args:
        purchased: the day it was bought.
        delivered: the day it was handed over.
        in_service: the day it was first used, where that is another day.
        registered: the day it was registered with the maker.
        never_registered: whether it is known that nobody registered it.
        failed: the day it failed.
        presented: the day it was brought in.
        repaired: the day the repair was done.
        resold: the day the second owner bought it.
        transferred: the day the maker was told of that.
        returned: the day the owner was told that it is ready, or fetched it, whichever came first.
    """

    purchased: Day | None = None
    delivered: Day | None = None
    in_service: Day | None = None
    registered: Day | None = None
    never_registered: bool = False
    failed: Day | None = None
    presented: Day
    repaired: Day | None = None
    resold: Day | None = None
    transferred: Day | None = None
    returned: Day | None = None

    @model_validator(mode="after")
    def _in_order(self) -> Self:
        impossible = [
            Contradiction(f"{{}} {_at(self, later)} lies before {{}} {_at(self, earlier)}", (later, earlier))
            for earlier, later in _ORDER
            if _at(self, earlier) and _at(self, later) and _at(self, later) < _at(self, earlier)
        ]
        if self.never_registered and self.registered:
            registered = ("never_registered", "registered")
            impossible.append(Contradiction(f"{{}} is true, but {{}} is {self.registered}", registered))
        if impossible:
            raise contradiction(impossible)
        return self


_ORDER = (
    ("in_service", "failed"),
    ("in_service", "presented"),
    ("failed", "presented"),
    ("failed", "repaired"),
    ("presented", "repaired"),
    ("presented", "returned"),
    ("repaired", "returned"),
    ("purchased", "resold"),
    ("delivered", "resold"),
)


def _at(dates: Dates, role: str) -> Any:
    return getattr(dates, role)


class ReadArea(Record):
    """Where on a picture something was read: fractions of its width and height, from the upper left.

    Args:
        x: how far its left edge is from the picture's, as in `0.31`.
        y: how far its upper edge is from the picture's, as in `0.44`.
        width: how wide it is, as in `0.38`.
        height: how high it is, as in `0.05`.
    """

    x: Fraction
    y: Fraction
    width: Annotated[Positive, Field(le=1)]
    height: Annotated[Positive, Field(le=1)]


class ReadOff(Record):
    """What the program read off a picture or a paper, and what a person said who looked.

    Args:
        key: the key of the claim that it tells, as in `unit.serials.unit`.
        text: what was read, as in `HC70-118-20417`.
        by: whether it was read from a bar code, from letters in a picture, or from the text that a file carries.
        area: where on the picture.
        confirmed: what a person who looked says is there; absent while nobody looked.
    """

    key: Named
    text: Named
    by: Literal["code", "letters", "text"]
    area: ReadArea | None = None
    confirmed: Line = ""

    @property
    def shows(self) -> str:
        """What is there: by the word of a person, else as it was read."""
        return self.confirmed or self.text


class Proof(Record):
    """What shows the purchase date.

    Args:
        kind: what shows the day of purchase.
        file: the paper that shows it, as in `papers/receipt.pdf`.
        read: what was read off it, as in `[{key = "dates.purchased", text = "2025-03-14", by = "text"}]`.
    """

    kind: ProofKind | None = None
    file: FilePath | None = None
    read: tuple[ReadOff, ...] = ()


class FailedPart(Record):
    """The part that failed.

    Args:
        number: the maker's part number.
        name: what the part is called, as in `short block`.
        serial: its serial number, where it has one.
    """

    number: Line = ""
    name: Line = ""
    serial: Line = ""


class Failure(Record):
    """Complaint, cause and correction, and what failed.

    Args:
        complaint: what is wrong, in the owner's words.
        cause: what the technician found to be the cause.
        correction: what was done about it.
        component: what failed, in the word the plan uses, as in `short block`.
        defect: the kind of defect.
        part: the part that failed, as in `{number = "70-1180", name = "short block"}`.
    """

    complaint: Text = ""
    cause: Text = ""
    correction: Text = ""
    component: Line = ""
    defect: Defect | None = None
    part: FailedPart = FailedPart()

    @property
    def word(self) -> str:
        """The word for what failed; empty where none is given."""
        return self.component or self.part.name


class Failures(Failure):
    """What failed: mostly one thing; where several did, `[[failure]]` is written once for each.

    Args:
        also: the second failure and those after it, each with what it says of itself.
    """

    also: tuple[Failure, ...] = ()


def _as_failures(said: Any) -> Any:
    """Failures in a row as the first of them with the others; one alone as it is."""
    if not isinstance(said, (list, tuple)) or not said or not isinstance(said[0], dict):
        return said
    return {**said[0], "also": said[1:]} if len(said) > 1 else said[0]


def _failures_in_a_row(failures: Failures, written: Callable[[Failures], dict[str, Any]]) -> Any:
    first = written(failures)
    others = first.pop("also", None)
    return [first, *others] if others else first


AllFailures = Annotated[
    Failures,
    BeforeValidator(_as_failures),
    WrapSerializer(_failures_in_a_row),
    WrittenAs(Failure | tuple[Failure, ...]),
]
"""What failed, as one table or several."""


class Approval(Record):
    """The maker's word before the repair: asked for, given for an amount and up to a day, or refused.

    Args:
        number: the number the maker approved it under.
        on: the day the maker approved or refused it.
        by: who said so.
        up_to: the amount it was approved for, as in `"450.00"`.
        expires: the last day to repair under it.
        state: where it stands; absent where nobody wrote that down.
        asked: the day it was asked for.
        question: what the maker was asked.
        conditions: what the maker ties it to.
        because: why the maker refused it.
    """

    number: Line = ""
    on: Day | None = None
    by: Line = ""
    up_to: NotNegative | None = None
    expires: Day | None = None
    state: Literal["asked", "given", "refused"] | None = None
    asked: Day | None = None
    question: Text = ""
    conditions: Text = ""
    because: Text = ""

    @model_validator(mode="after")
    def _in_order(self) -> Self:
        if self.on and self.expires and self.expires < self.on:
            raise ValueError(f"expires {self.expires} lies before on {self.on}")
        if self.on and self.asked and self.on < self.asked:
            raise ValueError(f"on {self.on} lies before asked {self.asked}")
        return self

    @property
    def is_refused(self) -> bool:
        """Whether the maker said no."""
        return self.state == "refused"

    @property
    def is_waited_for(self) -> bool:
        """Whether it was asked for, and the maker has not said yes or no; a number is a yes."""
        return self.state == "asked" and not self.number

    @property
    def is_given(self) -> bool:
        """Whether the maker said yes: its number is proof of that."""
        return bool(self.number) and not self.is_refused


class Finding(Record):
    """One measured fact and its limits.

    Args:
        what: what was measured, as in `compression`.
        value: what was found, as in `42`.
        unit: the unit of value and limits, as in `psi`.
        low: the lowest value that is right, as in `110`.
        high: the highest value that is right, as in `150`.
    """

    what: Named
    value: Named
    unit: Line = ""
    low: Line = ""
    high: Line = ""


class Part(Record):
    """A part used in the repair; its costs may carry more decimals than the currency.

    Args:
        number: the maker's part number, as in `70-1180`.
        name: what the part is called, as in `short block`.
        quantity: how many.
        unit_cost: what one costs the shop; may carry more decimals than the currency, as in `"146.40"`.
        list_price: what the maker sells one for, where it pays the handling of parts that it sent, as in `"183.00"`.
        core: the deposit on one until the old one is returned, as in `"45.00"`.
        core_returned: the day the old one was returned.
        source: from the shop's stock, or sent by the maker at no charge.
        payer: who pays it.
        failure: which failure of the claim it is for, counted from 1.
    """

    number: Line = ""
    name: Named
    quantity: Positive = Decimal(1)
    unit_cost: NotNegative = Decimal(0)
    list_price: NotNegative | None = None
    core: NotNegative | None = None
    core_returned: Day | None = None
    source: Literal["stock", "maker"] = "stock"
    payer: Payer = "maker"
    failure: FailureNumber = 1


class Labour(Record):
    """Work by one technician: an operation of the plan's schedule or free text; hours, or a start and an end.

    Args:
        operation: a code of the plan's time schedule, or what was done in words, as in `short-block-replace`.
        class_: what the maker's labour rate may go by; absent for that of the operation, as in `engine`.
        hours: how long it took, in hours, as in `"1.6"`.
        started: when the work began, as in `2026-02-24T09:10:00`.
        ended: when the work ended, as in `2026-02-24T10:52:00`.
        technician: who did it.
        payer: who pays it.
        failure: which failure of the claim it is for, counted from 1.
    """

    operation: Named
    class_: Line = Field(default="", alias="class")
    hours: NotNegative | None = None
    started: Moment | None = None
    ended: Moment | None = None
    technician: Line = ""
    payer: Payer = "maker"
    failure: FailureNumber = 1

    @model_validator(mode="after")
    def _ends_after_it_starts(self) -> Self:
        if self.ended and not self.started:
            raise ValueError("ended is given without started")
        if self.started and self.ended:
            if (self.started.tzinfo is None) != (self.ended.tzinfo is None):
                raise ValueError("started and ended must both carry a time zone, or neither")
            if self.ended < self.started:
                ended, started = to_the_minute(self.ended, self.started)
                raise ValueError(f"ended {ended} lies before started {started}")
        return self


class Extra(Record):
    """Freight, outside work, travel, disposal: at an amount, or by the distance of a visit at the plan's rate.

    Args:
        what: what it is, in words, as in `freight for the short block`.
        kind: what kind it is, where the plan pays by kind.
        amount: what it costs, as in `"12.50"`.
        distance: how far a visit was, in the unit the plan pays by, instead of an amount, as in `34`.
        approval: the number under which the maker approved this alone.
        payer: who pays it.
        failure: which failure of the claim it is for, counted from 1.
    """

    what: Named
    kind: ExtraKind | None = None
    amount: NotNegative | None = None
    distance: NotNegative | None = None
    approval: Line = ""
    payer: Payer = "maker"
    failure: FailureNumber = 1

    @model_validator(mode="after")
    def _has_a_price(self) -> Self:
        if self.kind != "travel" and self.distance is not None:
            raise ValueError('distance is for kind = "travel"')
        if self.kind != "travel" and self.amount is None:
            raise ValueError("amount is missing")
        if self.amount is not None and self.distance is not None:
            raise ValueError("give an amount or a distance; the plan's rate gives the amount of a distance")
        return self


class Mark(Record):
    """A mark over a picture: fractions of its width and height from the upper left; size is a fraction of its width.

    Args:
        shape: a ring has its centre at x, y; a box its upper left corner; an arrow its tip.
        x: how far from the left edge, as a fraction of the picture's width, as in `0.42`.
        y: how far from the upper edge, as a fraction of the picture's height, as in `0.61`.
        size: how large, as a fraction of the picture's width, as in `0.12`.
        note: what it points at, as in `crack`.
    """

    shape: Literal["ring", "arrow", "box"]
    x: Fraction
    y: Fraction
    size: Annotated[Positive, Field(le=1)] = Decimal("0.1")
    note: Line = ""


class Photo(Record):
    """A picture and what it shows.

    Args:
        file: the picture, as in `photos/plate.jpg`.
        shot: what it shows, in the word the plan asks for, as in `serial plate`.
        caption: what is printed below it.
        marks: marks over it, as in `[{shape = "ring", x = 0.42, y = 0.61, note = "crack"}]`.
        read: what was read off it, as in `[{key = "unit.serials.unit", text = "HC70-118-20417", by = "letters"}]`.
    """

    file: FilePath
    shot: Line = ""
    caption: Text = ""
    marks: tuple[Mark, ...] = ()
    read: tuple[ReadOff, ...] = ()


class HeldPart(Record):
    """A failed part that the shop keeps until the maker lets it go.

    Args:
        part: the part, as in `short block`.
        number: the maker's part number.
        serial: its serial number, where it has one.
        shelf: where it stands, as in `B3`.
        boxed: whether it is in its box.
        drained: whether fuel and oil were drained.
        hazard: what makes it dangerous to store or send.
        since: the day it was put there.
    """

    part: Named
    number: Line = ""
    serial: Line = ""
    shelf: Line = ""
    boxed: bool = False
    drained: bool | None = None
    hazard: Literal["fuel", "lithium battery", "wet battery", "none"] | None = None
    since: Day | None = None


class EarlierRepair(Record):
    """A repair of the same unit before this one.

    Args:
        component: what was repaired, as in `short block`.
        repaired: the day it was repaired.
        presented: the first day it was in the shop.
        returned: the last day it was in the shop.
        hours: the reading of the hour meter then, in hours, as in `"88.0"`.
        meters: the readings of other meters then, as in `[{kind = "cycles", value = "4100"}]`.
        claim: the number of the claim it was, as in `25-0310`.
        paid: what the maker paid for it, its tax left out, as in `"120.00"`.
    """

    component: Named
    repaired: Day
    presented: Day | None = None
    returned: Day | None = None
    hours: MeterHours | None = None
    meters: Meters = ()
    claim: Line = ""
    paid: NotNegative | None = None

    @model_validator(mode="after")
    def _in_order(self) -> Self:
        if self.presented and self.repaired < self.presented:
            raise ValueError(f"repaired {self.repaired} lies before presented {self.presented}")
        if self.returned and self.returned < self.repaired:
            raise ValueError(f"returned {self.returned} lies before repaired {self.repaired}")
        return self

    @model_validator(mode="after")
    def _hours_alone(self) -> Self:
        if any(folded(meter.kind) == HOURS for meter in self.meters):
            raise ValueError("the reading of the hour meter stands under hours, not under meters")
        return self


class Paper(Record):
    """A paper of the claim; one of which nothing more is said may be written as its file alone.

    Args:
        file: its file inside the claim folder, as in `papers/service.pdf`.
        kind: what kind of paper it is, as in `maintenance record`.
        on: the day it is of.
    """

    file: FilePath
    kind: Line = ""
    on: Day | None = None


def _as_papers(said: Any) -> Any:
    """Papers of which nothing more is said may be written as their files alone."""
    if not isinstance(said, (list, tuple)):
        return said
    return tuple({IN_SHORT: paper} if isinstance(paper, str) else paper for paper in said)


def papers_in_short(papers: tuple[Paper, ...]) -> list[str | dict[str, Any]]:
    """Papers as they are written: a file alone where nothing more is said of it."""
    told = (paper.model_dump(mode="json", exclude_defaults=True) for paper in papers)
    return [paper[IN_SHORT] if len(paper) == 1 else paper for paper in told]


IN_SHORT = "file"
"""The key of a paper that may stand for the whole of it."""

Papers = Annotated[
    tuple[Paper, ...],
    BeforeValidator(_as_papers),
    PlainSerializer(papers_in_short),
    WrittenAs(tuple[FilePath | Paper, ...]),
]
"""The papers of a claim."""


class Goodwill(Record):
    """A favour asked of the maker out of cover: why, and what.

    Args:
        because: why the maker is asked for a favour.
        asks: what is asked for, in words and kinds of line; those kinds alone are claimed, as in `parts`.
    """

    because: Text = ""
    asks: Line = ""


class PartSold(Record):
    """A part that was sold over the counter or fitted earlier, and has a warranty of its own.

    Args:
        number: its part number.
        name: what it is.
        serial: its own serial number; empty where it has none.
        sold: the day on its receipt.
        fitted: the day the shop fitted it.
        never_fitted: the shop did not fit it.
    """

    number: Line = ""
    name: Line = ""
    serial: Line = ""
    sold: Day | None = None
    fitted: Day | None = None
    never_fitted: bool = False

    @model_validator(mode="after")
    def _fitted_once_sold(self) -> Self:
        if self.sold and self.fitted and self.fitted < self.sold:
            raise ValueError(f"fitted {self.fitted} lies before sold {self.sold}")
        if self.fitted and self.never_fitted:
            raise ValueError(f"never_fitted is true, but fitted is {self.fitted}")
        return self


class Question(Record):
    """What the maker asked about a claim, and what the shop answered.

    Args:
        asked: the day the question came in.
        text: what was asked.
        answered: the day it was answered.
        answer: what was answered.
    """

    asked: Day
    text: Text = ""
    answered: Day | None = None
    answer: Text = ""

    @model_validator(mode="after")
    def _asked_first(self) -> Self:
        if self.answered and self.answered < self.asked:
            raise ValueError(f"answered {self.answered} lies before asked {self.asked}")
        return self


CaseKind = Literal["repair", "stock", "part", "campaign", "goodwill", "declined"]
"""What kind of claim it is: a repair for an owner, a dealer's unsold unit, a part sold, a maker's campaign, a favour,
or a repair that the owner declined."""


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
    owner: Owner = Owner()
    dates: Dates
    proof: Proof = Proof()
    failure: AllFailures = Failures()
    approval: Approval | None = None
    goodwill: Goodwill = Goodwill()
    part_sold: PartSold = PartSold()
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
        found = [*self._built_first(), *self._sold_first(), *self._part_sold_first(), *self._one_owner()]
        found += self._lines_of_no_failure()
        if found:
            raise contradiction(found)
        return self

    def _built_first(self) -> list[Contradiction]:
        built, invoiced = self.unit.built, self.unit.invoiced
        found = [
            Contradiction(f"{{}} {built} lies after {{}} {_at(self.dates, role)}", ("unit.built", f"dates.{role}"))
            for role in ("delivered", "in_service", "failed", "presented")
            if built and _at(self.dates, role) and _at(self.dates, role) < built
        ]
        if built and invoiced and invoiced < built:
            found.append(Contradiction(f"{{}} {built} lies after {{}} {invoiced}", ("unit.built", "unit.invoiced")))
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
            sold = _at(dates, sale)
            if sold and self.is_stock and sold < dates.presented:
                says = f"{{}} {sold} lies before {{}} {dates.presented}, when a stock unit is not sold yet"
                found.append(Contradiction(says, (f"dates.{sale}", "dates.presented")))
            for role in () if self.is_stock else ("failed", "presented"):
                on = _at(dates, role)
                if sold and on and on < sold:
                    says = f"{{}} {on} lies before {{}} {sold}"
                    found.append(Contradiction(says, (f"dates.{role}", f"dates.{sale}")))
        return found

    def _part_sold_first(self) -> list[Contradiction]:
        """A part was sold, and fitted, before it failed and came back."""
        found = []
        for role in ("sold", "fitted"):
            then = getattr(self.part_sold, role)
            for later in ("failed", "presented"):
                on = _at(self.dates, later)
                if then and on and on < then:
                    keys = (f"dates.{later}", f"part_sold.{role}")
                    found.append(Contradiction(f"{{}} {on} lies before {{}} {then}", keys))
        return found

    def _one_owner(self) -> list[Contradiction]:
        resold = self.dates.resold
        if not (self.owner.first_owner and resold and resold <= self.dates.presented):
            return []
        return [Contradiction(f"{{}} is true, but {{}} is {resold}", ("owner.first_owner", "dates.resold"))]

    def component(self) -> str:
        """The word for what failed that windows are matched with."""
        return self.failure.word or self.part_sold.name

    @property
    def failures(self) -> tuple[Failure, ...]:
        """Everything that failed, in the order in which lines name it, counted from 1."""
        return (self.failure, *self.failure.also)

    def of_failure(self, number: int) -> Claim:
        """The claim as if that failure were all that it is about; the lines stay."""
        one = self.failures[number - 1]
        alone = Failures(**{name: getattr(one, name) for name in Failure.model_fields})
        return self.model_copy(update={"failure": alone})

    def components(self) -> tuple[str, ...]:
        """The words for everything that failed, each once."""
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
