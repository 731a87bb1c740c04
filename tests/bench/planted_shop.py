"""A busy invented shop that is honest: eighteen months of claims with the noise that honest work has.

Nothing here is irregular: technicians of unequal speed, some of whom round their clock, one who does nearly half of the
work; sentences copied from claim to claim; the same plate picture where the unit is the same; several units on one
receipt; month-end rushes; an owner with the surname of a technician; facts filled in when the receipt comes.
"""

from __future__ import annotations

import copy
import datetime as dt
import random
from dataclasses import dataclass, field
from decimal import Decimal
from typing import Any, NamedTuple

TODAY = dt.date(2026, 11, 29)
FIRST = dt.date(2025, 6, 2)
HOLIDAYS = (
    *tuple(
        dt.date.fromisoformat(day)
        for day in ("2025-07-04", "2025-09-01", "2025-11-27", "2025-12-25", "2026-01-01", "2026-05-25", "2026-09-07")
    ),
    dt.date(2026, 11, 26),
)
OPEN = dict.fromkeys(("mon", "tue", "wed", "thu", "fri"), "08:00-17:30") | {"sat": "08:00-12:00"}
SHOP_PHONE, SHOP_MAIL, SHOP_ADDRESS = "555-0100", "service@quarry-road.example.com", "Quarry Road 4, Ashby"
STAFF = {
    "Ben Marsh": "555-0101",
    "Ida Holm": "555-0102",
    "Cora Pike": "555-0103",
    "Sam Reyes": "555-0104",
    "Tove Lind": "555-0105",
}
SHARES = (45, 20, 15, 12, 8)


class Job(NamedTuple):
    """A repair that the shop does often."""

    maker: str
    model: str
    component: str
    operation: str
    hours: str
    number: str
    cost: str
    measured: tuple[str, str, str, str, str, str]
    """What, unit, low, high, and between which values a bad one lies."""
    complaints: tuple[str, ...]
    causes: tuple[str, ...]
    corrections: tuple[str, ...]
    approval: bool = False
    weight: int = 10


def _job(*facts: Any, **more: Any) -> Job:
    return Job(*facts, **more)


JOBS = (
    _job(
        "halden",
        "CS-70",
        "short block",
        "short-block-replace",
        "1.6",
        "70-1180",
        "146.40",
        ("compression", "psi", "110", "150", "28", "88"),
        ("Loses power when hot.", "Will not start.", "Stops under load, then will not restart."),
        (
            "Piston scored on the exhaust side; material flaw at the skirt.",
            "Ring land broken, flaw in the casting.",
            "Cylinder plating lifted, no sign of lean running.",
        ),
        ("Short block replaced, tested under load.", "Fitted new short block, set idle, ran ten minutes."),
        approval=True,
        weight=7,
    ),
    _job(
        "halden",
        "CS-70",
        "ignition coil",
        "ignition-coil-replace",
        "0.5",
        "70-2204",
        "48.15",
        ("secondary resistance", "kohm", "2.0", "4.0", "8.1", "19.9"),
        ("No spark.", "Cuts out after ten minutes, starts again cold.", "Will not start."),
        ("Coil open when warm.", "Coil insulation broken down inside the potting.", "No output from coil."),
        ("Coil replaced, air gap set 0.3 mm.", "Ignition coil replaced and tested."),
        weight=14,
    ),
    _job(
        "halden",
        "HT-20",
        "gearbox",
        "gearbox-overhaul",
        "0.9",
        "20-3310",
        "71.60",
        ("backlash", "mm", "0.05", "0.20", "0.41", "1.30"),
        ("Blades do not move.", "Grinding noise, blades jam."),
        ("Drive pinion teeth sheared, soft material.", "Bearing seat cracked in the housing."),
        ("Gearbox overhauled, greased, tested.", "Gear set and bearings replaced."),
        weight=9,
    ),
    _job(
        "orrin-vale",
        "RM-42",
        "blade spindle",
        "spindle-replace",
        "0.9",
        "RM-5521",
        "63.25",
        ("play", "mm", "0.00", "0.30", "0.62", "2.90"),
        ("Deck vibrates.", "Loud rumble from the deck.", "Blade wobbles."),
        ("Spindle bearing failed, no grease from the factory.", "Spindle shaft bent at the flaw in the forging."),
        ("Spindle replaced, deck levelled.", "New spindle fitted, blades refitted."),
        weight=13,
    ),
    _job(
        "orrin-vale",
        "RM-42",
        "blade clutch",
        "clutch-replace",
        "0.8",
        "RM-6102",
        "118.90",
        ("coil resistance", "ohm", "2.4", "3.6", "0.1", "1.1"),
        ("Blades do not engage.", "Blades stop when warm."),
        ("Clutch coil shorted.", "Clutch winding burnt through, bearing turns freely."),
        ("Electric clutch replaced, gap set.", "Clutch replaced, tested twenty cycles."),
        weight=11,
    ),
    _job(
        "orrin-vale",
        "RM-42",
        "transaxle",
        "transaxle-replace",
        "2.8",
        "RM-7700",
        "312.00",
        ("drive pressure", "bar", "60", "80", "11", "43"),
        ("No drive uphill.", "Creeps, then no drive at all."),
        ("Hydrostatic pump worn out of a bad batch, oil clean.", "Swash plate cracked."),
        ("Transaxle replaced, purged, driven.", "New transaxle fitted and filled."),
        approval=True,
        weight=5,
    ),
    _job(
        "orrin-vale",
        "G-30",
        "voltage regulator",
        "regulator-replace",
        "0.6",
        "G-4410",
        "54.70",
        ("output", "V", "118", "124", "131", "168"),
        ("Lamps flicker.", "Output too high, lamps blew.", "No output."),
        ("Regulator failed, alternator good.", "Regulator diode through."),
        ("Regulator replaced, output set 121 V.", "Regulator replaced."),
        weight=8,
    ),
    _job(
        "tessaly",
        "PW-26",
        "pump head",
        "pump-head-replace",
        "1.25",
        "PW-2610",
        "131.20",
        ("pressure", "bar", "160", "190", "42", "121"),
        ("No pressure.", "Leaks at the pump head."),
        ("Pump head cracked at the second port, casting flaw.", "Valve seat washed out, porous casting."),
        ("Pump head replaced, tested at pressure.", "New head fitted, no leaks."),
        weight=9,
    ),
    _job(
        "tessaly",
        "PW-26",
        "unloader valve",
        "unloader-replace",
        "0.5",
        "PW-2618",
        "37.80",
        ("bypass pressure", "bar", "5", "15", "28", "97"),
        ("Surges.", "Pressure drops when the trigger is let go."),
        ("Unloader spring broken.", "Unloader seat cracked."),
        ("Unloader replaced, bypass set.", "Unloader valve replaced."),
        weight=8,
    ),
    _job(
        "tessaly",
        "TP-80",
        "mechanical seal",
        "seal-replace",
        "1.0",
        "TP-8031",
        "44.35",
        ("leak rate", "ml/min", "0", "2", "21", "240"),
        ("Leaks at the shaft.", "Drips while running."),
        ("Seal face cracked, no grit found.", "Seal spring not seated at assembly."),
        ("Seal replaced, ran an hour dry outside.", "Mechanical seal replaced."),
        weight=9,
    ),
)

EXTRA_PARTS = {
    "short block": ("70-1191", "gasket set", "14.20"),
    "transaxle": ("RM-7712", "transaxle oil", "18.40"),
    "pump head": ("PW-2611", "seal kit", "16.10"),
    "gearbox": ("20-3312", "grease", "6.20"),
}
OWNER_PARTS = {
    "CS-70": ("70-9001", "spark plug", "4.80"),
    "RM-42": ("RM-9110", "deck belt", "38.20"),
    "PW-26": ("PW-9002", "nozzle", "7.10"),
}
PRICES = {job.number: Decimal(job.cost) for job in JOBS}
PRICES |= {number: Decimal(cost) for number, _, cost in (*EXTRA_PARTS.values(), *OWNER_PARTS.values())}
GIVEN = ("Ada", "Bo", "Cleo", "Dov", "Edda", "Finn", "Greta", "Hugo", "Inga", "Jory", "Kit", "Lena", "Milo", "Nora")
FAMILY = ("Ashdown", "Birk", "Calloway", "Marsh", "Dunmore", "Ellery", "Fosse", "Garrow", "Hale", "Ivens", "Jessop")
FAMILY += ("Kerr", "Lowell", "Munro", "Norcott", "Oakes", "Penn", "Quill", "Rowan", "Stroud", "Thorne", "Upton")
FIRMS = ("Northgate Paving LLC", "Ridge Landscaping", "Ash Tree Services Inc", "Fell Rentals", "Moor Builders Ltd")
OWN_WORK = (
    "Steam cleaned for the repair",
    "Ran it in for an hour",
    "Called the maker's hotline",
    "Fetched from the farm",
)
TAILS = ("", "", "", " Owner brought fuel can along.", " Worked fine last week.", " Second season.", " Wants a call.")
NOTES = ("", "", " No sign of misuse.", " Fuel clean.", " Seen with the owner.", " Same as bulletin says.")


@dataclass
class Case:
    """A claim while it is made up: its keys, its files, and what happened, in days and words."""

    number: str
    keys: dict[str, Any]
    job: Job
    opened: dt.date
    filed: dt.date | None = None
    answers: list[tuple[dt.date, str, str]] = field(default_factory=list)
    paid: list[tuple[dt.date, Decimal]] = field(default_factory=list)
    """The day, and the share of what was claimed."""
    part_events: list[tuple[str, dt.date, str, dict[str, str]]] = field(default_factory=list)
    edits: list[tuple[dt.date, str, str, str]] = field(default_factory=list)
    pictures: dict[str, tuple[str, Any]] = field(default_factory=dict)
    """What each picture file shows: a kind of scene, and what tells it from others."""
    papers: dict[str, str] = field(default_factory=dict)
    taken: dict[str, dt.datetime] = field(default_factory=dict)
    shares_receipt: bool = False

    @property
    def serial(self) -> str:
        return str(self.keys["unit"]["serials"][0]["value"])

    @property
    def repaired(self) -> dt.date:
        return dt.date.fromisoformat(self.keys["dates"]["repaired"])

    @property
    def presented(self) -> dt.date:
        return dt.date.fromisoformat(self.keys["dates"]["presented"])

    def like(self, number: str) -> Case:
        """The same once more, under another number."""
        other = copy.deepcopy(self)
        other.number = other.keys["number"] = number
        return other


def is_open(day: dt.date) -> bool:
    return day.weekday() < 6 and day not in HOLIDAYS


def next_open(day: dt.date) -> dt.date:
    while not is_open(day):
        day += dt.timedelta(days=1)
    return day


class Bench:
    """Whose bench is free from when on."""

    def __init__(self, chance: random.Random) -> None:
        self.chance = chance
        self.free: dict[tuple[str, dt.date], int] = {}

    def slot(self, who: str, day: dt.date, minutes: int) -> tuple[dt.datetime, dt.datetime]:
        while True:
            day = next_open(day)
            shut = 12 * 60 if day.weekday() == 5 else 17 * 60 + 30
            begins = self.free.get((who, day), 8 * 60 + self.chance.randrange(3, 150))
            if begins + minutes <= shut - 2:
                self.free[who, day] = begins + minutes + self.chance.randrange(2, 45)
                at = dt.datetime.combine(day, dt.time()) + dt.timedelta(minutes=begins)
                return at, at + dt.timedelta(minutes=minutes)
            day += dt.timedelta(days=1)


def serials(chance: random.Random, model: str, nth: int) -> list[dict[str, str]]:
    run = 10_000 + nth * 7 + chance.randrange(6)
    unit, engine = {
        "CS-70": (f"HC70-{100 + nth % 40}-{run}", f"E70-{run + 31000}"),
        "HT-20": (f"HT20-{100 + nth % 30}-{run}", f"E20-{run + 22000}"),
        "RM-42": (f"OV-RM42-{run:07}", f"OVE-{run + 1200000:07}"),
        "G-30": (f"OV-G30-{run:07}", f"OVE-{run + 1500000:07}"),
        "PW-26": (f"PW26-1-{run}", f"TPE-{run + 41000}"),
        "TP-80": (f"TP80-2-{run}", f"TPE-{run + 52000}"),
    }[model]
    return [{"role": "unit", "value": unit}, {"role": "engine", "value": engine}]


def an_owner(chance: random.Random, nth: int) -> tuple[dict[str, Any], str]:
    """Who owns the unit, and how it is used."""
    if chance.random() < 0.16:
        firm = chance.choice(FIRMS[:3] + FIRMS[4:])
        return {"name": firm, "phone": f"555-01{60 + FIRMS.index(firm)}", "first_owner": True}, "professional"
    name = f"{chance.choice(GIVEN)} {chance.choice(FAMILY)}"
    phone = f"555-01{70 + nth % 30:02}" if chance.random() < 0.85 else ""
    owner = {"name": name, "phone": phone, "first_owner": True, "address": f"{1 + nth} Mill Lane, Ashby"}
    return owner, "household" if chance.random() < 0.8 else "professional"


@dataclass
class HonestShop:
    """All cases, and what is needed to make more of them."""

    chance: random.Random
    cases: list[Case]
    bench: Bench
    last: int

    def next_number(self) -> str:
        self.last += 1
        return f"26-{self.last:04}"
