"""How this copy of the program was installed, and so how a library is added to it."""

from __future__ import annotations

import os
import sys
import tomllib
from importlib.util import find_spec
from pathlib import Path
from shlex import quote
from typing import Any

_PIPX, _UV = "pipx_metadata.json", "uv-receipt.toml"


def install_command(library: str, place: Path | None = None, has_pip: bool | None = None) -> str:
    """The command that adds a library to this copy, by the program that installed it.

    Args:
        library: as its registry names it; several are parted by blanks.
        place: the folder this copy's libraries lie under; the running program's where none is named.
        has_pip: whether pip is there; looked for where not said.

    Source: pipx writes pipx_metadata.json, `uv tool` uv-receipt.toml, into the environment it makes.
    """
    place, names = place or Path(sys.prefix), [quote(name) for name in library.split()]
    if (place / _PIPX).is_file():
        return f"pipx inject claimpack {' '.join(names)}"
    if (place / _UV).is_file():
        return f"uv tool install {' '.join(f'--with {name}' for name in names)} {quote(_source_of(place / _UV))}"
    if find_spec("pip") is not None if has_pip is None else has_pip:
        return f"{quote(_nearer(sys.executable))} -m pip install {' '.join(names)}"
    return f"uv pip install --python {quote(str(place))} {' '.join(names)}"


def _nearer(program: str) -> str:
    """A program as it is typed from the folder one stands in, where it lies below it."""
    try:
        near = os.path.relpath(program)
    except ValueError:
        return program
    return program if near.startswith("..") else near


def _source_of(receipt: Path) -> str:
    """Where `uv tool` had the program from: a folder, else its name in the registry."""
    try:
        told: dict[str, Any] = tomllib.loads(receipt.read_text(encoding="utf-8"))
        required = next(each for each in told["tool"]["requirements"] if each["name"] == "claimpack")
    except (OSError, ValueError, LookupError, TypeError, StopIteration):
        return "claimpack"
    return str(required.get("directory") or required.get("editable") or "claimpack")
