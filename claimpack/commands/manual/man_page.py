"""The manual page, written from what the help is written from.

Source: man(7), the macros of manual pages, as groff and mandoc set them.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from datetime import date

from claimpack.commands.manual.described import EVERYWHERE, Described, DescribedWord

ENVIRONMENT: tuple[tuple[str, str], ...] = (
    ("CLAIMPACK_SHOP", "The shop's folder, where it is not the one you stand in."),
    ("CLAIMPACK_SHOPS", "all: every shop of the book is meant, as with --all-shops."),
    ("CLAIMPACK_WHO", "Who is at work, for the history; else the name you logged in with."),
    ("CLAIMPACK_PAGER, PAGER", "What shows an answer longer than the screen; empty: nothing."),
    ("CLAIMPACK_PASSPHRASE", "The passphrase of the shop's key, for signing without a question."),
    ("NO_COLOR", "No colour, where it is not empty."),
)
"""What the program reads from its surroundings."""


def man_page(about: str, groups: Sequence[tuple[str, Sequence[Described]]], exits: str, day: date, version: str) -> str:
    """The page of the whole program, in roff.

    Args:
        about: what the program is for, in a sentence.
        groups: the commands under their titles, families before their own commands.
        exits: what its exit codes mean.
        day: the day the page is dated.
        version: the program's version.
    """
    lines = [
        f'.TH CLAIMPACK 1 "{day}" "claimpack {version}" "claimpack"',
        ".SH NAME",
        r"claimpack \- warranty claims for a repair shop",
        ".SH SYNOPSIS",
        ".B claimpack",
        r"COMMAND [OPTIONS]",
        ".SH DESCRIPTION",
        _text(about),
        ".PP",
        "CLAIM is a claim's number in the book, or a claim folder; a file called - is standard input or output.",
    ]
    for title, commands in groups:
        lines.append(f".SH {_text(title.upper())}")
        for told in commands:
            lines += _command(told)
    lines += [".SH ANY COMMAND", *_listed(DescribedWord(*each) for each in EVERYWHERE)]
    lines += [
        ".SH ENVIRONMENT",
        *_listed(DescribedWord(*each) for each in ENVIRONMENT),
        ".SH EXIT STATUS",
        _text(exits),
    ]
    return "\n".join(lines) + "\n"


def _command(told: Described) -> Iterator[str]:
    yield f".SS {_text(told.usage)}"
    for place, paragraph in enumerate(told.says):
        if place:
            yield ".PP"
        yield _text(paragraph)
    yield from _listed((*told.arguments, *(each for each in told.options if each.word != "-h, --help")))
    for line in told.examples:
        yield from (".PP", ".nf", _text(line), ".fi")


def _listed(told: Iterable[DescribedWord]) -> Iterator[str]:
    for word, says in told:
        yield from (".TP", f".B {_text(word)}", _text(says))


def _text(text: str) -> str:
    """Text that roff sets as it is: no sign in it is a command, and a hyphen can be copied."""
    escaped = text.replace("\\", r"\e").replace("-", r"\-")
    escaped = "".join(sign if sign.isascii() else rf"\[u{ord(sign):04X}]" for sign in escaped)
    return rf"\&{escaped}" if escaped.startswith((".", "'")) else escaped
