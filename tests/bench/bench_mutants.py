"""How many small faults put into the package its tests notice: `python tests/bench/bench_mutants.py --core 200`.

A mutant turns one comparison, one `and`, one `not`, one sign or one yes or no round, in a copy of the checkout. It is
killed when a test fails: of those that reach its line, as a run of them all records it, the test file of its module
is asked first, then those that name the module, the tests of its room, of its package, and all others, the cheap ones
first. Who lives is listed with its line, to be pinned by a test or told to be the same program. `--near` asks no
further than the room, and none for longer than `--seconds` of a processor: who is not killed by then is listed as
alive. `--log FILE` keeps what came of every mutant and, beside it, which test reaches what; started again with the same
file the bench goes on where it was ended. A test that fails without a mutant as well kills none, as one in a browser,
which has too little memory here; such tests are listed at the end.
"""

from __future__ import annotations

import ast
import functools
import importlib
import itertools
import json
import os
import random
import re
import resource
import shutil
import signal
import sys
import tempfile
import time
from collections.abc import Callable, Sequence
from functools import partial
from pathlib import Path
from typing import Any

sys.path.insert(0, str(Path(__file__).parents[1]))

import pytest
from by_hand import Given, arguments
from mutants import ROOT, Mutant, is_inside, mutants, put_into_the_loaded_package, turned
from reached import Reached, confine_nothing

LIBRARIES = (
    "hypothesis",
    "pikepdf",
    "PIL.Image",
    "pydantic",
    "pypdf",
    "reportlab",
    "psycopg",
    "tomlkit",
    "typer",
)
QUIETLY = ("-q", "-s", "-x", "-Wignore", *(f"-pno:{name}" for name in ("cacheprovider", "randomly", "xdist")))
TOO_LONG, MOST_WORK = 900, 90
"""Seconds for all the tests of a mutant, and of a processor's work for one of them: a mutant may never end."""
MOST_MEMORY = 8 * 2**30
PROCESSES = os.cpu_count() or 1
_ALIVE = 99
"""What a fork ends with whose tests passed: a mutant may end it with any other."""


def asked_of(module: Path, *, near: bool) -> list[Path]:
    """The tests to ask, the nearest first: the module's own, those that name it, those of its room, of its package."""
    inside = module.relative_to(ROOT / "claimpack")
    own = ROOT / "tests" / inside.parent / f"test_{module.stem}.py"
    rooms = [ROOT / "tests" / up for up in inside.parents][:-1]
    further = [*rooms[1:], ROOT / "tests/published", ROOT / "tests/agreement"]
    asked = [own, *naming(module), *rooms[:1], *(further if not near else ())]
    return [path for path in asked if path.exists()]


def naming(module: Path) -> list[Path]:
    """The test files that import a module by name."""
    package, name = ".".join(module.relative_to(ROOT).parent.parts), re.escape(module.stem)
    named = re.compile(rf"{re.escape(package)}\.{name}\b|from {re.escape(package)} import .*\b{name}\b")
    return [path for path, text in test_files().items() if named.search(text)]


@functools.cache
def test_files() -> dict[Path, str]:
    return {path: path.read_text(encoding="utf-8") for path in sorted((ROOT / "tests").rglob("test_*.py"))}


def in_order(mutant: Mutant, items: list[pytest.Item], log: Log, *, near: bool) -> list[pytest.Item]:
    """The tests that a mutant is shown to: those that reach its line, the nearest files first, there the cheapest.

    What a fixture makes once for many tests is told of the first alone: the module's own tests are asked besides.
    """
    asked = asked_of(mutant.path, near=near)

    @functools.cache
    def place(path: Path) -> int:
        return next((at for at, each in enumerate(asked) if each == path or each in path.parents), len(asked))

    if near:
        reaching = {item.nodeid for item in items if place(item.path) < len(asked)}
    else:
        reaching = log.reached.tests(mutant.path, mutant.line)
    own = {path for path in (*asked[:1], *naming(mutant.path)) if path.suffix and reaching}
    return sorted(
        (item for item in items if item.nodeid in reaching or item.path in own),
        key=lambda item: (place(item.path), item.nodeid not in reaching, log.seconds.get(item.nodeid, 0)),
    )


def survives(work: Callable[[], bool]) -> bool:
    """Whether tests pass in a fork of their own, quietly; one that only waits is ended and is no killer."""
    # What a mutant makes is not for the next.
    with tempfile.TemporaryDirectory() as place:
        child = os.fork()
        if child == 0:
            quiet = os.open(os.devnull, os.O_RDWR)
            for stream in range(3):
                os.dup2(quiet, stream)
            signal.alarm(TOO_LONG)
            resource.setrlimit(resource.RLIMIT_AS, (MOST_MEMORY, MOST_MEMORY))
            os.environ["PYTEST_DEBUG_TEMPROOT"] = place
            os.environ["CLAIMPACK_TESTS_MADE_ONCE"] = tempfile.mkdtemp(dir=place)
            code = 1
            try:
                code = _ALIVE if work() else 1
            finally:
                os._exit(code)
        status = os.waitpid(child, 0)[1]
    return os.waitstatus_to_exitcode(status) in (_ALIVE, -signal.SIGALRM)


class Told:
    """What came of a sample of mutants so far, as the log has it."""

    def __init__(self, name: str, population: list[Mutant], count: int, seed: int, log: Log) -> None:
        self.name, self.population, self.log = name, population, log
        self.sample = random.Random(seed).sample(population, min(count, len(population)))

    @property
    def left(self) -> list[Mutant]:
        """Those that nothing is told of yet."""
        return [mutant for mutant in self.sample if str(mutant) not in self.log.told]

    def __str__(self) -> str:
        tried = {mutant: self.log.told[str(mutant)] for mutant in self.sample if str(mutant) in self.log.told}
        alive, count = [mutant for mutant, lives in tried.items() if lives], max(len(tried), 1)
        killed = len(tried) - len(alive)
        lines = [f"  alive: {mutant}" for mutant in alive]
        share = f"{killed} of {len(tried)} killed ({killed / count:.1%}), of {len(self.population)} there are"
        return "\n".join([*lines, f"{self.name}: {share}"])


class Log:
    """What came of mutants, and how long the tests take that pass without one; a file, to go on after an end."""

    def __init__(self, path: Path) -> None:
        self.path, self.told, self.seconds, self.unsound = path, dict[str, bool](), dict[str, float](), set[str]()
        self.reached = Reached(path.with_suffix(".reached"))
        path.touch()
        self.read()

    def read(self) -> None:
        """Look at what is in the file by now."""
        rows = [json.loads(line) for line in self.path.read_text(encoding="utf-8").splitlines()]
        self.told = {row["mutant"]: row["alive"] for row in rows if "mutant" in row}
        self.seconds = {row["test"]: row["seconds"] for row in rows if "test" in row}
        self.unsound = {row["unsound"] for row in rows if "unsound" in row}

    def add(self, row: dict[str, Any]) -> None:
        """Write something down; every process knows it that reads the file from now on."""
        with self.path.open("a", encoding="utf-8") as file:
            file.write(json.dumps(row) + "\n")


class Asked:
    """Mutants asked of tests that are collected once: a plugin of pytest, in place of its loop over the tests."""

    def __init__(self, samples: Sequence[Told], log: Log, scratch: Path, *, near: bool, seconds: float) -> None:
        self.samples, self.log, self.scratch = samples, log, scratch
        self.near, self.seconds = near, seconds
        self.killer, self.sound_alone = scratch / "killer", set[str]()

    def pytest_runtestloop(self, session: pytest.Session) -> bool:
        """Show every mutant to the tests in a fork, but for tests that fail without one: they would kill them all."""
        confine_nothing()
        unknown = [each for each in session.items if each.nodeid not in self.log.seconds.keys() | self.log.unsound]
        if unknown and not self.near:
            in_processes(partial(self.record, unknown))
            self.log.reached.gather()
            self.log.read()
            for item in unknown:
                if item.nodeid not in self.log.seconds:
                    self.log.add({"unsound": item.nodeid})
        in_processes(partial(self.ask, session.items))
        return True

    def record(self, items: Sequence[pytest.Item], share: int) -> None:
        """Record what a share of the tests reach, file by file."""
        files = sorted({item.path for item in items})[share::PROCESSES]
        mine = [item for item in items if item.path in set(files)]
        with self.log.reached.recording(share) as record:
            for item, following in zip(mine, [*mine[1:], None], strict=True):
                failed, began = item.session.testsfailed, time.process_time()
                record.switch_context(item.nodeid)
                item.config.hook.pytest_runtest_protocol(item=item, nextitem=following)
                if item.session.testsfailed == failed:
                    self.log.add({"test": item.nodeid, "seconds": round(time.process_time() - began, 3)})

    def ask(self, items: Sequence[pytest.Item], share: int) -> None:
        """Ask about a share of the mutants; who is killed is told."""
        self.log.read()
        self.killer = self.scratch / f"killer{share}"
        mine = [mutant for told in self.samples for mutant in told.left][share::PROCESSES]
        for mutant in mine:
            if is_inside(mutant) and not self.lives(mutant, items):
                self.log.add({"mutant": str(mutant), "alive": False})

    def lives(self, mutant: Mutant, items: Sequence[pytest.Item]) -> bool:
        """Whether nothing kills a mutant; a test that fails without it as well is no killer, and is asked no more."""
        while True:
            sound = [each for each in items if each.nodeid not in self.log.unsound]
            asked = in_order(mutant, sound, self.log, near=self.near)
            self.killer.unlink(missing_ok=True)
            if survives(partial(self.passes, mutant, asked)):
                return True
            killer = self.killer.read_text(encoding="utf-8") if self.killer.exists() else ""
            if killer in {"", *self.sound_alone}:
                return False
            if survives(partial(self.passes, None, [each for each in asked if each.nodeid == killer])):
                self.sound_alone.add(killer)
                return False
            self.log.add({"unsound": killer})
            self.log.read()

    def passes(self, mutant: Mutant | None, items: Sequence[pytest.Item]) -> bool:
        """Whether all the tests pass, the first failure being enough to know."""
        if mutant:
            put_into_the_loaded_package(mutant)
        return passes_all(items, self.seconds)

    def pytest_runtest_logreport(self, report: pytest.TestReport) -> None:
        """Leave behind which test failed."""
        if report.failed:
            self.killer.write_text(report.nodeid, encoding="utf-8")


def in_processes(work: Callable[[int], None]) -> None:
    """Work shared by as many processes as the machine has."""
    children = []
    for share in range(PROCESSES):
        child = os.fork()
        if child == 0:
            try:
                work(share)
            finally:
                os._exit(0)
        children.append(child)
    for child in children:
        os.waitpid(child, 0)


def run(item: pytest.Item, following: pytest.Item | None) -> None:
    """Run a test, ending the process where it works for too long."""
    resource.setrlimit(resource.RLIMIT_CPU, (int(time.process_time()) + MOST_WORK, resource.RLIM_INFINITY))
    item.config.hook.pytest_runtest_protocol(item=item, nextitem=following)


def passes_all(items: Sequence[pytest.Item], seconds: float) -> bool:
    """Whether all of the tests pass that can be asked while this process works so long; the first failure ends them."""
    for item, following in zip(items, [*items[1:], None], strict=True):
        run(item, following)
        if item.session.testsfailed or time.process_time() > seconds:
            return not item.session.testsfailed
    return True


class AllInOrder:
    """A plugin of pytest that runs tests until one fails, or for as long as it may; what failed is left in a file."""

    def __init__(self, seconds: float, unsound: set[str], killer: Path) -> None:
        self.seconds, self.unsound, self.killer = seconds, unsound, killer

    def pytest_runtestloop(self, session: pytest.Session) -> bool:
        passes_all([item for item in session.items if item.nodeid not in self.unsound], self.seconds)
        return True

    def pytest_runtest_logreport(self, report: pytest.TestReport) -> None:
        if report.failed:
            self.killer.write_text(report.nodeid, encoding="utf-8")


def lives_afresh(mutant: Mutant, copy: Path, log: Log, *, near: bool, seconds: float) -> bool:
    """Whether a mutant in its file lives; a test that fails without it as well is no killer, and is asked no more."""
    killer = copy.parent / "killer"
    while True:
        killer.unlink(missing_ok=True)
        lives = survives(partial(passes_afresh, mutant, copy, log.unsound, killer, near=near, seconds=seconds))
        shutil.copy2(mutant.path, copy / mutant.path.relative_to(ROOT))
        if lives or not killer.exists():
            return lives
        test = killer.read_text(encoding="utf-8")
        if survives(partial(passes_in, copy, [test], set(), killer, seconds)):
            return False
        log.add({"unsound": test})
        log.read()


def passes_afresh(mutant: Mutant, copy: Path, unsound: set[str], killer: Path, *, near: bool, seconds: float) -> bool:
    """Whether the tests pass in a copy with the mutant in its file; for one that counts while a module is imported."""
    text = ast.unparse(turned(mutant.path.read_text(encoding="utf-8"), mutant.place))
    (copy / mutant.path.relative_to(ROOT)).write_text(text, encoding="utf-8")
    asked = [str(path.relative_to(ROOT)) for path in asked_of(mutant.path, near=near)]
    return passes_in(copy, asked, unsound, killer, seconds)


def passes_in(copy: Path, asked: Sequence[str], unsound: set[str], killer: Path, seconds: float) -> bool:
    """Whether tests of a copy pass, but for those that are not sound."""
    os.chdir(copy)
    # what is read in a process of its own is read by the copy as well
    os.environ["PYTHONPATH"] = str(copy)
    sys.path.insert(0, str(copy))
    sys.dont_write_bytecode = True
    # One run a path: what is collected for the nearest tests is little, and mostly they are enough.
    in_time = itertools.takewhile(lambda _: time.process_time() < seconds, asked)
    return all(pytest.main([*QUIETLY, path], [AllInOrder(seconds, unsound, killer)]) == 0 for path in in_time)


def ask_the_loaded(samples: Sequence[Told], log: Log, place: Path, *, near: bool, seconds: float) -> bool:
    """Kill what can be killed without starting anew: most mutants, in a tenth of the time."""
    signal.alarm(0)
    sys.path.insert(0, str(ROOT))
    plugin = Asked(samples, log, place, near=near, seconds=seconds)
    modules = {mutant.path for told in samples for mutant in told.left} if near else set[Path]()
    asked = {str(path) for module in modules for path in asked_of(module, near=True)}
    return pytest.main([*QUIETLY, "--rootdir", str(ROOT), *sorted(asked)], [plugin]) == 0


def ask_afresh(samples: Sequence[Told], log: Log, place: Path, share: int, *, near: bool, seconds: float) -> None:
    """Ask about a share of those that nothing is told of yet, each in its file, in a copy of the checkout."""
    copy = place / str(share) / "checkout"
    shutil.copytree(ROOT, copy, ignore=shutil.ignore_patterns(".git", ".venv", "out"))
    for mutant in [mutant for told in samples for mutant in told.left][share::PROCESSES]:
        log.add({"mutant": str(mutant), "alive": lives_afresh(mutant, copy, log, near=near, seconds=seconds)})


def measure(samples: Sequence[Told], log: Log, *, near: bool, seconds: float) -> None:
    """Try every mutant of the samples; who is not killed in the loaded package is asked about with the fault in a file.

    Some code runs while a module is imported, and some in a process of its own.
    """
    for library in LIBRARIES:
        importlib.import_module(library)
    with tempfile.TemporaryDirectory() as place:
        survives(partial(ask_the_loaded, samples, log, Path(place), near=near, seconds=seconds))
        log.read()
        in_processes(partial(ask_afresh, samples, log, Path(place), near=near, seconds=seconds))
        log.read()


def main() -> None:
    """Samples of the core and of the rest."""
    options = arguments(
        __doc__,
        Given("--core", 200, "how many mutants of the core"),
        Given("--elsewhere", 100, "how many of the rest"),
        Given("--seed", 7, "of the chance they are drawn by"),
        Given("--only", "", "a part of the module's path"),
        Given("--near", False, "ask the module's own tests, those that name it and its room"),
        Given("--seconds", float(TOO_LONG), "of a processor, for the tests of one mutant"),
        Given("--log", "", "the file that keeps what came of every mutant; without it a new one"),
    )
    every = [mutant for mutant in mutants(ROOT / "claimpack") if options.only in str(mutant.path.relative_to(ROOT))]
    core = [mutant for mutant in every if "core" in mutant.path.relative_to(ROOT).parts]
    rest = [mutant for mutant in every if "core" not in mutant.path.relative_to(ROOT).parts]
    log = Log(Path(options.log or tempfile.mkstemp()[1]))
    samples = [
        Told("core", core, options.core, options.seed, log),
        Told("elsewhere", rest, options.elsewhere, options.seed, log),
    ]
    measure(samples, log, near=options.near, seconds=options.seconds)
    print(*samples, sep="\n")
    print(*(f"  not asked, for it fails without a mutant: {test}" for test in sorted(log.unsound)), sep="\n")


if __name__ == "__main__":
    main()
