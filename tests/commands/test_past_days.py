import pytest
from monday import a_monday_shop, filed_in, on, took_place
from running import claimpack


@pytest.fixture
def shop(tmp_path):
    shop = a_monday_shop(tmp_path)
    filed_in(shop, received="2026-01-02")
    took_place(shop, "26-0001", "answered", "2026-02-20", answer="accepted")
    return shop


@pytest.mark.parametrize("command", ["pending", "due", "audit", "report", "hold list"])
def test_a_day_the_book_is_past_is_told_once(shop, command):
    said = claimpack(*command.split(), "--today", "2026-02-01", folder=shop).err
    assert said.count("The book stands at 2026-03-01") == 1


def test_today_needs_no_word(shop):
    assert "The book stands" not in claimpack("pending", folder=shop).err


def test_a_past_day_on_which_the_book_stood_as_now_needs_no_word(shop):
    assert "The book stands" not in on("2026-03-20", "pending", "--today", "2026-03-05", shop=shop).err
