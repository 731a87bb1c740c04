import pytest
from builders import a_plan
from lacked import lacking


@pytest.mark.parametrize("part", ["complaint", "cause", "correction"])
def test_the_story_has_three_parts(part):
    assert lacking(**{f"failure__{part}": ""}) == {part: True}


def test_the_component_is_asked_for():
    assert lacking(failure__component="") == {"component": True}


@pytest.mark.parametrize(
    ("word", "lacks"),
    [
        ("short blok", {"component-word": False}),
        ("air filters", {"component-word": False}),
        ("Engine", {}),
        ("blade", {}),
    ],
)
def test_a_mistyped_component_is_worth_a_look(word, lacks):
    assert lacking(a_plan(excluded={"components": ["air filter"]}), failure__component=word) == lacks


@pytest.mark.parametrize(("defects", "lacks"), [(["misuse"], {"defect": True}), ([], {})])
def test_the_kind_of_defect_is_asked_for_where_some_are_excluded(defects, lacks):
    assert lacking(a_plan(excluded={"defects": defects}), failure__defect=None) == lacks


@pytest.mark.parametrize(("defects", "lacks"), [(["misuse"], {"defect": True}), ([], {})])
def test_an_unknown_defect_blocks_filing_where_some_are_excluded(defects, lacks):
    assert lacking(a_plan(excluded={"defects": defects}), failure__defect="unknown") == lacks
