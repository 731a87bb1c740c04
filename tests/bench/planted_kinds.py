"""Irregularities that are planted while the rules are worked on; each says which claims it is in, and of what kind."""

from __future__ import annotations

import datetime as dt
import random
from collections.abc import Callable
from decimal import Decimal
from typing import NamedTuple

from planted_cases import a_case
from planted_shop import HOLIDAYS, PRICES, SHOP_PHONE, STAFF, Case, HonestShop, is_open, next_open


class Planted(NamedTuple):
    """One irregularity: its kind, what it is, and the claims any of which a finding must name."""

    kind: str
    name: str
    claims: frozenset[str]


Planter = Callable[[HonestShop, random.Random, set[str]], list[Case]]
KINDS: list[tuple[str, str, Planter]] = []


def kind(name: str) -> Callable[[Planter], Planter]:
    def known(planter: Planter) -> Planter:
        KINDS.append((name, planter.__name__, planter))
        return planter

    return known


def picked(shop: HonestShop, chance: random.Random, used: set[str], count: int = 1, **wants: object) -> list[Case]:
    """Filed cases that nothing was planted in, in the order of their days."""
    fits = [
        case
        for case in shop.cases
        if case.number not in used
        and case.filed
        and not case.answers
        and not case.shares_receipt
        and all(getattr(case.job, name) == wanted for name, wanted in wants.items())
        and "earlier" not in case.keys
    ]
    found = sorted(chance.sample(fits, count), key=lambda case: case.opened)
    used.update(case.number for case in found)
    return found


def work(case: Case) -> dict[str, object]:
    return case.keys["labour"][0]


def moved_to(case: Case, day: dt.date, hour: int, minute: int = 0) -> None:
    """The work of a case at another time, as long as it took."""
    started, ended = (dt.datetime.fromisoformat(str(work(case)[key])) for key in ("started", "ended"))
    at = dt.datetime.combine(day, dt.time(hour, minute))
    work(case).update(started=at.isoformat(), ended=(at + (ended - started)).isoformat())


def a_copy(shop: HonestShop, case: Case, days: int) -> Case:
    """The same repair claimed once more, so many days later."""
    other = case.like(shop.next_number())
    for role in ("failed", "presented", "repaired"):
        day = next_open(dt.date.fromisoformat(case.keys["dates"][role]) + dt.timedelta(days=days))
        other.keys["dates"][role] = f"{day}"
    other.opened = other.presented
    other.filed = next_open(other.repaired + dt.timedelta(days=2))
    moved_to(other, other.repaired, 9)
    other.paid, other.answers, other.part_events = [], [], []
    other.pictures = {
        file: (scene, (what[0], shop.last), *done) if scene != "plate" else (scene, what, *done)
        for file, (scene, what, *done) in case.pictures.items()
    }
    other.taken = {file: dt.datetime.combine(other.repaired, dt.time(9, 5)) for file in other.pictures}
    if "approval" in other.keys:
        other.keys["approval"] |= {"number": f"A-9{shop.last}", "on": f"{other.repaired}"}
    shop.cases.append(other)
    return other


@kind("identity")
def look_alike_serial(shop: HonestShop, chance: random.Random, used: set[str]) -> list[Case]:
    """The unit comes back under a number with O for 0, I for 1, S for 5, B for 8."""
    (case,) = picked(shop, chance, used)
    other = a_copy(shop, case, chance.randrange(20, 60))
    serial = case.serial
    at = chance.choice([place for place, sign in enumerate(serial) if sign in "0158" and place > 4])
    typed = serial[:at] + dict(zip("0158", "OISB", strict=True))[serial[at]] + serial[at + 1 :]
    other.keys["unit"]["serials"][0]["value"] = typed
    return [case, other]


@kind("identity")
def one_engine_two_units(shop: HonestShop, chance: random.Random, used: set[str]) -> list[Case]:
    maker = chance.choice(("halden", "tessaly", "orrin-vale"))
    one, other = picked(shop, chance, used, 2, maker=maker)
    other.keys["unit"]["serials"][1]["value"] = one.keys["unit"]["serials"][1]["value"]
    return [one, other]


@kind("identity")
def one_approval_twice(shop: HonestShop, chance: random.Random, used: set[str]) -> list[Case]:
    one, other = picked(shop, chance, used, 2, component=chance.choice(("short block", "transaxle")))
    other.keys["approval"]["number"] = one.keys["approval"]["number"]
    return [one, other]


@kind("identity")
def meter_backwards(shop: HonestShop, chance: random.Random, used: set[str]) -> list[Case]:
    (case,) = picked(shop, chance, used, component=chance.choice(("blade spindle", "blade clutch")))
    job = next(j for j in (c.job for c in shop.cases) if j.model == "RM-42" and j.component != case.job.component)
    later = a_case(shop, job, next_open(case.repaired + dt.timedelta(days=40)), shop.last + 400, case)
    later.keys["unit"]["hours"] = str(Decimal(case.keys["unit"]["hours"]) - Decimal(chance.randrange(40, 90)) / 10)
    shop.cases.append(later)
    return [case, later]


@kind("identity")
def refused_then_anew(shop: HonestShop, chance: random.Random, used: set[str]) -> list[Case]:
    (case,) = picked(shop, chance, used)
    case.paid, case.part_events = [], []
    case.answers = [(case.filed + dt.timedelta(days=9), "refused", "Wear item")]
    other = a_copy(shop, case, chance.randrange(15, 45))
    other.keys["failure"]["complaint"] = "Broken, see pictures."
    return [case, other]


@kind("pictures")
def cropped_picture(shop: HonestShop, chance: random.Random, used: set[str]) -> list[Case]:
    return _same_picture(shop, chance, used, "cropped")


@kind("pictures")
def turned_picture(shop: HonestShop, chance: random.Random, used: set[str]) -> list[Case]:
    return _same_picture(shop, chance, used, "turned")


@kind("pictures")
def mirrored_picture(shop: HonestShop, chance: random.Random, used: set[str]) -> list[Case]:
    return _same_picture(shop, chance, used, "mirrored")


@kind("pictures")
def photographed_again(shop: HonestShop, chance: random.Random, used: set[str]) -> list[Case]:
    return _same_picture(shop, chance, used, "photographed")


def _same_picture(shop: HonestShop, chance: random.Random, used: set[str], *done: str) -> list[Case]:
    one, other = picked(shop, chance, used, 2, component=chance.choice(("ignition coil", "blade spindle", "gearbox")))
    shot = chance.choice(("photos/failed.jpg", "photos/failed.jpg", "photos/whole.jpg"))
    if one.job.model == other.job.model or shot == "photos/failed.jpg":
        other.pictures[shot] = (*one.pictures[shot], *done)
    return [one, other]


@kind("pictures")
def one_receipt_two_owners(shop: HonestShop, chance: random.Random, used: set[str]) -> list[Case]:
    fits = [case for case in shop.cases if "555-017" in case.keys["owner"]["phone"] or "Lane" in str(case.keys)]
    numbers = {case.number for case in fits}
    one, other = picked(shop, chance, used | {c.number for c in shop.cases if c.number not in numbers}, 2)
    used |= {one.number, other.number}
    other.papers = dict(one.papers)
    return [one, other]


@kind("pictures")
def old_picture(shop: HonestShop, chance: random.Random, used: set[str]) -> list[Case]:
    (case,) = picked(shop, chance, used)
    case.taken["photos/failed.jpg"] = dt.datetime.combine(case.presented, dt.time(11)) - dt.timedelta(
        days=chance.randrange(20, 300)
    )
    return [case]


@kind("labour")
def at_night(shop: HonestShop, chance: random.Random, used: set[str]) -> list[Case]:
    (case,) = picked(shop, chance, used)
    moved_to(case, case.repaired, chance.choice((19, 20, 21, 4, 5)))
    return [case]


@kind("labour")
def on_a_shut_day(shop: HonestShop, chance: random.Random, used: set[str]) -> list[Case]:
    (case,) = picked(shop, chance, used)
    day = case.repaired
    while is_open(day):
        day += dt.timedelta(days=1)
    moved_to(case, day, 10)
    case.keys["dates"]["repaired"] = f"{day}"
    case.filed = max(case.filed, day)
    return [case]


@kind("labour")
def on_a_holiday(shop: HonestShop, chance: random.Random, used: set[str]) -> list[Case]:
    near = [c.number for c in shop.cases if not any(0 <= (day - c.repaired).days < 15 for day in HOLIDAYS)]
    taken = used | set(near)
    (case,) = picked(shop, chance, taken)
    used.add(case.number)
    day = next(day for day in HOLIDAYS if 0 <= (day - case.repaired).days < 15)
    moved_to(case, day, 10)
    case.keys["dates"]["repaired"] = f"{day}"
    case.filed = max(case.filed, day + dt.timedelta(days=1))
    return [case]


@kind("labour")
def before_arrival(shop: HonestShop, chance: random.Random, used: set[str]) -> list[Case]:
    (case,) = picked(shop, chance, used)
    day = case.presented - dt.timedelta(days=2)
    while not is_open(day):
        day -= dt.timedelta(days=1)
    moved_to(case, day, 10)
    return [case]


@kind("labour")
def after_repair(shop: HonestShop, chance: random.Random, used: set[str]) -> list[Case]:
    (case,) = picked(shop, chance, used)
    moved_to(case, next_open(case.repaired + dt.timedelta(days=2)), 10)
    return [case]


@kind("labour")
def two_places(shop: HonestShop, chance: random.Random, used: set[str]) -> list[Case]:
    one, other = picked(shop, chance, used, 2)
    who, at = work(one)["technician"], dt.datetime.fromisoformat(str(work(one)["started"]))
    work(other)["technician"] = who
    later = one.repaired - other.repaired
    for role in ("failed", "presented", "repaired", "purchased", "delivered", "registered"):
        if role in other.keys["dates"]:
            day = dt.date.fromisoformat(other.keys["dates"][role]) + later
            other.keys["dates"][role] = f"{day}"
    other.opened, other.filed = other.presented, one.filed
    other.paid, other.answers, other.part_events, other.edits = [], [], [], []
    moved_to(other, one.repaired, at.hour, at.minute + 3 if at.minute < 56 else at.minute)
    other.taken = {file: at + dt.timedelta(minutes=9) for file in other.pictures}
    if "approval" in other.keys:
        other.keys["approval"]["on"] = f"{one.repaired}"
    return [one, other]


@kind("labour")
def always_the_same(shop: HonestShop, chance: random.Random, used: set[str]) -> list[Case]:
    """A technician's clock shows the same minutes for a job, however it went."""
    job = chance.choice(("ignition coil", "blade spindle", "blade clutch", "mechanical seal"))
    cases = picked(shop, chance, used, 14, component=job)
    minutes = round(float(cases[0].job.hours) * 60 * 1.31)
    for case in cases:
        work(case)["technician"] = "Cora Pike"
        at = dt.datetime.fromisoformat(str(work(case)["started"]))
        at = at.replace(hour=8 + cases.index(case) % 3, minute=7)
        work(case).update(started=at.isoformat(), ended=(at + dt.timedelta(minutes=minutes)).isoformat())
    return cases


@kind("labour")
def included_by_another_name(shop: HonestShop, chance: random.Random, used: set[str]) -> list[Case]:
    wants, words = chance.choice(
        (
            ("short block", "Recoil starter off and on again"),
            ("blade spindle", "Deck belt taken off and refitted"),
            ("voltage regulator", "Output tested under load"),
            ("mechanical seal", "Pump casing opened and closed"),
            ("ignition coil", "Spark and coil tested"),
        )
    )
    (case,) = picked(shop, chance, used, component=wants)
    case.keys["labour"].append({"operation": words, "hours": "0.5", "technician": work(case)["technician"]})
    return [case]


@kind("money")
def just_below_the_limit(shop: HonestShop, chance: random.Random, used: set[str]) -> list[Case]:
    """Seven claims of one technician a few dollars below what needs an approval."""
    cases = picked(shop, chance, used, 7, component="gearbox")
    for case in cases:
        work(case)["technician"] = "Sam Reyes"
        for line in case.keys["parts"][:1]:
            line["unit_cost"] = "71.60"
        # 92.00 an hour and handling of a fifth: the rest up to 400 is a second part.
        rest = Decimal(400) - Decimal("82.80") - Decimal("71.60") * Decimal("1.2") - Decimal(chance.randrange(1, 9))
        case.keys["parts"] = case.keys["parts"][:1]
        case.keys["parts"].append(
            {
                "number": "20-3390",
                "name": "gear case",
                "unit_cost": str((rest / Decimal("1.2")).quantize(Decimal(".01"))),
            }
        )
    return cases


@kind("money")
def one_job_split(shop: HonestShop, chance: random.Random, used: set[str]) -> list[Case]:
    """The parts in one claim and more of the same day's work in another."""
    (case,) = picked(shop, chance, used, maker=chance.choice(("halden", "orrin-vale")))
    other = a_copy(shop, case, 0)
    other.keys["failure"] |= {"component": "starter" if case.job.maker == "halden" else "seat"}
    other.keys["failure"]["part"] = {"number": "", "name": "starter"}
    other.keys["parts"] = [{"number": "X-1", "name": other.keys["failure"]["component"], "unit_cost": "61.00"}]
    other.keys["held"][0]["part"] = other.keys["failure"]["component"]
    other.keys["labour"][0]["operation"] = "Replaced as well"
    other.keys["labour"][0]["hours"] = "0.6"
    moved_to(other, case.repaired, 8)
    return [case, other]


@kind("money")
def dear_part(shop: HonestShop, chance: random.Random, used: set[str]) -> list[Case]:
    (case,) = picked(shop, chance, used, component=chance.choice(("ignition coil", "blade spindle", "mechanical seal")))
    case.keys["parts"][0]["unit_cost"] = str(PRICES[case.job.number] * Decimal(chance.randrange(20, 28)) / 10)
    return [case]


@kind("money")
def paid_twice(shop: HonestShop, chance: random.Random, used: set[str]) -> list[Case]:
    (case,) = picked(shop, chance, used)
    case.answers, case.part_events = [], []
    case.paid = [(case.filed + dt.timedelta(days=20), Decimal(1)), (case.filed + dt.timedelta(days=50), Decimal(1))]
    return [case]


@kind("money")
def owners_part(shop: HonestShop, chance: random.Random, used: set[str]) -> list[Case]:
    model, line = chance.choice(
        (
            ("CS-70", {"number": "70-9001", "name": "spark plug", "unit_cost": "4.80"}),
            ("RM-42", {"number": "RM-9110", "name": "deck belt", "unit_cost": "38.20"}),
            ("PW-26", {"number": "PW-9002", "name": "nozzle", "unit_cost": "7.10"}),
        )
    )
    (case,) = picked(shop, chance, used, model=model)
    case.keys["parts"] = [*case.keys["parts"][:1], {**line, "payer": "maker"}]
    return [case]


@kind("facts")
def measured_inside_limits(shop: HonestShop, chance: random.Random, used: set[str]) -> list[Case]:
    (case,) = picked(shop, chance, used)
    found = case.keys["findings"][0]
    found["value"] = str((Decimal(found["low"]) + Decimal(found["high"])) / 2)
    return [case]


@kind("facts")
def purchase_moved_before_filing(shop: HonestShop, chance: random.Random, used: set[str]) -> list[Case]:
    (case,) = picked(shop, chance, used)
    old = dt.date.fromisoformat(case.keys["dates"]["purchased"]) - dt.timedelta(days=chance.randrange(380, 700))
    case.edits.append(
        (
            case.filed - dt.timedelta(days=chance.randrange(2)),
            "dates.purchased",
            f"{old}",
            case.keys["dates"]["purchased"],
        )
    )
    return [case]


@kind("facts")
def same_words_same_figures(shop: HonestShop, chance: random.Random, used: set[str]) -> list[Case]:
    job = chance.choice(("ignition coil", "blade clutch", "pump head"))
    cases = picked(shop, chance, used, 5, component=job)
    words = "Unit failed on the second day of heavy use; traced to the part, which was found defective as described."
    for case in cases:
        case.keys["failure"] |= {"cause": words, "complaint": "Fails after some time in use, owner is not happy."}
        case.keys["findings"] = list(cases[0].keys["findings"])
    return cases


@kind("facts")
def another_part_than_failed(shop: HonestShop, chance: random.Random, used: set[str]) -> list[Case]:
    (case,) = picked(shop, chance, used, component=chance.choice(("ignition coil", "voltage regulator")))
    part = {"number": "70-4410", "name": "fuel tank", "unit_cost": "61.00"}
    case.keys["parts"] = [part]
    return [case]


@kind("facts")
def registered_before_purchase(shop: HonestShop, chance: random.Random, used: set[str]) -> list[Case]:
    (case,) = picked(shop, chance, used)
    day = dt.date.fromisoformat(case.keys["dates"]["purchased"]) - dt.timedelta(days=chance.randrange(10, 60))
    case.keys["dates"]["registered"] = f"{day}"
    return [case]


@kind("people")
def owner_is_the_technician(shop: HonestShop, chance: random.Random, used: set[str]) -> list[Case]:
    (case,) = picked(shop, chance, used)
    case.keys["owner"] |= {"name": chance.choice(tuple(STAFF)), "phone": "555-0199"}
    return [case]


@kind("people")
def owner_has_the_shops_phone(shop: HonestShop, chance: random.Random, used: set[str]) -> list[Case]:
    (case,) = picked(shop, chance, used)
    case.keys["owner"] |= {"phone": chance.choice((SHOP_PHONE, f"+1 {SHOP_PHONE}", SHOP_PHONE.replace("-", " ")))}
    return [case]


@kind("people")
def firm_at_home(shop: HonestShop, chance: random.Random, used: set[str]) -> list[Case]:
    (case,) = picked(shop, chance, used)
    case.keys["owner"]["name"] = chance.choice(("Crag Paving LLC", "Tor Tree Care Inc", "Weir Landscaping Ltd"))
    case.keys["unit"]["use"] = "household"
    return [case]


@kind("people")
def household_with_many(shop: HonestShop, chance: random.Random, used: set[str]) -> list[Case]:
    cases = picked(shop, chance, used, 5, model="CS-70")
    for case in cases:
        case.keys["owner"] = {"name": "Una Whitlock", "phone": "555-0169", "first_owner": True}
        case.keys["unit"]["use"] = "household"
    return cases


@kind("patterns")
def technician_of_one_part(shop: HonestShop, chance: random.Random, used: set[str]) -> list[Case]:
    """Nearly every transaxle is found by one who does little else."""
    cases = picked(shop, chance, used, 18, component=chance.choice(("transaxle", "pump head", "gearbox")))
    for case in cases:
        work(case)["technician"] = "Tove Lind"
    return cases


@kind("patterns")
def last_days_of_cover(shop: HonestShop, chance: random.Random, used: set[str]) -> list[Case]:
    cases = picked(shop, chance, used, 12, maker="halden", component="gearbox")
    for case in cases:
        work(case)["technician"] = "Ida Holm"
        purchased = case.presented.replace(year=case.presented.year - 1) + dt.timedelta(days=chance.randrange(1, 7))
        purchased = max(purchased, dt.date(2025, 1, 2))
        case.keys["dates"] |= {"purchased": f"{purchased}", "delivered": f"{purchased}"}
        case.keys["dates"].pop("registered", None)
        case.keys["unit"]["use"] = "professional"
        case.edits = []
    return [case for case in cases if case.presented > dt.date(2026, 1, 10)] or cases


@kind("patterns")
def month_end_technician(shop: HonestShop, chance: random.Random, used: set[str]) -> list[Case]:
    """Twelve repairs of one technician come in on the last day of a month."""
    cases = picked(shop, chance, used, 14, maker="tessaly")
    for case in cases:
        work(case)["technician"] = "Sam Reyes"
        first = case.repaired.replace(day=1)
        end = (first + dt.timedelta(days=32)).replace(day=1) - dt.timedelta(days=1)
        while not is_open(end):
            end -= dt.timedelta(days=1)
        end = max(end, case.repaired)
        case.keys["dates"]["repaired"] = f"{end}"
        minutes = round(float(case.job.hours) * 60)
        begins, _ = shop.bench.slot("Sam Reyes", end, minutes)
        moved_to(case, end, begins.hour, begins.minute)
        case.filed = next_open(end + dt.timedelta(days=1))
        case.part_events, case.paid, case.answers = [], [], []
    return cases


@kind("patterns")
def owner_again_and_again(shop: HonestShop, chance: random.Random, used: set[str]) -> list[Case]:
    cases = picked(shop, chance, used, 9, model=chance.choice(("RM-42", "CS-70")))
    for case in cases:
        case.keys["owner"] = {"name": "Otis Vane", "phone": "555-0168", "first_owner": True}
        case.keys["unit"]["use"] = "professional"
    return cases


@kind("held parts")
def scrapped_too_early(shop: HonestShop, chance: random.Random, used: set[str]) -> list[Case]:
    (case,) = picked(shop, chance, used)
    on = case.filed + dt.timedelta(days=chance.randrange(1, 9))
    case.part_events = [
        ("part released", on, chance.choice(("Shelf is full.", "Not needed.")), {"part": "1", "rule": ""}),
        ("part scrapped", on, "", {"part": "1"}),
    ]
    return [case]


@kind("held parts")
def called_back_and_scrapped(shop: HonestShop, chance: random.Random, used: set[str]) -> list[Case]:
    (case,) = picked(shop, chance, used)
    on = case.filed + dt.timedelta(days=10)
    case.part_events = [
        ("part called back", on, "", {"part": "1", "send_by": f"{on + dt.timedelta(days=14)}"}),
        ("part released", on + dt.timedelta(days=3), "", {"part": "1", "rule": ""}),
        ("part scrapped", on + dt.timedelta(days=3), "", {"part": "1"}),
    ]
    return [case]


@kind("held parts")
def nothing_held(shop: HonestShop, chance: random.Random, used: set[str]) -> list[Case]:
    old = {case.number for case in shop.cases if case.opened < dt.date(2026, 9, 20)}
    (case,) = picked(shop, chance, used | old)
    used.add(case.number)
    case.keys["held"], case.part_events = [], []
    return [case]


@kind("held parts")
def one_part_for_two(shop: HonestShop, chance: random.Random, used: set[str]) -> list[Case]:
    one, other = picked(shop, chance, used, 2, component=chance.choice(("transaxle", "short block")))
    for case in (one, other):
        case.keys["held"][0]["serial"] = f"PS-{shop.last}"
        case.keys["failure"]["part"]["serial"] = f"PS-{shop.last}"
    return [one, other]
