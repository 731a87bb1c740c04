"""Scripts that are run by hand: --help tells what each measures, what it takes, and an example."""

from __future__ import annotations

import argparse
import os
import sys
from collections.abc import Sequence
from typing import Any, NamedTuple


class Given(NamedTuple):
    """What a script takes: its name, begun by -- for an option, what stands for it where it is left out, and its help.

    A type instead of a default says that it must be given; a list takes several.
    """

    name: str
    default: Any
    help: str


def arguments(tells: str | None, *given: Given, typed: Sequence[str] | None = None) -> argparse.Namespace:
    """What was typed behind the name of a script whose docstring is `tells`; with --help that is printed instead."""
    places = [one for one in given if not one.name.startswith("--")]
    words = (_shown(one) if isinstance(one.default, type) else str(one.default) for one in places if one.default)
    example = f"example: python {os.path.relpath(sys.argv[0])} {' '.join(words)}".rstrip()
    parser = argparse.ArgumentParser(
        description=tells, epilog=example, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    for one in given:
        if one.default is False:
            parser.add_argument(one.name, action="store_true", help=one.help)
            continue
        told = (
            one.help
            if one.default in (None, "", []) or isinstance(one.default, type)
            else f"{one.help}; default: {one.default}"
        )
        taken = {"type": one.default} if isinstance(one.default, type) else {"default": one.default, "type": _kind(one)}
        if one in places and "default" in taken:
            taken["nargs"] = "*" if isinstance(one.default, list) else "?"
        parser.add_argument(one.name, help=told, metavar=_shown(one), **taken)
    return parser.parse_args(typed)


def _kind(one: Given) -> Any:
    return str if one.default is None or isinstance(one.default, list) else type(one.default)


def _shown(one: Given) -> str:
    return one.name.lstrip("-").upper()
