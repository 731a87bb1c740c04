"""Something that goes on until Enter is pressed: waited for beside it, and no longer than it goes on."""

from __future__ import annotations

import io
import select
import threading
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from claimpack.commands.desk.world import World

_SECONDS = 0.2


@contextmanager
def until_enter(world: World, end: Callable[[], None]) -> Iterator[None]:
    """What is inside is ended once a line is typed; off a terminal nobody types one."""
    over = threading.Event()
    waiting = threading.Thread(target=_wait, args=(world, end, over), daemon=True)
    if world.stdin.isatty():
        waiting.start()
    try:
        yield
    finally:
        over.set()
        # A thread that still reads what is typed would take the answer to the next question.
        if waiting.is_alive() and _descriptor(world) is not None:
            waiting.join()


def _wait(world: World, end: Callable[[], None], over: threading.Event) -> None:
    descriptor = _descriptor(world)
    try:
        while descriptor is not None and not select.select([descriptor], [], [], _SECONDS)[0]:
            if over.is_set():
                return
    except (OSError, ValueError):
        # A console that cannot be asked whether anything was typed; Ctrl-C ends it there.
        return
    world.stdin.readline()
    end()


def _descriptor(world: World) -> int | None:
    try:
        return world.stdin.fileno()
    except (io.UnsupportedOperation, ValueError):
        return None
