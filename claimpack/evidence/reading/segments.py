"""The number on a display of seven-segment digits, dark on light, as hour meters have; nothing where one is unsure."""

from __future__ import annotations

from typing import Any, NamedTuple

from PIL import Image

from claimpack.core.reading.read_text import TextRead
from claimpack.evidence.reading.codes import spot_around

# From the top, clockwise, and the middle last: which segments are dark.
_DIGITS = {
    "1111110": "0",
    "0110000": "1",
    "1101101": "2",
    "1111001": "3",
    "0110011": "4",
    "1011011": "5",
    "1011111": "6",
    # makers draw 6, 7 and 9 in two ways each
    "0011111": "6",
    "1110000": "7",
    "1110010": "7",
    "1111111": "8",
    "1111011": "9",
    "1110011": "9",
}
# Where each segment lies in the box of a digit: left, right, top and bottom, in fractions of it.
_SEGMENTS = (
    (0.35, 0.65, 0.00, 0.14),
    (0.80, 1.00, 0.17, 0.40),
    (0.80, 1.00, 0.60, 0.83),
    (0.35, 0.65, 0.86, 1.00),
    (0.00, 0.20, 0.60, 0.83),
    (0.00, 0.20, 0.17, 0.40),
    (0.35, 0.65, 0.43, 0.57),
)
_HOLES = ((0.38, 0.62, 0.22, 0.36), (0.38, 0.62, 0.64, 0.78))
_LEAST_CONTRAST, _FAINT = 50, 0.2
# what lies between is a segment that is half seen, and then no digit is told
_LIT, _UNLIT = 0.55, 0.15
_HEIGHT = 200
_LEAST_AREA, _MOST_AREA = 0.005, 0.7
_NARROWEST, _WIDEST = 1.6, 7.0
_SLANTS = 17
_ONE = 0.4
"""A 1 is narrower than this share of the other digits."""


class _Box(NamedTuple):
    """Pixels: left and right, top and bottom, the second of each not inside."""

    left: int
    right: int
    top: int
    bottom: int

    @property
    def width(self) -> int:
        return self.right - self.left

    @property
    def height(self) -> int:
        return self.bottom - self.top


def display_in(picture: Image.Image) -> list[TextRead]:
    """The one number on a display in a picture held upright; none where no display, or several, can be read.

    A number without a decimal point is left alone: only the point says that the display is not upside down.
    """
    import cv2
    import numpy as np

    grey = np.asarray(picture.convert("L"))
    found = {}
    for corners in _light_areas(cv2, np, grey):
        text = _number(cv2, np, _straight(cv2, np, grey, corners))
        if text:
            found[text] = TextRead(
                text, "letters", spot_around([(float(x), float(y)) for x, y in corners], picture.size)
            )
    return list(found.values()) if len(found) == 1 else []


def _light_areas(cv2: Any, np: Any, grey: Any) -> list[Any]:
    """The corners of light areas with four sides, each from its upper left, clockwise."""
    soft = cv2.GaussianBlur(grey, (5, 5), 0)
    usual = float(cv2.threshold(soft, 0, 255, cv2.THRESH_OTSU)[0])
    areas = []
    # a display in the shade, and one that shines brighter than all around it
    for level in (usual, (usual + 255) / 2):
        outlines, _ = cv2.findContours((soft > level).astype("uint8"), cv2.RETR_EXTERNAL, cv2.CHAIN_APPROX_SIMPLE)
        for outline in outlines:
            if not _LEAST_AREA < cv2.contourArea(outline) / grey.size < _MOST_AREA:
                continue
            hull = cv2.convexHull(outline)
            sides = cv2.approxPolyDP(hull, 0.04 * cv2.arcLength(hull, True), True).reshape(-1, 2).astype("float32")
            # four sides, and not eaten into by a hand or a cable
            if len(sides) == 4 and cv2.contourArea(outline) > 0.8 * cv2.contourArea(hull):
                areas.append(_in_order(np, sides))
    return areas


def _in_order(np: Any, corners: Any) -> Any:
    across, along = corners.sum(axis=1), corners[:, 0] - corners[:, 1]
    return np.array(
        [corners[across.argmin()], corners[along.argmax()], corners[across.argmax()], corners[along.argmin()]]
    )


def _straight(cv2: Any, np: Any, grey: Any, corners: Any) -> Any:
    """The area between four corners, seen from the front."""
    above, right, below, left = (np.linalg.norm(corners[place] - corners[(place + 1) % 4]) for place in range(4))
    width = round(_HEIGHT * (above + below) / max(right + left, 1))
    if not _NARROWEST <= width / _HEIGHT <= _WIDEST:
        return None
    frame = np.array([(0, 0), (width, 0), (width, _HEIGHT), (0, _HEIGHT)], dtype="float32")
    return cv2.warpPerspective(grey, cv2.getPerspectiveTransform(corners, frame), (width, _HEIGHT))


def _number(cv2: Any, np: Any, area: Any) -> str:
    """The number in an area seen from the front; empty for none."""
    if area is None:
        return ""
    dark = _dark(cv2, np, area)
    if dark is None:
        return ""
    dark, points = _without_points(cv2, dark)
    # without one the display may be upside down; with two it is no number of hours
    if len(points) != 1:
        return ""
    dark, slant = _upright(cv2, np, dark)
    boxes = _digit_boxes(np, dark)
    if not 2 <= len(boxes) <= 7 or not _are_alike(boxes):
        return ""
    digits = [_digit(dark, box) for box in _whole(boxes)]
    place = _behind_point(boxes, points[0], slant, dark.shape[0])
    # a point stands before the last digit, at the foot of the others
    if place != len(boxes) - 1 or not all(digits):
        return ""
    return f"{''.join(digits[:place])}.{digits[place]}"


def _dark(cv2: Any, np: Any, area: Any) -> Any:
    """The marks in an area; None where some are neither dark nor light, as under a glare."""
    edge = _HEIGHT // 20
    inner = area[edge:-edge, edge:-edge]
    # what is broader than any segment is ground, whatever light lies on it
    ground = cv2.morphologyEx(inner, cv2.MORPH_CLOSE, np.ones((_HEIGHT // 4, _HEIGHT // 4), "uint8"))
    contrast = cv2.subtract(ground, inner)
    full = float(np.percentile(contrast, 98))
    if full < _LEAST_CONTRAST:
        return None
    dark = (contrast > full / 2).astype("uint8")
    between = ((contrast > full * _FAINT) & (dark == 0)).astype("uint8")
    # the soft edges of marks are thin; a mark that is half gone, or a segment that shines through strongly, is not
    if cv2.morphologyEx(between, cv2.MORPH_OPEN, np.ones((_HEIGHT // 28, _HEIGHT // 28), "uint8")).any():
        return None
    return dark


def _without_points(cv2: Any, dark: Any) -> tuple[Any, list[tuple[float, float]]]:
    """The marks without specks and points, and the middle of each point at the foot of the others."""
    count, labels, told, middles = cv2.connectedComponentsWithStats(dark, connectivity=4)
    kept, points = dark.copy(), []
    sizes = [int(told[place][cv2.CC_STAT_HEIGHT]) for place in range(1, count)]
    tall = max(sizes, default=0)
    marks = [place for place in range(1, count) if told[place][cv2.CC_STAT_HEIGHT] > tall / 2]
    foot = max((int(told[place][1] + told[place][3]) for place in marks), default=0)
    for place in range(1, count):
        _, top, width, height, size = (int(each) for each in told[place])
        is_small = max(width, height) < 0.16 * _HEIGHT
        is_round = 0.6 < width / height < 1.6 and size > 0.6 * width * height
        if is_small and (is_round or size < 0.002 * _HEIGHT * _HEIGHT):
            kept[labels == place] = 0
            if is_round and size > 0.0018 * _HEIGHT * _HEIGHT:
                low = top + height > foot - 0.1 * _HEIGHT
                points.append(tuple(middles[place]) if low else (-1.0, -1.0))
    return kept, points


def _upright(cv2: Any, np: Any, dark: Any) -> tuple[Any, float]:
    """The marks with their slant taken out, and the slant: the one that leaves most columns empty."""
    height, width = dark.shape
    best = (-1.0, 0.0, dark)
    for slant in np.linspace(-0.1, 0.3, _SLANTS):
        turned = cv2.warpAffine(
            dark,
            np.array([[1, slant, -slant * height / 2], [0, 1, 0]], dtype="float32"),
            (width, height),
            flags=cv2.INTER_NEAREST,
        )
        columns = turned.sum(axis=0).astype("float64")
        best = max(best, (float((columns**2).sum()), float(slant), turned), key=lambda each: each[0])
    return best[2], best[1]


def _digit_boxes(np: Any, dark: Any) -> list[_Box]:
    """Where the digits stand: runs of columns with marks, from the left."""
    filled = np.concatenate(([0], (dark.sum(axis=0) > 1).astype("int8"), [0]))
    steps = np.flatnonzero(np.diff(filled))
    runs: list[list[int]] = []
    for start, end in zip(steps[::2], steps[1::2], strict=True):
        # between the segments of one digit there is a crack
        if runs and start - runs[-1][1] < 0.05 * _HEIGHT:
            runs[-1][1] = int(end)
        else:
            runs.append([int(start), int(end)])
    boxes = []
    for start, end in runs:
        rows = np.flatnonzero(dark[:, start:end].sum(axis=1))
        boxes.append(_Box(start, end, int(rows[0]), int(rows[-1]) + 1))
    return boxes


def _are_alike(boxes: list[_Box]) -> bool:
    """Whether all are as tall as one another, on one line, and as wide as digits are; a 1 is narrow and less tall."""
    tall, wide = max(each.height for each in boxes), max(each.width for each in boxes)
    middles = [(each.top + each.bottom) / 2 for each in boxes]
    is_level = max(middles) - min(middles) < 0.12 * tall
    is_digit = all(
        (each.width > 0.7 * wide and each.height > 0.9 * tall)
        or (each.width < _ONE * wide and each.height > 0.65 * tall)
        for each in boxes
    )
    return is_level and is_digit and 0.35 < wide / tall < 0.85 and tall > 0.4 * _HEIGHT


def _whole(boxes: list[_Box]) -> list[_Box]:
    """The boxes with the room that segments take which are off: a 1, a 3 and a 7 have no left side."""
    tall, wide = max(each.height for each in boxes), max(each.width for each in boxes)
    whole = []
    for box in boxes:
        more = (tall - box.height) // 2 if box.width < _ONE * wide else 0
        whole.append(_Box(max(box.right - wide, 0), box.right, max(box.top - more, 0), box.bottom + more))
    return whole


def _digit(dark: Any, box: _Box) -> str:
    """The digit in a box; empty where a segment is neither on nor off."""
    lit = ""
    for segment in _SEGMENTS:
        share = _share(dark, box, segment)
        if _UNLIT < share < _LIT:
            return ""
        lit += "1" if share >= _LIT else "0"
    if any(_share(dark, box, hole) > _UNLIT for hole in _HOLES):
        return ""
    return _DIGITS.get(lit, "")


def _share(dark: Any, box: _Box, part: tuple[float, float, float, float]) -> float:
    """How much of a part of a box is dark, where it is darkest across its shorter side."""
    left, right, top, bottom = part
    piece = dark[
        round(box.top + top * box.height) : round(box.top + bottom * box.height),
        round(box.left + left * box.width) : round(box.left + right * box.width),
    ]
    # a segment is thinner than where it may lie
    return float(piece.any(axis=0 if right - left > bottom - top else 1).mean()) if piece.size else 0.5


def _behind_point(boxes: list[_Box], point: tuple[float, float], slant: float, height: int) -> int:
    """How many digits stand before the point; -1 where it is not at their foot."""
    if point[0] < 0:
        return -1
    across = point[0] + slant * (point[1] - height / 2)
    return sum((box.left + box.right) / 2 < across for box in boxes)
