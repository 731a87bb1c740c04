"""What holds a packet together beside what it shows: catalog, page tree, list of attachments; what was put there."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import pikepdf

ObjectId = tuple[int, int]
"""An object's number and generation."""

_PAGE_TREE = {"/Type", "/Kids", "/Count", "/Parent"}


def structure(pdf: pikepdf.Pdf) -> Iterator[pikepdf.Object]:
    """What holds the document together: catalog, properties, page tree, and the list of attachments with its files."""
    names = pdf.Root.get("/Names", pikepdf.Dictionary())
    yield from (pdf.Root, pdf.docinfo, names, pdf.Root.get("/AF", pikepdf.Array()))
    yield from _nodes(pdf.Root.Pages, set())
    for node in _nodes(names.get("/EmbeddedFiles", pikepdf.Dictionary()), set()):
        yield node
        yield (listed := node.get("/Names", pikepdf.Array()))
        # names and files take turns
        for spec in list(listed)[1::2]:
            contents = spec.get("/EF", pikepdf.Dictionary())
            yield from (spec, contents)
            for content in dict(contents).values():
                yield from (content, content.get("/Params", pikepdf.Dictionary()))


def _nodes(node: Any, seen: set[ObjectId]) -> Iterator[Any]:
    # a page tree that holds itself would be walked for ever
    if node.is_indirect and node.objgen in seen:
        return
    seen.add(node.objgen)
    yield node
    if "/Kids" in node:
        yield node["/Kids"]
        for kid in node["/Kids"]:
            yield from _nodes(kid, seen)


def structure_changes(pdf: pikepdf.Pdf) -> Iterator[str]:
    """What was put where nothing is shown, each in a sentence.

    The file must have been opened without moving what its list of pages says for all pages into each.

    Source: ISO 32000-1:2008 7.7 (document structure).
    """
    branches = [node for node in _nodes(pdf.Root.Pages, set()) if isinstance(node, pikepdf.Dictionary)]
    kinds = {str(node.get("/Type")) for node in branches}
    if pdf.Root.get("/Type") != "/Catalog" or not kinds <= {"/Page", "/Pages"}:
        yield "the document or a page of it is said to be something else"
    if any(node.keys() - _PAGE_TREE for node in branches if "/Kids" in node):
        yield "something was put into the list of pages that is no page"
