"""The pictures inside a PDF: nothing but their pixels, re-encoded where that cannot be proved."""

from __future__ import annotations

import io
from typing import Any

import pikepdf
from pikepdf import Array, Dictionary, Name, Stream
from PIL import Image

from claimpack.errors import BadInput
from claimpack.evidence.pictures.colour import eight_bit, plain, to_srgb
from claimpack.evidence.pictures.jpeg_segments import scan_count, without_metadata
from claimpack.evidence.pictures.picture_files import MOST_PIXELS, MOST_SCANS

# High, and with whole colour: what is encoded anew here may be small print, and smeared digits are read wrong.
_QUALITY = 90
_SPACES = {"L": Name.DeviceGray, "RGB": Name.DeviceRGB, "CMYK": Name.DeviceCMYK}
_CODED = ("/DCTDecode", "/DCT", "/JPXDecode", "/JBIG2Decode")
_COMMENT_SEGMENT = 62
_PLAIN = {"/FlateDecode", "/Fl", "/LZWDecode", "/LZW", "/RunLengthDecode", "/RL", "/ASCII85Decode", "/ASCIIHexDecode"}
_SHADES = {
    **dict.fromkeys(("/DeviceGray", "/G", "/CalGray", "/Indexed", "/I", "/Separation"), 1),
    **dict.fromkeys(("/DeviceRGB", "/RGB", "/CalRGB", "/Lab"), 3),
    **dict.fromkeys(("/DeviceCMYK", "/CMYK"), 4),
}


def clean_picture(pdf: pikepdf.Pdf, picture: Stream) -> None:
    """Leave in a picture what draws it: without what camera, scanner or editor wrote beside or between its pixels.

    Raises:
        BadInput: it is too large, or of a kind whose content cannot be proved.

    Source: ISO 32000-1, 7.4.7 to 7.4.9 (JBIG2, JPEG, JPEG 2000).
    """
    width, height = int(picture.get("/Width", 0)), int(picture.get("/Height", 0))
    if width * height > MOST_PIXELS["PNG"]:
        raise BadInput(f"a picture in it has {width * height // 1_000_000} megapixels")
    filters = _filters(picture)
    if not filters or filters[-1] not in _CODED:
        if set(filters) & set(_CODED):
            raise BadInput("a picture in it is packed in a way that is not known")
        _cut_off_what_follows(picture, width, height)
        return
    coded = _unwrapped(pdf, picture, filters)
    if filters[-1] == "/JPXDecode":
        _write_jpeg_2000(picture, coded)
    elif filters[-1] == "/JBIG2Decode":
        _write_jbig2(picture, coded)
    else:
        _write_jpeg(picture, coded)


def _cut_off_what_follows(picture: Stream, width: int, height: int) -> None:
    """Leave as many bytes as there are pixels, where that can be told."""
    shades = 1 if picture.get("/ImageMask") else _shades(picture.get("/ColorSpace"))
    if set(_filters(picture)) - _PLAIN or not shades:
        return
    bits = 1 if picture.get("/ImageMask") else int(picture.get("/BitsPerComponent", 8))
    needed = (width * shades * bits + 7) // 8 * height
    content = picture.read_bytes()
    if len(content) > needed:
        picture.write(content[:needed])


def _shades(space: Any) -> int:
    """How many numbers a colour of that space has; 0 where it does not say."""
    named = space[0] if isinstance(space, Array) and len(space) else space
    match str(named) if isinstance(named, Name) else "":
        case "/ICCBased" if len(space) > 1 and isinstance(space[1], Stream):
            return int(space[1].get("/N", 0))
        case "/DeviceN" if len(space) > 1 and isinstance(space[1], Array):
            return len(space[1])
        case kind:
            return _SHADES.get(kind, 0)


def _filters(stream: Stream) -> list[str]:
    filters = stream.get("/Filter")
    if filters is None:
        return []
    return [str(name) for name in filters] if isinstance(filters, Array) else [str(filters)]


def _last_parameters(stream: Stream) -> Any:
    given = stream.get("/DecodeParms", stream.get("/DP"))
    if isinstance(given, Array):
        given = given[len(given) - 1] if len(given) else None
    return given if isinstance(given, Dictionary) else Dictionary()


def _unwrapped(pdf: pikepdf.Pdf, picture: Stream, filters: list[str]) -> bytes:
    """The picture as its own coding stored it, without what it was packed in besides."""
    stored = picture.read_raw_bytes()
    if len(filters) == 1:
        return stored
    packed = pdf.make_stream(stored)
    packed["/Filter"] = Array([Name(name) for name in filters[:-1]])
    given = picture.get("/DecodeParms")
    if isinstance(given, Array):
        packed["/DecodeParms"] = Array(list(given)[:-1])
    return packed.read_bytes()


def _write_jpeg(picture: Stream, coded: bytes) -> None:
    if scan_count(coded, MOST_SCANS) > MOST_SCANS:
        raise BadInput(f"a picture in it is stored in more than {MOST_SCANS} passes")
    transform = _last_parameters(picture).get("/ColorTransform")
    parameters = Dictionary(ColorTransform=int(transform)) if transform is not None else None
    copied = without_metadata(coded)
    if copied is None and parameters is not None:
        raise BadInput("a picture in it is damaged")
    if copied is None:
        copied = _jpeg(_decoded(coded, "JPEG", picture))
    picture.write(copied, filter=Name.DCTDecode, decode_parms=parameters)


def _decoded(coded: bytes, kind: str, picture: Stream) -> Image.Image:
    try:
        with Image.open(io.BytesIO(coded), formats=[kind]) as found:
            if found.width * found.height > MOST_PIXELS["PNG"]:
                raise BadInput(f"a picture in it has {found.width * found.height // 1_000_000} megapixels")
            found.load()
            picture["/Width"], picture["/Height"] = found.width, found.height
            return found.copy()
    except (OSError, SyntaxError, Image.DecompressionBombError) as error:
        raise BadInput(f"a picture in it cannot be read: {error}") from error


def _write_jpeg_2000(picture: Stream, coded: bytes) -> None:
    """Decode the picture and store its pixels: between its boxes anything may stand."""
    found = _decoded(coded, "JPEG2000", picture)
    profile = found.info.get("icc_profile")
    pixels = plain(eight_bit(found))
    space = picture.get("/ColorSpace")
    if space is None and not picture.get("/ImageMask"):
        pixels, _ = to_srgb(pixels, profile)
        picture["/ColorSpace"] = _SPACES[pixels.mode]
    picture["/BitsPerComponent"] = 8
    if "/SMaskInData" in picture:
        del picture["/SMaskInData"]
    # Numbers of colours in a table are no shades: they must come back exactly.
    if isinstance(space, Array) and space[0] == "/Indexed":
        picture.write(pixels.convert("L").tobytes())
    else:
        picture.write(_jpeg(pixels), filter=Name.DCTDecode)


def _jpeg(pixels: Image.Image) -> bytes:
    buffer = io.BytesIO()
    pixels.info = {}
    pixels.save(buffer, "JPEG", quality=_QUALITY, subsampling="4:4:4")
    return buffer.getvalue()


def _write_jbig2(picture: Stream, coded: bytes) -> None:
    shared = _last_parameters(picture).get("/JBIG2Globals")
    parameters = Dictionary(JBIG2Globals=shared) if isinstance(shared, Stream) else None
    if isinstance(shared, Stream):
        shared.write(without_comments(shared.read_bytes()))
    picture.write(without_comments(coded), filter=Name.JBIG2Decode, decode_parms=parameters)


def without_comments(coded: bytes) -> bytes:
    """The segments of a JBIG2 picture but for its comments.

    Raises:
        BadInput: it ends in the middle of a segment, or one does not tell its length.

    Source: ITU-T T.88, 7.2 (segment headers), 7.3.1 (type 62, extension).
    """
    kept, at = [], 0
    while at < len(coded):
        start = at
        number, flags, referred = int.from_bytes(coded[at : at + 4], "big"), coded[at + 4], coded[at + 5] >> 5
        at += 6
        if referred == 7:
            referred = int.from_bytes(coded[at - 1 : at + 3], "big") & 0x1FFFFFFF
            at += 3 + (referred + 8) // 8
        at += referred * (1 if number <= 256 else 2 if number <= 65536 else 4) + (4 if flags & 0x40 else 1)
        length = int.from_bytes(coded[at : at + 4], "big")
        at += 4 + length
        if at > len(coded):
            raise BadInput("a picture in it ends in the middle")
        if flags & 0x3F != _COMMENT_SEGMENT:
            kept.append(coded[start:at])
    return b"".join(kept)
