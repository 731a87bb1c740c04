import errno
import io
import json
import os
from enum import StrEnum

import pytest
from running import Pipe

from claimpack.commands.desk.outlet import Outlet, indented
from claimpack.commands.desk.say import Say
from claimpack.commands.desk.world import World
from claimpack.errors import CannotWrite


def a_say(out, **environ):
    return Say(World(stdout=out, stderr=out, environ=environ))


def test_a_stream_of_another_encoding_takes_every_answer():
    out = io.TextIOWrapper(io.BytesIO(), encoding="ascii")
    a_say(out).answer("Ελένη")
    out.flush()
    assert out.buffer.getvalue() == b"\\u0395\\u03bb\\u03ad\\u03bd\\u03b7\n"


@pytest.mark.parametrize(
    "document",
    [
        {}, [], {"a": []}, {"a": {}, "b": [[], {}, ()]}, [1, 2.5, True, None, 'é\n"\\'], "text", None, 7,
        {"today": "2026-03-01", "claims": [{"claim": "26-0001", "dates": {"due": None}, "three": (1, [2])}, {}]},
        {1: {"a": []}, None: [[]], False: {2: 3}},
        {"half": "\ud800", "one": [{"a": 1}, 2], "state": StrEnum("State", "OPEN").OPEN},
    ],
)  # fmt: skip
def test_a_document_is_indented_as_the_standard_library_does_it(document):
    assert indented(document) == json.dumps(document, indent=2, ensure_ascii=False)


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


def test_what_the_command_library_prints_goes_to_the_answer():
    out = Pipe()
    print("help", file=Outlet(out))
    assert out.getvalue() == "help\n"
