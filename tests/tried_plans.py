"""A plan of a shop's own, tried."""

from __future__ import annotations

from running import claimpack

PLAN = """
format = 1
id = "own"
maker = "tessaly"
currency = "USD"
[[window]]
id = "unit"
name = "whole-unit warranty"
covers = ["*"]
uses = ["household"]
period = "P24M"
shares = [{until = "P12M", maker = "1"}, {until = "P24M", maker = "0.50"}]
"""


def tried(folder, *options, terminal=False):
    (folder / "own.toml").write_text(PLAN)
    return claimpack("plan", "try", "own.toml", "--sold", "2025-03-14", *options, folder=folder, terminal=terminal)
