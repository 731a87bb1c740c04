from datetime import date

import pytest
from builders import a_claim, a_plan, a_window

from claimpack.core.verdict.coverage import Judgement, judge
from claimpack.core.verdict.headline import headline, nearest_miss
from claimpack.core.windows.in_repair import Lacking
from claimpack.core.windows.judged import WindowJudgement


def answer(claim=None, plan=None, **window):
    """The answer in one line."""
    claim, plan = claim or a_claim(), plan or a_plan(window=[a_window(**window)])
    return str(headline(claim, judge(claim, plan)))


def test_cover_is_told_with_its_last_day():
    assert answer() == "Covered until 2026-03-14 under engine."


def test_cover_is_told_with_its_hours():
    assert answer(hours=300) == "Covered until 2026-03-14 or 300 h, whichever comes first, under engine."


def test_a_unit_is_told_no_limit_of_a_meter_it_lacks():
    unit = {"unit__meter": False, "unit__hours": None, "unit__meters": [{"kind": "cycles", "fitted": False}]}
    assert answer(a_claim(**unit), hours=300, limits=[{"meter": "cycles", "at": "5000"}]) == answer()


@pytest.mark.parametrize("hours", [None, 300])
def test_cover_whatever_the_use_is_told_as_what_is_certain(hours):
    windows = [a_window(id="home", uses=["household"], hours=hours), a_window(uses=["professional", "rental"])]
    said = answer(a_claim(unit__use=None), a_plan(window=windows))
    until = "2026-03-14 or 300 h at least, whichever comes first," if hours else "2026-03-14 at least,"
    assert said == f"Covered until {until} no matter how the unit is used; home ends first."


@pytest.mark.parametrize("which", ["first", "last"])
def test_cover_is_told_with_every_limit(which):
    meters = [{"kind": "cycles", "value": "4100"}]
    said = answer(a_claim(unit__meters=meters), hours=300, limits=[{"meter": "cycles", "at": "5000"}], whichever=which)
    assert said == f"Covered until 2026-03-14, 300 h or 5,000 cycles, whichever comes {which}, under engine."


def test_what_another_maker_covers_is_told_with_that_maker():
    other = {"components": ["short block"], "maker": "Ampelion", "because": "warranted by the engine's own maker"}
    plan = a_plan(window=[a_window(covers=["*"])], elsewhere=[other])
    assert answer(plan=plan) == "Not covered: the plan leaves the short block to Ampelion."


def test_a_meter_over_its_limit_is_told():
    meters = [{"kind": "cycles", "value": "5100"}]
    said = answer(a_claim(unit__meters=meters), limits=[{"meter": "cycles", "at": "5000"}])
    assert said == "Not covered: 100 over the 5,000 cycles of engine."


def test_a_window_is_called_by_its_name():
    assert answer(name="the engine").endswith("under the engine.")


@pytest.mark.parametrize(
    ("changes", "window", "said"),
    [
        ({}, {"period": "P10M"}, "22 days too late; cover under engine ended on 2025-01-14"),
        ({"unit__hours": "301"}, {"hours": 300}, "1 h over the 300 h of engine"),
        ({"unit__hours": "301"}, {"hours": 300, "period": "P6M"}, "1 h over the 300 h of engine"),
        ({"failure__component": "tank"}, {}, "no window of the plan covers the tank"),
        ({"unit__use": "rental"}, {"uses": ["household"]}, "engine is not for rental use"),
        ({"unit__model_year": 2023}, {"model_years": [2024, 2026]}, "engine is not for model year 2023"),
        ({}, {"serials": ["HC99-1 .. HC99-9"]}, "engine is for other serial numbers"),
        ({"owner__first_owner": False}, {"first_owner_only": True}, "engine is for the first owner alone"),
        ({"unit__sold_in": "US-OR"}, {"sold_in": ["US-CA"]}, "engine does not reach units sold in US-OR"),
        (
            {"failure__component": None},
            {"covers": ["plug"], "scheduled": [{"component": "plug", "hours": 9}]},
            "all that engine covers is past its renewal: plug",
        ),
        ({}, {"start": ["registered"]}, "2026-02-05 is before cover starts on 2026-02-06"),
        (
            {"dates__never_registered": True},
            {"registered_within": "P30D"},
            "engine asks for registration by 2025-04-13",
        ),
        ({}, {"scheduled": [{"component": "short block", "hours": 50}]}, "was covered up to its renewal at 50 h alone"),
    ],
    ids=[
        "age",
        "hours",
        "hours and age",
        "component",
        "use",
        "model year",
        "serial",
        "owner",
        "place",
        "renewals",
        "start",
        "registration",
        "renewal",
    ],
)
def test_a_refusal_names_what_stands_against_it(changes, window, said):
    if "start" in window:
        changes = {"dates__registered": "2026-02-06"}
    plan = a_plan(window=[a_window(**window)], words={"tank": []})
    assert said.replace("2025-01-14", "2026-01-14") in answer(a_claim(**changes), plan)


def test_an_excluded_part_is_named():
    plan = a_plan(excluded={"components": ["short block"]})
    assert answer(plan=plan) == "Not covered: the plan excludes the short block."


def test_an_excluded_defect_is_named_before_anything_else():
    plan = a_plan(excluded={"defects": ["misuse"]}, window=[a_window(period="P6M")])
    assert answer(a_claim(failure__defect="misuse"), plan) == "Not covered: the plan excludes damage from misuse."


def test_the_window_about_the_component_is_told_not_another():
    windows = [a_window(id="coil", covers=["ignition coil"], period="P5Y"), a_window(period="P6M")]
    assert "under engine" in answer(plan=a_plan(window=windows))


SECOND = {"owner": {"name": "B", "first_owner": False}}


@pytest.mark.parametrize(
    ("windows", "told"),
    [
        # for this use, and open but for the owner; the other is for another use
        ([{"id": "home", "uses": ["household"]}, {"id": "hire", "uses": ["rental"], "first_owner_only": True}], "hire"),
        # the one that ended first is no nearer than the one that is still open
        ([{"id": "unit", "period": "P1M"}, {"id": "engine", "first_owner_only": True}], "engine"),
        # one whose cover never starts is no nearer than one that is over
        ([{"id": "registered", "start": ["registered"]}, {"id": "over", "period": "P1M"}], "over"),
        # closed on one condition, not on two
        ([{"id": "unit", "period": "P2M"}, {"id": "old", "period": "P3M", "first_owner_only": True}], "unit"),
    ],
    ids=["use", "latest", "never starts", "fewest"],
)
def test_a_refusal_names_the_window_that_came_nearest(windows, told):
    claim = a_claim(unit__use="rental", dates__never_registered=True, **SECOND)
    judgement = judge(claim, a_plan(window=[a_window(**window) for window in windows]))
    assert (judgement.verdict, nearest_miss(judgement)[0].id) == ("not covered", told)


def test_an_open_verdict_names_every_fact_that_would_decide_it():
    claim = a_claim(unit__use=None, unit__hours=None)
    assert answer(claim, uses=["rental"], hours=300) == (
        "Cannot say yet. Still needed: how the unit is used or the hour-meter reading."
    )


def test_an_open_verdict_does_not_name_a_fact_of_a_closed_window():
    windows = [a_window(uses=["rental"], covers=["blade"]), a_window(id="first", first_owner_only=True)]
    claim = a_claim(unit__use=None, owner__first_owner=None)
    assert answer(claim, a_plan(window=windows)) == ("Cannot say yet. Still needed: whether this is the first owner.")


def test_a_word_the_plan_does_not_know_is_named_with_what_it_may_be():
    assert answer(a_claim(failure__component="block")) == (
        "Cannot say yet: the plan does not know the word block; does it mean short block?"
    )


def test_a_word_like_none_of_the_plan_is_named_with_all_it_may_be():
    assert answer(a_claim(failure__component="gearbox")) == (
        "Cannot say yet: the plan does not know the word gearbox; does it mean engine or short block?"
    )


def test_what_else_is_open_is_told_after_the_word():
    assert answer(a_claim(failure__component="block", unit__use=None), uses=["rental"]).endswith(
        "does it mean short block? Also open: how the unit is used."
    )


def test_a_word_is_not_asked_about_once_every_window_is_over():
    assert answer(a_claim(failure__component="block"), period="P6M").startswith("Not covered: ")


def test_cover_that_ended_before_the_repair_can_have_been_is_told_so():
    claim, plan = a_claim(dates__repaired=None), a_plan(judged_on="repaired", window=[a_window(period="P6M")])
    assert answer(claim, plan) == (
        "Not covered: 144 days too late at least; cover under engine ended on 2025-09-14 at the latest."
    )


def test_parts_that_only_windows_for_other_units_name_are_not_offered():
    windows = [a_window(uses=["professional"]), a_window(id="other", covers=["crankcase"], uses=["rental"])]
    said = answer(a_claim(failure__component="gizmo"), a_plan(window=windows))
    assert ("short block" in said, "crankcase" in said) == (True, False)


def the_answer(claim=None, **plan):
    """The answer, as its key and its facts."""
    claim, under = claim or a_claim(), a_plan(**plan)
    return headline(claim, judge(claim, under))


def test_what_failed_is_asked_for_like_any_fact_while_no_word_is_given_for_it():
    assert the_answer(a_claim(failure__component=None)).key == "answer.undecided"


LEAK = {"requires__findings": [{"what": "leak-down", "unit": "%", "at_least": "10"}]}


def test_a_finding_that_alone_is_open_is_told_with_its_limit():
    said = the_answer(**LEAK)
    assert (said.key, said.facts["what"]) == ("answer.undecided-finding", "leak-down")


def test_what_is_open_beside_a_finding_is_told_after_it():
    said = the_answer(a_claim(unit__use=None), window=[a_window(uses=["rental"])], **LEAK)
    assert (said.key, said.facts["facts_word"]) == ("answer.undecided-finding-facts", "unit.use")


def test_of_a_unit_in_stock_the_use_it_is_meant_for_is_asked():
    stock = {"case": "stock", "unit__use": None, "unit__invoiced": "2025-12-01"}
    claim = a_claim(**stock, dates__purchased=None, dates__delivered=None)
    windows = [a_window(uses=["rental"]), a_window(id="b", uses=["household"], first_owner_only=True, period="P1M")]
    assert the_answer(claim, start_stock=["invoiced"], window=windows).facts["facts_word"] == "stock.use"


@pytest.mark.parametrize(
    ("whatever", "key"), [("", "answer.covered-at-least"), ("unit.use", "answer.covered-whatever")]
)
def test_an_end_that_more_days_in_repair_may_move_is_the_least_unless_the_use_is_open_too(whatever, key):
    asked = Lacking("earlier.returned", "earlier[1].returned")
    window = WindowJudgement("engine", True, True, date(2025, 3, 14), date(2026, 3, 14), rests_on=asked)
    assert headline(a_claim(), Judgement("covered", window, whatever=whatever)).key == key
