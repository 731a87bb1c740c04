"""The module map of DEVELOPERS.md, from the first line of every module: `python tests/module_map.py` rewrites it."""

from __future__ import annotations

import ast
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
BEGINS, ENDS = "<!-- module map -->", "<!-- end of module map -->"


def module_map() -> str:
    """Every module by package, one line each."""
    lines: list[str] = []
    package = ROOT / "claimpack"
    for folder in [package, *sorted(path.parent for path in package.rglob("*/__init__.py"))]:
        lines.append(f"\n**{folder.relative_to(ROOT)}/** {_says(folder / '__init__.py')}\n")
        modules = [path for path in sorted(folder.glob("*.py")) if path.name != "__init__.py"]
        lines += [f"- `{path.name}` {_says(path)}" for path in modules]
    return "\n".join(lines).strip()


def _says(path: Path) -> str:
    docstring = ast.get_docstring(ast.parse(path.read_text(encoding="utf-8"))) or ""
    return docstring.partition("\n\n")[0].replace("\n", " ")


def written() -> str:
    """The map as DEVELOPERS.md has it."""
    text = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
    return text.partition(BEGINS)[2].partition(ENDS)[0].strip()


if __name__ == "__main__":
    path = ROOT / "DEVELOPERS.md"
    before, _, rest = path.read_text(encoding="utf-8").partition(BEGINS)
    after = rest.partition(ENDS)[2]
    path.write_text(f"{before}{BEGINS}\n\n{module_map()}\n\n{ENDS}{after}", encoding="utf-8")
