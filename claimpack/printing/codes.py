"""Codes that a scanner reads, as pieces of a page."""

from __future__ import annotations

import re
from functools import lru_cache
from typing import Any

from claimpack.printing.drawn import DrawnPiece, drawn
from claimpack.printing.palette import INK


def bars(code: str, module: float, height: float) -> DrawnPiece:
    """A Code 128 with its quiet zones; the width of a module and the height in points.

    Source: ISO/IEC 15417, as the reportlab library draws it.
    """
    from reportlab.graphics.barcode.code128 import Code128

    piece = Code128(code, barWidth=module, barHeight=height, quiet=True)
    return drawn(piece.width, piece.height, lambda canvas, *_: piece.drawOn(canvas, 0, 0), alt=f"Code 128: {code}")


def square(code: str, side: float) -> DrawnPiece:
    """A QR code of so many points a side, without its quiet zone: the paper around it must be white.

    Source: ISO/IEC 18004, as the segno library draws it.
    """
    rows, runs = _runs(code)
    module = side / rows

    def pen(canvas: Any, _width: float, height: float) -> None:
        canvas.setFillColor(INK)
        path = canvas.beginPath()
        for along, down, wide in runs:
            path.rect(along * module, height - (down + 1) * module, wide * module, module)
        canvas.drawPath(path, stroke=0, fill=1)

    return drawn(side, side, pen, alt=f"QR: {code}")


@lru_cache(maxsize=1000)
def _runs(code: str) -> tuple[int, tuple[tuple[int, int, int], ...]]:
    """How many rows a QR code has, and its dark modules side by side: the first from the left, its row, how many."""
    import segno

    rows = segno.make_qr(code, error="m").matrix
    runs = ((run.start(), down, len(run[0])) for down, row in enumerate(rows) for run in re.finditer(b"\x01+", row))
    return len(rows), tuple(runs)
