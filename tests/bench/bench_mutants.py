"""How many small faults put into the package its tests notice: `python tests/bench/bench_mutants.py --core 200`.

A mutant turns one comparison, one `and`, one `not`, one sign or one yes or no round, in a copy of the checkout. It is
killed when the test file of its module fails, else the tests of its room, else those of its package, else those that
look on from far; who lives is listed with its line, to be pinned by a test or told to be the same program.
"""

from __future__ import annotations

import argparse
import ast
import importlib
import importlib.util
import os
import random
import resource
import shutil
import signal
import sys
import tempfile
from collections.abc import Iterator
from pathlib import Path
from typing import NamedTuple

import pytest

ROOT = Path(__file__).resolve().parents[2]
FAR = ("tests/agreement", "tests/published", "tests/commands", "tests/test_main.py", "tests/test_architecture.py")
LIBRARIES = (
    "hypothesis",
    "pikepdf",
    "PIL.Image",
    "pydantic",
    "pypdf",
    "reportlab",
    "sqlalchemy.orm",
    "tomlkit",
    "typer",
)
TOO_LONG = 600
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


class Mutant(NamedTuple):
    """One fault: the module, the place of the node among those that can be turned, its line, and what it does."""

    path: Path
    place: int
    line: int
    does: str


def turnable(tree: ast.Module) -> Iterator[tuple[ast.AST, str]]:
    """Every node that can be turned, with what turning does; annotations and imports for types are left alone."""
    skipped: set[int] = set()
    for node in ast.walk(tree):
        if id(node) in skipped:
            continue
        for name in ("annotation", "returns"):
            note = getattr(node, name, None)
            skipped.update(id(inner) for inner in ast.walk(note)) if note else None
        if isinstance(node, ast.Compare) and type(node.ops[0]) in SWAPS:
            yield node, f"{type(node.ops[0]).__name__} -> {SWAPS[type(node.ops[0])].__name__}"
        elif isinstance(node, ast.BoolOp | ast.BinOp) and type(node.op) in SWAPS:
            yield node, f"{type(node.op).__name__} -> {SWAPS[type(node.op)].__name__}"
        elif isinstance(node, ast.UnaryOp) and isinstance(node.op, ast.Not):
            yield node, "not dropped"
        elif isinstance(node, ast.Constant) and isinstance(node.value, bool):
            yield node, f"{node.value} -> {not node.value}"


def turned(text: str, place: int) -> str:
    """The module with that node turned round."""
    tree = ast.parse(text)
    node = [node for node, _ in turnable(tree)][place]
    if isinstance(node, ast.Compare):
        node.ops[0] = SWAPS[type(node.ops[0])]()
    elif isinstance(node, ast.BoolOp | ast.BinOp):
        node.op = SWAPS[type(node.op)]()
    elif isinstance(node, ast.Constant):
        node.value = not node.value
    elif isinstance(node, ast.UnaryOp):
        node.op, node.operand = ast.Not(), ast.UnaryOp(ast.Not(), node.operand)
    return ast.unparse(tree)


def mutants(folder: Path) -> list[Mutant]:
    """Every mutant of a folder's modules."""
    found = []
    for path in sorted(folder.rglob("*.py")):
        nodes = turnable(ast.parse(path.read_text(encoding="utf-8")))
        found += [Mutant(path, place, getattr(node, "lineno", 0), does) for place, (node, does) in enumerate(nodes)]
    return found


def tests_of(module: Path) -> list[list[str]]:
    """The tests to ask, the nearest first: the module's own file, its room, its package, then who looks on from far."""
    inside = module.relative_to("claimpack")
    own = Path("tests") / inside.parent / f"test_{module.stem}.py"
    rooms = [Path("tests") / room for room in inside.parents if room != Path()]
    near = [[str(path)] for path in (own, *rooms) if (ROOT / path).exists()]
    return [*near, [path for path in FAR if [path] not in near]]


def passes(tests: list[str], copy: Path) -> bool:
    """Whether tests pass in the copy, asked in a fork that has the libraries loaded and nothing of the package."""
    child = os.fork()
    if child == 0:
        quiet = os.open(os.devnull, os.O_RDWR)
        for stream in range(3):
            os.dup2(quiet, stream)
        os.chdir(copy)
        sys.path.insert(0, str(copy))
        signal.alarm(TOO_LONG)
        resource.setrlimit(resource.RLIMIT_AS, (MOST_MEMORY, MOST_MEMORY))
        os._exit(pytest.main(["-q", "-x", "-p", "no:cacheprovider", "-p", "no:randomly", *tests]))
    return os.waitpid(child, 0)[1] == 0


def is_killed(mutant: Mutant, copy: Path, *, near: bool) -> bool:
    """Whether any of its tests fails while the mutant stands in the copy, or takes too long."""
    place = copy / mutant.path.relative_to(ROOT)
    whole, compiled = place.read_text(encoding="utf-8"), Path(importlib.util.cache_from_source(place))
    compiled.unlink(missing_ok=True)
    place.write_text(turned(whole, mutant.place), encoding="utf-8")
    try:
        asked = tests_of(mutant.path.relative_to(ROOT))
        return not all(passes(tests, copy) for tests in (asked[:-1] if near else asked))
    finally:
        compiled.unlink(missing_ok=True)
        place.write_text(whole, encoding="utf-8")


def measured(name: str, population: list[Mutant], count: int, seed: int, *, near: bool) -> None:
    """Try a sample and print how many were killed, and who lives."""
    sample = random.Random(seed).sample(population, min(count, len(population)))
    alive = []
    with tempfile.TemporaryDirectory() as place:
        copy = Path(place) / "checkout"
        shutil.copytree(ROOT, copy, ignore=shutil.ignore_patterns(".git", ".venv", "__pycache__", "out"))
        for tried, mutant in enumerate(sample, 1):
            if not is_killed(mutant, copy, near=near):
                alive.append(mutant)
                print(f"  alive: {mutant.path.relative_to(ROOT)}:{mutant.line} {mutant.does}", flush=True)
            print(f"  {tried} of {len(sample)}", end="\r", file=sys.stderr, flush=True)
    killed = len(sample) - len(alive)
    print(
        f"{name}: {killed} of {len(sample)} killed ({killed / max(len(sample), 1):.1%}), of {len(population)} there are"
    )


def main() -> None:
    """Samples of the core and of the rest."""
    asked = argparse.ArgumentParser(description=__doc__)
    asked.add_argument("--core", type=int, default=200)
    asked.add_argument("--elsewhere", type=int, default=100)
    asked.add_argument("--seed", type=int, default=7)
    asked.add_argument("--only", default="", help="a part of the module's path")
    asked.add_argument("--near", action="store_true", help="leave out the tests that look on from far")
    options = asked.parse_args()
    every = [mutant for mutant in mutants(ROOT / "claimpack") if options.only in str(mutant.path.relative_to(ROOT))]
    core = [mutant for mutant in every if "core" in mutant.path.relative_to(ROOT).parts]
    rest = [mutant for mutant in every if "core" not in mutant.path.relative_to(ROOT).parts]
    for library in LIBRARIES:
        importlib.import_module(library)
    measured("core", core, options.core, options.seed, near=options.near)
    measured("elsewhere", rest, options.elsewhere, options.seed, near=options.near)


if __name__ == "__main__":
    main()
