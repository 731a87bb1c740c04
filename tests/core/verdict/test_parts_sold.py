from datetime import date

import pytest
from builders import a_claim, a_plan, a_window
from pydantic import ValidationError

from claimpack.core.verdict.by_case import judge_case

SOLD = a_window(id="sold", covers=["parts sold"], period="P90D")
FITTED = a_window(id="fitted", covers=["parts fitted"], period="P12M")
PLAN = a_plan(window=[a_window(), SOLD, FITTED])


def judged(plan=PLAN, **part):
    sold = {"name": "ignition coil", "sold": "2025-11-08", **part}
    return judge_case(a_claim(case="part", part_sold=sold, dates__purchased=None, dates__delivered=None), plan)


@pytest.mark.parametrize(
    ("sold", "verdict"), [("2025-11-06", "not covered"), ("2025-11-07", "covered"), ("2025-11-08", "covered")]
)
def test_a_part_sold_is_covered_from_its_own_receipt(sold, verdict):
    """Ninety days from 7 November end on 5 February, the day it was brought in."""
    assert judged(sold=sold, never_fitted=True).verdict == verdict


def test_a_part_the_shop_fitted_is_covered_from_that_day():
    found = judged(sold="2025-03-01", fitted="2025-03-10")
    assert (found.verdict, found.window.id, found.window.ends) == ("covered", "fitted", date(2026, 3, 10))


def test_whether_the_shop_fitted_it_is_asked_where_it_would_decide():
    found = judged(sold="2025-06-01")
    assert found.verdict == "undecided"
    assert {reason.asks for window in found.windows for reason in window.reasons} == {"", "part_sold.fitted"}


def test_windows_of_units_say_nothing_about_a_part_sold():
    assert judged(a_plan(window=[a_window(covers=["*"])])).verdict == "not covered"


def test_what_the_plan_excludes_it_excludes_of_parts_too():
    excluded = a_plan(window=[SOLD], excluded={"components": ["ignition coil"]})
    assert (
        judge_case(
            a_claim(case="part", part_sold={"sold": "2026-01-01"}, failure__component="ignition coil"), excluded
        ).verdict
        == "not covered"
    )


def test_a_part_cannot_fail_before_it_was_sold():
    with pytest.raises(ValidationError, match="is before"):
        a_claim(case="part", part_sold={"sold": "2026-02-03"})


@pytest.mark.parametrize("more", [{"covers": ["parts sold", "engine"]}, {"hours": 300}, {"registered_within": "P30D"}])
def test_a_window_of_parts_goes_by_age_alone(more):
    with pytest.raises(ValidationError):
        a_plan(window=[{**SOLD, **more}])


def test_of_a_part_the_shop_never_fitted_no_day_of_fitting_is_asked():
    found = judged(sold="2025-06-01", never_fitted=True)
    assert {reason.asks for window in found.windows for reason in window.reasons} == {""}


def test_of_windows_for_parts_the_one_that_ends_last_is_cited():
    plan = a_plan(window=[SOLD, {**SOLD, "id": "longer", "period": "P1Y"}])
    assert judged(plan).window.id == "longer"


def fitted_on_a_day_not_given(period, failed="2026-02-02", sold="2025-11-08"):
    """The window of parts fitted, on a part brought in on 5 February."""
    claim = a_claim(case="part", part_sold={"sold": sold}, dates__failed=failed)
    return judge_case(claim, a_plan(window=[{**FITTED, "period": period}])).windows[0]


@pytest.mark.parametrize(("failed", "inside"), [("2026-02-02", False), (None, None)], ids=["known", "not given"])
def test_a_part_was_fitted_at_the_latest_when_it_failed(failed, inside):
    assert fitted_on_a_day_not_given("P2D", failed=failed).inside is inside


@pytest.mark.parametrize(("sold", "inside"), [("2025-11-08", True), (None, None)], ids=["known", "not given"])
def test_a_part_was_fitted_after_it_was_sold(sold, inside):
    assert fitted_on_a_day_not_given("P12M", sold=sold).inside is inside
