"""A maker's own form filled: values in its fields, each drawn so that every reader shows it, or text on its pages."""

from __future__ import annotations

import io
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import count
from typing import Any

import pikepdf
from pikepdf import Array, Dictionary, Name

from claimpack.confined import confined
from claimpack.core.facts.keys import refused
from claimpack.forms.drawing import Drawn, as_pages
from claimpack.forms.fields import DAMAGES, box_of, damaged, opened, pdf_fields, taken_over
from claimpack.forms.looks import Look
from claimpack.forms.setting import set_together
from claimpack.forms.values import ToDraw, made_ready
from claimpack.forms.writings import PageArea, Sheets, Writing
from claimpack.printing.typeface import not_printed, unprintable

_ACTS_ALONE = ("/OpenAction", "/AA", "/JavaScript", "/Perms")
# a second form, an order to draw it anew, an order in which scripts compute: each would show something else than what
# is written
_OF_THE_FORM = ("/XFA", "/NeedAppearances", "/CO")


@dataclass(frozen=True, slots=True)
class Filled:
    """A form as it is filled, its sheets behind each other, and what the reader should know."""

    pdf: bytes
    notes: tuple[str, ...] = ()


def fill(content: bytes, file: str, sheets: Sheets) -> Filled:
    """A form filled, once for each sheet; the same bytes for the same input.

    Args:
        content: the form as the maker gives it out.
        file: how the user calls it, for messages.
        sheets: what is written on each.

    Raises:
        BadInput: the form cannot be filled, or a field is not there, or does not take what is written; each is named.
    """
    return confined(filled_here, content, file, sheets, file=file)


def filled_here(content: bytes, file: str, sheets: Sheets) -> Filled:
    """As `fill`, in this process: for what made the form itself."""
    notes: list[str] = []
    whole: pikepdf.Pdf | None = None
    try:
        for number, writings in enumerate(sheets, 1):
            # opened anew for each sheet, since filling changes it
            sheet = opened(content, file)
            notes += _fill_sheet(sheet, file, writings)
            if whole is None:
                whole = sheet
            else:
                _append(whole, sheet, number)
        return Filled(_saved(whole), tuple(dict.fromkeys(notes))) if whole else Filled(b"")
    except DAMAGES as error:
        raise damaged(file) from error


def _fill_sheet(pdf: pikepdf.Pdf, file: str, writings: Sequence[Writing]) -> Iterator[str]:
    if pdf.Root.get("/AcroForm", Dictionary()).get("/NeedAppearances"):
        # What the maker has filled in already would otherwise be shown by nobody.
        pdf.generate_appearance_streams()
    _quieten(pdf)
    ready, problems = made_ready(pdf, writings)
    if problems:
        raise refused(file, problems)
    yield from _draw(pdf, ready)
    yield from _still_asked_for(pdf)
    yield from map(not_printed, unprintable(each.text for each in writings))


def _still_asked_for(pdf: pikepdf.Pdf) -> Iterator[str]:
    for field in pdf_fields(pdf):
        if field.told.required and not str(taken_over(field.thing, "/V") or ""):
            yield f"{field.told.name}: the form asks for it, and nothing is written there"


def _quieten(pdf: pikepdf.Pdf) -> None:
    """Take out what acts by itself, and what would have readers show something else than what is filled in."""
    holders: list[Any] = [pdf.Root, pdf.Root.get("/Names", Dictionary()), *(page.obj for page in pdf.pages)]
    for field in pdf_fields(pdf):
        holders += [field.thing, *field.widgets]
        for widget in field.widgets:
            if "/A" in widget:
                del widget["/A"]
    for holder in holders:
        for key in _ACTS_ALONE:
            if key in holder:
                del holder[key]
    form = pdf.Root.get("/AcroForm", Dictionary())
    for key in _OF_THE_FORM:
        if key in form:
            del form[key]


def _draw(pdf: pikepdf.Pdf, ready: Sequence[ToDraw]) -> Iterator[str]:
    shown = [each for each in ready if each.look.width > 1 and each.look.height > 1]
    texts = [each for each in shown if each.tick is None]
    settings = iter(set_together([(each.text, each.look) for each in texts]))
    drawn = [Drawn(each.look, next(settings) if each.tick is None else None, bool(each.tick)) for each in shown]
    with pikepdf.open(io.BytesIO(as_pages(drawn))) as pages:
        for each, page in zip(shown, pages.pages, strict=True):
            picture = pdf.copy_foreign(page.as_form_xobject())
            if isinstance(each.where, PageArea):
                _put_on_page(pdf.pages[each.where.page - 1], picture, each.where)
            else:
                _put_in_field(picture, each.where, each.look, each.state)
    yield from (
        f"{each.field}: the text is longer than the form has room for; it ends in …"
        for each, one in zip(shown, drawn, strict=True)
        if each.cut or (one.setting and one.setting.cut)
    )


def _put_in_field(picture: Any, widget: Any, look: Look, state: str) -> None:
    # a reader fits the turned picture into the field's rectangle by itself (ISO 32000-1, 12.5.5)
    turned = {90: [0, 1, -1, 0, 0, 0], 180: [-1, 0, 0, -1, 0, 0], 270: [0, -1, 1, 0, 0, 0]}.get(look.turned)
    if turned:
        picture.Matrix = Array(turned)
    if not state:
        widget["/AP"] = Dictionary(N=picture)
        return
    looks = widget.get("/AP", Dictionary())
    looks["/N"] = Dictionary({state: picture})
    widget["/AP"] = looks


def _put_on_page(page: pikepdf.Page, picture: Any, place: PageArea) -> None:
    """Put what was drawn where it was measured: from the upper left of the page as it is read, turned or cropped."""
    left, bottom, right, top = box_of(page)
    turned = int(page.get("/Rotate", 0)) % 360
    high = right - left if turned % 180 else top - bottom
    up = high - place.y - place.height
    matrix = {
        90: (0, 1, -1, 0, right - up, bottom + place.x),
        180: (-1, 0, 0, -1, right - place.x, top - up),
        270: (0, -1, 1, 0, left + up, top - place.x),
    }.get(turned, (1, 0, 0, 1, left + place.x, bottom + up))
    # a form may have something of that name already
    taken = page.resources.get("/XObject", Dictionary())
    name = next(name for number in count(1) if (name := f"/Written{number}") not in taken)
    page.add_resource(picture, Name.XObject, Name(name))
    # whatever the page leaves set must not move what is written
    page.contents_add(b"q\n", prepend=True)
    numbers = " ".join(f"{number:.3f}" for number in matrix)
    page.contents_add(f"\nQ\nq {numbers} cm {name} Do Q\n".encode())
    page.contents_coalesce()


def _append(whole: pikepdf.Pdf, sheet: pikepdf.Pdf, number: int) -> None:
    """Put a further sheet behind the others, its fields under names of their own."""
    for field in sheet.Root.get("/AcroForm", Dictionary()).get("/Fields", ()):
        # fields of one name are one field: readers would show the first sheet's words on all
        field["/T"] = f"{field.get('/T', '')} (sheet {number})"
    whole.add_pages_from(sheet)


def _saved(pdf: pikepdf.Pdf) -> bytes:
    if "/ID" in pdf.trailer:
        del pdf.trailer["/ID"]
    stream = io.BytesIO()
    pdf.save(stream, deterministic_id=True, object_stream_mode=pikepdf.ObjectStreamMode.generate)
    return stream.getvalue()
