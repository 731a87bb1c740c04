"""A page of a PDF cut down to what draws it: every entry that draws nothing is left behind, known to anybody or not."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Any

import pikepdf
from pikepdf import Array, Dictionary, Name, Stream, String

from claimpack.errors import BadInput
from claimpack.evidence.papers.layers import Layers, shown_alone
from claimpack.evidence.papers.paper_pictures import clean_picture

_ENTRIES = """
Type Parent Contents Resources MediaBox CropBox Rotate UserUnit Group ExtGState ColorSpace Pattern Shading XObject
Font ProcSet Length Filter DecodeParms Predictor Colors BitsPerComponent Columns EarlyChange K EndOfLine
EncodedByteAlign Rows EndOfBlock BlackIs1 DamagedRowsBeforeError JBIG2Globals ColorTransform
Subtype Width Height ImageMask Mask Decode Interpolate Intent SMask SMaskInData Matte FormType BBox Matrix S CS I
PatternType PaintType TilingType XStep YStep ShadingType Background AntiAlias Coords Domain Function Extend
BitsPerCoordinate BitsPerFlag VerticesPerRow FunctionType Range Size BitsPerSample Order Encode C0 C1 N Functions
Bounds
LW LC LJ ML D RI OP op OPM BG BG2 UCR UCR2 TR TR2 HT FL SM SA BM CA ca AIS TK G BC HalftoneType Frequency Angle
SpotFunction AccurateScreens TransferFunction Default
BaseFont FirstChar LastChar Widths FontDescriptor Encoding ToUnicode Name DescendantFonts CIDSystemInfo Registry
Ordering Supplement DW W DW2 W2 CIDToGIDMap FontBBox FontMatrix CharProcs BaseEncoding Differences CMapName WMode
UseCMap FontName FontFamily FontStretch FontWeight Flags ItalicAngle Ascent Descent Leading CapHeight XHeight StemV
StemH AvgWidth MaxWidth MissingWidth FontFile FontFile2 FontFile3 CharSet Style Panose CIDSet Length1 Length2
Length3
WhitePoint BlackPoint Gamma Alternate Colorants Process MixingHints Components Solidities PrintingOrder DotGain
"""
# Every entry by which a page is drawn: pages and streams; pictures, forms, patterns, shadings and functions; graphics
# state; fonts; colours (ISO 32000-1, 7.4, 7.7.3.3, 7.8.3, 8.4.5 to 8.10, 9.5 to 9.8, 11.4 to 11.6).
_DRAWS = frozenset(f"/{entry}" for entry in _ENTRIES.split())

_NAMED_BY_THE_PAGE = {
    *("/ExtGState", "/ColorSpace", "/Pattern", "/Shading", "/XObject", "/Font", "/CharProcs", "/Colorants"),
    *("/Solidities", "/DotGain"),
}
_MARKED = re.compile(rb"\b(?:BMC|BDC|EMC|MP|DP|BI)\b|%")
_IN_LINE = re.compile(rb"\bBI\b")
# A picture written into the page's own text is looked at by itself from this many bytes on.
_SMALLEST_IN_LINE = 200
# Papers have some hundreds; a file with more is made to keep its reader busy.
_MOST_OBJECTS = 200_000
_LONGEST_DESCRIPTION = 16_000_000


class Printed:
    """The pages of one PDF, cut down in place; what they share is cut down once."""

    def __init__(self, pdf: pikepdf.Pdf) -> None:
        self.layers = Layers(pdf)
        self._pdf = pdf
        self._done: set[tuple[int, int]] = set()
        self._photos_in_line = self._looked_through()
        self._waiting: list[tuple[Any, bool, Any]] = []

    def _looked_through(self) -> bool:
        """Whether photos stand in the middle of the text; what would take too long to go through is refused first."""
        described, photos = 0, False
        for stream in _descriptions(self._pdf):
            content = stream.read_bytes()
            described += len(content)
            photos = photos or bool(_IN_LINE.search(content) and b"/DCT" in content)
            # Instructions are gone through one by one: a page of many megabytes would take minutes.
            if described > _LONGEST_DESCRIPTION:
                raise BadInput(f"its pages are described in more than {_LONGEST_DESCRIPTION // 1_000_000} MB")
        return photos

    def without_hidden_notes(self, page: pikepdf.Page) -> None:
        """Take out what lies over the page on a layer that is switched off."""
        notes = page.obj.get("/Annots")
        if isinstance(notes, Array):
            page.obj["/Annots"] = Array([note for note in notes if not self._is_hidden(note)])

    def cut_down(self, page: pikepdf.Page) -> None:
        """Leave in a page what draws it, and nothing else.

        Raises:
            BadInput: it holds a picture that cannot be proved to be nothing but a picture.
        """
        if self._photos_in_line:
            page.externalize_inline_images(min_size=_SMALLEST_IN_LINE)
        resources = page.resources
        if "/Contents" in page.obj:
            # A layer may begin in one part of the content and end in another.
            page.contents_coalesce()
            self._draw_alone(page.obj["/Contents"], resources)
        page.obj["/Resources"] = resources
        self._meet(page.obj, resources)
        while self._waiting:
            thing, named, around = self._waiting.pop()
            self._cut(thing, around, named=named)

    def _is_hidden(self, thing: Any) -> bool:
        return isinstance(thing, (Dictionary, Stream)) and self.layers.hide(thing.get("/OC"))

    def _meet(self, thing: Any, around: Any, *, named: bool = False) -> None:
        if not isinstance(thing, (Dictionary, Stream, Array)):
            return
        if thing.is_indirect:
            if thing.objgen in self._done:
                return
            self._done.add(thing.objgen)
            if len(self._done) > _MOST_OBJECTS:
                raise BadInput("it is made of more pieces than any paper")
        self._waiting.append((thing, named, around))

    def _cut(self, thing: Any, around: Any, *, named: bool) -> None:
        if isinstance(thing, Array):
            for item in thing:
                self._meet(item, around)
            return
        around = thing.get("/Resources", around)
        if isinstance(thing, Stream):
            self._cut_stream(thing, around)
        for key in list(thing.keys()):
            value = thing.get(key)
            if named and self._is_hidden(value):
                # An empty picture in its place: the page still names it, and readers complain of one that is missing.
                thing[key] = self._pdf.make_stream(b"", Type=Name.XObject, Subtype=Name.Form, BBox=Array([0, 0, 0, 0]))
            elif isinstance(value, String) if named else key not in _DRAWS:
                del thing[key]
            # Up the tree again every other page of the paper would be met.
            elif key != "/Parent":
                if key == "/CharProcs":
                    self._draw_letters(value, around)
                names = key in _NAMED_BY_THE_PAGE and isinstance(value, Dictionary) and "/ShadingType" not in value
                self._meet(value, around, named=names)

    def _cut_stream(self, stream: Stream, around: Any) -> None:
        # A path there would have a file of this machine printed into the packet.
        if "/F" in stream:
            raise BadInput("it takes a part of itself from another file")
        if stream.get("/Subtype") == "/Image":
            clean_picture(self._pdf, stream)
        elif stream.get("/Subtype") == "/Form" or stream.get("/PatternType") == 1:
            self._draw_alone(stream, around)

    def _draw_letters(self, letters: Any, resources: Any) -> None:
        for letter in dict(letters).values():
            if letter.objgen not in self._done:
                self._draw_alone(letter, resources)

    def _draw_alone(self, stream: Any, resources: Any) -> None:
        content = stream.read_bytes()
        if not _MARKED.search(content):
            return
        properties = resources.get("/Properties", Dictionary())
        drawn = list(shown_alone(pikepdf.parse_content_stream(stream), properties, self.layers))
        if _IN_LINE.search(content) and any(_is_photo(instruction) for instruction in drawn):
            raise BadInput("it holds a photo in the middle of its text")
        stream.write(pikepdf.unparse_content_stream(drawn))


def _descriptions(pdf: pikepdf.Pdf) -> Iterator[Stream]:
    """Every stream that is gone through instruction by instruction, once for each page it describes."""
    for page in pdf.pages:
        contents = page.obj.get("/Contents")
        streams = [contents] if isinstance(contents, Stream) else contents if isinstance(contents, Array) else ()
        yield from (stream for stream in streams if isinstance(stream, Stream))
    for found in pdf.objects:
        if isinstance(found, Stream) and (found.get("/Subtype") == "/Form" or found.get("/PatternType") == 1):
            yield found


def _is_photo(instruction: Any) -> bool:
    picture = getattr(instruction, "iimage", None)
    return picture is not None and any(str(name) in ("/DCT", "/DCTDecode") for name in picture.filters)
