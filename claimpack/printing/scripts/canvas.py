"""A canvas that draws lines with letters of any script that a typeface was found for."""

from __future__ import annotations

from typing import Any

from reportlab.pdfgen.canvas import Canvas

from claimpack.printing.scripts.lines import in_faces, in_order


class LetteringCanvas(Canvas):  # type: ignore[misc]  # the PDF engine has no types
    """Draws the letters of other scripts in their order, each in a typeface that has it."""

    def drawString(self, x: float, y: float, text: str, *args: Any, **settings: Any) -> None:  # noqa: N802 - the engine's
        """Draw a line; letters of other scripts in their order, each in a typeface that has it."""
        face, size = self._fontname, self._fontsize
        for one, run in in_faces(in_order(text), face):
            if one != self._fontname:
                self.setFont(one, size)
            super().drawString(x, y, run, *args, **settings)
            x += self.stringWidth(run, one, size)
        if self._fontname != face:
            self.setFont(face, size)

    def drawRightString(self, x: float, y: float, text: str, *args: Any, **settings: Any) -> None:  # noqa: N802 - the engine's
        """Draw a line that ends there."""
        self.drawString(x - self._wide(text), y, text, *args, **settings)

    def drawCentredString(self, x: float, y: float, text: str, *args: Any, **settings: Any) -> None:  # noqa: N802 - the engine's
        """Draw a line with its middle there."""
        self.drawString(x - self._wide(text) / 2, y, text, *args, **settings)

    def _wide(self, text: str) -> float:
        runs = in_faces(in_order(text), self._fontname)
        return float(sum(self.stringWidth(run, face, self._fontsize) for face, run in runs))
