from __future__ import annotations

import pytest
from running import claimpack

from claimpack.commands.manual.described import Described, DescribedWord, as_help

LONG = Described(
    "hold send",
    "claimpack hold send CODE [OPTIONS]",
    ("A part that the maker called back goes to the maker, in a box of its own, with a slip.",),
    (DescribedWord("CODE", "As on the tag."),),
    (
        DescribedWord(
            "--first-owner / --second-owner", "Whether this is the first owner, who bought the unit when it was new."
        ),
    ),
    examples=("claimpack hold send 26-0041/1 --on yesterday --ref 'a box of its own' --because 'they asked for it'",),
)


@pytest.mark.parametrize("width", [40, 60, 80, 200])
def test_help_is_no_wider_than_the_terminal_but_never_narrower_than_60(width):
    assert max(map(len, as_help(LONG, width).splitlines())) <= max(60, width)


def test_the_words_of_help_stay_whole_on_a_narrow_terminal():
    assert " ".join(as_help(LONG, 60).split()).count("first owner, who bought the unit when it was new.") == 1


def test_an_option_that_is_long_stands_on_its_own_line():
    assert "  --first-owner / --second-owner\n" in as_help(LONG, 80)


def test_help_shows_the_word_of_a_value_and_never_its_type():
    ran = claimpack("open", "--help")
    assert ("--serial SERIAL" in ran.out, "<" in ran.out) == (True, False)


def test_help_tells_a_default():
    assert "[30]" in claimpack("list", "--help").out


def test_an_argument_that_may_be_left_out_stands_in_brackets():
    assert claimpack("history", "--help").out.startswith("Usage: claimpack history [CLAIM] [OPTIONS]\n")


def test_an_argument_of_which_there_may_be_more_has_dots_once():
    said = claimpack("photo", "add", "--help").out.splitlines()[0]
    assert (said.count("…"), "FILE…" in said) == (1, True)


def test_a_usage_error_shows_how_the_command_is_typed():
    assert claimpack("hold", "send").err.startswith("Usage: claimpack hold send CODE [OPTIONS]\n")
