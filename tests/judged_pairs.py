"""Claims and plans drawn at random, and what the two judgings disagree about, if anything.

The periods are short, so that every day a missing date may have can be tried.
"""

from __future__ import annotations

import copy
import itertools
import random
from collections.abc import Iterator
from datetime import date, timedelta
from decimal import Decimal
from typing import Any, NamedTuple

from second_judging import Answer, day_said, is_possible, is_stock, judged, rule_of

from claimpack.core.claims.claim import Claim
from claimpack.core.plans.plan import Plan
from claimpack.core.verdict.coverage import judge
from claimpack.core.windows.judged import facts_that_decide

USES = ("household", "professional", "rental", "farm")
YEARS = (2022, 2023, 2024)
CYCLES = ("300", "500", "500.1", None)
SERIALS = ("HC-100", "HC-150", "HC-200", "HB-150")
PLACES = ("US-CA", "US-OR")
KNOWN = "fuel tank"
UNKNOWN = "gizmo"
COMPONENTS = ("engine", "short block", "starter", "spark plug")
STARTS: tuple[Any, ...] = (
    ["in_service"],
    ["registered"],
    ["registered", "purchased"],
    ["delivered"],
    [{"of": "purchased", "plus": "P5D"}],
    ["built"],
    {"earliest": ["registered", {"of": "purchased", "plus": "P8D"}]},
    {"earliest": ["delivered", "in_service"]},
    {"latest": ["delivered", "purchased"]},
    {"latest": ["registered", {"of": "delivered", "plus": "P3D"}]},
)
OWNERS = {"transfer_within": "P6D", "fee": "5", "then": "P8D"}
UNMENDED = (
    {"by": "calendar", "unmended_within": "P9D"},
    {"by": "calendar", "unmended_within": "P2W", "sold_in": ["US-CA"]},
)
DAYS_AROUND = 80
TOO_MUCH_OPEN = "too much is open to try"


class Open(NamedTuple):
    """A fact a claim leaves open: its key, and the values it may have."""

    key: str
    values: tuple[Any, ...]


def maybe(dice: random.Random, record: dict[str, Any], key: str, chance: float, *values: Any) -> None:
    if dice.random() < chance:
        record[key] = dice.choice(values)


def a_window(dice: random.Random, name: str) -> dict[str, Any]:
    window: dict[str, Any] = {"id": name, "period": dice.choice(["P5D", "P10D", "P2W", "P1M", "P1M3D"])}
    everything, some = dice.choice([["*"], ["*"], ["*", "engine"]]), dice.sample(COMPONENTS, dice.randint(1, 2))
    window["covers"] = everything if dice.random() < 0.35 else some
    maybe(dice, window, "hours", 0.3, 100, 200)
    maybe(dice, window, "uses", 0.25, ["household"], ["professional", "rental"], ["farm", "rental"], list(USES))
    maybe(dice, window, "limits", 0.15, [{"meter": "cycles", "at": "500"}])
    if "hours" in window or "limits" in window:
        maybe(dice, window, "whichever", 0.4, "last")
    maybe(dice, window, "except", 0.15, ["starter"], ["spark plug", "engine"])
    maybe(dice, window, "model_years", 0.12, [2023, 2023], [2022, 2023])
    maybe(dice, window, "serials", 0.12, ["HC-100 .. HC-150"], ["HC-100 .. HC-120", "HC-150 .. HC-199"])
    maybe(dice, window, "first_owner_only", 0.15, True)
    maybe(dice, window, "sold_in", 0.12, ["US-CA"])
    maybe(dice, window, "despite_exclusions", 0.15, True)
    maybe(dice, window, "start", 0.25, *STARTS)
    maybe(dice, window, "last_day", 0.1, "day-before", "anniversary")
    maybe(dice, window, "scheduled", 0.15, [{"component": "spark plug", "hours": 50}])
    maybe(dice, window, "repair_time_extends", 0.12, "calendar", {"by": "calendar", "sold_in": ["US-CA"]}, *UNMENDED)
    if "first_owner_only" not in window:
        maybe(dice, window, "owners", 0.2, {"transfer_within": "P6D"}, {"then": "P8D"}, {"fee": "5"}, OWNERS)
    if dice.random() < 0.3:
        window["registered_within"] = "P5D"
        maybe(dice, window, "registered_adds", 0.6, "P8D", "P1M")
    return window


def a_plan(dice: random.Random) -> dict[str, Any]:
    plan: dict[str, Any] = {
        "id": "p",
        "maker": "m",
        "currency": "USD",
        "words": {word: [] for word in (*COMPONENTS, KNOWN)},
    }
    plan["start"] = dice.choice([["delivered", "purchased"], ["purchased"], ["in_service", "delivered"]])
    plan["start_stock"] = dice.choice([["invoiced", "built"], {"latest": ["built", "invoiced"]}])
    plan["judged_on"] = dice.choice(["presented", "presented", "failed", "repaired"])
    plan["last_day"] = dice.choice(["anniversary", "day-before"])
    maybe(dice, plan, "repair_time_extends", 0.35, "calendar", *UNMENDED)
    plan["month_end"] = dice.choice(["clamp", "last-day"])
    plan["window"] = [a_window(dice, f"w{number}") for number in range(dice.randint(1, 3))]
    plan["excluded"] = {"components": dice.choice([[], ["starter"]]), "defects": dice.choice([[], ["misuse"]])}
    maybe(dice, plan, "uses", 0.1, ["household", "professional"], ["household", "farm"])
    maybe(dice, plan, "elsewhere", 0.15, [{"components": ["starter", "engine"], "maker": "o", "because": "its own"}])
    maybe(dice, plan, "model_years", 0.08, [2023, 2024])
    maybe(dice, plan, "serials", 0.08, ["HC-150 .. HC-200"])
    maybe(dice, plan, "start_without_proof", 0.3, {"from": "built", "after": "P10D"}, {"from": "built"})
    maybe(dice, plan, "replaced", 0.4, {"period": "P10D"}, {"period": "P3D", "keeps_remaining": False}, {})
    if plan.get("replaced") == {}:
        plan["replaced"] = {"keeps_remaining": True}
    return plan


def a_claim(dice: random.Random) -> dict[str, Any]:
    """A claim whose days can all be true, some of its facts left out."""
    while True:
        claim = _a_claim(dice)
        if is_possible(claim):
            return claim


def _a_claim(dice: random.Random) -> dict[str, Any]:
    presented = date(2024, 1, 20) + timedelta(days=dice.randint(0, 60))

    def before(most: int) -> date:
        return presented - timedelta(days=dice.randint(0, most))

    dates: dict[str, Any] = {"presented": presented}
    maybe(dice, dates, "purchased", 0.8, before(36))
    maybe(dice, dates, "delivered", 0.7, before(36))
    maybe(dice, dates, "in_service", 0.3, before(30))
    maybe(dice, dates, "registered", 0.5, before(40))
    maybe(dice, dates, "failed", 0.7, before(12))
    maybe(dice, dates, "repaired", 0.7, presented + timedelta(days=dice.randint(0, 14)))
    done = dates.get("repaired", presented)
    maybe(dice, dates, "returned", 0.3, done + timedelta(days=dice.randint(0, 5)))
    if dice.random() < 0.35:
        dates["resold"] = before(20)
        dates["transferred"] = dates["resold"] + timedelta(days=dice.randint(0, 9))
    if "registered" not in dates:
        maybe(dice, dates, "never_registered", 0.3, True)
    unit: dict[str, Any] = {"model": "M", "serials": []}
    maybe(dice, unit, "use", 0.8, *USES)
    maybe(dice, unit, "meter", 0.8, True, True, False)
    if unit.get("meter") is not False:
        maybe(dice, unit, "hours", 0.75, "20", "50", "60", "100", "100.1", "150", "250")
    maybe(dice, unit, "sold_in", 0.7, *PLACES)
    maybe(dice, unit, "meters", 0.8, *map(_cycles, CYCLES))
    maybe(dice, unit, "model_year", 0.8, *YEARS)
    if dice.random() < 0.8:
        unit["serials"] = [_unit_serial(dice.choice(SERIALS))]
    maybe(dice, unit, "built", 0.4, presented - timedelta(days=dice.randint(30, 60)))
    claim: dict[str, Any] = {"number": "1", "maker": "m", "unit": unit, "dates": dates, "owner": {}, "failure": {}}
    claim["proof"] = dice.choice([{}, {}, {"kind": "receipt"}, {"kind": "none"}])
    maybe(dice, claim["owner"], "first_owner", 0.75, True, False)
    if "resold" in dates:
        claim["owner"].pop("first_owner", None)
    maybe(dice, claim["failure"], "component", 0.9, *COMPONENTS, *COMPONENTS, KNOWN, UNKNOWN)
    maybe(dice, claim["failure"], "defect", 0.4, "material", "misuse", "unknown")
    if dice.random() < 0.08:
        claim["case"] = "stock"
        for role in ("purchased", "delivered", "in_service", "registered", "resold", "transferred"):
            dates.pop(role, None)
        maybe(dice, unit, "invoiced", 0.6, before(28))
    claim["earlier"] = []
    for _ in range(dice.choice([0, 0, 1, 2])):
        repair: dict[str, Any] = {"component": dice.choice(COMPONENTS), "repaired": before(25)}
        maybe(dice, repair, "presented", 0.85, repair["repaired"] - timedelta(days=dice.randint(0, 4)))
        maybe(dice, repair, "returned", 0.85, repair["repaired"] + timedelta(days=dice.randint(0, 4)))
        maybe(dice, repair, "hours", 0.6, "20", "100", "120")
        maybe(dice, repair, "meters", 0.8, _cycles("300"), _cycles("500.1"))
        maybe(dice, repair, "mended", 0.7, True, False, False)
        if not repair.get("mended"):
            maybe(dice, repair, "told", 0.2, repair["repaired"] + timedelta(days=dice.randint(0, 20)))
        claim["earlier"].append(repair)
    return claim


def _cycles(reading: str | None) -> list[dict[str, Any]]:
    return [{"kind": "cycles", "fitted": False} if reading is None else {"kind": "cycles", "value": reading}]


def _unit_serial(number: str) -> dict[str, str]:
    return {"role": "unit", "value": number}


def left_open(claim: dict[str, Any], plan: dict[str, Any]) -> list[Open]:
    """The facts that a claim leaves open and its plan may look at, with every value they may have."""
    dates, unit, windows = claim["dates"], claim["unit"], plan["window"]
    around = [dates["presented"] + timedelta(days=count) for count in range(-DAYS_AROUND, DAYS_AROUND + 1)]
    never, no_proof = (
        dates.get("never_registered"),
        claim["proof"].get("kind") == "none" and "start_without_proof" in plan and not is_stock(claim),
    )
    found: list[Open] = []
    for pick, days in (rule_of(claim, plan, window) for window in windows):
        giving = [day["of"] for day in days if _may_come(claim, pick, day["of"])]
        waiting = [role for role in giving if not day_said(claim, role)]
        if pick == "first":
            waiting = giving[:1] if waiting == giving else []
        keys = [f"{'unit' if role in ('built', 'invoiced') else 'dates'}.{role}" for role in waiting]
        found += [Open(key, tuple(around)) for key in keys if not no_proof]
    sold = (
        dates.get("purchased")
        or dates.get("delivered")
        or any(one.key[6:] in ("purchased", "delivered") for one in found)
    )
    if not (sold or is_stock(claim)) and any(
        _names_registration(one) and "registered_within" in one for one in windows
    ):
        found.append(Open("dates.purchased", tuple(around)))
    if plan["judged_on"] not in dates:
        found.append(Open(f"dates.{plan['judged_on']}", tuple(around)))
    doubtful = dates.get("registered") and dates.get("purchased") and dates["registered"] < dates["purchased"]
    waits = any("registered_within" in window for window in windows) and not is_stock(claim)
    starts = doubtful and any(_names_registration(window) for window in windows)
    if starts or (waits and not never and (doubtful or not dates.get("registered"))):
        found.append(Open("dates.registered", tuple(around)))
    if no_proof and "built" not in unit:
        found.append(Open("unit.built", tuple(around)))
    if unit.get("meter") is not False and "hours" not in unit:
        readings = ("0", "50", "50.1", "100", "100.1", "200", "200.1")
        found.append(Open("unit.hours", readings if "meter" in unit else (None, *readings)))
    known = (*USES[:3], *sorted({use for own in (plan, *windows) for use in own.get("uses", ())} - {*USES[:3]}))
    if unit.get("use") not in known:
        # A use that the plan does not know may be one of its own, or none of them.
        found.append(Open("unit.use", (*known, unit["use"]) if "use" in unit else known))
    found += _meters_left_open(claim, plan)
    found += [Open("unit.model_year", YEARS)] if "model_year" not in unit else []
    found += [Open("unit.serials", SERIALS)] if not unit["serials"] else []
    found += [Open("unit.sold_in", PLACES)] if "sold_in" not in unit else []
    found += _owners_left_open(claim, plan, around)
    found += _stays_left_open(claim, plan, around)
    if "component" not in claim["failure"]:
        found.append(Open("failure.component", (*COMPONENTS, KNOWN)))
    elif claim["failure"]["component"] == UNKNOWN:
        found.append(Open("as_if", (*COMPONENTS, UNKNOWN)))
    for number, earlier in enumerate(claim["earlier"]):
        if "hours" not in earlier:
            found.append(Open(f"earlier.{number}.hours", ("0", "50", "50.1", "100", "100.1", "200", "200.1")))
    return list({one.key: one for one in found}.values())


def _owners_left_open(claim: dict[str, Any], plan: dict[str, Any], around: list[date]) -> list[Open]:
    dates, first = claim["dates"], claim["owner"].get("first_owner")
    owners = [window["owners"] for window in plan["window"] if "owners" in window]
    found = [Open("owner.first_owner", (True, False))] if first is None and "resold" not in dates else []
    if first is True or is_stock(claim):
        return found
    if "resold" not in dates and any("transfer_within" in one or "then" in one for one in owners):
        found.append(Open("dates.resold", tuple(around[: DAYS_AROUND + 1])))
    if "transferred" not in dates and any("transfer_within" in one for one in owners):
        found.append(Open("dates.transferred", tuple(around)))
    return found


def _stays_left_open(claim: dict[str, Any], plan: dict[str, Any], around: list[date]) -> list[Open]:
    found: list[Open] = []
    if not any("repair_time_extends" in record for record in (plan, *plan["window"])):
        return found
    unmended = any("unmended_within" in str(record) for record in (plan, *plan["window"]))
    if unmended and any(key in window for window in plan["window"] for key in ("hours", "limits", "scheduled")):
        found.append(Open("limits_too", (True, False)))
    for number, earlier in enumerate(claim["earlier"]):
        if unmended and "mended" not in earlier and "told" not in earlier:
            found.append(Open(f"earlier.{number}.mended", (True, False)))
        done, last = earlier["repaired"], max(earlier["repaired"], claim["dates"]["presented"])
        if "presented" not in earlier:
            found.append(Open(f"earlier.{number}.presented", tuple(day for day in around if day <= done)))
        if "returned" not in earlier:
            found.append(Open(f"earlier.{number}.returned", tuple(day for day in around if done <= day <= last)))
    return found


def _may_come(claim: dict[str, Any], pick: str, role: str) -> bool:
    """Whether a day of a start may still be given."""
    dates = claim["dates"]
    if role == "registered" and dates.get("never_registered"):
        return False
    if is_stock(claim):
        return role in ("built", "invoiced") or role in dates
    # The day of first use is given where it differs from the sale.
    sold = dates.get("purchased") or dates.get("delivered")
    return pick == "first" or role != "in_service" or "in_service" in dates or not sold


def _names_registration(window: dict[str, Any]) -> bool:
    return "registered" in str(window.get("start"))


def _meters_left_open(claim: dict[str, Any], plan: dict[str, Any]) -> list[Open]:
    if not any("limits" in window for window in plan["window"]):
        return []
    counts = plan.get("replaced") or "unmended_within" in str(plan)
    told = {f"earlier.{number}": earlier for number, earlier in enumerate(claim["earlier"]) if counts}
    told["unit"] = claim["unit"]
    return [Open(f"{key}.meters", CYCLES) for key, record in told.items() if "meters" not in record]


def filled(claim: dict[str, Any], facts: list[Open], values: tuple[Any, ...]) -> dict[str, Any] | None:
    """The claim with its open facts filled in; None where that cannot be true."""
    whole = copy.deepcopy(claim)
    for fact, value in zip(facts, values, strict=True):
        *path, last = fact.key.split(".")
        place: Any = whole
        for step in path:
            place = place[int(step)] if step.isdigit() else place[step]
        written = {"serials": lambda one: [_unit_serial(one)], "meters": _cycles}.get(last, lambda one: one)
        place[last] = written(value)
        if path == ["dates"] and last not in claim["dates"]:
            whole.setdefault("taken", []).append(last)
        if fact.key == "dates.resold" and whole["owner"].get("first_owner"):
            whole["dates"].pop("resold", None)
        if fact.key == "unit.hours":
            whole["unit"]["meter"] = value is not None
    if not is_possible(whole):
        return None
    now = whole["unit"].get("hours")
    then = [
        earlier["hours"] for place, earlier in enumerate(whole["earlier"]) if "hours" not in claim["earlier"][place]
    ]
    if now is not None and any(Decimal(hours) > Decimal(now) for hours in then):
        return None
    filled_in = [
        _cycles_read(earlier)
        for earlier, as_told in zip(whole["earlier"], claim["earlier"], strict=True)
        if "meters" not in as_told
    ]
    cycles = _cycles_read(whole["unit"])
    if cycles is not None and any(read is not None and read > cycles for read in filled_in):
        return None
    return whole


def _cycles_read(record: dict[str, Any]) -> Decimal | None:
    return next((Decimal(meter["value"]) for meter in record.get("meters", ()) if "value" in meter), None)


def ways(claim: dict[str, Any], plan: dict[str, Any], facts: list[Open]) -> Iterator[tuple[tuple[Any, ...], Answer]]:
    """Every way in which a claim may turn out, and its verdict."""
    for values in itertools.product(*(fact.values for fact in facts)):
        whole = filled(claim, facts, values)
        if whole is not None:
            yield values, judged(whole, plan)


def disagreement(claim: dict[str, Any], plan: dict[str, Any], most: int = 4000) -> str:
    """What the two judgings say differently about a claim; empty where they agree.

    Where a claim may turn out in more than the most ways, nothing is tried.
    """
    facts = left_open(claim, plan)
    count = 1
    for fact in facts:
        count *= len(fact.values)
    if count > most:
        return TOO_MUCH_OPEN
    plan_read = Plan.model_validate(plan)
    found = judge(Claim.model_validate(claim), plan_read)
    all_ways = dict(ways(claim, plan, facts))
    verdicts = {answer.verdict for answer in all_ways.values()}
    always = frozenset.intersection(*(answer.holding for answer in all_ways.values()))
    by_use = _by_use(facts, all_ways)
    each_use = [frozenset.intersection(*(answer.holding for answer in answers)) for answers in by_use]
    expected = "covered" if all(each_use) else "not covered" if verdicts == {"not covered"} else "undecided"
    if found.verdict != expected:
        return f"{found.verdict}, expected {expected}"
    if len(all_ways) == 1 and found.window:
        (answer,) = all_ways.values()
        cited = (found.window.id, found.window.ends or found.window.at_least)
        return "" if cited == (answer.window, answer.ends) else f"cites {cited}, expected {answer}"
    if found.window and not always and all(len(answers) == 1 for answers in by_use):
        first = min(answer.ends or date.max for answers in by_use for answer in answers)
        return "" if found.window.ends == first else f"covered until {found.window.ends}, expected {first}"
    if found.window and not any(found.window.id in holding for holding in ([always] if always else each_use)):
        return f"cites {found.window.id}, which holds in some ways alone"
    if found.verdict != "undecided":
        return ""
    asked = facts_that_decide(found.windows, found.reasons)
    idle = [key for key in asked if not _matters(key, facts, all_ways)]
    return f"asks in vain for {', '.join(idle)}" if idle else "" if asked else "asks for nothing"


def _by_use(facts: list[Open], all_ways: dict[tuple[Any, ...], Answer]) -> list[list[Answer]]:
    """The answers of every way, those of each use together; all together where the use is given."""
    place = next((place for place, fact in enumerate(facts) if fact.key == "unit.use"), None)
    found: dict[Any, list[Answer]] = {}
    for values, answer in all_ways.items():
        found.setdefault(None if place is None else values[place], []).append(answer)
    return list(found.values())


def _matters(key: str, facts: list[Open], all_ways: dict[tuple[Any, ...], Answer]) -> bool:
    """Whether one fact alone can change which windows hold."""
    places = [place for place, fact in enumerate(facts) if _is_asked_by(fact.key, key)]
    for place in places:
        outcomes: dict[tuple[Any, ...], set[frozenset[str]]] = {}
        for values, answer in all_ways.items():
            outcomes.setdefault((*values[:place], *values[place + 1 :]), set()).add(answer.holding)
        if any(len(found) > 1 for found in outcomes.values()):
            return True
    return False


def _is_asked_by(fact: str, key: str) -> bool:
    if fact in ("as_if", "limits_too"):
        return key == {"as_if": "failure.component", "limits_too": "unmended_within"}[fact]
    return (
        key == fact
        or (key == "dates.purchased" and fact == "dates.delivered")
        or (key.startswith("earlier.") and fact.startswith("earlier.") and fact.endswith(key[8:]))
    )
