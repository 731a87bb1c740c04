"""The fields of a fillable PDF: their names, kinds, pages and options, read within limits."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

import pikepdf
from pikepdf import Array, Dictionary, Stream

from claimpack.confined import confined
from claimpack.errors import BadInput
from claimpack.pdf_limits import open_within_limits

DAMAGES = (pikepdf.PdfError, ValueError, TypeError, LookupError, AttributeError, RuntimeError, RecursionError)
"""Every error the PDF library was seen to raise for a damaged file."""

LARGEST_FORM = 50_000_000
# Forms have some hundreds; a file with more, or deeper, is made to keep its reader busy.
_MOST_FIELDS = 5000
_DEEPEST = 16
_MOST_PAGES = 50
_MOST_BOXES = 500

_LINES, _RADIO, _PUSH, _COMBO, _COMB = 1 << 12, 1 << 15, 1 << 16, 1 << 17, 1 << 24
_READ_ONLY, _REQUIRED = 1, 2
OFF = "/Off"


@dataclass(frozen=True, slots=True)
class FormField:
    """A field as it is told of: its whole name, kind, first page from 1, the most characters, 0 for no limit.

    Kinds are text, check box, radio buttons, drop-down, list, signature and button. Comb and lines are of text: one box
    a character, several lines. Options are the texts of a list, or the names of what buttons may be set to.
    """

    name: str
    kind: str
    page: int
    most: int = 0
    comb: bool = False
    lines: bool = False
    options: tuple[str, ...] = ()
    required: bool = False


@dataclass(frozen=True, slots=True)
class FormFields:
    """Every field of a form in the order of its list; width and height of each page as it is read, in points."""

    fields: tuple[FormField, ...]
    sizes: tuple[tuple[float, float], ...]


def fields_of(content: bytes, file: str) -> FormFields:
    """The fields of a PDF; none where it has none.

    Args:
        content: the PDF.
        file: how the user calls it, for messages.

    Raises:
        BadInput: it is no PDF, damaged, locked, signed, or has its fields in XFA alone.
    """
    return confined(fields_here, content, file, file=file)


def fields_here(content: bytes, file: str) -> FormFields:
    """As `fields_of`, in this process: for what made the form itself."""
    with opened(content, file) as pdf:
        try:
            return FormFields(tuple(each.told for each in pdf_fields(pdf)), tuple(map(size_of, pdf.pages)))
        except DAMAGES as error:
            raise damaged(file) from error


def box_of(page: pikepdf.Page) -> tuple[float, float, float, float]:
    """The edges of what is shown of a page: left, bottom, right, top, in points; whichever corners the form names."""
    # a rectangle may name any two opposite corners (ISO 32000-1, 7.9.5)
    x1, y1, x2, y2 = (float(edge) for edge in page.cropbox)
    return min(x1, x2), min(y1, y2), max(x1, x2), max(y1, y2)


def size_of(page: pikepdf.Page) -> tuple[float, float]:
    """Width and height of a page as it is read, in points."""
    left, bottom, right, top = box_of(page)
    wide, high = right - left, top - bottom
    return (high, wide) if int(page.get("/Rotate", 0)) % 180 else (wide, high)


@dataclass(frozen=True, slots=True)
class PdfField:
    """A field inside an opened PDF: what it is, its dictionary, and where it is shown."""

    told: FormField
    thing: Any
    widgets: tuple[Any, ...]
    labels: tuple[str, ...] = ()
    """What a button or list shows for each of its options, where it shows something else."""


def opened(content: bytes, file: str) -> pikepdf.Pdf:
    """A form, opened within limits; nothing in it acts by itself any more.

    Raises:
        BadInput: it is no PDF, damaged, locked, signed, too large, or has its fields in XFA alone.
    """
    # readers accept it anywhere in the first 1024 bytes
    if b"%PDF-" not in content[:1024]:
        raise BadInput(f"{file} is not a PDF", "A maker's own form is filled as a PDF.", "Choose the form.")
    if len(content) > LARGEST_FORM:
        raise BadInput(f"{file} is larger than {LARGEST_FORM // 1_000_000} MB", "No form is that large.")
    try:
        pdf = open_within_limits(content)
        refuse_unfillable(pdf, file)
    except pikepdf.PasswordError as error:
        raise _locked(file) from error
    except DAMAGES as error:
        raise damaged(file) from error
    return pdf


def refuse_unfillable(pdf: pikepdf.Pdf, file: str) -> None:
    """Refuse a form that would not be the maker's any more when it is filled, or cannot be.

    Raises:
        BadInput: it is protected, signed, has its fields in XFA alone, or has too many pages.
    """
    if pdf.is_encrypted:
        raise _locked(file)
    if not 1 <= len(pdf.pages) <= _MOST_PAGES:
        raise BadInput(f"{file} has {len(pdf.pages)} pages", f"A form has from 1 to {_MOST_PAGES}.")
    form = pdf.Root.get("/AcroForm", Dictionary())
    # with both, the ordinary fields are filled and the XFA is taken out
    if "/XFA" in form and not len(form.get("/Fields", ())):
        raise BadInput(
            f"{file} has its fields in XFA alone",
            "That kind of form is shown by few programs, and its pages are not in the file.",
            "Ask the maker for the form as an ordinary fillable PDF, or print it and give places on its pages.",
        )
    if any(each.told.kind == "signature" and "/V" in each.thing for each in pdf_fields(pdf)):
        raise BadInput(
            f"{file} is signed already",
            "Filled after it was signed, its signature would not hold.",
            "Use the form as the maker gives it out.",
        )


def _locked(file: str) -> BadInput:
    return BadInput(
        f"{file} is protected with a password",
        "A form that is protected cannot be filled without taking that away from it.",
        "Ask the maker for it without protection, or print it to a PDF and give places on its pages.",
    )


def damaged(file: str) -> BadInput:
    """The refusal of a form that cannot be read."""
    return BadInput(
        f"{file} is a damaged PDF: its fields cannot be read",
        "A form filled in part would be worse than none.",
        "Get the form again from the maker.",
    )


def pdf_fields(pdf: pikepdf.Pdf) -> Iterator[PdfField]:
    """Every field that holds a value, in the order of the form's list; names are whole, with their parents' before.

    Source: ISO 32000-1:2008 12.7.3 (fields, names and what they take over), 12.7.4 (kinds of field).
    """
    pages = {page.obj.objgen: number for number, page in enumerate(pdf.pages, 1)}
    shown = {note.objgen: pages[page.obj.objgen] for page in pdf.pages for note in page.obj.get("/Annots", ())}
    seen: set[tuple[int, int]] = set()
    for thing in pdf.Root.get("/AcroForm", Dictionary()).get("/Fields", ()):
        yield from _under(thing, "", shown, seen, 0)


def _under(thing: Any, above: str, shown: dict[Any, int], seen: set[Any], depth: int) -> Iterator[PdfField]:
    # told as damage: such a list was made to keep its reader busy, or is broken
    if depth > _DEEPEST or len(seen) > _MOST_FIELDS or (thing.is_indirect and thing.objgen in seen):
        raise ValueError("the list of fields leads back to itself, or has no end")
    if thing.is_indirect:
        seen.add(thing.objgen)
    name = ".".join(part for part in (above, str(thing.get("/T", ""))) if part)
    kids = list(thing.get("/Kids", ()))
    # a kid with a name is a field of its own, one without is only a place where this field is shown
    inner = [kid for kid in kids if "/T" in kid]
    if inner:
        for kid in inner:
            yield from _under(kid, name, shown, seen, depth + 1)
    elif taken_over(thing, "/FT") is not None and name:
        yield _field(thing, name, tuple(kids) or (thing,), shown)


def _field(thing: Any, name: str, widgets: tuple[Any, ...], shown: dict[Any, int]) -> PdfField:
    kind, flags = str(taken_over(thing, "/FT")), int(taken_over(thing, "/Ff") or 0)
    page = min((shown[widget.objgen] for widget in widgets if widget.objgen in shown), default=0)
    options, labels = _options(thing, kind, widgets)
    is_text = kind == "/Tx"
    most = int(taken_over(thing, "/MaxLen") or 0) if is_text else 0
    told = FormField(
        name=name,
        kind=_kind(kind, flags),
        page=page,
        most=max(most, 0),
        # boxes need a most number of characters, and stand in one line
        comb=is_text and bool(flags & _COMB) and 0 < most <= _MOST_BOXES and not flags & _LINES,
        lines=is_text and bool(flags & _LINES),
        options=options,
        required=bool(flags & _REQUIRED),
    )
    return PdfField(told, thing, widgets, labels)


def _kind(kind: str, flags: int) -> str:
    if kind == "/Btn":
        return "button" if flags & _PUSH else "radio buttons" if flags & _RADIO else "check box"
    if kind == "/Ch":
        return "drop-down" if flags & _COMBO else "list"
    return {"/Tx": "text", "/Sig": "signature"}.get(kind, "unknown")


def _options(thing: Any, kind: str, widgets: tuple[Any, ...]) -> tuple[tuple[str, ...], tuple[str, ...]]:
    listed = list(taken_over(thing, "/Opt") or ())
    if kind == "/Ch":
        pairs = [(str(each[0]), str(each[1])) if isinstance(each, Array) else (str(each), str(each)) for each in listed]
        return tuple(value for value, _ in pairs), tuple(label for _, label in pairs)
    if kind != "/Btn":
        return (), ()
    states = [state for widget in widgets for state in states_of(widget)]
    return tuple(dict.fromkeys(state[1:] for state in states)), ()


def states_of(widget: Any) -> list[str]:
    """The names of what a button may be set to beside Off, each with its slash."""
    looks = widget.get("/AP", Dictionary()).get("/N", Dictionary())
    return [] if isinstance(looks, Stream) else [key for key in dict(looks) if key != OFF]


def taken_over(thing: Any, key: str) -> Any:
    """What a field says under a key, or the nearest field above it does; None where none does."""
    for _ in range(_DEEPEST):
        if key in thing:
            return thing[key]
        if "/Parent" not in thing:
            return None
        thing = thing["/Parent"]
    return None
