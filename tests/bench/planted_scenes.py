"""Drawn pictures: plates of one design, whole units of one model, failed parts; and what people do to pictures.

A picture is told by what it shows and by what was done to it, so that the same words give the same picture.
"""

from __future__ import annotations

import io
import random
from collections.abc import Callable
from functools import lru_cache
from pathlib import Path
from typing import Any

from PIL import Image, ImageDraw, ImageEnhance, ImageFilter, ImageFont

import claimpack

SIZE = (480, 360)
FONT = str(next(iter(sorted(Path(claimpack.__file__).parent.joinpath("fonts").rglob("*.ttf")))))


@lru_cache(maxsize=40)
def _font(size: int) -> ImageFont.FreeTypeFont:
    return ImageFont.truetype(FONT, size)


def _ground(chance: random.Random, rough: int) -> Image.Image:
    """A bench top, a floor, grass: soft patches of light."""
    small = Image.new("L", (rough, rough * 3 // 4))
    small.putdata([chance.randrange(60, 200) for _ in range(small.width * small.height)])
    return small.resize(SIZE, Image.Resampling.BICUBIC)


def _clutter(chance: random.Random, draw: ImageDraw.ImageDraw, count: int) -> None:
    for _ in range(count):
        x, y = chance.randrange(SIZE[0]), chance.randrange(SIZE[1])
        box = (x, y, x + chance.randrange(20, 130), y + chance.randrange(15, 110))
        chance.choice((draw.ellipse, draw.rectangle))(box, fill=chance.randrange(20, 240))


def _thing(chance: random.Random, shape: random.Random, many: int) -> Image.Image:
    """A machine or part: the same shapes every time for the same seed, seen in its own pose."""
    layer = Image.new("LA", (300, 240))
    draw = ImageDraw.Draw(layer)
    for _ in range(many):
        x, y = shape.randrange(40, 220), shape.randrange(30, 160)
        box = (x, y, x + shape.randrange(20, 90), y + shape.randrange(20, 80))
        shape.choice((draw.ellipse, draw.rectangle))(box, fill=(shape.randrange(30, 230), 255))
    zoom = chance.uniform(0.8, 1.35)
    layer = layer.resize((int(300 * zoom), int(240 * zoom)))
    return layer.rotate(chance.uniform(-25, 25), expand=True)


def plate(model: str, serial: str, take: int = 0) -> Image.Image:
    """The plate of a unit filling the picture, as it is asked for: all plates of a model have one design."""
    chance, design = random.Random(f"plate {serial} {take}"), random.Random(f"design {model}")
    face = Image.new("L", (440, 300), design.randrange(150, 220))
    draw = ImageDraw.Draw(face)
    draw.rectangle((6, 6, 434, 294), outline=30, width=4)
    draw.rectangle((6, 6, 434, 60), fill=design.randrange(20, 120))
    draw.text((20, 14), f"MODEL {model}", 240, font=_font(34))
    draw.text((20, 90), "SERIAL No.", 30, font=_font(24))
    draw.text((20, 125), serial, 20, font=_font(40))
    draw.text((20, 200), "kW 2.8   rpm 9500   Made for Ashby", 40, font=_font(20))
    draw.ellipse((380, 220, 420, 260), fill=60)
    picture = _ground(chance, 4)
    turned = face.convert("LA").rotate(chance.uniform(-4, 4), expand=True, resample=Image.Resampling.BICUBIC)
    picture.paste(turned.convert("L"), (chance.randrange(5, 25), chance.randrange(5, 30)), turned.split()[1])
    return ImageEnhance.Brightness(picture).enhance(chance.uniform(0.8, 1.15))


def whole(model: str, nth: int) -> Image.Image:
    chance, shape = random.Random(f"whole {model} {nth}"), random.Random(f"model {model}")
    picture = _ground(chance, 9)
    _clutter(chance, ImageDraw.Draw(picture), 4)
    thing = _thing(chance, shape, 14)
    picture.paste(thing.convert("L"), (chance.randrange(0, 160), chance.randrange(0, 110)), thing.split()[1])
    return picture


def failed(component: str, nth: int) -> Image.Image:
    chance, shape = random.Random(f"failed {component} {nth}"), random.Random(f"part {component}")
    picture = _ground(chance, 6)
    _clutter(chance, ImageDraw.Draw(picture), 2)
    thing = _thing(chance, shape, 9)
    picture.paste(thing.convert("L"), (chance.randrange(0, 180), chance.randrange(0, 130)), thing.split()[1])
    return picture


SCENES: dict[str, Callable[..., Image.Image]] = {"plate": plate, "whole": whole, "failed": failed}


def cropped(picture: Image.Image, chance: random.Random, least: float = 0.75, most: float = 0.9) -> Image.Image:
    share = chance.uniform(least, most)
    wide, high = int(picture.width * share), int(picture.height * share)
    left, top = chance.randrange(picture.width - wide + 1), chance.randrange(picture.height - high + 1)
    return picture.crop((left, top, left + wide, top + high))


def photographed(picture: Image.Image, chance: random.Random, lean: float = 0.04) -> Image.Image:
    """Taken off a screen or a print: a little askew, another light, soft, grainy."""
    w, h = picture.size

    def off() -> float:
        return chance.uniform(0.0, lean)

    quad = (w * off(), h * off(), w * off(), h - h * off(), w - w * off(), h - h * off(), w - w * off(), h * off())
    seen = picture.transform(picture.size, Image.Transform.QUAD, quad, Image.Resampling.BICUBIC)
    seen = ImageEnhance.Contrast(seen).enhance(chance.uniform(0.75, 1.1))
    seen = ImageEnhance.Brightness(seen).enhance(chance.uniform(0.8, 1.2)).filter(ImageFilter.GaussianBlur(1.2))
    return Image.blend(seen, Image.effect_noise(seen.size, 40), 0.08)


def saved(picture: Image.Image, quality: int) -> Image.Image:
    buffer = io.BytesIO()
    picture.save(buffer, "JPEG", quality=quality)
    return Image.open(buffer).convert("L")


DONE: dict[str, Callable[[Image.Image, random.Random], Image.Image]] = {
    "cropped": cropped,
    "turned": lambda picture, chance: picture.rotate(chance.choice((90, 270)), expand=True),
    "upside down": lambda picture, chance: picture.rotate(180),
    "mirrored": lambda picture, chance: picture.transpose(Image.Transpose.FLIP_LEFT_RIGHT),
    "photographed": photographed,
    "brighter": lambda picture, chance: ImageEnhance.Brightness(picture).enhance(chance.uniform(1.1, 1.3)),
    "saved": lambda picture, chance: saved(picture, chance.randrange(30, 70)),
    "smaller": lambda picture, chance: picture.resize((picture.width // 2, picture.height // 2)),
    "tilted": lambda picture, chance: picture.rotate(chance.uniform(2, 5), expand=False),
}


def drawn(shows: tuple[Any, ...]) -> Image.Image:
    """The picture of (scene, what, done, done, …)."""
    scene, what, *done = shows
    picture = SCENES[scene](*what)
    for nth, name in enumerate(done):
        picture = DONE[name](picture, random.Random(f"{shows} {nth}"))
    return picture
