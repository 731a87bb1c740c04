"""What was done to the attachments of a packet beside their content: what some readers would show, and others not."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import zip_longest
from typing import Any

import pikepdf

from claimpack.packet.embedded import DESCRIPTIONS, MIME
from claimpack.packet.fingerprints import decoded_or_stored

_KEYS = {"/Type", "/F", "/UF", "/EF", "/Desc", "/AFRelationship"}
_CONTENTS = {"/F", "/UF"}
_STREAM = {"/Type", "/Subtype", "/Params", "/Length", "/Filter", "/DecodeParms"}


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
    listed = list(_listed(tree, set())) if tree is not None else []
    names = [name for name, _ in listed]
    if names != sorted(names) or None in [spec for _, spec in listed]:
        yield "the list of attachments is not in order"
    for name in sorted({name for name in names if names.count(name) > 1}):
        yield f"the attachment {name} is listed twice"
    if sorted(set(names)) != sorted(pdf.attachments.keys()):
        yield "attachments are listed where some readers look and others do not"
    for name, spec in listed:
        yield from _of_one(name, spec)
    known = {spec.objgen for _, spec in listed if isinstance(spec, pikepdf.Dictionary)}
    if any(spec.objgen not in known for spec in pdf.Root.get("/AF", ())):
        yield "a file was added to the document's list of associated files"
    metadata = pdf.Root.get("/Metadata")
    if isinstance(metadata, pikepdf.Stream) and metadata.keys() - _STREAM:
        yield "something was attached to the document's metadata"


def _listed(node: Any, seen: set[tuple[int, int]]) -> Iterator[tuple[str, Any]]:
    """Every name and file of a name tree, also where a node has both names and branches, which none should."""
    if not isinstance(node, pikepdf.Dictionary):
        yield str(node), None
        return
    if node.is_indirect and node.objgen in seen:
        return
    seen.add(node.objgen)
    names = list(node.get("/Names", ()))
    for name, spec in zip_longest(names[::2], names[1::2]):
        yield str(name), spec
    for kid in node.get("/Kids", ()):
        yield from _listed(kid, seen)


def _of_one(name: str, spec: Any) -> Iterator[str]:
    if not isinstance(spec, pikepdf.Dictionary):
        yield f"{name} is no attachment any more"
        return
    if any(str(spec[key]) != name for key in ("/F", "/UF") if key in spec):
        yield f"the name under which readers show {name} was changed"
    if "/Desc" in spec and str(spec["/Desc"]) != DESCRIPTIONS.get(name, str(spec["/Desc"])):
        yield f"the description of {name} was changed"
    contents = dict(spec.get("/EF", {}))
    added = sorted((spec.keys() - _KEYS) | (contents.keys() - _CONTENTS))
    if added:
        yield f"{name} was given what no attachment of a packet has: {', '.join(key[1:] for key in added)}"
    different = {stored_content(content) for content in contents.values()}
    if len(different) > 1:
        yield f"{name} carries a second content that differs from the first"
    if any(isinstance(content, pikepdf.Stream) and content.keys() - _STREAM for content in contents.values()):
        yield f"{name} was given what no attachment of a packet has, beside its content"
    if name in DESCRIPTIONS and any(_kind(content) not in ("", MIME) for content in contents.values()):
        yield f"the kind of file that {name} is said to be was changed"


def _kind(content: Any) -> str:
    return str(content.get("/Subtype", ""))[1:] if isinstance(content, pikepdf.Stream) else ""
