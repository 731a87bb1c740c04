from __future__ import annotations

from enum import StrEnum
from typing import Annotated

import pytest
from running import claimpack

from claimpack.commands.line.declared import Argument, Option
from claimpack.commands.manual.described import Described, DescribedWord, as_help, described


class Colour(StrEnum):
    RED = "red"
    BLUE = "blue"


def paint(
    wall: Annotated[str, Argument(help="Which.")],
    others: Annotated[list[str] | None, Argument(metavar="OTHER", help="More.")] = None,
    corner: Annotated[str, Argument(metavar="[CORNER]", help="Where.")] = "",
    colour: Annotated[Colour, Option("--colour", help="In it.")] = Colour.RED,
    paint_name: Annotated[str, Option("--paint-name", "-p", help="Its name.")] = "",
    coats: Annotated[int, Option("--coats", metavar="N", help="How many.")] = 0,
    gloss: Annotated[bool, Option("--gloss/--matt", help="Shining.")] = True,
) -> int:
    """Paint a wall.

    It dries over night.
    """
    return 0


def test_a_command_is_described_by_what_it_declares():
    told = described(paint, "paint", ["Mind the floor."])
    assert told.usage == "claimpack paint WALL [OTHER…] [CORNER] [OPTIONS]"
    assert (told.says, told.ends) == (("Paint a wall.", "It dries over night."), ("Mind the floor.",))
    assert [each.word for each in told.options] == [
        *("--colour COLOUR", "-p, --paint-name NAME", "--coats N", "--gloss / --matt", "-h, --help")
    ]
    assert [each.says for each in told.options[:4]] == ["In it. [red]", "Its name.", "How many.", "Shining."]


@pytest.mark.parametrize(("count", "title"), [(0, ""), (1, "Example:"), (2, "Examples:")])
def test_examples_have_a_title_by_their_number(count, title):
    help_ = as_help(LONG._replace(examples=("claimpack hold",) * count), 80)
    assert [line for line in help_.splitlines() if line.startswith("Example")] == ([title] if title else [])


@pytest.mark.parametrize(("letters", "lines"), [(26, 1), (27, 2)])
def test_what_a_word_means_stands_beside_it_up_to_a_width_of_26(letters, lines):
    told = Described(
        "x", "claimpack x", (), options=(DescribedWord("-" * letters, "Says."), DescribedWord("-o", "So."))
    )
    listed = as_help(told, 80).split("Options:\n")[1].split("\n\n")[0].splitlines()
    assert (len(listed), len({line.index("S") for line in listed if "S" in line})) == (lines + 1, 1)


def test_of_a_family_what_any_command_takes_is_told_with_its_commands_alone():
    family = Described("hold", "claimpack hold COMMAND", (), commands=(DescribedWord("send", "Send."),))
    assert ["Any command also takes" in as_help(told, 80) for told in (LONG, family)] == [True, False]


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


@pytest.mark.parametrize("words", range(6, 16))
def test_an_example_is_no_wider_than_the_terminal(words):
    told = LONG._replace(examples=(f"claimpack note 26-0041 {'stalls ' * words}".strip(),))
    assert max(map(len, as_help(told, 60).splitlines())) <= 60
