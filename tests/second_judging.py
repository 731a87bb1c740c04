"""A second judging of claims, written from the design's text alone, to hold the first one against.

It knows complete claims only: what a claim leaves open is filled in with every value that could matter, and the claim
is judged each time. It shares no rule with the package, calendar included; claims and plans are plain dicts as in TOML.
"""

from __future__ import annotations

import calendar
import copy
import re
from datetime import date, timedelta
from decimal import Decimal
from typing import Any, NamedTuple

A_DAY = timedelta(days=1)


class Answer(NamedTuple):
    """A verdict; the window cited and the last day of its period where it is covered; which windows hold."""

    verdict: str
    window: str = ""
    ends: date | None = None
    holding: frozenset[str] = frozenset()


def later_by(start: date, *lengths: str) -> tuple[date, bool, bool]:
    """A day some periods later; whether they are whole months; whether the month lacked the day."""
    counts = {"Y": 0, "M": 0, "W": 0, "D": 0}
    for length in lengths:
        for number, unit in re.findall(r"(\d+)([YMWD])", length):
            counts[unit] += int(number)
    months = start.year * 12 + start.month - 1 + 12 * counts["Y"] + counts["M"]
    year, month = divmod(months, 12)
    last = calendar.monthrange(year, month + 1)[1]
    day = date(year, month + 1, min(start.day, last))
    days = 7 * counts["W"] + counts["D"]
    return day + timedelta(days=days), not days, start.day > last


def end_of(start: date, plan: dict[str, Any], window: dict[str, Any], *lengths: str) -> date:
    end, whole_months, lacked = later_by(start, *lengths)
    if not whole_months:
        return end
    if plan.get("month_end") == "last-day" and (start + A_DAY).day == 1:
        end = end.replace(day=calendar.monthrange(end.year, end.month)[1])
    return end - A_DAY if window.get("last_day", plan.get("last_day")) == "day-before" and not lacked else end


def seen_in_use(claim: dict[str, Any]) -> date:
    dates = claim["dates"]
    seen = [dates[role] for role in ("failed", "in_service", "presented") if dates.get(role)]
    return min(seen + [earlier["repaired"] for earlier in claim["earlier"]])


def is_stock(claim: dict[str, Any]) -> bool:
    return claim.get("case") == "stock"


def rule_of(claim: dict[str, Any], plan: dict[str, Any], window: dict[str, Any]) -> tuple[str, list[dict[str, str]]]:
    """Which of which days cover starts on: the first given, the earliest or the latest."""
    rule = window.get("start", plan.get("start_stock") if is_stock(claim) else plan["start"])
    ((pick, days),) = rule.items() if isinstance(rule, dict) else [("first", rule)]
    return pick, [day if isinstance(day, dict) else {"of": day} for day in days]


def day_said(claim: dict[str, Any], role: str) -> date | None:
    return claim["unit" if role in ("built", "invoiced") else "dates"].get(role)


def start_of(claim: dict[str, Any], plan: dict[str, Any], window: dict[str, Any]) -> tuple[date | None, str]:
    unproven = plan.get("start_without_proof")
    pick, days = rule_of(claim, plan, window)
    if not is_stock(claim) and claim["proof"].get("kind") == "none" and unproven:
        built = claim["unit"]["built"]
        if "after" not in unproven:
            return built, "built"
        return min(later_by(built, unproven["after"])[0], max(built, seen_in_use(claim))), "built"
    # A day only taken for granted does not move a window whose start the claim itself gives.
    days = sorted(days, key=lambda day: day["of"] in claim.get("taken", ()))
    said = [(day_said(claim, day["of"]), day) for day in days]
    found = [(later_by(on, day.get("plus", ""))[0], day["of"]) for on, day in said if on]
    if pick == "first" or not found:
        return found[0] if found else (None, "")
    picked = (min if pick == "earliest" else max)(on for on, _ in found)
    return picked, "registered" if any(day["of"] == "registered" for day in days) else ""


def in_time(claim: dict[str, Any], window: dict[str, Any], start: date, role: str) -> bool:
    dates = claim["dates"]
    # Nor does it move a sale whose day the claim itself gives.
    sales = sorted(("purchased", "delivered"), key=lambda sale: sale in claim.get("taken", ()))
    sold = next((dates[sale] for sale in sales if dates.get(sale)), None)
    runs_from = sold if role == "registered" else start
    registered = dates.get("registered")
    return bool(registered) and registered <= later_by(runs_from, window["registered_within"])[0]


def in_range(serial: str, range_: str) -> bool:
    first, last = range_.split(" .. ")
    cut = len(first) - 3
    return serial[:cut] == first[:cut] and int(first[cut:]) <= int(serial[cut:]) <= int(last[cut:])


def of_the_plan(plan: dict[str, Any], window: dict[str, Any], key: str) -> Any:
    """What a window without the key has from its plan; a statutory window has nothing."""
    return window.get(key, None if window.get("despite_exclusions") else plan.get(key))


def left_elsewhere(word: str, plan: dict[str, Any], window: dict[str, Any]) -> bool:
    others = [each for other in plan.get("elsewhere", ()) for each in other["components"]]
    return word in others and word not in window["covers"]


def is_told(claim: dict[str, Any], window: dict[str, Any]) -> bool:
    """Whether the maker was told of a second owner in time, where the window asks for it."""
    within = window.get("owners", {}).get("transfer_within")
    if within is None or not is_second(claim):
        return True
    return bool(claim["dates"]["transferred"] <= later_by(claim["dates"]["resold"], within)[0])


def is_for_it(claim: dict[str, Any], plan: dict[str, Any], window: dict[str, Any]) -> bool:
    word, unit, despite = claim["failure"]["component"], claim["unit"], window.get("despite_exclusions", False)
    # A word the plan does not know is taken for one it covers by name, and for no other.
    meant = word if "*" in window["covers"] else claim.get("as_if", word)
    years, ranges, uses = (of_the_plan(plan, window, key) for key in ("model_years", "serials", "uses"))
    return (
        ("*" in window["covers"] or meant in window["covers"])
        and not any(each in window.get("except", ()) for each in (word, meant))
        and not ("*" in window["covers"] and any(left_elsewhere(each, plan, window) for each in (word, meant)))
        and (years is None or years[0] <= unit["model_year"] <= years[1])
        and (ranges is None or any(in_range(one["value"], each) for one in unit["serials"] for each in ranges))
        and (uses is None or unit["use"] in uses)
        and (not window.get("first_owner_only") or not is_second(claim))
        and is_told(claim, window)
        and (window.get("sold_in") is None or unit["sold_in"] in window["sold_in"])
        and (despite or not any(each in plan["excluded"]["components"] for each in (word, meant)))
        and claim["failure"].get("defect") not in plan["excluded"]["defects"]
    )


def rules_of_repairs(claim: dict[str, Any], plan: dict[str, Any], window: dict[str, Any]) -> list[dict[str, Any]]:
    """What is said of days in repair, and of repairs that did not mend it, for this unit."""
    said = [record["repair_time_extends"] for record in (plan, window) if "repair_time_extends" in record]
    rules = [{} if rule == "calendar" else rule for rule in said]
    return [rule for rule in rules if claim["unit"]["sold_in"] in rule.get("sold_in", (claim["unit"]["sold_in"],))]


class Unmended(NamedTuple):
    """A repair that did not mend what failed, told of in time, and the day it was repaired again, if it was."""

    repair: dict[str, Any]
    again: date | None


def unmended(claim: dict[str, Any], plan: dict[str, Any], window: dict[str, Any]) -> list[Unmended]:
    withins = [rule["unmended_within"] for rule in rules_of_repairs(claim, plan, window) if "unmended_within" in rule]
    of_it = [one for one in claim["earlier"] if one["component"] in (claim["failure"]["component"], claim.get("as_if"))]
    of_it = sorted(of_it, key=lambda one: one["repaired"]) if withins else []
    found = []
    for place, repair in enumerate(of_it):
        after = of_it[place + 1] if place + 1 < len(of_it) else None
        told = min(repair.get("told", date.max), (after or claim["dates"])["presented"])
        by = max(later_by(repair["repaired"], within)[0] for within in withins)
        if not repair.get("mended") and told <= by:
            found.append(Unmended(repair, after["repaired"] if after else None))
    return found


def not_over(claim: dict[str, Any], plan: dict[str, Any], window: dict[str, Any], days: Any, on: date) -> date:
    """The last day of a window, later where what a repair in it did not mend is judged after it."""
    start, end = days
    for repair, again in unmended(claim, plan, window) if on > end else ():
        if start <= repair["repaired"] <= end:
            end = max(end, again or on)
    return end


def in_repair(claim: dict[str, Any], plan: dict[str, Any], window: dict[str, Any], on: date) -> set[date]:
    """Every day in repair that may lengthen a window."""
    if not rules_of_repairs(claim, plan, window):
        return set()
    dates = claim["dates"]
    stays = [(one["presented"], one["returned"]) for one in claim["earlier"]]
    # The repair at hand counts once it is over, and up to a day judged on that falls into it.
    if "returned" in dates or on > dates["presented"]:
        stays.append((dates["presented"], dates.get("returned", on)))
    return {first + A_DAY * count for first, last in stays for count in range((last - first).days + 1)}


def lengthened(start: date, end: date, stayed: set[date]) -> date:
    """A day more for each day in repair up to the end, as it has become so far."""
    for day in sorted(stayed):
        end += A_DAY if start <= day <= end else timedelta()
    return end


def is_second(claim: dict[str, Any]) -> bool:
    resold, presented = claim["dates"].get("resold"), claim["dates"]["presented"]
    if is_stock(claim) or (resold and resold <= presented):
        return not is_stock(claim)
    return not claim["owner"]["first_owner"]


def laid(claim: dict[str, Any], plan: dict[str, Any], window: dict[str, Any], on: date) -> tuple[date, date] | None:
    """First and last day of a window on a day; None where it never opens."""
    start, role = start_of(claim, plan, window)
    if start is None:
        return None
    lengths = [window["period"]]
    if "registered_within" in window and not is_stock(claim):
        registered = in_time(claim, window, start, role)
        if "registered_adds" in window:
            lengths += [window["registered_adds"]] if registered else []
        elif not registered:
            return None
    stayed, owners = in_repair(claim, plan, window, on), window.get("owners", {})
    end = lengthened(start, end_of(start, plan, window, *lengths), stayed)
    if "then" in owners and is_second(claim):
        resold = claim["dates"]["resold"]
        end = min(end, lengthened(resold, end_of(resold, plan, window, owners["then"]), stayed))
    return start, end


def hours_of(claim: dict[str, Any], window: dict[str, Any]) -> Decimal | None:
    word = claim["failure"]["component"]
    meant = word if "*" in window["covers"] else claim.get("as_if", word)
    limits = [item["hours"] for item in window.get("scheduled", ()) if item["component"] == meant]
    limits += [window["hours"]] if "hours" in window else []
    return min(map(Decimal, limits), default=None)


def readings(claim: dict[str, Any], window: dict[str, Any]) -> list[bool]:
    """For each limit of a window whose meter the unit has, whether the reading is not over it."""
    unit, found = claim["unit"], []
    if "hours" in window and unit.get("meter") is not False:
        found.append(Decimal(unit["hours"]) <= Decimal(window["hours"]))
    for limit in window.get("limits", ()):
        read = [Decimal(each["value"]) for each in unit["meters"] if each["kind"] == limit["meter"] and "value" in each]
        found += [reading <= Decimal(limit["at"]) for reading in read]
    return found


def is_renewed(claim: dict[str, Any], window: dict[str, Any]) -> bool:
    """Whether the meter is past the renewal of the part that failed."""
    renewal = hours_of(claim, {key: value for key, value in window.items() if key != "hours"})
    return renewal is not None and claim["unit"].get("meter") is not False and Decimal(claim["unit"]["hours"]) > renewal


def lasts(claim: dict[str, Any], window: dict[str, Any]) -> bool:
    """Whether a window has no last day: it closes with the last of its ends, and a meter counts."""
    return window.get("whichever") == "last" and bool(readings(claim, window))


def within_limits(claim: dict[str, Any], window: dict[str, Any]) -> bool:
    return all(readings(claim, window)) and not is_renewed(claim, window)


def at_last_repair(
    claim: dict[str, Any], plan: dict[str, Any], window: dict[str, Any], start: date, on: date
) -> list[dict[str, Any]]:
    """The claim with the readings of the repair that did not mend it, where such a repair outlasts limits as well."""
    left = [each for each in unmended(claim, plan, window) if start <= each.repair["repaired"]][-1:]
    if not claim.get("limits_too") or not left or (left[0].again and left[0].again < on):
        return []
    then = copy.deepcopy(claim)
    for key in ("hours", "meters"):
        then["unit"].pop(key, None)
        then["unit"].update({key: left[0].repair[key]} if key in left[0].repair else {})
    return [then]


def is_open(claim: dict[str, Any], plan: dict[str, Any], window: dict[str, Any], on: date) -> bool:
    days = laid(claim, plan, window, on)
    if days is None or on < days[0]:
        return False
    is_over = on > not_over(claim, plan, window, days, on)
    then = [] if is_over else at_last_repair(claim, plan, window, days[0], on)
    is_renewed_now = all(is_renewed(one, window) for one in (claim, *then))
    if lasts(claim, window):
        return (not is_over or any(readings(claim, window))) and not is_renewed_now
    read = zip(*(readings(one, window) for one in (claim, *then)), strict=True)
    return not is_over and all(map(any, read)) and not is_renewed_now


class PartPutIn(NamedTuple):
    """A part put in under warranty: the last day of its cover, and the reading up to which it goes, if any."""

    until: date
    limit: Decimal | None


def part_put_in(claim: dict[str, Any], plan: dict[str, Any], on: date) -> PartPutIn | None:
    """The latest part put in while a window was open, its own period or what was left, whichever ends later."""
    found, own_until = None, date.min
    for earlier in sorted(claim["earlier"], key=lambda one: one["repaired"]):
        day = earlier["repaired"]
        if earlier["component"] not in (claim["failure"]["component"], claim.get("as_if")) or day > on:
            continue
        then = copy.deepcopy(claim)
        then["unit"]["hours"], then["failure"]["defect"] = earlier.get("hours", claim["unit"].get("hours")), None
        then["unit"]["meters"] = earlier.get("meters", claim["unit"].get("meters"))
        opened = [one for one in plan["window"] if is_for_it(then, plan, one) and is_open(then, plan, one, day)]
        if not opened and day > own_until:
            continue
        spans = []
        if "period" in plan["replaced"]:
            until = end_of(day, plan, {}, plan["replaced"]["period"])
            own_until = lengthened(day, until, in_repair(claim, plan, {}, on))
            spans.append(PartPutIn(own_until, None))
        if plan["replaced"].get("keeps_remaining", True):
            left = [one for one in opened if not lasts(claim, one) and within_limits(claim, one)]
            spans += [PartPutIn(laid(claim, plan, one, on)[1], hours_of(claim, one)) for one in left]
        found = max(spans, key=lambda span: span.until, default=found)
    return found


def judged(claim: dict[str, Any], plan: dict[str, Any]) -> Answer:
    """The verdict on a complete claim."""
    on = claim["dates"][plan["judged_on"]]
    holding: dict[str, tuple[date, bool, Decimal]] = {}
    for window in plan["window"]:
        if is_for_it(claim, plan, window) and is_open(claim, plan, window, on):
            limit, days = hours_of(claim, window), laid(claim, plan, window, on)
            # what came back has no last day until it is mended
            is_past = days is None or days[1] < on <= not_over(claim, plan, window, days, on)
            holding[window["id"]] = (date.min if is_past else days[1], limit is None, limit or Decimal(0))
    excluded = claim["failure"]["component"] in plan["excluded"]["components"]
    bad = claim["failure"].get("defect") in plan["excluded"]["defects"]
    if plan.get("replaced") and not excluded and not bad:
        part = part_put_in(claim, plan, on)
        if part and on <= part.until:
            holding["replaced"] = (part.until, part.limit is None, part.limit or Decimal(0))
    if not holding:
        return Answer("not covered")
    cited = max(holding, key=lambda name: holding[name])
    ends = holding[cited][0]
    return Answer("covered", cited, None if ends == date.min else ends, frozenset(holding))


def is_possible(claim: dict[str, Any]) -> bool:
    """Whether the days of a claim can all be true."""
    dates, built = claim["dates"], claim["unit"].get("built")
    order = [("sold", "failed"), ("sold", "presented"), ("failed", "presented"), ("presented", "repaired")]
    sold = [dates[role] for role in ("purchased", "delivered", "in_service") if dates.get(role)]
    late = [dates[role] for role in ("delivered", "in_service", "failed", "presented") if dates.get(role)]
    known = {**dates, "sold": max(sold, default=None)}
    in_order = all(not (known.get(a) and known.get(b)) or known[a] <= known[b] for a, b in order)
    late += [earlier["repaired"] for earlier in claim["earlier"]]
    late += [claim["unit"]["invoiced"]] if claim["unit"].get("invoiced") else []
    resold = dates.get("resold")
    bought = [dates[role] for role in ("purchased", "delivered") if dates.get(role)]
    sold_once = not resold or all(day <= resold for day in bought)
    stays = [(one.get("presented"), one["repaired"], one.get("returned")) for one in claim["earlier"]]
    stays.append((dates["presented"], dates.get("repaired") or dates["presented"], dates.get("returned")))
    stayed = all((first or day) <= day <= (last or day) for first, day, last in stays)
    return in_order and sold_once and stayed and not (built and any(day < built for day in late))
