import pytest
from builders import CAMPAIGN, a_claim, a_plan

from claimpack.core.verdict.matching import match, may_fall_under, near_names

OLD = a_plan(id="old", sold_until="2024-12-31")
NEW = a_plan(id="new", sold_from="2025-01-01")
UNSOLD = {"dates__purchased": None, "dates__delivered": None}


def found(claim, *plans):
    """The id of the plan found and the key of the reason."""
    matched = match(claim, plans)
    return matched.plan.id if matched.plan else None, matched.reason.says.key


def asked(claim, *plans):
    """The fact asked for."""
    return match(claim, plans).reason.asks


def test_the_plan_a_claim_names_is_taken():
    assert found(a_claim(plan="old"), OLD, NEW) == ("old", "plan.named-other")


def test_the_plan_a_claim_names_that_fits_is_told_so():
    assert found(a_claim(plan="new"), OLD, NEW) == ("new", "plan.named")


@pytest.mark.parametrize(("name", "key"), [("newe", "plan.named-none-near"), ("zzz", "plan.named-none")])
def test_a_plan_named_that_is_not_there_is_told(name, key):
    assert found(a_claim(plan=name), OLD, NEW) == (None, key)


@pytest.mark.parametrize(
    ("sold", "plan"),
    [("2024-12-30", "old"), ("2024-12-31", "old"), ("2025-01-01", "new"), ("2025-01-02", "new")],
)
def test_the_day_of_sale_decides(sold, plan):
    claim = a_claim(dates__purchased=sold, dates__delivered=None)
    assert found(claim, OLD, NEW)[0] == plan


def test_without_a_purchase_date_the_delivery_decides():
    assert found(a_claim(dates__purchased=None, dates__delivered="2024-06-01"), OLD, NEW)[0] == "old"


def test_an_unknown_day_of_sale_is_asked_for_where_it_decides():
    assert asked(a_claim(**UNSOLD), OLD, NEW) == "dates.purchased"


def test_an_unknown_day_of_sale_does_not_matter_where_one_plan_is_left():
    assert found(a_claim(**UNSOLD), NEW)[0] == "new"


@pytest.mark.parametrize("maker", ["halden", "HALDEN", "Halden Works"])
def test_a_maker_is_known_by_its_id_or_its_name(maker):
    assert found(a_claim(maker=maker), a_plan(maker_name="Halden Works"))[0] == "halden-test"


@pytest.mark.parametrize("model", ["CS-70", "cs-70", "CS-"])
def test_a_model_fits_a_pattern_in_any_case(model):
    assert found(a_claim(unit__model=model), a_plan())[0] == "halden-test"


@pytest.mark.parametrize("exact", ["CS-70", "CS-7*", "CS-7?", "CS-[7]0"])
def test_the_plan_that_says_most_exactly_which_model_wins(exact):
    assert found(a_claim(), a_plan(id="broad"), a_plan(id="narrow", models=[exact]))[0] == "narrow"


def test_a_model_written_out_beats_any_pattern():
    assert (
        found(a_claim(), a_plan(id="pattern", models=["CS-7[0]"]), a_plan(id="exact", models=["CS-70"]))[0] == "exact"
    )


def test_two_plans_that_fit_equally_are_named():
    matched = match(a_claim(), [a_plan(id="one"), a_plan(id="two")])
    assert (matched.plan, matched.reason.says.facts["plans"]) == (None, "one, two")


def test_the_use_tells_plans_apart():
    plans = [a_plan(id="home", uses=["household"]), a_plan(id="work", uses=["professional"])]
    assert found(a_claim(), *plans)[0] == "work"


def test_an_unknown_use_is_asked_for_where_it_tells_plans_apart():
    plans = [a_plan(id="home", uses=["household"]), a_plan(id="work", uses=["professional"])]
    assert asked(a_claim(unit__use=None), *plans) == "unit.use"


@pytest.mark.parametrize(
    ("use", "uses"),
    [(None, ["professional"]), ("professional", None)],
    ids=["both plans are for one use", "it is given"],
)
def test_the_use_is_not_asked_for_where_it_tells_no_plans_apart(use, uses):
    plans = [a_plan(id="one", uses=uses), a_plan(id="two", uses=["professional"])]
    assert asked(a_claim(unit__use=use), *plans) == "plan"


def test_no_plan_at_all_leaves_it_open():
    assert found(a_claim()) == (None, "plan.none")


def test_a_mistyped_maker_is_told_the_nearest():
    assert match(a_claim(maker="haldne"), [a_plan()]).reason.says.facts["near"] == "halden CS-*"


def test_a_model_sold_on_another_day_is_told_so():
    assert found(a_claim(dates__purchased="2024-06-01"), NEW) == (None, "plan.none-sold-then")


def test_before_the_day_of_sale_is_known_every_plan_of_the_unit_may_apply():
    plans = [
        a_plan(id="old", sold_until="2024-12-31"),
        a_plan(id="new", sold_from="2025-01-01"),
        a_plan(models=["X-1"]),
    ]
    waiting = a_claim(dates__purchased=None, dates__delivered=None)
    assert [[plan.id for plan in may_fall_under(claim, plans)] for claim in (waiting, a_claim())] == [
        ["old", "new"],
        ["new"],
    ]


def test_a_plan_for_other_model_years_is_none_that_a_claim_may_fall_under():
    claim = a_claim(unit__model_year=2025, **UNSOLD)
    assert may_fall_under(claim, [OLD, NEW, a_plan(id="next", model_years=[2026, 2027])]) == [OLD, NEW]


PLANS = [a_plan(models=["CS-70", "CS-80"], maker_name="Halden Tools")]


@pytest.mark.parametrize(
    ("changes", "near"),
    [
        ({}, []),
        ({"maker": "haldn"}, [("maker", "haldn", "halden")]),
        ({"maker": "halden tool"}, [("maker", "halden tool", "Halden Tools")]),
        ({"unit__model": "CS-770"}, [("unit.model", "CS-770", "CS-70")]),
        ({"maker": "zzz"}, []),
        ({"unit__model": "generator"}, []),
    ],
)
def test_a_mistyped_name_is_told_with_the_nearest(changes, near):
    assert [tuple(name) for name in near_names(a_claim(**changes), PLANS)] == near


@pytest.mark.parametrize(
    ("year", "plan"),
    [(2023, None), (2024, "fresh"), (2025, "fresh"), (2026, None)],
    ids=["before", "first", "last", "after"],
)
def test_a_plan_for_model_years_is_found_by_them(year, plan):
    assert found(a_claim(unit__model_year=year), a_plan(id="fresh", model_years=[2024, 2025]))[0] == plan


def test_two_plans_told_apart_by_model_year_wait_for_it():
    plans = (a_plan(id="early", model_years=[2020, 2023]), a_plan(id="late", model_years=[2024, 2027]))
    assert asked(a_claim(), *plans) == "unit.model_year"


def test_two_plans_told_apart_by_serial_numbers_wait_for_one():
    plans = (a_plan(id="early", serials=["H-1 .. H-9"]), a_plan(id="late", serials=["H-10 .. H-99"]))
    assert asked(a_claim(unit__serials=[]), *plans) == "unit.serials"


def test_of_two_plans_the_one_whose_range_holds_the_serial_number_is_found():
    plans = (a_plan(id="early", serials=["H-1 .. H-9"]), a_plan(id="late", serials=["H-10 .. H-99"]))
    assert found(a_claim(unit__serials=[{"role": "unit", "value": "H-10"}]), *plans)[0] == "late"


def test_a_unit_of_another_model_year_is_told_which_plan_is_not_for_it():
    assert found(a_claim(unit__model_year=2026), a_plan(model_years=[2024, 2025]))[1] == "plan.none-of-the-unit"


@pytest.mark.parametrize("other", [{"maker": "orrin-vale"}, {"models": ["RM-*"]}], ids=["maker", "model"])
def test_a_claim_falls_under_no_plan_of_another_maker_or_model(other):
    assert may_fall_under(a_claim(**UNSOLD), [a_plan(sold_until="2024-12-31", **other), a_plan(id="x", **other)]) == []


def test_the_reason_names_the_maker_as_its_plan_prints_it():
    reason = match(a_claim(maker="halden"), [a_plan(maker_name="Halden of Ashby")]).reason
    assert reason.says.facts["maker"] == "Halden of Ashby"


def test_the_reason_names_the_day_the_unit_was_sold():
    assert match(a_claim(), [NEW]).reason.says.facts["sold"] == "2025-03-14"


STOCK = {"case": "stock", "unit__invoiced": None, **UNSOLD}


def test_a_unit_in_stock_is_asked_for_its_invoice_where_the_day_of_sale_decides():
    assert asked(a_claim(**STOCK), OLD, NEW) == "unit.invoiced"


def test_a_unit_in_stock_is_asked_for_its_model_year_where_that_decides():
    plans = (a_plan(id="early", model_years=[2020, 2023]), a_plan(id="late", model_years=[2024, 2027]))
    assert asked(a_claim(**STOCK), *plans) == "unit.model_year"


@pytest.mark.parametrize(
    ("campaign", "says"),
    [
        ("c-1", ("paying", "plan.of-campaign")),
        ("C-7", (None, "plan.campaign-none")),
        ("", (None, "plan.campaign-unnamed")),
    ],
    ids=["known", "unknown", "not named"],
)
def test_a_campaign_is_paid_by_the_plan_that_has_it(campaign, says):
    claim = a_claim(case="campaign", campaign=campaign)
    assert found(claim, a_plan(id="other"), a_plan(id="paying", campaign=[CAMPAIGN])) == says
