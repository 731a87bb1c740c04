import datetime as dt

import pytest
from running import NOW, claimpack
from shop_builders import happen, kept_claim


def test_the_claim_at_hand_stands_in_for_claim(shop):
    ran = claimpack("part", "add", "70-3301-00", "Ignition coil", "--cost", "38.15", folder=shop)
    assert (ran.code, "Claim at hand: 26-0001" in ran.err) == (0, True)
    assert [part.name for part in kept_claim(shop).parts][-1] == "Ignition coil"


def test_a_claim_that_is_named_goes_before_the_one_at_hand(shop):
    ran = claimpack("show", "26-0002", folder=shop)
    assert (ran.out.startswith("26-0002"), "at hand" in ran.err) == (True, False)


@pytest.mark.parametrize("slip", ["26-0003", "26-O001"])
def test_a_number_mistyped_never_means_the_claim_at_hand(shop, slip):
    ran = claimpack("finding", "add", slip, "compression", "42", folder=shop)
    assert (ran.code, kept_claim(shop).findings) == (2, ())


def test_a_claim_chosen_on_another_day_or_settled_is_told(shop):
    happen(shop, "26-0001", "withdrawn")
    err = claimpack("show", folder=shop, now=NOW + dt.timedelta(days=3)).err
    assert ("WITHDRAWN" in err, "chosen 3 days ago" in err) == (True, True)


def test_of_a_claim_chosen_today_and_open_nothing_more_is_told(shop):
    err = claimpack("show", folder=shop).err
    assert ("Claim at hand: 26-0001" in err, "chosen" in err, "DRAFT" in err) == (True, False, False)


@pytest.mark.parametrize(("listed", "code"), [("70-3302", 0), ("70-3303", 2)])
def test_a_part_number_of_the_form_of_a_claims_is_a_part_where_the_parts_list_has_it(shop, listed, code):
    (shop / "parts").mkdir(exist_ok=True)
    (shop / "parts" / "halden.csv").write_text(f"number,name,cost\n{listed},Ignition coil,38.15\n")
    assert claimpack("part", "add", "70-3302", folder=shop).code == code


def test_a_claim_that_is_there_goes_before_a_part_of_the_same_number(shop):
    (shop / "parts").mkdir(exist_ok=True)
    (shop / "parts" / "halden.csv").write_text("number,name,cost\n26-0002,Ignition coil,38.15\n")
    before = kept_claim(shop).parts
    assert (claimpack("part", "add", "26-0002", folder=shop).code, kept_claim(shop).parts) == (2, before)
