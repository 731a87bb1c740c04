"""What stands in front of the camera in every demo photograph."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import kit
import machines as m
import parts as p
from kit import BLUE, GRAPHITE, PALE, PLUM, TEAL

Scene = Callable[[Path], None]
SCENES: dict[str, Scene] = {}


def scene(*keys: str) -> Callable[[Callable[[Path, str], None]], Callable[[Path, str], None]]:
    """Register a function for one or more raw renders; it is told which one it makes."""

    def keep(function: Callable[[Path, str], None]) -> Callable[[Path, str], None]:
        for key in keys:
            SCENES[key] = lambda path, key=key: function(path, key)
        return function

    return keep


# ---------------------------------------------------------------- serial plates

HOUSINGS = {
    "26-0041": TEAL,
    "26-0052": TEAL,
    "26-0057": PLUM,
    "26-0063": GRAPHITE,
    "26-0068": PLUM,
    "26-0071": BLUE,
    "26-0074": PALE,
    "26-0080": PLUM,
    "26-0083": BLUE,
    "26-0090": GRAPHITE,
}


@scene(*(f"{claim}-plate" for claim in HOUSINGS))
def unit_plate(path: Path, key: str) -> None:
    """A plate riveted on a painted or moulded housing, seen close and a little askew."""
    claim = key[:7]
    seed = int(claim[3:])
    tone = HOUSINGS[claim]
    glossy = claim in ("26-0057", "26-0068", "26-0080", "26-0071", "26-0083")
    mat = kit.paint(tone, scale=1.6, grime=0.7) if glossy else kit.plastic(tone, scale=1.6, grime=0.7)
    kit.daylight(side=-1 if seed % 2 else 1, power=0.55, lamp=0.5, back=1 + seed % 4)
    kit.box((2.6, 1.5, 0.6), (0, 0, -0.3), mat, bevel=0.12)
    kit.box((6, 0.5, 0.5), (0, 1.15, -0.42), mat, bevel=0.1)
    kit.box((6, 0.4, 0.5), (0, -1.1, -0.5), mat, bevel=0.1)
    kit.box((8, 8, 0.2), (0, 0, -0.75), kit.plastic(GRAPHITE, grime=0.9), bevel=0)
    kit.sign(
        f"plate-{claim}",
        1.6,
        1.0,
        (0, 0, 0.012),
        (0, 0, (seed % 5 - 2) * 0.4),
        relief=2.2,
        scale=3.0,
        seed=seed * 0.13,
        metallic=0.32,
        rough=0.38,
        grime=0.45,
        scratch=0.7,
    )
    for x in (-0.74, 0.74):
        for y in (-0.44, 0.44):
            kit.rivet((x, y, 0.02), kit.alloy(scale=3), 0.042)
    for x in (-1.15, 1.15):
        kit.socket_bolt((x, 0.55 - seed % 3 * 0.5, 0.0), kit.steel(scale=2), 0.085)
    m.decoration(seed, mat)
    dx, dy = (seed % 7 - 3) * 0.045, -0.62 - (seed % 3) * 0.18
    kit.shoot(
        path, (dx, dy, 1.72 + (seed % 4) * 0.07), (0.01 * (seed % 5), 0.0, 0), 35, 1.2, (0, 0, 0), seed, exposure=0.75
    )


# ---------------------------------------------------------------- whole machines


@scene("26-0041-whole")
def saw(path: Path, key: str) -> None:
    """The cut-off saw on the bench."""
    kit.daylight(-1, 1.0, 1.0)
    kit.bench("wood", 4)
    m.cut_off_saw()
    kit.shoot(path, (0.6, -8.4, 4.1), (1.5, 0, 1.35), 32, 1.2, (1, -1, 1.5), 4, exposure=0.5)


@scene("26-0063-whole")
def dusty_saw(path: Path, key: str) -> None:
    """Another saw of the same kind, grey with concrete dust, from the other end."""
    kit.daylight(1, 1.0, 0.8, 2.0)
    kit.yard(8, far=22)
    with kit.place((0, 0, 0), (0, 0, 28)):
        m.cut_off_saw(dirt=0.9, dust=0.85)
    kit.shoot(path, (4.6, -7.8, 5.6), (1.35, -0.1, 1.2), 32, 1.2, (1.6, -1, 1.5), 9, exposure=0.6)


@scene("26-0052-whole")
def petrol_trimmer(path: Path, key: str) -> None:
    """The petrol hedge trimmer."""
    kit.daylight(1, 1.0, 1.0)
    kit.bench("steel", 7)
    with kit.place((-2.0, 0, 0), (0, 0, 12)):
        m.hedge_trimmer()
    kit.shoot(path, (-0.4, -7.7, 4.4), (0.2, 0.15, 0.5), 30, 1.2, (-1, -0.4, 0.8), 5, exposure=0.5)


@scene("26-0090-whole")
def battery_trimmer(path: Path, key: str) -> None:
    """The battery hedge trimmer."""
    kit.daylight(-1, 1.0, 1.0)
    kit.bench("wood", 11)
    with kit.place((-2.0, 0, 0), (0, 0, -14)):
        m.hedge_trimmer(battery=True)
    kit.shoot(path, (-0.9, -8.1, 5.3), (0.45, -0.35, 0.5), 30, 1.2, (-1, -0.4, 0.8), 6, exposure=0.5)


@scene("26-0057-whole")
def generating_set(path: Path, key: str) -> None:
    """The generator on the floor."""
    kit.daylight(-1, 1.0, 1.0, 2.0, -1.0)
    kit.yard(3)
    with kit.place((0, 0, 0), (0, 0, -24)):
        m.generator()
    kit.shoot(path, (0.3, -11.0, 6.3), (0.1, 0, 2.3), 34, 1.2, (0, -2, 2.5), 7, exposure=0.6)


@scene("26-0068-whole", "26-0080-whole")
def ride_on(path: Path, key: str) -> None:
    """The two ride-on mowers: same kind, other side of the shop."""
    old = key.startswith("26-0068")
    kit.daylight(-1 if old else 1, 1.0, 1.0, 3.2, -1.0)
    kit.yard(5 if old else 14, far=30)
    with kit.place((0, 0, 0), (0, 0, -32 if old else 33)):
        m.mower(0.75 if old else 0.35)
    eye = (2.6, -23.5, 12) if old else (-1.8, -22.5, 10)
    kit.shoot(path, eye, (0.6, 0, 4.2), 34, 1.2, (0, -4, 5), 8 if old else 12, exposure=0.6)


@scene("26-0071-whole", "26-0083-whole")
def pumps(path: Path, key: str) -> None:
    """The trash pump, and its smaller sister."""
    big = key.startswith("26-0071")
    kit.daylight(1 if big else -1, 1.0, 1.0, 2.0, -1.0)
    kit.yard(6 if big else 21, wet=(1.5, -2.2, 2.6) if big else None)
    with kit.place((0, 0, 0), (0, 0, -38 if big else -20), 1.0 if big else 0.9):
        m.pump(1.3 if big else 1.0, 0.48 if big else 0.34, "badge-tp80" if big else "badge-tp50", 0.75 if big else 0.35)
    eye = (1.1, -10.2, 5.5) if big else (1.9, -8.9, 4.4)
    kit.shoot(path, eye, (0.2, 0, 1.75), 34, 1.2, (0.4, -1.5, 2), 10 if big else 13, exposure=0.6)


@scene("26-0074-whole")
def pressure_washer(path: Path, key: str) -> None:
    """The pressure washer on its two wheels."""
    kit.daylight(-1, 1.0, 1.0, 2.2, -1.0)
    kit.yard(17)
    with kit.place((0, 0, 0), (0, 0, -28)):
        m.washer()
    kit.shoot(path, (1.3, -12.6, 6.4), (-0.7, 0, 3.1), 33, 1.2, (0, -1.5, 3), 11, exposure=0.6)


# ---------------------------------------------------------------- parts on the bench


def tag(face: str, at: kit.Vec, turn: float = 0) -> None:
    """A paper tag."""
    kit.sign(face, 1.5, 0.5, at, (0, 0, turn), radius=0.05, scratch=0.1)


@scene("26-0041-failed-part")
def block(path: Path, key: str) -> None:
    """The short block taken out of the saw."""
    kit.daylight(-1, 1.0, 1.0)
    kit.bench("steel", 3)
    p.short_block((0, 0, 0), (0, 0, -28))
    kit.rag((4.5, 4.5, 0), 6, (0.25, 0.03, 0.025), 4)
    kit.shoot(path, (0.6, -9.4, 6.2), (0.55, 0, 2.65), 34, 0.8, (0, -1.2, 3), 21, exposure=0.5)


@scene("26-0041-damage")
def scored(path: Path, key: str) -> None:
    """The seized piston, its scored skirt to the camera, the cylinder behind."""
    kit.daylight(-1, 1.0, 0.7, 1.0, -3.0)
    kit.bench("card", 5, clutter=False)
    p.piston(True, (0, 0, 0), (0, 0, 12))
    p.short_block((4.4, 4.8, 0), (0, 0, -30))
    kit.shoot(path, (-0.3, -4.6, 2.2), (0.1, 0, 1.12), 36, 0.7, (0, -1.2, 1), 22, 1536, 40, 0.5)


@scene("26-0041-old-and-new")
def pistons(path: Path, key: str) -> None:
    """The scored piston beside the one that replaces it."""
    kit.daylight(1, 1.0, 0.7, 1.0, -2.0)
    kit.bench("mat", 9, clutter=False)
    p.piston(True, (-1.7, 0, 0), (0, 0, -14))
    p.piston(False, (1.7, 0.3, 0), (0, 0, 30))
    tag("tag-old", (-1.8, -2.1, 0.03), 6)
    tag("tag-new", (1.7, -1.9, 0.03), -5)
    kit.shoot(path, (0.2, -7.2, 4.6), (0, -0.3, 0.9), 38, 0.8, (0, -1, 1.2), 23, exposure=0.6)


@scene("26-0041-engine-plate")
def stamped_boss(path: Path, key: str) -> None:
    """The engine serial punched into the crankcase."""
    cast = kit.alloy(grime=0.8, rough=0.5, scale=1.5)
    kit.daylight(-1, 0.8, 0.6, 1.0, 3.0)
    kit.box((8, 8, 0.4), (0, 0, -0.5), cast)
    kit.box((2.3, 1.1, 0.5), (0, 0, -0.22), cast, bevel=0.1)
    kit.sign(
        "stamp-saw",
        2.1,
        0.92,
        (0, 0, 0.03),
        relief=3.0,
        metallic=0.9,
        rough=0.42,
        grime=0.55,
        scratch=1.0,
        scale=2.0,
        radius=0.1,
    )
    for k in range(5):
        kit.box((4.4, 0.09, 0.7), (0.4, 0.85 + k * 0.26, -0.1), cast, bevel=0.03)
    for x in (-1.5, 1.55):
        kit.socket_bolt((x, -0.5, -0.3), kit.steel(), 0.16)
    kit.tube([(-2.5, -1.0, 0), (-0.8, -0.95, 0.1), (1.0, -1.15, 0.0), (2.6, -0.9, 0.1)], 0.12, kit.rubber())
    kit.shoot(path, (0.12, -0.9, 2.25), (0, -0.02, 0), 34, 0.9, (0, 0, 0), 24, exposure=0.5)


@scene("26-0041-compression", "26-0080-leak-down")
def dial(path: Path, key: str) -> None:
    """A gauge propped on a rag, its hose going off to the engine."""
    psi = key.startswith("26-0041")
    kit.daylight(-1 if psi else 1, 0.9, 0.7, 1.0, 3.0)
    kit.bench("wood" if psi else "steel", 13 if psi else 15)
    kit.rag((0, 0.7, 0), 5.5, (0.1, 0.16, 0.25) if psi else (0.3, 0.03, 0.025), 6)
    with kit.place((0, 0, 1.7), (42, 0, 5 if psi else -4)):
        p.gauge("dial-psi" if psi else "dial-leak", 42 / 200 if psi else 0.68)
        kit.box((3, 2.5, 1.2), (0, 0.2, -1.0), kit.rubber(), bevel=0.3)
    kit.tube(
        [(0, -2.0, 0.3), (0.2, -2.9, 0.2), (2.2, -3.4, 0.2), (4.6, -1.2, 0.2), (4.9, 3.5, 0.3), (3.5, 7, 0.6)],
        0.2,
        kit.rubber(),
    )
    p.short_block((4.2, 8.0, 0), (0, 0, 20))
    kit.shoot(path, (-0.2, -5.5, 7.2), (0.15, 0.0, 1.5), 34, 0.8, (0, -0.2, 1.7), 25 if psi else 26, exposure=0.4)


@scene("26-0052-failed-part")
def stripped(path: Path, key: str) -> None:
    """The hedge trimmer's gearbox, opened."""
    kit.daylight(-1, 1.0, 0.8, 1.0, 2.0)
    kit.bench("card", 17, clutter=False)
    with kit.place((0, 0, 0), (0, 0, 8)):
        p.gearbox()
    kit.shoot(path, (0.0, -6.2, 7.6), (0.35, -0.35, 0.6), 36, 0.8, (0, -0.8, 1.1), 27, exposure=0.5)


@scene("26-0057-failed-part")
def burnt_board(path: Path, key: str) -> None:
    """The generator's regulator board."""
    kit.daylight(1, 1.0, 0.8, 1.0, 1.0)
    kit.bench("wood", 19, clutter=False)
    with kit.place((0, 0, 0), (0, 0, -9)):
        p.regulator()
    kit.shoot(path, (0.2, -6.9, 7.2), (0.1, -0.5, 0.5), 36, 0.8, (0.8, -0.6, 0.8), 28, exposure=0.5)


@scene("26-0063-failed-part")
def cracked_coil(path: Path, key: str) -> None:
    """The ignition coil with its split potting."""
    kit.daylight(-1, 1.2, 0.9, 1.0, 3.0)
    kit.bench("card", 23, clutter=False)
    with kit.place((-1.0, 0, 0), (0, 0, 14)):
        p.coil()
    kit.shoot(path, (-0.2, -6.4, 6.7), (0.35, 0.1, 0.5), 34, 0.8, (-1, -0.2, 1.5), 29, exposure=0.6)


@scene("26-0063-spark-test", "26-0090-voltage")
def metered(path: Path, key: str) -> None:
    """A multimeter with its probes on the part."""
    is_coil = key.startswith("26-0063")
    kit.daylight(-1 if is_coil else 1, 1.0, 0.8, 1.0, 3.0)
    kit.bench("wood" if is_coil else "mat", 27 if is_coil else 31, clutter=not is_coil)
    with kit.place((-2.7, 0, 0), (7, 0, 10)):
        p.multimeter("lcd-ol" if is_coil else "lcd-volt")
    red, black = (0.4, 0.02, 0.015), (0.01, 0.01, 0.01)
    if is_coil:
        with kit.place((2.4, 0.5, 0), (0, 0, 20), 0.72):
            p.coil()
        tips = ((2.13, -0.46, 0.5), (5.1, 0.05, 0.42))
    else:
        with kit.place((2.6, 0.9, 0), (0, 0, -14), 0.85):
            p.battery_pack(True)
        tips = ((1.6, 0.35, 1.9), (3.2, -0.15, 1.9))
    for (x, y, z), tone, jack in zip(tips, (black, red), (-3.0, -1.6), strict=True):
        turn = -15 if tone is black else 25
        far = (x + 2.5 * 0.93 * (0.26 if turn < 0 else 0.42) * (-1 if turn < 0 else 1), y - 2.4, z + 1.0)
        p.probe(
            (x, y, z),
            turn,
            tone,
            [
                far,
                (far[0], far[1] - 0.8, far[2] - 0.4),
                (0.4, -4.6, 0.1),
                (jack + 0.6, -3.9, 0.5),
                (jack, -2.6, 1.6),
                (jack, -2.35, 1.4),
            ],
        )
    kit.shoot(path, (0.2, -7.1, 7.5), (0.35, -0.3, 0.6), 33, 0.8, (-1.5, 0.5, 0.8), 30 if is_coil else 31, exposure=0.4)


@scene("26-0068-hour-meter", "26-0080-hour-meter")
def hours(path: Path, key: str) -> None:
    """The hour meter in the mower's dashboard."""
    old = key.startswith("26-0068")
    kit.daylight(-1 if old else 1, 0.7, 0.5, 1.0, 4.0)
    panel = kit.plastic(GRAPHITE, dust=0.3 if old else 0.12, grime=0.5 if old else 0.3)
    kit.box((9, 5, 0.4), (0, 0, -0.2), panel, bevel=0.15)
    kit.box((2.7, 1.75, 0.12), (0, 0, 0.04), kit.plastic((0.012, 0.012, 0.013)), bevel=0.05)
    kit.sign(
        "hours-512" if old else "hours-86", 2.35, 1.34, (0, 0, 0.11), radius=0.1, scratch=0.8 if old else 0.2, rough=0.3
    )
    for x in (-1.26, 1.26):
        kit.socket_bolt((x, 0, 0.1), kit.steel(), 0.07)
    kit.cyl(0.62, 0.2, (2.6, -0.2, 0.08), kit.steel(rough=0.25), bevel=0.06)
    kit.cyl(0.42, 0.24, (2.6, -0.2, 0.1), kit.plastic((0.02, 0.02, 0.02)))
    kit.box((0.12, 0.5, 0.7), (2.6, -0.2, 0.5), kit.steel(rough=0.2), (0, 0, 30), 0.03)
    kit.box((0.3, 0.85, 0.35), (2.6, -0.2, 1.0), kit.plastic((0.02, 0.02, 0.02)), (0, 0, 30), 0.1)
    kit.box((0.25, 2.2, 0.05), (-2.3, 0, 0.01), kit.surface((0.003, 0.003, 0.003)))
    kit.box((0.14, 0.3, 1.1), (-2.3, -0.4, 0.5), kit.steel(), (25, 0, 0), 0.04)
    kit.ball(0.3, (-2.3, -0.65, 1.1), kit.plastic((0.3, 0.1, 0.02)))
    kit.box((9, 1, 3), (0, 2.9, 0.5), kit.paint(PLUM, dust=0.6 if old else 0.3), bevel=0.3)
    dx = 0.15 if old else -0.2
    kit.shoot(
        path, (0.2 + dx, -1.9, 3.9), (0.25 + dx * 0.3, 0.0, 0), 34, 0.8, (0, 0, 0.1), 32 if old else 33, exposure=0.6
    )


@scene("26-0068-failed-part")
def burnt_clutch(path: Path, key: str) -> None:
    """The blade clutch with its burnt winding."""
    kit.daylight(-1, 1.0, 0.8, 1.0, 2.0)
    kit.bench("wood", 33, clutter=False)
    p.clutch()
    kit.shoot(path, (0.4, -7.6, 7.0), (0.4, 0.1, 0.5), 35, 0.8, (0.2, -1.2, 0.9), 34, exposure=0.5)


@scene("26-0071-failed-part")
def chipped(path: Path, key: str) -> None:
    """The mechanical seal of the trash pump."""
    kit.daylight(-1, 1.1, 0.8, 1.0, 4.0)
    kit.bench("card", 35, clutter=False)
    p.seal()
    kit.shoot(path, (-0.1, -6.6, 5.8), (0.4, -0.5, 0.5), 36, 0.7, (-0.9, -1.3, 1.2), 35, exposure=0.5)


@scene("26-0071-leak")
def leak(path: Path, key: str) -> None:
    """Water running from behind the pump casing on to the floor."""
    kit.daylight(1, 1.0, 1.0, 2.0, 3.0)
    kit.yard(6, wet=(1.3, -2.9, 1.9))
    with kit.place((0, 0, 0), (0, 0, -22)):
        m.pump(1.3, 0.48, "badge-tp80", 0.75)
        wet = kit.water()
        for k in range(5):
            kit.ball(0.05 + 0.02 * (k % 3), (0.5 + 0.12 * k, -1.56, 0.52 - 0.07 * (k % 4)), wet, (1, 1, 1.6))
        kit.slab(kit.hole_outline(0.5, 8, 30, 0.15), 0.02, (0.65, -1.0, 0.64), wet, bevel=0)
    kit.shoot(path, (3.0, -7.4, 4.6), (0.85, -1.45, 0.75), 36, 1.0, (0.5, -1.6, 0.6), 36, exposure=0.9)


@scene("26-0074-failed-part")
def three(path: Path, key: str) -> None:
    """Cracked head, unloader and crankshaft, laid out."""
    kit.daylight(1, 1.0, 0.8, 1.0, 1.0)
    kit.bench("steel", 37, clutter=False)
    with kit.place((-2.6, 1.6, 0), (0, 0, 12)):
        p.pump_head(True)
    with kit.place((3.0, 1.7, 0), (0, 0, -35)):
        p.unloader()
    with kit.place((0.6, -2.2, 0), (0, 0, 6)):
        p.crankshaft()
    kit.shoot(path, (0.2, -9.2, 8.4), (0.2, -0.1, 0.5), 35, 0.8, (0, -0.4, 1.2), 37, exposure=0.5)


@scene("26-0074-crack")
def crack(path: Path, key: str) -> None:
    """The crack between the bores, close."""
    kit.daylight(-1, 1.0, 0.8, 1.0, -5.0)
    kit.bench("steel", 37, clutter=False)
    with kit.place((0, 0, 0), (0, 0, 10)):
        p.pump_head(True)
    kit.shoot(path, (-0.5, -4.2, 2.9), (-0.35, -1.1, 1.5), 36, 0.6, (-0.4, -1.1, 1.7), 38, exposure=0.4)


@scene("26-0074-old-and-new")
def heads(path: Path, key: str) -> None:
    """The cracked head beside the new one."""
    kit.daylight(-1, 1.0, 0.8, 1.0, -2.0)
    kit.bench("mat", 41, clutter=False)
    with kit.place((-2.9, 0, 0), (0, 0, 9)):
        p.pump_head(True)
    with kit.place((2.9, 0.3, 0), (0, 0, -8)):
        p.pump_head(False)
    tag("tag-old", (-2.8, -2.4, 0.03), 4)
    tag("tag-new", (2.6, -2.3, 0.03), -6)
    kit.shoot(path, (0.1, -10.0, 6.2), (0, -0.2, 0.9), 36, 0.8, (0, -1, 1.5), 39, exposure=0.5)


@scene("26-0080-engine-plate")
def engine_plate(path: Path, key: str) -> None:
    """The engine's own plate on the blower housing."""
    shell = kit.paint((0.03, 0.03, 0.033), dust=0.6, grime=0.6)
    kit.daylight(1, 0.6, 0.5, 1.0, 2.0)
    kit.box((3.4, 2.2, 0.6), (0, 0.2, -0.3), shell, bevel=0.25)
    m.recoil((0.4, 2.3, -0.2), 1.3, kit.paint(PLUM, dust=0.5), (0, 0, 0))
    kit.sign(
        "plate-engine", 1.6, 1.0, (0, 0, 0.012), (0, 0, 1), relief=2.2, scale=3.0, metallic=0.3, rough=0.38, seed=0.7
    )
    for x in (-0.74, 0.74):
        for y in (-0.44, 0.44):
            kit.rivet((x, y, 0.02), kit.alloy(scale=3), 0.042)
    kit.box((8, 8, 0.2), (0, 0, -0.8), kit.alloy(grime=0.9), bevel=0)
    kit.tube([(-2.0, -1.4, 0), (-0.5, -0.95, 0.1), (0.9, -1.2, 0), (2.2, -0.9, 0.1)], 0.1, kit.rubber())
    kit.shoot(path, (-0.08, -0.75, 1.9), (0, 0.03, 0), 35, 1.2, (0, 0, 0), 40, exposure=0.75)


@scene("26-0080-failed-part")
def holed(path: Path, key: str) -> None:
    """The engine on the bench, a rod through its crankcase."""
    kit.daylight(-1, 1.1, 1.0, 1.0, -3.0)
    kit.bench("wood", 43)
    with kit.place((0, 0.5, 0), (0, 0, 8)):
        p.vertical_engine()
    kit.shoot(path, (-0.7, -9.6, 5.6), (0.5, 0, 2.05), 34, 0.8, (-0.4, -1.7, 2), 41, exposure=0.6)


@scene("26-0080-damage")
def rod(path: Path, key: str) -> None:
    """Both halves of the broken connecting rod."""
    kit.daylight(1, 1.0, 0.8, 1.0, 2.0)
    kit.bench("mat", 47, clutter=False)
    with kit.place((-0.7, -0.3, 0), (0, 0, 10)):
        p.rod_half(True)
    with kit.place((2.6, 0.5, 0), (0, 0, -14)):
        p.rod_half(False)
    kit.shoot(path, (0.35, -6.3, 7.2), (0.3, 0.0, 0.4), 33, 0.8, (0, -0.3, 0.7), 42, exposure=0.6)


@scene("26-0080-blade")
def blades(path: Path, key: str) -> None:
    """The worn blade and a new one."""
    kit.daylight(-1, 1.0, 0.8, 1.0, 2.0)
    kit.bench("card", 49, clutter=False)
    with kit.place((0, -1.2, 0), (0, 0, 3)):
        p.blade(True)
    with kit.place((0.2, 1.5, 0), (0, 0, -2)):
        p.blade(False)
    tag("tag-old", (-4.2, -2.7, 0.03), 5)
    tag("tag-new", (-4.2, 3.5, 0.03), -3)
    kit.shoot(path, (0.2, -7.6, 9.2), (0, 0, 0.3), 32, 0.8, (0, -0.6, 0.4), 43, exposure=0.5)


@scene("26-0083-failed-part")
def broken_impeller(path: Path, key: str) -> None:
    """The cracked impeller."""
    kit.daylight(1, 1.0, 0.8, 1.0, 3.0)
    kit.bench("mat", 51, clutter=False)
    p.impeller()
    kit.shoot(path, (0.3, -5.6, 6.4), (0.35, -0.35, 0.4), 35, 0.8, (0.6, -0.9, 0.5), 44, exposure=0.5)


@scene("26-0090-failed-part")
def burnt_contact(path: Path, key: str) -> None:
    """The battery pack with a melted contact."""
    kit.daylight(-1, 1.3, 0.9, 1.0, -3.0)
    kit.bench("card", 53, clutter=False)
    with kit.place((0, 0, 0), (0, 0, 16)):
        p.battery_pack(True)
    kit.shoot(path, (0.4, -5.6, 5.0), (0.25, -0.4, 1.25), 36, 0.7, (0.4, -1.1, 2.1), 45, 1344, 32, 0.7)
