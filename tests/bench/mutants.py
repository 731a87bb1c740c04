"""Small faults put into the package: which there are, and a module or the loaded package with one of them."""

from __future__ import annotations

import ast
import functools
import gc
import importlib
import inspect
import types
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


NO_BEHAVIOUR = ("strict", "frozen", "slots")
"""What a call says to be on the safe side: no answer depends on it."""

THE_SAME = {
    (
        "windows/limits/age.py",
        "may_be_over: bool = True",
    ): "cover that never starts has no end to be over",
    ("pricing/unit_cap.py", "whole_years = range("): "years that begin after the last repair end none that counts",
    ("settlement/journal.py", "if amount > 0 else"): "what moved nothing is no entry",
    ("values/clock.py", "for n in (-1, 0, 1)}"): "as many days before as after",
    ("facts/record.py", "return cls._read <= _MANY"): "both readers read alike, one record sooner or later",
    ("facts/by_library.py", "defer_build=True"): "when a model is built, not what it reads",
    (
        "rules/patterns.py",
        "if chance <= measures.false_share:",
    ): "what is as likely as the share is told of all or none",
    ("limits/registering.py", "return (True,)"): "where no registration is asked for, in time or not is the same",
    (
        "limits/last_days.py",
        "return (False, True) if self.in_repair.lacking else (False,)",
    ): "where nothing is open the two stays are the same",
    ("limits/last_days.py", "def _of_second_owner("): "asked without it only where what is open moves no last day",
    ("events/standing.py", "return self.amount > 0"): "no payment of nothing is taken",
    ("charts/bars.py", "for amount in self.amounts if amount > 0"): "nothing is added by nothing",
    ("demo/machines.py", "if repaired >= today"): "the shop is told up to a Sunday, on which nobody repairs",
    (
        "keeping/archive.py",
        "> self.path.stat().st_size:",
    ): "headers take room, so that no archive is as long as what it holds",
    ("tables/writing.py", "if len(numbers) <= _SOME:"): "both ways give the same numbers",
    ("desk/wrapping.py", "if len(text) > room:"): "a text that just fits is one line either way",
    ("screen/telling.py", 'if days > 0 else f"{count} ago"'): "a day of nought is told before",
    ("auditing/spilled.py", "if len(self._waiting) >= _NUMBERS:"): "when it is written, not what",
    ("auditing/spilled.py", "if len(waiting) >= self._batch:"): "when it is written, not what",
    ("auditing/spilled.py", "self._file.read(ends - begins)"): "a pickle knows its end",
    ("talk/pasted.py", "isinstance(flags, int) and isinstance(characters, list)"): "both always are",
    ("drawing/timeline.py", "if low.level < high.level"): "two labels of one level were held against each other before",
    ("drawing/timeline.py", "while month < 9999 * 12"): "the last year a date can have",
    ("pages/dates_to_keep.py", "time_left if deadline.days_left > 0"): "nought is answered before",
    (
        "proving/attachment_changes.py",
        "usedforsecurity=False",
    ): "it counts where a machine forbids the sum, and is no secret",
    ("reports/contact_sheet.py", "optimize=True"): "the same picture in more bytes",
    ("tag/draw.py", "optimize=True"): "the same picture in more bytes",
    ("lists/ledger_sheets.py", "constant_memory"): "the same cells",
    ("tag/pictograms.py", "for step in range(16))"): "the same corners, begun elsewhere",
    ("folder/toml_files.py", 'line.count(".") <= _MOST_PARTS'): "the exact look is taken as well",
    ("scripts/found.py", "shapable=False"): "nothing asks the font for shaping",
}
"""Lines whose mutants are the same program, and why: the module's path ends so, the line says so."""


class Mutant(NamedTuple):
    """One fault: the module, the place of the node among those that can be turned, its line, and what it does."""

    path: Path
    place: int
    line: int
    does: str

    def __str__(self) -> str:
        return f"{self.path.relative_to(ROOT)}:{self.line} {self.does} (place {self.place})"


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
    # what was put aside for the collector (tests/conftest.py) is not among its objects: its functions would stay whole
    gc.unfreeze()
    for each in gc.get_objects():
        if isinstance(each, types.FunctionType) and each.__code__.co_filename == name and each.__code__ in changed:
            each.__code__ = changed[each.__code__]
        elif isinstance(each, functools._lru_cache_wrapper):  # noqa: SLF001 - it has no public name
            each.cache_clear()
