"""The audit of several shops in one book: each claim is gone through by what its own shop says of itself."""

import pytest
from made_once import made_once
from manager_shop import open_in
from running import claimpack
from several_shops import two_shops

OWNER = {"name": "A. Customer", "phone": "555-0111"}
PART = {"number": "P-1", "name": "piston", "unit_cost": "100.00"}
SUNDAY = {"operation": "x", "technician": "Ben", "started": "2025-11-30T09:00", "ended": "2025-11-30T10:00"}


@made_once
def three_shops(place):
    """Ashby has the owners' phone, is open on Mondays and gets a part cheap; Hollis says nothing; Mill is not named."""
    two_shops(place)
    made = ("--id", "mill", "--numbers", "M", "--book", "claims.sqlite", "--terms", "us-tx", "--currency", "USD")
    claimpack("shop", "init", "mill", "--name", "Mill", *made, folder=place)
    for shop, letter in (("ashby", "A"), ("hollis", "H"), ("mill", "M")):
        open_in(place / shop, f"{letter}-9", owner=OWNER, parts=[PART], labour=[SUNDAY])
    settings = place / "ashby" / "shop.toml"
    told = settings.read_text().replace('phone = ""', 'phone = "555-0111"')
    settings.write_text(f'opening_hours = {{mon = "08:00-17:00"}}\n{told}')
    (place / "ashby" / "parts").mkdir(exist_ok=True)
    (place / "ashby" / "parts" / "halden.csv").write_text("number,name,cost\nP-1,piston,10.00\n")
    return place


@pytest.fixture
def ashby(tmp_path):
    return three_shops(tmp_path) / "ashby"


def audit(shop, *options):
    return claimpack("audit", "--all-shops", "--json", "--today", "2026-03-01", *options, folder=shop).json


@pytest.mark.parametrize("rule", ["owner-at-the-shop", "work-when-shut", "part-over-list"])
def test_a_claim_is_compared_with_its_own_shop_alone(ashby, rule):
    found = audit(ashby, "--rule", rule)["exceptions"]
    assert [each["claims"] for each in found if each["claims"] != ["A-2"]] == [["A-9"]]


def not_asked(shop, lacks, *options):
    """What was not asked for want of one thing."""
    return [each for each in audit(shop, *options)["not_asked"] if each["lacks"] == lacks]


def test_what_could_not_be_asked_of_a_shop_that_is_not_known_is_said(ashby):
    rules = ("--rule", "owner-at-the-shop", "--rule", "owner-is-staff", "--rule", "bill-twice")
    (told,) = not_asked(ashby, "shop", *rules)
    assert (told["shop"], told["claims"]) == ("mill", 1)
    assert (told["rules"], told["in_part"]) == (["owner-at-the-shop"], ["owner-is-staff"])


def test_nothing_is_said_of_it_where_no_such_rule_was_asked_or_every_shop_is_known(ashby):
    assert not_asked(ashby, "shop", "--rule", "bill-twice") == []
    assert not_asked(ashby, "shop", "--maker", "halden", "A-9", "H-9") == []


def test_what_a_shop_has_not_told_is_said_of_its_claims_alone(ashby):
    told = not_asked(ashby, "opening_hours", "--rule", "work-when-shut")
    assert [(each["shop"], each["rules"]) for each in told] == [("hollis", ["work-when-shut"])]


def test_the_screen_names_the_shop_and_the_rules_that_were_not_asked(ashby):
    ran = claimpack("audit", "--all-shops", "--rule", "owner-at-the-shop", "--today", "2026-03-01", folder=ashby)
    assert "1 claim, the shop mill's" in ran.out
    assert "Not asked: owner-at-the-shop." in " ".join(ran.out.split())


def test_nothing_found_where_not_all_was_looked_at_is_no_clean_bill(ashby):
    rules = ("--rule", "owner-at-the-shop", "--rule", "owner-is-staff")
    ran = claimpack("audit", "M-9", "--all-shops", *rules, folder=ashby)
    assert (ran.out.splitlines()[0], ran.code) == ("NOTHING FOUND, BUT NOT ALL LOOKED AT  1 claim, 1 rule", 4)


def test_two_technicians_of_one_name_in_two_shops_are_two(ashby):
    assert audit(ashby, "--rule", "labour-at-one-time")["exceptions"] == []
