"""Pictures of the invented shop, drawn: serial plates, whole units, failed parts; and the receipts."""

from __future__ import annotations

import io
from functools import cache
from random import Random
from typing import Any

from PIL import Image, ImageChops, ImageDraw, ImageFont

SIZE = (1024, 768)
_PLATE = (90, 170, 880, 560)
_INK, _STEEL = (24, 26, 30), (176, 180, 184)


@cache
def _bench(shade: int) -> Image.Image:
    """A bench top with its grain under a lamp, twice as large as a picture: each picture has another piece of it."""
    grain = Image.effect_noise((SIZE[0] * 2, SIZE[1] * 2), 46).convert("RGB")
    bench = Image.blend(Image.new("RGB", grain.size, (shade, shade - 8, shade - 20)), grain, 0.15)
    # darker with the distance from the lamp in the middle
    dark = Image.radial_gradient("L").resize(grain.size).point([value * 2 // 3 for value in range(256)])
    bench.paste((34, 34, 40), mask=dark)
    return bench


def _canvas(draw: Random) -> Image.Image:
    """A piece of the bench, lit from somewhere else each time."""
    left, top = draw.randint(0, SIZE[0]), draw.randint(0, SIZE[1])
    return _bench(draw.choice((120, 150))).crop((left, top, left + SIZE[0], top + SIZE[1]))


def _shaded(picture: Image.Image, draw: Random) -> Image.Image:
    """A picture under the shadows of its own day: two of one kind of part are not taken for one another."""
    shadows = Image.frombytes("L", (9, 7), bytes(draw.randint(70, 255) for _ in range(63)))
    return ImageChops.multiply(picture, shadows.resize(SIZE, Image.Resampling.BICUBIC).convert("RGB"))


def _jpeg(picture: Image.Image) -> bytes:
    kept = io.BytesIO()
    picture.save(kept, "JPEG", quality=60)
    return kept.getvalue()


@cache
def _font(size: int) -> ImageFont.FreeTypeFont | ImageFont.ImageFont:
    return ImageFont.load_default(size)


def picture_of(shot: str, keys: dict[str, Any], story: dict[str, Any], draw: Random) -> bytes:
    """A JPEG of one shot of a claim.

    Args:
        shot: which one.
        keys: the claim's keys.
        story: what broke, and what it looks like.
        draw: what chance is taken from.
    """
    canvas = _canvas(draw)
    drawn = {"serial plate": _plate, "whole unit": _whole}.get(shot, _part)
    drawn(canvas, keys, story, draw)
    return _jpeg(_shaded(canvas, draw))


def _plate(canvas: Image.Image, keys: dict[str, Any], _: dict[str, Any], draw: Random) -> None:
    # only where its ink is: turned in one colour, in a third of the time
    plate = Image.new("L", (_PLATE[2] - _PLATE[0], _PLATE[3] - _PLATE[1]))
    pen = ImageDraw.Draw(plate)
    pen.rectangle((8, 8, plate.width - 9, plate.height - 9), outline=255, width=4)
    unit = keys["unit"]
    lines = [f"MODEL  {unit['model']}", *(f"{each['role'].upper()}  {each['value']}" for each in unit["serials"])]
    for nth, line in enumerate(lines):
        pen.text((48, 48 + nth * 120), line, 255, font=_font(64))
    ink = plate.rotate(draw.uniform(-9, 9), expand=True, resample=Image.Resampling.BILINEAR)
    left, top = _PLATE[0] + draw.randint(-110, 40), _PLATE[1] + draw.randint(-190, 110)
    canvas.paste(_STEEL, (left, top, left + ink.width, top + ink.height))
    canvas.paste(_INK, (left, top), ink)


def _whole(canvas: Image.Image, _: dict[str, Any], story: dict[str, Any], draw: Random) -> None:
    pen, paint = ImageDraw.Draw(canvas), tuple(story["picture"]["colour"])
    left, top = draw.randint(50, 340), draw.randint(110, 280)
    wide, high = draw.randint(440, 600), draw.randint(220, 360)
    pen.rounded_rectangle((left, top, left + wide, top + high), 60, fill=paint, outline=_INK, width=6)
    pen.rounded_rectangle((left + 60, top - 90, left + wide // 2, top + 40), 40, fill=_INK)
    for side in (left + 70, left + wide - 210):
        pen.ellipse((side, top + high - 60, side + 150, top + high + 90), fill=(38, 38, 40), outline=_STEEL, width=12)
    pen.text((left + 90, top + high // 2), story["unit"]["model"], (245, 245, 240), font=_font(90))


def _part(canvas: Image.Image, _: dict[str, Any], story: dict[str, Any], draw: Random) -> None:
    pen = ImageDraw.Draw(canvas)
    middle, size = (draw.randint(320, 700), draw.randint(290, 470)), draw.randint(170, 280)
    box = (middle[0] - size, middle[1] - size, middle[0] + size, middle[1] + size)
    shape = pen.ellipse if story["picture"]["damage"] in ("scored", "cracked") else pen.rectangle
    shape(box, fill=(150, 154, 158), outline=_INK, width=8)
    shape(tuple(at + inset for at, inset in zip(box, (90, 90, -90, -90), strict=True)), fill=(196, 198, 200))
    crack = [(middle[0] - size // 2, middle[1] - draw.randint(60, 200))]
    for _nth in range(7):
        crack.append((crack[-1][0] + size // 7, crack[-1][1] + draw.randint(-30, 90)))
    pen.line(crack, fill=_INK, width=draw.randint(5, 11), joint="curve")


def receipt_of(keys: dict[str, Any]) -> bytes:
    """The receipt of a unit, a PDF of one page."""
    from reportlab.pdfgen.canvas import Canvas

    unit, kept = keys["unit"], io.BytesIO()
    page = Canvas(kept, pagesize=(298, 420), invariant=1)
    lines = ["Canal Side Tools, Ashby", "RECEIPT", "", f"Date  {keys['dates'].get('purchased', '(cut off)')}"]
    lines += [f"{unit['kind']} {unit['model']}", *(f"{each['role']} {each['value']}" for each in unit["serials"])]
    lines += ["", f"Sold to  {keys['owner']['name']}", "Paid in full"]
    for nth, line in enumerate(lines):
        page.drawString(36, 372 - nth * 20, line)
    page.save()
    return kept.getvalue()
