"""Whether a page taken over from elsewhere looks the same for ever: by its typefaces, colours and pictures."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import pikepdf
from pikepdf import Array, Dictionary, Name, Stream

_SHOWS = {"Tj", "TJ", "'", '"'}
# CMYK without a profile looks different on every printer, and the packet is meant for sRGB
_FOREIGN_INK = {"k", "K"}
_PACKED = {"/LZWDecode", "/LZW", "/JPXDecode", "/Crypt"}
_TRUSTED = ("/DeviceRGB", "/DeviceGray", "/CalRGB", "/CalGray", "/ICCBased", "/Lab", "/RGB", "/G")
_HELD_COLOURS = {"/Indexed": 1, "/I": 1, "/Separation": 2, "/DeviceN": 2, "/Pattern": 1}
_FILES = ("/FontFile", "/FontFile2", "/FontFile3")


def passing(form: Any) -> str:
    """Why a page may look different one day; empty where nothing was found that may.

    Not looked at is whether the widths told of letters are those of their typeface.

    Source: ISO 19005-3:2012 6.1.7 (filters), 6.2.4 (colours), 6.2.8 (pictures), 6.2.11 (typefaces).
    """
    try:
        return next(_found(form, form.get("/Resources", Dictionary()), set()), "")
    except (pikepdf.PdfError, ValueError, TypeError, LookupError, AttributeError):
        return "it could not be looked through"


def _found(form: Any, around: Any, seen: set[tuple[int, int]]) -> Iterator[str]:
    if form.is_indirect:
        if form.objgen in seen:
            return
        seen.add(form.objgen)
    resources = form.get("/Resources", around)
    yield from _packing(form)
    yield from _group(form)
    yield from _resources(resources, seen)
    face: Any = None
    for step in pikepdf.parse_content_stream(form):
        given, name = step.operands, str(step.operator)
        if name in _FOREIGN_INK:
            yield "it is coloured for one printing press"
        elif name == "Tf":
            face = resources.get("/Font", Dictionary()).get(str(given[0]))
        elif name in _SHOWS:
            yield from _typeface(face)
        elif name == "INLINE IMAGE":
            yield from _colour(given[0].obj.get("/ColorSpace", given[0].obj.get("/CS")))
        elif name == "ri" and str(given[0])[1:] not in _INTENTS:
            yield "it asks for colours in an unknown way"


_INTENTS = {"RelativeColorimetric", "AbsoluteColorimetric", "Perceptual", "Saturation"}


def _resources(resources: Any, seen: set[tuple[int, int]]) -> Iterator[str]:
    for thing in dict(resources.get("/XObject", Dictionary())).values():
        if thing.get("/Subtype") == Name.Form:
            yield from _found(thing, resources, seen)
        elif thing.get("/Subtype") == Name.Image:
            yield from _picture(thing)
        else:
            yield "it holds a program for one kind of printer"
    for pattern in dict(resources.get("/Pattern", Dictionary())).values():
        if isinstance(pattern, Stream):
            yield from _found(pattern, resources, seen)
        else:
            yield from _colour(pattern.get("/Shading", Dictionary()).get("/ColorSpace"))
    for shading in dict(resources.get("/Shading", Dictionary())).values():
        yield from _colour(shading.get("/ColorSpace"))
    for space in dict(resources.get("/ColorSpace", Dictionary())).values():
        yield from _colour(space)
    for state in dict(resources.get("/ExtGState", Dictionary())).values():
        if any(key in state for key in ("/TR", "/TR2", "/HTP", "/HT")):
            yield "it is made for one printing press"


def _picture(picture: Any) -> Iterator[str]:
    yield from _packing(picture)
    if not picture.get("/ImageMask"):
        yield from _colour(picture.get("/ColorSpace"))
    if picture.get("/Interpolate") or "/Alternates" in picture:
        yield "it holds a picture that each reader may show in its own way"
    if isinstance(picture.get("/SMask"), Stream):
        yield from _picture(picture.SMask)


def _packing(stream: Any) -> Iterator[str]:
    filters = stream.get("/Filter")
    named = [filters] if isinstance(filters, Name) else list(filters or ())
    if {str(one) for one in named} & _PACKED:
        yield "something in it is packed in a way that may be forgotten"


def _group(form: Any) -> Iterator[str]:
    group = form.get("/Group")
    if group is not None and "/CS" in group:
        yield from _colour(group.CS)


def _colour(space: Any) -> Iterator[str]:
    if space is None:
        return
    named = str(space[0] if isinstance(space, Array) else space)
    if named in _HELD_COLOURS and isinstance(space, Array):
        if len(space) > _HELD_COLOURS[named]:
            yield from _colour(space[_HELD_COLOURS[named]])
    elif named not in (*_TRUSTED, "/Pattern"):
        yield "it is coloured for one printing press"


def _typeface(face: Any) -> Iterator[str]:
    if face is None:
        yield "its text names no typeface"
        return
    if face.get("/Subtype") == Name.Type3:
        return
    faces = face.DescendantFonts if face.get("/Subtype") == Name.Type0 else [face]
    for one in faces:
        described = one.get("/FontDescriptor", Dictionary())
        if not any(key in described for key in _FILES):
            yield f"it does not carry its typeface {str(one.get('/BaseFont', '/?'))[1:]}"
        if one.get("/Subtype") == Name.CIDFontType2 and "/CIDToGIDMap" not in one:
            yield "its typeface does not say which letter is which"
