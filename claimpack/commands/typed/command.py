"""A command as people type it: CLAIM left out, days and amounts in their own writing; and how its help shows it."""

from __future__ import annotations

import copy
from typing import Any

from typer.core import TyperCommand, TyperGroup

from claimpack.commands.desk.world import World
from claimpack.commands.typed.as_written import AMOUNT, DAY, options_as_meant
from claimpack.commands.typed.left_out import number_left_out

_BY_NUMBER = ("write-off", "withdraw", "reopen", "forget")
"""What gives a claim up, or erases from it, wants its number each time."""

_ABOUT_SEVERAL = {"chase": "--maker"}
"""Commands that take an option in place of CLAIM, and are then about several."""


class TypedCommand(TyperCommand):
    """Reads what was typed as it is meant, before the command gets it."""

    def get_help(self, ctx: Any) -> str:
        """What the command is for and takes, with an example."""
        return _help_of(self, ctx)

    def get_usage(self, ctx: Any) -> str:
        """How it is typed, in a line."""
        return _usage_of(self, ctx)

    def parse_args(self, ctx: Any, args: list[str]) -> list[str]:
        """Put the claim at hand where CLAIM was left out; then read days and amounts."""
        world = ctx.find_object(World)
        if world is None or ctx.resilient_parsing or set(args) & {"--help", "-h"}:
            return super().parse_args(ctx, args)
        left: list[str] = super().parse_args(ctx, self._with_claim(ctx, world, args))
        kinds = {each.name: (each.metavar, _written(each)) for each in self.params if each.metavar in (DAY, AMOUNT)}
        options_as_meant(world, ctx.params, {str(name): kind for name, kind in kinds.items()})
        return left

    def _with_claim(self, ctx: Any, world: World, args: list[str]) -> list[str]:
        arguments = [each for each in self.params if each.param_type_name == "argument"]
        # Where CLAIM may be absent, its absence has a meaning of its own: every claim.
        instead = _ABOUT_SEVERAL.get(str(self.name))
        several = instead is not None and any(word.partition("=")[0] == instead for word in args)
        takes_one = (
            bool(arguments)
            and arguments[0].name in ("claim", "claims")
            and (arguments[0].required or (instead is not None and not several))
        )
        if not takes_one or self.name in _BY_NUMBER:
            return args
        bare = copy.copy(self)
        bare.params = [each for each in self.params if each.param_type_name != "argument"]
        _, words, _ = bare.make_parser(ctx).parse_args(args=list(args))
        most = None if any(each.nargs != 1 for each in arguments) else len(arguments)
        before_a_part = len(arguments) > 1 and arguments[1].name == "part_number"
        number = number_left_out(world, words, most, before_a_part=before_a_part)
        return [number, *args] if number else args


class TypedFamily(TyperGroup):
    """A family of commands, described as its commands are."""

    def get_help(self, ctx: Any) -> str:
        """What the family is for, and its commands."""
        return _help_of(self, ctx)

    def get_usage(self, ctx: Any) -> str:
        """How it is typed, in a line."""
        return _usage_of(self, ctx)


def _help_of(command: Any, ctx: Any) -> str:
    from claimpack.commands.manual.described import as_help, described

    return as_help(described(command, _words(ctx)))


def _usage_of(command: Any, ctx: Any) -> str:
    from claimpack.commands.manual.described import described

    return f"Usage: {described(command, _words(ctx)).usage}"


def _words(ctx: Any) -> str:
    """The words that lead to a command, without the program's own."""
    return str(ctx.command_path).partition(" ")[2]


def _written(parameter: Any) -> str:
    """How an option is written, or an argument called."""
    is_option = parameter.param_type_name == "option"
    return str(max(parameter.opts, key=len)) if is_option else str(parameter.metavar)
