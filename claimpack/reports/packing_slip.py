"""The packing slip that goes into the box with a part sent back to its maker."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from typing import Any, NamedTuple

from reportlab.graphics.barcode.code128 import Code128
from reportlab.platypus import Spacer, Table, TableStyle

from claimpack.core.holding.tags import TagFacts
from claimpack.printing.document import Titles, body_width, document
from claimpack.printing.drawn import drawn
from claimpack.printing.lettering import page_text
from claimpack.printing.papers import Page
from claimpack.printing.tables import PAGE, ruled

_LABEL = 130.0


class Slip(NamedTuple):
    """What a packing slip says; reach is the shop's address, telephone and mail, a line each."""

    tag: TagFacts
    shop: str
    reach: str
    dealer_number: str
    reference: str
    serials: tuple[tuple[str, str], ...]
    sent: date
    carrier: str
    tracking: str


def packing_slip_pdf(slip: Slip, page: Page) -> bytes:
    """The packing slip as a PDF; the same bytes for the same slip and page."""
    width = body_width(page)
    titles = Titles(f"Packing slip {slip.tag.code}", slip.shop, f"{slip.shop} · {slip.tag.code}".strip(" ·"))

    def pieces() -> list[Any]:
        return [*_head(slip, width), *_facts(slip, width), *_cautions(slip, width), *_signing(width)]

    return document(pieces, page, titles)


def _head(slip: Slip, width: float) -> list[Any]:
    code = Code128(slip.tag.code, barWidth=1.1, barHeight=44, quiet=True)
    left = [page_text("Packing slip", "title"), page_text("Part returned under warranty", "label")]
    return [
        ruled([[left, page_text(f"{slip.shop}\n{slip.reach}", "small", right=True)]], [width * 0.55, width * 0.45]),
        Spacer(0, 18),
        page_text(slip.tag.code, "big"),
        Spacer(0, 4),
        drawn(code.width, code.height, lambda canvas, *_: code.drawOn(canvas, 0, 0), alt=f"Code 128: {slip.tag.code}"),
        Spacer(0, 14),
    ]


def _facts(slip: Slip, width: float) -> list[Any]:
    tag = slip.tag
    part = " · ".join(word for word in (tag.part, tag.part_number) if word)
    said = [
        ("To", tag.maker),
        ("Part", part),
        ("Serial number of the part", tag.part_serial),
        ("Claim", tag.claim),
        ("Maker's reference", slip.reference),
        ("Dealer number", slip.dealer_number),
        ("Model", tag.model),
        *((f"Serial number, {role}", value) for role, value in slip.serials),
        ("Failed on", str(tag.failed_on or "")),
        ("Drained", {True: "yes", False: "NO", None: ""}[tag.drained]),
        ("Sent on", str(slip.sent)),
        ("Carrier", " · ".join(word for word in (slip.carrier, slip.tracking) if word)),
    ]
    rows = [
        [page_text(label, "label"), page_text(value, "cell-strong" if label == "Part" else "cell")]
        for label, value in said
        if value
    ]
    return [ruled(rows, [_LABEL, width - _LABEL], labels=(0,)), Spacer(0, 16)]


def _cautions(slip: Slip, width: float) -> list[Any]:
    rows = [[page_text("!", "heading"), page_text(caution, "cell")] for caution in slip.tag.cautions]
    return [
        page_text("Before packing and opening", "heading"),
        Spacer(0, 4),
        ruled(rows, [18, width - 18]),
        Spacer(0, 20),
    ]


def _signing(width: float) -> list[Any]:
    half = width / 2 - 10
    lines = [
        ruled([[page_text(who, "label"), ""]], [70, half - 70], ruling=replace(PAGE, height=30), labels=(0,))
        for who in ("Packed by", "Received by")
    ]
    bare = TableStyle([("LEFTPADDING", (0, 0), (-1, -1), 0), ("RIGHTPADDING", (0, 0), (-1, -1), 0)])
    return [Table([[lines[0], "", lines[1]]], colWidths=[half, 20, half], style=bare, hAlign="LEFT")]
