"""Bar codes, DataMatrix and QR codes read out of a picture, with where they lie."""

from __future__ import annotations

from typing import Any

from PIL import Image

from claimpack.core.reading.read_text import Spot, TextRead
from claimpack.core.steps.photo_sorting import claim_in
from claimpack.errors import NotInstalled
from claimpack.installed import install_command


def codes_in(grey: Image.Image) -> list[TextRead]:
    """The codes of a picture held upright, but those of our own tags; GS1 codes with their identifiers in brackets.

    Raises:
        NotInstalled: this machine cannot read bar codes.
    """
    reader = _reader()
    found = reader.read_barcodes(grey, text_mode=reader.TextMode.HRI)
    # a plate may bear the same number as two codes
    texts = {code.text: _spot(code.position, grey.size) for code in found if code.valid and code.text.strip()}
    # our own tag in the picture says what the shop wrote, and not what the plate says
    return [TextRead(text, "code", spot) for text, spot in texts.items() if not claim_in(text)]


def _spot(position: Any, size: tuple[int, int]) -> Spot:
    corners = (position.top_left, position.top_right, position.bottom_left, position.bottom_right)
    return spot_around([(corner.x, corner.y) for corner in corners], size)


def spot_around(points: list[tuple[float, float]], size: tuple[int, int]) -> Spot:
    """The upright box around points in pixels, as fractions of the picture."""
    across = [min(max(x / size[0], 0.0), 1.0) for x, _ in points]
    down = [min(max(y / size[1], 0.0), 1.0) for _, y in points]
    return Spot(min(across), min(down), max(across) - min(across), max(down) - min(down))


def _reader() -> Any:
    try:
        import zxingcpp
    except ModuleNotFoundError:
        raise NotInstalled(
            "the codes on plates cannot be read: this machine lacks the reader for them",
            "Without it nothing is compared with the plate.",
            f"Install it: {install_command('zxing-cpp')}",
        ) from None
    return zxingcpp
