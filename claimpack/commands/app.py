"""The command line put together from the commands a run needs."""

from __future__ import annotations

import contextlib
import re
from collections.abc import Sequence
from functools import cache
from importlib import import_module
from typing import Annotated, Any

import typer

from claimpack import __version__
from claimpack.commands.catalogue import ABOUT, COMMANDS, EXITS, Subcommand, wanted
from claimpack.commands.desk.outlet import Outlet
from claimpack.commands.desk.say import Say
from claimpack.commands.desk.world import World
from claimpack.commands.typed.command import TypedCommand, TypedFamily
from claimpack.core.events.event_kinds import EVENT_KINDS, from_where

# Typer may bring a click of its own along, so the class of usage errors is asked of what Typer raises.
_UsageError: Any = typer.BadParameter.__mro__[1]
_OF_A_MINUS = (
    "What begins with a minus is read as an option, and amounts have none. "
    "Money that the maker took back: claimpack pay CLAIM AMOUNT --charged-back"
)
# What the command library gives for a run that was stopped, and no command does.
_STOPPED = 130


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
        no_args_is_help=True,
        pretty_exceptions_enable=False,
        context_settings={"help_option_names": ["-h", "--help"]},
    )
    app.callback(help=ABOUT, epilog=EXITS)(_every_command)
    for listed in commands:
        module, _, attribute = listed.place.partition(":")
        found = getattr(import_module(f"claimpack.commands.{module}"), attribute)
        if isinstance(found, typer.Typer):
            for subcommand in found.registered_commands:
                subcommand.cls = TypedCommand
            own = found.info.cls
            app.add_typer(found, name=listed.name, help=listed.says, cls=own if isinstance(own, type) else TypedFamily)
        else:
            app.command(listed.name, cls=TypedCommand, epilog=_events_of(listed))(found)
    return app


def _events_of(listed: Subcommand) -> str:
    """The events that a command makes, each with the states it follows from, a paragraph each."""
    return "\n\n".join(from_where(EVENT_KINDS[kind]) for kind in listed.makes)


@cache
def _command_of(commands: tuple[Subcommand, ...]) -> Any:
    """The same, ready to run; a process that runs a command often puts it together once."""
    return typer.main.get_command(app_of(commands))


def invoke(arguments: Sequence[str], world: World) -> int:
    """Run one command in a world and return its exit code; usage errors are told on stderr and give 2."""
    completing = "_CLAIMPACK_COMPLETE" in world.environ
    command = _command_of(COMMANDS if completing else wanted(list(arguments)))
    with contextlib.redirect_stdout(Outlet(world.stdout)), contextlib.redirect_stderr(world.stderr):
        try:
            code = command(args=list(arguments), prog_name="claimpack", standalone_mode=False, obj=world)
        except typer.Abort:
            raise KeyboardInterrupt from None
        except _UsageError as error:
            error.message = str(error.message).removeprefix("Value error, ")
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
            raise
    if code == _STOPPED:
        raise KeyboardInterrupt
    return int(code or 0)
