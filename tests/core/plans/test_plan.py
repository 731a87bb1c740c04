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
