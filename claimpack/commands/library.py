"""The command library, for what is wrong with a command line and for teaching a shell: it takes long to load."""

from __future__ import annotations

import contextlib
import copy
import os
import re
from collections.abc import Sequence
from functools import cache
from typing import Annotated, Any

import typer
from typer.core import TyperCommand, TyperGroup

from claimpack.commands.catalogue import ABOUT, COMMANDS, EXITS, Subcommand, wanted
from claimpack.commands.desk.outlet import Outlet
from claimpack.commands.desk.say import Say
from claimpack.commands.desk.world import World
from claimpack.commands.found import described_at, found_at
from claimpack.commands.line.declared import Family
from claimpack.commands.line.library_commands import for_library
from claimpack.commands.manual.described import as_help
from claimpack.commands.typed.as_written import AMOUNT, DAY, options_as_meant
from claimpack.commands.typed.claim_left_out import Positional, may_leave_claim_out, with_claim
from claimpack.version import __version__

# Typer may bring a click of its own along, so the class of usage errors is asked of what Typer raises.
_UsageError: Any = typer.BadParameter.__mro__[1]
_OF_A_MINUS = (
    "What begins with a minus is read as an option, and amounts have none. "
    "Money that the maker took back: claimpack pay CLAIM AMOUNT --charged-back"
)
_OF_NUMBERS = (
    ("^Input should be a valid integer.*", "it takes a whole number"),
    ("^Input should be greater than or equal to ", "the least it takes is "),
    ("^Input should be less than or equal to ", "the most it takes is "),
)
_TEACHING = ("--install-completion", "--show-completion")
_NAMED_SHELLS = "_TYPER_COMPLETE_TEST_DISABLE_SHELL_DETECTION"
# What the command library gives for a run that was stopped, and no command does.
_STOPPED = 130


class TypedCommand(TyperCommand):
    """Reads what was typed as it is meant, before the command gets it."""

    def get_help(self, ctx: Any) -> str:
        """What the command is for and takes, with an example."""
        return as_help(described_at(_words(ctx)))

    def get_usage(self, ctx: Any) -> str:
        """How it is typed, in a line."""
        return f"Usage: {described_at(_words(ctx)).usage}"

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
        places = [Positional(str(each.name), each.required, each.nargs != 1) for each in arguments]
        if not may_leave_claim_out(str(self.name), places, args):
            return args
        bare = copy.copy(self)
        bare.params = [each for each in self.params if each.param_type_name != "argument"]
        _, words, _ = bare.make_parser(ctx).parse_args(args=list(args))
        left_out = len(with_claim(world, places, words)) - len(words)
        return [*with_claim(world, places, words)[:left_out], *args]


def _words(ctx: Any) -> str:
    """The words that lead to a command, without the program's own."""
    return str(ctx.command_path).partition(" ")[2]


def _written(parameter: Any) -> str:
    """How an option is written, or an argument called."""
    is_option = parameter.param_type_name == "option"
    return str(max(parameter.opts, key=len)) if is_option else str(parameter.metavar)


def _version(asked: bool) -> None:
    if asked:
        typer.echo(f"claimpack {__version__}")
        raise typer.Exit


def _every_command(
    version: Annotated[
        bool, typer.Option("--version", callback=_version, is_eager=True, help="Show the version.")
    ] = False,
) -> None:
    """Take the options that stand before any command."""


def app_of(commands: Sequence[Subcommand] = COMMANDS) -> typer.Typer:
    """The command line with some of the commands loaded."""
    app = typer.Typer(
        name="claimpack",
        help=ABOUT,
        epilog=EXITS,
        rich_markup_mode=None,
        context_settings={"help_option_names": ["-h", "--help"]},
    )
    app.callback(help=ABOUT, epilog=EXITS)(_every_command)
    for listed in commands:
        found = found_at(listed)
        if isinstance(found, Family):
            app.add_typer(_group_of(found), name=listed.name, help=listed.says)
        else:
            app.command(listed.name, cls=TypedCommand)(for_library(found))
    return app


def _group_of(family: Family) -> typer.Typer:
    class WithDefault(TyperGroup):
        """A family followed by none of its own words means its default command."""

        def get_help(self, ctx: Any) -> str:
            """What the family is for, and its commands."""
            return as_help(described_at(_words(ctx)))

        def get_usage(self, ctx: Any) -> str:
            """How it is typed, in a line."""
            return f"Usage: {described_at(_words(ctx)).usage}"

        def parse_args(self, ctx: Any, args: list[str]) -> list[str]:
            if family.default and (not args or (args[0] not in self.commands and args[0] not in ctx.help_option_names)):
                args = [family.default, *args]
            return super().parse_args(ctx, args)

    group = typer.Typer(cls=WithDefault, no_args_is_help=True)
    group.callback()(_whole_family)
    for name, member in family.members.items():
        settings = {"ignore_unknown_options": True} if member.takes_any_dash else None
        group.command(name, cls=TypedCommand, context_settings=settings)(for_library(member.function))
    return group


def _whole_family() -> None:
    """Take no options before the command."""


def _in_our_words(message: str) -> str:
    """What the library finds wrong, without the words of those who write programs."""
    for theirs, ours in _OF_NUMBERS:
        message = re.sub(theirs, ours, message)
    return message.removeprefix("Value error, ")


@cache
def _command_of(commands: tuple[Subcommand, ...]) -> Any:
    """The same, ready to run; a process that runs a command often puts it together once."""
    return typer.main.get_command(app_of(commands))


def run_by_library(arguments: Sequence[str], world: World) -> int:
    """Run one command in a world and return its exit code; usage errors are told on stderr and give 2."""
    if arguments[1:] and arguments[0] in _TEACHING:
        # a shell that is named is not looked for
        os.environ[_NAMED_SHELLS] = "1"
        command = typer.main.get_command(app_of())
    else:
        command = _command_of(wanted(list(arguments)))
    with contextlib.redirect_stdout(Outlet(world.stdout)), contextlib.redirect_stderr(world.stderr):
        try:
            code = command(args=list(arguments), prog_name="claimpack", standalone_mode=False, obj=world)
        except typer.Abort:
            raise KeyboardInterrupt from None
        except _UsageError as error:
            error.message = _in_our_words(str(error.message))
            error.show(file=world.stderr)
            if re.fullmatch("-[0-9.]", getattr(error, "option_name", "")):
                Say(world).aloud().note(_OF_A_MINUS)
            if "--json" in arguments:
                usage = f"{getattr(error.ctx, 'command_path', 'claimpack')} --help"
                Say(world).failure("usage", (error.format_message(), "", f"See: {usage}"), int(error.exit_code))
            return int(error.exit_code)
        except SystemExit as left:
            # The library leaves by itself when the reader of a pipe stopped reading.
            if isinstance(left.__context__, BrokenPipeError):
                raise left.__context__ from None
            code = left.code
    if code == _STOPPED:
        raise KeyboardInterrupt
    return int(code or 0)
