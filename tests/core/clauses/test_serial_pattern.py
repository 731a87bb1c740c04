from __future__ import annotations

import pytest

from claimpack.core.clauses.serial_pattern import LONGEST_FORM, checked_form, has_form


@pytest.mark.parametrize("form", ["[A-", "a)|(b", "(?=a)b", r"(a)\1", "(?x)a#", r"(\w?){9999}"])
def test_what_no_engine_can_promise_to_end_is_refused(form):
    with pytest.raises(ValueError, match="no regular expression"):
        checked_form(form)


@pytest.mark.parametrize("form", ["(a+)+$", "(a|aa)+$", "(a*)*b", "((a?){40}){40}", "(.*a){30}"])
def test_a_form_made_to_keep_a_matcher_busy_answers_at_once(form):
    assert not has_form(checked_form(form), "a" * 299 + "!")


@pytest.mark.parametrize(
    ("form", "number", "has"),
    [
        ("HC70-[0-9]{3}", "HC70-118", True),
        ("HC70-[0-9]{3}", "HC70-1188", False),
        ("A|B", "AB", False),
        ("A|B", "B", True),
        ("HC", "HC\n", False),
        (r"\d+", "٣", True),
        ("(?i)hc", "HC", True),
    ],
)
def test_a_form_is_matched_from_end_to_end(form, number, has):
    assert has_form(checked_form(form), number) is has


def test_the_longest_form_is_taken():
    assert checked_form("A" * LONGEST_FORM)


def test_a_longer_form_is_refused():
    with pytest.raises(ValueError, match="longer than 200"):
        checked_form("A" * (LONGEST_FORM + 1))


@pytest.mark.parametrize("form", ["A" * 9, "(A|A)" * 2, "[0-9]{1,60}" * 2])
@pytest.mark.parametrize("number", ["A" * 9, "AA", "A", "7" * 60 + "A", "7" * 120, "٣" * 3, "A\n", ""])
def test_a_plain_form_is_matched_as_the_engine_for_all_forms_matches_it(form, number):
    assert has_form(form, number) is has_form(f"(?:{form})", number)


def test_a_form_of_many_choices_answers_at_once():
    assert not has_form(checked_form("(A|A)" * 40), "A" * 39 + "!")
