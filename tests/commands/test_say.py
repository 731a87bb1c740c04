import errno
import io
import os
from pathlib import Path

import pytest
from running import Pipe, Terminal

from claimpack.commands.say import Outlet, Say, harmless
from claimpack.commands.world import World
from claimpack.errors import BadInput, CannotWrite


def a_say(out, **environ):
    return Say(World(stdout=out, stderr=out, environ=environ))


def test_escape_codes_in_user_text_are_shown_not_obeyed():
    assert harmless("a\x1b[2Jb") == "a[U+001B][2Jb"


def test_direction_overrides_are_shown_not_obeyed():
    assert harmless("a\u202eb") == "a[U+202E]b"


def test_a_terminal_gets_colour():
    assert a_say(Terminal()).styled("x", "good") == "\x1b[1;32mx\x1b[0m"


def test_a_pipe_gets_none():
    assert a_say(Pipe()).styled("x", "good") == "x"


def test_no_color_is_respected():
    assert a_say(Terminal(), NO_COLOR="1").styled("x", "good") == "x"


def test_an_error_says_what_why_and_what_to_do():
    out = Pipe()
    a_say(out).error(BadInput("what", "why", "do"))
    assert out.getvalue() == "claimpack: what\n  why\n  do\n"


def test_json_is_the_one_document():
    out = Pipe()
    a_say(out).document({"a": "ä"})
    assert out.getvalue() == '{\n  "a": "ä"\n}\n'


def test_a_stream_of_another_encoding_takes_every_answer():
    out = io.TextIOWrapper(io.BytesIO(), encoding="ascii")
    a_say(out).answer("Ελένη")
    out.flush()
    assert out.buffer.getvalue() == b"\\u0395\\u03bb\\u03ad\\u03bd\\u03b7\n"


def test_columns_named_are_set_to_the_right():
    out = Pipe()
    a_say(out).table([("parts", "1.00"), ("labour", "147.20")], right=(1,))
    assert out.getvalue() == "  parts     1.00\n  labour  147.20\n"


def test_progress_is_silent_off_a_terminal():
    out = Pipe()
    with a_say(out).progress("Photos", 5) as advance:
        advance()
    assert out.getvalue() == ""


def test_progress_shows_how_many_are_done():
    out = Terminal()
    with a_say(out).progress("Photos", 2) as advance:
        advance()
    assert "1/2" in out.getvalue()


def asked(typed, yes=False):
    stream = Terminal(typed)
    return Say(World(stdin=stream, stdout=Terminal(), stderr=Terminal())).agrees("Do it?", yes)


def test_a_step_is_agreed_to_by_typing_y():
    assert (asked("y\n"), asked("n\n"), asked("")) == (True, False, False)


def test_yes_agrees_without_asking():
    assert asked("n\n", yes=True)


def test_off_a_terminal_nobody_is_asked():
    err = Pipe()
    agreed = Say(World(stdin=Pipe("y\n"), stdout=Pipe(), stderr=err)).agrees("Do it?", yes=False)
    assert (agreed, "--yes" in err.getvalue()) == (False, True)


class Full(Pipe):
    """A stream whose disk is full."""

    def write(self, text):
        raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))


class Late(Pipe):
    """A stream whose disk turns out to be full when it is flushed."""

    def flush(self):
        raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))


class Left(Pipe):
    """A pipe that nobody reads any more."""

    def write(self, text):
        raise BrokenPipeError


def test_an_answer_that_does_not_fit_is_told():
    with pytest.raises(CannotWrite, match="standard output: No space left on device"):
        a_say(Full()).answer("x")


def test_an_answer_that_turns_out_not_to_fit_is_told():
    with pytest.raises(CannotWrite, match="No space left on device"):
        a_say(Late()).finish()


def test_a_reader_that_left_is_no_failure_of_the_disk():
    with pytest.raises(BrokenPipeError):
        a_say(Left()).answer("x")


def test_a_message_that_does_not_fit_changes_nothing():
    out = Pipe()
    Say(World(stdout=out, stderr=Full())).note("x")
    assert out.getvalue() == ""


def test_a_message_names_paths_from_where_one_stands():
    err = Pipe()
    Say(World(stdout=Pipe(), stderr=err, folder=Path("/home/q/shop"))).note("/home/q/shop/a.jpg is on the claim")
    assert err.getvalue() == "a.jpg is on the claim\n"


def test_what_the_command_library_prints_goes_to_the_answer():
    out = Pipe()
    print("help", file=Outlet(a_say(out)))
    assert out.getvalue() == "help\n"
