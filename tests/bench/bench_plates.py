"""Serial numbers read off drawn plates: how many are read, how many of those are right, what a typing error meets.

Usage: python tests/bench/bench_plates.py [COUNT] [SEED]
Plates are stamped, engraved or printed, seen at an angle, blurred, dark, in glare, dirty; each in a photo as a phone
stores it. Half of the numbers have marks that look alike. Reading is the program's own, in its process with limits.
"""

from __future__ import annotations

import random
import sys
import tempfile
import time
from collections import Counter
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1]))

from by_hand import Given, arguments
from PIL import Image, ImageChops, ImageDraw, ImageEnhance, ImageFilter, ImageFont

import claimpack
from claimpack.core.reading.look_alikes import same_number
from claimpack.core.reading.serials import proposed_serials
from claimpack.evidence.reading.reading import read_picture

COUNT, SEED = 300, 7
SIZE = (2016, 1512)
FONTS = sorted(Path(claimpack.__file__).parent.joinpath("fonts").rglob("*.ttf"))
FONTS += sorted(Path("/usr/share/fonts").rglob("DejaVuSans*.ttf"))
FORMS = {
    "H[CT][0-9]{2}-[0-9]{3}-[0-9]{5}": lambda r: f"H{r.choice('CT')}{r.randrange(100):02}-{_d(r, 3)}-{_d(r, 5)}",
    "(TP|PW)[0-9]{2,3}-[0-9]-[0-9]{5}": lambda r: f"{r.choice(('TP', 'PW'))}{_d(r, 2)}-{_d(r, 1)}-{_d(r, 5)}",
    "OV-(RM|G)[0-9]{2}-[0-9]{7}": lambda r: f"OV-{r.choice(('RM', 'G'))}{_d(r, 2)}-{_d(r, 7)}",
    "[A-Z]{2}[0-9]{6}[A-Z]": lambda r: f"{_l(r, 2)}{_d(r, 6)}{_l(r, 1)}",
    "[0-9]{10}": lambda r: _d(r, 10),
}
HARM = ("none", "angle", "blur", "dark", "glare", "dirt", "far")


def _d(chance: random.Random, count: int) -> str:
    return "".join(chance.choice("0123456789018856") for _ in range(count))


def _l(chance: random.Random, count: int) -> str:
    return "".join(chance.choice("ABCDEFGHIJKLMNOPQRSTUVWXYZOIBS") for _ in range(count))


def font(chance: random.Random, size: int) -> ImageFont.FreeTypeFont:
    return ImageFont.truetype(str(chance.choice(FONTS)), size)


def plate(chance: random.Random, serial: str) -> Image.Image:
    """A plate lying flat, 900 by 540: stamped or engraved metal, or a printed label."""
    kind = chance.choice(("stamped", "engraved", "label", "dark label"))
    shade = {"label": 235, "dark label": 40}.get(kind, chance.randrange(150, 200))
    face = Image.new("L", (900, 540), shade)
    if kind in ("stamped", "engraved"):
        grain = Image.effect_noise((900, 540), 30).filter(ImageFilter.BoxBlur(2)).resize((900, 540))
        face = Image.blend(face, grain, 0.25)
    ink = 230 if kind == "dark label" else chance.randrange(10, 60)
    draw = ImageDraw.Draw(face)
    draw.rectangle((10, 10, 890, 530), outline=ink, width=4)
    small, large = font(chance, 34), font(chance, 62)
    rows = [
        ("MODEL", f"XQ-{chance.randrange(20, 90)}"),
        ("SERIAL No.", serial),
        ("MADE", str(chance.randrange(2019, 2026))),
    ]
    for row, (label, value) in enumerate(rows):
        at = (260, 90 + 140 * row)
        draw.text((40, at[1] + 18), label, ink, font=small)
        if kind == "stamped":
            draw.text((at[0] + 3, at[1] + 3), value, 240, font=large)
        draw.text(at, value, (ink + shade) // 2 if kind == "engraved" else ink, font=large)
    tint = tuple(chance.randrange(200, 256) for _ in range(3))
    return Image.merge("RGB", [face.point(lambda grey, part=part: grey * part // 255) for part in tint])


def photo(chance: random.Random, face: Image.Image, harm: str) -> Image.Image:
    """The plate in a picture as a phone takes it, with one thing that makes it hard to read."""
    ground = Image.merge("RGB", [Image.effect_noise(SIZE, 40).filter(ImageFilter.GaussianBlur(4))] * 3)
    wide = int(SIZE[0] * (0.22 if harm == "far" else chance.uniform(0.4, 0.8)))
    size = (wide, wide * 540 // 900)
    layer = face.resize(size, Image.Resampling.LANCZOS).convert("RGBA")
    turn = chance.uniform(15, 35) * chance.choice((-1, 1)) if harm == "angle" else chance.uniform(-6, 6)
    if harm == "angle":
        lean = chance.uniform(0.05, 0.18)
        corners = (0, 0, 0, size[1], size[0], size[1] * (1 + lean), size[0], -size[1] * lean)
        layer = layer.transform(size, Image.Transform.QUAD, corners, Image.Resampling.BICUBIC)
    layer = layer.rotate(turn, expand=True, resample=Image.Resampling.BICUBIC)
    at = (SIZE[0] - layer.width) // 2, (SIZE[1] - layer.height) // 2
    ground.paste(layer, at, layer)
    return _harmed(chance, ground, harm)


def _harmed(chance: random.Random, picture: Image.Image, harm: str) -> Image.Image:
    if harm == "blur":
        picture = picture.filter(ImageFilter.GaussianBlur(chance.uniform(2, 4.5)))
    if harm == "dark":
        picture = ImageEnhance.Brightness(picture).enhance(chance.uniform(0.1, 0.3))
        noise = Image.effect_noise(SIZE, 24).convert("RGB")
        picture = ImageChops.add(picture, noise, scale=1, offset=-120)
    if harm == "glare":
        spot = Image.new("L", SIZE, 0)
        x, y = (chance.uniform(0.3, 0.7) * edge for edge in SIZE)
        reach = chance.uniform(120, 260)
        ImageDraw.Draw(spot).ellipse(
            (x - reach * 2, y - reach, x + reach * 2, y + reach), fill=chance.randrange(170, 235)
        )
        picture = Image.composite(Image.new("RGB", SIZE, "white"), picture, spot.filter(ImageFilter.GaussianBlur(70)))
    if harm == "dirt":
        draw = ImageDraw.Draw(picture)
        for _ in range(60):
            x, y, reach = chance.randrange(SIZE[0]), chance.randrange(SIZE[1]), chance.randrange(4, 16)
            draw.ellipse((x - reach, y - reach, x + reach, y + reach), fill=(70, 55, 35))
        for _ in range(40):
            x, y = chance.randrange(SIZE[0]), chance.randrange(SIZE[1])
            draw.line(
                (x, y, x + chance.randrange(-200, 200), y + chance.randrange(-60, 60)), fill=(200, 200, 195), width=2
            )
    return picture


def mistyped(chance: random.Random, serial: str) -> str:
    """The number with one of its letters or digits typed as another."""
    place = chance.choice([place for place, mark in enumerate(serial) if mark.isalnum()])
    other = chance.choice([mark for mark in "0123456789" + "ABCDEFGHOILSZ" if mark != serial[place]])
    return serial[:place] + other + serial[place + 1 :]


def main() -> None:
    said = arguments(
        __doc__, Given("count", COUNT, "how many plates"), Given("seed", SEED, "of the chance they are drawn by")
    )
    count, seed = said.count, said.seed
    chance, told, seconds = random.Random(seed), Counter[str](), 0.0
    with tempfile.TemporaryDirectory() as folder:
        for nth in range(count):
            form, make = chance.choice(list(FORMS.items()))
            serial, harm = make(chance), HARM[nth % len(HARM)]
            path = Path(folder) / "plate.jpg"
            photo(chance, plate(chance, serial), harm).save(path, quality=85)
            began = time.perf_counter()
            lines = read_picture(path, path.name, letters=True)
            seconds += time.perf_counter() - began
            wrong = mistyped(chance, serial)
            for how, forms, typed in (
                ("by the plan's form", {"unit": form}, ""),
                ("by its label alone", {}, ""),
                ("form, typed wrongly", {"unit": form}, wrong),
                ("no form, typed wrongly", {}, wrong),
            ):
                found = proposed_serials(lines, forms, {"unit": typed})
                right = bool(found) and same_number(found[0].text, serial)
                outcome = "right" if right else "wrong" if found else "none"
                told[f"{how}: {outcome}"] += 1
                if not typed:
                    told[f"{how}, {harm}: {outcome}"] += 1
                if typed and found and same_number(found[0].text, typed):
                    told[f"{how}: error missed"] += 1
                if how == "by the plan's form" and outcome == "wrong":
                    print(f"  {harm}: {serial} read as {found[0].text} (raw {found[0].raw or found[0].text})")
    report(told, count, seconds)


def report(told: Counter[str], count: int, seconds: float) -> None:
    print(f"{count} plates, {seconds / count:.2f} s each")
    for how in sorted({name.rpartition(": ")[0] for name in told}):
        right, wrong, none, missed = (told[f"{how}: {word}"] for word in ("right", "wrong", "none", "error missed"))
        all_of = right + wrong + none
        precision = right / (right + wrong) if right + wrong else 1
        print(f"{how:<36} precision {precision:6.1%}  recall {right / all_of:6.1%}  wrong {wrong:3}  missed {missed}")


if __name__ == "__main__":
    main()
