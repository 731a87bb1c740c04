"""What commands declare of their arguments and options; light, since every run reads it.

The command library, which tells what is wrong with a command line, takes many times as long to load: it is given the
same declarations when it is needed (`library.py`).
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any, NamedTuple, TypeVar

Function = TypeVar("Function", bound=Callable[..., Any])


class Declared:
    """An argument or an option as its command declares it."""

    def __init__(
        self,
        *names: str,
        metavar: str = "",
        help: str = "",  # noqa: A002  as the command library calls it
        min: int | None = None,  # noqa: A002  as above
        max: int | None = None,  # noqa: A002  as above
    ) -> None:
        """Declare it.

        Args:
            names: how the option is written, as in `--yes` or `--on/--off`; none for one called as its parameter is.
            metavar: what stands for its value.
            help: what it is, in a sentence.
            min: the least number.
            max: the greatest number.
        """
        self.names, self.metavar, self.help = names, metavar, help
        self.min, self.max = min, max


class Option(Declared):
    """An option: what is written with a name before it, or a name alone."""


class Argument(Declared):
    """An argument: what is written without a name, in its place."""


class Context(NamedTuple):
    """What a command is called with beside its arguments: the world."""

    obj: Any


class Member(NamedTuple):
    """A command of a family: its function, and whether it takes what looks like an option for an argument."""

    function: Callable[..., Any]
    takes_any_dash: bool


class Family:
    """Commands under one name, as in `photo add`."""

    def __init__(self, *, help: str, epilog: str = "", default: str = "") -> None:  # noqa: A002  as above
        """Begin a family.

        Args:
            help: what its commands are for, in a sentence.
            epilog: what stands below its help.
            default: the command that is meant where none is named; empty where one must be.
        """
        self.help, self.epilog, self.default = help, epilog, default
        self.members: dict[str, Member] = {}

    def command(self, name: str = "", *, takes_any_dash: bool = False) -> Callable[[Function], Function]:
        """Take a function into the family, under its own name where no other is given."""

        def taken(function: Function) -> Function:
            self.members[name or function.__name__] = Member(function, takes_any_dash)
            return function

        return taken
