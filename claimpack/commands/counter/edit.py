"""`claimpack edit`: a whole claim changed as text in the user's editor; nothing that was typed is lost."""

from __future__ import annotations

import os
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

from claimpack.commands.desk.options import Because, ClaimArgument, Json, Today
from claimpack.commands.line.declared import Context, Option

if TYPE_CHECKING:
    from claimpack.commands.counter.edited import Edited, KeptText
    from claimpack.commands.desk.say import Say
    from claimpack.commands.desk.world import World
    from claimpack.core.claims.editing.changes import Difference


def edit(
    context: Context,
    claim: ClaimArgument,
    kept: Annotated[
        Path | None,
        Option("--from", metavar="FILE", help="Go on with a text that was kept."),
    ] = None,
    mine: Annotated[bool, Option("--mine", help="With --from: where both changed a key, take yours.")] = False,
    theirs: Annotated[bool, Option("--theirs", help="With --from: take what stands now.")] = False,
    because: Because = "",
    today: Today = "",
    json: Json = False,
) -> int:
    """Change a claim as text in your editor."""
    from claimpack.commands.counter.edited import OfBook, OfFolder
    from claimpack.commands.desk.desk import Desk
    from claimpack.commands.desk.gather import is_folder
    from claimpack.commands.desk.options import the_day
    from claimpack.commands.desk.say import Say
    from claimpack.commands.screen.changes import tell_changes

    world: World = context.obj
    say, gone_on_with = Say(world), _kept(world, kept, mine=mine, theirs=theirs)
    in_folder = is_folder(world, claim)
    day = the_day(world, today)
    edited: Edited = (
        OfFolder(say, world.path(claim), day) if in_folder else OfBook(Desk(world, today), say, claim, because)
    )
    opened = edited.going_on(gone_on_with) if gone_on_with else edited.text
    is_told_whole = gone_on_with is not None and not _can_be_opened(world)
    changed = edited.keep(opened) if is_told_whole else _Editing(say, edited, claim).changed(opened)
    if changed is None:
        return 2
    tell_changes(say, claim, changed, json=json)
    return 0


def _kept(world: World, path: Path | None, *, mine: bool, theirs: bool) -> KeptText | None:
    """The text to go on with.

    Raises:
        BadInput: both sides are chosen, or one without a text.
    """
    from claimpack.commands.counter.edited import KeptText
    from claimpack.commands.desk.named_files import read_from
    from claimpack.errors import BadInput

    if mine and theirs:
        raise BadInput("--mine and --theirs cannot both be taken", "They choose between two values of one key.")
    if (mine or theirs) and path is None:
        raise BadInput(
            f"{'--mine' if mine else '--theirs'} goes with --from FILE, and no file is given",
            "It chooses between a text that was kept and the claim as it stands now.",
            "Name the text, or leave it out.",
        )
    return KeptText(read_from(world, path), "mine" if mine else "theirs" if theirs else None) if path else None


class _Editing:
    """One text in the editor, until it is kept or given up."""

    def __init__(self, say: Say, edited: Edited, claim: str) -> None:
        import tempfile

        self._say, self._edited, self._claim = say, edited, claim
        self._editor = _editor(say.world)
        self._file = Path(tempfile.mkdtemp(prefix="claimpack-")) / f"{edited.name}.toml"

    def changed(self, opened: str) -> list[Difference] | None:
        """What was changed, from the text opened on; None where the user gave up."""
        from claimpack.errors import BadInput, ClaimpackError
        from claimpack.file_contents import read_text

        self._write(opened)
        while True:
            try:
                self._open()
                text = read_text(self._file)
                changed = self._edited.keep(text) if text != self._edited.text else []
            except BadInput as wrong:
                self._say.error(wrong)
                if self._goes_on():
                    continue
                return None
            except ClaimpackError as refused:
                raise type(refused)(refused.what, refused.why, self._where(), refused.problems) from refused
            self._clear()
            return changed

    def _write(self, text: str) -> None:
        from claimpack.commands.counter.edited import before_of
        from claimpack.files import write_atomically

        write_atomically(self._file, text.encode())
        if self._edited.before:
            write_atomically(before_of(self._file), self._edited.before.encode())

    def _open(self) -> None:
        """Open the editor and wait until it is closed.

        Raises:
            NotInstalled: it cannot be started.
            BadInput: it ended with an error, as one does when asked to.
        """
        import subprocess

        from claimpack.errors import BadInput, NotInstalled

        try:
            code = subprocess.run([*self._editor, str(self._file)], check=False).returncode  # noqa: S603
        except OSError as error:
            raise NotInstalled(
                f"the editor {self._editor[0]!r} cannot be started",
                str(error.strerror),
                f"Name one that is there in VISUAL or EDITOR, as in: {_naming()}",
            ) from None
        if code:
            raise BadInput(f"the editor ended with code {code}", "An editor that fails may not have saved.")

    def _goes_on(self) -> bool:
        from claimpack.commands.talk.yes_or_no import says_yes

        if says_yes(self._say, "Open it again?", otherwise=True):
            return True
        self._say.note(f"\nNothing was changed. {self._where()}")
        return False

    def _where(self) -> str:
        if not self._file.exists():
            return f"The editor left no text behind; begin again: claimpack edit {self._claim}"
        return f"Your text is kept in {self._file}; go on with: claimpack edit {self._claim} --from {self._file}"

    def _clear(self) -> None:
        from claimpack.commands.counter.edited import before_of

        self._file.unlink()
        before_of(self._file).unlink(missing_ok=True)
        self._file.parent.rmdir()


def _can_be_opened(world: World) -> bool:
    """Whether a text can be opened: in an editor that is named, or at a terminal."""
    named = world.environ.get("VISUAL") or world.environ.get("EDITOR")
    return bool(named) or (world.stdin.isatty() and world.stdout.isatty())


def _usual() -> tuple[str, ...]:
    """The editors that are tried where none is named."""
    return ("notepad",) if os.name == "nt" else ("nano", "vi")


def _naming() -> str:
    """How the shell is told which editor to start."""
    return f'$env:EDITOR = "{_usual()[0]}"' if os.name == "nt" else f"export EDITOR={_usual()[0]}"


def _editor(world: World) -> list[str]:
    """The editor to start, with its own options.

    Raises:
        NotInstalled: the one named is not there, or none is named and none is found.
    """
    import shlex
    import shutil

    from claimpack.errors import NotInstalled

    # elsewhere a backslash parts folders
    named = shlex.split(world.environ.get("VISUAL") or world.environ.get("EDITOR") or "", posix=os.name == "posix")
    if named and not shutil.which(named[0], path=world.environ.get("PATH")):
        raise NotInstalled(f"the editor {named[0]!r} is not there", "VISUAL or EDITOR names it.", f"As in: {_naming()}")
    if named:
        return named
    there = (shutil.which(name, path=world.environ.get("PATH")) for name in _usual())
    found = next((path for path in there if path), None)
    if found is None:
        raise NotInstalled(
            "there is no editor to open the claim in",
            f"Neither VISUAL nor EDITOR names one, and {' and '.join(_usual())} cannot be found.",
            f"Name one, as in: {_naming()}; or change single keys: claimpack set CLAIM KEY VALUE",
        )
    if not _can_be_opened(world):
        raise NotInstalled(
            "there is no terminal to open an editor in",
            "Neither VISUAL nor EDITOR names one that does without.",
            "Change single keys: claimpack set CLAIM KEY VALUE; or name one in EDITOR.",
        )
    return [found]
