"""Irregularities of the same kinds in other ways, written before the rules, which are not tuned to them.

Nobody reads which of these were missed while a rule is worked on: the figure is printed, the names are not, unless they
are asked for at the end.
"""

from __future__ import annotations

import datetime as dt
import random
from decimal import Decimal

from planted_cases import a_case
from planted_kinds import KINDS, Planter, _same_picture, a_copy, moved_to, picked, work
from planted_shop import SHOP_ADDRESS, SHOP_MAIL, STAFF, Case, HonestShop, next_open

UNSEEN: list[tuple[str, str, Planter]] = []


def unseen(name: str):
    def known(planter: Planter) -> Planter:
        UNSEEN.append((name, planter.__name__, planter))
        return planter

    return known


@unseen("identity")
def serial_with_a_digit_twice(shop: HonestShop, chance: random.Random, used: set[str]) -> list[Case]:
    """The same engine, and a unit number with spaces for dashes and one digit typed twice."""
    (case,) = picked(shop, chance, used)
    other = a_copy(shop, case, chance.randrange(30, 70))
    serial = case.serial
    other.keys["unit"]["serials"][0]["value"] = serial[:-2] + serial[-2] + serial[-2:]
    return [case, other]


@unseen("identity")
def two_purchase_days(shop: HonestShop, chance: random.Random, used: set[str]) -> list[Case]:
    """A unit that comes back has another day of purchase, and it is the later one."""
    (case,) = picked(shop, chance, used, component="blade spindle")
    job = next(c.job for c in shop.cases if c.job.component == "blade clutch")
    later = a_case(shop, job, next_open(case.repaired + dt.timedelta(days=60)), shop.last + 600, case)
    day = dt.date.fromisoformat(case.keys["dates"]["purchased"]) + dt.timedelta(days=chance.randrange(15, 25))
    later.keys["dates"] |= {"purchased": f"{day}", "delivered": f"{day}"}
    later.keys["dates"].pop("registered", None)
    shop.cases.append(later)
    return [case, later]


@unseen("identity")
def two_models_one_number(shop: HonestShop, chance: random.Random, used: set[str]) -> list[Case]:
    one = picked(shop, chance, used, model="PW-26")[0]
    other = picked(shop, chance, used, model="TP-80")[0]
    other.keys["unit"]["serials"] = [dict(serial) for serial in one.keys["unit"]["serials"]]
    return [one, other]


@unseen("identity")
def meter_too_fast(shop: HonestShop, chance: random.Random, used: set[str]) -> list[Case]:
    """Between two visits the meter ran more hours than there were."""
    (case,) = picked(shop, chance, used, component="blade clutch")
    job = next(c.job for c in shop.cases if c.job.component == "blade spindle")
    later = a_case(shop, job, next_open(case.repaired + dt.timedelta(days=6)), shop.last + 700, case)
    later.keys["unit"]["hours"] = str(Decimal(case.keys["unit"]["hours"]) + 24 * 30)
    shop.cases.append(later)
    return [case, later]


@unseen("pictures")
def cropped_and_brighter(shop: HonestShop, chance: random.Random, used: set[str]) -> list[Case]:
    return _same_picture(shop, chance, used, "cropped", "brighter", "saved")


@unseen("pictures")
def upside_down_and_small(shop: HonestShop, chance: random.Random, used: set[str]) -> list[Case]:
    return _same_picture(shop, chance, used, "upside down", "smaller", "saved")


@unseen("pictures")
def mirrored_and_cropped(shop: HonestShop, chance: random.Random, used: set[str]) -> list[Case]:
    return _same_picture(shop, chance, used, "mirrored", "cropped")


@unseen("pictures")
def off_a_screen_askew(shop: HonestShop, chance: random.Random, used: set[str]) -> list[Case]:
    return _same_picture(shop, chance, used, "tilted", "photographed", "saved")


@unseen("pictures")
def after_it_went_out(shop: HonestShop, chance: random.Random, used: set[str]) -> list[Case]:
    """The failed part "as found", taken long after it was repaired and filed."""
    (case,) = picked(shop, chance, used)
    case.taken["photos/failed.jpg"] = dt.datetime.combine(case.filed, dt.time(10)) + dt.timedelta(days=8)
    return [case]


@unseen("labour")
def before_the_doors_open(shop: HonestShop, chance: random.Random, used: set[str]) -> list[Case]:
    (case,) = picked(shop, chance, used)
    moved_to(case, case.repaired, 6, 5)
    return [case]


@unseen("labour")
def into_the_evening(shop: HonestShop, chance: random.Random, used: set[str]) -> list[Case]:
    (case,) = picked(shop, chance, used, component="transaxle")
    moved_to(case, case.repaired, 17, 25)
    return [case]


@unseen("labour")
def two_of_three_overlap(shop: HonestShop, chance: random.Random, used: set[str]) -> list[Case]:
    """A short job put in the middle of a long one of the same technician."""
    (long,) = picked(shop, chance, used, component="transaxle")
    day, who = long.repaired, work(long)["technician"]
    near = [
        c
        for c in shop.cases
        if c.number not in used
        and c.filed
        and 0 <= (c.repaired - day).days <= 4
        and c.presented < day
        and c is not long
        and c.filed >= day
        and "approval" not in c.keys
    ]
    if not near:
        return []
    other = near[0]
    used.add(other.number)
    at = dt.datetime.fromisoformat(str(work(long)["started"])) + dt.timedelta(minutes=40)
    work(other)["technician"] = who
    moved_to(other, day, at.hour, at.minute)
    other.keys["dates"]["repaired"] = f"{day}"
    other.taken = dict.fromkeys(other.pictures, at)
    return [long, other]


@unseen("labour")
def hours_without_a_clock(shop: HonestShop, chance: random.Random, used: set[str]) -> list[Case]:
    """Twelve repairs with the same hours, typed in for work that is in no schedule."""
    cases = picked(shop, chance, used, 12, maker="tessaly")
    for case in cases:
        words = chance.choice(("Find fault and clean down", "Strip, inspect and rebuild", "Test run and adjust"))
        case.keys["labour"].append({"operation": words, "hours": "1.9", "technician": "Ida Holm"})
    return cases


@unseen("labour")
def test_in_other_words(shop: HonestShop, chance: random.Random, used: set[str]) -> list[Case]:
    wants, words = chance.choice(
        (
            ("transaxle", "Fitted transaxle once more for test"),
            ("short block", "Carb off and on"),
            ("pump head", "Change unloader"),
            ("short block", "Engine fault finding"),
        )
    )
    (case,) = picked(shop, chance, used, component=wants)
    case.keys["labour"].append({"operation": words, "hours": "0.4", "technician": work(case)["technician"]})
    return [case]


@unseen("money")
def a_third_dearer(shop: HonestShop, chance: random.Random, used: set[str]) -> list[Case]:
    (case,) = picked(shop, chance, used, component=chance.choice(("blade clutch", "pump head", "voltage regulator")))
    line = case.keys["parts"][0]
    line["unit_cost"] = str(
        (Decimal(line["unit_cost"]) * Decimal(chance.randrange(145, 170)) / 100).quantize(Decimal(".01"))
    )
    return [case]


@unseen("money")
def split_over_days(shop: HonestShop, chance: random.Random, used: set[str]) -> list[Case]:
    (case,) = picked(shop, chance, used, maker="orrin-vale")
    other = a_copy(shop, case, chance.randrange(1, 4))
    other.keys["parts"] = []
    other.keys["held"] = []
    other.keys["labour"][0]["operation"] = "Second half of the work"
    other.keys["labour"][0]["hours"] = "1.0"
    other.keys["failure"]["component"] = chance.choice(("steering gear", "wiring harness"))
    return [case, other]


@unseen("money")
def more_than_was_asked(shop: HonestShop, chance: random.Random, used: set[str]) -> list[Case]:
    (case,) = picked(shop, chance, used)
    case.answers, case.part_events = [], []
    case.paid = [(case.filed + dt.timedelta(days=22), Decimal("1.5"))]
    return [case]


@unseen("money")
def filters_for_the_maker(shop: HonestShop, chance: random.Random, used: set[str]) -> list[Case]:
    maker, name = chance.choice(
        (("halden", "Filter, air, felt"), ("orrin-vale", "Filter, oil"), ("tessaly", "Spark plugs"))
    )
    (case,) = picked(shop, chance, used, maker=maker)
    case.keys["parts"].append({"number": "Z-20", "name": name, "unit_cost": "11.20", "payer": "maker"})
    return [case]


@unseen("money")
def freight_twice(shop: HonestShop, chance: random.Random, used: set[str]) -> list[Case]:
    cases = picked(shop, chance, used, 2, maker="orrin-vale")
    for case in cases:
        case.keys["extras"] = [{"what": f"Freight, waybill {shop.last}7731", "kind": "freight", "amount": "41.27"}]
    return cases


@unseen("facts")
def cause_says_misuse(shop: HonestShop, chance: random.Random, used: set[str]) -> list[Case]:
    (case,) = picked(shop, chance, used)
    case.keys["failure"]["cause"] = chance.choice(
        (
            "Ran without oil.",
            "Water in the fuel, part seized.",
            "Dropped from the truck, housing cracked.",
            "Worn out, normal wear.",
            "Never serviced, packed with grass.",
        )
    )
    return [case]


@unseen("facts")
def use_changed_before_filing(shop: HonestShop, chance: random.Random, used: set[str]) -> list[Case]:
    (case,) = picked(shop, chance, used)
    key, old = chance.choice(
        (
            ("unit.use", "rental"),
            ("failure.defect", "wear"),
            ("unit.hours", "733.0"),
            ("failure.component", "clutch lining"),
        )
    )
    new = {
        "unit.use": case.keys["unit"]["use"],
        "failure.defect": "material",
        "unit.hours": case.keys["unit"].get("hours", "88.0"),
        "failure.component": case.job.component,
    }[key]
    case.edits.append((case.filed, key, old, new))
    return [case]


@unseen("facts")
def only_the_figures_alike(shop: HonestShop, chance: random.Random, used: set[str]) -> list[Case]:
    """Two decimals of a reading the same six times, the words not."""
    cases = picked(shop, chance, used, 6, component="gearbox")
    for case in cases:
        case.keys["findings"][0]["value"] = "0.83"
        case.keys["findings"].append({"what": "play", "value": "0.417", "unit": "mm", "low": "0.05", "high": "0.15"})
    return cases


@unseen("facts")
def reading_far_off(shop: HonestShop, chance: random.Random, used: set[str]) -> list[Case]:
    """The cause says low compression, and what was measured is above every limit."""
    (case,) = picked(shop, chance, used, component="short block")
    case.keys["findings"][0]["value"] = str(Decimal(case.keys["findings"][0]["high"]) + chance.randrange(5, 30))
    case.keys["failure"]["cause"] = "Low compression, rings broken."
    return [case]


@unseen("people")
def owner_has_staffs_phone(shop: HonestShop, chance: random.Random, used: set[str]) -> list[Case]:
    (case,) = picked(shop, chance, used)
    case.keys["owner"]["phone"] = f"({chance.choice(tuple(STAFF.values())).replace('-', ') ')}"
    return [case]


@unseen("people")
def owner_named_the_other_way_round(shop: HonestShop, chance: random.Random, used: set[str]) -> list[Case]:
    (case,) = picked(shop, chance, used)
    given, family = chance.choice(tuple(STAFF)).split()
    case.keys["owner"] |= {
        "name": chance.choice((f"{family}, {given}", f"{family} {given}", f"Mr. {given} {family}")),
        "phone": "",
    }
    return [case]


@unseen("people")
def owner_at_the_shop(shop: HonestShop, chance: random.Random, used: set[str]) -> list[Case]:
    (case,) = picked(shop, chance, used)
    case.keys["owner"] |= chance.choice(({"email": SHOP_MAIL}, {"address": SHOP_ADDRESS}))
    return [case]


@unseen("people")
def household_that_never_rests(shop: HonestShop, chance: random.Random, used: set[str]) -> list[Case]:
    (case,) = picked(shop, chance, used, model="RM-42")
    case.keys["unit"] |= {
        "use": "household",
        "hours": str(round((case.presented - dt.date.fromisoformat(case.keys["dates"]["purchased"])).days * 2.6 + 60)),
    }
    return [case]


@unseen("patterns")
def coils_of_one_hand(shop: HonestShop, chance: random.Random, used: set[str]) -> list[Case]:
    cases = picked(shop, chance, used, 20, component=chance.choice(("mechanical seal", "unloader valve")))
    for case in cases:
        work(case)["technician"] = "Sam Reyes"
    return cases


@unseen("patterns")
def one_owner_many_units(shop: HonestShop, chance: random.Random, used: set[str]) -> list[Case]:
    cases = picked(shop, chance, used, 10)
    for case in cases:
        case.keys["owner"] = {"name": "Vera Tolland", "phone": "555-0167", "first_owner": True}
    return cases


@unseen("patterns")
def refused_hand(shop: HonestShop, chance: random.Random, used: set[str]) -> list[Case]:
    """The maker refuses what one technician finds far more often than what the others find."""
    mine = {c.number for c in shop.cases if work(c)["technician"] == "Tove Lind"}
    cases = picked(shop, chance, used | {c.number for c in shop.cases} - mine, 14)
    used |= {case.number for case in cases}
    for case in cases:
        case.paid, case.part_events = [], []
        case.answers = [(case.filed + dt.timedelta(days=12), "refused", "No defect found")]
    return cases


@unseen("held parts")
def scrapped_next_day(shop: HonestShop, chance: random.Random, used: set[str]) -> list[Case]:
    (case,) = picked(shop, chance, used)
    on = case.filed + dt.timedelta(days=1)
    case.part_events = [
        ("part released", on, "Dealer meeting said so.", {"part": "1", "rule": "released by the maker"}),
        ("part scrapped", on, "", {"part": "1"}),
    ]
    return [case]


@unseen("held parts")
def missing_then_scrapped(shop: HonestShop, chance: random.Random, used: set[str]) -> list[Case]:
    (case,) = picked(shop, chance, used)
    on = case.filed + dt.timedelta(days=20)
    case.part_events = [
        ("shelf counted", on, "", {"part": "1", "found": "no"}),
        ("part released", on + dt.timedelta(days=1), "", {"part": "1", "rule": ""}),
        ("part scrapped", on + dt.timedelta(days=1), "", {"part": "1"}),
    ]
    return [case]


@unseen("held parts")
def never_sent(shop: HonestShop, chance: random.Random, used: set[str]) -> list[Case]:
    """Called back, and the day to send it by went past long ago."""
    (case,) = picked(shop, chance, used)
    on = case.filed + dt.timedelta(days=5)
    case.part_events = [("part called back", on, "", {"part": "1", "send_by": f"{on + dt.timedelta(days=10)}"})]
    return [case]


assert KINDS
