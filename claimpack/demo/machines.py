"""Claims of the invented shop: which machine came in, whose it is, what broke and what was done about it."""

from __future__ import annotations

import csv
import datetime as dt
import io
from collections.abc import Iterable, Iterator, Sequence
from decimal import Decimal
from pathlib import Path
from random import Random
from typing import Any, NamedTuple

from claimpack.file_contents import read_bytes, read_text
from claimpack.folder.toml_files import read_toml
from claimpack.template_files import shipped

HERE = Path(__file__).parent
COUNT = 120
"""How many claims the shop has."""
SPAN = 485
"""Over how many days they came in: 16 months."""

_OWNERS = (
    "Marrow Lane Paving|professional", "Copperbeech Fleet Wash|professional", "Ashby Cricket Ground|professional",
    "Castellow Curbs|professional", "Thornfield Rentals|rental", "Holm Farm Lettings|professional",
    "Winifred Haskell|household", "Percival Oakes|household", "Ottoline Brack|household", "Edwin Farrow|household",
    "Maud Ellery|household", "Silas Penrow|household", "Ione Garrick|household", "Hobart Lisle|household",
    "Tamsin Orrell|household", "Ludo Marchbank|household", "Greta Sorley|household", "Amos Tindall|household",
    "Nell Hathersage|household", "Barnaby Coyle|household", "Ursula Wick|household", "Jethro Maddern|household",
)  # fmt: skip
_FAMILIES = (
    *(each.partition("|")[0].split()[1] for each in _OWNERS if each.endswith("household")),
    "Ravenhill", "Stanmoor", "Pettigrew", "Lockyer", "Wainfleet", "Dunmarrow", "Ashcombe", "Thornby",
)  # fmt: skip
_STREETS = ("Marrow Lane", "Mill Rise", "Canal Side", "Old Tannery", "Upper Quarry Road", "Chapel Hill")
_TECHNICIANS = ("Tobias Fenn", "Marit Sund", "Jory Penhale")
_OPENS = dt.time(8, 5)
_TOO_LATE = 17
_PLANS = ("halden-2025", "halden-battery-2025", "orrin-vale-2024", "tessaly-2025")
_SHOTS = ("serial plate", "whole unit", "failed part")


class MadeUp(NamedTuple):
    """A claim made up: its keys, the story it tells, and what its pictures show."""

    keys: dict[str, Any]
    story: dict[str, Any]

    @property
    def presented(self) -> dt.date:
        """The day the unit came in."""
        day: dt.date = self.keys["dates"]["presented"]
        return day

    @property
    def repaired(self) -> dt.date | None:
        """The day it was repaired; None while it is in the shop."""
        day: dt.date | None = self.keys["dates"].get("repaired")
        return day


def own_files() -> dict[str, bytes]:
    """The shop's settings, its makers' plans and parts lists, by name; the plans hold for whatever day it is."""
    files = {"shop.toml": read_bytes(HERE / "shop.toml")}
    for path in sorted(shipped("coverage").glob("*.toml")):
        if path.stem in _PLANS:
            lines = read_text(path).splitlines(keepends=True)
            files[f"coverage/{path.name}"] = "".join(each for each in lines if not each.startswith("sold_")).encode()
    parts = dict[str, dict[str, tuple[str, ...]]]()
    for story in _stories():
        rows = parts.setdefault(story["maker"], {})
        rows |= {part["number"]: (part["number"], part["name"], part["unit_cost"]) for part in story["parts"]}
    for maker, told in parts.items():
        files[f"parts/{maker}.csv"] = _as_csv([("number", "name", "cost"), *told.values()])
    return files


def _as_csv(rows: Iterable[Sequence[str]]) -> bytes:
    text = io.StringIO()
    # a name may hold a comma
    csv.writer(text, lineterminator="\n").writerows(rows)
    return text.getvalue().encode()


def _stories() -> list[dict[str, Any]]:
    stories: list[dict[str, Any]] = read_toml(HERE / "stories.toml")["story"]
    return stories


def last_day(today: dt.date) -> dt.date:
    """The Sunday up to which the shop is told: on every day of a week guides find the same claims as they name them."""
    return today - dt.timedelta(days=today.isoweekday() % 7)


def drawn_claims(today: dt.date) -> Iterator[MadeUp]:
    """The shop's claims up to a day, the oldest first; the same for the same day."""
    draw = Random(7)  # noqa: S311
    free = dict[tuple[str, dt.date], dt.datetime]()
    stories = _stories()
    for nth in range(COUNT):
        # Busier towards the end: a desk with drafts and answers of every kind on it.
        left = COUNT - 1 - nth
        back = 2 + left * (SPAN - 2) * (left + COUNT) // (2 * COUNT * COUNT)
        presented = _working_day(today - dt.timedelta(days=back))
        # Without a year, so that a guide can name a claim whatever day it is.
        drawn = _claim(draw, f"Q-{nth + 1:03}", stories[nth % len(stories)], presented, today, free)
        yield _spoilt(drawn, nth)


def _claim(
    draw: Random,
    number: str,
    story: dict[str, Any],
    presented: dt.date,
    today: dt.date,
    free: dict[tuple[str, dt.date], dt.datetime],
) -> MadeUp:
    use = draw.choice(story["uses"])
    owner = draw.choice([name for name, _, kind in (each.partition("|") for each in _OWNERS) if kind == use])
    # Chance of its own, so that what else is drawn stays as it is: households come with one unit or two.
    own = Random(number)  # noqa: S311
    if use == "household":
        owner = f"{owner.split()[0]} {own.choice(_FAMILIES)}"
    purchased = presented - dt.timedelta(days=draw.randint(30 * story["months"][0], 30 * story["months"][1]))
    repaired = _working_day(presented + dt.timedelta(days=draw.randint(1, 12)))
    dates = {
        "purchased": purchased,
        "failed": presented - dt.timedelta(days=draw.randint(0, 4)),
        "presented": presented,
    }
    hours = {"meter": True, "hours": f"{draw.uniform(*story['hours']):.1f}"} if "hours" in story else {"meter": False}
    digits = [str(draw.randint(0, 9)) for _ in range(24)]
    serials = [{"role": role, "value": _drawn_digits(value, digits)} for role, value in story["serials"].items()]
    place = sum(map(ord, owner))
    keys: dict[str, Any] = {
        "number": number,
        "maker": story["maker"],
        "unit": {**story["unit"], "use": use, **hours, "sold_in": "US-WA", "serials": serials},
        "owner": {
            "name": owner,
            "phone": f"555-01{place % 98 + 1:02}",
            "address": f"{place % 60 + 1} {_STREETS[place % len(_STREETS)]}\nAshby",
            "first_owner": True,
        },
        "dates": dates,
        "proof": {"kind": "receipt", "file": "papers/receipt.pdf"},
        "failure": story["failure"],
        "findings": [_measured(finding, own) for finding in story["findings"]],
        "photos": [{"file": f"photos/{shot.replace(' ', '-')}.jpg", "shot": shot} for shot in _SHOTS],
    }
    if repaired >= today:
        keys["failure"] = {name: story["failure"][name] for name in ("component", "complaint")}
        return MadeUp(keys, story)
    dates["repaired"] = repaired
    technician = draw.choice(_TECHNICIANS)
    keys["parts"] = story["parts"]
    keys["extras"] = story.get("extras", [])
    keys["labour"] = [_clocked(draw, work, technician, repaired, free) for work in story["labour"]]
    part = story["failure"]["part"]
    shelf = f"{story['shelf']}{draw.randint(1, 6)}"
    held = {"part": part["name"], "number": part["number"], "shelf": shelf, "boxed": True, "hazard": story["hazard"]}
    keys["held"] = [{**held, "drained": story["hazard"] != "lithium battery", "since": repaired}]
    if "approval" in story:
        given = {"number": _drawn_digits(story["approval"], digits), "on": presented, "by": "Halden service desk"}
        keys["approval"] = {**given, "up_to": "450.00"}
    return MadeUp(keys, story)


def _measured(finding: dict[str, Any], own: Random) -> dict[str, Any]:
    """A finding as this unit gave it: no two gauges read the same."""
    if not finding["value"].replace(".", "").isdecimal():
        return finding
    value = Decimal(finding["value"])
    finer = value.as_tuple().exponent
    read = (value * own.randint(960, 1040) / 1000).quantize(Decimal(1).scaleb(int(finer) - 1))
    return {**finding, "value": str(read)}


def _spoilt(drawn: MadeUp, nth: int) -> MadeUp:
    """Some owners come too late, some without a day of purchase."""
    dates: dict[str, Any] = drawn.keys["dates"]
    if nth % _TOO_LATE == _TOO_LATE - 1:
        long_ago = drawn.presented - dt.timedelta(days=1200)
        dates = {**dates, "purchased": long_ago, "registered": long_ago}
    elif nth in (COUNT - 8, COUNT - 4):
        dates = {key: day for key, day in dates.items() if key not in ("purchased", "registered")}
    return drawn._replace(keys={**drawn.keys, "dates": dates})


def _clocked(
    draw: Random, work: list[Any], technician: str, on: dt.date, free: dict[tuple[str, dt.date], dt.datetime]
) -> dict[str, Any]:
    """Work by the clock, after what the technician did before on that day."""
    operation, minutes = work
    started = free.get((technician, on), dt.datetime.combine(on, _OPENS))
    ended = started + dt.timedelta(minutes=minutes + draw.randint(-3, 4))
    free[technician, on] = ended + dt.timedelta(minutes=draw.randint(4, 25))
    return {"operation": operation, "started": started, "ended": ended, "technician": technician}


def _working_day(day: dt.date) -> dt.date:
    """That day, or the Saturday before a Sunday."""
    return day - dt.timedelta(days=1) if day.isoweekday() == 7 else day


def _drawn_digits(pattern: str, digits: list[str]) -> str:
    """A pattern with its # replaced by digits; what the claim draws is taken in order, and again for the next."""
    drawn = iter(digits if pattern.startswith(("H", "OV-", "P", "T")) else reversed(digits))
    return "".join(next(drawn) if sign == "#" else sign for sign in pattern)
