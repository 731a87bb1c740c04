"""What the name given for a file means: a path from where the user stands, or - for a stream."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from claimpack.commands.desk.world import World

STANDARD_OUTPUT = "-"


def ending_of(out: Path | None, endings: tuple[str, ...], why: str, option: str = "--out") -> str:
    """The ending of the name given for a file, in small letters; empty where none is given.

    Args:
        out: the name, if one is given.
        endings: those that there are, as in `.pdf`.
        why: what the file is for, for the message.
        option: what the name was given with.

    Raises:
        BadInput: the name ends in none of them, and is not that of standard output.
    """
    from claimpack.errors import BadInput

    if out is None or str(out) == STANDARD_OUTPUT:
        return ""
    if out.suffix.casefold() in endings:
        return out.suffix.casefold()
    kinds = [f"a {ending[1:].upper()}" for ending in endings]
    is_none = f"neither {' nor '.join(kinds)}" if kinds[1:] else f"not {kinds[0]}"
    raise BadInput(
        f"{option}: {out} is {is_none} file",
        why,
        f"Let the name end in {' or '.join(endings)}.",
    )


def goes_to_stdout(named: Path | None) -> bool:
    """Whether a name is that of standard output."""
    return str(named) == STANDARD_OUTPUT


def answering_beside(
    world: World, named: Path | None, others: object = None, option: str = "--out", *, is_text: bool = False
) -> World:
    """The world to answer in: where a file goes to standard output, everything else that is said goes beside it.

    Args:
        world: the world of the command.
        named: the name given for the file, if one is given.
        others: what else would go to standard output, or to another place in the same run.
        option: what the name was given with.
        is_text: whether the file is text, which a terminal can show.

    Raises:
        BadInput: something else would go there too, or it is a terminal and the file no text.
    """
    from claimpack.errors import BadInput

    if not goes_to_stdout(named):
        return world
    if others:
        raise BadInput(
            f"{option} -: the file goes to standard output, and nothing else can go there with it",
            "Whoever reads it would take the rest for a part of the file.",
            f"Leave out --json and other files, or give {option} the name of a file.",
        )
    if not is_text and world.stdout.isatty():
        raise BadInput(
            f"{option} -: standard output is a terminal, and the file is no text",
            "A terminal would show it as noise.",
            f"Send it to a file or another program, or give {option} a name.",
        )
    return world.but(stdout=world.stderr)


# What a file begins with tells which it is; what nobody knows is text, as lists and plans are.
_BEGINS = ((b"%PDF", ".pdf"), (b"\xff\xd8", ".jpg"), (b"\x89PNG", ".png"), (b"PK", ".xlsx"))


def read_from(world: World, named: Path, called: str = "standard-input", otherwise: str = "") -> Path:
    """The file that a name means; for `-` what comes in on standard input, in a file until the command ends.

    Args:
        world: the world of the command.
        named: the name.
        called: what the file is called that holds standard input, but for its ending.
        otherwise: its ending where its content does not tell.
    """
    from tempfile import TemporaryDirectory

    from claimpack.files import write_atomically

    if str(named) != STANDARD_OUTPUT:
        return world.path(named)
    stdin = world.stdin
    content = stdin.buffer.read() if hasattr(stdin, "buffer") else stdin.read().encode()
    ending = next((ending for begins, ending in _BEGINS if content.startswith(begins)), otherwise)
    held = Path(world.closing.enter_context(TemporaryDirectory(prefix="claimpack-"))) / f"{called}{ending}"
    write_atomically(held, content)
    return held


def write_named(world: World, path: Path, content: bytes) -> None:
    """Put a file where it was wanted: in place at once and whole, or to standard output as it is.

    Args:
        world: the world of the command, whose standard output is meant.
        path: the whole path, as the world gives it.
        content: what goes into the file.

    Raises:
        CannotWrite: the folder is not there, or does not take it.
    """
    from claimpack.commands.desk.say import Say
    from claimpack.files import write_atomically

    if path == world.path(STANDARD_OUTPUT):
        Say(world).content(content)
    else:
        write_atomically(path, content)
