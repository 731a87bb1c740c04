import pytest
from builders import a_plan, a_window
from pydantic import ValidationError

from claimpack.core.clauses.window import Replaced


def window(**changes):
    return a_plan(window=[a_window(**changes)]).window[0]


def test_a_window_must_cover_something():
    with pytest.raises(ValidationError, match="covers"):
        a_plan(window=[a_window(covers=[])])


def test_registration_that_adds_needs_a_day_to_register_by():
    with pytest.raises(ValidationError, match="registered_within"):
        a_plan(window=[a_window(registered_adds="P12M")])


def test_what_the_seller_owes_alone_has_no_shares_of_the_maker():
    shares = [{"until": "P12M", "maker": "0.50"}]
    with pytest.raises(ValidationError, match="shares"):
        a_plan(window=[a_window(owed_by="seller", shares=shares)])


def test_a_period_must_not_be_empty():
    with pytest.raises(ValidationError, match="empty period"):
        a_plan(window=[a_window(period="P0D")])


def test_a_limit_of_the_hour_meter_is_told_apart_from_those_of_others():
    limits = [{"meter": "Hours", "at": "300"}, {"meter": "cycles", "at": "9000"}]
    window = a_plan(window=[a_window(limits=limits)]).window[0]
    assert (window.hour_limit, [limit.meter for limit in window.other_limits]) == (300, ["cycles"])


def test_the_hour_meter_is_told_first_however_its_limit_is_written():
    cycles, hours = {"meter": "cycles", "at": "9000"}, {"meter": "Hours", "at": "300"}
    told = [window(limits=[cycles, hours]), window(limits=[cycles], hours="300")]
    assert [[limit.meter.casefold() for limit in each.every_limit()] for each in told] == [["hours", "cycles"]] * 2


@pytest.mark.parametrize(
    "limits",
    [
        {"hours": "300", "limits": [{"meter": "Hours", "at": "200"}]},
        {"limits": [{"meter": "cycles", "at": "9000"}, {"meter": "Cycles", "at": "8000"}]},
    ],
)
def test_a_meter_has_one_limit(limits):
    with pytest.raises(ValidationError, match="more than one limit"):
        window(**limits)


@pytest.mark.parametrize("last", [2025, 2026])
def test_a_window_is_for_one_model_year_or_for_several_in_a_row(last):
    assert window(model_years=[2025, last]).model_years == (2025, last)


def test_the_last_model_year_is_not_before_the_first():
    with pytest.raises(ValidationError, match="is before the first"):
        window(model_years=[2025, 2024])


@pytest.mark.parametrize(
    ("covers", "of_parts"),
    [("parts sold", "sold"), ("Parts-Sold", "sold"), ("parts fitted", "fitted"), ("engine", ""), ("*", "")],
)
def test_a_window_may_be_for_parts_alone(covers, of_parts):
    assert window(covers=[covers]).of_parts == of_parts


@pytest.mark.parametrize("covers", [["parts sold", "engine"], ["engine", "parts fitted"]])
def test_a_window_for_parts_covers_nothing_else(covers):
    with pytest.raises(ValidationError, match="covers nothing else"):
        window(covers=covers)


def test_a_window_for_parts_goes_by_age_alone():
    with pytest.raises(ValidationError, match="take away uses, hours"):
        window(covers=["parts sold"], uses=["rental"], hours="300")


@pytest.mark.parametrize(
    ("owed", "of_the_shop"),
    [({}, False), ({"owed_by": "seller"}, True), ({"owed_by": "seller", "recourse": True}, False)],
    ids=["by the maker", "by the seller", "by the seller with recourse"],
)
def test_the_shop_bears_what_it_owes_as_the_seller_without_recourse(owed, of_the_shop):
    assert window(**owed).is_of_the_shop is of_the_shop


def test_what_the_maker_owes_needs_no_recourse():
    with pytest.raises(ValidationError, match="recourse needs owed_by"):
        window(recourse=True)


def test_what_a_second_owner_has_and_what_the_first_has_alone_are_two_windows():
    assert window(owners={"then": "P6M"}).owners
    assert window(first_owner_only=True).first_owner_only


@pytest.mark.parametrize("adds", [None, "P12M"])
def test_a_unit_may_have_to_be_registered_with_or_without_more_time_for_it(adds):
    assert bool(window(registered_within="P30D", registered_adds=adds).registered_adds) is bool(adds)


@pytest.mark.parametrize(("period", "keeps"), [("P90D", True), ("P90D", False), (None, True)])
def test_a_part_put_in_has_a_period_or_what_is_left_of_the_window(period, keeps):
    assert Replaced(period=period, keeps_remaining=keeps).keeps_remaining is keeps


def test_a_part_put_in_has_some_cover():
    with pytest.raises(ValidationError, match="the part has no cover"):
        Replaced(keeps_remaining=False)


def test_a_window_gives_no_more_than_it_says():
    plain = window()
    given = (plain.recourse, plain.first_owner_only, plain.despite_exclusions, Replaced().keeps_remaining)
    assert given == (False, False, False, True)
