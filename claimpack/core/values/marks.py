"""What the type of a field is marked with, its checks, its limits, how it is written: pydantic's words without it.

A command that reads what is well written needs no pydantic, whose import alone takes longer than the command. What a
mark means is pydantic's to say: `core/facts/by_library.py` gives it pydantic's own of the same name.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING, Any, TypeVar

Function = TypeVar("Function", bound=Callable[..., Any])

CHECKS_RECORD = "_checks_record"
"""The attribute by which a method is known that checks the record as a whole."""


# No named tuples: two marks with one function must not be equal, or types made with them would be taken for one.
class _OfFunction:
    __slots__ = ("func",)

    def __init__(self, func: Callable[..., Any]) -> None:
        self.func = func


class AfterValidator(_OfFunction):
    """The function checks, or puts right, the value that was read; it refuses it by a ValueError."""

    __slots__ = ()


class BeforeValidator(_OfFunction):
    """The function takes what was written, and gives what is to be read."""

    __slots__ = ()


class PlainSerializer(_OfFunction):
    """The function gives what is written for a value."""

    __slots__ = ()


class WrapSerializer(_OfFunction):
    """The function gives what is written for a value, from the value and a function that writes it plainly."""

    __slots__ = ()


class Told:
    """What a field counts as while it is absent, its key where that is no name, and its limits, both ends in."""

    __slots__ = ("alias", "default", "limits")

    def __init__(self, default: Any = ..., *, alias: str | None = None, **limits: Any) -> None:
        self.default = default
        self.alias = alias
        self.limits = limits


if TYPE_CHECKING:
    # The type checker knows pydantic's own, and by them which fields must be given and by what key.
    from pydantic import Field as Field  # noqa: PLC0414 - the form in which a name is handed on
    from pydantic import model_validator as model_validator  # noqa: PLC0414
else:
    Field = Told

    def model_validator(*, mode: str) -> Callable[[Function], Function]:
        """Mark a method that checks the record as a whole, once each of its fields was read."""
        if mode != "after":
            raise TypeError(f"a record is checked after its fields are read, not {mode}")

        def marked(method: Function) -> Function:
            setattr(method, CHECKS_RECORD, mode)
            return method

        return marked
