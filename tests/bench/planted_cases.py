"""The cases of the invented shop, drawn one after the other; the same seed gives the same shop."""

from __future__ import annotations

import datetime as dt
import hashlib
import random
from decimal import Decimal
from typing import Any

from planted_shop import (
    EXTRA_PARTS,
    FIRST,
    JOBS,
    NOTES,
    OWN_WORK,
    OWNER_PARTS,
    PRICES,
    SHARES,
    STAFF,
    TAILS,
    TODAY,
    Bench,
    Case,
    HonestShop,
    Job,
    an_owner,
    is_open,
    next_open,
    serials,
)

ROUNDS_TO = {"Ben Marsh": 1, "Ida Holm": 6, "Cora Pike": 5, "Sam Reyes": 1, "Tove Lind": 1}


def an_honest_shop(seed: int, count: int = 900) -> HonestShop:
    """So many claims over eighteen months."""
    chance = random.Random(seed)
    shop = HonestShop(chance, [], Bench(chance), 0)
    days = (TODAY - FIRST).days - 5
    for nth in range(count):
        came = next_open(FIRST + dt.timedelta(days=days * nth // count))
        earlier = _who_comes_back(shop, came)
        job = chance.choices(JOBS, [job.weight for job in JOBS])[0]
        if earlier:
            job = chance.choice([job for job in JOBS if job.model == earlier.job.model])
        if earlier and job.component == earlier.job.component:
            earlier = None
        shop.cases.append(a_case(shop, job, came, nth, earlier))
    _one_receipt_for_three(shop)
    return shop


def _one_receipt_for_three(shop: HonestShop) -> None:
    """Contractors buy several units at once: claims on three of them show one receipt."""
    for firm in {
        case.keys["owner"]["name"] for case in shop.cases if case.keys["owner"]["phone"].startswith("555-016")
    }:
        own = [case for case in shop.cases if case.keys["owner"]["name"] == firm and "earlier" not in case.keys]
        again = {case.keys["earlier"][0]["claim"] for case in shop.cases if "earlier" in case.keys}
        three = [case for case in own if case.job.maker == "halden" and case.number not in again][:3]
        days = [dt.date.fromisoformat(case.keys["dates"]["purchased"]) for case in three]
        if (
            len(three) < 3
            or max(days) > min(case.presented for case in three)
            or max(days) - min(days) > dt.timedelta(300)
        ):
            continue
        for case in three:
            if (case.presented - max(days)).days < 360:
                case.keys["dates"] |= {"purchased": f"{max(days)}", "delivered": f"{max(days)}"}
                case.keys["dates"].pop("registered", None)
                case.keys["dates"]["failed"] = f"{case.presented}"
                case.papers, case.shares_receipt = dict(three[0].papers), True
                case.edits = []


def untangle(shop: HonestShop, meant: set[str]) -> None:
    """Give work that planting moved onto other work of a technician to one who is free, unless that was meant."""

    def shift(case: Case) -> tuple[dt.datetime, dt.datetime]:
        entry = case.keys["labour"][0]
        return dt.datetime.fromisoformat(entry["started"]), dt.datetime.fromisoformat(entry["ended"])

    taken: dict[tuple[str, dt.date], list[tuple[dt.datetime, dt.datetime]]] = {}
    for case in sorted(shop.cases, key=lambda each: each.number not in meant):
        begins, ends = shift(case)
        entry = case.keys["labour"][0]
        own = entry["technician"]
        for who in (own, *STAFF):
            clash = any(begins < other and one < ends for one, other in taken.get((who, begins.date()), []))
            if case.number in meant or not clash:
                entry["technician"] = who
                break
        taken.setdefault((entry["technician"], begins.date()), []).append((begins, ends))


def _who_comes_back(shop: HonestShop, came: dt.date) -> Case | None:
    if not shop.cases or shop.chance.random() > 0.12:
        return None
    before = shop.chance.choice(shop.cases)
    purchased = dt.date.fromisoformat(before.keys["dates"]["purchased"])
    fits = before.repaired + dt.timedelta(days=45) < came and (came - purchased).days < 330
    again = any(case.serial == before.serial and case is not before for case in shop.cases)
    return before if fits and not again else None


def a_case(shop: HonestShop, job: Job, came: dt.date, nth: int, earlier: Case | None = None) -> Case:
    """A claim as honest work makes it."""
    chance, number = shop.chance, shop.next_number()
    who = chance.choices(tuple(STAFF), SHARES)[0]
    owner, use = an_owner(chance, nth)
    purchased = came - dt.timedelta(days=chance.randrange(25, 335))
    if job.maker == "halden":
        purchased = max(purchased, dt.date(2025, 1, 3))
    unit = {"model": job.model, "use": use, "meter": False, "serials": serials(chance, job.model, nth)}
    if job.maker == "orrin-vale":
        pace = Decimal(chance.randrange(60, 130)) / (500 if use == "household" else 130)
        unit |= {"meter": True, "hours": str(((came - purchased).days * pace).quantize(Decimal("0.1")))}
    if earlier:
        owner, use = earlier.keys["owner"], earlier.keys["unit"]["use"]
        purchased = dt.date.fromisoformat(earlier.keys["dates"]["purchased"])
        unit = {**earlier.keys["unit"]}
        if unit.get("hours"):
            unit["hours"] = str(Decimal(unit["hours"]) + Decimal(chance.randrange(30, 300)) / 10)
    elapsed = max(6, round(float(job.hours) * 60 * chance.lognormvariate(0, 0.16)))
    step = ROUNDS_TO[who]
    elapsed = max(step, round(elapsed / step) * step)
    started, ended = shop.bench.slot(who, next_open(came + dt.timedelta(days=chance.randrange(1, 15))), elapsed)
    repaired = started.date()
    failed = max(purchased, came - dt.timedelta(days=chance.randrange(8)))
    keys: dict[str, Any] = {
        "number": number,
        "maker": job.maker,
        "unit": unit,
        "owner": owner,
        "dates": {
            "purchased": f"{purchased}",
            "delivered": f"{purchased}",
            "failed": f"{failed}",
            "presented": f"{came}",
            "repaired": f"{repaired}",
        },
        "proof": {"kind": "receipt", "file": "papers/receipt.pdf"},
        "failure": {
            "complaint": chance.choice(job.complaints) + chance.choice(TAILS),
            "cause": chance.choice(job.causes) + chance.choice(NOTES),
            "correction": chance.choice(job.corrections),
            "component": job.component,
            "defect": "material",
            "part": {"number": job.number, "name": job.component},
        },
        "findings": [_finding(chance, job)],
        "parts": _parts(chance, job),
        "labour": [
            {"operation": job.operation, "started": started.isoformat(), "ended": ended.isoformat(), "technician": who}
        ],
        "held": [
            {
                "part": job.component,
                "number": job.number,
                "shelf": f"{chance.choice('ABC')}{nth % 6}",
                "boxed": True,
                "drained": True,
                "since": f"{repaired}",
            }
        ],
    }
    if chance.random() < 0.08:
        hours = str(Decimal(chance.randrange(2, 14)) / 10)
        keys["labour"].append(
            {"operation": chance.choice(OWN_WORK), "hours": hours, "technician": who, "payer": "owner"}
        )
    if chance.random() < 0.04:
        fine = {
            "what": "oil temperature",
            "value": str(60 + chance.randrange(30)),
            "unit": "C",
            "low": "50",
            "high": "95",
        }
        keys["findings"].append(fine)
    if chance.random() < 0.7 and not earlier:
        keys["dates"]["registered"] = f"{min(came, purchased + dt.timedelta(days=chance.randrange(20)))}"
    if earlier:
        keys["dates"] |= {k: v for k, v in earlier.keys["dates"].items() if k == "registered"}
        keys["earlier"] = [
            {"component": earlier.job.component, "repaired": f"{earlier.repaired}", "claim": earlier.number}
        ]
    if job.approval:
        on = came + (repaired - came) / 2
        keys["approval"] = {"number": f"A-{40000 + 3 * nth}", "on": f"{on}", "state": "given", "up_to": "900.00"}
    case = Case(number, keys, job, came)
    _pictures(chance, case, nth, earlier)
    _life(chance, case)
    return case


def _finding(chance: random.Random, job: Job) -> dict[str, str]:
    what, unit, low, high, least, most = job.measured
    places = Decimal(least).as_tuple().exponent
    span = int((Decimal(most) - Decimal(least)).scaleb(-int(places)))
    value = Decimal(least) + Decimal(chance.randrange(span + 1)).scaleb(int(places))
    return {"what": what, "value": str(value), "unit": unit, "low": low, "high": high}


def _parts(chance: random.Random, job: Job) -> list[dict[str, str]]:
    def line(number: str, name: str, payer: str = "maker") -> dict[str, str]:
        cost = PRICES[number] * (Decimal(chance.choice((97, 98, 100, 100, 100, 100, 100, 103))) / 100)
        return {"number": number, "name": name, "unit_cost": str(cost.quantize(Decimal("0.01"))), "payer": payer}

    found = [line(job.number, job.component)]
    if job.component in EXTRA_PARTS and chance.random() < 0.6:
        found.append(line(*EXTRA_PARTS[job.component][:2]))
    if job.model in OWNER_PARTS and chance.random() < 0.25:
        found.append(line(*OWNER_PARTS[job.model][:2], payer="owner"))
    return found


def _pictures(chance: random.Random, case: Case, nth: int, earlier: Case | None) -> None:
    shots = {"plate": "serial plate", "whole": "whole unit", "failed": "failed part"}
    case.keys["photos"] = [{"file": f"photos/{name}.jpg", "shot": shot} for name, shot in shots.items()]
    case.pictures = {
        "photos/plate.jpg": ("plate", (case.job.model, case.serial)),
        "photos/whole.jpg": ("whole", (case.job.model, nth)),
        "photos/failed.jpg": ("failed", (case.job.component, nth)),
    }
    if earlier and chance.random() < 0.5:
        case.pictures["photos/plate.jpg"] = earlier.pictures["photos/plate.jpg"]
    case.papers = {"papers/receipt.pdf": hashlib.sha256(f"receipt {case.serial}".encode()).hexdigest()}
    for place, file in enumerate(case.pictures):
        began = dt.datetime.fromisoformat(case.keys["labour"][0]["started"])
        case.taken[file] = began + dt.timedelta(minutes=3 + 4 * place)


def _life(chance: random.Random, case: Case) -> None:
    """Filed within the limit, at the end of the month more often; answered, paid, refused, let go."""
    repaired = case.repaired
    filed = next_open(repaired + dt.timedelta(days=chance.randrange(20)))
    month_end = (repaired.replace(day=1) + dt.timedelta(days=32)).replace(day=1) - dt.timedelta(days=1)
    if chance.random() < 0.35 and (month_end - repaired).days < 25:
        while not is_open(month_end) and month_end > repaired:
            month_end -= dt.timedelta(days=1)
        filed = max(month_end, repaired)
    if chance.random() < 0.3:
        case.edits.append((min(filed, case.opened + dt.timedelta(days=1)), "failure.complaint", "Wont start", "…"))
    if chance.random() < 0.2:
        before = max(case.opened, filed - dt.timedelta(days=chance.randrange(6)))
        case.edits.append((before, "dates.purchased", "", case.keys["dates"]["purchased"]))
    if filed > TODAY:
        return
    case.filed = filed
    answered = filed + dt.timedelta(days=chance.randrange(4, 35))
    draw = chance.random()
    if answered > TODAY:
        return
    if draw < 0.05:
        case.answers.append((answered, "refused", chance.choice(("Wear item", "Outside the coverage period"))))
        return
    paid = filed + dt.timedelta(days=chance.randrange(10, 45))
    if paid > TODAY:
        return
    case.paid.append((paid, Decimal("0.7") if draw < 0.1 else Decimal(1)))
    let_go = max(paid, filed + dt.timedelta(days=61), repaired + dt.timedelta(days=91)) + dt.timedelta(days=35)
    if let_go < TODAY and chance.random() < 0.7:
        case.part_events += [
            ("part released", let_go, "", {"part": "1", "rule": "the hold ran out"}),
            ("part scrapped", let_go, "", {"part": "1"}),
        ]
