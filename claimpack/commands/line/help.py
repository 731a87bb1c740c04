"""The help of a command or a family, made from what it declares."""

from __future__ import annotations

import shutil
import textwrap
from collections.abc import Callable, Iterator, Mapping, Sequence
from enum import Enum
from typing import Any

from claimpack.commands.line.declared import Family
from claimpack.commands.line.parameters import NEEDED, Parameter, parameters_of

_WIDEST, _NARROWEST = 80, 52
_LONGEST_NAME = 30
_HELP = ("-h, --help", "Show this message and exit.")

Rows = Sequence[tuple[str, str]]


def help_of(path: str, function: Callable[..., Any], epilog: Sequence[str] = ()) -> str:
    """What a command is for and what it takes, and the paragraphs that stand below it."""
    parameters = parameters_of(function)
    arguments = [each for each in parameters if each.is_argument]
    options = [(_option_written(each), _described(each)) for each in parameters if not each.is_argument]
    usage = ["[OPTIONS]", *map(_in_usage, arguments)]
    lists = {"Arguments": [(each.written, _described(each)) for each in arguments], "Options": [*options, _HELP]}
    return _page(path, usage, function.__doc__ or "", lists, epilog)


def help_of_family(path: str, family: Family, says: str) -> str:
    """What a family is for, and its commands."""
    commands = [(name, _first_sentence(member.function)) for name, member in family.members.items()]
    lists = {"Options": [_HELP], "Commands": commands}
    return _page(path, ["[OPTIONS]", "COMMAND", "[ARGS]..."], says, lists, [family.epilog] if family.epilog else [])


def _page(path: str, usage: Sequence[str], about: str, lists: Mapping[str, Rows], epilog: Sequence[str]) -> str:
    width = max(min(shutil.get_terminal_size((_WIDEST, 24)).columns, _WIDEST), _NARROWEST) - 2
    begins = f"Usage: {path} "
    lines = textwrap.wrap(" ".join(usage), width, initial_indent=begins, subsequent_indent=" " * len(begins))
    paragraphs = [" ".join(each.split()) for each in about.split("\n\n")]
    lines += _indented([each for each in paragraphs if each], width)
    for title, rows in lists.items():
        if rows:
            lines += ["", f"{title}:", *_listed(rows, width)]
    return "\n".join([*lines, *_indented(epilog, width)])


def _indented(paragraphs: Sequence[str], width: int) -> Iterator[str]:
    for paragraph in paragraphs:
        yield ""
        yield from textwrap.wrap(paragraph, width, initial_indent="  ", subsequent_indent="  ")


def _listed(rows: Rows, width: int) -> Iterator[str]:
    """Names and what they are, in two columns; what is too long stands on a line of its own."""
    column = min(max(len(name) for name, _ in rows), _LONGEST_NAME) + 2
    for name, says in rows:
        first, *more = textwrap.wrap(says, width - column - 2) or [""]
        if len(name) > column - 2:
            yield f"  {name}"
            name = ""
        yield f"  {name:<{column}}{first}".rstrip()
        yield from (f"{'':<{column + 2}}{line}" for line in more)


def _in_usage(argument: Parameter) -> str:
    written = argument.written if argument.default is NEEDED else f"[{argument.written}]"
    return f"{written}..." if argument.many else written


def _option_written(option: Parameter) -> str:
    names = " / ".join(", ".join(each) for each in (option.on, option.off) if each)
    return names if option.kind is bool else f"{names} {option.declared.metavar or _kind(option)}"


def _kind(option: Parameter) -> str:
    """What stands for the value of an option that has no word for it: what may be chosen, or what it is called."""
    if isinstance(option.kind, type) and issubclass(option.kind, Enum):
        return f"[{'|'.join(each.value for each in option.kind)}]"
    return "N" if option.kind is int else option.name.replace("_", "-").upper()


def _described(parameter: Parameter) -> str:
    """What a parameter is, with its default and its limits."""
    declared, default, extra = parameter.declared, parameter.default, []
    if declared.show_default and not parameter.is_argument and default not in (NEEDED, None, "", False):
        extra.append(f"default: {default.value if isinstance(default, Enum) else default}")
    if declared.min is not None or declared.max is not None:
        least = "" if declared.min is None else f"from {declared.min}"
        extra.append(f"{least} {'' if declared.max is None else f'to {declared.max}'}".strip())
    return f"{declared.help}  [{'; '.join(extra)}]" if extra else declared.help


def _first_sentence(function: Callable[..., Any]) -> str:
    return " ".join((function.__doc__ or "").partition("\n\n")[0].split())
