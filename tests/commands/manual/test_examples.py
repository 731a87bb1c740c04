from __future__ import annotations

import shlex
from functools import cache

import pytest
import typer

from claimpack.commands.library import app_of
from claimpack.commands.manual.examples import EXAMPLES


@cache
def every_command():
    """Every command by its words."""
    return dict(_inside(typer.main.get_command(app_of()), ""))


def _inside(command, words):
    inner = getattr(command, "commands", None)
    if inner is None:
        yield words, command
    for name, each in (inner or {}).items():
        yield from _inside(each, f"{words} {name}".strip())


LINES = [(words, line) for words, lines in EXAMPLES.items() for line in lines]


def test_every_command_has_an_example_and_no_other_has():
    assert set(EXAMPLES) == set(every_command())


@pytest.mark.parametrize(("words", "line"), LINES, ids=[line for _, line in LINES])
def test_an_example_can_be_typed(words, line):
    typed = shlex.split(line)
    # A family may be typed without the command it means.
    given = typed[len(words.split()) :] if line.startswith(words) else typed[1:]
    assert every_command()[words].make_context(words, given).params
