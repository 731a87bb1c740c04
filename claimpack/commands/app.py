"""The list of commands, and how one is run."""

from __future__ import annotations

import contextlib
from collections.abc import Callable, Sequence
from typing import Annotated, Any

import typer

from claimpack import __version__
from claimpack.commands.answer import answer
from claimpack.commands.audit import audit_app
from claimpack.commands.build import build
from claimpack.commands.chase import chase
from claimpack.commands.check import check
from claimpack.commands.cover import cover
from claimpack.commands.edit import edit
from claimpack.commands.due import due
from claimpack.commands.export import export
from claimpack.commands.file import file
from claimpack.commands.find import find
from claimpack.commands.finding import finding_app
from claimpack.commands.history import history
from claimpack.commands.hold import hold_app
from claimpack.commands.import_ import import_
from claimpack.commands.labour import labour_app
from claimpack.commands.list_claims import list_claims
from claimpack.commands.open_claim import open_claim
from claimpack.commands.packet import packet
from claimpack.commands.part import part_app
from claimpack.commands.pay import pay
from claimpack.commands.pending import pending
from claimpack.commands.photo import photo_app
from claimpack.commands.plan import plan_app
from claimpack.commands.received import received
from claimpack.commands.reopen import reopen
from claimpack.commands.set_key import set_key
from claimpack.commands.shop import shop_app
from claimpack.commands.show import show
from claimpack.commands.start import start
from claimpack.commands.tag import tag
from claimpack.commands.verify import verify
from claimpack.commands.withdraw import withdraw
from claimpack.commands.world import World
from claimpack.commands.write_off import write_off

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

COMMANDS: tuple[Callable[..., Any], ...] = (
    build,
    check,
    packet,
    tag,
    cover,
    verify,
    start,
    file,
    answer,
    pay,
    withdraw,
    write_off,
    reopen,
    received,
    pending,
    due,
    chase,
    export,
)
"""The plain commands, in the order the help shows them."""

NAMED: dict[str, Callable[..., Any]] = {
    "open": open_claim,
    "show": show,
    "edit": edit,
    "set": set_key,
    "find": find,
    "list": list_claims,
    "history": history,
}
"""The plain commands of the counter, whose names Python has taken in part."""

for command in COMMANDS:
    app.command()(command)
for name, command in NAMED.items():
    app.command(name)(command)
app.command("import")(import_)
app.add_typer(photo_app, name="photo")
app.add_typer(finding_app, name="finding")
app.add_typer(part_app, name="part")
app.add_typer(labour_app, name="labour")
app.add_typer(hold_app, name="hold")
app.add_typer(audit_app, name="audit")
app.add_typer(plan_app, name="plan")
app.add_typer(shop_app, name="shop")

_UsageError: Any = typer.BadParameter.__mro__[1]


def _version(wanted: bool) -> None:
    if wanted:
        typer.echo(f"claimpack {__version__}")
        raise typer.Exit


@app.callback(epilog="Exit codes: 0 yes or done, 2 bad input, 3 the answer is no, 4 cannot say yet, 1 a fault.")
def every_command(
    version: Annotated[
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
