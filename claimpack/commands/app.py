"""The list of commands, and how one is run."""

from __future__ import annotations

import contextlib
from collections.abc import Callable, Sequence
from typing import Annotated, Any

import typer

from claimpack import __version__
from claimpack.commands.build import build
from claimpack.commands.check import check
from claimpack.commands.cover import cover
from claimpack.commands.packet import packet
from claimpack.commands.plan import plan_app
from claimpack.commands.shop import shop_app
from claimpack.commands.start import start
from claimpack.commands.tag import tag
from claimpack.commands.verify import verify
from claimpack.commands.world import World

_HELP = (
    "Warranty claims for a repair shop: an explained verdict, a priced claim, a PDF packet and a tag for the held part."
)

app = typer.Typer(
    name="claimpack",
    help=_HELP,
    rich_markup_mode=None,
    no_args_is_help=True,
    pretty_exceptions_enable=False,
    context_settings={"help_option_names": ["-h", "--help"]},
)
"""The command line."""

COMMANDS: tuple[Callable[..., Any], ...] = (build, check, packet, tag, cover, verify, start)
"""The plain commands, in the order the help shows them."""

for command in COMMANDS:
    app.command()(command)
app.add_typer(plan_app, name="plan")
app.add_typer(shop_app, name="shop")

_UsageError: Any = typer.BadParameter.__mro__[1]


def _version(wanted: bool) -> None:
    if wanted:
        typer.echo(f"claimpack {__version__}")
        raise typer.Exit


@app.callback(epilog="Exit codes: 0 yes or done, 2 bad input, 3 the answer is no, 4 cannot say yet, 1 a fault.")
def every_command(
    version: Annotated[  # noqa: ARG001  typer calls back with it
        bool, typer.Option("--version", callback=_version, is_eager=True, help="Show the version.")
    ] = False,
) -> None:
    """Gather the options that stand before any command."""


every_command.__doc__ = None


def invoke(arguments: Sequence[str], world: World) -> int:
    """Run one command in a world and return its exit code; usage errors are told on stderr and give 2."""
    with contextlib.redirect_stdout(world.stdout), contextlib.redirect_stderr(world.stderr):
        try:
            code = app(args=list(arguments), prog_name="claimpack", standalone_mode=False, obj=world)
        except typer.Abort:
            raise KeyboardInterrupt from None
        except _UsageError as error:
            error.show(file=world.stderr)
            return int(error.exit_code)
    return int(code or 0)
