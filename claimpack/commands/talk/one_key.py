"""An answer typed key by key on a terminal, so that a single key may choose; any other answer is a line as ever."""

from __future__ import annotations

import codecs
import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from typing import Any, TextIO

from claimpack.commands.talk.pasted import by_characters

Key = Callable[[], str]
"""Gives the next key that is pressed, one character; nothing where there is no more."""

_ENTER, _BACK, _ALL, _STOP, _ESCAPE = "\r\n", "\b\x7f", "\x15", "\x03", "\x1b"
# Ctrl-D, as a terminal hands it out before and after it is asked for keys, and Ctrl-Z of a Windows console.
_END = "\x04\0\x1a"


def key_or_line(at_once: str) -> Callable[[TextIO, Callable[[str], object]], str | None]:
    """What listens for one key of `at_once` at a terminal, and for a line elsewhere."""

    def listen(stream: TextIO, echo: Callable[[str], object]) -> str | None:
        with keys(stream) as key:
            if key:
                return typed_by_key(key, echo, at_once)
        line = stream.readline()
        return line.rstrip("\n") if line else None

    return listen


def typed_by_key(key: Key, echo: Callable[[str], object], at_once: str) -> str | None:
    """What was typed: one key of `at_once` pressed first, or a line; None at the end of the input.

    Raises:
        KeyboardInterrupt: it was stopped.
    """
    line = ""
    while pressed := key():
        if pressed == _STOP:
            raise KeyboardInterrupt
        if pressed in _END and not line:
            break
        if pressed in _ENTER or (not line and pressed in at_once):
            echo(f"{pressed.strip()}\n")
            return line + pressed.strip()
        if pressed == _ESCAPE:
            _skip_sequence(key)
        elif pressed in _BACK or pressed == _ALL:
            gone = line[-1:] if pressed in _BACK else line
            line = line[: len(line) - len(gone)]
            echo("\b \b" * len(gone))
        elif pressed.isprintable():
            line += pressed
            echo(pressed)
    echo("\n")
    return None


def _skip_sequence(key: Key) -> None:
    """Pass over what an arrow or another key without a letter sends behind its first character."""
    if key() in ("[", "O"):
        while (part := key()) and not "@" <= part <= "~":
            pass


@contextmanager
def keys(stream: TextIO) -> Iterator[Key | None]:
    """The keys pressed at a terminal while it is asked for them; None where the stream is none."""
    try:
        terminal = stream.fileno() if stream.isatty() else None
    except (OSError, ValueError):
        terminal = None
    if terminal is None:
        yield None
    elif sys.platform == "win32":
        yield _key_of_a_console()
    else:
        with _unbuffered(terminal) as is_asked:
            yield _key_of(terminal, stream.encoding or "utf-8") if is_asked else None


def _key_of_a_console() -> Key:
    import msvcrt

    console: Any = msvcrt

    def key() -> str:
        # an arrow or a function key is told in two characters
        while (pressed := console.getwch()) in ("\0", "\xe0"):
            console.getwch()
        return str(pressed)

    return key


def _key_of(terminal: int, encoding: str) -> Key:
    import os

    letters = codecs.getincrementaldecoder(encoding)("replace")

    def key() -> str:
        while piece := os.read(terminal, 1):
            if letter := letters.decode(piece):
                return letter
        return ""

    return key


@contextmanager
def _unbuffered(terminal: int) -> Iterator[bool]:
    """A terminal that hands out every key at once and shows none; False where it cannot be told to."""
    import termios

    try:
        before = termios.tcgetattr(terminal)
    except termios.error:
        yield False
        return
    # What was typed ahead is kept for the question it was meant for.
    termios.tcsetattr(terminal, termios.TCSANOW, by_characters(before, termios.ICANON | termios.ECHO))
    try:
        yield True
    finally:
        termios.tcsetattr(terminal, termios.TCSANOW, before)
