from __future__ import annotations

import io
import os
import sys
from types import SimpleNamespace

import pytest
from typed_terminal import terminal

from claimpack.commands.talk.one_key import key_or_line, keys, typed_by_key


def typed(pressed, at_once="12"):
    """What is taken of keys pressed one after the other, what is left of them, and what the screen shows."""
    left, shown = list(pressed), []
    said = typed_by_key(lambda: left.pop(0) if left else "", shown.append, at_once)
    return said, "".join(left), "".join(shown)


@pytest.mark.parametrize(
    ("pressed", "said", "left"),
    [
        ("2rest", "2", "rest"),
        ("3\n", "3", ""),
        ("household\n", "household", ""),
        ("a1\n", "a1", ""),
        ("\n", "", ""),
        ("ab\x7fc\r", "ac", ""),
        ("abc\x15d\n", "d", ""),
        ("a\x7f\x7f2", "2", ""),
        ("\x1b[A\x1b[3~\x1bOBa\n", "a", ""),
        # ECMA-48, 5.4: what ends such a sequence is one of 4/0 "@" to 7/14 "~"
        ("\x1b[2@a\n", "a", ""),
        ("zwölf\n", "zwölf", ""),
        ("\x04", None, ""),
        ("\0", None, ""),
        ("a\x04\n", "a", ""),
        ("", None, ""),
    ],
    ids=[
        "a key that chooses",
        "a figure of none",
        "a word",
        "a figure inside a word",
        "Enter alone",
        "one letter taken back",
        "all taken back",
        "nothing to take back",
        "arrows",
        "a sequence that ends by the first sign that may",
        "beyond English",
        "the end",
        "the end typed ahead",
        "an end inside a word",
        "no more keys",
    ],
)
def test_one_key_chooses_and_anything_else_is_a_line(pressed, said, left):
    assert typed(pressed)[:2] == (said, left)


def test_what_is_typed_is_shown_and_what_is_taken_back_is_not():
    assert typed("ab\x7f\n")[2] == "ab\b \b\n"


def test_a_run_is_stopped_by_its_key():
    with pytest.raises(KeyboardInterrupt):
        typed("a\x03")


def test_a_terminal_hands_out_each_key_as_it_is_pressed():
    with terminal() as (keyboard, stream), keys(stream) as key:
        os.write(keyboard, "2ö".encode())
        assert (key(), key()) == ("2", "ö")


def test_the_terminal_is_left_as_it_was():
    termios = pytest.importorskip("termios")
    with terminal() as (_, stream):
        before = termios.tcgetattr(stream.fileno())
        with pytest.raises(KeyboardInterrupt), keys(stream):
            raise KeyboardInterrupt
        assert termios.tcgetattr(stream.fileno()) == before


def test_what_is_no_terminal_has_no_keys():
    with keys(io.StringIO("2\n")) as key:
        assert key is None


def test_a_console_of_windows_passes_over_keys_without_a_letter(monkeypatch):
    pressed = iter(["\xe0", "H", "\0", ";", "2"])
    monkeypatch.setitem(sys.modules, "msvcrt", SimpleNamespace(getwch=lambda: next(pressed)))
    with terminal() as (_, stream):
        monkeypatch.setattr(sys, "platform", "win32")
        with keys(stream) as key:
            assert key() == "2"


def test_a_file_has_no_keys_nor_has_what_only_says_that_it_is_a_terminal(tmp_path):
    class Said(io.TextIOWrapper):
        def isatty(self):
            return True

    path = tmp_path / "typed"
    path.write_bytes(b"2\n")
    for stream in (path.open(encoding="utf-8"), Said(path.open("rb"))):
        with stream, keys(stream) as key:
            assert key is None


@pytest.mark.parametrize(("typed", "said"), [("2\nrest\n", "2"), ("\n", ""), ("", None)])
def test_off_a_terminal_a_line_is_read(typed, said):
    assert key_or_line("12")(io.StringIO(typed), print) == said
