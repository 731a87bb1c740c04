"""Draw the flat things that carry words or numbers: serial plates, gauge dials, displays, labels."""

from __future__ import annotations

import argparse
import math
import random
from pathlib import Path

from PIL import Image, ImageDraw, ImageFilter, ImageFont
from shots import HALDEN, ORRIN, PLATES, Plate

FONTS = Path("/usr/share/fonts/truetype/dejavu")
Colour = tuple[int, int, int]
STYLE: dict[str, tuple[Colour, Colour, Colour]] = {
    HALDEN: ((196, 199, 200), (12, 84, 86), (24, 26, 28)),
    ORRIN: ((30, 27, 30), (96, 34, 62), (214, 212, 206)),
    "TESSALY PUMPS": ((214, 217, 216), (38, 82, 140), (28, 32, 38)),
}
SEGMENTS = {
    "0": "abcdef",
    "1": "bc",
    "2": "abged",
    "3": "abgcd",
    "4": "fgbc",
    "5": "afgcd",
    "6": "afgedc",
    "7": "abc",
    "8": "abcdefg",
    "9": "abcdfg",
    "O": "abcdef",
    "L": "fed",
}


def font(size: int, name: str = "DejaVuSans-Bold") -> ImageFont.FreeTypeFont:
    """A plain sans face."""
    return ImageFont.truetype(str(FONTS / f"{name}.ttf"), size)


def stamp(colour: Image.Image, height: Image.Image, at: tuple[int, int], text: str, size: int, ink: Colour) -> None:
    """Punch a line of characters one by one: a little uneven, sunk into the height map."""
    rng, face, x = random.Random(text), font(size, "DejaVuSansMono-Bold"), at[0]
    for char in text:
        place = (x + rng.uniform(-1.5, 1.5), at[1] + rng.uniform(-3, 3))
        ImageDraw.Draw(height).text(place, char, font=face, fill=40)
        ImageDraw.Draw(colour).text(place, char, font=face, fill=ink)
        x += face.getlength(char) * 1.04


def plate(info: Plate, out: Path, name: str) -> None:
    """A serial plate: band with the maker's name, printed labels, stamped values."""
    ground, band, ink = STYLE[info.maker]
    colour, height = Image.new("RGB", (1600, 1000), ground), Image.new("L", (1600, 1000), 200)
    draw = ImageDraw.Draw(colour)
    draw.rounded_rectangle((14, 14, 1585, 985), 60, outline=ink, width=6)
    draw.rectangle((20, 90, 1580, 270), fill=band)
    draw.text((130, 124), info.maker, font=font(96), fill=(232, 232, 226))
    draw.text((1470, 150), info.kind, font=font(52, "DejaVuSans"), fill=(232, 232, 226), anchor="ra")
    rows = [("MODEL", info.model), ("SERIAL No.", info.serial), *info.rows, ("MADE", info.made)]
    for index, (label, value) in enumerate(rows):
        top, big = 300 + index * 124, index < 2
        draw.text((130, top + 34), label, font=font(46, "DejaVuSans"), fill=ink)
        draw.line((120, top + 118, 1480, top + 118), fill=ink, width=3)
        if big or label in ("MADE", "ENGINE"):
            stamp(colour, height, (560, top + 8), value, 88, ink)
        else:
            draw.text((566, top + 28), value, font=font(60, "DejaVuSans"), fill=ink)
    draw.text((1470, 842), "Quote the serial No. in all claims", font=font(26, "DejaVuSans"), fill=ink, anchor="ra")
    colour.filter(ImageFilter.GaussianBlur(0.8)).save(out / f"{name}.png")
    height.filter(ImageFilter.GaussianBlur(3)).save(out / f"{name}-h.png")


def stamped(lines: list[str], out: Path, name: str, size: int = 190) -> None:
    """Only a height map and a faint tint, for characters punched straight into a casting."""
    colour, height = Image.new("RGB", (1600, 700), (168, 168, 166)), Image.new("L", (1600, 700), 200)
    for index, line in enumerate(lines):
        width = font(size, "DejaVuSansMono-Bold").getlength(line) * 1.04
        stamp(colour, height, (int(800 - width / 2), 110 + index * 260), line, size, (44, 42, 40))
    colour.filter(ImageFilter.GaussianBlur(3)).save(out / f"{name}.png")
    height.filter(ImageFilter.GaussianBlur(5)).save(out / f"{name}-h.png")


def dial(out: Path, name: str, top: int, step: int, unit: str, note: str, red: tuple[int, int] | None = None) -> None:
    """A round gauge face: 270 degrees of scale, from 7:30 to 4:30 on the clock."""
    image = Image.new("RGB", (1200, 1200), (238, 236, 226))
    draw = ImageDraw.Draw(image)

    def spot(value: float, radius: float) -> tuple[float, float]:
        angle = math.radians(225 - 270 * value / top)
        return 600 + radius * math.cos(angle), 600 - radius * math.sin(angle)

    if red:
        angles = [-225 + 270 * v / top for v in red]
        draw.arc((88, 88, 1112, 1112), *angles, fill=(188, 40, 34), width=26)
    draw.arc((60, 60, 1140, 1140), -225, 45, fill=(20, 20, 22), width=6)
    for tick in range(0, top + 1, step // 10):
        long = tick % step == 0
        inner = 450 if long else 490 if tick % (step // 2) == 0 else 508
        draw.line((*spot(tick, inner), *spot(tick, 540)), fill=(20, 20, 22), width=11 if long else 5)
        if long:
            draw.text(spot(tick, 378), str(tick), font=font(72), fill=(20, 20, 22), anchor="mm")
    draw.text((600, 800), unit, font=font(92), fill=(20, 20, 22), anchor="mm")
    draw.text((600, 905), note, font=font(44, "DejaVuSans"), fill=(20, 20, 22), anchor="mm")
    image.save(out / f"{name}.png")


def digits(
    draw: ImageDraw.ImageDraw, text: str, at: tuple[float, float], size: float, ink: Colour, off: Colour
) -> None:
    """Seven-segment characters, leaning a little; a point takes no width."""
    x, thick = at[0], size * 0.13
    for char in text:
        if char == ".":
            draw.ellipse((x - size * 0.2, at[1] + size * 0.9, x - size * 0.07, at[1] + size * 1.03), fill=ink)
            continue
        bars = {
            "a": (0, 0, 1, 0),
            "b": (1, 0, 1, 1),
            "c": (1, 1, 1, 2),
            "d": (0, 2, 1, 2),
            "e": (0, 1, 0, 2),
            "f": (0, 0, 0, 1),
            "g": (0, 1, 1, 1),
        }
        for key, (x0, y0, x1, y1) in bars.items():
            gap = thick * 0.62
            ends = []
            for px, py, sign in ((x0, y0, 1), (x1, y1, -1)):
                lean = (2 - py) * size * 0.04
                ends.append(
                    (
                        x + px * size * 0.5 + lean + (sign * gap if y0 == y1 else 0),
                        at[1] + py * size * 0.5 + (sign * gap if x0 == x1 else 0),
                    )
                )
            draw.line(ends, fill=ink if key in SEGMENTS.get(char, "") else off, width=int(thick))
        x += size * 0.78


def display(out: Path, name: str, text: str, left: str, right: str) -> None:
    """A grey-green liquid-crystal display."""
    image = Image.new("RGB", (1200, 520), (150, 162, 142))
    draw, ink, off = ImageDraw.Draw(image), (22, 28, 24), (141, 153, 134)
    width = sum(char != "." for char in text) * 0.78 * 300
    digits(draw, text, (1040 - width, 120), 300, ink, off)
    draw.text((60, 60), left, font=font(54), fill=ink)
    draw.text((1150, 420), right, font=font(70), fill=ink, anchor="rm")
    image.filter(ImageFilter.GaussianBlur(1.2)).save(out / f"{name}.png")


def hour_meter(out: Path, name: str, text: str) -> None:
    """The face of a small hour meter: a window with figures between two printed words."""
    image = Image.new("RGB", (1400, 800), (22, 22, 24))
    draw = ImageDraw.Draw(image)
    draw.rounded_rectangle((40, 40, 1360, 760), 60, outline=(190, 190, 186), width=8)
    draw.text((700, 130), "HOURS", font=font(86), fill=(220, 220, 214), anchor="mm")
    draw.rounded_rectangle((130, 210, 1270, 600), 24, fill=(158, 168, 146))
    width = sum(char != "." for char in text) * 0.78 * 270
    digits(draw, text, (1170 - width, 265), 270, (20, 26, 22), (149, 159, 138))
    draw.text((700, 680), "ORRIN & VALE   12 V DC", font=font(48, "DejaVuSans"), fill=(200, 200, 194), anchor="mm")
    image.filter(ImageFilter.GaussianBlur(0.9)).save(out / f"{name}.png")


def badge(out: Path, name: str, lines: list[str], ground: Colour, ink: Colour) -> None:
    """A printed sticker: a big line and smaller ones below."""
    image = Image.new("RGB", (1200, 400), ground)
    draw = ImageDraw.Draw(image)
    draw.text(
        (600, 150 if len(lines) > 1 else 200),
        lines[0],
        font=font(190 if len(lines[0]) < 9 else 130),
        fill=ink,
        anchor="mm",
    )
    for index, line in enumerate(lines[1:]):
        draw.text((600, 300 + index * 60), line, font=font(64), fill=ink, anchor="mm")
    image.save(out / f"{name}.png")


def meter_face(out: Path) -> None:
    """The printed ring of functions round a multimeter's selector."""
    image = Image.new("RGB", (800, 800), (34, 35, 38))
    draw = ImageDraw.Draw(image)
    marks = ["OFF", "V~", "V=", "mV", "Ω", "))", "A~", "A="]
    for index, mark in enumerate(marks):
        angle = math.radians(90 - index * 45)
        spot = (400 + 310 * math.cos(angle), 400 - 310 * math.sin(angle))
        draw.text(spot, mark, font=font(66), fill=(228, 226, 214), anchor="mm")
    image.save(out / "selector.png")


def draw_all(out: Path) -> None:
    """Every face the pictures need."""
    out.mkdir(parents=True, exist_ok=True)
    for claim, info in PLATES.items():
        plate(info, out, f"plate-{claim[:7]}")
    stamped(["E70-55102", "CS-70"], out, "stamp-saw")
    plate(
        Plate(ORRIN, "Engine", "E-540V", "OVE-1204471", "2024", (("BORE", "90 mm"), ("OIL", "SAE 30   1.6 l"))),
        out,
        "plate-engine",
    )
    plate(
        Plate(HALDEN, "Li-ion battery", "BP-40", "BP40-88-10233", "2024", (("RATED", "36 V   4.0 Ah"),)),
        out,
        "plate-battery",
    )
    dial(out, "dial-psi", 200, 50, "psi", "COMPRESSION", None)
    dial(out, "dial-leak", 100, 10, "%", "LEAKAGE", (40, 100))
    display(out, "lcd-ol", "OL", "AUTO", "MΩ")
    display(out, "lcd-volt", "11.2", "DC", "V")
    hour_meter(out, "hours-512", "512.6")
    hour_meter(out, "hours-86", "86.3")
    meter_face(out)
    badge(out, "badge-halden", ["HALDEN"], (24, 27, 29), (226, 228, 224))
    badge(out, "badge-cs70", ["CS-70"], (12, 84, 86), (226, 228, 224))
    badge(out, "badge-ht26", ["HT-26"], (12, 84, 86), (226, 228, 224))
    badge(out, "badge-hb40", ["HB-40"], (12, 84, 86), (226, 228, 224))
    badge(out, "badge-bp40", ["BP-40", "36 V  4.0 Ah  Li-ion", "BP40-88-10233"], (24, 27, 29), (226, 228, 224))
    badge(out, "badge-orrin", ["ORRIN & VALE"], (70, 22, 44), (232, 226, 208))
    badge(out, "badge-g3200", ["G-3200"], (226, 220, 202), (70, 22, 44))
    badge(out, "badge-rm42", ["RM-42"], (226, 220, 202), (70, 22, 44))
    badge(out, "badge-tessaly", ["TESSALY", "PUMPS"], (228, 232, 234), (38, 82, 140))
    badge(out, "badge-tp80", ["TP-80"], (38, 82, 140), (232, 234, 234))
    badge(out, "badge-tp50", ["TP-50"], (38, 82, 140), (232, 234, 234))
    badge(out, "badge-pw240", ["PW-240"], (38, 82, 140), (232, 234, 234))
    badge(out, "tag-old", ["OLD"], (226, 206, 120), (30, 28, 24))
    badge(out, "tag-new", ["NEW"], (232, 232, 226), (30, 28, 24))


def main() -> None:
    """Draw into the folder named on the command line."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("out", type=Path)
    draw_all(parser.parse_args().out)


if __name__ == "__main__":
    main()
