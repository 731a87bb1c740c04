"""A command described: what it is for, how it is typed, what it takes; the source of its help and its manual page."""

from __future__ import annotations

import shutil
from collections.abc import Callable, Iterator, Sequence
from enum import Enum
from typing import TYPE_CHECKING, Any, NamedTuple

from claimpack.commands.desk.wrapping import continued, hanging
from claimpack.commands.line.parameters import NEEDED, Parameter, parameters_of

if TYPE_CHECKING:
    from claimpack.commands.line.declared import Family

_NARROWEST, _WIDEST = 60, 100
_WORD_ROOM = 26
EVERYWHERE: tuple[tuple[str, str], ...] = (
    ("--shop DIR", "Work in this shop, wherever you stand."),
    ("--all-shops", "The claims of every shop in the book, not only of this one."),
    ("--quiet", "Only answers and errors, no other messages."),
    ("--no-pager", "Do not page a long answer."),
    ("--debug", "Show where a fault of the program is."),
)
"""What any command takes, before or after it."""


class DescribedWord(NamedTuple):
    """A word that is typed, and what it means."""

    word: str
    says: str


class Described(NamedTuple):
    """A command: its words, how it is typed, what it does, what it takes, examples, and what is said at the end."""

    words: str
    usage: str
    says: tuple[str, ...]
    arguments: tuple[DescribedWord, ...] = ()
    options: tuple[DescribedWord, ...] = ()
    commands: tuple[DescribedWord, ...] = ()
    examples: tuple[str, ...] = ()
    ends: tuple[str, ...] = ()


def described(function: Callable[..., Any], words: str, ends: Sequence[str] = ()) -> Described:
    """A command of the command line.

    Args:
        function: what it does, with what it takes declared.
        words: what is typed to get to it, as in `hold send`.
        ends: what is said at the end.
    """
    from claimpack.commands.manual.examples import EXAMPLES

    parameters = parameters_of(function)
    arguments = [each for each in parameters if each.is_argument]
    takes = " ".join([*map(_typed, arguments), "[OPTIONS]"])
    return Described(
        words,
        f"claimpack {words} {takes}",
        _paragraphs(function.__doc__),
        tuple(DescribedWord(_typed(each), each.declared.help) for each in arguments),
        (*(_option(each) for each in parameters if not each.is_argument), _HELP),
        examples=tuple(f"claimpack {line}" for line in EXAMPLES.get(words, ())),
        ends=tuple(ends),
    )


def described_family(family: Family, words: str) -> Described:
    """A family of commands."""
    told = [DescribedWord(name, _paragraphs(member.function.__doc__)[0]) for name, member in family.members.items()]
    usage = f"claimpack {words} COMMAND [OPTIONS]"
    return Described(words, usage, (family.help,), (), (_HELP,), tuple(told), ends=_paragraphs(family.epilog))


_HELP = DescribedWord("-h, --help", "Show this.")


def _paragraphs(text: str | None) -> tuple[str, ...]:
    return tuple(" ".join(each.split()) for each in (text or "").split("\n\n") if each.strip())


def _typed(argument: Parameter) -> str:
    """An argument as it is typed: in brackets where it may be left out, with dots where there may be more."""
    word = argument.written
    if argument.many and not word.endswith(("…", "...", "]")):
        word = f"{word}…"
    return word if argument.default is NEEDED or word.startswith("[") else f"[{word}]"


def _option(option: Parameter) -> DescribedWord:
    names = ", ".join(sorted(option.on, key=len))
    is_flag, default = option.kind is bool, option.default
    word = " / ".join((names, *option.off)) if is_flag else f"{names} {value_word(option)}"
    is_told = not is_flag and default not in (NEEDED, None, "", 0)
    value = default.value if isinstance(default, Enum) else default
    return DescribedWord(word, f"{option.declared.help}{f' [{value}]' if is_told else ''}")


def value_word(option: Parameter) -> str:
    """The word that stands for an option's value, as in DATE: its own, else the last word of its name."""
    return option.declared.metavar or option.name.rpartition("_")[2].upper()


def as_help(told: Described, width: int | None = None) -> str:
    """A command's help, in lines no wider than the terminal, between 60 and 100 columns."""
    room = max(_NARROWEST, min(_WIDEST, width or shutil.get_terminal_size((_WIDEST, 24)).columns))
    lines = [hanging("Usage: ", told.usage, room)]
    for paragraph in told.says:
        lines += ["", hanging("  ", paragraph, room)]
    lines += _listed("Arguments", told.arguments, room)
    lines += _listed("Commands", told.commands, room)
    lines += _listed("Options", told.options, room)
    if told.examples:
        lines += ["", "Example:" if len(told.examples) == 1 else "Examples:"]
        lines += [f"  {part}" for line in told.examples for part in continued(line, room - 2)]
    for paragraph in told.ends:
        lines += ["", hanging("", paragraph, room)]
    if not told.commands:
        others = ", ".join(word for word, _ in EVERYWHERE)
        lines += ["", hanging("", f"Any command also takes {others}: claimpack --help", room)]
    return "\n".join(lines)


def _listed(title: str, told: Sequence[DescribedWord], room: int) -> Iterator[str]:
    if told:
        yield from ("", f"{title}:")
    fitting = [len(each.word) for each in told if len(each.word) <= _WORD_ROOM]
    column = max(fitting, default=0) + 4
    for word, says in told:
        if len(word) > _WORD_ROOM:
            yield f"  {word}"
            yield hanging(" " * column, says, room)
        else:
            yield hanging(f"  {word:<{column - 2}}", says, room)
