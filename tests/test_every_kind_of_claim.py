"""Every kind of claim a shop really has, from taken in to paid, with documented commands alone."""

from __future__ import annotations

import shlex
from pathlib import Path

import pytest
from claim_folders import receipt
from made_once import made_once
from running import Ran, claimpack

PLAN = """\
format = 1
id = "zz-2025"
maker = "halden"
currency = "USD"
models = ["ZZ-*"]
start = ["purchased"]
start_stock = ["invoiced", "built"]
[[window]]
id = "unit"
covers = ["*"]
period = "P12M"
registered_within = "P30D"
[[window]]
id = "parts"
covers = ["parts sold"]
period = "P90D"
pays = ["parts"]
[replaced]
period = "P90D"
[requires]
proof = true
held_part = false
approval_components = ["gearbox"]
[pays]
labour_rate = "100.00"
extras = [{kind = "sublet", cap = "80.00"}, {kind = "travel", per = "0.50", of = "mile"}]
diagnosis = {operation = "find-fault", hours = "0.5"}
[[operation]]
code = "coil-replace"
hours = "0.5"
[[operation]]
code = "gearbox-overhaul"
hours = "1.0"
[[operation]]
code = "find-fault"
hours = "0.5"
"""

CAMPAIGN = """\
format = 1
id = "ZZ-1"
name = "Guide"
plan = "zz-2025"
serials = ["ZZ-100 .. ZZ-199"]
operation = {code = "ZZ-1", hours = "0.4"}
opens = 2026-01-01
closes = 2026-12-31
"""

BOUGHT = "--purchased 2025-09-01 --registered 2025-09-10 --proof receipt"
UNIT = f"--maker halden --model ZZ-1 --use household --no-meter {BOUGHT}"
FAILED = (
    "--failed 2026-03-01 --presented 2026-03-02 --owner 'Marrow Lane Paving' --component 'ignition coil' --first-owner"
)
TOLD = 'failure.complaint "Dies." failure.cause "Open winding." failure.correction "New coil." failure.defect material'


@made_once
def a_working_shop(place: Path) -> Path:
    claimpack("shop", "init", "shop", "--currency", "USD", "--terms", "us-tx", folder=place)
    shop = place / "shop"
    (shop / "coverage" / "zz-2025.toml").write_text(PLAN, encoding="utf-8")
    (shop / "campaigns" / "ZZ-1.toml").write_text(CAMPAIGN, encoding="utf-8")
    (shop / "receipt.pdf").write_bytes(receipt("Paid."))
    return shop


@pytest.fixture
def shop(tmp_path):
    return a_working_shop(tmp_path)


def did(shop: Path, *lines: str, day: str = "2026-03-20") -> list[Ran]:
    """Commands as they are typed, every one of which is done; those that take a day are told which it is."""
    found = []
    for line in lines:
        words = shlex.split(line)
        takes_day = words[0] not in ("part", "labour", "extra", "paper", "finding")
        ran = claimpack(*words, *(["--today", day] if takes_day else []), folder=shop)
        assert ran.code in (0, 3 if words[0] == "chase" else 0), f"{line}\n{ran.err or ran.out}"
        found.append(ran)
    return found


def standing(shop: Path, number: str) -> dict:
    return claimpack("show", number, "--json", folder=shop).json["standing"]


def state(shop: Path, number: str) -> tuple[str, str, str]:
    found = standing(shop, number)
    return found["state"], found["claimed"], found["paid"]


def repaired(number: str) -> tuple[str, ...]:
    """A coil renewed: the receipt, the story, the part and the work."""
    return (
        f"paper add {number} receipt.pdf --proof receipt",
        f"set {number} dates.repaired 2026-03-05 {TOLD}",
        f"part add {number} C-1 'Ignition coil' --cost 20.00",
        f"labour add {number} coil-replace --hours 0.5",
    )


def paid(number: str, amount: str) -> tuple[str, ...]:
    return (
        f"file {number} --on 2026-03-10",
        f"answer {number} accepted --on 2026-03-12",
        f"pay {number} {amount} --on 2026-03-15",
    )


def test_a_repair_under_the_makers_warranty(shop):
    did(shop, f"open {UNIT} {FAILED} --serial ZZ-1 --number A1", *repaired("A1"), *paid("A1", "70.00"))
    assert state(shop, "A1") == ("paid", "70.00", "70.00")


def test_a_second_repair_of_the_same_part(shop):
    did(shop, f"open {UNIT} {FAILED} --serial ZZ-1 --number A1", *repaired("A1"), *paid("A1", "70.00"))
    again = "--failed 2026-05-20 --presented 2026-05-21 --component 'ignition coil' --owner 'Marrow Lane Paving'"
    did(shop, f"open {UNIT} {again} --serial ZZ-1 --number A2", day="2026-05-22")
    shown = claimpack("show", "A2", "--json", folder=shop).json["claim"]
    assert [one["claim"] for one in shown["earlier"]] == ["A1"]
    done = [line.replace("2026-03-05", "2026-05-22") for line in repaired("A2")]
    did(shop, *done, "file A2", "answer A2 accepted", "pay A2 70.00", day="2026-05-23")
    assert state(shop, "A2") == ("paid", "70.00", "70.00")


def test_approval_first(shop):
    did(shop, f"open {UNIT} {FAILED.replace('ignition coil', 'gearbox')} --serial ZZ-1 --number B1")
    did(
        shop,
        "paper add B1 receipt.pdf --proof receipt",
        "approval request B1 --operation gearbox-overhaul --ask 'May we?'",
        "approval given B1 --number A-7 --amount 150.00 --expires 2026-04-20",
        f"set B1 dates.repaired 2026-03-20 {TOLD}",
        "labour add B1 gearbox-overhaul --hours 1.0",
        "file B1",
        "answer B1 accepted",
        "pay B1 100.00",
    )
    assert state(shop, "B1") == ("paid", "100.00", "100.00")


def test_a_unit_in_stock(shop):
    stock = "--maker halden --model ZZ-1 --no-meter --case stock --invoiced 2025-10-01 --serial ZZ-2"
    did(
        shop,
        f"open {stock} --failed 2026-03-01 --presented 2026-03-02 --component 'ignition coil' --number C1",
        *repaired("C1")[1:],
    )
    did(shop, *paid("C1", "70.00"))
    assert state(shop, "C1") == ("paid", "70.00", "70.00")


def test_a_part_sold_over_the_counter(shop):
    part = "--case part --part-name 'Ignition coil' --part-number C-1 --sold 2026-01-10 --never-fitted"
    did(shop, f"open --maker halden --model ZZ-1 {part} --proof receipt --owner 'M. Lane' --number D1")
    did(
        shop,
        "paper add D1 receipt.pdf --proof receipt",
        f"set D1 dates.repaired 2026-03-20 {TOLD}",
        "part add D1 C-1 'Ignition coil' --cost 20.00",
        "file D1",
        "answer D1 accepted",
        "pay D1 20.00",
    )
    assert state(shop, "D1") == ("paid", "20.00", "20.00")


def test_a_campaign_of_the_maker(shop):
    old = "--maker halden --model ZZ-1 --serial ZZ-150 --purchased 2019-05-01 --campaign ZZ-1"
    did(shop, f"open {old} --number E1", "set E1 dates.repaired 2026-03-20 failure.correction 'Guide changed.'")
    did(shop, "labour add E1 ZZ-1 --hours 0.6", "file E1", "answer E1 accepted", "pay E1 40.00")
    assert state(shop, "E1") == ("paid", "40.00", "40.00")


def test_goodwill(shop):
    late = UNIT.replace("2025-09-01", "2025-02-01").replace("2025-09-10", "2025-02-02")
    did(shop, f"open {late} {FAILED} --case goodwill --because 'A known fault.' --serial ZZ-3 --number F1")
    did(shop, *repaired("F1"), "set F1 goodwill.asks parts", *paid("F1", "20.00"))
    assert state(shop, "F1") == ("paid", "20.00", "20.00")


def test_the_owner_declines(shop):
    did(shop, f"open {UNIT} {FAILED} --serial ZZ-4 --number G1", "labour add G1 teardown --hours 1.0")
    did(shop, "part hold G1 'ignition coil' --shelf B3")
    (ran,) = did(shop, "withdraw G1 --declined")
    assert (state(shop, "G1")[0], "100.00 USD" in ran.err + ran.out) == ("withdrawn", True)
    assert claimpack("hold", "list", "--json", folder=shop).json["parts"] == []
    did(shop, "reopen G1 --because 'He came back.'")
    shown = claimpack("show", "G1", "--json", folder=shop).json
    assert (shown["standing"]["state"], shown["claim"]["case"], len(shown["claim"]["held"])) == ("draft", "repair", 1)


def test_the_diagnosis_of_a_declined_repair_is_paid_where_the_plan_pays_it(shop):
    did(shop, f"open {UNIT} {FAILED} --serial ZZ-4 --number G2", "paper add G2 receipt.pdf --proof receipt")
    did(shop, f"set G2 case declined {TOLD}", "labour add G2 find-fault --hours 0.5", *paid("G2", "50.00"))
    assert state(shop, "G2") == ("paid", "50.00", "50.00")


def test_a_question_is_answered_in_the_packet_that_goes_out_again(shop):
    did(shop, f"open {UNIT} {FAILED} --serial ZZ-5 --number H1", *repaired("H1"), "file H1 --on 2026-03-10")
    did(shop, "answer H1 questioned --because 'Which fuel?' --on 2026-03-12", "file H1 --reply 'Fresh, 91.'")
    (question,) = claimpack("show", "H1", "--json", folder=shop).json["claim"]["questions"]
    assert (question["text"], question["answer"]) == ("Which fuel?", "Fresh, 91.")
    did(shop, "answer H1 accepted", "pay H1 70.00")
    assert state(shop, "H1") == ("paid", "70.00", "70.00")


def test_a_refusal_is_contested_and_paid_after_all(shop):
    did(shop, f"open {UNIT} {FAILED} --serial ZZ-6 --number I1", *repaired("I1"), "file I1 --on 2026-03-10")
    did(shop, "finding add I1 winding 0 ohm --low 5", "answer I1 refused --because 'Wear.' --on 2026-03-12")
    letter = claimpack(
        "chase", "I1", "--grounds", "The winding is open.", "--json", "--today", "2026-03-13", folder=shop
    )
    said = " ".join(letter.json["text"].split())
    assert (letter.code, "we contest your refusal" in said, "Please pay" in said) == (0, True, False)
    assert all(part in said for part in ("The winding is open.", "Wear", "1 finding, receipt.pdf"))
    did(shop, "answer I1 accepted", "pay I1 70.00")
    assert state(shop, "I1") == ("paid", "70.00", "70.00")


def test_a_charge_back_is_contested_and_paid_again(shop):
    did(shop, f"open {UNIT} {FAILED} --serial ZZ-7 --number J1", *repaired("J1"), *paid("J1", "70.00"))
    did(shop, "pay J1 70.00 --charged-back --because 'No part.' --on 2026-03-18")
    letter = claimpack("chase", "J1", "--grounds", "You let it go.", "--json", "--today", "2026-03-19", folder=shop)
    assert ("we contest your charge-back" in letter.json["text"], letter.json["asks"]) == (True, "answer")
    did(shop, "pay J1 70.00 --anyway 'Paid again.'")
    assert state(shop, "J1") == ("paid", "70.00", "70.00")


def test_two_units_on_one_receipt(shop):
    did(shop, f"open {UNIT} {FAILED} --serial ZZ-8 --number K1", *repaired("K1"))
    did(shop, "open --like K1 --serial ZZ-9 --registered 2025-09-10 --component 'ignition coil' --number K2")
    did(shop, f"set K2 dates.repaired 2026-03-20 {TOLD}", "labour add K2 coil-replace --hours 0.5", "file K2")
    did(shop, *paid("K1", "70.00"), "answer K2 accepted", "pay K2 50.00")
    assert (state(shop, "K1")[0], state(shop, "K2")) == ("paid", ("paid", "50.00", "50.00"))


def test_a_part_the_maker_sent_and_work_of_others(shop):
    did(shop, f"open {UNIT} {FAILED} --serial ZZ-10 --number L1", *repaired("L1")[:2])
    did(
        shop,
        "part add L1 C-1 'Ignition coil' --source maker",
        "labour add L1 coil-replace --hours 0.5",
        "extra add L1 'machine shop' --amount 90.00 --kind sublet",
        "extra add L1 'service call' --distance 20",
    )
    did(shop, *paid("L1", "140.00"))
    assert state(shop, "L1") == ("paid", "140.00", "140.00")


def test_a_registration_that_came_late_is_out_of_cover(shop):
    late = UNIT.replace("--registered 2025-09-10", "--registered 2025-12-10")
    did(shop, f"open {late} {FAILED} --serial ZZ-11 --number M1", *repaired("M1"))
    ran = claimpack("file", "M1", "--json", "--today", "2026-03-20", folder=shop)
    assert (ran.code, ran.json["filed"], ran.json["verdict"]) == (3, False, "not covered")
    did(shop, "set M1 case goodwill goodwill.because 'Registered late by us.'", *paid("M1", "70.00"))
    assert state(shop, "M1") == ("paid", "70.00", "70.00")
