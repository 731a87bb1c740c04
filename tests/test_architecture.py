"""Who may import whom, what the core may not touch, and what a quick answer may not load."""

from __future__ import annotations

import ast
import re
import subprocess
import sys
from functools import cache
from graphlib import TopologicalSorter
from pathlib import Path
from typing import NamedTuple

import pytest

import claimpack

PACKAGE = Path(claimpack.__file__).parent
EDGES = ("book", "evidence", "forms", "packet", "phone", "reports", "tag")
CORE_ROOMS = (
    "values",
    "facts",
    "claims",
    "clauses",
    "plans",
    "reading",
    "pricing",
    "windows",
    "verdict",
    "holding",
    "judging",
    "events",
    "steps",
    "shelf",
    "payment",
    "settlement",
    "auditing",
    "reporting",
    "drafting",
)
"""The rooms of the core, the lowest first: data flows from the first to the last, and no room imports one above it."""

IN_FRONT = {"__main__.py", "scripts.py"}
NOT_IN_CORE = {
    "os",
    "io",
    "sys",
    "time",
    "random",
    "logging",
    "pathlib",
    "subprocess",
    "sqlite3",
    "psycopg",
    "reportlab",
    "PIL",
}
SAMPLE = Path(__file__).resolve().parents[1] / "sample_claims" / "26-0041-short-block"
HEAVY = {"pydantic", "typer", "reportlab", "PIL", "sqlite3", "pikepdf", "tomlkit"}


def sources(folder: str = "") -> list[Path]:
    return sorted((PACKAGE / folder).rglob("*.py"))


class Source(NamedTuple):
    """What a file imports, at its top or inside a function, what it calls, and its classes with what they are of."""

    imported: set[str]
    called: set[str]
    classes: dict[str, set[str]]


@cache
def read(path: Path) -> Source:
    found = Source(set(), set(), {})
    for node in ast.walk(ast.parse(path.read_text())):
        match node:
            case ast.Import():
                found.imported.update(alias.name for alias in node.names)
            case ast.ImportFrom():
                found.imported.update((node.module or "", *(f"{node.module}.{alias.name}" for alias in node.names)))
            case ast.Call(func=ast.Name(id=name) | ast.Attribute(attr=name)):
                found.called.add(name)
            case ast.ClassDef():
                found.classes[node.name] = {getattr(base, "id", "") for base in node.bases}
    return found


def imported(path: Path) -> set[str]:
    return read(path).imported


def called(path: Path) -> set[str]:
    return read(path).called


def strays(folder: str, *allowed: str) -> list[str]:
    """What the files of a folder import of the package and may not: the file and the module."""
    names = ((path, name) for path in sources(folder) for name in imported(path) if name.startswith("claimpack"))
    return [f"{path.relative_to(PACKAGE)}: {name}" for path, name in names if not name.startswith(allowed)]


def test_the_core_imports_itself_and_the_errors_alone():
    assert strays("core", "claimpack.core", "claimpack.errors") == []


def test_the_core_knows_no_file_clock_or_stream():
    touches = {"open", "print", "input", "today", "now", "read_text", "write_text"}
    touched = {path.name: {name.split(".")[0] for name in imported(path)} & NOT_IN_CORE for path in sources("core")}
    assert [name for name, modules in touched.items() if modules - {"pathlib"}] == []
    assert [path.name for path in sources("core") if called(path) & touches] == []


@pytest.mark.parametrize("room", CORE_ROOMS)
def test_a_room_of_the_core_imports_none_above_it(room):
    above = tuple(f"claimpack.core.{other}" for other in CORE_ROOMS[CORE_ROOMS.index(room) + 1 :])
    names = [f"{path.name}: {name}" for path in sources(f"core/{room}") for name in imported(path)]
    assert not [name for name in names if above and name.partition(": ")[2].startswith(above)]


def test_every_room_of_the_core_has_its_level():
    core = PACKAGE / "core"
    assert {path.relative_to(core).parts[0] for path in core.glob("*/**/*.py")} == set(CORE_ROOMS)


@pytest.mark.parametrize("folder", ["book", "commands", "core", "evidence", "packet", "reports"])
def test_no_two_rooms_import_each_other_in_a_circle(folder):
    sorter = TopologicalSorter()
    for path in sources(folder):
        room = ".".join(("claimpack", *path.parent.relative_to(PACKAGE).parts))
        others = {_room_of(name) for name in imported(path) if name.startswith(f"claimpack.{folder}")}
        sorter.add(room, *(others - {room}))
    assert tuple(sorter.static_order())


def _room_of(module: str) -> str:
    """The folder a module lies in; a folder named itself is its own."""
    while not (PACKAGE.parent / module.replace(".", "/")).is_dir():
        module = module.rpartition(".")[0]
    return module


@pytest.mark.parametrize("edge", EDGES)
def test_the_edges_do_not_import_each_other(edge):
    others = tuple(f"claimpack.{other}" for other in EDGES if other != edge)
    assert not {f"{path.name}: {name}" for path in sources(edge) for name in imported(path) if name.startswith(others)}


def test_the_print_room_imports_itself_the_core_and_the_errors_alone():
    assert strays("printing", "claimpack.printing", "claimpack.core", "claimpack.errors") == []


INK = re.compile(r"#[0-9a-fA-F]{6}\b|HexColor|\b612\b|\b595\.")


@pytest.mark.parametrize("edge", EDGES)
def test_inks_and_papers_are_those_of_the_print_room(edge):
    assert not [path.name for path in sources(edge) if INK.search(path.read_text())]


def test_nothing_but_the_program_and_what_scripts_use_imports_the_commands():
    outside = [path for path in sources() if "commands" not in path.parts and path.name not in IN_FRONT]
    assert not [path for path in outside if any(name.startswith("claimpack.commands") for name in imported(path))]


def test_one_module_writes_files():
    writes = {"write_text", "write_bytes", "mkstemp", "replace", "rename", "fsync", "copyfile", "copy2", "move"}
    writers = {path.name for path in sources() if called(path) & (writes - {"replace"})}
    assert writers == {"files.py"}


def test_one_module_reads_the_clock():
    assert {path.name for path in sources() if called(path) & {"now", "today", "utcnow"} and _is_clock(path)} == {
        "world.py"
    }


def _is_clock(path: Path) -> bool:
    """Whether a file asks datetime itself for the time, rather than the world."""
    text = path.read_text()
    return "datetime.now(" in text or "date.today(" in text or "utcnow(" in text


def test_one_module_speaks():
    speakers = {path.name for path in sources() if "print" in called(path) or "sys.stdout.write" in path.read_text()}
    assert speakers <= {"say.py"}


def test_one_exception_root():
    classes = (each for path in sources() for each in read(path).classes.items())
    assert [name for name, bases in classes if bases & {"Exception", "ValueError"}] == ["ClaimpackError"]


RUN = """
import sys
try:
    import claimpack.__main__ as program
    program.main()
except SystemExit:
    pass
print("LOADED", *sorted({name.split(".")[0] for name in sys.modules}))
"""


def loaded_by(*arguments: object) -> set[str]:
    done = subprocess.run([sys.executable, "-c", RUN, *map(str, arguments)], capture_output=True, text=True, check=True)
    return set(done.stdout.split("LOADED", 1)[1].split())


def test_help_loads_no_heavy_library():
    assert not loaded_by("--help") & HEAVY


def test_a_claim_that_is_well_written_is_judged_without_pydantic():
    assert "pydantic_core" not in loaded_by("check", SAMPLE, "--today", "2026-03-01")
