"""Work for the process of readers: some of it does what a good reader does, some what a file can make a reader do.

A module of its own, found beside the tests, so that the other process finds it under the same name.
"""

from __future__ import annotations

import datetime as dt
import os
import stat
import time
from dataclasses import dataclass
from pathlib import Path

from claimpack.errors import NotFound


def doubled(number) -> int:
    return 2 * number


def refuse(what) -> None:
    raise NotFound(what, "why", "do")


def fill(size) -> int:
    return len(bytes(size))


def wait_for_ever() -> None:
    while True:
        time.sleep(60)


def break_down() -> None:
    os._exit(7)


def talk() -> int:
    print("in the way", flush=True)
    return os.getpid()


@dataclass(frozen=True)
class Read:
    """A record such as readers answer."""

    content: bytes
    taken: dt.datetime | None
    sizes: tuple[tuple[float, int], ...] = ()


def read(content) -> Read:
    return Read(content, dt.datetime(2026, 3, 14, 9, 5, tzinfo=dt.timezone(dt.timedelta(hours=2))), ((1.5, 2),))


def hand_back(content) -> Read:
    """What a reader does that a file has taken over: whoever asked is told what it likes."""
    for place in filter(is_pipe, range(3, 20)):
        os.write(place, len(content).to_bytes(8, "big") + content)
    time.sleep(60)


def tell_of_too_much() -> Read:
    for place in filter(is_pipe, range(3, 20)):
        os.write(place, (1 << 62).to_bytes(8, "big"))
    time.sleep(60)


def is_pipe(place):
    try:
        return stat.S_ISFIFO(os.fstat(place).st_mode)
    except OSError:
        return False


class Harmful:
    """Unpickled, it leaves a file behind."""

    def __init__(self, mark):
        self.mark = mark

    def __reduce__(self):
        return Path.touch, (self.mark,)
