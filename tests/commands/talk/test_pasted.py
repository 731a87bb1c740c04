from __future__ import annotations

import os

import pytest
from running import Pipe, Terminal
from typed_terminal import terminal

from claimpack.commands.talk.pasted import came_along


@pytest.mark.parametrize(
    ("pasted", "more"),
    [
        ("one\n", ""),
        ("one\ntwo\n\nthree\n", "two\n\nthree\n"),
        ("one\ntwo", "two"),
        ("one\r\ntwo\r\n", "\ntwo\n\n"),
        ("one\nzwölf\n", "zwölf\n"),
    ],
    ids=["a line alone", "more lines", "a last line without an end", "line ends of Windows", "beyond English"],
)
def test_what_came_at_once_with_the_line_read_is_told(pasted, more):
    with terminal() as (keyboard, stream):
        os.write(keyboard, pasted.encode())
        stream.readline()
        assert came_along(stream) == (more, False)


@pytest.mark.parametrize(
    ("pasted", "more", "is_end"),
    [
        ("one\n\4", "", True),
        ("one\ntwo\n\4", "two\n", True),
        ("one\ntwo\4", "two", False),
        ("one\ntwo\4\4", "two", True),
        ("one\ntwo\n\4three\n", "two\n", True),
    ],
    ids=["after a line", "after more lines", "on a line begun", "twice on a line begun", "before more lines"],
)
def test_the_key_that_ends_the_input_is_no_text(pasted, more, is_end):
    with terminal() as (keyboard, stream):
        os.write(keyboard, pasted.encode())
        stream.readline()
        assert came_along(stream) == (more, is_end)


def test_the_terminal_is_left_as_it_was():
    termios = pytest.importorskip("termios")
    with terminal() as (keyboard, stream):
        before = termios.tcgetattr(stream.fileno())
        os.write(keyboard, b"one\ntwo\n")
        stream.readline()
        came_along(stream)
        assert termios.tcgetattr(stream.fileno()) == before


def test_what_is_typed_later_is_read_as_ever():
    with terminal() as (keyboard, stream):
        os.write(keyboard, b"one\ntwo")
        stream.readline()
        came_along(stream)
        os.write(keyboard, b"three\n")
        assert stream.readline() == "three\n"


@pytest.mark.parametrize("stream", [Pipe("one\ntwo\n"), Terminal("one\ntwo\n")], ids=["a file", "no real terminal"])
def test_off_a_terminal_nothing_is_taken(stream):
    stream.readline()
    assert (came_along(stream).text, stream.readline()) == ("", "two\n")
