"""What the drawn pages are handed beside the assessment: pictures, papers, the shop, the files in the packet."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from datetime import datetime
from typing import Protocol

from claimpack.printing.kept.reading_order import Element


class PrintedPicture(Protocol):
    """A picture made ready to print, as JPEG; width and height in pixels."""

    @property
    def file(self) -> str:
        """The picture's path in the claim folder."""

    @property
    def jpeg(self) -> bytes:
        """The JPEG file, which goes into the packet as it is."""

    @property
    def width(self) -> int:
        """Width in pixels."""

    @property
    def height(self) -> int:
        """Height in pixels."""

    @property
    def sha256(self) -> str:
        """The hash of the original file."""

    @property
    def original_width(self) -> int:
        """Width of the original in pixels, as it is looked at."""

    @property
    def original_height(self) -> int:
        """Height of the original in pixels, as it is looked at."""

    @property
    def taken(self) -> datetime | None:
        """When it was taken, by the camera's clock."""

    @property
    def notes(self) -> Sequence[str]:
        """What was done to it."""


class PaperSheet(Protocol):
    """One page of a paper, as it is looked at."""

    @property
    def width(self) -> float:
        """Width in points."""

    @property
    def height(self) -> float:
        """Height in points."""


class PaperSheets(Protocol):
    """A paper: a receipt, an invoice, a registration card."""

    @property
    def file(self) -> str:
        """The paper's path in the claim folder."""

    @property
    def sha256(self) -> str:
        """The hash of the original file."""

    @property
    def pages(self) -> Sequence[PaperSheet]:
        """Its pages, in order."""


@dataclass(frozen=True, slots=True)
class ShopFacts:
    """The shop as the packet names it; every text may be empty."""

    name: str = ""
    address: str = ""
    phone: str = ""
    email: str = ""
    dealer_number: str = ""


@dataclass(frozen=True, slots=True)
class PacketFile:
    """One row of the list of files: path, SHA-256 and size in bytes of the original, whether and how it is attached."""

    file: str
    sha256: str
    bytes: int
    attached: bool = False
    as_it_is: bool = False


@dataclass(frozen=True, slots=True)
class PageEvidence:
    """Everything the pages show beside the assessment; before is how many pages stand before them in the packet."""

    photos: Sequence[PrintedPicture] = ()
    papers: Sequence[PaperSheets] = ()
    shop: ShopFacts = ShopFacts()
    files: Sequence[PacketFile] = ()
    before: int = 0


@dataclass(frozen=True, slots=True)
class PaperSlot:
    """Where a page of a paper goes: page counted from 0, in points from the lower left of the page.

    The number is that of its ink on the page, in the order in which the page is read.
    """

    page_index: int
    x: float
    y: float
    width: float
    height: float
    paper_file: str
    paper_page: int
    number: int = 0


@dataclass(frozen=True, slots=True)
class DrawnPages:
    """The packet's pages as a PDF, the room left for papers, what the reader should know, and what the pages say."""

    pdf: bytes
    slots: tuple[PaperSlot, ...]
    notes: tuple[str, ...]
    page_count: int
    document: Element = field(default_factory=lambda: Element("Document"))
