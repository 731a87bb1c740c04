"""Fingerprints: what a page draws as one hash, whatever object numbers and compression the file was saved with."""

from __future__ import annotations

import hashlib
import zlib
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from decimal import Decimal
from typing import Any

import pikepdf

from claimpack.errors import BadInput
from claimpack.pdf_limits import LARGEST_STREAM

# Deflate packs no tighter than this, so a short stream need not be unpacked to know that it stays short.
_MOST_FLATE_SHRINKS = 1032
_INHERITED = ("/Resources", "/MediaBox", "/CropBox", "/Rotate")
_NOT_DRAWN = {"/Type", "/Parent", "/Contents", "/Annots", *_INHERITED}
_STORAGE = {"/Length", "/Filter", "/DecodeParms"}


@dataclass(frozen=True)
class PagePrint:
    """One page: everything it draws, the same without its pictures, the SHA-256 of each JPEG, its annotations."""

    everything: str
    drawing: str
    pictures: tuple[str, ...]
    annotations: str
    annotation_count: int


class Fingerprints:
    """Hashes of the pages and other objects of one PDF; each stream is read once.

    Two objects have the same fingerprint when a viewer shows them the same way and both files arrange them alike.
    `met` are the objects, by number and generation, that the fingerprints asked for so far cover.
    """

    def __init__(self, pdf: pikepdf.Pdf) -> None:
        self.pages = {page.obj.objgen: index for index, page in enumerate(pdf.pages)}
        self.met: set[tuple[int, int]] = set()
        self._contents: dict[tuple[int, int], tuple[str, bool]] = {}

    def page(self, page: pikepdf.Page) -> PagePrint:
        """The fingerprint of a page, with what it takes over from the pages above it."""
        drawn: dict[str, Any] = {key: value for key, value in page.obj.items() if key not in _NOT_DRAWN}
        # a page may take its size from the tree above it: moved elsewhere it would look different
        drawn.update({key: value for key in _INHERITED if (value := _inherited(page.obj, key)) is not None})
        content = self._page_content(page.obj.get("/Contents"))
        annotations = list(page.obj.get("/Annots", ()))
        self.met.update(page.obj[key].objgen for key in ("/Annots",) if key in page.obj)
        pictures = _Walk(self, with_pictures=True)
        return PagePrint(
            everything=_hash((content, pictures.all_of(drawn))),
            drawing=_hash((content, _Walk(self, with_pictures=False).all_of(drawn))),
            pictures=tuple(pictures.jpegs),
            annotations=_hash((_Walk(self, with_pictures=True).all_of({"/Annots": annotations}),)),
            annotation_count=len(annotations),
        )

    def of(self, thing: Any) -> str:
        """The fingerprint of an object and all that it refers to; pages count by their place."""
        return _hash((_Walk(self, with_pictures=True).all_of({"/It": thing}),))

    def jpegs_of(self, thing: Any) -> tuple[str, ...]:
        """The SHA-256 of each JPEG an object refers to, in a fixed order."""
        walk = _Walk(self, with_pictures=True)
        walk.all_of({"/It": thing})
        return tuple(walk.jpegs)

    def content(self, stream: pikepdf.Stream) -> tuple[str, bool]:
        """The SHA-256 of a stream's bytes, and whether they could be decoded first (a JPEG stays as it is)."""
        known = self._contents.get(stream.objgen)
        if known is None:
            data, decoded = decoded_or_stored(stream)
            known = hashlib.sha256(data).hexdigest(), decoded
            self._contents[stream.objgen] = known
        return known

    def _page_content(self, contents: Any) -> bytes:
        if contents is None:
            return b""
        self.met.add(contents.objgen)
        streams = [contents] if isinstance(contents, pikepdf.Stream) else list(contents)
        # readers run several streams as one, with a blank between
        return b"\n".join(self._content_of_page(stream) for stream in streams)

    def _content_of_page(self, stream: Any) -> bytes:
        if not isinstance(stream, pikepdf.Stream):
            # damage gets a fingerprint as well: it is compared and need not be understood
            return b"no content"
        self.met.add(stream.objgen)
        entries = {key: value for key, value in stream.items() if key not in _STORAGE}
        beside = _Walk(self, with_pictures=True).all_of(entries) if entries else b""
        return decoded_or_stored(stream)[0] + beside


def decoded_or_stored(stream: pikepdf.Stream) -> tuple[bytes, bool]:
    """A stream's bytes without their compression where that can be undone, and whether it was.

    Raises:
        BadInput: the stream would swell beyond any size a packet holds.
    """
    stored = stream.read_raw_bytes()
    filters = filters_of(stream)
    # How far a stream packed twice swells cannot be told without unpacking it, so it counts as it is stored.
    # a few bytes packed twice can stand for gigabytes
    if filters.count("/FlateDecode") > 1:
        return stored, False
    if _swells(stored, filters):
        raise BadInput(
            f"the PDF holds a stream that swells to more than {LARGEST_STREAM >> 20} MiB",
            "No packet holds one that large; the file may be made to do harm.",
            "Ask for the packet again from the shop that made it.",
        )
    try:
        return stream.read_bytes(), True
    except pikepdf.PdfError:
        return stored, False


def is_jpeg(stream: pikepdf.Stream) -> bool:
    """Whether a stream is a picture stored as JPEG."""
    return bool(stream.get("/Subtype") == "/Image" and filters_of(stream)[-1:] == ["/DCTDecode"])


def filters_of(stream: pikepdf.Stream) -> list[str]:
    """How a stream is packed, the outermost first."""
    filters = stream.get("/Filter")
    if filters is None:
        return []
    return [str(filters)] if isinstance(filters, pikepdf.Name) else [str(name) for name in filters]


def _swells(stored: bytes, filters: list[str]) -> bool:
    if "/FlateDecode" not in filters or len(stored) * _MOST_FLATE_SHRINKS < LARGEST_STREAM:
        return False
    left, size = zlib.decompressobj(), 0
    try:
        while stored and size <= LARGEST_STREAM:
            size += len(left.decompress(stored, 1 << 20))
            stored = left.unconsumed_tail
    except zlib.error:
        return False
    return size > LARGEST_STREAM


def _inherited(node: Any, key: str) -> Any:
    # deeper than any tree of pages, and an end where parents form a circle
    for _ in range(64):
        if key in node:
            return node[key]
        if "/Parent" not in node:
            return None
        node = node["/Parent"]
    return None


def _hash(parts: Iterable[bytes]) -> str:
    digest = hashlib.sha256()
    for part in parts:
        # with its length, so that no two lists of parts run together into the same bytes
        digest.update(b"%d:" % len(part))
        digest.update(part)
    return digest.hexdigest()


class _Walk:
    """One walk over objects, breadth first: each is numbered when first met, so file order and depth do not matter."""

    def __init__(self, prints: Fingerprints, *, with_pictures: bool) -> None:
        self._prints = prints
        self._with_pictures = with_pictures
        self._waiting: list[Any] = []
        self._numbers: dict[tuple[int, int], int] = {}
        self.jpegs: list[str] = []

    def all_of(self, start: dict[str, Any]) -> bytes:
        first = self._entries(start.items())
        return b"\n".join([first, *(self._written(thing) for thing in self._each_met())])

    def _each_met(self) -> Iterator[Any]:
        # Writing a thing may add others to the end of the list.
        place = 0
        while place < len(self._waiting):
            yield self._waiting[place]
            place += 1

    def _written(self, thing: Any) -> bytes:
        if isinstance(thing, pikepdf.Stream):
            return self._stream(thing)
        if isinstance(thing, pikepdf.Array | list):
            return b"[%s]" % b" ".join(self._token(item) for item in thing)
        return self._entries(thing.items())

    def _stream(self, stream: pikepdf.Stream) -> bytes:
        jpeg = is_jpeg(stream)
        if jpeg and not self._with_pictures:
            return b"a picture"
        content, decoded = self._prints.content(stream)
        if jpeg:
            self.jpegs.append(content)
        skipped = _STORAGE if decoded else {"/Length"}
        entries = self._entries((key, value) for key, value in stream.items() if key not in skipped)
        return b"%s stream %s" % (entries, content.encode())

    def _entries(self, entries: Iterable[tuple[str, Any]]) -> bytes:
        named = sorted((key, value) for key, value in dict(entries).items() if value is not None)
        return b"<<%s>>" % b" ".join(b"%r %s" % (key, self._token(value)) for key, value in named)

    def _token(self, thing: Any) -> bytes:
        # numbers first: they are most of what there is, and the library is slow to tell its own kinds apart
        if isinstance(thing, int):
            return str(thing).encode()
        if isinstance(thing, pikepdf.Dictionary | pikepdf.Array | pikepdf.Stream | list):
            return self._number(thing)
        if isinstance(thing, pikepdf.Name):
            return str(thing).encode()
        if isinstance(thing, pikepdf.Object):
            return b"(%s)" % bytes(thing).hex().encode()
        # one way to write a number, whether it was saved as 1.0 or 1.000
        if isinstance(thing, Decimal | float):
            return b"%f" % thing
        return str(thing).encode()

    def _number(self, thing: Any) -> bytes:
        identity = (0, 0) if isinstance(thing, list) else thing.objgen
        # by place: following it would take the whole document into every link
        if identity in self._prints.pages:
            return b"page %d" % self._prints.pages[identity]
        # a direct object has no number, and each is met once where it stands
        if identity == (0, 0):
            self._waiting.append(thing)
            return b"#%d" % len(self._waiting)
        self._prints.met.add(identity)
        if identity not in self._numbers:
            self._waiting.append(thing)
            self._numbers[identity] = len(self._waiting)
        return b"#%d" % self._numbers[identity]
