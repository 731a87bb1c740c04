"""The parameters of a command, as its function declares them."""

from __future__ import annotations

import types
import typing
from collections.abc import Callable, Sequence
from typing import Any, NamedTuple

from claimpack.commands.line.declared import Argument, Context, Declared

NEEDED: Any = object()
"""The default of a parameter that has none."""


class Parameter(NamedTuple):
    """A parameter of a command.

    `on` are the names of an option, `off` those that say no; `kind` is the kind of each value, of which there are
    several where it takes `many`.
    """

    name: str
    declared: Declared
    kind: Any
    many: bool
    default: Any
    on: tuple[str, ...]
    off: tuple[str, ...]

    @property
    def is_argument(self) -> bool:
        """Whether it is written without a name."""
        return isinstance(self.declared, Argument)

    @property
    def written(self) -> str:
        """How an option is written, or an argument called."""
        return self.declared.metavar or self.name.upper() if self.is_argument else max(self.on, key=len)


def takes_context(function: Callable[..., Any]) -> bool:
    """Whether a command takes the world it runs in, before all else."""
    return function.__code__.co_varnames[:1] == ("context",)


def parameters_of(function: Callable[..., Any]) -> tuple[Parameter, ...]:
    """The parameters of a command in order, without its context."""
    declared = typing.get_type_hints(function, include_extras=True)
    code, defaults = function.__code__, function.__defaults__ or ()
    names = code.co_varnames[: code.co_argcount]
    given = dict(zip(names[len(names) - len(defaults) :], defaults, strict=True))
    return tuple(
        _parameter(name, declared[name], given.get(name, NEEDED)) for name in names if declared[name] is not Context
    )


def _parameter(name: str, declared: Any, default: Any) -> Parameter:
    (said,) = declared.__metadata__
    kind = _without_none(declared.__origin__)
    many = typing.get_origin(kind) is list
    on, off = ((), ()) if isinstance(said, Argument) else _names(name, kind, said.names)
    return Parameter(name, said, typing.get_args(kind)[0] if many else kind, many, default, on, off)


def _without_none(kind: Any) -> Any:
    if not isinstance(kind, types.UnionType):
        return kind
    (left,) = (each for each in typing.get_args(kind) if each is not types.NoneType)
    return left


def _names(name: str, kind: Any, declared: Sequence[str]) -> tuple[tuple[str, ...], tuple[str, ...]]:
    dashed = name.replace("_", "-")
    written = declared or (f"--{dashed}/--no-{dashed}" if kind is bool else f"--{dashed}",)
    parted = [each.partition("/") for each in written]
    return tuple(on for on, _, _ in parted), tuple(off for _, _, off in parted if off)
