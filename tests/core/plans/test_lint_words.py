import pytest
from builders import a_plan, a_window

from claimpack.core.plans.lint_words import (
    is_written_otherwise,
    operations_for_no_component,
    words_nearly_alike,
    words_spelt_two_ways,
)

ALL = a_window(id="all", covers=["*"])
COIL = [{"code": "coil", "name": "Replace ignition coil", "hours": "0.5"}]


def excluding(word, **changes):
    return a_plan(window=[a_window(covers=["spark plug"]), ALL], excluded={"components": [word]}, **changes)


@pytest.mark.parametrize("word", ["spark plugs", "Sparkplug", "plug, sparks"])
def test_a_component_that_two_lists_spell_otherwise_is_told(word):
    assert [doubt.split(":")[0] for doubt in words_spelt_two_ways(excluding(word))] == ["excluded.components"]


@pytest.mark.parametrize("word", ["spark plug", "plug, spark", "spark lead", "belt"])
def test_the_same_word_and_another_part_are_not_told(word):
    assert (list(words_spelt_two_ways(excluding(word))), list(words_nearly_alike(excluding(word)))) == ([], [])


def test_two_spellings_in_one_list_are_meant():
    both = a_plan(window=[a_window(covers=["carburettor jet", "carburettor jets"]), ALL])
    assert list(words_spelt_two_ways(both)) == []


def test_a_component_that_is_mistyped_is_told():
    assert [doubt.split(":")[0] for doubt in words_nearly_alike(excluding("spark plgu"))] == ["excluded.components"]


def test_parts_that_differ_by_a_number_are_two_parts():
    plan = a_plan(window=[a_window(covers=["bearing 6203"]), ALL], excluded={"components": ["bearing 6204"]})
    assert list(words_nearly_alike(plan)) == []


def test_two_parts_that_are_named_beside_each_other_are_two_parts():
    assert list(words_nearly_alike(excluding("spark plum", words={"spark plug": [], "spark plum": []}))) == []


@pytest.mark.parametrize(("covered", "told"), [("ignition coli", 1), ("ignition coil", 0), ("flywheel", 0)])
def test_what_an_operation_replaces_is_written_as_windows_write_it(covered, told):
    plan = a_plan(window=[a_window(covers=[covered]), ALL], operation=COIL)
    assert len(list(operations_for_no_component(plan))) == told


@pytest.mark.parametrize("word", ["spark plugs", "spark plgu", "spak plug", "sparkk plug"])
def test_a_word_of_a_list_stands_for_a_component_in_another_spelling(word):
    assert is_written_otherwise("spark plug", ["belt", word], excluding(word)) == word


@pytest.mark.parametrize("word", ["spark plus", "spark plug", "spark plug 2", "belt"])
def test_another_word_and_the_component_itself_stand_for_no_other_spelling(word):
    assert is_written_otherwise("spark plug", [word], excluding(word)) is None


def test_two_parts_named_under_words_are_two():
    plan = excluding("spark plugg", words={"spark plug": [], "spark plugg": []})
    assert is_written_otherwise("spark plug", ["spark plugg"], plan) is None
