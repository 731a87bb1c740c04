"""The map of modules, from the first line of every module: `python tests/module_map.py` prints it."""

from __future__ import annotations

import ast
from pathlib import Path

PACKAGE = Path(__file__).resolve().parent.parent / "claimpack"


def module_map() -> str:
    """Every module by package, one line each."""
    lines: list[str] = []
    for folder in [PACKAGE, *sorted(path.parent for path in PACKAGE.rglob("*/__init__.py"))]:
        lines.append(f"\n**{folder.relative_to(PACKAGE.parent)}/** {_says(folder / '__init__.py')}\n")
        modules = [path for path in sorted(folder.glob("*.py")) if path.name != "__init__.py"]
        lines += [f"- `{path.name}` {_says(path)}" for path in modules]
    return "\n".join(lines).strip()


def _says(path: Path) -> str:
    docstring = ast.get_docstring(ast.parse(path.read_text(encoding="utf-8"))) or ""
    return docstring.partition("\n\n")[0].replace("\n", " ")


if __name__ == "__main__":
    print(module_map())
