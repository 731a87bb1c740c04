"""The packing slip that goes into the box with a part sent back to its maker."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from typing import Any, NamedTuple

from reportlab.platypus import Table, TableStyle

from claimpack.core.holding.tags import TagFacts
from claimpack.printing.codes import bars, square
from claimpack.printing.document import Titles, body_width, document
from claimpack.printing.drawn import gap
from claimpack.printing.lettering import page_text
from claimpack.printing.papers import Page
from claimpack.printing.tables import PAGE, PAGE_CLOSE, grid, padded, ruled

_LABEL = 130.0
_SQUARE = 84.0


class Slip(NamedTuple):
    """What a packing slip says.

    Args:
        tag: the part.
        shop: the shop's name.
        reach: its address, telephone and mail, a line each.
        dealer_number: the number the maker knows it by.
        reference: the maker's own number of the claim.
        serials: the serial numbers of the unit, each with what it is of.
        sent: the day it leaves.
        carrier: who carries it.
        tracking: the carrier's number.
        to: the maker's address, line by line.
    """

    tag: TagFacts
    shop: str
    reach: str
    dealer_number: str
    reference: str
    serials: tuple[tuple[str, str], ...]
    sent: date
    carrier: str
    tracking: str
    to: tuple[str, ...] = ()


def packing_slip_pdf(slip: Slip, page: Page) -> bytes:
    """The packing slip as a PDF; the same bytes for the same slip and page."""
    width = body_width(page)
    titles = Titles(f"Packing slip {slip.tag.code}", slip.shop, f"{slip.shop} · {slip.tag.code}".strip(" ·"))

    def pieces() -> list[Any]:
        return [*_head(slip, width), *_facts(slip, width), *_cautions(slip, width), *_signing(width)]

    return document(pieces, page, titles)


def _head(slip: Slip, width: float) -> list[Any]:
    half = (width - _SQUARE - 8) / 2
    left = [page_text("Packing slip", "title"), page_text("Part returned under warranty", "label")]
    to = "\n".join((slip.tag.maker, *slip.to))
    ways = [
        [
            [page_text("Ship from", "label"), page_text(slip.shop, "strong"), page_text(slip.reach, "cell")],
            [page_text("Ship to", "label"), page_text(to, "strong")],
            square(slip.tag.code, _SQUARE),
        ]
    ]
    return [
        ruled([[left]], [width]),
        gap(10),
        grid(ways, [half, half, _SQUARE + 8], padded(0, 8, 1, 2)),
        gap(12),
        page_text(slip.tag.code, "big"),
        gap(4),
        bars(slip.tag.code, 1.1, 44),
        gap(12),
    ]


def _facts(slip: Slip, width: float) -> list[Any]:
    tag = slip.tag
    part = " · ".join(word for word in (tag.part, tag.part_number) if word)
    said = [
        ("Part", part),
        ("Quantity", "1"),
        ("Serial number of the part", tag.part_serial),
        ("Claim", tag.claim),
        ("Maker's reference", slip.reference),
        ("Dealer number", slip.dealer_number),
        ("Model", tag.model),
        *((f"Serial number, {role}", value) for role, value in slip.serials),
        ("Failed on", str(tag.failed_on or "")),
        ("Drained", {True: "yes", False: "NO", None: ""}[tag.drained] if tag.hazard == "fuel" else ""),
        ("Sent on", str(slip.sent)),
        ("Carrier", " · ".join(word for word in (slip.carrier, slip.tracking) if word)),
    ]
    rows = [
        [page_text(label, "label"), page_text(value, "cell-strong" if label == "Part" else "cell")]
        for label, value in said
        if value
    ]
    return [ruled(rows, [_LABEL, width - _LABEL], ruling=PAGE_CLOSE, labels=(0,)), gap(12)]


def _cautions(slip: Slip, width: float) -> list[Any]:
    rows = [[page_text("!", "heading"), page_text(caution, "cell")] for caution in slip.tag.cautions_on_the_way]
    return [
        page_text("Before packing and opening", "heading"),
        gap(4),
        ruled(rows, [18, width - 18]),
        gap(20),
    ]


def _signing(width: float) -> list[Any]:
    half = width / 2 - 10
    lines = [
        ruled([[page_text(who, "label"), ""]], [70, half - 70], ruling=replace(PAGE, height=30), labels=(0,))
        for who in ("Packed by", "Received by")
    ]
    bare = TableStyle([("LEFTPADDING", (0, 0), (-1, -1), 0), ("RIGHTPADDING", (0, 0), (-1, -1), 0)])
    return [Table([[lines[0], "", lines[1]]], colWidths=[half, 20, half], style=bare, hAlign="LEFT")]
