"""Values put into the fields of a form, and what has to be drawn for them; what a field does not take is told."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Any

import pikepdf
from pikepdf import Name, String

from claimpack.core.values.words import did_you_mean, folded
from claimpack.forms.fields import OFF, PdfField, pdf_fields, size_of, states_of, taken_over
from claimpack.forms.looks import Look, look_of, look_of_place
from claimpack.forms.writings import PageArea, Writing
from claimpack.printing.fitting import cut

_CHOSEN = ("drop-down", "list")
_TICKED = ("check box", "radio buttons")
_YES = "/Yes"
_MARK = "X"
_MARKS = (".", ",", ";", ":", "!", "?")
_MAY_BE_TYPED = 1 << 18


@dataclass(frozen=True, slots=True)
class ToDraw:
    """Something to be drawn: in a field where a widget shows it, or in a place.

    State is that of a button, else empty; cut says that the field takes fewer characters than the text has.
    """

    field: str
    where: Any
    look: Look
    text: str = ""
    tick: bool | None = None
    state: str = ""
    cut: bool = False


def made_ready(pdf: pikepdf.Pdf, writings: Sequence[Writing]) -> tuple[list[ToDraw], list[str]]:
    """Put every value into its field; what is to be drawn, and what is wrong, a sentence each."""
    fields = {field.told.name: field for field in pdf_fields(pdf)}
    ready: list[ToDraw] = []
    problems: list[str] = []
    for writing in writings:
        if writing.place:
            beside = misplaced(writing.place, [size_of(page) for page in pdf.pages])
            wrong = f"{writing.field}: {beside}" if beside else _too_long(writing, writing.place)
            problems += [wrong] if wrong else []
            ready += [] if wrong else _in_place(writing, writing.place)
        elif writing.field not in fields:
            problems.append(no_such_field(writing.field, fields))
        else:
            found = _into(pdf, fields[writing.field], writing)
            if isinstance(found, str):
                problems.append(found)
            else:
                ready += found
    return ready, problems


def no_such_field(name: str, fields: Any) -> str:
    """That a form has no field of a name, and which is meant."""
    near = did_you_mean(name, fields) if fields else "It has none; give places on its pages."
    return f"there is no field {name!r}. {near}"


def misplaced(place: PageArea, sizes: Sequence[tuple[float, float]]) -> str:
    """That a place lies beside the pages of a form, by their widths and heights; empty where it does not."""
    if place.page > len(sizes):
        return f"there is no page {place.page}; the form has {len(sizes)}"
    wide, high = sizes[place.page - 1]
    beyond = place.x + place.width > wide or place.y + place.height > high
    return f"the place reaches over the edge of page {place.page}" if beyond else ""


def _too_long(writing: Writing, place: PageArea) -> str:
    if place.comb and len(in_one_line(writing.text)) > place.comb:
        return f"{writing.field}: it has {place.comb} boxes, and {writing.text!r} has {len(writing.text)} characters"
    return ""


def _in_place(writing: Writing, place: PageArea) -> list[ToDraw]:
    look = look_of_place(place, writing)
    if writing.tick is not None:
        return [ToDraw(writing.field, place, look, tick=True)] if writing.tick else []
    text = writing.text if place.lines else in_one_line(writing.text)
    return [ToDraw(writing.field, place, look, text=text)] if text else []


def in_one_line(text: str) -> str:
    """Lines in one, as in the address on a form: a comma between those that do not end in a mark of their own."""
    lines = [" ".join(line.split()) for line in text.split("\n") if line.strip()]
    ended = [line if line.endswith(_MARKS) else f"{line}," for line in lines[:-1]]
    return " ".join([*ended, *lines[-1:]])


def _into(pdf: pikepdf.Pdf, field: PdfField, writing: Writing) -> list[ToDraw] | str:
    """What is to be drawn once the value is in its field, or why the field does not take it."""
    told = field.told
    if told.kind in _TICKED:
        return _ticked(pdf, field, writing)
    if told.kind not in ("text", *_CHOSEN):
        return f"field {told.name!r} is a {told.kind}, and nothing can be written into it"
    # a form may have a text field where a box to tick was meant
    text = writing.text if writing.tick is None else _MARK * writing.tick
    if not text:
        return []
    text = text if told.lines else in_one_line(text)
    value, shown, wrong = _taken(field, text)
    if wrong:
        return wrong
    field.thing["/V"] = String(value)
    # a second text with styles, and the places of what was chosen: readers would show those instead
    for key in ("/RV", "/I"):
        if key in field.thing:
            del field.thing[key]
    return [
        ToDraw(told.name, widget, look_of(pdf, field, widget, writing), text=shown, cut=len(value) < len(text))
        for widget in field.widgets
        if "/Rect" in widget
    ]


def _taken(field: PdfField, text: str) -> tuple[str, str, str]:
    """The value a field takes for a text, what it shows, and why it does not take it."""
    told = field.told
    if told.kind in _CHOSEN:
        for value, label in zip(told.options, field.labels, strict=True):
            if folded(text) in (folded(value), folded(label)):
                return value, label, ""
        if int(taken_over(field.thing, "/Ff") or 0) & _MAY_BE_TYPED:
            return text, text, ""
        return "", "", f"field {told.name!r} does not offer {text!r}. {did_you_mean(text, told.options)}"
    if told.most and told.lines:
        text = cut(text, lambda line: len(line) <= told.most)
    if told.most and len(text) > told.most:
        # A serial number without its end is another number.
        return "", "", f"field {told.name!r} takes {told.most} characters, and {text!r} has {len(text)}"
    return text, text, ""


def _ticked(pdf: pikepdf.Pdf, field: PdfField, writing: Writing) -> list[ToDraw] | str:
    told = field.told
    if writing.tick is None and not writing.text:
        return []
    states = told.options or (_YES[1:],)
    if writing.tick is None:
        wanted = next((state for state in states if folded(state) == folded(writing.text)), "")
        if not wanted:
            return f"field {told.name!r} cannot be set to {writing.text!r}. {did_you_mean(writing.text, states)}"
    # which of several is meant by a tick nobody can say
    elif len(states) > 1:
        return f"field {told.name!r} is a choice of {', '.join(states)}: give it a text rather than check"
    else:
        wanted = states[0]
    state = OFF if writing.tick is False else f"/{wanted}"
    field.thing["/V"] = Name(state)
    return list(_shown(pdf, field, writing, state))


def _shown(pdf: pikepdf.Pdf, field: PdfField, writing: Writing, state: str) -> Iterator[ToDraw]:
    """Set what every widget of a button shows; one that has no look of its own gets one drawn."""
    for widget in field.widgets:
        own = states_of(widget)
        if not own and state != OFF and "/Rect" in widget:
            look = look_of(pdf, field, widget, writing)
            yield ToDraw(field.told.name, widget, look, tick=True, state=state)
            own = [state]
        # of several buttons of one field the others go out
        widget["/AS"] = Name(state if state in own else OFF)
