from __future__ import annotations

import sys

import pytest
from running import Terminal, claimpack

from claimpack.__main__ import run
from claimpack.commands.app import invoke
from claimpack.commands.catalogue import COMMANDS
from claimpack.commands.desk.world import World
from claimpack.commands.found import members_of
from claimpack.commands.library import app_of


@pytest.mark.parametrize(
    ("arguments", "says"),
    [
        (("nonsense",), "No such command 'nonsense'"),
        (("check",), "Missing argument 'CLAIM'"),
        (("check", "claim", "--nonsense"), "No such option"),
        (("tag", "claim", "--dpi", "99"), "Invalid value for '--dpi': the least it takes is 100"),
        (("hold", "nonsense"), "No such command 'nonsense'"),
    ],
    ids=["command", "argument", "option", "number out of range", "command of a family"],
)
def test_a_command_line_that_cannot_be_read_is_two_and_told_beside_the_answer(arguments, says):
    ran = claimpack(*arguments)
    assert (ran.code, ran.out, says in ran.err) == (2, "", True)


@pytest.mark.parametrize("amount", ["-20", "-20.00", "-.50"])
def test_an_amount_with_a_minus_is_shown_the_way_for_money_taken_back(amount):
    ran = claimpack("pay", "26-0001", amount)
    assert (ran.code, "claimpack pay CLAIM AMOUNT --charged-back" in ran.err) == (2, True)


@pytest.mark.parametrize("option", ["-h", "--help"])
def test_the_help_of_a_command_is_an_answer(option):
    ran = claimpack("check", option)
    assert (ran.code, ran.out.startswith("Usage: claimpack check"), ran.err) == (0, True, "")


@pytest.mark.parametrize("family", ["photo", "part", "hold", "shop", "plan"])
def test_a_family_without_a_command_shows_its_commands_and_is_two(family):
    ran = claimpack(family)
    told = set((ran.out + ran.err).split())
    assert (ran.code, set(members_of(family)) <= told, f"Usage: claimpack {family}" in ran.out + ran.err) == (
        *(2, True),
        True,
    )


@pytest.mark.parametrize(
    ("line", "code"),
    [
        ("cover --maker halden --model CS-70 --component coil --purchased 2/25/2026 --today 2026-03-01", 0),
        ("check nowhere", 2),
        ("check --help", 0),
        ("hold --help", 0),
        ("hold send -h", 0),
        ("plan keys", 0),
        ("plan list --json", 0),
        ("audit", 2),
        ("audit look --help", 0),
        ("guide", 0),
        ("help hold", 0),
    ],
)
def test_a_line_typed_as_its_command_declares_is_answered_without_the_command_library(
    monkeypatch, tmp_path, line, code
):
    monkeypatch.setitem(sys.modules, "claimpack.commands.library", None)
    ran = claimpack(*line.split(), folder=tmp_path)
    assert (ran.code, "fault" in ran.err) == (code, False)


def test_help_asked_for_behind_a_family_is_the_familys():
    assert claimpack("audit", "--help").out.startswith("Usage: claimpack audit COMMAND")


def test_a_terminal_that_is_gone_is_an_interruption(tmp_path):
    class Gone(Terminal):
        def readline(self, *_size):
            raise EOFError

    world = World(stdin=Gone(), stdout=Terminal(), stderr=Terminal(), environ={}, folder=tmp_path)
    with pytest.raises(KeyboardInterrupt):
        invoke(["start", "26-0001"], world)


def test_a_question_left_with_ctrl_c_is_an_interruption_that_is_told(tmp_path):
    class Left(Terminal):
        def readline(self, *_size):
            raise KeyboardInterrupt

    claimpack("shop", "init", ".", folder=tmp_path)
    err = Terminal()
    world = World(stdin=Left(), stdout=Terminal(), stderr=err, environ={}, folder=tmp_path)
    assert run(["open", "--maker", "halden"], world) == 130
    assert err.getvalue().splitlines()[-1].startswith("Stopped")


def test_an_app_of_one_command_knows_no_other():
    check = [listed for listed in COMMANDS if listed.name == "check"]
    assert [command.name for command in app_of(check).registered_commands] == ["check"]


def test_a_family_is_added_under_its_name():
    hold = [listed for listed in COMMANDS if listed.name == "hold"]
    assert [group.name for group in app_of(hold).registered_groups] == ["hold"]


def test_the_version_is_told_before_anything_else_is_read(tmp_path):
    ran = claimpack("--version", "check", "nowhere", folder=tmp_path)
    assert (ran.code, ran.out.startswith("claimpack ")) == (0, True)


def test_what_is_mistyped_after_a_family_alone_is_told_by_the_command_it_then_means():
    assert claimpack("audit", "--nonsense").err.startswith("Usage: claimpack audit look ")


@pytest.mark.parametrize("days", ["5weeks", "-3", "99999"])
def test_a_number_that_is_none_is_told_without_the_words_of_programmers(days):
    ran = claimpack("due", "--within", days)
    assert (ran.code, "Input should" in ran.err, "it takes" in ran.err) == (2, False, True)
