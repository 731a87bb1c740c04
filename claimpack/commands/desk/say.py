"""What a command says: answers on stdout, notes and progress on stderr. The only module that writes to a stream."""

from __future__ import annotations

import os
import re
import sys
from collections.abc import Callable, Iterator, Mapping, Sequence
from contextlib import contextmanager, suppress
from pathlib import Path
from typing import Any, TextIO

from claimpack.commands.desk.outlet import answering, as_carried, indented
from claimpack.commands.desk.world import World
from claimpack.commands.desk.wrapping import in_columns, with_whole_commands, wrapped
from claimpack.core.values.harmless import harmless
from claimpack.core.values.passwords import without_password
from claimpack.errors import CannotWrite, ClaimpackError

ANSWER_FORMAT = 1
"""The format of JSON answers; it grows where a key goes or means something else, not where one comes."""

_STYLES = {"strong": "1", "good": "1;32", "bad": "1;31", "wait": "1;33", "quiet": "2"}
_STYLED = re.compile(rf"(\x1b\[(?:0|{'|'.join(_STYLES.values())})m)")
_SOME_BYTES = 1 << 20
_MARKS = {"pass": "✓", "fail": "✗", "unknown": "?", "todo": "•"}
_PLAIN_MARKS = {"pass": "+", "fail": "x", "unknown": "?", "todo": "*"}
_MARK_STYLES = {"pass": "good", "fail": "bad", "unknown": "wait", "todo": "wait"}


_CELLS = {(False, False): " ", (True, False): "\u2580", (False, True): "\u2584", (True, True): "\u2588"}
# Without colours a terminal is taken to be light on dark.
_TURNED = str.maketrans(" \u2580\u2584\u2588", "\u2588\u2584\u2580 ")


def _kind(error: ClaimpackError) -> str:
    """What kind of error it is, in words, as in `not found`."""
    return re.sub(r"(?<=[a-z])(?=[A-Z])", " ", type(error).__name__).lower()


class Say:
    """The voice of one command."""

    def __init__(self, world: World) -> None:
        self.world = world
        self._marks: dict[str, str] = {}

    def answer(self, text: str = "") -> None:
        """A line of the answer, on stdout; nothing in it but our own styles steers a terminal."""
        if not text.isprintable():
            pieces = _STYLED.split(text)
            text = "".join(piece if place % 2 else harmless(piece) for place, piece in enumerate(pieces))
        self._write(self.world.stdout, text)

    def whole(self, lead: str, word: str) -> None:
        """A line of the answer that ends in a word to compare or copy; it has a line of its own before it breaks."""
        width = self.world.columns()
        if width is not None and len(lead) + 1 + len(word) > width:
            self.answer(lead)
            self.answer(word)
        else:
            self.answer(f"{lead} {word}")

    def path(self, path: Path) -> None:
        """The path of a file or folder that was written, a line of the answer; scripts get it as it is."""
        shown = self.world.from_here(path)
        if self.world.columns() is None:
            self._bytes(os.fsencode(f"{shown}\n"))
        else:
            self._write(self.world.stdout, harmless(shown))

    def document(self, keys: Mapping[str, Any]) -> None:
        """The answer as the one JSON document on stdout, in UTF-8 whatever the terminal's language is.

        It says first by which format it is told; `claimpack schema answer` tells what that holds.

        Source: RFC 8259 section 8.1.
        """
        told = indented({"format": ANSWER_FORMAT, **keys})
        # What is no text at all stands in the same escapes in JSON.
        self._bytes(f"{told}\n".encode("utf-8", "backslashreplace"))

    def content(self, content: bytes) -> None:
        """A file as the answer, on stdout: byte for byte, but on a terminal without anything that steers it."""
        stream = self.world.stdout
        # A file may hold what moves the cursor or renames the window; piped on, it stays byte for byte.
        if stream.isatty():
            with answering():
                stream.write(as_carried(stream, harmless(content.decode().replace("\r\n", "\n"))))
        else:
            self._bytes(content)

    def content_of(self, path: Path) -> None:
        """The content of a file as the answer, on stdout, byte for byte."""
        with path.open("rb") as opened:
            while some := opened.read(_SOME_BYTES):
                self._bytes(some)

    def _bytes(self, content: bytes) -> None:
        """Bytes on stdout as they are; a terminal and a stream without bytes get them as text."""
        stream = self.world.stdout
        with answering():
            if hasattr(stream, "buffer") and not stream.isatty():
                stream.flush()
                stream.buffer.write(content)
            else:
                stream.write(as_carried(stream, content.decode("utf-8", "surrogateescape")))

    def note(self, text: str) -> None:
        """A message beside the answer, on stderr; on a terminal wrapped between words, commands whole."""
        if self.world.quiet:
            return
        told = harmless(without_password(self.world.paths_from_here(text)))
        for line in self._lines(told):
            self._write(self.world.stderr, line)

    def _lines(self, text: str, beside: int = 0) -> list[str]:
        """A message in lines, as wide as a terminal less what stands beside it."""
        if not self.world.stderr.isatty():
            return [text]
        return with_whole_commands(text, self.world.width(self.world.stderr) - beside)

    def aloud(self) -> Say:
        """The same voice where it was asked to be quiet and must not be."""
        return Say(self.world.but(quiet=False)) if self.world.quiet else self

    def paragraph(self, text: str, hanging: int = 0) -> None:
        """A message without a command to copy, beside the answer; on a terminal it is wrapped to the width."""
        if not self.world.stderr.isatty():
            self.note(text)
            return
        room = self.world.width(self.world.stderr) - hanging
        self.note(f"\n{' ' * hanging}".join(wrapped(harmless(self.world.paths_from_here(text)), room)))

    def choices(self, choices: Sequence[str], then: str = "") -> None:
        """Choices by number beside the answer, none parted from its number; `then` stands after them."""
        room, line = self.world.width(self.world.stderr), ""
        named = [f"{place} {harmless(choice)}" for place, choice in enumerate(choices, start=1)]
        for each in [*named, then] if then else named:
            if line and len(line) + len(each) + 4 > room:
                self.note(f"  {line}")
                line = ""
            line = f"{line}  {each}" if line else each
        if line:
            self.note(f"  {line}")

    def note_once(self, text: str) -> None:
        """A message that a command says once, however often it comes to it."""
        if text not in self.world.noted:
            self.world.noted.add(text)
            self.note(text)

    def error(self, error: ClaimpackError, *, json: bool = False) -> None:
        """What went wrong, why, what to do, on stderr; for a script as the one JSON document on stdout, too."""
        told = [harmless(without_password(self.world.paths_from_here(line))) for line in error.lines()]
        parts = (f"claimpack: {told[0]}", *told[1:])
        first, *rest = [line for each in parts for line in self._lines(each, beside=2)]
        head = self.styled("claimpack:", "bad", self.world.stderr)
        self._write(self.world.stderr, first.replace("claimpack:", head, 1))
        for line in rest:
            self._write(self.world.stderr, f"  {line}")
        if json:
            self.failure(_kind(error), [error.what, error.why, error.do], error.exit_code, error.problems)

    def failure(self, kind: str, told: Sequence[str], code: int, problems: Sequence[str] = ()) -> None:
        """The document of a run that failed: what is wrong, why, what to do; nothing where stdout takes none."""
        what, why, do = (without_password(line) for line in told)
        error = {"kind": kind, "what": what, "why": why, "do": do, "problems": list(problems)}
        with suppress(CannotWrite, BrokenPipeError):
            self.document({"error": error, "exit_code": code})

    def styled(self, text: str, style: str, stream: TextIO | None = None) -> str:
        """Text in a style, where the stream takes colour."""
        if not self.world.has_colour(stream or self.world.stdout):
            return text
        return f"\x1b[{_STYLES[style]}m{text}\x1b[0m"

    def code(self, modules: Sequence[Sequence[bool]]) -> None:
        """A QR code beside the answer, dark on light whatever the terminal's colours; two rows of it to a line."""
        stream = self.world.stderr
        quiet = [False] * (len(modules) + 4)
        rows = [quiet, quiet, *([False, False, *row, False, False] for row in modules), quiet, quiet, quiet]
        is_coloured = self.world.has_colour(stream)
        for above, below in zip(rows[::2], rows[1::2], strict=False):
            line = "".join(_CELLS[upper, lower] for upper, lower in zip(above, below, strict=True))
            self._write(stream, f"\x1b[30;107m{line}\x1b[0m" if is_coloured else line.translate(_TURNED))

    def heading(self, text: str) -> None:
        """A heading of the answer, with a blank line before it, wrapped to the width."""
        self.answer()
        for line in wrapped(harmless(text), self.world.width()):
            self.answer(self.styled(line, "strong"))

    def lines(self, text: str, *lead: tuple[str, str]) -> None:
        """Text of the answer wrapped to the width; before it stand a few words, each with its style."""
        words = "  ".join(word for word, _ in lead)
        first, *rest = wrapped("  ".join(part for part in (words, harmless(text)) if part), self.world.width())
        self.answer("  ".join(self.styled(word, style) for word, style in lead) + first[len(words) :])
        for line in rest:
            self.answer(line)

    def mark(self, outcome: str) -> str:
        """The mark of an outcome: pass, fail, unknown or todo."""
        if outcome not in self._marks:
            self._marks[outcome] = self._mark(outcome)
        return self._marks[outcome]

    def _mark(self, outcome: str) -> str:
        encoding = (self.world.stdout.encoding or "ascii").lower()
        # An old Windows console stops with an error at a mark it does not know.
        marks = _MARKS if "utf" in encoding else _PLAIN_MARKS
        return self.styled(marks[outcome], _MARK_STYLES[outcome])

    def item(self, mark: str, text: str, indent: int = 2) -> None:
        """A marked paragraph of the answer, wrapped to the width."""
        lead = " " * indent
        room = self.world.width() - indent - 2
        told = harmless(without_password(self.world.paths_from_here(text)))
        lines = [line for part in told.split("\n") for line in wrapped(part, room)]
        self.answer(f"{lead}{mark} {lines[0]}")
        for line in lines[1:]:
            self.answer(f"{lead}  {line}")

    def quiet_item(self, text: str) -> None:
        """A paragraph of the answer that matters least: without a mark of its own, in the quiet style."""
        first, *rest = wrapped(harmless(text), self.world.width() - 4)
        for lead, line in (("  - ", first), *(("    ", line) for line in rest)):
            self.answer(self.styled(lead + line, "quiet"))

    def table(self, rows: Sequence[Sequence[str]], right: Sequence[int] = (), indent: int = 2) -> None:
        """Rows in columns, those named by `right` set to the right; on a terminal the last goes on under itself."""
        cells = [[harmless(cell) for cell in row] for row in rows]
        room = None if self.world.columns() is None else self.world.width()
        for line in in_columns(cells, right, indent, room):
            self.answer(line)

    @contextmanager
    def progress(self, label: str, total: int) -> Iterator[Callable[[], None]]:
        """A bar on stderr while work goes on, on a terminal only; the function given moves it by one."""
        stream = self.world.stderr
        shown = stream.isatty() and total > 1 and not self.world.quiet
        done = 0

        def advance() -> None:
            nonlocal done
            done += 1
            if shown:
                filled = 24 * done // total
                stream.write(f"\r{label} [{'#' * filled}{'.' * (24 - filled)}] {done}/{total}")
                stream.flush()

        try:
            yield advance
        finally:
            if shown:
                stream.write("\r\x1b[K")
                stream.flush()

    def ask(
        self, question: str, listen: Callable[[TextIO, Callable[[str], None]], str | None] | None = None
    ) -> str | None:
        """One line typed by the user, or what `listen` takes of the input and shows; None when the input ends."""
        *before, last = wrapped(question, self.world.width(self.world.stderr) - 1)
        self.world.stderr.write("".join(f"{line}\n" for line in before) + f"{last} ")
        self.world.stderr.flush()
        if listen:
            return listen(self.world.stdin, self._echo)
        line = self.world.stdin.readline()
        return line.rstrip("\n") if line else None

    def _echo(self, text: str) -> None:
        self.world.stderr.write(text)
        self.world.stderr.flush()

    def ask_unseen(self, question: str) -> str | None:
        """One line typed by the user and not shown; None when the input ends."""
        if self.world.stdin is not sys.stdin:
            return self.ask(question)
        try:
            import getpass

            return getpass.getpass(f"{question} ", self.world.stderr)
        except EOFError:
            return None

    def nothing_done(self, do: str) -> None:
        """The document of a run that did nothing, since nobody said what or agreed to it; `do` is what to do."""
        self.failure("not done", ("nothing was done", "", do), 4)

    def finish(self) -> None:
        """See to it that the answer has left for where it goes.

        Raises:
            CannotWrite: it does not get there.
        """
        with answering():
            self.world.stdout.flush()

    def _write(self, stream: TextIO, text: str) -> None:
        line = as_carried(stream, text) + "\n"
        if stream is self.world.stdout:
            with answering():
                stream.write(line)
            return
        # A message that cannot be shown changes nothing of what was done, and there is nowhere left to say so.
        with suppress(OSError):
            stream.write(line)
