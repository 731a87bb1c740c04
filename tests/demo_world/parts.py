"""Failed parts and instruments, put together from the kit, three times life size so that small wear shows."""

from __future__ import annotations

import math
import random

import kit
import machines as m
from kit import GRAPHITE, PLUM, TEAL, ball, box, cyl, lathe, place, ring, slab, tube

FRONT, ALONG = (90, 0, 0), (0, 90, 0)
BLACK = (0.01, 0.01, 0.011)


def circle(radius: float, count: int = 64) -> list[tuple[float, float]]:
    """A round outline."""
    return [(radius * math.cos(math.tau * i / count), radius * math.sin(math.tau * i / count)) for i in range(count)]


def piston(scored: bool, at: kit.Vec, rot: kit.Vec = (0, 0, 0)) -> None:
    """A two-stroke piston, crown up; a scored one has seized on its exhaust side."""
    clean = kit.alloy(rough=0.4, grime=0.2, bump=0.1, scratch=0.2)
    skirt = kit.alloy(rough=0.42, grime=0.35, streak=1.0, scratch=0.4, seed=2.0, scale=1.4) if scored else clean
    with place(at, rot):
        body = lathe(
            [
                (0.9, 0.0),
                (1.17, 0.0),
                (1.2, 0.05),
                (1.2, 1.62),
                (1.1, 1.63),
                (1.1, 1.74),
                (1.19, 1.75),
                (1.19, 1.86),
                (1.1, 1.87),
                (1.1, 1.98),
                (1.18, 1.99),
                (1.17, 2.2),
                (1.12, 2.25),
                (0.6, 2.31),
                (0, 2.33),
                (0, 1.9),
                (0.9, 1.8),
                (0.9, 0.0),
            ],
            (0, 0, 0),
            skirt,
            sides=128,
        )
        bore = cyl(0.33, 4, (0, 0, 0.85), clean, ALONG)
        kit.cut(body, bore)
        for side in (-1, 1):
            ring(0.36, 0.29, 0.5, (side * 0.93, 0, 0.85), clean, ALONG)
        for z in (1.685, 1.925):
            ring(1.195, 1.05, 0.085, (0, 0, z), kit.steel(rough=0.25, streak=0.7 if scored else 0.0))
        crown = kit.surface((0.06, 0.05, 0.042), 0.3, 0.7, grime=0.8, bump=0.5, dust=0) if scored else clean
        lathe([(1.13, 2.252), (0.6, 2.317), (0, 2.337)], (0, 0, 0), crown)


def short_block(at: kit.Vec = (0, 0, 0), rot: kit.Vec = (0, 0, 0)) -> None:
    """Finned cylinder on a two-piece crankcase with the crank end to +x."""
    cast, bare = kit.alloy(grime=0.8, rough=0.5), kit.steel(grime=0.3)
    with place(at, rot):
        with place((0, 0, 1.25), ALONG):
            for side in (-1, 1):
                lathe(
                    [
                        (0, side * 0.06),
                        (1.25, side * 0.06),
                        (1.32, side * 0.12),
                        (1.3, side * 0.8),
                        (1.15, side * 1.0),
                        (0.7, side * 1.05),
                        (0.62, side * 1.3),
                        (0, side * 1.3),
                    ],
                    (0, 0, 0),
                    cast,
                )
            for k in range(7):
                t = math.radians(25 + 51.4 * k)
                cyl(0.2, 1.6, (1.25 * math.cos(t), 1.25 * math.sin(t), 0), cast)
                kit.socket_bolt((1.25 * math.cos(t), 1.25 * math.sin(t), 0.8), bare, 0.13)
            cyl(0.33, 1.2, (0, 0, 1.6), bare)
            lathe([(0.3, 2.1), (0.2, 2.9), (0.2, 3.5), (0.16, 3.55), (0, 3.55)], (0, 0, 0), bare)
            for k in range(8):
                ring(0.215, 0.18, 0.035, (0, 0, 3.0 + k * 0.065), bare, bevel=0.008)
            box((0.09, 0.5, 0.09), (0, 0.0, 0), bare)
        box((0.4, 0.07, 0.12), (2.45, 0, 1.53), bare, (0, 8, 0))
        box((2.5, 2.0, 0.5), (0, 0, 2.45), cast, bevel=0.1)
        m.fins((2.9, 2.6, 2.6), (0, 0, 4.0), 10, cast, 0.28)
        box((1.6, 1.4, 0.35), (0, 0, 5.35), cast, bevel=0.1)
        ring(0.34, 0.24, 0.3, (0, 0, 5.6), bare)
        cyl(0.23, 0.1, (0, 0, 5.6), kit.surface(BLACK))
        box((1.3, 0.5, 1.05), (0, -1.35, 3.35), cast, bevel=0.08)
        port = kit.surface((0.006, 0.005, 0.005), rough=0.9, dust=0)
        slab(kit.rounded(0.75, 0.55, 0.2), 0.06, (0, -1.6, 3.35), port, FRONT)
        for x in (-0.5, 0.5):
            cyl(0.09, 0.06, (x, -1.61, 3.35), port, FRONT)
        for x in (-1.0, 1.0):
            box((0.6, 1.6, 0.25), (x, 0, 0.13), cast, bevel=0.06)


def gauge(face: str, share: float, note: bool = True) -> None:
    """A dial gauge facing +z with its fitting towards -y; `share` of 270 degrees is where the needle stands."""
    with place():
        ring(2.15, 1.9, 0.75, (0, 0, 0), kit.steel(rough=0.2, grime=0.3), bevel=0.08)
        cyl(2.0, 0.5, (0, 0, -0.15), kit.paint((0.02, 0.02, 0.02)))
        slab(
            circle(1.92), 0.02, (0, 0, 0.14), kit.surface((1, 1, 1), face=face, scratch=0, dust=0, grime=0.2, rough=0.5)
        )
        angle = 225 - 270 * share
        with place((0, 0, 0.22), (0, 0, angle)):
            slab(
                [(-0.45, -0.09), (-0.45, 0.09), (0.3, 0.05), (1.58, 0.012), (1.58, -0.012), (0.3, -0.05)],
                0.02,
                (0, 0, 0),
                kit.surface((0.45, 0.012, 0.01), dust=0, grime=0, scratch=0),
                bevel=0,
            )
        cyl(0.17, 0.12, (0, 0, 0.24), kit.steel())
        slab(circle(1.92), 0.015, (0, 0, 0.33), kit.glass(), bevel=0)
        cyl(0.36, 0.5, (0, -2.35, -0.05), kit.brass(), FRONT)
        slab(circle(0.46, 6), 0.35, (0, -2.65, -0.05), kit.brass(), FRONT)


def multimeter(lcd: str) -> None:
    """A digital multimeter lying face up, its top towards +y."""
    case, holster = kit.plastic((0.025, 0.026, 0.03)), kit.surface((0.32, 0.05, 0.015), rough=0.6, grime=0.7, dust=0.25)
    slab(kit.rounded(3.3, 6.2, 0.5), 0.7, (0, 0, 0.35), holster, bevel=0.15)
    slab(kit.rounded(2.85, 5.7, 0.35), 0.72, (0, 0, 0.45), case, bevel=0.06)
    slab(kit.rounded(2.55, 1.55, 0.12), 0.05, (0, 1.85, 0.82), kit.plastic((0.01, 0.01, 0.01)))
    mat = kit.surface((1, 1, 1), face=lcd, rough=0.25, scratch=0.1, dust=0.05, grime=0.1, glow=0.18)
    slab(kit.rounded(2.3, 1.0, 0.03), 0.02, (0, 1.85, 0.85), mat, bevel=0)
    for x in (-0.8, 0, 0.8):
        cyl(0.2, 0.1, (x, 0.78, 0.84), kit.plastic((0.3, 0.3, 0.28)), bevel=0.04)
    mat = kit.surface((1, 1, 1), face="selector", rough=0.5, dust=0.1, grime=0.2)
    slab(circle(1.2), 0.02, (0, -0.75, 0.82), mat, bevel=0)
    cyl(0.62, 0.25, (0, -0.75, 0.92), kit.plastic((0.05, 0.05, 0.055)), bevel=0.06)
    with place((0, -0.75, 1.06), (0, 0, -180 if lcd == "lcd-ol" else -90)):
        box((0.22, 1.15, 0.18), (0, 0, 0), kit.plastic((0.06, 0.06, 0.065)), bevel=0.06)
        box((0.05, 0.3, 0.02), (0, 0.38, 0.095), kit.surface((0.7, 0.7, 0.66)), bevel=0)
    for x, tone in ((-0.7, (0.01, 0.01, 0.01)), (0.7, (0.4, 0.02, 0.015))):
        ring(0.24, 0.15, 0.15, (x, -2.35, 0.84), kit.plastic(tone))
        cyl(0.2, 0.7, (x, -2.35, 1.1), kit.plastic(tone), bevel=0.05)


def probe(tip: kit.Vec, turn: float, tone: kit.Vec, lead: list[kit.Vec], lean: float = 68) -> None:
    """A test probe whose point touches `tip`; `lead` is the path its wire takes on from the handle."""
    with place(tip, (0, 0, turn)), place((0, 0, 0), (lean, 0, 0)):
        lathe([(0, 0), (0.035, 0.08), (0.04, 0.6)], (0, 0, 0), kit.steel())
        lathe(
            [
                (0.05, 0.55),
                (0.1, 0.6),
                (0.13, 0.8),
                (0.24, 0.85),
                (0.24, 0.92),
                (0.14, 1.0),
                (0.17, 1.6),
                (0.15, 2.6),
                (0.08, 2.8),
                (0, 2.8),
            ],
            (0, 0, 0),
            kit.plastic(tone),
        )
    tube(lead, 0.07, kit.plastic(tone))


def gearbox() -> None:
    """An opened gearbox: the housing with its stripped gear, the cover beside it, grease everywhere."""
    cast = kit.alloy(grime=0.8, rough=0.5)
    outline = [(2.0 * math.cos(math.radians(a)), 2.0 * math.sin(math.radians(a))) for a in range(50, 311, 10)]
    outline += [(3.4 + 1.1 * math.cos(math.radians(a)), 1.1 * math.sin(math.radians(a))) for a in range(-70, 71, 10)]
    housing = slab(outline, 1.2, (0, 0, 0.6), cast, bevel=0.08)
    inner = [(x * 0.84 + (0.25 if x > 1.5 else 0), y * 0.82) for x, y in outline]
    kit.cut(housing, slab(inner, 1.2, (0, 0, 0.95), kit.surface((0.1, 0.09, 0.08), 0.7, 0.5, grime=1), bevel=0))
    for k, (x, y) in enumerate(((-1.5, 1.25), (-1.5, -1.25), (1.3, 1.65), (1.3, -1.65), (4.35, 0.75), (4.35, -0.75))):
        cyl(0.34, 1.2, (x * 1.02, y, 0.6), cast, bevel=0.05)
        cyl(0.13, 0.02, (x * 1.02, y, 1.205), kit.surface(BLACK), bevel=0)
        if k % 2:
            kit.socket_bolt((x - 1.2, y * 2.2 - 0.4, 0.13), kit.steel(), 0.16, (90, 0, 30 * k))
    worn = kit.steel(rough=0.3, grime=0.55, scale=1.2)
    slab(kit.gear_outline(26, 1.55, 0.24, range(14, 23), 7), 0.5, (0, 0, 0.95), worn, bevel=0.02, angle=50)
    cyl(0.95, 0.56, (0, 0, 0.95), kit.steel(rough=0.3))
    cyl(0.5, 0.9, (0, 0, 1.0), kit.steel(rough=0.22))
    cyl(0.3, 0.02, (0.0, 0, 1.46), kit.surface((0.05, 0.05, 0.05), 0.8))
    for k in range(6):
        t = math.tau * k / 6
        cyl(0.13, 0.02, (0.73 * math.cos(t), 0.73 * math.sin(t), 1.235), kit.surface(BLACK), bevel=0)
    with place((2.22, 0, 0), (0, 0, 6)):
        slab(kit.gear_outline(11, 0.78, 0.22, None, 2), 0.6, (0, 0, 0.98), worn, bevel=0.02, angle=50)
        cyl(0.3, 0.8, (0, 0, 1.05), kit.steel(rough=0.2))
    grease(16, (0, 0, 0.72), 1.7, 4)
    rng = random.Random(3)
    for _ in range(14):
        x, y = rng.uniform(-2.4, 0.2), rng.uniform(-3.4, -2.3)
        slab(
            kit.hole_outline(rng.uniform(0.05, 0.13), rng.randrange(99), 7, 0.5),
            0.09,
            (x, y, 0.05),
            kit.steel(rough=0.2),
            (rng.uniform(-30, 30), rng.uniform(-30, 30), 0),
            0.01,
        )
    with place((-4.6, 1.2, 0.25), (6, 0, 60)):
        slab(outline, 0.3, (0, 0, 0), cast, bevel=0.08)
        ring(0.75, 0.5, 0.3, (0, 0, 0.2), cast)


def grease(count: int, at: kit.Vec, spread: float, seed: int) -> None:
    """Lumps of brown grease."""
    rng = random.Random(seed)
    mat = kit.surface((0.07, 0.038, 0.012), rough=0.2, grime=0, dust=0, scratch=0, grain=14, bump=0.7)
    for _ in range(count):
        t = rng.uniform(0, math.tau)
        size = rng.uniform(0.12, 0.35)
        ball(
            size,
            (at[0] + spread * math.cos(t), at[1] + spread * math.sin(t), at[2]),
            mat,
            (1, rng.uniform(0.7, 1.4), 0.4),
        )


def regulator() -> None:
    """A regulator board with a charred transistor."""
    board = kit.surface((0.01, 0.085, 0.035), rough=0.35, dust=0.2, grime=0.3, burn=(0.95, -0.75, 0.1, 1.35), scale=1.3)
    slab(kit.rounded(6.4, 4.4, 0.2), 0.16, (0, 0, 0.5), board)
    tin = kit.steel(rough=0.3)
    for x in (-2.9, 2.9):
        for y in (-1.9, 1.9):
            cyl(0.22, 0.3, (x, y, 0.6), tin)
            cyl(0.15, 0.85, (x, y, 0.2), tin)
    char = kit.surface((0.02, 0.018, 0.016), rough=0.8, burn=(0, 0, 0, 3), bump=0.8)
    box((0.95, 0.3, 1.1), (0.9, 0.15, 1.15), char, (8, 0, 0), 0.06)
    crater = slab(kit.rounded(0.9, 0.7, 0.1), 0.3, (0.85, -0.65, 0.72), char, (0, 0, 8), 0.03)
    kit.cut(crater, slab(kit.jagged([(-0.5, -0.3), (0.0, 0.05), (0.45, 0.3)], 0.09, 4), 1, (0.85, -0.65, 0.72), char))
    for k in range(9):
        box(
            (3.0, 0.07, 1.7),
            (0.3, 0.55 + k * 0.15, 1.42),
            kit.alloy(burn=(0.6, 0, -0.9, 0.8) if k < 2 else None),
            bevel=0.02,
        )
    box((3.2, 1.3, 0.3), (0.3, 1.1, 0.75), kit.alloy(), bevel=0.03)
    for x, y, r, h in ((-2.1, 0.9, 0.6, 1.5), (-2.2, -0.55, 0.48, 1.2), (2.45, -0.9, 0.4, 0.9), (2.45, 0.3, 0.4, 0.9)):
        cyl(r, h, (x, y, 0.58 + h / 2), kit.plastic((0.015, 0.02, 0.05)), bevel=0.07)
        cyl(r * 0.8, 0.02, (x, y, 0.6 + h), kit.alloy())
    for k in range(5):
        with place((-1.15 + k * 0.33, -1.05 - 0.1 * (k % 2), 0.72), (90, 0, 0)):
            cyl(0.1, 0.5, (0, 0, 0), kit.plastic((0.35, 0.26, 0.16)), bevel=0.05)
            for z, tone in ((-0.12, (0.3, 0.02, 0.01)), (0.0, (0.05, 0.02, 0.01)), (0.12, (0.4, 0.3, 0.02))):
                ring(0.105, 0.09, 0.05, (0, 0, z), kit.surface(tone), bevel=0.005)
    for k in range(6):
        box((0.5, 0.6, 0.55), (-1.9 + k * 0.55, -1.8, 0.85), kit.plastic((0.02, 0.12, 0.05)), bevel=0.04)
        cyl(0.16, 0.05, (-1.9 + k * 0.55, -1.8, 1.13), tin)
        tone = (
            (0.4, 0.02, 0.02),
            (0.01, 0.01, 0.01),
            (0.03, 0.06, 0.3),
            (0.5, 0.5, 0.48),
            (0.4, 0.3, 0.02),
            (0.05, 0.2, 0.05),
        )[k]
        x = -1.9 + k * 0.55
        tube(
            [(x, -2.0, 0.75), (x - 0.1, -2.7, 0.6), (x * 0.6 - 0.8, -3.8, 0.15), (x * 0.4 - 2.4, -5.2, 0.15)],
            0.09,
            kit.plastic(tone),
        )


def coil() -> None:
    """An ignition coil: laminated core, potted body with a crack, high-tension lead with its boot."""
    body = kit.plastic((0.022, 0.02, 0.019), rough=0.3, dust=0.15, burn=(-0.2, -0.4, 0.75, 0.28), scale=1.2)
    potted = slab(kit.rounded(2.5, 1.9, 0.35), 1.5, (0, 0, 0.95), body, bevel=0.12)
    kit.cut(
        potted,
        slab(
            kit.jagged([(-1.3, -0.2), (-0.4, -0.42), (0.1, 0.0), (0.6, 0.12), (1.35, 0.55)], 0.075, 8),
            0.7,
            (0, 0, 1.65),
            kit.surface((0.42, 0.27, 0.13), rough=0.9, scratch=0),
        ),
    )
    kit.cut(
        potted,
        slab(
            kit.jagged([(-0.4, -0.42), (-0.3, -0.75), (-0.45, -1.05)], 0.06, 3),
            1.6,
            (0, 0, 1.35),
            kit.surface((0.42, 0.27, 0.13), rough=0.9, scratch=0),
        ),
    )
    lam = kit.steel(grime=0.8, rough=0.5)
    for k in range(10):
        z = 0.62 + k * 0.075
        slab(
            [
                (-2.6, -1.9),
                (-1.8, -2.1),
                (-1.75, -0.35),
                (1.75, -0.35),
                (1.8, -2.1),
                (2.6, -1.9),
                (2.6, 0.5),
                (-2.6, 0.5),
            ],
            0.06,
            (0, 0, z),
            lam,
            bevel=0.008,
        )
    for x in (-2.15, 2.15):
        ring(0.28, 0.15, 0.1, (x, 0.05, 1.38), kit.steel())
        cyl(0.16, 0.02, (x, 0.05, 1.37), kit.surface(BLACK), bevel=0)
    tube(
        [(0.7, 0.8, 1.2), (1.1, 1.8, 1.2), (2.6, 2.9, 0.5), (4.6, 2.4, 0.25), (5.3, 0.6, 0.25), (4.4, -0.7, 0.3)],
        0.2,
        kit.rubber(dust=0.1),
    )
    with place((4.3, -0.9, 0.42), (0, 90, 225)):
        lathe(
            [(0.22, -0.3), (0.3, 0), (0.42, 0.1), (0.42, 1.2), (0.36, 1.3), (0.28, 1.3), (0.25, 0.6)],
            (0, 0, 0),
            kit.rubber(),
        )
    box((0.5, 0.08, 0.3), (-0.8, -1.0, 0.6), kit.brass())
    tube([(-0.8, -1.1, 0.5), (-1.2, -2.4, 0.2), (-2.8, -2.9, 0.12)], 0.08, kit.plastic(BLACK))


def clutch() -> None:
    """An electric blade clutch taken apart: pulley at the back, burnt winding in front."""
    bare = kit.steel(grime=0.6, rough=0.4)
    with place((3.4, 2.3, 0.95), (0, 0, 0)):
        lathe(
            [
                (0.6, -0.9),
                (2.1, -0.9),
                (2.1, -0.75),
                (1.5, -0.2),
                (1.5, 0.0),
                (2.1, 0.5),
                (2.1, 0.65),
                (1.9, 0.7),
                (1.85, 0.62),
                (0.9, 0.62),
                (0.85, 0.8),
                (0.6, 0.8),
                (0.6, -0.9),
            ],
            (0, 0, 0),
            bare,
            sides=96,
        )
        ring(1.7, 1.1, 0.04, (0, 0, 0.65), kit.steel(rough=0.5, grime=0.95, streak=0.0))
    with place((-0.6, -0.3, 0)):
        case = kit.surface((0.3, 0.29, 0.28), 0.9, 0.5, grime=0.7, burn=(0.9, -1.9, 0.9, 1.0))
        lathe(
            [
                (0.75, 0.0),
                (2.5, 0.0),
                (2.55, 0.05),
                (2.55, 1.1),
                (2.45, 1.15),
                (2.2, 1.15),
                (2.15, 0.4),
                (1.15, 0.4),
                (1.1, 1.15),
                (0.8, 1.15),
                (0.75, 1.1),
                (0.75, 0.0),
            ],
            (0, 0, 0),
            case,
            sides=96,
        )
        copper = kit.surface(
            (0.55, 0.2, 0.07), 0.85, 0.35, grime=0.5, scratch=0, dust=0.05, burn=(1.0, -1.3, 0.9, 1.45)
        )
        for k in range(7):
            radius = 1.25 + k * 0.13
            tube(
                [
                    (
                        radius * math.cos(math.tau * i / 40),
                        radius * math.sin(math.tau * i / 40),
                        0.9 + 0.04 * math.sin(i * 2.2 + k),
                    )
                    for i in range(40)
                ],
                0.085,
                copper,
                True,
            )
        resin = kit.surface((0.05, 0.03, 0.015), rough=0.5, burn=(1.0, -1.3, 0.8, 1.5), bump=0.5, dust=0)
        lathe([(1.15, 0.6), (1.2, 0.86), (2.1, 0.86), (2.15, 0.6)], (0, 0, 0), resin)
        rng = random.Random(5)
        for _ in range(9):
            ball(
                rng.uniform(0.08, 0.2),
                (1.0 + rng.uniform(-0.45, 0.45), -1.3 + rng.uniform(-0.35, 0.35), 0.93),
                kit.surface((0.008, 0.007, 0.007), rough=0.85, bump=0.9, grain=12),
                (1.3, 1, 0.45),
            )
        ring(0.75, 0.35, 0.9, (0, 0, 0.6), kit.steel(rough=0.25))
        tube([(-2.4, -0.6, 0.7), (-3.4, -1.2, 0.4), (-4.2, -2.4, 0.12)], 0.1, kit.plastic((0.3, 0.02, 0.02)))
        tube([(-2.45, -0.3, 0.7), (-3.5, -0.8, 0.4), (-4.6, -2.0, 0.12)], 0.1, kit.plastic(BLACK))
        box((0.7, 0.45, 0.35), (-4.45, -2.4, 0.2), kit.plastic((0.5, 0.5, 0.46)), (0, 0, 40), 0.05)
        for k in range(4):
            with place((0, 0, 0), (0, 0, 45 + 90 * k)):
                box((0.8, 0.6, 0.2), (2.75, 0, 0.1), case, bevel=0.05)
                cyl(0.15, 0.02, (2.9, 0, 0.205), kit.surface(BLACK), bevel=0)


def seal() -> None:
    """A mechanical seal apart: rotating head with a chipped carbon face, ceramic seat, spring."""
    carbon = kit.surface((0.022, 0.022, 0.024), 0.2, 0.24, grime=0.1, scratch=0.8, dust=0.0, scale=1.3)
    raw = kit.surface((0.05, 0.05, 0.052), rough=0.95, grain=22, bump=1.0, scratch=0, dust=0, grime=0)
    with place((-1.3, -0.4, 0.3), (16, -8, 0)):
        ring(1.75, 0.95, 0.7, (0, 0, 0.25), kit.steel(rough=0.22), bevel=0.06)
        ring(1.5, 0.9, 0.35, (0, 0, 0.72), kit.rubber(dust=0.1), bevel=0.08)
        face = ring(1.42, 0.92, 0.5, (0, 0, 1.1), carbon, bevel=0.03)
        kit.cut(face, slab(kit.hole_outline(0.34, 9, 16, 0.35), 0.6, (0.75, -1.3, 1.42), raw, (24, 10, 0), 0))
        kit.cut(face, slab(kit.hole_outline(0.2, 4, 12, 0.4), 0.5, (1.28, -0.45, 1.45), raw, (10, 24, 0), 0))
        kit.cut(
            face,
            slab(
                kit.jagged([(0.5, -0.8), (0.62, -1.05), (0.7, -1.5)], 0.03, 6), 2, (-0.6, 0.1, 1.1), raw, (0, 0, -12), 0
            ),
        )
    rng = random.Random(8)
    for _ in range(6):
        slab(
            kit.hole_outline(rng.uniform(0.07, 0.2), rng.randrange(99), 8, 0.4),
            0.12,
            (rng.uniform(-1.2, 1.0), rng.uniform(-3.3, -2.5), 0.07),
            raw,
            (rng.uniform(-15, 15), 0, 0),
            0.01,
        )
    with place((2.6, 0.9, 0.0)):
        ring(1.75, 1.0, 0.55, (0, 0, 0.28), kit.rubber(dust=0.1), bevel=0.1)
        white = kit.surface((0.62, 0.60, 0.54), rough=0.22, grime=0.3, scratch=0.6, dust=0)
        ring(1.5, 0.95, 0.5, (0, 0, 0.55), white, bevel=0.05)
        lathe([(1.42, 0.805), (1.18, 0.806)], (0, 0, 0), kit.surface((0.1, 0.095, 0.09), rough=0.5, streak=0.0))
    coil_spring((2.9, -2.3, 0.85), 0.8, 0.1, 5, 2.1, (0, 90, 24))


def coil_spring(at: kit.Vec, radius: float, wire: float, turns: int, length: float, rot: kit.Vec) -> None:
    """A helical spring along z before turning, centred."""
    with place(at, rot):
        tube(
            [
                (
                    radius * math.cos(math.tau * i / 14),
                    radius * math.sin(math.tau * i / 14),
                    length * (i / (turns * 14) - 0.5),
                )
                for i in range(turns * 14 + 1)
            ],
            wire,
            kit.steel(rough=0.25),
        )


def pump_head(cracked: bool) -> None:
    """A brass pump head, six valve caps on top, three bores in front; a cracked one has split by frost."""
    mat = kit.brass(
        grime=0.55 if cracked else 0.12, rough=0.36 if cracked else 0.24, scratch=0.8 if cracked else 0.1, dust=0.05
    )
    inside = kit.surface((0.02, 0.014, 0.008), rough=0.9, dust=0, scratch=0)
    block = box((4.6, 2.2, 2.4), (0, 0, 1.25), mat, bevel=0.14)
    for x in (-1.4, 0, 1.4):
        kit.cut(block, cyl(0.46, 1.6, (x, -1.1, 0.85), inside, FRONT))
        ring(0.6, 0.46, 0.06, (x, -1.11, 0.85), mat, FRONT)
        for y in (-0.55, 0.5):
            kit.hex_bolt((x, y, 2.44), mat, 0.38)
    if cracked:
        kit.cut(
            block,
            slab(
                kit.jagged(
                    [(-2.35, 1.75), (-1.5, 1.62), (-0.85, 1.95), (-0.2, 1.66), (0.55, 1.85), (1.15, 1.5)], 0.028, 5
                ),
                0.9,
                (0, -1.1, 0),
                inside,
                FRONT,
                0,
            ),
        )
        kit.cut(
            block,
            slab(kit.jagged([(-0.2, 1.66), (0.1, 1.4), (0.1, 1.2)], 0.02, 2), 0.9, (0, -1.1, 0), inside, FRONT, 0),
        )
        kit.cut(
            block,
            slab(kit.jagged([(-0.85, 1.95), (-0.7, 2.3), (-0.78, 2.6)], 0.024, 6), 0.9, (0, -1.1, 0), inside, FRONT, 0),
        )
    with place((2.3, 0, 1.3), ALONG):
        ring(0.62, 0.42, 0.6, (0, 0, 0.25), mat)
        for k in range(5):
            ring(0.65, 0.55, 0.05, (0, 0, 0.3 + k * 0.08), mat, bevel=0.012)
    for x in (-2.05, 2.05):
        for z in (0.35, 2.1):
            cyl(0.17, 0.06, (x, -1.09, z), inside, FRONT, 0)


def unloader() -> None:
    """An unloader valve lying along x: brass body, spring, adjusting knob."""
    mat = kit.brass(grime=0.5)
    with place((0, 0, 0.7), ALONG):
        lathe(
            [(0, -1.6), (0.45, -1.6), (0.45, -0.9), (0.68, -0.85), (0.68, 0.5), (0.5, 0.55), (0.5, 0.8), (0, 0.8)],
            (0, 0, 0),
            mat,
        )
        for k in range(8):
            ring(0.48, 0.4, 0.05, (0, 0, -1.55 + k * 0.08), mat, bevel=0.012)
        slab(circle(0.72, 6), 0.3, (0, 0, 0.3), mat)
        coil_spring((0, 0, 1.35), 0.4, 0.09, 5, 1.1, (0, 0, 0))
        cyl(0.16, 1.6, (0, 0, 1.4), kit.steel())
        cyl(0.62, 0.8, (0, 0, 2.3), kit.plastic((0.3, 0.02, 0.015)), bevel=0.1)
        for k in range(16):
            t = math.tau * k / 16
            cyl(0.07, 0.75, (0.61 * math.cos(t), 0.61 * math.sin(t), 2.3), kit.plastic((0.3, 0.02, 0.015)), sides=12)
    with place((-0.2, 0, 0.7), (35, 0, 0)):
        cyl(0.4, 0.8, (0, 0, 0.8), mat)
        cyl(0.28, 0.02, (0, 0, 1.21), kit.surface(BLACK), bevel=0)


def crankshaft() -> None:
    """A small crankshaft along x with a scored, blued journal."""
    bare = kit.steel(grime=0.4)
    worn = kit.surface(
        (0.42, 0.40, 0.42), 1.0, 0.4, streak=0.0, scratch=1.0, grime=0.5, burn=(0.0, 0.1, 0.0, 0.75), bump=0.5
    )
    with place((0, 0, 0.95), ALONG):
        cyl(0.36, 2.2, (0, 0, -2.2), bare)
        lathe([(0.34, -3.3), (0.26, -3.9), (0.2, -4.1), (0, -4.1)], (0, 0, 0), bare)
        cyl(0.42, 2.4, (0, 0, 2.2), bare)
        box((0.14, 0.2, 0.9), (0.40, 0, 2.8), bare)
        for z in (-0.9, 0.9):
            slab(
                [
                    (0.95, -0.45),
                    (0.95, 0.45),
                    (0.1, 0.62),
                    (-0.75, 0.95),
                    (-0.95, 0.5),
                    (-0.95, -0.5),
                    (-0.75, -0.95),
                    (0.1, -0.62),
                ],
                0.42,
                (0, 0, z),
                kit.steel(rough=0.5, grime=0.6),
                bevel=0.08,
            )
        with place((0.48, 0, 0)):
            cyl(0.42, 1.4, (0, 0, 0), worn)
            for k in range(9):
                ring(
                    0.424,
                    0.40,
                    0.02 + 0.025 * (k % 3),
                    (0, 0, -0.5 + k * 0.12),
                    kit.surface((0.02, 0.018, 0.02), 0.6, 0.6),
                    bevel=0.004,
                )


def vertical_engine() -> None:
    """A vertical-shaft engine on its base, cylinder to the right, a hole with a rod end in its crankcase."""
    cast = kit.alloy(grime=0.7, rough=0.5)
    case = box((4.2, 3.6, 2.4), (0, 0, 1.9), cast, bevel=0.3)
    oil = kit.surface((0.01, 0.007, 0.004), rough=0.25, dust=0, scratch=0)
    kit.cut(case, slab(kit.hole_outline(0.66, 11, 20, 0.32), 1.2, (-0.5, -1.7, 1.95), oil, FRONT, 0))
    for pts, seed in (
        ([(0.0, 2.1), (0.7, 2.35), (1.4, 2.2)], 2),
        ([(-1.0, 2.3), (-1.5, 2.7), (-1.7, 2.95)], 5),
        ([(-0.7, 1.5), (-0.9, 1.05), (-0.8, 0.75)], 9),
    ):
        kit.cut(case, slab(kit.jagged(pts, 0.05, seed), 0.5, (0, -1.75, 0), oil, FRONT, 0))
    with place((-0.4, -1.75, 1.9), (62, 24, 12)):
        slab(
            [(-0.25, -1.0), (0.25, -1.0), (0.17, 0.4), (0.05, 0.28), (-0.02, 0.52), (-0.16, 0.35)],
            0.26,
            (0, 0, 0),
            kit.steel(rough=0.4, grime=0.4),
            bevel=0.03,
        )
    lump = kit.alloy(rough=0.6)
    for x, y, s in ((-1.2, -3.2, 0.3), (-0.3, -3.5, 0.42), (0.6, -3.1, 0.22), (0.1, -4.0, 0.16)):
        slab(kit.hole_outline(s, int(s * 100), 9, 0.4), 0.22, (x, y, 0.12), lump, (8, 12, 0), 0.03)
    slab(kit.hole_outline(1.5, 3, 40, 0.12), 0.012, (-0.3, -2.9, 0.008), oil, bevel=0)
    for k in range(3):
        tube(
            [(-0.7 + k * 0.3, -1.82, 1.4), (-0.75 + k * 0.33, -1.84, 0.9), (-0.7 + k * 0.3, -1.83, 0.45)],
            0.05 + 0.02 * k,
            oil,
        )
    slab(kit.rounded(5.0, 4.4, 1.0), 0.5, (0, 0, 0.45), cast, bevel=0.1)
    for x in (-2.1, -0.7, 0.7, 2.1):
        kit.hex_bolt((x, -2.0, 0.7), kit.steel(), 0.15)
    with place((2.0, 0, 2.0), ALONG):
        m.fins((2.5, 2.9, 2.2), (0, 0, 1.0), 9, cast)
        box((1.9, 2.3, 0.5), (0, 0, 2.3), cast, bevel=0.12)
        cyl(0.24, 0.9, (0, 0, 2.9), kit.surface((0.7, 0.68, 0.62), rough=0.2))
        slab(circle(0.34, 6), 0.3, (0, 0, 2.65), kit.steel())
    slab(kit.rounded(5.4, 4.4, 1.9, 10), 0.9, (-0.2, 0, 3.45), kit.paint((0.025, 0.025, 0.028), dust=0.6), bevel=0.25)
    with place((-0.3, 0, 4.0)):
        m.recoil((0, 0, 0.1), 1.7, kit.paint(PLUM, dust=0.5), (0, 0, 0))
    cyl(0.5, 0.35, (-2.0, -1.5, 1.0), kit.plastic((0.02, 0.02, 0.02)), FRONT)
    box((1.1, 0.7, 1.0), (-2.3, 0.6, 2.3), kit.steel(rough=0.5, grime=0.9), bevel=0.12)


def rod_half(big: bool) -> None:
    """One piece of a broken connecting rod, along x, its break towards +x (big end) or -x (small end)."""
    mat = kit.alloy(rough=0.42, grime=0.55, dust=0, scale=1.2)
    raw = kit.surface((0.42, 0.42, 0.43), 0.8, 0.75, grain=26, bump=1.0, scratch=0, grime=0.15, dust=0)
    sign = 1 if big else -1
    rng = random.Random(4 if big else 9)
    tips = [(sign * (1.35 + rng.uniform(-0.22, 0.22)), -0.36 + 0.09 * k) for k in range(9)]
    shank = slab([(-sign * 1.2, 0.5), (-sign * 1.2, -0.5), *tips], 0.62, (0, 0, 0.5), mat, bevel=0.03)
    kit.cut(shank, slab(kit.rounded(2.0, 0.42, 0.18), 0.4, (sign * 0.25, 0, 0.82), mat, bevel=0))
    slab(
        [(x - sign * 0.015, y) for x, y in tips] + [(x + sign * 0.02, y) for x, y in tips[::-1]],
        0.6,
        (0, 0, 0.5),
        raw,
        bevel=0,
    )
    if not big:
        ring(0.78, 0.46, 0.85, (1.75, 0, 0.5), mat)
        ring(0.47, 0.4, 0.86, (1.75, 0, 0.5), kit.brass(grime=0.5))
        return
    half = [(1.25 * math.cos(math.radians(a)), 1.25 * math.sin(math.radians(a))) for a in range(-90, 91, 8)]
    half += [(0.86 * math.cos(math.radians(a)), 0.86 * math.sin(math.radians(a))) for a in range(90, -91, -8)]
    with place((-2.3, 0, 0.5)):
        slab(half, 0.85, (0, 0, 0), kit.alloy(rough=0.4, grime=0.8, burn=(0.8, 0, 0.2, 0.4)), bevel=0.03)
        for side in (-1, 1):
            box((0.75, 0.5, 0.8), (0.35, side * 1.3, 0), mat, bevel=0.07)
            cyl(0.15, 0.6, (-0.2, side * 1.3, 0), kit.steel(), ALONG)
    with place((-3.6, -0.5, 0.44), (0, 0, 205)):
        slab(half, 0.85, (0, 0, 0), kit.alloy(rough=0.4, grime=0.9, burn=(0.9, 0.3, 0.4, 0.6)), bevel=0.03)
        for side in (-1, 1):
            box((0.6, 0.5, 0.8), (0.3, side * 1.3, 0), mat, bevel=0.07)


def blade(worn: bool) -> None:
    """A mower blade along x; a worn one is thin, nicked and rounded at its ends."""
    mat = (
        kit.steel(rough=0.5, grime=0.85, dust=0.3)
        if worn
        else kit.paint((0.022, 0.022, 0.024), grime=0.1, dust=0.05, scratch=0.1)
    )
    edge = kit.steel(rough=0.25, grime=0.4 if worn else 0.05)
    rng = random.Random(12)
    for turn in (0, 180):
        with place((0, 0, 0), (0, 0, turn)):
            front = []
            for k in range(25):
                x = 0.4 + k * 0.2
                nick = (
                    (rng.uniform(0, 0.07) + (0.17 if rng.random() < 0.16 else 0) + max(0, x - 3.2) * 0.22)
                    if worn
                    else 0.0
                )
                front.append((x, -0.72 + nick))
            slab(
                [
                    (0, -0.72),
                    *front,
                    (5.2, -0.1 if worn else -0.72),
                    (5.2 if not worn else 5.0, 0.35),
                    (3.3, 0.72),
                    (0, 0.72),
                ],
                0.14,
                (0, 0, 0.3),
                mat,
                bevel=0.02,
            )
            bevelled = [(x, y) for x, y in front if x > 2.3]
            slab(
                [*[(x, y - 0.01) for x, y in bevelled], *[(x, y + 0.2) for x, y in bevelled[::-1]]],
                0.15,
                (0, 0, 0.3),
                edge,
                bevel=0.015,
            )
            slab(
                [(3.3, 0), (5.1, 0), (5.0 if not worn else 4.6, 0.75), (3.7, 0.75 if not worn else 0.5)],
                0.12,
                (0, 0.42, 0.3),
                mat,
                (42, 0, 0),
                0.02,
            )
    ring(0.55, 0.22, 0.16, (0, 0, 0.31), mat)
    cyl(0.24, 0.17, (0, 0, 0.31), kit.surface(BLACK))
    for x in (-0.42, 0.42):
        cyl(0.1, 0.17, (x * 1.7, 0, 0.31), kit.surface(BLACK))


def impeller() -> None:
    """A moulded impeller with curved vanes, cracked from hub to rim, a piece of vane gone."""
    mat = kit.surface((0.33, 0.315, 0.26), rough=0.4, grime=0.6, scratch=0.5, grain=70)
    inside = kit.surface((0.5, 0.47, 0.38), rough=0.9, grain=30, bump=0.6, scratch=0, grime=0.1)
    plate = cyl(2.6, 0.26, (0, 0, 0.3), mat, bevel=0.05, sides=96)
    dark = kit.surface((0.012, 0.011, 0.01), rough=0.9, scratch=0)
    line = [(0.6, -0.25), (1.05, -0.7), (1.3, -1.35), (1.75, -1.75), (1.85, -2.7)]
    kit.cut(plate, slab(kit.jagged(line, 0.06, 3), 1, (0, 0, 0.3), dark, bevel=0))
    kit.cut(plate, slab(kit.jagged([(1.3, -1.35), (1.9, -1.2), (2.7, -1.35)], 0.05, 6), 1, (0, 0, 0.3), dark, bevel=0))
    kit.cut(plate, slab(kit.hole_outline(0.4, 6, 14, 0.35), 1, (2.45, -1.35, 0.3), inside, bevel=0))
    for k in range(5):
        with place((0, 0, 0), (0, 0, 72 * k + 14)):
            arc = [(0.72 + 0.0185 * a, 0.85 * math.sin(math.radians(a * 0.9))) for a in range(0, 91, 10)]
            arc = arc[:5] if k == 4 else arc
            outline = arc + [(x + 0.05, y - 0.2) for x, y in arc[::-1]]
            vane = slab(outline, 0.75, (0, 0, 0.78), mat, bevel=0.03)
            if k == 4:
                kit.cut(
                    vane, slab(kit.hole_outline(0.35, 2, 12, 0.4), 1, (arc[-1][0], arc[-1][1], 1.2), inside, bevel=0)
                )
    ring(0.72, 0.36, 1.1, (0, 0, 0.75), mat, bevel=0.05)
    ring(0.37, 0.24, 1.16, (0, 0, 0.76), kit.brass(grime=0.5))
    with place((3.3, -2.3, 0.14), (0, 0, 30)):
        slab([(0, 0), (0.9, 0.25), (1.0, 0.05), (0.7, -0.12), (0.15, -0.2)], 0.25, (0, 0, 0), mat, bevel=0.03)


def battery_pack(burnt: bool) -> None:
    """A slide-on battery pack, contacts towards -y and up; one contact may have melted."""
    shell = kit.plastic(GRAPHITE, dust=0.2, burn=(0.62, -0.95, 1.0, 0.85) if burnt else None)
    box((4.4, 3.4, 1.6), (0, 0.2, 0.8), kit.plastic(GRAPHITE, dust=0.2), bevel=0.28)
    box((4.5, 0.9, 0.25), (0, 1.2, 0.5), kit.plastic(TEAL, dust=0.2), bevel=0.08)
    deck = box((3.2, 3.0, 0.7), (0, 0.1, 1.9), shell, bevel=0.12)
    for side in (-1, 1):
        box((0.22, 2.8, 0.2), (side * 1.68, 0.1, 2.1), kit.plastic(GRAPHITE), bevel=0.05)
    slot = kit.plastic((0.012, 0.012, 0.013), burn=(0, 0, 0, 0.5) if burnt else None)
    for k, x in enumerate((-1.0, -0.35, 0.35, 1.0)):
        kit.cut(deck, box((0.34, 1.3, 0.8), (x, -1.0, 2.15), slot, bevel=0))
        bad = burnt and k == 2
        mat = (
            kit.surface((0.06, 0.05, 0.045), 0.4, 0.8, burn=(0, -0.3, 0.2, 0.7), bump=0.8)
            if bad
            else kit.brass(rough=0.25)
        )
        with place((x, -0.85, 1.95), (0, 14 if bad else 0, 6 if bad else 0)):
            box((0.08, 0.9, 0.42 if bad else 0.5), (-0.06, 0, 0), mat, bevel=0.02)
            box((0.08, 0.9, 0.3 if bad else 0.5), (0.08, 0.02, 0), mat, bevel=0.02)
    if burnt:
        melted()
    box((1.5, 0.5, 0.5), (0, 1.75, 1.75), kit.plastic((0.3, 0.1, 0.01)), (-18, 0, 0), 0.1)
    kit.sign("badge-bp40", 2.4, 0.8, (0, -1.51, 0.85), FRONT, grime=0.3)


def melted() -> None:
    """Plastic that has run and frozen round a contact."""
    rng = random.Random(21)
    char = kit.surface((0.012, 0.011, 0.01), rough=0.38, bump=0.9, grain=9, scratch=0, dust=0, grime=0)
    for _ in range(16):
        ball(
            rng.uniform(0.06, 0.17),
            (0.4 + rng.uniform(-0.34, 0.34), -1.05 + rng.uniform(-0.42, 0.4), 2.24 + rng.uniform(-0.03, 0.02)),
            char,
            (1.2, 1.0, 0.5),
        )
    for x in (0.2, 0.42, 0.58):
        tube([(x, -1.36, 2.22), (x + 0.03, -1.46, 2.1), (x, -1.45, 1.75 - x * 0.3)], 0.09 - 0.02 * x, char)
