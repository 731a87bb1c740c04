"""Whole machines, put together from the kit."""

from __future__ import annotations

import math

import kit


def decoration(seed: int, mat: object) -> None:
    """What happens to lie beside a serial plate: ribs, a cable or a hose."""
    if seed % 3 == 0:
        for k in range(5):
            kit.box((0.09, 1.2, 0.12), (1.55 + k * 0.2, 0, -0.45), mat, bevel=0.03)
    elif seed % 3 == 1:
        kit.tube([(-1.7, -1.6, -0.5), (-1.5, -0.5, -0.2), (-1.55, 0.6, -0.3), (-1.3, 1.7, -0.4)], 0.11, kit.rubber())
    else:
        kit.cyl(0.5, 0.5, (1.75, 0.2, -0.4), kit.plastic((0.02, 0.02, 0.02), scale=2))
        for k in range(16):
            t = math.tau * k / 16
            kit.cyl(0.06, 0.5, (1.75 + 0.5 * math.cos(t), 0.2 + 0.5 * math.sin(t), -0.4), kit.rubber(), sides=16)
