"""How many small faults put into the package its tests notice: `python tests/bench/bench_mutants.py --core 200`.

A mutant turns one comparison, one `and`, one `not`, one sign or one yes or no round, in a copy of the checkout. It is
killed when the test file of its module fails, else the tests of its room, else those of its package; who lives is
listed with its line, to be pinned by a test or told to be the same program.
"""

from __future__ import annotations

import argparse
import ast
import random
import shutil
import subprocess
import sys
import tempfile
from collections.abc import Iterator
from pathlib import Path
from typing import NamedTuple

ROOT = Path(__file__).resolve().parents[2]
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


def tests_of(module: Path) -> list[str]:
    """The tests to ask, the nearest first: the module's own file, its room, its package."""
    inside = module.relative_to("claimpack")
    own = Path("tests") / inside.parent / f"test_{module.stem}.py"
    rooms = [Path("tests") / room for room in inside.parents if room != Path()]
    return [str(path) for path in (own, *rooms) if (ROOT / path).exists()] or ["tests/test_main.py"]


def is_killed(mutant: Mutant, copy: Path) -> bool:
    """Whether any of its tests fails while the mutant stands in the copy, or takes over ten minutes."""
    place = copy / mutant.path.relative_to(ROOT)
    whole = place.read_text(encoding="utf-8")
    place.write_text(turned(whole, mutant.place), encoding="utf-8")
    command = [sys.executable, "-m", "pytest", "-q", "-x", "-p", "no:cacheprovider", "-p", "no:randomly"]
    try:
        for tests in tests_of(mutant.path.relative_to(ROOT)):
            try:
                done = subprocess.run([*command, tests], cwd=copy, capture_output=True, check=False, timeout=600)
            except subprocess.TimeoutExpired:
                return True
            if done.returncode:
                return True
        return False
    finally:
        place.write_text(whole, encoding="utf-8")


def measured(name: str, population: list[Mutant], count: int, seed: int) -> None:
    """Try a sample and print how many were killed, and who lives."""
    sample = random.Random(seed).sample(population, min(count, len(population)))
    alive = []
    with tempfile.TemporaryDirectory() as place:
        copy = Path(place) / "checkout"
        shutil.copytree(ROOT, copy, ignore=shutil.ignore_patterns(".git", ".venv", "__pycache__", "out"))
        for tried, mutant in enumerate(sample, 1):
            if not is_killed(mutant, copy):
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
    options = asked.parse_args()
    every = [mutant for mutant in mutants(ROOT / "claimpack") if options.only in str(mutant.path.relative_to(ROOT))]
    core = [mutant for mutant in every if "core" in mutant.path.relative_to(ROOT).parts]
    rest = [mutant for mutant in every if "core" not in mutant.path.relative_to(ROOT).parts]
    measured("core", core, options.core, options.seed)
    measured("elsewhere", rest, options.elsewhere, options.seed)


if __name__ == "__main__":
    main()
