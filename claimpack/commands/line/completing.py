"""What a shell completes at a TAB: commands, options, and the words of the shop. It must answer while a key is held."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Mapping, Sequence
from enum import Enum
from typing import Any, NamedTuple

from claimpack.commands.line.declared import Family
from claimpack.commands.line.parameters import Parameter, parameters_of

Known = Callable[[str, str], Iterable[str]]
"""Gives the words of the shop of a kind, as in `makers`, that may begin so."""

_BY_OPTION = {
    "--maker": "makers",
    "--model": "models",
    "--component": "components",
    "--use": "uses",
    "--shot": "shots",
    "--shelf": "shelves",
    "--terms": "terms",
    "--stock": "stocks",
    "--layout": "layouts",
    "--form": "forms",
    "--campaign": "campaigns",
    "--state": "states",
    "--like": "claims",
    "--claim": "claims",
}
_BY_WORD = {
    "CLAIM": "claims",
    "SHELF": "shelves",
    "CODE": "codes",
    "SHOT": "shots",
    "STATE": "states",
    "PLAN": "plans",
    "KIND": "kinds",
}
"""Of an argument by the first word that stands for it."""


class Offer(NamedTuple):
    """A word that may come next, and what it means; empty where the word says it."""

    word: str
    says: str = ""


_HELP = Offer("--help", "Show this.")


def offers(
    words: Sequence[str],
    begun: str,
    commands: Mapping[str, str],
    found: Callable[[str], Any],
    known: Known,
    everywhere: Sequence[Offer] = (),
) -> list[Offer]:
    """The words that may come next on a command line, in order.

    Args:
        words: those before it, without the program's name.
        begun: what is typed of it.
        commands: what each command does, by its name.
        found: gives the function of a command, or its family.
        known: the words of the shop.
        everywhere: the options that any command takes.
    """
    if begun.startswith("-") and not words:
        return _beginning(begun, [*everywhere, Offer("--version", "Show the version."), _HELP])
    if not words:
        return _beginning(begun, (Offer(name, says) for name, says in commands.items()))
    if words[0] not in commands:
        return []
    inside, line = found(words[0]), list(words[1:])
    if isinstance(inside, Family):
        if not line:
            members = (Offer(name, _sentence(each.function)) for name, each in inside.members.items())
            return _beginning(begun, members)
        if line[0] not in inside.members:
            return []
        inside, line = inside.members[line[0]].function, line[1:]
    own = _of_a_command(parameters_of(inside), line, begun, known)
    return [*own, *_beginning(begun, everywhere)] if begun.startswith("-") else own


def _of_a_command(parameters: Sequence[Parameter], line: Sequence[str], begun: str, known: Known) -> list[Offer]:
    options = {name: each for each in parameters for name in (*each.on, *each.off)}
    before = options.get(line[-1]) if line else None
    if before is not None and before.kind is not bool:
        return _values(before, begun, known)
    told = [*(Offer(name, each.declared.help) for name, each in options.items()), _HELP]
    if begun.startswith("-"):
        return _beginning(begun, told)
    takes_value = {name for name, each in options.items() if each.kind is not bool}
    typed = [
        word
        for place, word in enumerate(line)
        if not word.startswith("-") and not (place and line[place - 1] in takes_value)
    ]
    arguments = [each for each in parameters if each.is_argument]
    place = min(len(typed), len(arguments) - 1)
    if not arguments or (place < len(typed) and not arguments[place].many):
        return [] if begun else told
    return _values(arguments[place], begun, known)


def _values(parameter: Parameter, begun: str, known: Known) -> list[Offer]:
    if isinstance(parameter.kind, type) and issubclass(parameter.kind, Enum):
        return _beginning(begun, (Offer(each.value) for each in parameter.kind))
    first = re.match(r"\W*([A-Z]+)", parameter.declared.metavar)
    kind = _BY_WORD.get(first[1], "") if parameter.is_argument and first else ""
    kind = kind or next((_BY_OPTION[name] for name in parameter.on if name in _BY_OPTION), "")
    return _beginning(begun, (Offer(word) for word in known(kind, begun))) if kind else []


def _beginning(begun: str, told: Iterable[Offer]) -> list[Offer]:
    return [offer for offer in told if offer.word.casefold().startswith(begun.casefold())]


def _sentence(function: Callable[..., Any]) -> str:
    return " ".join((function.__doc__ or "").partition("\n\n")[0].split())
