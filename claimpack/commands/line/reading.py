"""What was typed, read by what a command declares; None where the command library must tell what is wrong with it."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import Any, NamedTuple

from claimpack.commands.line.parameters import NEEDED, Parameter

HELP = ("--help", "-h")


class Typed(NamedTuple):
    """The words of a command line: those that are no options, and what its options say, by the parameter's name."""

    words: list[str]
    options: dict[str, Any]
    asks_for_help: bool


def typed(parameters: Sequence[Parameter], line: Sequence[str]) -> Typed | None:
    """A command line taken apart; None where an option is unknown, or does not fit."""
    options = {name: parameter for parameter in parameters for name in (*parameter.on, *parameter.off)}
    found, words, asks = dict[str, Any](), list[str](), False
    left = iter(line)
    for word in left:
        if word == "--":
            words += left
        elif word in HELP:
            asks = True
        elif not word.startswith("-") or word == "-":
            words.append(word)
        else:
            name, given, text = word.partition("=")
            parameter = options.get(name)
            if parameter is None:
                return None
            if parameter.kind is bool:
                value: Any = None if given else name in parameter.on
            else:
                value = _value(parameter, text if given else next(left, None))
            if value is None:
                return None
            if parameter.many:
                found.setdefault(parameter.name, []).append(value)
            else:
                found[parameter.name] = value
    return Typed(words, found, asks)


def with_words(parameters: Sequence[Parameter], told: Typed) -> dict[str, Any] | None:
    """The value of every parameter; None where an argument is missing, too much, or does not fit."""
    arguments = [parameter for parameter in parameters if parameter.is_argument]
    placed = _placed(arguments, told.words)
    if placed is None:
        return None
    values = told.options | placed
    for parameter in parameters:
        if values.setdefault(parameter.name, parameter.default) is NEEDED:
            return None
    return values


def _placed(arguments: Sequence[Parameter], words: Sequence[str]) -> dict[str, Any] | None:
    """The words put in the places of arguments, in order; one that takes many takes what the others leave."""
    several = next((place for place, argument in enumerate(arguments) if argument.many), None)
    if several is None:
        pairs = list(zip(arguments, words, strict=False))
        return _values(pairs) if len(words) <= len(arguments) else None
    after = len(arguments) - several - 1
    if len(words) <= several + after:
        return None if after else _values(list(zip(arguments, words, strict=False)))
    end = len(words) - after
    single = [*zip(arguments, words[:several], strict=False), *zip(arguments[several + 1 :], words[end:], strict=True)]
    found = _values(single)
    many = [_value(arguments[several], word) for word in words[several:end]]
    return None if found is None or None in many else {**found, arguments[several].name: many}


def _values(pairs: Sequence[tuple[Parameter, str]]) -> dict[str, Any] | None:
    values = {parameter.name: _value(parameter, word) for parameter, word in pairs}
    return None if None in values.values() else values


def _value(parameter: Parameter, word: str | None) -> Any:
    """A word as the kind of value that a parameter takes; None where it is none of that kind."""
    kind = parameter.kind
    if word is None or not word.isprintable():
        return None
    if kind is str:
        return word
    if kind is Path:
        return Path(word) if word else None
    if kind is int:
        return _number(parameter, word)
    return next((each for each in kind if each.value == word), None)


def _number(parameter: Parameter, word: str) -> int | None:
    least, most = parameter.declared.min, parameter.declared.max
    number = int(word) if word.isascii() and word.isdecimal() and len(word) < 10 else None
    if number is None or (least is not None and number < least) or (most is not None and number > most):
        return None
    return number
