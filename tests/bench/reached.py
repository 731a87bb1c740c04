"""Which tests reach which lines of the package, recorded in one run of them all; work on strange files is done here.

What the program does in a process of its own would be seen by no record, and by no fault put into the loaded package.
"""

from __future__ import annotations

import contextlib
from collections.abc import Callable, Iterator
from functools import cache
from pathlib import Path
from typing import Any

from coverage import Coverage, CoverageData
from mutants import ROOT, codes_of


def confine_nothing() -> None:
    """From now on, strange files are read in this process; what is not the package's still in one of its own."""
    # only here: whoever asks a copy of the package must not have this one
    from claimpack import confined

    worker = confined._CROWD.worker  # noqa: SLF001

    class InThisProcess:
        """Answers what a process of its own would, in the same form."""

        def ask(self, question: tuple[Callable[..., object], tuple[Any, ...]], seconds: float) -> tuple[bytes, bytes]:
            if not question[0].__module__.startswith("claimpack."):
                with worker() as other:
                    return other.ask(question, seconds)
            said, _, content = confined._answered(question).partition(b"\n")  # noqa: SLF001
            return said, content

    confined._CROWD.worker = lambda: contextlib.nullcontext(InThisProcess())  # noqa: SLF001


class Reached:
    """A record of which tests run which lines, kept in a file of its own."""

    def __init__(self, path: Path) -> None:
        self.path = path
        self._of = cache(self._tests_by_line)

    @contextlib.contextmanager
    def recording(self, share: int) -> Iterator[Coverage]:
        """Record in a file beside it what runs; `switch_context` tells whose it is."""
        record = Coverage(f"{self.path}.{share}", source=[str(ROOT / "claimpack")], config_file=False)
        record.start()
        try:
            yield record
        finally:
            record.stop()
            record.save()

    def gather(self) -> None:
        """Put together what several processes recorded."""
        whole = CoverageData(str(self.path))
        whole.read()
        for part in sorted(self.path.parent.glob(f"{self.path.name}.*")):
            data = CoverageData(str(part))
            data.read()
            whole.update(data)
            data.erase()
        whole.write()

    def tests(self, module: Path, line: int) -> set[str]:
        """The tests that run a line; of a line that is nowhere told apart, those of the line before it."""
        by_line = self._of(module)
        while line and line not in by_line:
            line -= 1
        return by_line.get(line, set())

    def _tests_by_line(self, module: Path) -> dict[int, set[str]]:
        data = CoverageData(str(self.path))
        data.read()
        inside = module.relative_to(ROOT).as_posix()
        name = next((name for name in data.measured_files() if name.endswith(f"/{inside}")), inside)
        told = data.contexts_by_lineno(name)
        code = compile(module.read_text(encoding="utf-8"), str(module), "exec", dont_inherit=True)
        lines = {line for each in codes_of(code) for _, _, line in each.co_lines() if line}
        return {line: {test for test in told.get(line, []) if test} for line in lines}
