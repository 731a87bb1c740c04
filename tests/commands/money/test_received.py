import pytest
from manager_shop import a_managed_shop, filed_in, on, open_in


@pytest.fixture
def shop(tmp_path):
    return a_managed_shop(tmp_path)


def test_the_day_of_receipt_starts_the_time_to_answer(shop):
    filed_in(shop)
    ran = on("2026-03-20", "received", "26-0001", "--on", "2026-01-05", "--json", shop=shop)
    assert (ran.code, ran.json) == (
        0,
        {"claim": "26-0001", "received": "2026-01-05", "answer_due": "2026-02-19"},
    )


def test_it_is_said_in_one_line_and_what_follows_beside_it(shop):
    filed_in(shop)
    ran = on("2026-03-20", "received", "26-0001", "--on", "2026-01-05", shop=shop)
    assert (ran.out, "2026-02-19" in ran.err) == ("26-0001 was received by the maker on 2026-01-05\n", True)
    assert "It was noted" not in ran.err


@pytest.mark.parametrize("day", ["2026-01-01", "2026-03-21", "soon"])
def test_a_day_that_cannot_be_is_refused(shop, day):
    filed_in(shop)
    assert on("2026-03-20", "received", "26-0001", "--on", day, shop=shop).code == 2


def test_a_draft_was_received_by_nobody(shop):
    open_in(shop)
    ran = on("2026-03-20", "received", "26-0001", "--on", "2026-01-05", shop=shop)
    assert (ran.code, "draft" in ran.err) == (2, True)


def test_another_day_of_receipt_says_which_it_replaces(shop):
    filed_in(shop)
    on("2026-03-20", "received", "26-0001", "--on", "2026-01-05", shop=shop)
    ran = on("2026-03-20", "received", "26-0001", "--on", "2026-01-07", shop=shop)
    assert "It was noted as 2026-01-05 before" in ran.err


def test_a_claim_is_not_received_after_the_maker_asked_about_it(shop):
    filed_in(shop)
    on("2026-01-20", "answer", "26-0001", "questioned", shop=shop)
    ran = on("2026-01-25", "received", "26-0001", "--on", "2026-01-21", shop=shop)
    assert (ran.code, "2026-01-20" in ran.err) == (2, True)
