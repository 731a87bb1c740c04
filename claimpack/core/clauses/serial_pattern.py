"""The form of a serial number: a regular expression, matched in time that grows with the number alone.

Plans come from makers, and inside packets from anybody. Python's own engine can be kept busy for ever by an expression
such as `(a+)+$`; the engine that pydantic carries cannot, whatever it is given. Most forms are letters, digits and a
few counts, on which both engines agree and neither has much to try: those need not wait until pydantic is loaded.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from functools import lru_cache
from typing import Any

LONGEST_FORM = 200
"""Characters of one expression."""

MOST_FORMS = 12
"""Serial numbers of one unit that a plan may give a form for."""


def checked_form(text: str) -> str:
    """The expression as it is.

    Raises:
        ValueError: it is too long, is no regular expression, or asks for what no such engine can promise to end.
    """
    if len(text) > LONGEST_FORM:
        raise ValueError(f"is longer than {LONGEST_FORM} characters, which no form of a serial number is")
    if _plain(text):
        return text
    from pydantic_core import SchemaError

    try:
        # Alone first: one that closes a bracket it did not open would escape the frame put round it later.
        _engine(text)
        _whole(text)
    except SchemaError as error:
        said = str(error).strip().splitlines()[-1].removeprefix("error: ").strip()
        raise ValueError(f"{text!r} is no regular expression for a serial number: {said}") from None
    return text


def has_form(pattern: str, number: str) -> bool:
    """Whether a serial number has the form from end to end."""
    plain = _plain(pattern)
    return bool(plain(number)) if plain else bool(_whole(pattern).isinstance_python(number))


_ONE = r"[A-Z0-9-]|\[(?:[A-Z0-9](?:-[A-Z0-9])?)+\]"
_COUNT = r"\{\d\d?(?:,\d\d?)?\}"
_ONE_OF_SEVERAL = r"\([A-Z0-9]+(?:\|[A-Z0-9]+)*\)"
_PLAIN = re.compile(rf"(?:(?:{_ONE})(?:{_COUNT})?|{_ONE_OF_SEVERAL})+", re.ASCII)
_MANY_CHOICES = re.compile(r"[(,].*[(,].*[(,]")


@lru_cache(maxsize=64)
def _plain(pattern: str) -> Callable[[str], object] | None:
    """What matches a form in capitals, digits and hyphens with at most two choices in it; None for any other form."""
    # with many choices Python's engine would try each with each
    if not _PLAIN.fullmatch(pattern) or _MANY_CHOICES.search(pattern):
        return None
    try:
        return re.compile(pattern).fullmatch
    except re.error:
        return None


@lru_cache(maxsize=64)
def _whole(pattern: str) -> Any:
    return _engine(rf"\A(?:{pattern})\z")


def _engine(pattern: str) -> Any:
    from pydantic_core import SchemaValidator, core_schema

    return SchemaValidator(core_schema.str_schema(pattern=pattern, regex_engine="rust-regex"))
