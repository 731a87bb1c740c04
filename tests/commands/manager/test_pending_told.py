"""What `pending` says on a screen beside its figures: marks, sections of the law, letters worth writing."""

from __future__ import annotations

import pytest
from manager_shop import a_managed_shop, filed_in, on, took_place

DAY = "2026-03-20"


@pytest.fixture
def shop(tmp_path):
    return a_managed_shop(tmp_path)


def answered_in(shop, number="26-0001", *, said, on="2026-03-01", **facts):
    """A claim that was answered, in time or after silence had accepted it on 16 February."""
    filed_in(shop, number, received="2026-01-02")
    took_place(shop, number, "answered", on, answer=said, **facts)


def under(ran, number="26-0001"):
    """The line under a claim of the list."""
    told = ran.out.partition("\nPending on")[2].splitlines()
    row = next(place for place, line in enumerate(told) if line.split()[:1] == [number])
    return told[row + 1].strip()


@pytest.fixture
def taken_back(shop):
    answered_in(shop, said="accepted", on="2026-02-01")
    took_place(shop, "26-0001", "paid", "2026-02-10", amount="150.00")
    took_place(shop, "26-0001", "charged back", "2026-03-01", amount="20.00")
    return on(DAY, "pending", shop=shop)


def test_no_section_of_the_law_is_cited_for_money_taken_back_in_time(taken_back):
    assert ("charge-back" in under(taken_back), "us-tx" in taken_back.out) == (True, False)


def test_terms_that_cannot_be_read_are_not_told_as_none(shop):
    filed_in(shop, terms="us-tz")
    told = on(DAY, "pending", shop=shop)
    assert ("shop.toml" in told.out, "()" in under(told)) == (False, False)


@pytest.mark.parametrize(("terms", "said"), [("us-tx", False), ("", True)])
def test_a_claim_without_terms_is_told_to_have_no_dates(tmp_path, terms, said):
    shop = a_managed_shop(tmp_path, terms="us-tx")
    settings = shop / "shop.toml"
    settings.write_text(settings.read_text().replace('terms = "us-tx"', f'terms = "{terms}"'))
    filed_in(shop)
    assert ("shop.toml" in on(DAY, "pending", shop=shop).out) == said


def test_what_a_shop_has_to_do_is_marked_apart_from_what_is_late_and_what_only_waits(shop):
    filed_in(shop, "26-0001", "2026-03-10", received="2026-03-10")
    filed_in(shop, "26-0002", received="2026-01-02")
    answered_in(shop, "26-0003", said="questioned", on="2026-02-01")
    told = on(DAY, "pending", shop=shop)
    marks = {number: under(told, number)[0] for number in ("26-0001", "26-0002", "26-0003")}
    assert len(set(marks.values())) == 3
    assert marks["26-0001"] == "·"


@pytest.mark.parametrize(("said", "letter"), [("refused", True), ("accepted", False)])
def test_a_letter_that_contests_is_named_for_a_refusal_alone(shop, said, letter):
    answered_in(shop, said=said)
    assert ("contests a refusal" in on(DAY, "pending", shop=shop).err) == letter
