from __future__ import annotations

import pytest
from running import claimpack
from shop_builders import a_shop, kept_claim


@pytest.fixture
def shop(tmp_path):
    return a_shop(tmp_path)


def extra(shop, *arguments):
    return claimpack("extra", *arguments, folder=shop)


def test_an_extra_is_added_with_its_kind_and_who_pays_it(shop):
    extra(shop, "add", "26-0001", "freight", "--amount", "12.50", "--kind", "freight", "--payer", "owner")
    (kept,) = kept_claim(shop).extras
    assert (kept.what, str(kept.amount), kept.kind, kept.payer) == ("freight", "12.50", "freight", "owner")


def test_a_distance_is_that_of_a_visit(shop):
    extra(shop, "add", "26-0001", "service call", "--distance", "34", "--approval", "A-7")
    (kept,) = kept_claim(shop).extras
    assert (kept.kind, str(kept.distance), kept.amount, kept.approval) == ("travel", "34", None, "A-7")


@pytest.mark.parametrize(
    "arguments",
    [("--kind", "freight"), ("--amount", "12", "--distance", "34"), ("--kind", "freight", "--distance", "3")],
)
def test_an_extra_has_one_price(shop, arguments):
    assert (extra(shop, "add", "26-0001", "freight", *arguments).code, kept_claim(shop).extras) == (2, ())


def test_a_line_for_a_failure_that_is_not_there_is_refused(shop):
    ran = extra(shop, "add", "26-0001", "freight", "--amount", "12.50", "--failure", "2")
    assert (ran.code, "'failure[2].component'" in ran.err, kept_claim(shop).extras) == (2, True, ())


def test_extras_are_listed_and_taken_off_by_number(shop):
    for what in ("freight", "disposal"):
        extra(shop, "add", "26-0001", what, "--amount", "5")
    removed = extra(shop, "remove", "26-0001", "1", "--json").json["removed"]
    left = extra(shop, "list", "26-0001", "--json").json["extras"]
    assert (removed["what"], [(one["n"], one["what"]) for one in left]) == ("freight", [(1, "disposal")])


def test_the_kind_of_an_extra_is_listed(shop):
    extra(shop, "add", "26-0001", "Crate", "--kind", "freight", "--amount", "12")
    assert "freight" in extra(shop, "list", "26-0001").out


def test_a_list_says_how_to_begin_only_where_it_is_empty(shop):
    empty = extra(shop, "list", "26-0001")
    extra(shop, "add", "26-0001", "service call", "--distance", "34")
    listed = extra(shop, "list", "26-0001")
    assert (empty.out, "extra add 26-0001" in empty.err, listed.err) == ("", True, "")
    assert "distance 34" in listed.out


def test_only_what_this_extra_lacks_is_told(shop):
    asked = [extra(shop, "add", "26-0001", what, "--distance", "5").err for what in ("First visit", "Second visit")]
    assert [("First" in told, "Second" in told) for told in asked] == [(True, False), (False, True)]
