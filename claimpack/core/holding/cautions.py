"""Cautions for people who handle a failed part, each with its section where it is law."""

from __future__ import annotations

import unicodedata
from collections.abc import Sequence

from claimpack.core.facts.lines import HeldPart
from claimpack.core.facts.unit import Unit
from claimpack.core.values.words import folded, word_set

FUEL = (
    "Fire hazard: drain fuel and oil, let dry, cap every opening and keep from ignition before boxing. "
    "Free of fuel for transport only when drained, cleaned and purged of vapour (49 CFR 173.220(a)(1))."
)
DRAINED = (
    "Held fuel or oil, drained: cap every opening and keep from ignition. "
    "Free of fuel for transport only when also cleaned and purged of vapour (49 CFR 173.220(a)(1))."
)
LITHIUM = (
    "Damaged or defective lithium battery: keep apart, away from heat, never by air; "
    "it travels only under 49 CFR 173.185(f)."
)
WET_BATTERY = "Wet battery: keep upright, protect the terminals against short circuit (49 CFR 173.159(a))."
BROKEN = "Sharp or broken part: wear eye protection and gloves."
CARRIER = "The carrier's own conditions and local rules for such goods come first: ask before it is handed over."
DEFER = (
    "Follow the maker's service manual; local codes come first. Check the current text of the law; not legal advice."
)

_WET = """block bowl carb carburetor carburettor choke crankcase crankshaft cylinder diesel engine fuel gasoline gear
gearbox gearcase governor hydraulic hydrostatic injector intake manifold oil petrol piston primer pump reservoir
sump tank throttle transaxle transmission"""
"""Words of parts that held fuel or oil, or lay in it."""

_OF_AN_ENGINE = """carb carburetor carburettor crankcase diesel engine fuel gasoline petrol"""
"""Words that only parts of an engine go by, whether or not the unit's engine has a serial number."""

_DRY = """alternator bar belt blade board bracket bulb cable capacitor chain clutch coil control cord deck disc display
flywheel frame fuse grip guard gun handle harness horn hub ignition impeller indicator key lamp lever light
module mount muffler nozzle panel plug pulley rectifier regulator relay rope rotor sensor shroud socket solenoid
spindle spring starter stator strap switch tire trigger tyre wand wheel winding wire wiring"""
"""Words of parts that never hold fuel or oil."""


def hazard_of(held: HeldPart, unit: Unit) -> str:
    """The hazard of a held part: as stated, else by its words and whether the unit has an engine.

    A part of a unit with an engine held fuel or oil unless its words say that it is one of those that never do.

    Returns:
        "fuel", "lithium battery", "wet battery" or "none".

    Source: common practice, no source; the hazards are those of 49 CFR 173.220, 173.185(f) and 173.159.
    """
    if held.hazard:
        return held.hazard
    has_engine = bool(unit.serial("engine"))
    part, words = folded(held.part).split(), folded(f"{held.part} {unit.kind}").split()
    # a unit with an engine starts from a wet battery; one without runs on lithium
    if "battery" in part:
        return "wet battery" if has_engine else "lithium battery"
    # a part of a unit that is itself battery-driven: only a pack is a hazard, a switch of it is none
    if "battery" in words and "engine" not in words:
        return "lithium battery" if "pack" in words else "none"
    of_an_engine = has_engine or "short block" in folded(held.part) or _speaks_of(part, _OF_AN_ENGINE)
    # a warning too many costs a glance, one too few a fire: in doubt a part of an engine is wet
    return "fuel" if of_an_engine and not _is_dry(part) else "none"


def _is_dry(part: Sequence[str]) -> bool:
    # a "fuel lever" has a dry word and a wet one; the wet one counts
    return _speaks_of(part, _DRY) and not _speaks_of(part, _WET)


def _speaks_of(part: Sequence[str], words: str) -> bool:
    """Whether one of the words stands in a part's name, in the singular or the plural."""
    said = {word.strip("(),.;:") for word in part}
    return not said.union(word.removesuffix("s") for word in said).isdisjoint(words.split())


_BY_AIR = """aereo aerea aerien aerienne air aircraft airfreight airline airlines airmail airplane avion
flight flights flug luftfracht luftpost plane"""
"""Words by which a carrier or its service is one by air, without accents."""


def names_air(carrier: str) -> bool:
    """Whether a carrier, or its service, is called by the air: Air, Airmail, Avión."""
    plain = unicodedata.normalize("NFKD", carrier)
    bare = "".join(mark for mark in plain if not unicodedata.combining(mark))
    return not set(word_set(bare)).isdisjoint(_BY_AIR.split())


def cautions_for(hazard: str, *, drained: bool | None = None) -> tuple[str, ...]:
    """What to tell whoever handles a part of that hazard, the gravest first; shorter once it was drained."""
    fuel = DRAINED if drained else FUEL
    first = {"fuel": (fuel,), "lithium battery": (LITHIUM,), "wet battery": (WET_BATTERY,)}.get(hazard, ())
    return (*first, BROKEN, DEFER)
