"""The structure written into a PDF, for readers that say it aloud, and read back from one."""

from __future__ import annotations

from typing import Any

import pikepdf
from pikepdf import Array, Dictionary, Name

from claimpack.printing.kept.reading_order import Element, Ink, LinkArea


def write_structure(pdf: pikepdf.Pdf, document: Element) -> None:
    """Write what the pages say and in which order into the document.

    Source: ISO 32000-1:2008 14.7 (logical structure), 14.8 (tagged PDF).
    """
    if "/StructTreeRoot" in pdf.Root:
        del pdf.Root["/StructTreeRoot"]
    writing = _Writing(pdf)
    root = pdf.make_indirect(Dictionary(Type=Name.StructTreeRoot))
    root.K = Array([writing.node(document, root)])
    root.ParentTree, root.ParentTreeNextKey = writing.parents()
    pdf.Root.StructTreeRoot = root
    pdf.Root.MarkInfo = Dictionary(Marked=True)


class _Writing:
    """The nodes written so far, and what each run of drawing belongs to, by page."""

    def __init__(self, pdf: pikepdf.Pdf) -> None:
        self._pdf = pdf
        self._pages = [page.obj for page in pdf.pages]
        self._ink: dict[int, dict[int, Any]] = {}
        self._spots: list[Any] = []

    def node(self, part: Element, above: Any) -> Any:
        """The part as an object of the document, with all that it holds."""
        node = self._pdf.make_indirect(Dictionary(Type=Name.StructElem, S=Name(f"/{part.role}"), P=above))
        if part.alt:
            node.Alt = pikepdf.String(part.alt)
        if part.actual:
            node.ActualText = pikepdf.String(part.actual)
        if part.heads or part.across > 1:
            node.A = Dictionary(O=Name.Table)
            if part.heads:
                node.A.Scope = Name(f"/{part.heads}")
            if part.across > 1:
                node.A.ColSpan = part.across
        held = [self._held(one, node) for one in part.holds]
        if held:
            node.K = Array(held)
        return node

    def _held(self, one: Element | Ink | LinkArea, node: Any) -> Any:
        if isinstance(one, Element):
            return self.node(one, node)
        page = self._pages[one.page]
        if isinstance(one, Ink):
            self._ink.setdefault(one.page, {})[one.number] = node
            return Dictionary(Type=Name.MCR, Pg=page, MCID=one.number)
        spot = page.Annots[one.place]
        spot.StructParent = len(self._pages) + len(self._spots)
        self._spots.append(node)
        return Dictionary(Type=Name.OBJR, Pg=page, Obj=spot)

    def parents(self) -> tuple[Any, int]:
        """What each run of drawing and each place to click belongs to, by page, and the number after the last."""
        numbers: list[Any] = []
        for index, page in enumerate(self._pages):
            found = self._ink.get(index, {})
            for key in ("/StructParents", "/Tabs"):
                if key in page:
                    del page[key]
            if found or "/Annots" in page:
                page.Tabs = Name.S
            if found:
                page.StructParents = index
                of_page = Array([found.get(number) for number in range(max(found) + 1)])
                numbers.extend([index, self._pdf.make_indirect(of_page)])
        for place, node in enumerate(self._spots):
            numbers.extend([len(self._pages) + place, node])
        return self._pdf.make_indirect(Dictionary(Nums=Array(numbers))), len(self._pages) + len(self._spots)


def structure_of(pdf: pikepdf.Pdf) -> Element:
    """The structure that was written into a document; an empty one where there is none."""
    root = pdf.Root.get("/StructTreeRoot")
    if root is None:
        return Element("Document")
    return _read(root.K[0], {page.obj.objgen: place for place, page in enumerate(pdf.pages)})


def _read(node: Any, pages: dict[tuple[int, int], int]) -> Element:
    told = node.get("/A", {})
    scope, columns = str(told.get("/Scope", " "))[1:], told.get("/ColSpan", 1)
    # roles and scopes are those that write_structure wrote
    part = Element(str(node.S)[1:], str(node.get("/Alt", "")), scope, columns)  # type: ignore[arg-type]
    part.actual = str(node.get("/ActualText", ""))
    for one in node.get("/K", ()):
        kind = one.get("/Type")
        if kind == Name.MCR:
            part.holds.append(Ink(pages[one.Pg.objgen], int(one.MCID)))
        elif kind == Name.OBJR:
            spots = [spot.objgen for spot in one.Pg.Annots]
            part.holds.append(LinkArea(pages[one.Pg.objgen], spots.index(one.Obj.objgen)))
        else:
            part.holds.append(_read(one, pages))
    return part
