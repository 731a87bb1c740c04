import pytest

from claimpack.core.values.typed.choices import chosen, meant_by

PROOFS = ["receipt", "registration", "none"]
SHOTS = ["serial plate", "failed part", "old part beside new part"]


@pytest.mark.parametrize(
    ("typed", "choice"), [("RECEIPT", "receipt"), ("1", "receipt"), ("3", "none"), ("reg", "registration")]
)
def test_a_choice_is_a_word_a_number_or_its_first_letters(typed, choice):
    assert chosen(typed, PROOFS, PROOFS, closed=True) == choice


def test_letters_that_begin_several_choices_name_them():
    with pytest.raises(ValueError, match="receipt or registration"):
        chosen("re", PROOFS, closed=True)


@pytest.mark.parametrize("typed", ["reg", "7", "0"])
def test_where_other_answers_are_possible_letters_are_an_answer_of_their_own(typed):
    assert chosen(typed, PROOFS, PROOFS, closed=False) is None


@pytest.mark.parametrize(
    ("said", "meant"),
    [
        ("plate", ["serial plate"]),
        ("fail", ["failed part"]),
        ("part", ["failed part", "old part beside new part"]),
        ("Failed-Part", ["failed part"]),
        ("lid", []),
        ("", []),
    ],
)
def test_some_words_of_a_phrase_mean_it(said, meant):
    assert meant_by(said, SHOTS) == meant


def test_a_phrase_of_just_the_words_said_is_meant_before_one_whose_words_begin_so():
    assert meant_by("part failed", ["failed part", "failed parts tray"]) == ["failed part"]
