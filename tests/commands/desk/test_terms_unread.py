"""Terms that are named for a claim and cannot be read are told apart from none, in every answer that goes by terms."""

import pytest
from made_once import made_once
from manager_shop import a_managed_shop, filed_in, on, open_in

DAY = "2026-03-10"
KEYS = {
    "list": lambda told: told["claims"][0]["terms_unread"],
    "find 26-0001": lambda told: told["claims"][0]["terms_unread"],
    "show 26-0001": lambda told: told["terms_unread"],
    "pending": lambda told: told["claims"][0]["terms_unread"],
    "chase 26-0001": lambda told: told["terms_unread"],
    "chase --maker halden": lambda told: told["terms_unread"],
    "hold list": lambda told: told["terms_unread"],
    "hold list --may-go": lambda told: told["terms_unread"],
    "due": lambda told: told["terms_unread"],
    "statement memo.csv --maker halden --dry-run": lambda told: told["terms_unread"],
    "report --out report": lambda told: told["three_amounts"]["terms_unread"],
}


def a_filed_shop(place, terms):
    shop = a_managed_shop(place)
    filed_in(shop, terms=terms)
    (shop / "memo.csv").write_text("memo,claim,amount\nM-1,26-0009,10.00\n")
    return shop


@made_once
def unread_shop(place):
    """A shop whose one claim is filed, under terms of which there is no file."""
    return a_filed_shop(place, "us-zz")


@pytest.fixture
def unread(tmp_path):
    return unread_shop(tmp_path)


@pytest.mark.parametrize("line", KEYS)
def test_scripts_are_told_the_terms_and_the_claim(unread, line):
    told = KEYS[line](on(DAY, *line.split(), "--json", shop=unread).json)
    assert told in ("us-zz", {"us-zz": ["26-0001"]})


@pytest.mark.parametrize("line", KEYS)
def test_a_screen_names_the_terms(unread, line):
    assert "us-zz" in " ".join(on(DAY, *line.split(), shop=unread).out.split())


def test_a_part_that_is_kept_may_go_sooner_by_terms_that_cannot_be_read(unread):
    assert "us-zz cannot be read" in " ".join(on(DAY, "hold", "scrap", "26-0001/1", shop=unread).out.split())


def test_nothing_is_unread_of_a_claim_whose_terms_are_read(tmp_path):
    assert on(DAY, "due", "--json", shop=a_filed_shop(tmp_path, "us-tx")).json["terms_unread"] == {}


@pytest.mark.parametrize("line", ["due", "hold list"])
def test_nothing_is_unread_of_a_draft_which_terms_give_no_day(tmp_path, line):
    shop = a_managed_shop(tmp_path)
    open_in(shop, terms="us-zz")
    told = on("2026-01-20", *line.split(), "--json", shop=shop).json
    assert (told["terms_unread"], len(told.get("items", told.get("parts")))) == ({}, 1)


@pytest.mark.parametrize("whom", [("26-0001",), ("--maker", "halden")], ids=["claim", "maker"])
def test_whether_a_letter_is_due_cannot_be_said(unread, whom):
    assert on(DAY, "chase", *whom, shop=unread).code == 4


def test_what_makers_are_late_with_is_told_without_those_claims(unread):
    assert "Makers are late with: 0.00 USD, without those under us-zz" in on(DAY, "pending", shop=unread).out
