"""What was done to the attachments of a packet beside their content: what some readers would show, and others not."""

from __future__ import annotations

import hashlib
from collections.abc import Iterator
from itertools import zip_longest
from typing import Any

import pikepdf

from claimpack.packet.sealing.attachments import DESCRIPTIONS, MIME, ORIGINAL, ORIGINAL_NAME, RELATIONSHIPS
from claimpack.packet.sealing.fingerprints import decoded_or_stored

_KEYS = {"/Type", "/F", "/UF", "/EF", "/Desc", "/AFRelationship"}
_CONTENTS = {"/F", "/UF"}
_STARTS = ((b"\xff\xd8", "image/jpeg"), (b"\x89PNG", "image/png"), (b"%PDF", "application/pdf"))
_STREAM = {"/Type", "/Subtype", "/Params", "/Length", "/Filter", "/DecodeParms"}
_PARAMETERS = {"/CheckSum", "/CreationDate", "/ModDate", "/Size"}
_NODE = {"/Names", "/Kids", "/Limits"}


def stored_content(thing: Any) -> bytes:
    """What a stream holds, decoded where that can be done; nothing for what is no stream."""
    return decoded_or_stored(thing)[0] if isinstance(thing, pikepdf.Stream) else b""


def attachment_changes(pdf: pikepdf.Pdf) -> Iterator[str]:
    """What was changed about the attachments, each in a sentence.

    Readers differ: one goes by the list of names, another by the document's associated files; of a name listed twice
    one shows the first, another the last. A packet leaves them no choice. Ask before anything reads the attachments by
    name: that mends the list of names in memory.

    Source: ISO 32000-2:2020 7.9.6 (name trees), 7.11.3 (file specifications), 14.13 (associated files).
    """
    tree = pdf.Root.get("/Names", pikepdf.Dictionary()).get("/EmbeddedFiles")
    listed = list(_listed(tree)) if tree is not None else []
    names = [name for name, _ in listed]
    # readers look names up by halving, so one out of order is seen by some and missed by others
    if names != sorted(names) or None in [spec for _, spec in listed]:
        yield "the list of attachments is not in order"
    for name in sorted({name for name in names if names.count(name) > 1}):
        yield f"the attachment {name} is listed twice"
    # ours follows every branch; what the library does not find by name, other readers may not either
    if sorted(set(names)) != sorted(pdf.attachments.keys()):
        yield "attachments are listed where some readers look and others do not"
    if any(isinstance(node, pikepdf.Dictionary) and node.keys() - _NODE for node in _nodes(tree, set())):
        yield "something was put into the list of attachments that is none"
    for name, spec in listed:
        yield from _of_one(name, spec, str(pdf.docinfo.get("/CreationDate", "")))
    known = {spec.objgen for _, spec in listed if isinstance(spec, pikepdf.Dictionary)}
    # by object: the same name may be given to two files
    associated = [spec.objgen for spec in pdf.Root.get("/AF", ())]
    if any(spec not in known for spec in associated):
        yield "a file was added to the document's list of associated files"
    if len(associated) < len(known):
        yield "a file was removed from the document's list of associated files"
    metadata = pdf.Root.get("/Metadata")
    if isinstance(metadata, pikepdf.Stream) and metadata.keys() - _STREAM:
        yield "something was attached to the document's metadata"


def _nodes(node: Any, seen: set[tuple[int, int]]) -> Iterator[Any]:
    """Every branch of a name tree once; also what is none, where a branch should be."""
    if not isinstance(node, pikepdf.Dictionary):
        yield node
    elif not (node.is_indirect and node.objgen in seen):
        seen.add(node.objgen)
        yield node
        for kid in node.get("/Kids", ()):
            yield from _nodes(kid, seen)


def _listed(tree: Any) -> Iterator[tuple[str, Any]]:
    """Every name and file of a name tree, also where a node has both names and branches, which none should."""
    for node in _nodes(tree, set()):
        if not isinstance(node, pikepdf.Dictionary):
            yield str(node), None
            continue
        names = list(node.get("/Names", ()))
        for name, spec in zip_longest(names[::2], names[1::2]):
            yield str(name), spec


def _of_one(name: str, spec: Any, day: str) -> Iterator[str]:
    if not isinstance(spec, pikepdf.Dictionary):
        yield f"{name} is no attachment any more"
        return
    if any(str(spec[key]) != name for key in ("/F", "/UF") if key in spec):
        yield f"the name under which readers show {name} was changed"
    if name in DESCRIPTIONS and str(spec.get("/Desc", "")) != DESCRIPTIONS[name]:
        yield f"the description of {name} was changed"
    is_ours = name in DESCRIPTIONS or name.startswith(ORIGINAL_NAME)
    if is_ours and spec.get("/AFRelationship") != f"/{RELATIONSHIPS.get(name, ORIGINAL)}":
        yield f"what {name} is to the pages was changed"
    contents = dict(spec.get("/EF", {}))
    added = sorted((spec.keys() - _KEYS) | (contents.keys() - _CONTENTS))
    if added:
        yield f"{name} was given what no attachment of a packet has: {', '.join(key[1:] for key in added)}"
    # /F and /UF may name two streams, and readers choose between them
    different = {stored_content(content) for content in contents.values()}
    if len(different) > 1:
        yield f"{name} carries a second content that differs from the first"
    if any(isinstance(content, pikepdf.Stream) and content.keys() - _STREAM for content in contents.values()):
        yield f"{name} was given what no attachment of a packet has, beside its content"
    if is_ours and any(_kind(content) != _kind_of_content(name, content) for content in contents.values()):
        yield f"the kind of file that {name} is said to be was changed"
    if is_ours and not all(_is_told_truly(content, day) for content in contents.values()):
        yield f"the size, the checksum or a date told of {name} was changed"


def _is_told_truly(content: Any, day: str) -> bool:
    """Whether what is told of a file beside its content is true of it; a packet's files bear the packet's day."""
    told = content.get("/Params", pikepdf.Dictionary()) if isinstance(content, pikepdf.Stream) else None
    if not isinstance(told, pikepdf.Dictionary) or told.keys() - _PARAMETERS:
        return False
    held = stored_content(content)
    # The checksum that PDF asks for is MD5; it proves nothing, and the manifest has the hash that does.
    checksum = hashlib.md5(held, usedforsecurity=False).digest()
    return (
        told.get("/Size") == len(held)
        and bytes(told.get("/CheckSum", pikepdf.String(""))) == checksum
        and all(str(told.get(key, "")) == day for key in ("/CreationDate", "/ModDate"))
    )


def _kind_of_content(name: str, content: Any) -> str:
    held = stored_content(content)
    return MIME if name in DESCRIPTIONS else next((kind for start, kind in _STARTS if held.startswith(start)), "")


def _kind(content: Any) -> str:
    return str(content.get("/Subtype", ""))[1:] if isinstance(content, pikepdf.Stream) else ""
