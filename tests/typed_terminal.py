"""A terminal of the system's own that somebody types at, or pastes into."""

from __future__ import annotations

import os
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from pathlib import Path
from typing import TextIO

import pytest
from running import NOW, Terminal

from claimpack.__main__ import run
from claimpack.commands.desk.world import World


@contextmanager
def terminal() -> Iterator[tuple[int, TextIO]]:
    """Where to type, and the stream that a program reads it from; skips the test where the system has none."""
    keyboard, screen = pytest.importorskip("pty").openpty()
    try:
        with os.fdopen(screen, encoding="utf-8") as stream:
            yield keyboard, stream
    finally:
        os.close(keyboard)


class _Answering(Terminal):
    """Messages read by somebody who types an answer as soon as the question stands there."""

    def __init__(self, keyboard: int, answers: Mapping[str, str]) -> None:
        super().__init__()
        self._keyboard, self._answers = keyboard, dict(answers)

    def write(self, text: str) -> int:
        for question in [asked for asked in self._answers if text.startswith(asked)]:
            os.write(self._keyboard, self._answers.pop(question).encode())
        return super().write(text)


def answered_at_a_terminal(command: str, folder: Path, answers: Mapping[str, str]) -> str:
    """What was told beside the answer of a command, each answer typed at once where its question was asked."""
    with terminal() as (keyboard, stream):
        messages = _Answering(keyboard, answers)
        environ = {"CLAIMPACK_WHO": "ann", "NO_COLOR": "1"}
        world = World(stdin=stream, stdout=Terminal(), stderr=messages, environ=environ, folder=folder, clock=NOW)
        run(command.split(), world)
    return messages.getvalue()
