"""Sample pictures, papers and typefaces made small enough to be handed around: run after they were drawn, by hand.

`python tests/demo_world/shrink.py sample_claims templates/forms claimpack/fonts`: large pictures are softened, drawn
smaller and compressed, the others packed tighter dot for dot; what the camera wrote stays. Typefaces keep their letters
without the hints for screens and what nothing here sets by. The 48-megapixel picture stays that large. Needs fonttools
and mozjpeg-lossless-optimization.
"""

from __future__ import annotations

import io
import sys
from collections.abc import Sequence
from pathlib import Path

import mozjpeg_lossless_optimization as packing
import pikepdf
import pillow_heif
from fontTools.ttLib import TTFont
from fontTools.ttLib.tables._g_l_y_f import Glyph
from fontTools.ttLib.tables.ttProgram import Program
from PIL import Image, ImageFilter

_LARGE, _WIDE = 100_000, 4000
_FROM, _TO = 2016, 1280
_HINTS = ("fpgm", "prep", "cvt ", "hdmx", "VDMX", "gasp")
_SETTING = ("GPOS", "GSUB", "GDEF")
"""Pairs, ligatures and marks put together: letters are set one by one (printing/lettering.py)."""
_WITHOUT_NAMES, _POSTSCRIPT_NAME = 3.0, 6


def shrink_picture(path: Path) -> None:
    """One picture, as small as it gets at a quality that still shows its point."""
    picture = Image.open(path)
    kept = {name: picture.info[name] for name in ("exif", "icc_profile") if picture.info.get(name)}
    is_heic, is_wide = path.suffix == ".heic", max(picture.size) > _WIDE
    if is_heic:
        kind, most, soft, qualities = "HEIF", 60_000, picture, range(60, 10, -5)
    elif is_wide:
        kind, most, soft, qualities = "JPEG", 230_000, picture.filter(ImageFilter.GaussianBlur(6)), range(20, 8, -6)
    else:
        size = (picture.width * _TO // _FROM, picture.height * _TO // _FROM)
        soft = picture.filter(ImageFilter.MedianFilter(5)).resize(size, Image.Resampling.LANCZOS)
        kind, most, qualities = "JPEG", 34_000, range(76, 18, -6)
    more = {} if is_heic else {"optimize": True, "progressive": True}
    for quality in qualities:
        small = io.BytesIO()
        soft.save(small, kind, quality=quality, **kept, **more)
        if small.tell() < most:
            break
    path.write_bytes(small.getvalue())


def shrink_paper(path: Path) -> None:
    """One paper: its typefaces without hints and letters that it does not print, its pictures compressed."""
    with pikepdf.open(path, allow_overwriting_input=True) as pdf:
        printed = _printed(pdf)
        for each in pdf.objects:
            if isinstance(each, pikepdf.Dictionary) and "/FontFile2" in each:
                _shrink_embedded(each.FontFile2, printed.get(str(each.FontName), set()))
            elif isinstance(each, pikepdf.Stream) and each.get("/Subtype") == "/Image":
                small = io.BytesIO()
                pikepdf.PdfImage(each).as_pil_image().save(small, "JPEG", quality=45, optimize=True)
                each.write(packing.optimize(small.getvalue()), filter=pikepdf.Name.DCTDecode)
        pdf.save(path, object_stream_mode=pikepdf.ObjectStreamMode.generate, deterministic_id=True)


def _pack_picture(path: Path) -> None:
    """One picture dot for dot as it is, with what the camera wrote, in fewer bytes."""
    whole = path.read_bytes()
    path.write_bytes(min(packing.optimize(whole, copy=packing.COPY_MARKERS.ALL), whole, key=len))


def shrink_typeface(path: Path) -> None:
    """One typeface without what only screens and setters of ligatures want."""
    face = TTFont(path)
    for table in _SETTING:
        if table in face:
            del face[table]
    face["post"].formatType = _WITHOUT_NAMES
    path.write_bytes(_without_hints(face))


def _printed(pdf: pikepdf.Pdf) -> dict[str, set[int]]:
    """The codes that are printed in each simple typeface, by its name."""
    printed: dict[str, set[int]] = {}
    for page in pdf.pages:
        for operands, operator in pikepdf.parse_content_stream(page):
            if str(operator) == "Tf":
                codes = printed.setdefault(str(page.Resources.Font[operands[0]].BaseFont), set())
            elif str(operator) in ("Tj", "TJ", "'"):
                texts = operands[0] if str(operator) == "TJ" else operands
                codes.update(code for text in texts if isinstance(text, pikepdf.String) for code in bytes(text))
    return printed


def _shrink_embedded(file: pikepdf.Stream, printed: set[int]) -> None:
    face = TTFont(io.BytesIO(file.read_bytes()))
    letters = {letter for table in face["cmap"].tables for code, letter in table.cmap.items() if code in printed}
    # a letter with an accent is put together from two others
    letters |= {part for letter in letters for part in face["glyf"][letter].getComponentNames(face["glyf"])}
    for letter in set(face.getGlyphOrder()) - letters - {".notdef"} if printed else ():
        face["glyf"][letter] = Glyph()
    face["name"].names = [name for name in face["name"].names if name.nameID == _POSTSCRIPT_NAME]
    small = _without_hints(face)
    file.write(small)
    file.Length1 = len(small)


def _without_hints(face: TTFont) -> bytes:
    for table in _HINTS:
        if table in face:
            del face[table]
    for name in face["glyf"].glyphs:
        glyph = face["glyf"][name]
        if hasattr(glyph, "program"):
            glyph.program = Program()
            glyph.program.fromBytecode(b"")
    small = io.BytesIO()
    face.save(small)
    return small.getvalue()


def main(folders: Sequence[Path]) -> None:
    """Every picture, paper and typeface below some folders."""
    pillow_heif.register_heif_opener()
    Image.MAX_IMAGE_PIXELS = None
    for path in sorted(each for folder in folders for each in folder.rglob("*")):
        if path.suffix in (".jpg", ".heic") and path.stat().st_size > _LARGE:
            shrink_picture(path)
        if path.suffix == ".jpg":
            _pack_picture(path)
        elif path.suffix == ".pdf":
            shrink_paper(path)
        elif path.suffix == ".ttf":
            shrink_typeface(path)


if __name__ == "__main__":
    main([Path(each) for each in sys.argv[1:]])
