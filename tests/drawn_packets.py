"""Packet pages drawn for tests, and read back by other readers."""

from __future__ import annotations

import io
import tomllib
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime
from decimal import Decimal
from pathlib import Path
from typing import Any

import printed
import pypdf
from builders import TODAY, a_claim, a_plan
from PIL import Image, ImageDraw

from claimpack.core.claims.claim import Claim
from claimpack.core.judging.assessment import assess
from claimpack.core.plans.plan import Plan
from claimpack.packet.drawing.draft import Draft
from claimpack.packet.drawing.evidence import DrawnPages, PageEvidence
from claimpack.packet.drawing.layout import Layout, layout_from
from claimpack.packet.drawn_pages import draw_pages

TEMPLATES = Path(__file__).parents[1] / "templates" / "packet"

PHOTO = {"file": "photos/damage.jpg", "shot": "damage close up", "caption": "Piston skirt."}


@dataclass(frozen=True)
class Shot:
    """A picture ready for print."""

    file: str
    jpeg: bytes
    width: int
    height: int
    taken: datetime | None = None
    sha256: str = "a1" * 32
    original_width: int = 4000
    original_height: int = 3000
    notes: Sequence[str] = ()


@dataclass(frozen=True)
class Sheet:
    """A page of a paper, in points."""

    width: float
    height: float


@dataclass(frozen=True)
class Receipt:
    """A paper."""

    file: str
    pages: tuple[Sheet, ...]
    sha256: str = "b2" * 32


def layout_keys(name: str = "letter") -> dict[str, Any]:
    """The keys of a shipped layout."""
    return tomllib.loads((TEMPLATES / f"{name}.toml").read_text(encoding="utf-8"), parse_float=Decimal)


def a_layout(name: str = "letter", **changes: Any) -> Layout:
    """A shipped layout, with keys of its top table changed."""
    return layout_from(layout_keys(name) | changes, f"{name}.toml")


def a_shot(file: str = PHOTO["file"], size: tuple[int, int] = (800, 600), **facts: Any) -> Shot:
    """A picture with a diagonal on grey."""
    picture = Image.new("RGB", size, (120, 125, 130))
    ImageDraw.Draw(picture).line((0, 0, *size), fill=(20, 20, 20), width=9)
    stream = io.BytesIO()
    picture.save(stream, "JPEG", quality=80)
    return Shot(file, stream.getvalue(), *size, **facts)


def a_paper(file: str = "papers/receipt.pdf", *sizes: tuple[float, float]) -> Receipt:
    """A paper with pages of these sizes, in points; one of US Letter where none is told."""
    return Receipt(file, tuple(Sheet(*size) for size in sizes or ((612, 792),)))


def draw(
    claim: Claim | None = None, plan: Plan | None = None, layout: Layout | None = None, **evidence: Any
) -> DrawnPages:
    """The pages of a claim under a plan, on a layout, with evidence."""
    assessment = assess(claim or a_claim(), [plan or a_plan()], TODAY)
    return draw_pages(assessment, layout or a_layout(), PageEvidence(**evidence))


def a_draft(
    claim: Claim | None = None, plan: Plan | None = None, layout: Layout | None = None, **evidence: Any
) -> Draft:
    """What sections are drawn from."""
    assessment = assess(claim or a_claim(), [plan or a_plan()], TODAY)
    return Draft(assessment, layout or a_layout(), PageEvidence(**evidence))


def reader(drawn: DrawnPages) -> pypdf.PdfReader:
    """The pages in another program's hands."""
    return pypdf.PdfReader(io.BytesIO(drawn.pdf))


def page_texts(drawn: DrawnPages) -> list[str]:
    """What each page says, blanks and line ends made one blank."""
    return printed.page_texts(drawn.pdf)


def text_of(drawn: DrawnPages) -> str:
    """What the pages say, one after the other."""
    return " ".join(page_texts(drawn))
