"""What a file holds that nothing in the packet accounts for: objects nobody uses, bytes between them, odd storage."""

from __future__ import annotations

import re
import zlib
from collections.abc import Iterator
from typing import Any

import pikepdf

from claimpack.core.values.numbers_said import how_many
from claimpack.packet.proving.structure import ObjectId, structure
from claimpack.packet.sealing.fingerprints import Fingerprints, decoded_or_stored, filters_of
from claimpack.packet.sealing.pdf_tokens import (
    SPREAD_OUT,
    NotWhole,
    entries_of,
    is_odd_comment,
    references,
    value_end,
    words,
)

_TRAILER = {"/Size", "/Root", "/Info", "/ID", "/Prev"}
_STORED = {"/Length", "/Filter", "/DecodeParms"}
_CROSS_REFERENCES = _TRAILER | _STORED | {"/Type", "/Index", "/W"}
_OBJECT_STREAM = _STORED | {"/Type", "/N", "/First"}
_LINEARIZED = {"/Linearized", "/L", "/H", "/O", "/E", "/N", "/T"}
_HINTS = _STORED | {"/S", "/O"}
_PREDICTED = {"/Predictor", "/Columns", "/Colors", "/BitsPerComponent", "/EarlyChange"}
# two identifiers of 16 bytes, even where every byte is written in four signs
_LONGEST_ID = 160

_OBJECT = re.compile(rb"(\d+)\s+(\d+)\s+obj\b")
_STREAM_END = re.compile(rb"\s*(?:%QDF: ignore_newline\s*)?endstream\s*endobj")
_TABLE = re.compile(rb"xref\s+(?:\d+ \d+\s+(?:\d{10} \d{5} [nf][ \r\n]{1,2})*+\s*)*+trailer\s*")
_START = re.compile(rb"startxref\s+(\d+)\s+%%EOF")
_BETWEEN = re.compile(
    rb"(?:[\x00\t\n\f\r ]|%PDF-\d\.\d(?=[\r\n])|%[\x80-\xff]{2,8}(?=[\r\n])|startxref\s+\d+\s+%%EOF|(?:"
    + SPREAD_OUT.pattern
    + rb")(?=[\r\n]))*+"
)


def unaccounted(content: bytes, pdf: pikepdf.Pdf, prints: Fingerprints) -> Iterator[str]:
    """What the file holds beside the packet, each in a sentence.

    Ask when every page and entry has its fingerprint: what a fingerprint covers is accounted for.

    Args:
        content: the file.
        pdf: the same, opened.
        prints: the fingerprints taken of it.
    """
    try:
        file = _File(content, pdf)
        yield from file.trailer_changes()
        yield from _unused(pdf, file, prints)
        yield from _odd_storage(pdf)
        yield from file.strays()
    except NotWhole:
        yield "the file is put together in a way that cannot be accounted for"


class _File:
    """The file as bytes: which of them each object and cross-reference takes."""

    def __init__(self, content: bytes, pdf: pikepdf.Pdf) -> None:
        self.content, self.pdf = content, pdf
        self.table = pdf.get_xref_table()
        self.places = {entry.offset or 0: which for which, entry in self.table.items() if entry.type == 1}
        self.odd_comments = 0
        self.trailers: list[tuple[dict[str, bytes], set[str]]] = []
        self.cross_references: set[ObjectId] = set()
        self.taken: list[tuple[int, int]] = []
        self._read_sections()
        self.taken += [(place, self._object_end(place, which)) for place, which in self.places.items()]

    def _read_sections(self) -> None:
        starts = _START.findall(self.content)
        waiting, read = [int(starts[-1])] if starts else [], set[int]()
        while waiting:
            place = waiting.pop()
            # A section that names itself as the one before would be read for ever.
            if place in read:
                continue
            read.add(place)
            trailer, known = self._section(place)
            self.trailers.append((trailer, known))
            if "/Prev" in trailer:
                waiting.append(int(trailer["/Prev"]))

    def _section(self, place: int) -> tuple[dict[str, bytes], set[str]]:
        """The trailer of a cross-reference, and the keys that belong into it."""
        if table := _TABLE.match(self.content, place):
            end = value_end(self.content, table.end())
            self.taken.append((place, end))
            return entries_of(self.content[table.end() : end]), _TRAILER
        found = _OBJECT.match(self.content, place)
        if found is None:
            raise NotWhole
        which = int(found[1]), int(found[2])
        self.cross_references.add(which)
        section: Any = self.pdf.get_object(which) if self.places.get(place) == which else None
        if not isinstance(section, pikepdf.Stream):
            raise NotWhole
        return entries_of(_written(section)), _CROSS_REFERENCES

    def _object_end(self, place: int, which: ObjectId) -> int:
        found = _OBJECT.match(self.content, place)
        if found is None or (int(found[1]), int(found[2])) != which:
            raise NotWhole
        for word, end in words(self.content, found.end()):
            self.odd_comments += is_odd_comment(word)
            if word == b"endobj":
                return end
            if word == b"stream":
                return self._stream_end(end, which)
        raise NotWhole

    def _stream_end(self, at: int, which: ObjectId) -> int:
        # the line end after `stream` is one or two bytes and no part of the content
        begins = at + (2 if self.content[at : at + 2] == b"\r\n" else 1)
        stream = self.pdf.get_object(which)
        if not isinstance(stream, pikepdf.Stream):
            raise NotWhole
        end = _STREAM_END.match(self.content, begins + int(stream["/Length"]))
        if end is None:
            raise NotWhole
        return end.end()

    def trailer_changes(self) -> Iterator[str]:
        """Keys of a trailer that no file needs."""
        for trailer, known in self.trailers:
            for key in sorted(trailer.keys() - known):
                yield f"the entry {key} was added to the end of the file (its trailer)"
            if len(trailer.get("/ID", b"")) > _LONGEST_ID:
                yield "the file's identifier was changed into something else"

    def strays(self) -> Iterator[str]:
        """Bytes that belong to no object and no cross-reference."""
        at, stray = 0, self.odd_comments
        for begins, end in sorted((*self.taken, (len(self.content), len(self.content)))):
            # Two objects in the same bytes: readers would disagree about which of them is shown.
            if begins < at:
                raise NotWhole
            between = _BETWEEN.match(self.content, at, begins)
            stray += begins - (between.end() if between else at)
            at = end
        if stray:
            yield "bytes that belong to nothing were put between the objects of the file"


def _unused(pdf: pikepdf.Pdf, file: _File, prints: Fingerprints) -> Iterator[str]:
    """Objects that no page, entry or attachment of the document uses."""
    needed = prints.met | set(prints.pages) | file.cross_references
    needed |= {(entry.obj_stream_number or 0, 0) for entry in file.table.values() if entry.type == 2}
    needed |= {thing.objgen for thing in structure(pdf) if thing.is_indirect}
    needed |= set(_linearization(pdf, file))
    # What is not reached from the document is shown by no reader, and can carry anything out of the shop.
    left = {which for which in file.table if which not in needed and pdf.get_object(which) is not None}
    if left:
        held = [pdf.get_object(which) for which in needed & file.table.keys()]
        named = {found for thing in held for found in references(_written(thing))}
        # Some programs save a number or a name as an object of its own; it is used where it is named.
        left -= {which for which in left & named if not _is_compound(pdf.get_object(which))}
    if left:
        many = "an object" if len(left) == 1 else how_many(len(left), "object")
        yield f"{many} that nothing in the packet uses {'was' if len(left) == 1 else 'were'} hidden in the file"


def _written(thing: Any) -> bytes:
    if isinstance(thing, pikepdf.Stream):
        thing = thing.stream_dict
    return thing.unparse(resolved=True) if isinstance(thing, pikepdf.Object) else b""


def _is_compound(thing: Any) -> bool:
    return isinstance(thing, pikepdf.Dictionary | pikepdf.Array | pikepdf.Stream)


def _linearization(pdf: pikepdf.Pdf, file: _File) -> Iterator[ObjectId]:
    """The two objects that let a reader begin before the whole file has come.

    Source: ISO 32000-1:2008 annex F.
    """
    first = file.places[min(file.places)]
    told = pdf.get_object(first)
    if not isinstance(told, pikepdf.Dictionary) or told.keys() != _LINEARIZED:
        return
    yield first
    hints = file.places.get(int(told["/H"][0]))
    stream = pdf.get_object(hints) if hints else None
    if hints and isinstance(stream, pikepdf.Stream) and not stream.keys() - _HINTS:
        # A hint table of the length this file needs; a longer one has room for something else.
        most = 64 + 32 * len(pdf.pages) + 16 * len(file.table)
        if len(decoded_or_stored(stream)[0]) <= most:
            yield hints


def _odd_storage(pdf: pikepdf.Pdf) -> Iterator[str]:
    """Streams that hold more than is shown, by how they are stored."""
    table = pdf.get_xref_table()
    for which in table:
        stream = pdf.get_object(which)
        if not isinstance(stream, pikepdf.Stream):
            continue
        if _holds_more(stream):
            yield "a stream of the file was made to hold more than is read from it"
        if stream.get("/Type") == "/ObjStm":
            members = {entry.obj_stream_index or 0: key[0] for key, entry in table.items() if _is_in(entry, which)}
            if stream.keys() - _OBJECT_STREAM or not _is_filled_by(stream, members):
                yield "a group of objects was made to hold more than is read from it"


def _is_in(entry: Any, which: ObjectId) -> bool:
    return bool(entry.type == 2 and (entry.obj_stream_number, 0) == which)


def _holds_more(stream: pikepdf.Stream) -> bool:
    # Of other packings only the decoder knows the end; pictures are compared by what they decode to.
    filters = filters_of(stream)
    if filters not in ([], ["/FlateDecode"]):
        return False
    parameters = stream.get("/DecodeParms")
    for told in [parameters] if isinstance(parameters, pikepdf.Dictionary) else parameters or ():
        if told is not None and (
            told.keys() - _PREDICTED or not all(isinstance(value, int) for value in dict(told).values())
        ):
            return True
    if not filters:
        return False
    unpacking = zlib.decompressobj()
    waiting = stream.read_raw_bytes()
    try:
        while waiting and not unpacking.eof:
            unpacking.decompress(waiting, 1 << 20)
            waiting = unpacking.unconsumed_tail
    except zlib.error:
        return False
    return bool(unpacking.unused_data.strip(b"\r\n"))


def _is_filled_by(stream: pikepdf.Stream, members: dict[int, int]) -> bool:
    """Whether a group of objects holds those the file reads from it, and nothing between them.

    Source: ISO 32000-1:2008 7.5.7 (object streams).
    """
    held, first = decoded_or_stored(stream)[0], int(stream["/First"])
    heading = [int(word) for word, _ in words(held[:first]) if not word.startswith(b"%")]
    numbers, places = heading[::2], heading[1::2]
    if dict(enumerate(numbers)) != members or places != sorted(places):
        return False
    at = first
    for place in places:
        if not _is_blank(held[at : first + place]):
            return False
        at = value_end(held, first + place)
    return _is_blank(held[at:])


def _is_blank(between: bytes) -> bool:
    return not any(is_odd_comment(word) or not word.startswith(b"%") for word, _ in words(between))
