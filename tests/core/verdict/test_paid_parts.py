from datetime import date
from decimal import Decimal

import pytest
from builders import a_plan, a_window

from claimpack.core.verdict.coverage import Judgement
from claimpack.core.verdict.paid_parts import paid_parts
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
