import pytest

from claimpack.core.values.words import (
    beginning,
    clean,
    did_you_mean,
    folded,
    is_among,
    is_said,
    nearest,
    on_one_line,
    one_line,
    some_lines,
    some_of,
    word_set,
)


def test_text_is_composed():
    assert clean("e\u0301") == "\u00e9"


@pytest.mark.parametrize("mark", ["\x00", "\x1b", "\x07", "\x7f", "\x85"])
def test_control_characters_are_refused(mark):
    with pytest.raises(ValueError, match="control character"):
        clean(f"a{mark}b")


def test_line_breaks_of_other_systems_become_one():
    assert clean("a\r\nb") == "a\nb"


def test_a_line_has_no_breaks():
    assert one_line(" a\n\tb ") == "a b"


def test_what_is_no_text_is_left_to_the_record():
    assert one_line(12) == 12


@pytest.mark.parametrize("word", ["Short block", "short-block", "SHORT_BLOCK", " short  block "])
def test_spelling_of_blanks_and_case_does_not_matter(word):
    assert folded(word) == "short block"


def test_a_star_stands_for_every_word():
    assert is_among("anything", ["*"])


def test_another_word_is_not_among_them():
    assert not is_among("piston", ["ring", "pin"])


def test_the_nearest_word_keeps_its_own_spelling():
    assert nearest("HADLEN", ["Halden", "Tessaly Pumps"]) == "Halden"


def test_nothing_near_is_nothing():
    assert nearest("zzz", ["Halden"]) is None


@pytest.mark.parametrize(
    ("known", "said"), [(11, "k."), (12, "k, l."), (13, "k, l and 1 more."), (14, "k, l and 2 more.")]
)
def test_of_many_known_words_twelve_are_listed(known, said):
    assert did_you_mean("zzz", "abcdefghijklmn"[:known]).endswith(said)


def test_without_a_near_word_the_known_ones_are_listed():
    assert did_you_mean("zzz", ["b", "a"]) == "Known: a, b."


@pytest.mark.parametrize(
    ("most", "said"), [(2, "A1, B2 and 1 more"), (3, "A1, B2, C3"), (4, "A1, B2, C3")], ids=["fewer", "all", "room"]
)
def test_of_many_names_the_first_are_told_and_how_many_more(most, said):
    assert some_of(["A1", "B2", "C3"], most) == said


@pytest.mark.parametrize(("most", "told"), [(1, ["  one", "  and 1 more"]), (2, ["  one", "  two"])])
def test_of_many_lines_the_first_are_told_and_how_many_more(most, told):
    assert some_lines(["  one", "  two"], most) == told


@pytest.mark.parametrize(
    ("longest", "said"),
    [(13, "one two three"), (12, "one two …"), (7, "one two …"), (6, "one …"), (2, "on…")],
    ids=["all", "inside a word", "after a word", "inside the second", "inside the first"],
)
def test_a_long_text_ends_after_a_word_with_a_mark(longest, said):
    assert beginning("one two three", longest) == said


@pytest.mark.parametrize("written", ["12 Quarry Road\nAshby", "12 Quarry Road,\n  Ashby ", "12 Quarry Road, Ashby"])
def test_an_address_on_one_line_has_a_comma_between_its_lines(written):
    assert on_one_line(written) == "12 Quarry Road, Ashby"


@pytest.mark.parametrize(("word", "said"), [("Short-Block", True), ("anything", False)])
def test_among_what_people_said_no_star_stands_for_every_word(word, said):
    assert is_said(word, ["short block", "*"]) is said


def test_the_words_of_a_phrase_are_compared_in_any_order():
    assert word_set("COIL, IGNITION") == word_set("ignition coil")


def test_a_phrase_of_marks_alone_is_one_word():
    assert word_set("№") == ("№",)
