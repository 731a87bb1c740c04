from __future__ import annotations

import shlex
from enum import StrEnum
from functools import cache
from pathlib import Path
from typing import Annotated

import pytest
import typer

from claimpack.commands.catalogue import COMMANDS
from claimpack.commands.found import found_at
from claimpack.commands.library import app_of
from claimpack.commands.line.declared import Argument, Context, Family, Option
from claimpack.commands.line.library_commands import for_library
from claimpack.commands.line.parameters import parameters_of
from claimpack.commands.line.reading import typed, with_words
from claimpack.commands.manual.examples import EXAMPLES


class Colour(StrEnum):
    RED = "red"
    BLUE = "blue"


def paint(
    context: Context,
    wall: Annotated[str, Argument(metavar="WALL")],
    others: Annotated[list[Path] | None, Argument(metavar="OTHER")] = None,
    colour: Annotated[Colour, Option()] = Colour.RED,
    coats: Annotated[int, Option("--coats", min=1, max=9)] = 1,
    note: Annotated[list[str] | None, Option("--note")] = None,
    gloss: Annotated[bool | None, Option("--gloss/--matt")] = None,
    yes: Annotated[bool, Option("--yes")] = False,
    dry: Annotated[bool, Option()] = True,
) -> int:
    """Paint a wall."""
    return 0


WHEN_LEFT_OUT = {"others": None, "colour": Colour.RED, "coats": 1, "note": None, "gloss": None, "yes": False}
WHEN_LEFT_OUT["dry"] = True


def read(function, line):
    parameters = parameters_of(function)
    told = typed(parameters, line)
    return None if told is None else with_words(parameters, told)


@pytest.mark.parametrize(
    ("line", "said"),
    [
        ("north", {}),
        ("north a.png b.png", {"others": [Path("a.png"), Path("b.png")]}),
        ("--colour blue north", {"colour": Colour.BLUE}),
        ("north --coats=3", {"coats": 3}),
        ("north --note one --note=two", {"note": ["one", "two"]}),
        ("north --gloss", {"gloss": True}),
        ("north --gloss --matt", {"gloss": False}),
        ("--yes -- north", {"yes": True}),
        ("north --note --yes", {"note": ["--yes"]}),
        ("north --coats 1", {"coats": 1}),
        ("north --coats 9", {"coats": 9}),
        ("north -", {"others": [Path("-")]}),
        ("-- north -5", {"others": [Path("-5")]}),
    ],
)
def test_a_line_is_read_as_it_is_declared(line, said):
    assert read(paint, line.split()) == {**WHEN_LEFT_OUT, "wall": "north", **said}


@pytest.mark.parametrize(
    "line",
    [
        "",
        "north --size 3",
        "north --coats 0",
        "north --coats 10",
        "north --coats two",
        "north --colour green",
        "north --yes=yes",
        "north --note",
        "north -5",
    ],
)
def test_a_line_that_is_not_as_declared_is_left_to_the_library_which_refuses_it(line):
    assert read(paint, line.split()) is None
    # what every usage error of the library is, whichever click it brings along
    with pytest.raises(typer.BadParameter.__mro__[1]):
        by_library(paint).make_context("paint", line.split())


def by_library(function):
    """A command as the library has it."""
    app = typer.Typer()
    app.command()(for_library(function))
    return typer.main.get_command(app)


def test_the_library_takes_and_calls_arguments_as_they_are_declared():
    called = {each.name: each.metavar for each in by_library(paint).params}
    given = by_library(paint).make_context("paint", ["north"]).params
    assert (called["wall"], called["others"], given["wall"]) == ("WALL", "OTHER", "north")


def carry(
    wall: Annotated[str, Argument()],
    things: Annotated[list[str], Argument()],
    to: Annotated[str, Argument()],
    most: Annotated[int, Option("--most")] = 5,
) -> int:
    """Carry things from a wall to another."""
    return 0


def gather(things: Annotated[list[str], Argument()]) -> int:
    """Gather things."""
    return 0


@pytest.mark.parametrize(
    ("line", "said"),
    [
        ("n a s", ("n", ["a"], "s")),
        ("n a b s", ("n", ["a", "b"], "s")),
        ("n a b c s", ("n", ["a", "b", "c"], "s")),
        ("n s", None),
        ("n", None),
    ],
)
def test_an_argument_that_takes_many_takes_what_the_others_leave(line, said):
    found = read(carry, line.split())
    assert (found and (found["wall"], found["things"], found["to"])) == said


@pytest.mark.parametrize(("line", "said"), [("", None), ("a", ["a"]), ("a b", ["a", "b"])])
def test_an_argument_that_takes_many_and_is_needed_takes_one_at_least(line, said):
    found = read(gather, line.split())
    assert (found and found["things"]) == said


@pytest.mark.parametrize(("number", "said"), [("999999999", 999999999), ("1000000000", None), ("+5", None)])
def test_a_number_of_ten_figures_is_left_to_the_library(number, said):
    found = read(carry, ["n", "a", "s", "--most", number])
    assert (found and found["most"]) == said


def test_a_command_of_a_family_goes_by_its_functions_name_where_no_other_is_given():
    walls = Family(help="Walls.")
    walls.command()(paint)
    walls.command("fetch", takes_any_dash=True)(carry)
    assert {name: member.takes_any_dash for name, member in walls.members.items()} == {"paint": False, "fetch": True}


@pytest.mark.parametrize(
    ("function", "line"), [(paint, ["\udcff"]), (carry, ["\udcff", "a", "s"]), (carry, ["n", "\udcff", "s"])]
)
def test_words_that_hold_no_text_are_left_to_the_library(function, line):
    assert read(function, line) is None


def test_an_argument_and_an_option_go_by_the_names_they_are_given_else_by_their_parameters():
    assert {each.name: (each.written, each.off) for each in parameters_of(paint)} == {
        "wall": ("WALL", ()),
        "others": ("OTHER", ()),
        "colour": ("--colour", ()),
        "coats": ("--coats", ()),
        "note": ("--note", ()),
        "gloss": ("--gloss", ("--matt",)),
        "yes": ("--yes", ()),
        "dry": ("--dry", ("--no-dry",)),
    }


@pytest.mark.parametrize("line", ["--help", "north -h", "north --coats 3 --help", "-h --note x"])
def test_help_is_asked_for_anywhere_on_the_line(line):
    assert typed(parameters_of(paint), line.split()).asks_for_help


@cache
def every_command():
    """The function of every command, and the command as the library has it, by its words."""
    whole = typer.main.get_command(app_of())
    found = {}
    for listed in COMMANDS:
        one, there = found_at(listed), whole.commands[listed.name]
        if isinstance(one, Family):
            for name, member in one.members.items():
                found[f"{listed.name} {name}"] = member.function, there.commands[name]
        else:
            found[listed.name] = one, there
    return found


def test_no_flag_that_cannot_be_taken_back_is_on_where_it_is_not_typed():
    flags = [
        (words, each.name)
        for words, (function, _) in every_command().items()
        for each in parameters_of(function)
        if each.kind is bool and not each.off and each.default is not False
    ]
    assert flags == []


LINES = [(words, line) for words, lines in EXAMPLES.items() for line in lines if line.startswith(words)]


@pytest.mark.parametrize(("words", "line"), LINES, ids=[line for _, line in LINES])
def test_what_is_read_is_what_the_library_reads(words, line):
    function, command = every_command()[words]
    given = shlex.split(line)[len(words.split()) :]
    by_library = command.make_context(words, list(given)).params
    assert read(function, given) == {name: None if value == () else value for name, value in by_library.items()}
