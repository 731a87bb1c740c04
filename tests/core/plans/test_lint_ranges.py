import pytest
from builders import a_plan, a_window

from claimpack.core.plans.lint_ranges import (
    fractions_of_the_whole,
    limits_like_fractions,
    model_years_apart,
    serial_ranges_apart,
)


def by_year(*spans):
    return a_plan(window=[a_window(id=f"w{place}", model_years=list(years)) for place, years in enumerate(spans)])


@pytest.mark.parametrize(
    ("first", "second", "said"),
    [
        ((2020, 2022), (2023, 2025), []),
        ((2020, 2022), (2024, 2025), ["2023 has none"]),
        ((2020, 2022), (2026, 2026), ["2023 to 2025 has none"]),
        ((2020, 2022), (2022, 2025), ["both hold 2022"]),
    ],
)
def test_windows_go_on_from_one_model_year_to_the_next(first, second, said):
    assert [doubt.rpartition("; ")[2] for doubt in model_years_apart(by_year(second, first))] == said


def test_windows_for_different_components_need_not_go_on_from_each_other():
    plan = a_plan(window=[a_window(model_years=[2020, 2021]), a_window(id="b", covers=["b"], model_years=[2025, 2026])])
    assert list(model_years_apart(plan)) == []


@pytest.mark.parametrize(
    ("second", "told"),
    [
        ("A200 .. A299", 0),
        ("A201 .. A299", 1),
        ("A210 .. A299", 0),
        ("A199 .. A299", 1),
        ("B201 .. B299", 0),
    ],
    ids=["next", "one left out", "many left out", "one twice", "another form"],
)
def test_ranges_of_serials_that_nearly_meet_or_hold_a_number_twice_are_told(second, told):
    assert len(list(serial_ranges_apart(a_plan(serials=["A100 .. A199", second])))) == told


def test_ranges_of_windows_that_are_alike_otherwise_are_compared():
    windows = [a_window(id=name, serials=[range_]) for name, range_ in (("a", "A1 .. A9"), ("b", "A9 .. A20"))]
    assert len(list(serial_ranges_apart(a_plan(window=windows)))) == 1


@pytest.mark.parametrize(("second", "numbers"), [("A201 .. A299", "one number"), ("A203 .. A299", "3 numbers")])
def test_the_numbers_that_no_range_holds_are_counted(second, numbers):
    (doubt,) = serial_ranges_apart(a_plan(serials=["A100 .. A199", second]))
    assert f": {numbers} between" in doubt


def test_two_ranges_of_one_window_are_told_once_though_another_window_is_like_it():
    plan = a_plan(window=[a_window(serials=["A1 .. A9", "A9 .. A20"]), a_window(id="b", serials=["B1 .. B9"])])
    assert len(list(serial_ranges_apart(plan))) == 1


@pytest.mark.parametrize(
    ("bound", "key"),
    [
        ({"at_most": "0.01"}, "at_most"),
        ({"at_most": "1"}, "at_most"),
        ({"at_least": "0.7"}, "at_least"),
        ({"at_most": "1.01"}, None),
        ({"at_most": "0"}, None),
        ({"at_most": "-1"}, None),
        ({"at_most": "0.7", "unit": "bar"}, None),
        ({}, None),
    ],
    ids=["a hundredth", "one", "at least", "above one", "nothing", "below nothing", "in another unit", "no limit"],
)
def test_a_limit_in_percent_that_is_no_more_than_one_is_most_likely_a_fraction(bound, key):
    found = list(limits_like_fractions(a_plan(requires={"findings": [{"what": "capacity", "unit": "%", **bound}]})))
    assert [doubt.split()[2] for doubt in found] == [key] * len(found)
    assert len(found) == (key is not None)


@pytest.mark.parametrize(
    ("pays", "told"),
    [
        ({"parts_handling": "1"}, 1),
        ({"handling_on_supplied": "1"}, 1),
        ({"handling_on_supplied": "0.99"}, 0),
        ({"tax": "1"}, 1),
        ({"tax": "0.99"}, 0),
    ],
)
def test_a_rate_of_one_is_most_likely_one_percent(pays, told):
    assert len(list(fractions_of_the_whole(a_plan(pays=pays)))) == told
