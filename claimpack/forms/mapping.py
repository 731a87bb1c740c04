"""A mapping: what goes into each field or place of a maker's own form, as it stands in a file beside the PDF."""

from __future__ import annotations

import re
from collections.abc import Iterator
from string import Formatter
from typing import Annotated, Any, Literal, NamedTuple, Self

from claimpack.core.clauses.window import LineKind
from claimpack.core.facts.fields import FilePath, Payer, TemplateId
from claimpack.core.facts.keys import record_from
from claimpack.core.facts.record import Record
from claimpack.core.values.marks import AfterValidator, BeforeValidator, Field, model_validator
from claimpack.core.values.words import Line, Named, Text
from claimpack.core.values.written import WrittenAs
from claimpack.printing.lengths import Length, Size

ROW = "{row}"
"""What stands for the row's number in the names of a row's fields."""

_DAY = re.compile(r"(YYYY|YY|MM|DD|[-./ ])+")


def _day_form(text: str) -> str:
    if not _DAY.fullmatch(text):
        raise ValueError(f"{text!r} is no way to write a day: YYYY or YY, MM and DD, with '-', '.', '/' or blanks")
    return text


def _pdf(text: str) -> str:
    if "/" in text or not text.casefold().endswith(".pdf"):
        raise ValueError(f"{text!r} does not name a PDF beside this file")
    return text


def _in_a_list(given: Any) -> Any:
    return [given] if isinstance(given, str) else given


def _as_text(given: Any) -> Any:
    return {"text": given} if isinstance(given, str) else given


Kinds = Annotated[tuple[LineKind, ...], WrittenAs(LineKind | tuple[LineKind, ...]), BeforeValidator(_in_a_list)]
"""Kinds of line, one or several."""

Values = Annotated[tuple[Named, ...], WrittenAs(Named | tuple[Named, ...]), BeforeValidator(_in_a_list)]
"""Values, one or several."""

DayForm = Annotated[Named, WrittenAs(Annotated[str, Field(pattern=rf"^({_DAY.pattern})$")]), AfterValidator(_day_form)]
"""How days are written, as in MM/DD/YYYY."""


class Piece(NamedTuple):
    """A piece of a text: what stands before a key, the key, and how its day is written where the text says so."""

    before: str
    key: str
    form: str


def pieces_of(text: str) -> list[Piece]:
    """The pieces of a text with `{keys}`; `{{` and `}}` are braces. The last one may have no key.

    Raises:
        ValueError: a brace stands alone, or a key carries anything but a way to write a day.
    """
    found = []
    for before, key, form, conversion in Formatter().parse(text):
        if conversion or (key is not None and not key.strip()):
            raise ValueError(f"{text!r} has braces without a key in them, or with '!'")
        found.append(Piece(before, key or "", _day_form(form) if form else ""))
    return found


class FormEntry(Record):
    """What goes into one field, or where there is none into a place on a page, measured from its upper left corner.

    Args:
        text: text with keys of claim, assessment and shop in braces, as in `"failed {dates.failed:MM/DD/YY}"`.
        check: for a box to tick, the key whose value decides, as in `owner.first_owner`.
        is_: for a box to tick, the values that tick it; without them it is ticked where the key says yes, as in
            `["receipt", "registration"]`.
        words: the maker's words for the program's, as in `{household = "Consumer"}`.
        without: characters that are left out, such as the hyphens of a serial number, as in `-`.
        align: where the text stands in its room; without it as the field says, in a place to the left.
        size: the size of type; without it as the field says. Text too long for its room is set smaller, as in `9 pt`.
        on: on which sheets it stands, where rows need more than one.
        page: the page of the place, the first being 1.
        x: how far the place is from the page's left edge, as in `20 mm`.
        y: how far it is from the upper edge, as in `45 mm`.
        width: how wide it is, as in `60 mm`.
        height: how high it is, as in `8 mm`.
        comb: the number of boxes that the place is divided into, one for each character.
        lines: whether the text may take several lines.
    """

    text: Text = ""
    check: Line = ""
    is_: Annotated[tuple[Named, ...], WrittenAs(Named | tuple[Named, ...]), BeforeValidator(_in_a_list)] = Field(
        default=(), alias="is"
    )
    words: dict[str, Line] = {}
    without: Line = ""
    align: Literal["left", "centre", "right"] | None = None
    size: Size | None = None
    on: Literal["every", "first", "last"] = "every"
    page: Annotated[int, Field(ge=1)] | None = None
    x: Length | None = None
    y: Length | None = None
    width: Length | None = None
    height: Length | None = None
    comb: Annotated[int, Field(ge=0, le=200)] = 0
    lines: bool = False

    @model_validator(mode="after")
    def _makes_sense(self) -> Self:
        if bool(self.text) == bool(self.check):
            raise ValueError("give text for a field, or check for a box to tick")
        if self.is_ and not self.check:
            raise ValueError("is belongs to check")
        pieces_of(self.text)
        place = {"page": self.page, "x": self.x, "y": self.y, "width": self.width, "height": self.height}
        lacking = [name for name, given in place.items() if given is None]
        if 0 < len(lacking) < len(place):
            raise ValueError(f"a place on a page needs {', '.join(lacking)} as well")
        if lacking and (self.comb or self.lines):
            raise ValueError("comb and lines are of a place on a page; a field has its own")
        return self

    @property
    def keys(self) -> list[str]:
        """The keys it asks for, in their order."""
        return [self.check] if self.check else [piece.key for piece in pieces_of(self.text) if piece.key]


Entry = Annotated[FormEntry, WrittenAs(Text | FormEntry), BeforeValidator(_as_text)]
"""What goes into a field: a text, or a table of keys."""


class FormRows(Record):
    """The lines of a priced claim, each in a row of fields; with more lines than rows a further sheet is filled.

    Args:
        of: which lines, a kind or several.
        payers: the lines of whom.
        rows: how many rows a sheet has.
        step: for places: how far each row is below the one before, as in `6 mm`.
        fields: what goes into the fields of a row; `{row}` in a field's name is the row's number, from 1. The keys of
            a line begin with `line.`.
    """

    of: Annotated[Kinds, Field(min_length=1)]
    payers: tuple[Payer, ...] = ("maker",)
    rows: Annotated[int, Field(ge=1, le=200)]
    step: Length | None = None
    fields: dict[str, Entry] = Field(min_length=1)

    @model_validator(mode="after")
    def _rows_lie_apart(self) -> Self:
        for name, entry in self.fields.items():
            if ROW not in name and self.rows > 1:
                raise ValueError(f"the name {name!r} needs {ROW}, or every row would go into the same field")
            if entry.page and self.step is None and self.rows > 1:
                raise ValueError("rows of places need step: how far each is below the one before")
        return self


class Form(Record):
    """A maker's own form: the PDF, and what goes where.

    Args:
        format: the version of this file's keys.
        id: what it is called in settings and options, as in `halden-w7`.
        name: what it is called for people, as in `Halden warranty claim, form W-7`.
        maker: whose form it is, as in `halden`.
        file: the PDF, beside this file, as in `halden-w7.pdf`.
        dates: how days are written where a text does not say, as in `MM/DD/YYYY`.
        fields: what goes into each field, by its name in the PDF; places have names of your own.
        rows: the lines of the claim, in rows of fields.
    """

    format: Literal[1] = 1
    id: TemplateId
    name: Line = ""
    maker: Named
    file: Annotated[FilePath, WrittenAs(Annotated[str, Field(pattern=r"^[^/]*\.[Pp][Dd][Ff]$")]), AfterValidator(_pdf)]
    dates: DayForm = "YYYY-MM-DD"
    fields: dict[str, Entry] = {}
    rows: tuple[FormRows, ...] = ()

    def every_entry(self) -> Iterator[tuple[str, FormEntry, int, float]]:
        """Every field and what goes into it, those of rows row by row; its row, 0 for none, and how far down it is."""
        yield from ((name, entry, 0, 0.0) for name, entry in self.fields.items())
        for table in self.rows:
            for row in range(1, table.rows + 1):
                # fields have places of their own; a step is for places on a page
                down = (table.step or 0.0) * (row - 1)
                yield from ((name.replace(ROW, str(row)), entry, row, down) for name, entry in table.fields.items())


def form_from(keys: dict[str, Any], source: str) -> Form:
    """The form that a parsed mapping describes.

    Raises:
        BadInput: a key is unknown or missing, or a value has no meaning; every problem is listed.
    """
    return record_from(Form, keys, source)
