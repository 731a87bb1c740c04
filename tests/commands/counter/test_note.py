import pytest
from running import claimpack
from shop_builders import a_shop, happen


@pytest.fixture
def shop(tmp_path):
    return a_shop(tmp_path, "26-0001", "26-0002", plan="halden-2025")


def note(shop, *arguments):
    return claimpack("note", "26-0001", *arguments, folder=shop)


def looked_at_again(shop, within=30):
    items = claimpack("due", "--within", within, "--json", folder=shop).json["items"]
    return [(item["on"], item["claim"], item["because"]) for item in items if item["what"] == "look again"]


def test_a_note_is_shown_with_its_claim(shop):
    note(shop, "Owner asks for a loan unit.")
    assert claimpack("show", "26-0001", "--json", folder=shop).json["notes"] == [
        {"on": "2026-03-01", "who": "ann", "text": "Owner asks for a loan unit.", "again": None}
    ]


def test_a_note_to_look_again_is_due_that_day(shop):
    note(shop, "Ring the maker.", "--again", "2026-03-06")
    assert looked_at_again(shop) == [("2026-03-06", "26-0001", "ann on 2026-03-01: Ring the maker.")]
    assert looked_at_again(shop, within=4) == []


def test_the_latest_note_says_when_to_look_again(shop):
    note(shop, "Ring the maker.", "--again", "2026-03-06")
    note(shop, "They ring back.", "--again", "2026-03-09")
    assert [on for on, _, _ in looked_at_again(shop)] == ["2026-03-09"]


def test_a_later_note_without_a_day_takes_it_off(shop):
    note(shop, "Ring the maker.", "--again", "2026-03-06")
    note(shop, "Done.")
    assert looked_at_again(shop) == []


def test_a_claim_takes_a_note_whatever_became_of_it(shop):
    happen(shop, "26-0001", "withdrawn")
    assert note(shop, "The owner took it home.").code == 0


@pytest.mark.parametrize(
    "arguments", [("",), ("  ",), ("Ring.", "--again", "2026-02-28"), ("Ring.", "--again", "soonish")]
)
def test_what_is_no_note_is_refused(shop, arguments):
    assert note(shop, *arguments).code == 2
