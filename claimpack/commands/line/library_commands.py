"""Commands as the command library takes them, which tells what is wrong with a command line."""

from __future__ import annotations

import inspect
from collections.abc import Callable
from typing import Annotated, Any

import typer

from claimpack.commands.line.parameters import NEEDED, Parameter, parameters_of, takes_context


def for_library(function: Callable[..., Any]) -> Callable[..., Any]:
    """A function that does the same, with its parameters declared in the library's own words."""

    def command(**given: Any) -> Any:
        return function(**given)

    declared = {"context": typer.Context} if takes_context(function) else {}
    defaults: dict[str, Any] = {}
    for parameter in parameters_of(function):
        declared[parameter.name] = _annotated(parameter)
        defaults[parameter.name] = inspect.Parameter.empty if parameter.default is NEEDED else parameter.default
    command.__name__, command.__doc__, command.__annotations__ = function.__name__, function.__doc__, declared
    command.__signature__ = inspect.Signature(  # type: ignore[attr-defined]
        [
            inspect.Parameter(
                name,
                inspect.Parameter.KEYWORD_ONLY,
                default=defaults.get(name, inspect.Parameter.empty),
                annotation=annotation,
            )
            for name, annotation in declared.items()
        ]
    )
    return command


def _annotated(parameter: Parameter) -> Any:
    said = parameter.declared
    kind = list[parameter.kind] if parameter.many else parameter.kind  # type: ignore[name-defined]
    if parameter.default is None:
        kind = kind | None
    words: dict[str, Any] = {"metavar": said.metavar or None, "help": said.help}
    words |= {"min": said.min, "max": said.max} if parameter.kind is int else {}
    if parameter.is_argument:
        return Annotated[kind, typer.Argument(**words)]
    return Annotated[kind, typer.Option(*said.names, **words)]
