import pytest
from builders import a_plan, a_window
from pydantic import ValidationError


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
