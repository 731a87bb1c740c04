"""How many small faults put into the package its tests notice: `python tests/bench/bench_mutants.py --core 200`.

A mutant turns one comparison, one `and`, one `not`, one sign or one yes or no round, in a copy of the checkout. It is
killed when the test file of its module fails, else the tests of its room, else those of its package, else those
against published sources and the agreements; who lives is listed with its line, to be pinned by a test or told to be
the same program.
"""

from __future__ import annotations

import argparse
import ast
import functools
import gc
import getpass
import importlib
import inspect
import os
import random
import resource
import shutil
import signal
import sys
import tempfile
import types
from collections.abc import Callable, Iterator, Sequence
from functools import partial
from itertools import filterfalse
from pathlib import Path
from typing import NamedTuple

import pytest

ROOT = Path(__file__).resolve().parents[2]
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
MOST_MEMORY = 8 * 2**30
SWAPS: dict[type[ast.AST], type[ast.AST]] = {
    ast.Lt: ast.LtE,
    ast.LtE: ast.Lt,
    ast.Gt: ast.GtE,
    ast.GtE: ast.Gt,
    ast.Eq: ast.NotEq,
    ast.NotEq: ast.Eq,
    ast.In: ast.NotIn,
    ast.NotIn: ast.In,
    ast.Is: ast.IsNot,
    ast.IsNot: ast.Is,
    ast.And: ast.Or,
    ast.Or: ast.And,
    ast.Add: ast.Sub,
    ast.Sub: ast.Add,
}


NO_BEHAVIOUR = ("strict", "frozen")
"""What a call says to be on the safe side: no answer depends on it."""

THE_SAME = {
    (
        "windows/limits/age.py",
        "may_be_over: bool = True",
    ): "cover that never starts has no end to be over",
    ("pricing/unit_cap.py", "whole_years = range("): "years that begin after the last repair end none that counts",
    ("events/standing.py", "payment.amount < 0"): "no payment of nothing is taken",
}
"""Lines whose mutants are the same program, and why: the module's path ends so, the line says so."""


class Mutant(NamedTuple):
    """One fault: the module, the place of the node among those that can be turned, its line, and what it does."""

    path: Path
    place: int
    line: int
    does: str


def turnable(tree: ast.Module) -> Iterator[tuple[ast.AST, str]]:
    """Every node that can be turned, with what turning does; not annotations, nor what is on the safe side."""
    skipped: set[int] = set()
    for node in ast.walk(tree):
        if id(node) in skipped:
            continue
        for name in ("annotation", "returns"):
            note = getattr(node, name, None)
            skipped.update(id(inner) for inner in ast.walk(note)) if note else None
        if isinstance(node, ast.keyword) and node.arg in NO_BEHAVIOUR:
            skipped.add(id(node.value))
        if isinstance(node, ast.Compare) and type(node.ops[0]) in SWAPS:
            yield node, f"{type(node.ops[0]).__name__} -> {SWAPS[type(node.ops[0])].__name__}"
        elif isinstance(node, ast.BoolOp | ast.BinOp) and type(node.op) in SWAPS:
            yield node, f"{type(node.op).__name__} -> {SWAPS[type(node.op)].__name__}"
        elif isinstance(node, ast.UnaryOp) and isinstance(node.op, ast.Not):
            yield node, "not dropped"
        elif isinstance(node, ast.Constant) and isinstance(node.value, bool):
            yield node, f"{node.value} -> {not node.value}"


def turned(text: str, place: int) -> ast.Module:
    """The module with that node turned round, every other where it was."""
    tree = ast.parse(text)
    node = [node for node, _ in turnable(tree)][place]
    if isinstance(node, ast.Compare):
        node.ops[0] = SWAPS[type(node.ops[0])]()
    elif isinstance(node, ast.BoolOp | ast.BinOp):
        node.op = SWAPS[type(node.op)]()
    elif isinstance(node, ast.Constant):
        node.value = not node.value
    elif isinstance(node, ast.UnaryOp):
        node.operand = ast.copy_location(ast.UnaryOp(ast.Not(), node.operand), node)
    return tree


def mutants(folder: Path) -> list[Mutant]:
    """Every mutant of a folder's modules."""
    found = []
    for path in sorted(folder.rglob("*.py")):
        text = path.read_text(encoding="utf-8")
        nodes = turnable(ast.parse(text))
        some = [Mutant(path, place, getattr(node, "lineno", 0), does) for place, (node, does) in enumerate(nodes)]
        found += [mutant for mutant in some if not is_the_same(mutant, text.splitlines())]
    return found


def is_the_same(mutant: Mutant, lines: list[str]) -> bool:
    """Whether a mutant is known to do what the program does."""
    line = lines[mutant.line - 1]
    return any(mutant.path.as_posix().endswith(path) and said in line for path, said in THE_SAME)


def asked_of(module: Path, *, near: bool) -> list[Path]:
    """The tests to ask, the nearest first: the module's own, those of its room, of its package, and the agreements."""
    inside = module.relative_to(ROOT / "claimpack")
    own = Path("tests") / inside.parent / f"test_{module.stem}.py"
    rooms = [Path("tests") / up for up in inside.parents][:-1]
    asked = [own, *rooms[:1]] if near else [own, *rooms, Path("tests/published"), Path("tests/agreement")]
    return [ROOT / path for path in asked if (ROOT / path).exists()]


def in_order(module: Path, items: list[pytest.Item], *, near: bool) -> list[pytest.Item]:
    """The tests that a module's mutants are shown to."""
    asked = asked_of(module, near=near)
    place = {
        item: next((at for at, path in enumerate(asked) if path == item.path or path in item.path.parents), None)
        for item in items
    }
    return sorted((item for item in items if place[item] is not None), key=place.__getitem__)


def codes_of(code: types.CodeType) -> Iterator[types.CodeType]:
    """A compiled module with every function in it, always in one order."""
    yield code
    for inner in code.co_consts:
        if isinstance(inner, types.CodeType):
            yield from codes_of(inner)


def changed_codes(mutant: Mutant) -> dict[types.CodeType, types.CodeType]:
    """What a mutant changes of a compiled module, the old beside the new."""
    text, name = mutant.path.read_text(encoding="utf-8"), str(mutant.path)
    before = compile(text, name, "exec", dont_inherit=True)
    after = compile(turned(text, mutant.place), name, "exec", dont_inherit=True)
    return {old: new for old, new in zip(codes_of(before), codes_of(after), strict=True) if old != new}


def is_inside(mutant: Mutant) -> bool:
    """Whether the loaded functions can be given the mutant; what runs once, at the import, cannot."""
    functions = [code for code in changed_codes(mutant) if code.co_flags & inspect.CO_OPTIMIZED]
    deepest = [*changed_codes(mutant)][-1:]
    return functions[-1:] == deepest != [] and not functions[0].co_name.endswith(("comp>", "<genexpr>"))


def put_into_the_loaded_package(mutant: Mutant) -> None:
    """Every function of the mutant's module becomes the mutant's, and forgets what it remembers."""
    importlib.import_module(".".join(mutant.path.relative_to(ROOT).with_suffix("").parts).removesuffix(".__init__"))
    changed, name = changed_codes(mutant), str(mutant.path)
    for each in gc.get_objects():
        if isinstance(each, types.FunctionType) and each.__code__.co_filename == name and each.__code__ in changed:
            each.__code__ = changed[each.__code__]
        elif isinstance(each, functools._lru_cache_wrapper):  # noqa: SLF001 - it has no public name
            each.cache_clear()


def survives(work: Callable[[], bool]) -> bool:
    """Whether tests pass in a fork of their own, quietly, in good time."""
    child = os.fork()
    if child == 0:
        quiet = os.open(os.devnull, os.O_RDWR)
        for stream in range(3):
            os.dup2(quiet, stream)
        signal.alarm(TOO_LONG)
        resource.setrlimit(resource.RLIMIT_CPU, (MOST_WORK, MOST_WORK))
        resource.setrlimit(resource.RLIMIT_AS, (MOST_MEMORY, MOST_MEMORY))
        code = 1
        try:
            code = 0 if work() else 1
        finally:
            os._exit(code)
    return os.waitpid(child, 0)[1] == 0


class Told:
    """What came of a sample of mutants so far."""

    def __init__(self, name: str, population: list[Mutant], count: int, seed: int) -> None:
        self.name, self.population = name, population
        self.sample = random.Random(seed).sample(population, min(count, len(population)))
        self.tried = self.alive = 0

    def add(self, mutant: Mutant, *, alive: bool) -> None:
        self.tried, self.alive = self.tried + 1, self.alive + alive
        if alive:
            print(f"  alive: {mutant.path.relative_to(ROOT)}:{mutant.line} {mutant.does}", flush=True)
        print(f"  {self.name}: {self.tried} of {len(self.sample)}", end="\r", file=sys.stderr, flush=True)

    def __str__(self) -> str:
        killed, count = self.tried - self.alive, max(self.tried, 1)
        return (
            f"{self.name}: {killed} of {self.tried} killed ({killed / count:.1%}), of {len(self.population)} there are"
        )


class Asked:
    """Mutants asked of tests that are collected once: a plugin of pytest, in place of its loop over the tests."""

    def __init__(self, samples: Sequence[Told], scratch: Path, *, near: bool) -> None:
        self.samples, self.scratch, self.near, self.are_sound = samples, scratch, near, False

    def pytest_runtestloop(self, session: pytest.Session) -> bool:
        """Show every mutant to the tests in a fork, if they pass without one: else each would count as killed."""
        self.are_sound = survives(partial(passes_all, session.items))
        for told in self.samples if self.are_sound else ():
            for mutant in filter(is_inside, told.sample):
                told.add(mutant, alive=survives(partial(self.passes, mutant, session.items)))
                shutil.rmtree(self.scratch / f"pytest-of-{getpass.getuser()}", ignore_errors=True)
        return True

    def passes(self, mutant: Mutant, every: list[pytest.Item]) -> bool:
        """Whether all the tests pass, the first failure being enough to know."""
        put_into_the_loaded_package(mutant)
        return passes_all(in_order(mutant.path, every, near=self.near))


def passes_all(items: Sequence[pytest.Item]) -> bool:
    """Whether all of the tests pass; the first failure ends them."""
    for item, following in zip(items, [*items[1:], None], strict=True):
        item.config.hook.pytest_runtest_protocol(item=item, nextitem=following)
        if item.session.testsfailed:
            return False
    return True


def passes_afresh(mutant: Mutant, copy: Path, *, near: bool) -> bool:
    """Whether the tests pass in a copy with the mutant in its file; for one that counts while a module is imported."""
    os.chdir(copy)
    sys.path.insert(0, str(copy))
    sys.dont_write_bytecode = True
    text = ast.unparse(turned(mutant.path.read_text(encoding="utf-8"), mutant.place))
    (copy / mutant.path.relative_to(ROOT)).write_text(text, encoding="utf-8")
    asked = [path.relative_to(ROOT) for path in asked_of(mutant.path, near=near)]
    return all(pytest.main([*QUIETLY, str(path)]) == 0 for path in asked)


def measure(samples: Sequence[Told], *, near: bool) -> None:
    """Try every mutant of the samples: those that count at the import while nothing of the package is loaded."""
    for library in LIBRARIES:
        importlib.import_module(library)
    with tempfile.TemporaryDirectory() as place:
        os.environ["PYTEST_DEBUG_TEMPROOT"] = place
        copy = Path(place) / "checkout"
        shutil.copytree(ROOT, copy, ignore=shutil.ignore_patterns(".git", ".venv", "out"))
        for told in samples:
            for mutant in filterfalse(is_inside, told.sample):
                told.add(mutant, alive=survives(partial(passes_afresh, mutant, copy, near=near)))
                shutil.copy2(mutant.path, copy / mutant.path.relative_to(ROOT))
        asked = {str(path) for told in samples for mutant in told.sample for path in asked_of(mutant.path, near=near)}
        sys.path.insert(0, str(ROOT))
        plugin = Asked(samples, Path(place), near=near)
        pytest.main([*QUIETLY, "--rootdir", str(ROOT), *sorted(asked)], [plugin])
        if not plugin.are_sound:
            sys.exit("The tests fail without a mutant, so what they would kill says nothing.")


def main() -> None:
    """Samples of the core and of the rest."""
    asked = argparse.ArgumentParser(description=__doc__)
    asked.add_argument("--core", type=int, default=200)
    asked.add_argument("--elsewhere", type=int, default=100)
    asked.add_argument("--seed", type=int, default=7)
    asked.add_argument("--only", default="", help="a part of the module's path")
    asked.add_argument("--near", action="store_true", help="ask the module's own tests and its room alone")
    options = asked.parse_args()
    every = [mutant for mutant in mutants(ROOT / "claimpack") if options.only in str(mutant.path.relative_to(ROOT))]
    core = [mutant for mutant in every if "core" in mutant.path.relative_to(ROOT).parts]
    rest = [mutant for mutant in every if "core" not in mutant.path.relative_to(ROOT).parts]
    samples = [
        Told("core", core, options.core, options.seed),
        Told("elsewhere", rest, options.elsewhere, options.seed),
    ]
    measure(samples, near=options.near)
    print(*samples, sep="\n")


if __name__ == "__main__":
    main()
