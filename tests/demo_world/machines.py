"""Whole machines, put together from the kit."""

from __future__ import annotations

import math

import kit
from kit import BLUE, GRAPHITE, IVORY, PALE, PLUM, TEAL, box, cyl, lathe, place, ring, slab, tube

FRONT = (90, 0, 0)
ALONG = (0, 90, 0)


def decoration(seed: int, mat: object) -> None:
    """What happens to lie beside a serial plate: ribs, a cable or a hose."""
    if seed % 3 == 0:
        for k in range(5):
            box((0.09, 1.2, 0.12), (1.55 + k * 0.2, 0, -0.45), mat, bevel=0.03)
    elif seed % 3 == 1:
        tube([(-1.7, -1.6, -0.5), (-1.5, -0.5, -0.2), (-1.55, 0.6, -0.3), (-1.3, 1.7, -0.4)], 0.11, kit.rubber())
    else:
        cyl(0.5, 0.5, (1.75, 0.2, -0.4), kit.plastic((0.02, 0.02, 0.02), scale=2))
        for k in range(16):
            t = math.tau * k / 16
            cyl(0.06, 0.5, (1.75 + 0.5 * math.cos(t), 0.2 + 0.5 * math.sin(t), -0.4), kit.rubber(), sides=16)


def recoil(at: kit.Vec, radius: float, mat: object, rot: kit.Vec = FRONT) -> None:
    """A recoil-starter cover with a ring of air slots, its axis along z before turning."""
    dark = kit.plastic((0.012, 0.012, 0.013), dust=0.5)
    with place(at, rot):
        r = radius
        lathe([(r, -0.3), (r, 0.05), (r * 0.93, 0.16), (r * 0.5, 0.24), (r * 0.42, 0.32), (0, 0.34)], (0, 0, 0), mat)
        for k in range(20):
            t = 360 * k / 20
            with place((0, 0, 0), (0, 0, t)):
                box((r * 0.34, r * 0.11, 0.05), (r * 0.7, 0, 0.2), dark, (0, 11, 0), 0.02)
        for k in range(4):
            with place((0, 0, 0), (0, 0, 45 + k * 90)):
                kit.socket_bolt((r * 1.02, 0, -0.02), kit.steel(), r * 0.08)
        box((r * 0.7, r * 0.2, 0.2), (r * 0.5, r * 1.02, 0.15), kit.rubber(), (0, 0, 20), 0.09)


def cap(at: kit.Vec, radius: float, rot: kit.Vec = (0, 0, 0), tone: kit.Vec = (0.02, 0.02, 0.02)) -> None:
    """A ribbed filler cap."""
    mat = kit.plastic(tone)
    with place(at, rot):
        cyl(radius, radius * 0.7, (0, 0, radius * 0.35), mat, bevel=0.04)
        for k in range(18):
            t = math.tau * k / 18
            cyl(radius * 0.1, radius * 0.6, (radius * math.cos(t), radius * math.sin(t), radius * 0.33), mat, sides=12)


def fins(size: kit.Vec, at: kit.Vec, count: int, mat: object, thick: float = 0.35) -> None:
    """A stack of cooling fins along z."""
    pitch = size[2] / count
    for k in range(count):
        slab(
            kit.rounded(size[0], size[1], 0.2),
            pitch * thick,
            (at[0], at[1], at[2] - size[2] / 2 + (k + 0.5) * pitch),
            mat,
            bevel=0.012,
        )
    box((size[0] * 0.72, size[1] * 0.72, size[2]), at, mat)


def wheel(at: kit.Vec, radius: float, width: float, hub: object, lugs: int = 24) -> None:
    """A tyre with lugs on a painted rim, its axle along y."""
    r, w, tyre = radius, width / 2, kit.rubber(dust=0.55)
    with place(at, FRONT):
        lathe(
            [
                (r * 0.52, -w * 0.8),
                (r * 0.6, -w),
                (r * 0.86, -w),
                (r * 0.97, -w * 0.75),
                (r, 0),
                (r * 0.97, w * 0.75),
                (r * 0.86, w),
                (r * 0.6, w),
                (r * 0.52, w * 0.8),
            ],
            (0, 0, 0),
            tyre,
        )
        lathe(
            [
                (0, w * 0.35),
                (r * 0.2, w * 0.38),
                (r * 0.3, w * 0.2),
                (r * 0.46, w * 0.3),
                (r * 0.5, w * 0.86),
                (r * 0.54, w * 0.9),
                (r * 0.55, w * 0.7),
            ],
            (0, 0, 0),
            hub,
        )
        cyl(r * 0.1, 0.2, (0, 0, w * 0.42), kit.steel())
        for k in range(lugs):
            with place((0, 0, 0), (0, 0, 360 * k / lugs)):
                for side in (-1, 1):
                    box((r * 0.10, r * 0.09, w * 0.95), (r * 0.97, 0, side * w * 0.45), tyre, (side * 28, 0, 0), 0.03)


def cut_off_saw(tone: kit.Vec = TEAL, dirt: float = 0.6, dust: float = 0.35) -> None:
    """A hand-held petrol cut-off saw, disc towards +x, its arm on the -y side."""
    shell = kit.plastic(tone, grime=dirt, dust=dust)
    dark = kit.plastic(GRAPHITE, grime=dirt, dust=dust)
    cast, bare = kit.alloy(grime=dirt, dust=dust), kit.steel()
    slab([(-1.5, 0.25), (1.6, 0.25), (1.9, 0.7), (1.7, 1.0), (-1.6, 1.0)], 1.5, (0, 0, 0), dark, FRONT, 0.12)
    slab(
        [(-1.5, 1.02), (1.5, 1.02), (1.45, 1.7), (0.9, 2.15), (-0.8, 2.2), (-1.4, 1.8)],
        1.35,
        (0, 0, 0),
        shell,
        FRONT,
        0.16,
    )
    box((1.0, 1.2, 0.08), (0.0, 0, 2.2), dark, bevel=0.03)
    for k in range(6):
        box((0.1, 1.25, 0.12), (-0.5 + k * 0.2, 0, 2.2), shell, bevel=0.03)
    fins((0.9, 0.5, 0.8), (0.9, -0.6, 1.45), 8, cast)
    box((0.75, 0.35, 0.75), (1.65, -0.1, 1.4), kit.steel(rough=0.45, grime=0.8), bevel=0.07)
    for k in range(4):
        box((0.5, 0.02, 0.06), (1.65, -0.29, 1.2 + k * 0.13), kit.surface((0.005, 0.005, 0.005)), bevel=0)
    cap((-0.95, -0.72, 1.35), 0.3, FRONT)
    cap((-0.35, -0.76, 0.62), 0.24, FRONT, (0.25, 0.08, 0.01))
    tube([(-1.35, 0, 0.6), (-2.4, 0, 0.65), (-2.75, 0, 1.2), (-2.45, 0, 1.85), (-1.3, 0, 1.9)], 0.19, dark)
    box((0.5, 0.12, 0.3), (-1.95, 0, 1.62), kit.plastic((0.25, 0.08, 0.01)), (0, 20, 0), 0.05)
    tube(
        [
            (0.75, -0.95, 0.5),
            (0.8, -1.0, 1.6),
            (0.85, -0.85, 2.6),
            (0.9, 0, 2.85),
            (0.85, 0.85, 2.6),
            (0.8, 1.0, 1.6),
            (0.75, 0.9, 0.5),
        ],
        0.14,
        kit.rubber(),
    )
    for x in (-1.1, 1.2):
        for y in (-0.5, 0.5):
            cyl(0.2, 0.3, (x, y, 0.14), kit.rubber())
    slab(
        [(0.3, 0.75), (1.0, 0.55), (4.1, 1.15), (4.35, 1.5), (4.1, 1.85), (0.9, 1.5), (0.3, 1.3)],
        0.22,
        (0, -0.98, 0),
        kit.alloy(grime=dirt, dust=dust),
        FRONT,
        0.08,
    )
    slab(
        [(0.5, 0.85), (1.0, 0.7), (3.0, 1.1), (3.0, 1.62), (0.9, 1.4), (0.5, 1.2)],
        0.12,
        (0, -1.12, 0),
        shell,
        FRONT,
        0.05,
    )
    for spot in ((0.7, 1.0), (2.75, 1.25), (1.7, 1.1), (2.75, 1.5)):
        kit.hex_bolt((spot[0], -1.18, spot[1]), bare, 0.09, FRONT)
    with place((4.05, -0.72, 1.78), FRONT):
        disc_and_guard(dirt, dust)
    kit.sign("badge-cs70", 0.75, 0.25, (-0.05, -0.69, 1.83), FRONT, dust=dust, grime=dirt)
    kit.sign("badge-halden", 1.0, 0.26, (1.95, -1.19, 1.27), (90, 0, 0), dust=dust * 0.5, grime=dirt * 0.6)


def disc_and_guard(dirt: float, dust: float) -> None:
    """The abrasive disc, its flange and the guard over its upper rear; axis along z."""
    grit = kit.surface((0.15, 0.135, 0.115), rough=0.95, grain=55, bump=0.9, scratch=0, dust=0.0, grime=0.4)
    ring(1.72, 0.12, 0.045, (0, 0, 0), grit, bevel=0.01, sides=128)
    lathe([(0.72, 0.024), (0.42, 0.026)], (0, 0, 0.005), kit.surface((0.5, 0.48, 0.4), rough=0.7))
    cyl(0.4, 0.12, (0, 0, 0.09), kit.steel())
    kit.hex_bolt((0, 0, 0.14), kit.steel(), 0.14)
    outline = [(1.92 * math.cos(math.radians(a)), 1.92 * math.sin(math.radians(a))) for a in range(28, 218, 5)]
    outline += [(0.95 * math.cos(math.radians(a)), 0.95 * math.sin(math.radians(a))) for a in range(213, 25, -8)]
    slab(outline, 0.06, (0, 0, 0.19), kit.paint((0.02, 0.021, 0.023), grime=dirt, dust=dust), bevel=0.02)
    rim = [(1.95 * math.cos(math.radians(a)), 1.95 * math.sin(math.radians(a))) for a in range(28, 218, 4)]
    rim += [(1.86 * math.cos(math.radians(a)), 1.86 * math.sin(math.radians(a))) for a in range(217, 27, -4)]
    slab(rim, 0.5, (0, 0, -0.03), kit.paint(GRAPHITE, grime=dirt, dust=dust), bevel=0.02)


def blade_outline(length: float, teeth: int) -> list[tuple[float, float]]:
    """A double-sided hedge-trimmer blade with pointed teeth."""
    top, pitch = [], length / teeth
    for k in range(teeth):
        x = k * pitch
        top += [
            (x, 0.17),
            (x + pitch * 0.3, 0.17),
            (x + pitch * 0.46, 0.46),
            (x + pitch * 0.66, 0.46),
            (x + pitch * 0.8, 0.17),
        ]
    return [*top, (length, 0.12), (length, -0.12), *[(x, -y) for x, y in reversed(top)]]


def hedge_trimmer(battery: bool = False) -> None:
    """A hedge trimmer lying with its blade towards +x."""
    shell, dark = kit.plastic(TEAL, dust=0.3), kit.plastic(GRAPHITE, dust=0.3)
    bare = kit.steel(rough=0.28, scale=1.5, grime=0.5)
    slab(
        [(-1.0, 0.25), (0.9, 0.3), (1.3, 0.55), (1.1, 0.95), (0.2, 1.25), (-0.9, 1.3)],
        1.1,
        (0, 0, 0),
        shell,
        FRONT,
        0.16,
    )
    slab([(0.9, 0.28), (1.9, 0.3), (2.0, 0.55), (1.2, 0.75)], 0.8, (0, 0, 0), kit.alloy(), FRONT, 0.08)
    slab(blade_outline(5.6, 15), 0.05, (1.6, 0, 0.44), bare, bevel=0.015)
    slab(blade_outline(5.6, 15), 0.05, (1.73, 0, 0.385), bare, bevel=0.015)
    box((5.3, 0.2, 0.06), (4.4, 0, 0.5), kit.steel(rough=0.4), bevel=0.02)
    for k in range(6):
        kit.hex_bolt((2.2 + k * 0.9, 0, 0.52), kit.steel(), 0.07)
    slab(
        [(-0.5, -0.75), (0.25, -0.75), (0.25, 0.75), (-0.5, 0.75)],
        0.04,
        (1.45, 0, 1.05),
        kit.plastic((0.02, 0.02, 0.02)),
        (0, 70, 0),
        0.015,
    )
    tube(
        [
            (0.9, -0.62, 0.5),
            (0.85, -0.8, 1.1),
            (0.8, -0.55, 1.75),
            (0.8, 0, 1.9),
            (0.8, 0.55, 1.75),
            (0.85, 0.8, 1.1),
            (0.9, 0.62, 0.5),
        ],
        0.12,
        kit.rubber(),
    )
    tube([(-0.8, 0, 0.45), (-1.9, 0, 0.45), (-2.5, 0, 0.75), (-2.3, 0, 1.25), (-0.8, 0, 1.2)], 0.17, dark)
    box((0.45, 0.1, 0.22), (-1.55, 0, 1.0), kit.plastic((0.3, 0.1, 0.01)), (0, -12, 0), 0.04)
    for k in range(0 if battery else 6):
        box((0.5, 0.03, 0.05), (0.3, -0.56, 0.55 + k * 0.09), kit.surface((0.006, 0.006, 0.006)), bevel=0)
    if battery:
        box((0.9, 1.15, 0.75), (-0.95, 0, 0.75), dark, bevel=0.1)
        box((0.12, 0.6, 0.18), (-1.42, -0.2, 1.0), kit.plastic((0.3, 0.1, 0.01)), bevel=0.04)
        kit.sign("badge-bp40", 0.72, 0.26, (-0.95, -0.585, 0.75), FRONT)
    else:
        recoil((-0.5, -0.6, 0.8), 0.52, dark)
        box((0.8, 1.0, 0.55), (-0.55, 0, 0.27), kit.plastic((0.55, 0.53, 0.45), dust=0.2), bevel=0.1)
        cap((-0.75, -0.5, 0.25), 0.17, FRONT)
        box((0.5, 0.5, 0.4), (0.5, 0.55, 0.75), kit.steel(rough=0.5, grime=0.9), bevel=0.06)
    kit.sign("badge-halden", 0.7, 0.2, (0.0 if battery else 0.38, -0.565, 1.0 if battery else 1.08), FRONT, grime=0.3)
    kit.sign(
        "badge-hb40" if battery else "badge-ht26",
        0.5,
        0.17,
        (0.0 if battery else 0.38, -0.565, 0.7 if battery else 0.4),
        FRONT,
        grime=0.3,
    )


def engine(tone: kit.Vec = GRAPHITE, tank: kit.Vec | None = None) -> None:
    """A small horizontal-shaft four-stroke, standing at the origin; starter to -y, shaft to +x."""
    cast, dark = kit.alloy(grime=0.7), kit.plastic(tone, dust=0.4)
    box((1.8, 1.7, 1.1), (0, 0.1, 0.6), cast, bevel=0.12)
    for k in range(6):
        kit.hex_bolt((-0.75 + k * 0.3, -0.76, 0.22), kit.steel(), 0.07, FRONT)
    box((1.9, 0.5, 1.9), (0, -0.75, 1.15), dark, bevel=0.22)
    recoil((0, -1.05, 1.15), 0.85, kit.paint((0.02, 0.02, 0.022), dust=0.4))
    with place((0.05, 0.5, 1.2), (-25, 0, 0)):
        fins((1.3, 1.1, 1.2), (0, 0, 0.3), 9, cast)
        box((0.9, 0.8, 0.2), (0, 0, 1.0), cast, bevel=0.06)
    box((1.0, 0.7, 0.9), (1.05, 0.3, 1.65), kit.steel(rough=0.5, grime=0.8), bevel=0.12)
    for k in range(5):
        box((0.6, 0.02, 0.06), (1.05, -0.06, 1.4 + k * 0.12), kit.surface((0.004, 0.004, 0.004)), bevel=0)
    box((0.8, 1.0, 0.95), (-1.1, 0.1, 1.6), dark, bevel=0.15)
    cap((-0.7, -0.72, 0.35), 0.16, (70, 0, 0), (0.3, 0.2, 0.02))
    kit.tube([(-0.9, -0.5, 1.2), (-1.0, -0.9, 1.6), (-0.6, -0.8, 2.1)], 0.04, kit.rubber())
    kit.tube([(0.4, -0.5, 2.0), (0.6, 0.1, 2.35), (0.2, 0.8, 2.2)], 0.05, kit.rubber())
    if tank:
        box((2.3, 1.5, 0.75), (0, -0.1, 2.45), kit.paint(tank, dust=0.4), bevel=0.28)
        cap((-0.4, -0.1, 2.8), 0.32)


def outlet(at: kit.Vec) -> None:
    """A round power outlet on a panel facing -y."""
    with place(at, FRONT):
        cyl(0.38, 0.1, (0, 0, 0.02), kit.plastic((0.02, 0.02, 0.02)), bevel=0.04)
        cyl(0.3, 0.06, (0, 0, 0.06), kit.plastic((0.06, 0.06, 0.06)))
        for x, h in ((-0.1, 0.14), (0.1, 0.11)):
            box((0.035, h, 0.02), (x, 0.06, 0.09), kit.surface((0.002, 0.002, 0.002)), bevel=0)
        cyl(0.045, 0.02, (0, -0.12, 0.09), kit.surface((0.002, 0.002, 0.002)))


def frame(size: kit.Vec, mat: object, radius: float = 0.15) -> None:
    """A tube frame: two side loops, joined by cross tubes, standing on rubber feet."""
    x, y, z = size[0] / 2, size[1] / 2, size[2]
    for side in (-1, 1):
        tube(
            [(-x, side * y, 0.35), (x, side * y, 0.35), (x, side * y, z), (-x, side * y, z)],
            radius,
            mat,
            True,
            0.7,
            False,
        )
    for px, pz in ((-x, 0.35), (x, 0.35), (-x, z), (x, z)):
        shift = 0.7 if px < 0 else -0.7
        tube([(px + shift, -y, pz), (px + shift, y, pz)], radius * 0.9, mat, curved=False)
    for px in (-x + 0.8, x - 0.8):
        for side in (-1, 1):
            cyl(0.25, 0.3, (px, side * y, 0.13), kit.rubber())


def generator() -> None:
    """A frame generator with its panel towards -y."""
    frame((6.2, 4.4, 4.6), kit.paint((0.025, 0.025, 0.028), dust=0.5))
    with place((-1.4, 0.2, 0.5), scale=1.15):
        engine(GRAPHITE)
    with place((1.4, 0.3, 1.7), ALONG):
        lathe([(1.05, -1.0), (1.05, 0.8), (0.95, 1.0), (0, 1.05)], (0, 0, 0), kit.alloy(grime=0.7))
        for k in range(28):
            with place((0, 0, 0), (0, 0, 360 * k / 28)):
                box((0.08, 0.05, 1.5), (1.06, 0, -0.1), kit.alloy(), bevel=0.01)
    box((5.2, 3.6, 1.05), (-0.1, 0.1, 4.35), kit.paint(PLUM, dust=0.45), bevel=0.38)
    cap((-0.9, 0.0, 4.86), 0.42)
    cyl(0.3, 0.06, (0.6, -0.6, 4.9), kit.surface((0.5, 0.5, 0.46)))
    box((2.9, 0.4, 2.5), (1.35, -1.95, 2.0), kit.plastic(GRAPHITE, dust=0.3), bevel=0.1)
    for x in (0.45, 1.35):
        outlet((x, -2.16, 1.5))
    cyl(0.5, 0.12, (2.25, -2.16, 1.5), kit.plastic((0.2, 0.03, 0.02)), FRONT, 0.05)
    cyl(0.33, 0.08, (2.25, -2.24, 1.5), kit.plastic((0.02, 0.02, 0.02)), FRONT)
    cyl(0.36, 0.1, (0.5, -2.17, 2.55), kit.steel(), FRONT)
    cyl(0.31, 0.02, (0.5, -2.23, 2.55), kit.surface((0.7, 0.7, 0.66), dust=0), FRONT)
    box((0.025, 0.01, 0.24), (0.55, -2.245, 2.6), kit.surface((0.3, 0.01, 0.01)), (0, 25, 0), 0)
    for k in range(2):
        box((0.3, 0.16, 0.5), (1.25 + k * 0.45, -2.18, 2.55), kit.plastic((0.015, 0.015, 0.015)), bevel=0.03)
        box((0.2, 0.1, 0.2), (1.25 + k * 0.45, -2.26, 2.62), kit.plastic((0.3, 0.03, 0.02)), (25, 0, 0), 0.02)
    kit.sign("badge-g3200", 1.3, 0.43, (1.35, -2.165, 3.0), FRONT, grime=0.25)
    kit.sign("badge-orrin", 2.4, 0.62, (-0.9, -1.71, 4.35), FRONT, grime=0.25)


def mower(dirt: float = 0.5) -> None:
    """A ride-on mower, nose towards +x, standing on y = 0."""
    body, ivory = kit.paint(PLUM, dust=dirt, grime=dirt), kit.paint(IVORY, dust=dirt)
    dark = kit.plastic(GRAPHITE, dust=dirt)
    hood = [(1.2, 4.0), (1.0, 8.2), (1.6, 9.0), (5.6, 8.3), (8.4, 7.4), (9.0, 6.6), (9.1, 4.2), (8.6, 3.7)]
    slab(hood, 5.2, (0, 0, 0), body, FRONT, 0.55)
    box((0.3, 4.0, 2.3), (9.05, 0, 5.1), dark, bevel=0.12)
    for k in range(6):
        box((0.12, 3.6, 0.13), (9.22, 0, 4.3 + k * 0.33), kit.plastic((0.01, 0.01, 0.01)), bevel=0.03)
    for y in (-1.75, 1.75):
        box(
            (0.35, 1.2, 0.7),
            (8.95, y, 6.55),
            kit.surface((0.75, 0.75, 0.72), 0.5, 0.12, scratch=0, grime=0.1),
            (0, -25, 0),
            0.14,
        )
    for k in range(7):
        box((0.85, 0.08, 0.14), (3.0 + k * 0.62, -2.62, 5.4 + k * 0.0), dark, (0, -62, 0), 0.02)
    box((15.6, 2.8, 0.8), (0.8, 0, 3.1), kit.paint((0.02, 0.02, 0.022), dust=dirt), bevel=0.12)
    box((4.2, 8.2, 0.35), (-1.0, 0, 3.35), kit.rubber(dust=0.7), bevel=0.1)
    fender = [
        (-8.2, 4.6),
        (-8.0, 6.2),
        (-6.6, 6.9),
        (-3.0, 6.75),
        (-2.1, 5.6),
        (-1.7, 3.6),
        (-2.3, 3.6),
        (-3.1, 5.5),
        (-4.2, 6.1),
        (-6.6, 6.1),
        (-7.3, 5.6),
        (-7.6, 4.6),
    ]
    slab(fender, 8.6, (0, 0, 0), body, FRONT, 0.2)
    seat = kit.surface((0.02, 0.02, 0.022), rough=0.55, dust=0.35, grain=30, bump=0.3)
    box((3.8, 3.9, 0.85), (-4.7, 0, 7.5), seat, (0, -4, 0), 0.38)
    box((0.95, 3.8, 3.2), (-6.7, 0, 9.0), seat, (0, -14, 0), 0.4)
    tube([(0.9, 0, 7.8), (-0.7, 0, 9.6)], 0.28, dark, curved=False)
    with place((-0.9, 0, 9.8), (0, -38, 0)):
        tube(
            [(1.6 * math.cos(t), 1.6 * math.sin(t), 0) for t in (math.tau * k / 12 for k in range(12))],
            0.19,
            kit.rubber(dust=0.2),
            True,
        )
        for turn in (30, 150, 270):
            with place((0, 0, 0), (0, 0, turn)):
                box((1.5, 0.3, 0.14), (0.8, 0, -0.05), dark, bevel=0.05)
        cyl(0.5, 0.3, (0, 0, 0.03), dark, bevel=0.1)
    box((1.4, 4.6, 2.0), (0.75, 0, 7.7), dark, (0, -20, 0), 0.25)
    deck = kit.paint(IVORY, dust=0.8, grime=0.9)
    slab(kit.rounded(7.2, 10.4, 2.6, 10), 1.0, (1.9, 0, 1.55), deck, bevel=0.18)
    slab(kit.rounded(5.6, 8.8, 2.4, 10), 0.3, (1.9, 0, 2.2), deck, bevel=0.12)
    for y in (-2.5, 2.5):
        cyl(1.0, 0.5, (1.9, y, 2.55), kit.paint((0.02, 0.02, 0.02), dust=0.7))
    box((3.0, 2.0, 0.25), (1.9, -5.9, 1.75), kit.plastic((0.02, 0.02, 0.02), dust=0.8), (24, 0, 0), 0.08)
    for side in (-1, 1):
        wheel((6.6, side * 3.6, 1.95), 1.95, 1.7, ivory)
        wheel((-5.4, side * 3.6, 2.55), 2.55, 2.3, ivory, 26)
    kit.sign("badge-orrin", 3.2, 0.75, (5.0, -2.63, 7.15), (90, 0, 0), grime=0.25)
    kit.sign("badge-rm42", 1.5, 0.5, (-5.4, -4.32, 6.5), (90, 0, 0), grime=0.25)
    box((0.16, 0.35, 1.6), (-2.9, -3.6, 7.6), dark, (0, 12, 0), 0.06)
    kit.ball(0.28, (-2.75, -3.6, 8.4), kit.plastic((0.3, 0.1, 0.02)))


def volute(radius: float, port: float, tone: object) -> None:
    """A pump casing, axis along x, suction towards +x, discharge upward; centred on the shaft."""
    cast = tone
    with place((0, 0, 0), ALONG):
        cyl(radius, 1.1, (0, 0, 0), cast, bevel=0.14)
        cyl(radius * 1.12, 0.2, (0, 0, -0.5), cast, bevel=0.05)
        cyl(radius * 0.92, 0.3, (0, 0, 0.62), cast, bevel=0.1)
        ring(port, port * 0.8, 0.8, (0, 0, 1.1), cast)
        ring(port * 1.25, port * 0.8, 0.18, (0, 0, 1.0), cast)
        for k in range(6):
            ring(port * 1.05, port * 0.9, 0.035, (0, 0, 1.2 + k * 0.06), cast, bevel=0.01)
        for k in range(5):
            t = math.radians(72 * k + 36)
            spot = (radius * 0.98 * math.cos(t), radius * 0.98 * math.sin(t), 0.6)
            cyl(0.09, 0.7, spot, kit.steel())
            kit.hex_bolt((*spot[:2], 0.8), kit.steel(), 0.12)
    box((0.95, radius * 1.1, radius * 1.3), (0, radius * 0.35, radius * 0.75), cast, bevel=0.25)
    with place((0, radius * 0.35, radius * 1.4)):
        ring(port, port * 0.8, 0.9, (0, 0, 0.25), cast)
        ring(port * 1.3, port * 0.8, 0.18, (0, 0, 0.05), cast)
        for k in range(6):
            ring(port * 1.05, port * 0.9, 0.035, (0, 0, 0.4 + k * 0.06), cast, bevel=0.01)
    cyl(0.18, 0.2, (0, -radius * 0.5, radius * 1.0), kit.brass(), bevel=0.04)
    cyl(0.16, 0.22, (0.1, -radius * 0.98, -radius * 0.4), kit.brass(), FRONT, 0.03)


def pump(radius: float, port: float, badge: str, dirt: float = 0.6) -> None:
    """An engine pump in a tube frame, casing towards +x."""
    frame((5.6, 3.6, 3.9), kit.paint((0.03, 0.03, 0.033), dust=dirt))
    box((4.4, 2.9, 0.16), (0, 0, 0.55), kit.paint((0.03, 0.03, 0.033), dust=dirt))
    with place((-1.1, 0.1, 0.63)):
        engine(GRAPHITE, PALE)
    with place((1.15, 0.1, 1.75)):
        volute(radius, port, kit.paint(BLUE, dust=dirt, grime=dirt, rough=0.4))
    kit.sign(badge, 0.95, 0.32, (1.15, 0.1 - radius * 1.0 - 0.03, 2.1), FRONT, grime=0.4)
    kit.sign("badge-tessaly", 1.3, 0.43, (-1.1, -0.77, 3.08), FRONT, grime=0.3)


def washer() -> None:
    """A pressure washer on two wheels, with a coiled hose on its handle."""
    bar = kit.paint((0.03, 0.03, 0.033), dust=0.4)
    for side in (-1, 1):
        tube(
            [
                (2.4, side * 1.6, 0.45),
                (2.0, side * 1.6, 1.1),
                (-1.9, side * 1.6, 1.1),
                (-3.2, side * 1.6, 5.0),
                (-3.9, side * 1.6, 6.6),
            ],
            0.16,
            bar,
            False,
            0.8,
            False,
        )
        cyl(0.26, 0.4, (2.4, side * 1.6, 0.22), kit.rubber())
        wheel((-1.9, side * 2.25, 1.4), 1.4, 0.9, kit.plastic(PALE), 20)
    for spot in ((-3.9, 6.6), (-2.75, 3.7), (1.9, 1.1), (-1.5, 1.1)):
        tube([(spot[0], -1.6, spot[1]), (spot[0], 1.6, spot[1])], 0.16, bar, curved=False)
    tube([(-3.9, -1.2, 6.6), (-3.9, 1.2, 6.6)], 0.22, kit.rubber(), curved=False)
    cyl(0.13, 5.0, (-1.9, 0, 1.4), kit.steel(), FRONT)
    box((4.0, 3.0, 0.16), (0.1, 0, 1.3), bar)
    with place((-0.3, 0.1, 1.38)):
        engine(GRAPHITE, PALE)
    with place((1.75, 0.0, 2.0)):
        box((0.9, 1.0, 1.1), (0, 0, 0), kit.alloy(), bevel=0.1)
        box((0.7, 1.1, 0.9), (0.75, 0, 0.05), kit.brass(dust=0.2), bevel=0.06)
        for y in (-0.33, 0, 0.33):
            kit.hex_bolt((0.75, y, 0.5), kit.brass(), 0.14)
            kit.hex_bolt((1.1, y, 0.05), kit.brass(), 0.13, ALONG)
        cyl(0.16, 0.6, (0.75, -0.8, -0.1), kit.brass(), FRONT)
    hose = kit.rubber(dust=0.2)
    loops = []
    for k in range(60):
        t = math.tau * k / 15
        loops.append(
            (-3.55 - 0.14 * math.sin(t) - 0.06 * (k // 15), 1.25 * math.sin(t), 4.75 + 1.25 * math.cos(t) - k * 0.008)
        )
    tube([*loops, (-2.6, -2.3, 3.2), (-0.4, -2.6, 1.2), (1.6, -2.0, 0.6), (2.5, -0.9, 1.9)], 0.11, hose)
    tube([(-2.6, -1.95, 2.2), (-3.5, -1.95, 5.2), (-4.1, -2.0, 7.3)], 0.07, kit.steel())
    box((0.28, 0.3, 1.5), (-3.75, -1.97, 6.2), kit.plastic((0.02, 0.02, 0.02)), (0, -17, 0), 0.1)
    kit.sign("badge-tessaly", 1.3, 0.43, (-0.3, -0.77, 3.85), FRONT, grime=0.3)
    box((1.8, 0.1, 0.7), (-2.95, -0.0, 3.0), kit.plastic(BLUE), (0, 0, 90), 0.04)
    kit.sign("badge-pw240", 1.3, 0.43, (0.6, -1.52, 1.3), FRONT, grime=0.3, radius=0.03)
