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


@pytest.mark.parametrize("word", ["spark plus", "spark plug", "spark plate", "spark plug 2", "belt"])
def test_another_word_and_the_component_itself_stand_for_no_other_spelling(word):
    assert is_written_otherwise("spark plug", [word], excluding(word)) is None


def test_two_parts_named_under_words_are_two():
    plan = excluding("spark plugg", words={"spark plug": [], "spark plugg": []})
    assert is_written_otherwise("spark plug", ["spark plugg"], plan) is None


@pytest.mark.parametrize(
    ("word", "told"),
    [("cylinder headd gasskett", 1), ("cylindder headd gasskett", 0), ("bylinder gead hasket", 0)],
    ids=["three letters too many", "four", "no word begins alike"],
)
def test_a_slip_leaves_the_length_and_a_beginning(word, told):
    plan = a_plan(window=[a_window(covers=["cylinder head gasket"]), ALL], excluded={"components": [word]})
    assert len(list(words_nearly_alike(plan))) == told


@pytest.mark.parametrize(
    ("changes", "key"),
    [
        ({"requires": {"approval_components": ["spark plugs"]}}, "requires.approval_components"),
        ({"elsewhere": [{"components": ["spark plugs"], "maker": "V", "because": "its own"}]}, "elsewhere.components"),
        ({"words": {"spark plugs": []}}, "words"),
    ],
)
def test_every_list_of_components_is_compared(changes, key):
    plan = a_plan(**{"window": [a_window(covers=["spark plug"]), ALL], **changes})
    assert [doubt.split(":")[0] for doubt in words_spelt_two_ways(plan)] == [key]


@pytest.mark.parametrize(
    ("more", "key"),
    [
        ({"except": ["spark plugs"]}, "except"),
        ({"scheduled": [{"component": "spark plugs", "hours": 50}]}, "scheduled"),
    ],
)
def test_every_list_of_a_window_is_compared(more, key):
    plan = a_plan(window=[a_window(covers=["spark plug"]), a_window(id="all", covers=["*"], **more)])
    assert [doubt.split(": ")[:2] for doubt in words_spelt_two_ways(plan)] == [["window all", key]]


def test_a_component_spelt_two_ways_is_not_told_as_mistyped_besides():
    assert list(words_nearly_alike(excluding("spark plugs"))) == []


def test_another_word_of_the_plan_for_a_component_is_no_slip_for_it():
    assert list(words_nearly_alike(excluding("spark plgu", words={"spark plug": ["spark plgu"]}))) == []


@pytest.mark.parametrize(
    ("component", "word"),
    [("throttlebody", "throttle bodies"), ("choke", "chokke"), ("choke", "chkoe")],
    ids=["three letters more", "five letters", "two changed places"],
)
def test_a_long_word_is_written_otherwise_by_a_letter_or_two(component, word):
    plan = a_plan(window=[a_window(covers=[component]), ALL], excluded={"components": [word]})
    assert is_written_otherwise(component, [word], plan) == word


@pytest.mark.parametrize(
    ("component", "word"), [("belt", "beltt"), ("belt", "betl"), ("bearing 6203", "bearing 62033")]
)
def test_a_short_word_and_a_number_are_other_ones_by_a_letter(component, word):
    plan = a_plan(window=[a_window(covers=[component]), ALL], excluded={"components": [word]})
    assert is_written_otherwise(component, [word], plan) is None


def test_a_component_that_alone_is_named_under_words_is_written_otherwise_in_a_list():
    plan = excluding("spark plugg", words={"spark plug": []})
    assert is_written_otherwise("spark plug", ["spark plugg"], plan) == "spark plugg"


def test_a_component_that_a_list_has_as_well_is_not_written_otherwise_there():
    plan = excluding("spark plugg")
    assert is_written_otherwise("spark plug", ["spark plugg", "plug, spark"], plan) is None


@pytest.mark.parametrize("component", ["", "spark plggu"])
def test_what_the_plan_does_not_know_is_written_otherwise_nowhere(component):
    assert is_written_otherwise(component, ["spark plug"], excluding("belt")) is None
