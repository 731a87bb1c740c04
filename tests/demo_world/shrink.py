"""Sample pictures and papers made small enough to be handed around: run once after they were drawn, by hand.

`python tests/demo_world/shrink.py sample_claims`: pictures are softened, drawn smaller and compressed, what the camera
wrote stays; papers keep their letters without the hints for screens. The 48-megapixel picture stays that large.
"""

from __future__ import annotations

import io
import sys
from pathlib import Path

import pikepdf
import pillow_heif
from fontTools.ttLib import TTFont
from fontTools.ttLib.tables.ttProgram import Program
from PIL import Image, ImageFilter

_LARGE, _WIDE = 100_000, 4000
_FROM, _TO = 2016, 1280
_HINTS = ("fpgm", "prep", "cvt ", "hdmx", "VDMX", "gasp")


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
    """One paper: its typefaces without hints, its pictures compressed."""
    with pikepdf.open(path, allow_overwriting_input=True) as pdf:
        for each in pdf.objects:
            if isinstance(each, pikepdf.Dictionary) and "/FontFile2" in each:
                _drop_hints(each.FontFile2)
            elif isinstance(each, pikepdf.Stream) and each.get("/Subtype") == "/Image":
                small = io.BytesIO()
                pikepdf.PdfImage(each).as_pil_image().save(small, "JPEG", quality=45, optimize=True)
                each.write(small.getvalue(), filter=pikepdf.Name.DCTDecode)
        pdf.save(path, object_stream_mode=pikepdf.ObjectStreamMode.generate, deterministic_id=True)


def _drop_hints(file: pikepdf.Stream) -> None:
    face = TTFont(io.BytesIO(file.read_bytes()))
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
    file.write(small.getvalue())
    file.Length1 = small.tell()


def main(folder: Path) -> None:
    """Every large picture and every paper below a folder."""
    pillow_heif.register_heif_opener()
    Image.MAX_IMAGE_PIXELS = None
    for path in sorted(folder.rglob("*")):
        if path.suffix in (".jpg", ".heic") and path.stat().st_size > _LARGE:
            shrink_picture(path)
        elif path.suffix == ".pdf":
            shrink_paper(path)


if __name__ == "__main__":
    main(Path(sys.argv[1]))
