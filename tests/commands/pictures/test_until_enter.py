from __future__ import annotations

import os
import threading

from running import NOW, Terminal
from typed_terminal import terminal

from claimpack.commands.desk.world import World
from claimpack.commands.pictures.until_enter import until_enter


def at(stream):
    return World(stdin=stream, stdout=Terminal(), stderr=Terminal(), environ={}, clock=NOW)


def test_it_ends_once_a_line_is_typed():
    ended = threading.Event()
    with terminal() as (keyboard, stream), until_enter(at(stream), ended.set):
        os.write(keyboard, b"\n")
        assert ended.wait(30)


def test_what_is_typed_after_it_is_over_answers_the_next_question():
    ended = threading.Event()
    with terminal() as (keyboard, stream):
        # whoever still waited for a line would wait for ever
        rescue = threading.Timer(5, os.write, (keyboard, b"nothing\n"))
        rescue.start()
        with until_enter(at(stream), ended.set):
            pass
        rescue.cancel()
        os.write(keyboard, b"26-0002\n")
        assert (stream.readline(), ended.is_set()) == ("26-0002\n", False)


class Unasked(Terminal):
    """A terminal that cannot be asked whether anything was typed, and at which nobody types until the end."""

    def __init__(self):
        super().__init__()
        self.over = threading.Event()

    def readline(self, _size=-1):
        self.over.wait(10)
        return ""


def test_whoever_still_waits_for_a_line_does_not_keep_the_program_from_ending():
    before, keyboard = set(threading.enumerate()), Unasked()
    with until_enter(at(keyboard), lambda: None):
        (waiting,) = set(threading.enumerate()) - before
    still_waits = waiting.is_alive()
    keyboard.over.set()
    waiting.join()
    assert (still_waits, waiting.daemon) == (True, True)
