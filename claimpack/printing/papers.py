"""The papers everything is printed on, and measures in points, 72 to the inch."""

from __future__ import annotations

from claimpack.errors import BadInput

Page = tuple[float, float]
"""Width and height of a page, in points."""

Point = tuple[float, float]
"""A place on paper, in points; from which corner says whoever names one."""

PAPERS: dict[str, Page] = {"letter": (612.0, 792.0), "a4": (595.2756, 841.8898), "legal": (612.0, 1008.0)}
"""Upright. Source: ISO 216 (210 by 297 mm); 8.5 by 11 and 8.5 by 14 inches."""

MM = 72 / 25.4


def page_of(paper: str) -> Page:
    """The size of a paper by its name.

    Raises:
        BadInput: it is no paper that the program knows.
    """
    if paper.lower() not in PAPERS:
        raise BadInput(
            f"--paper: {paper!r} is no paper this can be printed on",
            "A page must have a size.",
            f"Choose one of: {', '.join(PAPERS)}.",
        )
    return PAPERS[paper.lower()]
