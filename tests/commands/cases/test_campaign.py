from pathlib import Path

import pytest
from running import claimpack
from shop_builders import a_shop

IN_RANGE = [{"role": "unit", "value": "HC70-118-20417"}]
DAY = ("--today", "2026-03-02")


@pytest.fixture
def shop(tmp_path):
    return a_shop(tmp_path, unit__serials=IN_RANGE)


def test_units_that_have_not_come_are_listed_with_their_owner(shop):
    (found,) = claimpack("campaign", "list", *DAY, "--json", folder=shop).json["campaigns"]
    assert (found["campaign"], found["open"]) == ("HC-2026-03", True)
    assert [(unit["serial"], unit["owner"]) for unit in found["not_come"]] == [("HC70-118-20417", "A. Customer")]


@pytest.mark.parametrize(
    ("day", "is_open"), [("2026-02-28", False), ("2026-03-01", True), ("2027-02-28", True), ("2027-03-01", False)]
)
def test_a_campaign_is_open_from_its_first_to_its_last_day(shop, day, is_open):
    (found,) = claimpack("campaign", "list", "--today", day, "--json", folder=shop).json["campaigns"]
    assert (found["open"], found["maker"]) == (is_open, "Halden")


def test_a_list_of_campaigns_says_nothing_of_where_none_is_known(shop):
    assert claimpack("campaign", "list", *DAY, folder=shop).err == ""


def test_a_unit_of_another_maker_is_in_no_campaign_by_a_serial_number_that_is_like_it(tmp_path):
    shop = a_shop(tmp_path, unit__serials=IN_RANGE, maker="Orrin & Vale")
    (found,) = claimpack("campaign", "list", *DAY, "--json", folder=shop).json["campaigns"]
    assert (found["units"], found["not_come"]) == (0, [])


def test_a_unit_whose_claim_was_withdrawn_has_not_come(shop):
    like = ("--like", "26-0001", "--serial", "HC70-118-20417", "--number", "26-0009")
    claimpack("open", *like, "--campaign", "HC-2026-03", *DAY, folder=shop)
    claimpack("withdraw", "26-0009", "--because", "Wrong unit.", *DAY, folder=shop)
    (found,) = claimpack("campaign", "list", *DAY, "--json", folder=shop).json["campaigns"]
    assert [unit["serial"] for unit in found["not_come"]] == ["HC70-118-20417"]


def test_where_no_unit_is_in_a_campaign_none_is_said_to_have_come(tmp_path):
    shop = a_shop(tmp_path, unit__serials=[{"role": "unit", "value": "HC70-118-90000"}])
    assert "no unit in the book is in it" in claimpack("campaign", "list", *DAY, folder=shop).out


def test_a_unit_that_has_come_is_not_listed_any_more(shop):
    like = ("--like", "26-0001", "--serial", "HC70-118-20417")
    assert claimpack("open", *like, "--campaign", "hc-2026-03", *DAY, folder=shop).code == 0
    (found,) = claimpack("campaign", "list", *DAY, "--json", folder=shop).json["campaigns"]
    assert found["not_come"] == []


@pytest.mark.parametrize(
    ("serial", "code"), [("HC70-118-20000", 0), ("hc70 118 20999", 0), ("HC70-118-21000", 3), ("plate", 3)]
)
def test_a_serial_number_is_in_a_campaign_or_not(shop, serial, code):
    assert claimpack("campaign", "check", serial, *DAY, folder=shop).code == code


@pytest.mark.parametrize(
    ("serials", "said"),
    [
        ("HC70-118-20001\n", ["HC70-118-20001 is in campaign HC-2026-03"]),
        ("HC70-118-31000\n", ["sold.txt: in no campaign"]),
        ("HC70-118-31000\nHC70-118-31001\n", ["None of 2 serial numbers is in one."]),
    ],
)
def test_what_is_in_a_campaign_is_said_or_that_none_is(shop, serials, said):
    (shop / "sold.txt").write_text(serials, encoding="utf-8")
    lines = claimpack("campaign", "check", "sold.txt", *DAY, folder=shop).out.splitlines()
    assert [line.partition(" (")[0] for line in lines] == said


def test_a_file_of_serial_numbers_is_looked_through(shop):
    (shop / "sold.csv").write_text("serial,model\nHC70-118-20001,CS-70\nHC70-118-31000,CS-70\n", encoding="utf-8")
    found = claimpack("campaign", "check", "sold.csv", *DAY, "--json", folder=shop).json
    assert (found["checked"], [one["serial"] for one in found["found"]]) == (2, ["HC70-118-20001"])


@pytest.mark.parametrize("text", ["", "no serials here\n"])
def test_a_file_without_serial_numbers_is_refused(shop, text):
    (shop / "sold.csv").write_text(text, encoding="utf-8")
    assert claimpack("campaign", "check", "sold.csv", folder=shop).code == 2


@pytest.mark.parametrize(("typed", "code"), [("gone.csv", 2), ("GONE.TXT", 2), ("lists/gone", 2), ("HC70.9", 3)])
def test_a_file_that_is_not_there_is_no_serial_number(shop, typed, code):
    assert claimpack("campaign", "check", typed, folder=shop).code == code


OPEN = ("open", "--maker", "halden", "--model", "CS-70", "--serial", "HC70-118-20500", *DAY)


def test_who_takes_a_unit_in_is_told_of_the_campaign_it_is_in(shop):
    assert claimpack(*OPEN, "--json", folder=shop).json["campaigns"] == ["HC-2026-03"]


def test_a_unit_that_came_for_it_is_not_told_of_again(shop):
    claimpack(*OPEN, "--campaign", "HC-2026-03", folder=shop)
    assert claimpack(*OPEN, "--json", folder=shop).json["campaigns"] == []


def test_a_campaign_of_a_plan_that_is_not_there_is_refused(shop):
    text = shop.parent / "c.toml"
    known = claimpack("plan", "list", "--json", folder=shop).json["campaigns"]["HC-2026-03"]
    text.write_text(Path(known).read_text(encoding="utf-8").replace('"halden-2025"', '"halden-2052"'), encoding="utf-8")
    assert claimpack("plan", "check", text, folder=shop).code == 3


def test_a_list_of_campaigns_begins_with_the_first(shop):
    assert claimpack("campaign", "list", *DAY, folder=shop).out[0] != "\n"
