"""Cautions for people who handle a failed part, each with its section where it is law."""

from __future__ import annotations

from claimpack.core.claim import HeldPart, Unit
from claimpack.core.words import folded

FUEL = (
    "Fire hazard: drain fuel and oil, let dry, cap every opening and keep from ignition before boxing. "
    "Free of fuel for transport only when drained, cleaned and purged of vapour (49 CFR 173.220(a)(1))."
)
LITHIUM = (
    "Damaged or defective lithium battery: keep apart, away from heat, never by air; "
    "it travels only under 49 CFR 173.185(f)."
)
WET_BATTERY = "Wet battery: keep upright, protect the terminals against short circuit (49 CFR 173.159(a))."
BROKEN = "Sharp or broken part: wear eye protection and gloves."
DEFER = (
    "Follow the maker's service manual; local codes come first. Check the current text of the law; not legal advice."
)


def hazard_of(held: HeldPart, unit: Unit) -> str:
    """The hazard of a held part: as stated, else by its words and whether the unit has an engine.

    Returns:
        "fuel", "lithium battery", "wet battery" or "none".

    Source: common practice, no source; the hazards are those of 49 CFR 173.220, 173.185(f) and 173.159.
    """
    if held.hazard:
        return held.hazard
    has_engine = bool(unit.serial("engine"))
    part, words = folded(held.part).split(), folded(f"{held.part} {unit.kind}").split()
    if "battery" in part:
        return "wet battery" if has_engine else "lithium battery"
    if "battery" in words and "engine" not in words:
        return "lithium battery" if "pack" in words else "none"
    return "fuel" if has_engine else "none"


def cautions_for(hazard: str) -> tuple[str, ...]:
    """What to tell whoever handles a part of that hazard, the gravest first."""
    first = {"fuel": (FUEL,), "lithium battery": (LITHIUM,), "wet battery": (WET_BATTERY,)}.get(hazard, ())
    return (*first, BROKEN, DEFER)
