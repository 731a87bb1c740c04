"""Files handed to the system's printer: by `lp`, on Windows by what the shell prints such files with."""

from __future__ import annotations

import os
import shlex
import shutil
import subprocess
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any, NamedTuple

from claimpack.commands.line.declared import Option
from claimpack.errors import BadInput, CannotWrite, NotInstalled

if TYPE_CHECKING:
    from claimpack.commands.desk.say import Say
    from claimpack.commands.desk.world import World

Print = Annotated[bool, Option("--print", help="Also send it to the printer.")]
Printer = Annotated[str, Option("--printer", metavar="NAME", help="Which printer; default: the system's.")]
DryRun = Annotated[bool, Option("--dry-run", help="With --print: only say what would be run.")]

# What takes longer has lost its printer; the job itself goes on without who handed it over.
_MOST_SECONDS = 60


def on_windows() -> bool:
    """Whether printing is Windows' own."""
    return os.name == "nt"


class PrintJob(NamedTuple):
    """Whether files are printed once they are written, on which printer, and whether that is only said."""

    wanted: bool
    printer: str
    dry_run: bool

    def run(self, world: World, files: Sequence[Path], write: Callable[[], None], *, raw: bool = False) -> list[str]:
        """Write files, and print them where that is wanted; what was run, word by word, or would be.

        Args:
            world: the world of the command.
            files: what is written, by whole paths.
            write: writes it; not called where it is only said what would be run.
            raw: whether the files speak the printer's language.

        Raises:
            ClaimpackError: they cannot be written, or the printer does not take them.
        """
        words = words_of(files, self.printer, raw=raw, windows=on_windows()) if self.wanted else []
        if not self.dry_run:
            write()
            if words:
                print_files(world, files, self.printer, words)
        return words

    def tell(self, say: Say, words: Sequence[str]) -> None:
        """Say what was run, or would be."""
        if words and self.dry_run:
            say.answer(f"Not written, not printed. It would run: {said(words, windows=on_windows())}")
        elif words:
            say.note(f"Sent to {self.printer or 'the printer'}.")

    def as_json(self, words: Sequence[str]) -> dict[str, Any]:
        """The same for scripts; nothing where nothing is printed."""
        return {"printed": {"run": list(words), "dry_run": self.dry_run}} if words else {}


def print_job(out: Path | None, printer: str, *, wanted: bool, dry_run: bool) -> PrintJob:
    """What the options about printing come to.

    Raises:
        BadInput: they mean nothing without each other, or the file goes to standard output.
    """
    if (dry_run or printer) and not wanted:
        raise BadInput(f"{'--dry-run' if dry_run else '--printer'} belongs to --print", do="Give both, or none.")
    if wanted and str(out) == "-":
        raise BadInput(
            "--out - and --print contradict each other",
            "What goes to standard output lies in no file that could be printed.",
            "Leave one of them out.",
        )
    return PrintJob(wanted, printer, dry_run)


def words_of(files: Sequence[Path], printer: str, *, raw: bool, windows: bool) -> list[str]:
    """What is run to print files, word by word; on Windows the shell's verb and what it is given.

    Args:
        files: what is printed, by whole paths.
        printer: its name; empty for the system's own choice.
        raw: whether the files speak the printer's language.
        windows: whether Windows prints.

    Raises:
        BadInput: on Windows the files speak the printer's language, or the name cannot be one.
    """
    if not windows:
        named, plainly = ["-d", printer] if printer else [], ["-o", "raw"] if raw else []
        return ["lp", *named, *plainly, "--", *map(str, files)]
    if raw:
        raise BadInput(
            "--print: Windows sends no label as it is",
            "Its shell would print the printer's language as text.",
            rf"Copy it to the shared printer: copy /b {files[0].name} \\COMPUTER\PRINTER",
        )
    if '"' in printer:
        raise BadInput(f"--printer: {printer!r} is no printer's name", do="Give the name that Windows shows.")
    return ["printto" if printer else "print", *map(str, files), *([printer] if printer else [])]


def said(words: Sequence[str], *, windows: bool) -> str:
    """What is run, on one line."""
    return subprocess.list2cmdline(words) if windows else shlex.join(words)


def print_files(world: World, files: Sequence[Path], printer: str, words: Sequence[str]) -> None:
    """Hand files to the printer.

    Raises:
        NotInstalled: there is nothing to print with.
        CannotWrite: the printer does not take them; the files stay where they are.
    """
    if on_windows():
        start = getattr(os, "startfile")  # noqa: B009  # there on Windows alone
        for file in files:
            start(str(file), words[0], f'"{printer}"' if printer else "")
        return
    program = shutil.which(words[0], path=world.environ.get("PATH", ""))
    if program is None:
        raise NotInstalled(
            f"there is no {words[0]} on this machine, which hands files to a printer",
            f"Written, and not printed: {', '.join(world.from_here(file) for file in files)}.",
            "Install CUPS' client (cups-client), or print the file from where you open it.",
        )
    try:
        done = subprocess.run(  # noqa: S603  # the system's own program, found in the user's PATH
            [program, *words[1:]],
            capture_output=True,
            errors="replace",
            timeout=_MOST_SECONDS,
            check=False,
            env=dict(world.environ),
        )
    except (OSError, subprocess.TimeoutExpired) as error:
        raise _refused(world, files, str(error)) from error
    if done.returncode:
        raise _refused(world, files, (done.stderr or done.stdout).strip() or f"{words[0]} ended with {done.returncode}")


def _refused(world: World, files: Sequence[Path], why: str) -> CannotWrite:
    return CannotWrite(
        "the printer did not take it",
        why.splitlines()[0],
        f"Look after the printer; written is: {', '.join(world.from_here(file) for file in files)}",
    )
