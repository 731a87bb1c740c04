"""Originals fit to leave the shop: as they lie there, or without what tells where and with what they were made."""

from __future__ import annotations

import io
from typing import NamedTuple

import pikepdf
from PIL import ExifTags, Image

from claimpack.evidence.pictures.jpeg_segments import application_segments, without_metadata
from claimpack.evidence.pictures.picture_files import UNREADABLE

_EXIF = b"Exif\0\0"
_HARMLESS_SEGMENTS = (b"JFIF\0", b"Adobe", b"ICC_PROFILE\0", _EXIF)
# How a picture is held, when it was taken, how it is stored and was exposed: nothing of where, by whom, or free text.
_HARMLESS_TAGS = {
    *(0x0100, 0x0101, 0x0103, 0x010F, 0x0110, 0x0112, 0x011A, 0x011B, 0x0128, 0x0132, 0x0213, 0x8769),
    *(0x829A, 0x829D, 0x8822, 0x8827, 0x9000, 0x9003, 0x9004, 0x9010, 0x9011, 0x9012, 0x9101, 0x9201, 0x9202),
    *(0x9204, 0x9205, 0x9207, 0x9208, 0x9209, 0x920A, 0x9290, 0x9291, 0x9292, 0xA000, 0xA001, 0xA002, 0xA003),
    *(0xA402, 0xA403, 0xA404, 0xA405, 0xA406),
}
# Writers lay the block out differently; more than this beside what its tags account for may hide something.
_SLACK = 64
_EXIF_IFD, _THUMBNAIL, _ORIENTATION = 0x8769, ExifTags.IFD.IFD1, 0x0112
_PNG = b"\x89PNG\r\n\x1a\n"
_PNG_CHUNKS = {
    b"IHDR",
    b"PLTE",
    b"IDAT",
    b"IEND",
    b"tRNS",
    b"gAMA",
    b"cHRM",
    b"sRGB",
    b"iCCP",
    b"pHYs",
    b"sBIT",
    b"bKGD",
}


class Attachable(NamedTuple):
    """A file as it may be attached, its MIME type, and whether it is the original byte for byte."""

    content: bytes
    mime: str
    as_it_is: bool


def attachable(original: bytes, printed: bytes = b"") -> Attachable | None:
    """An original as it may leave the shop; None where what it tells beside the picture cannot be taken out.

    Args:
        original: the file as it lies with the shop.
        printed: of a PDF, its pages with nothing in them but what is printed.

    Source: ITU-T T.81 annex B and Exif 2.31 (JPEG), ISO/IEC 15948 (PNG); which tags are harmless is this tool's rule.
    """
    if original.startswith(b"\xff\xd8"):
        return _jpeg(original)
    if original.startswith(_PNG):
        kept = _png(original)
        # text chunks and whatever follows the end are left out; without them the file may still be what it was
        return Attachable(kept, "image/png", kept == original) if kept else None
    if printed:
        is_clean = _is_clean_pdf(original)
        return Attachable(original if is_clean else printed, "application/pdf", is_clean)
    return None


def _jpeg(original: bytes) -> Attachable | None:
    cleaned = without_metadata(original)
    if cleaned is None:
        return None
    told = application_segments(original)
    if _is_harmless(original, told, cleaned):
        return Attachable(original, "image/jpeg", True)
    # Without its profile a wide-gamut picture looks pale beside the printed one.
    profile = b"".join(segment for segment in told if segment[4:].startswith(b"ICC_PROFILE\0"))
    # a picture that lay on its side would be looked at lying on its side
    turned = _upright_exif(original)
    return Attachable(cleaned[:2] + turned + profile + cleaned[2:], "image/jpeg", False)


def _is_harmless(original: bytes, told: list[bytes], cleaned: bytes) -> bool:
    """Whether nothing but harmless segments stands beside the picture, and nothing after its end."""
    if not all(segment[4:].startswith(_HARMLESS_SEGMENTS) for segment in told):
        return False
    # longer beside its segments than the cleaned one: something follows the end of the picture
    if len(original) - sum(map(len, told)) > len(cleaned) - sum(len(s) for s in application_segments(cleaned)):
        return False
    blocks = [segment[10:] for segment in told if segment[4:].startswith(_EXIF)]
    # A second block is read by no viewer, so it could tell anything.
    return len(blocks) < 2 and all(_is_harmless_exif(block) for block in blocks)


def _is_harmless_exif(block: bytes) -> bool:
    try:
        exif = Image.Exif()
        exif.load(_EXIF + block)
        tags = {*exif, *exif.get_ifd(_EXIF_IFD)}
        # a thumbnail may still show what was cut off the picture
        hidden = bool(exif.get_ifd(_THUMBNAIL)) or len(block) > len(exif.tobytes()) + _SLACK
    except UNREADABLE:
        return False
    return not hidden and _HARMLESS_TAGS.issuperset(tags)


def _upright_exif(original: bytes) -> bytes:
    """The one thing a copy must keep of what the camera wrote: which way is up."""
    try:
        with Image.open(io.BytesIO(original)) as picture:
            way = picture.getexif().get(_ORIENTATION)
    except UNREADABLE:
        return b""
    # 1 is upright, and nothing else is told.
    if way not in range(2, 9):
        return b""
    exif = Image.Exif()
    exif[_ORIENTATION] = way
    # versions of the library differ in whether they write the mark
    block = _EXIF + exif.tobytes().removeprefix(_EXIF)
    return b"\xff\xe1" + (len(block) + 2).to_bytes(2, "big") + block


def _png(original: bytes) -> bytes | None:
    kept, at = [_PNG], len(_PNG)
    while at + 12 <= len(original):
        kind, end = original[at + 4 : at + 8], at + 12 + int.from_bytes(original[at : at + 4], "big")
        if kind in _PNG_CHUNKS:
            kept.append(original[at:end])
        if kind == b"IEND":
            return b"".join(kept)
        at = end
    return None


def _is_clean_pdf(original: bytes) -> bool:
    """Whether a PDF carries no picture with something beside it, no metadata stream, and no file inside."""
    try:
        with pikepdf.open(io.BytesIO(original)) as pdf:
            # a second end means that an earlier state of the file is still inside
            if pdf.is_encrypted or pdf.attachments or "/Metadata" in pdf.Root or original.count(b"%%EOF") != 1:
                return False
            return all(_is_clean(found) for found in pdf.objects)
    except (pikepdf.PdfError, *UNREADABLE):
        return False


def _is_clean(found: pikepdf.Object) -> bool:
    if not isinstance(found, (pikepdf.Dictionary, pikepdf.Stream)):
        return True
    if any(key in found for key in ("/Metadata", "/PieceInfo", "/Measure", "/EF", "/OCGs")):
        return False
    if not isinstance(found, pikepdf.Stream):
        return True
    filters = str(found.get("/Filter", ""))
    # its boxes may hold anything, and nothing here reads them
    if "JPX" in filters:
        return False
    raw = found.read_raw_bytes() if found.get("/Filter") == "/DCTDecode" else b""
    return "DCT" not in filters or without_metadata(raw) == raw
