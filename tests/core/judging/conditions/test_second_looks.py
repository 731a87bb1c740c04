from datetime import datetime, timedelta, timezone

import pytest
from builders import TODAY, a_claim, a_plan
from lacked import lacking

from claimpack.core.judging.assessment import Circumstances, assess
from claimpack.core.judging.conditions.conditions import missing
from claimpack.core.judging.conditions.missing_items import ClaimFacts
from claimpack.core.pricing.pricing import price

SCHEDULE = a_plan(operation=[{"code": "coil", "name": "Replace coil", "hours": "0.5"}])
DONE_AT_ONCE = {"operation": "coil", "started": "2026-02-24T09:00:00", "ended": "2026-02-24T09:00:20"}


def looks(plan=SCHEDULE, **changes):
    """What of a claim is worth a look, in words."""
    claim = a_claim(**changes)
    found = missing(ClaimFacts(claim, plan, price(claim, plan).amounts, TODAY, {}))
    return [f"{item.what}. {item.why}" for item in found if not item.blocks_filing]


def test_a_clock_that_shows_next_to_nothing_of_what_the_schedule_claims_is_worth_a_look():
    said = "0.5 h are claimed by the schedule, and 0.01 h are written down as worked."
    assert looks(labour=[DONE_AT_ONCE]) == [f"check the labour time: Replace coil. {said}"]


def test_a_part_the_maker_pays_nothing_for_is_worth_a_look():
    assert looks(parts=[{"name": "Coil"}]) == [
        "the cost of a part: Coil. The maker is to pay for it, and it is priced at 0."
    ]


@pytest.mark.parametrize(
    "part",
    [{"unit_cost": "0.01"}, {"source": "maker"}, {"payer": "owner"}, {"payer": "shop"}],
    ids=["costs something", "the maker's own", "the owner pays", "the shop pays"],
)
def test_other_parts_need_no_cost(part):
    assert looks(parts=[{"name": "Coil", **part}]) == []


@pytest.mark.parametrize(
    ("rate", "level", "payer", "asked"),
    [
        ({"level": "gold"}, "", "maker", True),
        ({"level": "gold"}, "gold", "maker", False),
        ({"level": "gold"}, "", "owner", False),
        ({"class": "engine"}, "", "maker", False),
    ],
    ids=["by level", "the level is known", "the maker pays no labour", "rates by class alone"],
)
def test_the_level_of_the_shop_is_worth_a_look_where_labour_is_paid_by_it(rate, level, payer, asked):
    plan = a_plan(pays__labour_rates=[{**rate, "rate": "98.00"}])
    claim = a_claim(labour=[{"operation": "diagnose", "hours": "1", "payer": payer}])
    found = missing(ClaimFacts(claim, plan, price(claim, plan).amounts, TODAY, {}, level=level))
    assert [item.blocks_filing for item in found if item.what.key == "missing.dealer-level"] == [False] * asked


@pytest.mark.parametrize(
    ("handling", "part", "asked"),
    [
        ("0.1", {"source": "maker"}, True),
        ("0.1", {"source": "maker", "list_price": "412.35"}, False),
        ("0.1", {"source": "maker", "payer": "owner"}, False),
        ("0.1", {"unit_cost": "5"}, False),
        (None, {"source": "maker"}, False),
    ],
    ids=["the maker's own", "it is known", "the owner pays", "the shop's own", "nothing is added"],
)
def test_a_list_price_is_worth_a_look_where_handling_goes_by_it(handling, part, asked):
    plan = a_plan(pays__handling_on_supplied=handling)
    assert any("list price" in said for said in looks(plan, parts=[{"name": "Coil", **part}])) is asked


def test_they_come_after_what_blocks_filing():
    claim = a_claim(parts=[{"name": "Coil"}], dates__repaired=None)
    found = missing(ClaimFacts(claim, SCHEDULE, price(claim, SCHEDULE).amounts, TODAY, {}))
    assert [item.blocks_filing for item in found][-1] is False


@pytest.mark.parametrize(("meter", "hours"), [(True, "1"), (None, "1"), (False, None), (True, None)])
def test_a_meter_and_its_reading_agree(meter, hours):
    assert lacking(unit__meter=meter, unit__hours=hours) == {}


def test_a_reading_of_no_meter_is_worth_a_look():
    assert lacking(unit__meter=False, unit__hours="1") == {"meter": False}


def test_the_owners_name_is_worth_a_look():
    assert lacking(owner__name="") == {"owner": False}


ZONE = timezone(timedelta(hours=-5))


@pytest.mark.parametrize(
    ("taken", "lacks"),
    [
        (None, {}),
        (datetime(2025, 3, 13, 23, 59), {"photo-date": False}),  # noqa: DTZ001
        (datetime(2025, 3, 14, 0, 0), {}),  # noqa: DTZ001
        (datetime(2026, 3, 1, 23, 59, tzinfo=ZONE), {}),
        (datetime(2026, 3, 2, 0, 0, tzinfo=ZONE), {"photo-date": False}),
    ],
)
def test_a_picture_is_taken_while_the_unit_is_sold_and_before_today_is_over(taken, lacks):
    assert lacking(taken={"photos/a.jpg": taken}) == lacks


def test_a_picture_taken_after_the_unit_was_built_is_no_surprise():
    assert lacking(taken={"a.jpg": datetime(2025, 2, 1)}, unit__built="2025-01-20") == {}  # noqa: DTZ001


def test_pictures_of_the_same_cause_are_told_in_one_line():
    early, late = datetime(2025, 3, 13), datetime(2026, 3, 2)  # noqa: DTZ001
    taken = {"a.jpg": early, "b.jpg": early - timedelta(days=2), "c.jpg": late}
    found = assess(a_claim(), [a_plan()], TODAY, Circumstances(taken=taken)).missing
    assert [item.what.facts["file"] for item in found] == ["a.jpg, b.jpg", "c.jpg"]
    assert str(found[0].why) == "By the camera's clock: 2025-03-11, 2025-03-13, before 2025-03-14."


@pytest.mark.parametrize(
    ("first", "held", "lacks"),
    [(True, ["coil"], {"part-first": False}), (True, [], {}), (False, ["coil"], {})],
    ids=["a part is held", "none is held", "the plan pays before"],
)
def test_a_part_that_goes_back_before_the_maker_pays_is_worth_a_look(first, held, lacks):
    plan = a_plan(requires={"part_returned_first": first})
    assert lacking(plan, held=[{"part": part, "drained": True} for part in held]) == lacks


def test_a_list_price_that_is_not_known_does_not_keep_a_claim_from_being_filed():
    plan = a_plan(pays__handling_on_supplied="0.1", requires={"held_part": False})
    assert lacking(plan, parts=[{"name": "Coil", "source": "maker"}]) == {"list-price": False}
