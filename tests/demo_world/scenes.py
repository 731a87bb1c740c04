"""What stands in front of the camera in every demo photograph."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import kit
import machines as m
import parts as p
from kit import BLUE, GRAPHITE, IVORY, PALE, PLUM, TEAL

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

HOUSINGS = {"26-0041": TEAL, "26-0052": TEAL, "26-0057": PLUM, "26-0063": GRAPHITE, "26-0068": PLUM, "26-0071": BLUE,
            "26-0074": PALE, "26-0080": PLUM, "26-0083": BLUE, "26-0090": GRAPHITE}


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
    kit.sign(f"plate-{claim}", 1.6, 1.0, (0, 0, 0.012), (0, 0, (seed % 5 - 2) * 0.4), relief=2.2, scale=3.0, seed=seed * 0.13,
             metallic=0.35 if "00" not in claim[3:5] else 0.3, rough=0.38, grime=0.45, scratch=0.7)
    for x in (-0.74, 0.74):
        for y in (-0.44, 0.44):
            kit.rivet((x, y, 0.02), kit.alloy(scale=3), 0.042)
    for x in (-1.15, 1.15):
        kit.socket_bolt((x, 0.55 - seed % 3 * 0.5, 0.0), kit.steel(scale=2), 0.085)
    m.decoration(seed, mat)
    dx, dy = (seed % 7 - 3) * 0.045, -0.62 - (seed % 3) * 0.18
    kit.shoot(path, (dx, dy, 1.72 + (seed % 4) * 0.07), (0.01 * (seed % 5), 0.0, 0), 35, 1.2, (0, 0, 0), seed,
              exposure=0.75)
