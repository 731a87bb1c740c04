import json
import os

import pytest
from running import Pipe, Terminal
from typed_terminal import terminal

from claimpack.commands.desk.say import Say
from claimpack.commands.desk.world import World
from claimpack.commands.talk.yes_or_no import agrees, says_yes


def asked(typed, yes=False):
    stream = Terminal(typed)
    return agrees(Say(World(stdin=stream, stdout=Terminal(), stderr=Terminal())), "Do it?", yes)


def test_a_step_is_agreed_to_by_typing_y():
    assert (asked("y\n"), asked("n\n"), asked("")) == (True, False, False)


@pytest.mark.parametrize(
    ("pressed", "otherwise", "yes"),
    [("y", False, True), ("N", True, False), ("\n", True, True), ("\n", False, False), ("yes\n", False, True)],
)
def test_one_key_says_yes_or_no_at_a_terminal(pressed, otherwise, yes):
    with terminal() as (keyboard, stream):
        os.write(keyboard, pressed.encode())
        say = Say(World(stdin=stream, stdout=Terminal(), stderr=Terminal()))
        assert says_yes(say, "Do it?", otherwise=otherwise) is yes


@pytest.mark.parametrize(
    ("typed", "agreed"), [("maybe\ny\n", True), ("maybe\nno\n", False), ("maybe\nso\nsure\ny\n", False)]
)
def test_what_is_neither_yes_nor_no_is_asked_again_three_times_in_all(typed, agreed):
    assert asked(typed) is agreed


@pytest.mark.parametrize(("typed", "said"), [("n\n", "Nothing was done.\n"), ("", "\nNothing was done.\n")])
def test_a_step_not_agreed_to_is_said_not_to_be_done(typed, said):
    err = Terminal()
    agrees(Say(World(stdin=Terminal(typed), stdout=Terminal(), stderr=err)), "Do it?", yes=False)
    assert err.getvalue() == f"Do it? [y/N] {said}"


def test_yes_agrees_without_asking():
    assert asked("n\n", yes=True)


def test_off_a_terminal_nobody_is_asked():
    err = Pipe()
    agreed = agrees(Say(World(stdin=Pipe("y\n"), stdout=Pipe(), stderr=err)), "Do it?", yes=False)
    assert (agreed, "--yes" in err.getvalue()) == (False, True)


def test_a_script_is_told_in_its_document_that_nobody_agreed():
    out = Pipe()
    agreed = agrees(Say(World(stdin=Pipe(), stdout=out, stderr=Pipe())), "Scrap it?", yes=False, json=True)
    assert (agreed, json.loads(out.getvalue())["exit_code"]) == (False, 4)
