"""Standard output as answers leave by it: in its encoding, its failures told, a reader that left none."""

from __future__ import annotations

import io
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from functools import cache
from types import NoneType
from typing import Any, TextIO

from claimpack.errors import CannotWrite


def as_carried(stream: TextIO, text: str) -> str:
    """Text as a stream can carry it."""
    if text.isascii():
        return text
    encoding = stream.encoding or "utf-8"
    return text.encode(encoding, "backslashreplace").decode(encoding)


def indented(value: Any, margin: str = "\n") -> str:
    """A JSON document as text, two blanks a level: what the standard library writes with its slow writer alone."""
    is_named = isinstance(value, dict)
    if not is_named and not isinstance(value, (list, tuple)):
        return _writer("")(value)
    inner = f"{margin}  "
    if _PLAIN.issuperset(map(type, value.values() if is_named else value)):
        told = _writer(inner)(value)
        return f"{told[0]}{inner}{told[1:-1]}{margin}{told[-1]}" if value else told
    if is_named:
        # a name that is no text is written as one, which the writer does in a document alone
        lines = [f"{_writer('')({name: 0})[1:-4]}: {indented(each, inner)}" for name, each in value.items()]
        return f"{{{inner}{f',{inner}'.join(lines)}{margin}}}"
    return f"[{inner}{f',{inner}'.join([indented(each, inner) for each in value])}{margin}]"


_PLAIN = frozenset({str, int, float, bool, NoneType})


@cache
def _writer(between: str) -> Callable[[Any], str]:
    import json

    return json.JSONEncoder(ensure_ascii=False, separators=(f",{between}", ": ")).encode


@contextmanager
def answering() -> Iterator[None]:
    """What goes to stdout; a reader that stopped reading is no failure.

    Raises:
        CannotWrite: the disk or the device behind stdout takes no more.
    """
    try:
        yield
    except BrokenPipeError:
        raise
    except OSError as error:
        raise CannotWrite(
            f"the answer cannot be written to standard output: {error.strerror or error}",
            "What the command was to change may be changed all the same; only the answer is lost.",
            "Make room, or send the answer elsewhere; look whether a change was made before you repeat it.",
        ) from error


class Outlet(io.TextIOBase):
    """Standard output for what the command library prints by itself, such as the help of a command."""

    def __init__(self, stream: TextIO) -> None:
        self._stream = stream

    def write(self, text: str) -> int:
        """Print text as it is."""
        with answering():
            return self._stream.write(as_carried(self._stream, text))

    def flush(self) -> None:
        """See to it that it has left."""
        with answering():
            self._stream.flush()

    def isatty(self) -> bool:
        """Whether it goes to a terminal."""
        return self._stream.isatty()
