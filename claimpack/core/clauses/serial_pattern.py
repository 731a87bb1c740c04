"""The form of a serial number: a regular expression, matched in time that grows with the number alone.

Plans come from makers, and inside packets from anybody. Python's own engine can be kept busy for ever by an expression
such as `(a+)+$`; the engine that pydantic carries cannot, whatever it is given.
"""

from __future__ import annotations

from functools import lru_cache

from pydantic_core import SchemaError, SchemaValidator, core_schema

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
    return _whole(pattern).isinstance_python(number)


@lru_cache(maxsize=64)
def _whole(pattern: str) -> SchemaValidator:
    return _engine(rf"\A(?:{pattern})\z")


def _engine(pattern: str) -> SchemaValidator:
    return SchemaValidator(core_schema.str_schema(pattern=pattern, regex_engine="rust-regex"))
