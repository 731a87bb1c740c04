"""The text of a PDF as lines of cells, read in a process with limits; what stands apart is a cell of its own."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path
from statistics import median

from claimpack.confined import confined
from claimpack.errors import BadInput, NotInstalled
from claimpack.file_contents import refuse_no_file
from claimpack.installed import install_command

MOST_PAGES, MOST_MARKS = 200, 500_000
"""A maker's statement comes nowhere near them."""

_APART = 0.9
"""A gap of so much of the height of the letters parts two cells; words are nearer to each other."""


@dataclass(frozen=True)
class PdfCell:
    """A piece of a line: its text, and from where to where it goes across the page, in points."""

    left: float
    right: float
    text: str


@dataclass(frozen=True)
class PdfLines:
    """Every line of every page, from the top down."""

    lines: list[list[PdfCell]]


@dataclass(frozen=True)
class _Mark:
    left: float
    bottom: float
    right: float
    top: float
    text: str


def pdf_lines(path: Path, file: str) -> list[list[PdfCell]]:
    """The lines of a PDF that carries its text.

    Args:
        path: where it lies.
        file: how the user calls it, for messages.

    Raises:
        NotFound: there is no such file.
        NotInstalled: this machine lacks the reader of PDFs.
        BadInput: it is no PDF, is locked, or has no text.
    """
    refuse_no_file(path)
    lines = confined(lines_of_pdf, path.absolute(), file, file=file).lines
    if not lines:
        raise BadInput(
            f"{file} has no text",
            "It may be a scan: pictures of pages.",
            "Ask the maker for it as CSV or spreadsheet, or type it into one.",
        )
    return lines


def lines_of_pdf(path: Path, file: str) -> PdfLines:
    """The same, in the process that calls it."""
    try:
        import pypdfium2
    except ModuleNotFoundError:
        raise NotInstalled(
            "this machine lacks what reads the text of PDFs",
            "CSV and .xlsx need nothing more, a PDF does.",
            f"Install it: {install_command('pypdfium2')}",
        ) from None
    try:
        document = pypdfium2.PdfDocument(path)
    except pypdfium2.PdfiumError as error:
        raise BadInput(f"{file} cannot be read as a PDF: {error}", do="Save it anew from where it came.") from None
    if len(document) > MOST_PAGES:
        raise BadInput(f"{file} has {len(document)} pages", do="Check that the right file was named.")
    lines: list[list[PdfCell]] = []
    for page in document:
        text = page.get_textpage()
        count = text.count_chars()
        if count > MOST_MARKS:
            raise BadInput(f"{file} has a page of {count} letters", do="Check that the right file was named.")
        marks = ((nth, text.get_text_range(nth, 1)) for nth in range(count))
        lines += _lines([_mark(text.get_charbox(nth, loose=True), mark) for nth, mark in marks if mark.strip()])
    return PdfLines(lines)


def _mark(box: tuple[float, float, float, float], text: str) -> _Mark:
    left, bottom, right, top = box
    return _Mark(left, bottom, right, top, text)


def _lines(marks: list[_Mark]) -> list[list[PdfCell]]:
    if not marks:
        return []
    height = median(mark.top - mark.bottom for mark in marks) or 1
    lines: list[list[_Mark]] = []
    for mark in sorted(marks, key=lambda mark: -mark.bottom):
        if lines and abs(lines[-1][0].bottom - mark.bottom) < height * 0.6:
            lines[-1].append(mark)
        else:
            lines.append([mark])
    return [_cells(sorted(line, key=lambda mark: mark.left), height) for line in lines]


def _cells(line: list[_Mark], height: float) -> list[PdfCell]:
    cells = [PdfCell(line[0].left, line[0].right, line[0].text)]
    for mark in line[1:]:
        last, gap = cells[-1], mark.left - cells[-1].right
        if gap > height * _APART:
            cells.append(PdfCell(mark.left, mark.right, mark.text))
        else:
            blank = " " if gap > height * 0.1 else ""
            cells[-1] = PdfCell(last.left, max(last.right, mark.right), f"{last.text}{blank}{mark.text}")
    return cells


def under(headings: list[PdfCell], lines: Iterable[list[PdfCell]]) -> list[list[str]]:
    """Lines as rows of cells below headings, each piece under the heading it stands nearest to.

    The headings of later pages, and the numbers of pages, are left out.
    """
    said = [cell.text for cell in headings]
    found = []
    for line in lines:
        texts = [cell.text for cell in line]
        if texts == said or re.fullmatch(r"page \d+( (of|/) \d+)?", " ".join(texts), re.IGNORECASE):
            continue
        row = [""] * len(headings)
        for cell in line:
            place = min(range(len(headings)), key=lambda nth: _distance(headings[nth], cell))
            row[place] = f"{row[place]} {cell.text}".strip()
        found.append(row)
    return found


def _distance(heading: PdfCell, cell: PdfCell) -> tuple[float, float]:
    """How far a piece stands from a heading: by the gap between them, then by their middles."""
    gap = max(heading.left - cell.right, cell.left - heading.right, 0.0)
    return gap, abs(heading.left + heading.right - cell.left - cell.right)
