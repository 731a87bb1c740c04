from datetime import date

import pytest
from builders import a_plan, a_window
from pydantic import ValidationError

from claimpack.core.clauses.starts import start_rule
from claimpack.core.clauses.window import Window
from claimpack.core.plans.plan import WindowSet

STATUTE = WindowSet(
    id="us-xx",
    name="A statute",
    cites="XX Code 1",
    read_on="2026-11-25",
    start=["delivered"],
    window=[Window(id="us-xx", covers=["ignition coil"], period="P2Y")],
)


@pytest.mark.parametrize("wrong", ["", "Engine", "-a", "a b", "a" * 61, "ä"])
def test_an_id_is_small_letters_digits_and_hyphens(wrong):
    with pytest.raises(ValidationError, match="id"):
        a_plan(id=wrong)


def test_a_plan_must_have_a_window():
    with pytest.raises(ValidationError, match="window"):
        a_plan(window=[])


def test_two_windows_of_one_id_are_refused():
    with pytest.raises(ValidationError, match="window id given twice: engine"):
        a_plan(window=[a_window(), a_window()])


def test_days_of_sale_run_forward():
    with pytest.raises(ValidationError, match="is before sold_from"):
        a_plan(sold_from="2026-01-01", sold_until="2025-12-31")


def test_a_replaced_part_must_have_some_cover():
    with pytest.raises(ValidationError, match="the part has no cover"):
        a_plan(replaced={"keeps_remaining": False})


def test_a_labour_rate_is_no_binary_float():
    with pytest.raises(ValidationError, match="decimal number"):
        a_plan(pays__labour_rate=92.5)


def test_a_statute_adds_its_windows_behind_the_plans_own():
    assert [window.id for window in a_plan().with_windows_of(STATUTE).window] == ["engine", "us-xx"]


def test_a_window_of_a_statute_carries_its_name_section_and_start():
    window = a_plan().with_windows_of(STATUTE).window[-1]
    assert (window.name, window.cites, window.start) == ("A statute", "XX Code 1", start_rule("delivered"))


def test_a_window_of_a_statute_keeps_a_section_of_its_own():
    own = STATUTE.model_copy(update={"window": (STATUTE.window[0].model_copy(update={"cites": "XX Code 2"}),)})
    assert a_plan().with_windows_of(own).window[-1].cites == "XX Code 2"


def test_another_word_stands_for_one_component_alone():
    words = {"connecting rod": ["con rod"], "piston rod": ["rod, con"]}
    with pytest.raises(ValidationError, match="'rod, con' stands for both 'connecting rod' and 'piston rod'"):
        a_plan(words=words)


def test_a_held_part_is_kept_and_a_replaced_one_keeps_its_window_unless_the_plan_says_otherwise():
    plan = a_plan(replaced={"period": "P90D"})
    assert (plan.requires.held_part, plan.replaced.keeps_remaining) == (True, True)


@pytest.mark.parametrize(("read_on", "told"), [(None, "2026-11-25"), (date(2026, 1, 2), "2026-01-02")])
def test_a_window_of_a_statute_was_read_when_it_says_else_when_the_statute_was(read_on, told):
    window = STATUTE.window[0].model_copy(update={"read_on": read_on})
    plan = a_plan().with_windows_of(STATUTE.model_copy(update={"window": (window,)}))
    assert str(plan.window[-1].read_on) == told


def test_a_window_of_a_statute_keeps_a_name_and_a_start_of_its_own():
    own = STATUTE.window[0].model_copy(update={"name": "Coils", "start": start_rule("purchased")})
    window = a_plan().with_windows_of(STATUTE.model_copy(update={"window": (own,)})).window[-1]
    assert (window.name, window.start) == ("Coils", start_rule("purchased"))


@pytest.mark.parametrize(("cites", "told"), [("", "XX Code 1"), ("XX Code 3", "XX Code 3")])
def test_time_in_repair_that_a_statute_adds_is_cited_behind_the_plans_own(cites, told):
    law = WindowSet.model_validate(
        {
            "id": "us-xx",
            "name": "A statute",
            "cites": "XX Code 1",
            "read_on": "2026-11-25",
            "repair_time_extends": {"by": "calendar", "cites": cites},
        }
    )
    rules = a_plan(repair_time_extends="calendar").with_windows_of(law).repair_time_extends
    assert [(rule.cites, rule.read_on) for rule in rules] == [("", None), (told, date(2026, 11, 25))]


def test_a_statute_gives_windows_or_time_in_repair():
    with pytest.raises(ValidationError, match="repair_time_extends"):
        WindowSet(id="us-xx", name="A statute", cites="XX Code 1", read_on="2026-11-25")


@pytest.mark.parametrize("until", ["2026-01-01", "2026-01-02"])
def test_a_plan_may_be_for_units_sold_on_one_day(until):
    assert a_plan(sold_from="2026-01-01", sold_until=until).sold_from == date(2026, 1, 1)


@pytest.mark.parametrize("key", ["sold_from", "sold_until"])
def test_days_of_sale_may_be_open_to_one_side(key):
    assert getattr(a_plan(**{key: "2026-01-01"}), key) == date(2026, 1, 1)


HOURS = {"hours": "1"}


@pytest.mark.parametrize(
    ("changes", "twice"),
    [
        ({"operation": [{"code": "short-block", **HOURS}, {"code": "Short Block", **HOURS}]}, "short block"),
        ({"kit": [{"number": "K-70", "includes": ["G-1"]}, {"number": "k 70", "includes": ["G-2"]}]}, "k70"),
    ],
)
def test_an_operation_and_a_kit_stand_in_a_plan_once(changes, twice):
    with pytest.raises(ValidationError, match=rf"given twice: {twice}"):
        a_plan(**changes)


def test_a_kit_holds_parts_that_are_no_kits():
    assert len(a_plan(kit=[{"number": "K-70", "includes": ["G-1"]}, {"number": "K-71", "includes": ["G-1"]}]).kit) == 2


def test_a_component_may_have_an_other_word_twice():
    assert a_plan(words={"connecting rod": ["con rod", "rod, con"]}).words == {
        "connecting rod": ("con rod", "rod, con")
    }


@pytest.mark.parametrize("owners", [{"fee": "25.00", "then": "P6M"}, {"then": "P6M"}])
def test_a_fee_of_a_second_owner_is_one_that_can_be_paid_or_none(owners):
    assert a_plan(window=[a_window(owners=owners)])


@pytest.mark.parametrize(
    ("changes", "key"),
    [
        ({"window": [a_window(owners={"fee": "25.001"})]}, "window engine: owners.fee: 25.001"),
        ({"pays__claim_cap": "600.001"}, "pays.claim_cap: 600.001"),
    ],
)
def test_an_amount_that_no_coin_can_pay_is_refused_by_its_key(changes, key):
    with pytest.raises(ValidationError, match=key):
        a_plan(**changes)


YEARS = [2024, 2025]


@pytest.mark.parametrize(
    ("changes", "goes"),
    [
        ({}, False),
        ({"model_years": YEARS}, True),
        ({"window": [a_window(), a_window(id="b", model_years=YEARS)]}, True),
    ],
    ids=["neither", "the plan", "a window"],
)
def test_a_plan_goes_by_model_year_where_it_or_a_window_names_some(changes, goes):
    assert a_plan(**changes).goes_by_model_year() is goes


@pytest.mark.parametrize(
    ("changes", "counts"),
    [
        ({}, False),
        ({"repair_time_extends": "calendar"}, True),
        ({"window": [a_window(), a_window(id="b", repair_time_extends="calendar")]}, True),
    ],
    ids=["neither", "the plan", "a window"],
)
def test_a_plan_counts_time_in_repair_where_it_or_a_window_says_so(changes, counts):
    assert a_plan(**changes).counts_time_in_repair is counts


def test_the_words_a_plan_knows_for_components_are_those_of_all_its_lists():
    plan = a_plan(
        window=[
            a_window(covers=["*"], scheduled=[{"component": "plug", "hours": 50}], **{"except": ["battery"]}),
            a_window(id="sold", covers=["parts sold"]),
            a_window(id="b", covers=["engine"]),
        ],
        elsewhere=[{"components": ["charger"], "maker": "Voltane", "because": "its own"}],
        excluded={"components": ["blade"]},
        requires={"approval_components": ["crankshaft"]},
    )
    assert set(plan.component_words()) == {"battery", "engine", "plug", "charger", "blade", "crankshaft"}


@pytest.mark.parametrize(
    ("code", "included"), [("a", {"b", "c", "free words"}), ("b", {"c", "free words"}), ("c", set()), ("d", set())]
)
def test_an_operation_includes_what_those_that_it_includes_do(code, included):
    schedule = [
        {"code": "a", **HOURS, "includes": ["B"]},
        {"code": "b", **HOURS, "includes": ["c", "free words"]},
        {"code": "c", **HOURS},
    ]
    assert a_plan(operation=schedule).included_in(code) == included


def test_operations_that_include_each_other_include_themselves():
    schedule = [{"code": "a", **HOURS, "includes": ["b"]}, {"code": "b", **HOURS, "includes": ["a"]}]
    assert a_plan(operation=schedule).included_in("a") == {"a", "b"}
