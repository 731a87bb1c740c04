"""`claimpack edit`: a whole claim changed as text in the user's editor; nothing that was typed is lost."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Protocol

import typer

from claimpack.commands.options import Because, ClaimArgument, Json, Today

if TYPE_CHECKING:
    import datetime as dt

    from claimpack.commands.desk import Desk
    from claimpack.commands.say import Say
    from claimpack.commands.world import World
    from claimpack.core.claim import Claim
    from claimpack.core.differences import Difference


def edit(
    context: typer.Context,
    claim: ClaimArgument,
    kept: Annotated[
        Path | None,
        typer.Option("--from", metavar="FILE", help="Go on with a text that was kept.", show_default=False),
    ] = None,
    because: Because = "",
    today: Today = "",
    json: Json = False,
) -> int:
    """Change a claim as text in your editor."""
    from claimpack.commands.changes import tell_changes
    from claimpack.commands.desk import Desk
    from claimpack.commands.gather import is_folder, the_day
    from claimpack.commands.say import Say

    world: World = context.obj
    say = Say(world)
    in_folder = is_folder(world, claim)
    day = the_day(world, today)
    edited: Edited = (
        _OfFolder(world.path(claim), day) if in_folder else _OfBook(Desk(world, today), say, claim, because)
    )
    changed = _Editing(say, edited, claim).changed(world.path(kept) if kept else None)
    if changed is None:
        return 2
    tell_changes(say, claim, changed, json=json)
    return 0


class Edited(Protocol):
    """A claim that is edited as text."""

    @property
    def name(self) -> str:
        """What the text's file is named for."""

    @property
    def text(self) -> str:
        """The text before."""

    @property
    def now(self) -> Claim | None:
        """The claim before; None where its text was wrong already."""

    def keep(self, text: str) -> list[Difference]:
        """Check the text and keep it; says what it changed.

        Raises:
            ClaimpackError: the text is wrong, or the claim was changed by somebody else.
        """


class _OfBook:
    """A claim of the book."""

    def __init__(self, desk: Desk, say: Say, number: str, why: str) -> None:
        from claimpack.claim_toml import claim_to_toml

        desk.must_take_changes(number)
        self._desk, self._say, self._why = desk, say, why
        self._entry = desk.book.get(number)
        self.name = number
        self.now: Claim | None = self._entry.claim
        self.text = claim_to_toml(self._entry.claim)

    def keep(self, text: str) -> list[Difference]:
        from claimpack.claim_toml import claim_from_toml
        from claimpack.commands.changes import facts_of, note_filed, note_verdict
        from claimpack.core.days_ahead import new_days_ahead, refuse_days_ahead
        from claimpack.core.differences import differences

        claim = claim_from_toml(text, f"claim {self.name}")
        ahead = new_days_ahead(self._entry.claim, claim, self._desk.day)
        refuse_days_ahead(ahead, self._desk.day, f"claim {self.name}")
        changed = list(differences(self._entry.claim, claim))
        if changed:
            with self._desk.changing(self.name, self._entry.revision) as changing:
                changing.keep(claim, why=self._why, facts=facts_of(changed))
            note_filed(self._say, self.name, self._entry.standing.state)
            note_verdict(self._say, self._desk, changing)
        return changed


class _OfFolder:
    """The claim.toml of a claim folder, its comments kept."""

    def __init__(self, path: Path, today: dt.date) -> None:
        from claimpack.claim_folder import CLAIM_FILE
        from claimpack.claim_toml import claim_from_toml
        from claimpack.errors import BadInput
        from claimpack.files import read_text

        self._today = today
        self._file = path if path.name == CLAIM_FILE else path / CLAIM_FILE
        self.name, self.text = self._file.parent.resolve().name, read_text(self._file)
        try:
            self.now: Claim | None = claim_from_toml(self.text, str(self._file))
        except BadInput:
            self.now = None

    def keep(self, text: str) -> list[Difference]:
        from claimpack.claim_toml import claim_from_toml
        from claimpack.core.days_ahead import new_days_ahead, refuse_days_ahead
        from claimpack.core.differences import Difference, differences
        from claimpack.errors import AlreadyChanged
        from claimpack.files import read_text, write_atomically

        claim = claim_from_toml(text, str(self._file))
        if self.now:
            refuse_days_ahead(new_days_ahead(self.now, claim, self._today), self._today, str(self._file))
        if read_text(self._file) != self.text:
            raise AlreadyChanged(f"{self._file} was changed by somebody else meanwhile", "Theirs would be lost.")
        write_atomically(self._file, text.encode())
        return list(differences(self.now, claim)) if self.now else [Difference("claim.toml", "wrong", "put right")]


class _Editing:
    """One text in the editor, until it is kept or given up."""

    def __init__(self, say: Say, edited: Edited, claim: str) -> None:
        import tempfile

        self._say, self._edited, self._claim = say, edited, claim
        self._editor = _editor(say.world)
        self._file = Path(tempfile.mkdtemp(prefix="claimpack-")) / f"{edited.name}.toml"

    def changed(self, kept: Path | None) -> list[Difference] | None:
        """What was changed; None where the user gave up."""
        from claimpack.errors import BadInput, ClaimpackError
        from claimpack.files import read_text, write_atomically

        self._compare(kept)
        write_atomically(self._file, (read_text(kept) if kept else self._edited.text).encode())
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

    def _compare(self, kept: Path | None) -> None:
        """Say where a text kept from before differs from the claim as it is now: keeping it would put that back."""
        from claimpack.claim_toml import claim_from_toml
        from claimpack.core.differences import differences
        from claimpack.errors import BadInput
        from claimpack.files import read_text

        if kept is None or self._edited.now is None:
            return
        try:
            keys = [found.key for found in differences(self._edited.now, claim_from_toml(read_text(kept), str(kept)))]
        except BadInput:
            return
        self._say.note(f"{kept} differs from the claim as it is now in: {', '.join(keys) or 'nothing'}")

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
                str(error.strerror or error),
                "Name one that is there in VISUAL or EDITOR, as in: export EDITOR=nano",
            ) from None
        if code:
            raise BadInput(f"the editor ended with code {code}", "An editor that fails may not have saved.")

    def _goes_on(self) -> bool:
        typed = self._say.ask("Open it again? [Y/n]")
        if typed is not None and typed.strip().casefold() in ("", "y", "yes"):
            return True
        self._say.note(f"\nNothing was changed. {self._where()}")
        return False

    def _where(self) -> str:
        return f"Your text is kept in {self._file}; go on with: claimpack edit {self._claim} --from {self._file}"

    def _clear(self) -> None:
        self._file.unlink(missing_ok=True)
        self._file.parent.rmdir()


def _editor(world: World) -> list[str]:
    """The editor to start, with its own options.

    Raises:
        NotInstalled: the one named is not there, or none is named and none is found.
    """
    import shlex
    import shutil

    from claimpack.errors import NotInstalled

    named = shlex.split(world.environ.get("VISUAL") or world.environ.get("EDITOR") or "")
    if named and not shutil.which(named[0], path=world.environ.get("PATH")):
        raise NotInstalled(
            f"the editor {named[0]!r} is not there", "VISUAL or EDITOR names it.", "As in: export EDITOR=nano"
        )
    if named:
        return named
    there = (shutil.which(name, path=world.environ.get("PATH")) for name in ("nano", "vi"))
    found = next((path for path in there if path), None)
    if found is None:
        raise NotInstalled(
            "there is no editor to open the claim in",
            "Neither VISUAL nor EDITOR names one, and neither nano nor vi is there.",
            "Name one, as in: export EDITOR=nano; or change single keys: claimpack set CLAIM KEY VALUE",
        )
    if not (world.stdin.isatty() and world.stdout.isatty()):
        raise NotInstalled(
            "there is no terminal to open an editor in",
            "Neither VISUAL nor EDITOR names one that does without.",
            "Change single keys: claimpack set CLAIM KEY VALUE; or name one in EDITOR.",
        )
    return [found]
