"""TOML files of the shop: read exactly, every number as it was written."""

from __future__ import annotations

import tomllib
from decimal import Decimal, InvalidOperation
from pathlib import Path
from typing import Any, TypeVar

from pydantic import BaseModel

from claimpack.core.keys import record_from
from claimpack.errors import BadInput
from claimpack.files import read_text

Kind = TypeVar("Kind", bound=BaseModel)

_ADVICE = (
    "Look for a key or table that is given twice. Texts stand in quotes, dates and numbers without; "
    "a list stands in [ ]."
)


def read_toml(path: Path) -> dict[str, Any]:
    """The keys of a TOML file; numbers with a point come as exact decimals.

    Raises:
        NotFound: there is no such file.
        BadInput: it cannot be read, is not UTF-8, or is no TOML (a key given twice among other things).
    """
    return parse_toml(read_text(path), str(path))


def parse_toml(text: str, source: str) -> dict[str, Any]:
    """The keys of TOML text.

    Raises:
        BadInput: it is no TOML; the line is named.
    """
    try:
        return tomllib.loads(text, parse_float=Decimal)
    except tomllib.TOMLDecodeError as error:
        raise BadInput(f"{source}: {error}", do=_ADVICE) from None
    except (RecursionError, ValueError, InvalidOperation):
        raise BadInput(f"{source} holds a number or a nesting that nobody would write by hand") from None


def read_record(kind: type[Kind], path: Path) -> Kind:
    """A record from a TOML file.

    Raises:
        NotFound: there is no such file.
        BadInput: what `read_toml` or the record's keys refuse.
    """
    return record_from(kind, read_toml(path), str(path))
