"""Values read as a field declares them, where they are written in just that way; all else is left to pydantic."""

from __future__ import annotations

import datetime as dt
import re
import types
from collections.abc import Callable, Mapping
from decimal import Decimal
from functools import cache
from importlib import import_module
from types import SimpleNamespace
from typing import Annotated, Any, Literal, Union, get_args, get_origin, get_type_hints

from claimpack.core.values.marks import AfterValidator, BeforeValidator, Told

Reader = Callable[[Any], Any]

LONGEST = 100_000
"""Characters of any text, where no shorter limit is set."""

_DAY = re.compile(r"\d{4}-\d\d-\d\d", re.ASCII)
_TIME = re.compile(r"\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d(?:\.\d{6})?", re.ASCII)


def not_plain() -> ValueError:
    """That something is not plainly what is declared: pydantic may read it all the same, or says what is wrong."""
    return ValueError("not plain")


class Declared:
    """A field as its record declares it; its type is looked at when it is first read, since most never are."""

    __slots__ = ("_reader", "annotation", "default", "key", "limits", "module", "name")

    def __init__(self, name: str, annotation: Any, default: Any, module: str) -> None:
        self.name = name
        self.annotation = annotation
        self.module = module
        told = default if isinstance(default, Told) else Told(default)
        self.key = told.alias or name
        self.default = told.default
        self.limits = told.limits
        self._reader: Reader | None = None

    @property
    def is_required(self) -> bool:
        """Whether the record cannot be without it."""
        return self.default is ...

    def absent(self) -> Any:
        """What it counts as while it is not given."""
        return dict(self.default) if type(self.default) is dict else self.default

    def read(self, written: Any) -> Any:
        """The value that is written.

        Raises:
            ValueError: it is wrong, or not plainly what is declared.
        """
        if self._reader is None:
            declared = self.annotation
            if isinstance(declared, str):
                # the type of this field alone: most fields of a record are never read
                alone = SimpleNamespace(__annotations__={self.name: declared})
                declared = get_type_hints(alone, vars(import_module(self.module)), include_extras=True)[self.name]
            self._reader = within(reader(declared), self.limits)
        return self._reader(written)


# Types are declared in the source alone: there are as many as it has, and the same ones over and over.
@cache
def reader(declared: Any) -> Reader:
    """What reads a value of a type with its marks; it raises a ValueError where the value is wrong or not plain."""
    if get_origin(declared) is Annotated:
        read = reader(declared.__origin__)
        for mark in declared.__metadata__:
            read = _marked(read, mark)
        return read
    origin, inner = get_origin(declared), get_args(declared)
    if origin is None:
        return getattr(declared, "read_plainly", None) or _OF_A_KIND.get(declared) or _exactly(declared)
    if origin is Literal:
        return _one_of(inner)
    if origin in (Union, types.UnionType):
        return _either(inner)
    if origin is tuple:
        return _in_a_row(reader(inner[0])) if inner[-1] is ... else _side_by_side([reader(one) for one in inner])
    return _table(reader(inner[0]), reader(inner[1])) if origin is dict else _never


def _marked(read: Reader, mark: Any) -> Reader:
    if isinstance(mark, BeforeValidator):
        return lambda written: read(mark.func(written))
    if isinstance(mark, AfterValidator):
        return lambda written: mark.func(read(written))
    return within(read, mark.limits) if isinstance(mark, Told) else read


def within(read: Reader, limits: Mapping[str, Any]) -> Reader:
    """What reads a value and holds it to limits, both ends in; a pattern is pydantic's to match."""
    if not limits:
        return read
    if limits.keys() - _HOLDS.keys():
        return _never
    checks = [(_HOLDS[name], limit) for name, limit in limits.items()]

    def held(written: Any) -> Any:
        value = read(written)
        # what may be left out has limits only where it is given
        if value is not None and not all(holds(value, limit) for holds, limit in checks):
            raise not_plain()
        return value

    return held


_HOLDS: Mapping[str, Callable[[Any, Any], bool]] = {
    "ge": lambda value, limit: value >= limit,
    "gt": lambda value, limit: value > limit,
    "le": lambda value, limit: value <= limit,
    "min_length": lambda value, limit: len(value) >= limit,
    "max_length": lambda value, limit: len(value) <= limit,
}


def _never(_: Any) -> Any:
    raise not_plain()


def _exactly(kind: type) -> Reader:
    # pydantic would take a 1 for true and a true for 1: here nothing is taken for another kind of value
    def read(written: Any) -> Any:
        if type(written) is not kind:
            raise not_plain()
        return written

    return read


def _text(written: Any) -> Any:
    if type(written) is not str or len(written) > LONGEST:
        raise not_plain()
    if not written.isascii():
        # half of a surrogate pair is no text
        written.encode()
    return written


def _number(written: Any) -> Any:
    if type(written) is not Decimal or not written.is_finite():
        raise not_plain()
    return written


def _day(written: Any) -> Any:
    if type(written) is dt.date:
        return written
    if type(written) is str and _DAY.fullmatch(written):
        return dt.date.fromisoformat(written)
    raise not_plain()


def _time(written: Any) -> Any:
    if type(written) is dt.datetime:
        return written
    if type(written) is str and _TIME.fullmatch(written):
        return dt.datetime.fromisoformat(written)
    raise not_plain()


_OF_A_KIND: Mapping[Any, Reader] = {str: _text, Decimal: _number, dt.date: _day, dt.datetime: _time}


def _one_of(choices: tuple[Any, ...]) -> Reader:
    kinds = {choice: type(choice) for choice in choices}

    def read(written: Any) -> Any:
        if type(written) not in (str, int) or kinds.get(written) is not type(written):
            raise not_plain()
        return written

    return read


def _either(arms: tuple[Any, ...]) -> Reader:
    told = [arm for arm in arms if arm is not types.NoneType]
    if len(told) > 1:
        are_words = all(get_origin(arm) is Literal for arm in told) and len(told) == len(arms)
        return _one_of(tuple(choice for arm in told for choice in get_args(arm))) if are_words else _never
    read = reader(told[0])
    return lambda written: None if written is None else read(written)


def _in_a_row(read: Reader) -> Reader:
    def read_all(written: Any) -> Any:
        if type(written) not in (list, tuple):
            raise not_plain()
        return tuple(map(read, written))

    return read_all


def _side_by_side(readers: list[Reader]) -> Reader:
    def read_each(written: Any) -> Any:
        if type(written) not in (list, tuple) or len(written) != len(readers):
            raise not_plain()
        return tuple(read(each) for read, each in zip(readers, written, strict=True))

    return read_each


def _table(read_key: Reader, read_value: Reader) -> Reader:
    def read_all(written: Any) -> Any:
        if type(written) is not dict:
            raise not_plain()
        return {read_key(key): read_value(value) for key, value in written.items()}

    return read_all
