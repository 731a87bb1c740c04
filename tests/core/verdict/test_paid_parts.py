from datetime import date
from decimal import Decimal

import pytest
from builders import a_plan, a_window

from claimpack.core.verdict.coverage import Judgement
from claimpack.core.verdict.paid_parts import paid_parts, share_told
from claimpack.core.windows.in_repair import InRepair
from claimpack.core.windows.judged import WindowJudgement

PLAN = a_plan(window=[a_window(pays=["parts"])], replaced={"period": "P90D", "keeps_remaining": True})
HALF = {"shares": [{"until": "P12M", "maker": "0.50"}]}


def an_open(window):
    return WindowJudgement(window, applies=True, inside=True, starts=date(2026, 1, 1), ends=date(2026, 12, 31))


def paid_of_labour(*windows, event=date(2026, 2, 5), whatever=""):
    """How much of the labour is paid while these windows are open."""
    judgement = Judgement("covered", event=event, windows=tuple(map(an_open, windows)), whatever=whatever)
    return paid_parts(PLAN, judgement)["labour"].maker


def test_a_replaced_part_is_paid_whole_by_its_own_period():
    assert paid_of_labour("engine", "replaced") == 1


@pytest.mark.parametrize(
    ("event", "paid"),
    [(date(2026, 3, 31), 1), (date(2026, 4, 1), 1), (date(2026, 4, 2), 0)],
    ids=["the day before the last", "the last day", "the day after"],
)
def test_past_its_own_period_it_is_paid_as_the_window_it_lives_on(event, paid):
    assert paid_of_labour("engine", "replaced", event=event) == paid


def test_where_an_open_fact_does_not_matter_the_least_of_the_open_windows_counts():
    assert paid_of_labour("engine", "replaced", whatever="owner.use") == 0


@pytest.mark.parametrize(("of_maker", "paid"), [({"pays": ["parts"]}, "0"), (HALF, "0.5")], ids=["nothing", "half"])
def test_what_the_maker_leaves_is_the_shops_where_the_seller_owes_it_all(of_maker, paid):
    plan = a_plan(window=[a_window(**of_maker), a_window(id="conformity", owed_by="seller")])
    windows = tuple(map(an_open, ("engine", "conformity")))
    judgement = Judgement("covered", windows[0], event=date(2026, 2, 5), windows=windows)
    labour = paid_parts(plan, judgement)["labour"]
    assert (labour.maker, labour.rest) == (Decimal(paid), "shop")


def test_what_the_seller_does_not_owe_is_the_owners():
    plan = a_plan(window=[a_window(pays=["parts"], owed_by="seller")])
    judgement = Judgement("covered", event=date(2026, 2, 5), windows=(an_open("engine"),))
    rests = {kind: part.rest for kind, part in paid_parts(plan, judgement).items()}
    assert rests == {"parts": "shop", "labour": "owner", "extras": "owner"}


def test_a_window_that_binds_the_seller_alone_claims_nothing_of_the_maker():
    plan = a_plan(window=[a_window(owed_by="seller")])
    judgement = Judgement("covered", event=date(2026, 2, 5), windows=(an_open("engine"),))
    assert paid_parts(plan, judgement)["labour"].maker == 0


def test_of_windows_that_pay_alike_the_one_cited_is_named():
    plan = a_plan(window=[a_window(**HALF), a_window(id="better", **HALF)])
    windows = tuple(map(an_open, ("engine", "better")))
    judgement = Judgement("covered", windows[1], event=date(2026, 2, 5), windows=windows)
    assert paid_parts(plan, judgement)["labour"].why.facts["window"] == "better"


OPEN, WAITS, OVER, OTHER = (True, True), (True, None), (True, False), (False, True)


@pytest.mark.parametrize(("nearer", "farther"), [(OPEN, WAITS), (OPEN, OVER), (WAITS, OVER), (OVER, OTHER)], ids=str)
def test_it_is_priced_by_the_windows_that_are_nearest_to_holding(nearer, farther):
    plan = a_plan(window=[a_window(pays=["parts"]), a_window(id="all")])
    windows = (
        an_open("engine")._replace(applies=nearer[0], inside=nearer[1]),
        an_open("all")._replace(applies=farther[0], inside=farther[1]),
    )
    judgement = Judgement("undecided", event=date(2026, 2, 5), windows=windows)
    assert paid_parts(plan, judgement)["labour"].maker == 0


@pytest.mark.parametrize(("inside", "paid"), [(False, "0.5"), (None, "0")], ids=["over", "perhaps not over"])
def test_a_window_that_is_over_would_pay_the_share_of_its_last_day(inside, paid):
    plan = a_plan(window=[a_window(**HALF)])
    window = an_open("engine")._replace(inside=inside)
    judgement = Judgement("not covered", event=date(2027, 2, 5), windows=(window,))
    assert paid_parts(plan, judgement)["labour"].maker == Decimal(paid)


def test_a_share_that_days_in_repair_may_raise_is_the_least_that_is_paid():
    stay = (date(2026, 6, 1), date(2026, 6, 30))
    window = an_open("engine")._replace(in_repair=InRepair(possible=(stay,), asks="earlier.returned"))
    judgement = Judgement("covered", event=date(2027, 1, 10), windows=(window,))
    labour = paid_parts(a_plan(window=[a_window(**HALF)]), judgement)["labour"]
    assert (labour.maker, labour.why.key) == (0, "price.share-or-more")


LABOUR_TOO = {"id": "labour-too", "recourse": True, "owed_by": "seller"}


@pytest.mark.parametrize(
    ("windows", "key"),
    [
        ([HALF], "price.share"),
        ([{"pays": ["parts"]}], None),
        ([{"pays": ["parts"]}, {"id": "half", **HALF}], "price.shares"),
        ([{"pays": ["parts"]}, LABOUR_TOO], None),
    ],
    ids=["one share of all", "all of what is paid", "a share of some kinds", "all by two windows"],
)
def test_the_share_is_told_where_the_maker_does_not_pay_all(windows, key):
    plan = a_plan(window=[a_window(**window) for window in windows])
    judged = tuple(an_open(window.id) for window in plan.window)
    said = share_told(plan, Judgement("covered", judged[0], event=date(2026, 2, 5), windows=judged))
    assert (said.key if said else None) == key


def test_no_share_is_told_of_what_is_not_covered():
    judgement = Judgement("undecided", event=date(2026, 2, 5), windows=(an_open("engine"),))
    assert share_told(a_plan(window=[a_window(**HALF)]), judgement) is None
