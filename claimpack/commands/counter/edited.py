"""A claim while it is edited as text: of the book or of a folder, and a kept text brought together with it."""

from __future__ import annotations

import re
from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple, Protocol

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Sequence

    from claimpack.commands.desk.desk import Desk
    from claimpack.commands.desk.say import Say
    from claimpack.core.claims.claim import Claim
    from claimpack.core.claims.editing.changes import Difference
    from claimpack.core.claims.editing.merge import Conflict, Side
    from claimpack.errors import AlreadyChanged

_HEAD = "# {number} as it stood at revision {revision}; leave this line: your changes are told from it\n"
_REVISION = re.compile(r"\A# \S+ as it stood at revision ([0-9]+);")


class KeptText(NamedTuple):
    """A text kept from before that is gone on with, and whose values to take where both changed the same."""

    path: Path
    side: Side | None


class Edited(Protocol):
    """A claim that is edited as text."""

    @property
    def name(self) -> str:
        """What the text's file is named for."""

    @property
    def text(self) -> str:
        """The text before."""

    @property
    def before(self) -> str:
        """What to keep beside a text, so that it can be gone on with; empty where the text itself tells."""

    def going_on(self, kept: KeptText) -> str:
        """The text to open: what was changed in a kept one, on top of what stands now.

        Raises:
            AlreadyChanged: both changed the same, and nobody chose.
        """

    def keep(self, text: str) -> list[Difference]:
        """Check the text and keep it; says what it changed.

        Raises:
            ClaimpackError: the text is wrong, or the claim was changed by somebody else.
        """


class OfBook:
    """A claim of the book; the first line of its text tells the revision it was opened at."""

    before = ""

    def __init__(self, desk: Desk, say: Say, number: str, why: str) -> None:
        desk.must_take_changes(number)
        self._desk, self._say, self._why = desk, say, why
        self._entry = desk.book.get(number)
        self._kept: KeptText | None = None
        self.name = number
        self.text = self._text_of(self._entry.claim)

    def going_on(self, kept: KeptText) -> str:
        """The text to open; a text that cannot be read yet is opened as it is."""
        from claimpack.errors import BadInput
        from claimpack.file_contents import read_text

        self._kept, text = kept, read_text(kept.path)
        try:
            return self._text_of(self._claim_of(text, str(kept.path)))
        # Somebody was in the middle of it: a key half typed must not lose them the rest.
        except BadInput:
            return text

    def keep(self, text: str) -> list[Difference]:
        """Keep the text as a new revision."""
        from claimpack.commands.screen.changes import facts_of, note_verdict
        from claimpack.core.claims.days_ahead import new_days_ahead, refuse_days_ahead
        from claimpack.core.claims.editing.changes import differences

        claim = self._claim_of(text, f"claim {self.name}")
        ahead = new_days_ahead(self._entry.claim, claim, self._desk.day)
        refuse_days_ahead(ahead, self._desk.day, f"claim {self.name}")
        changed = list(differences(self._entry.claim, claim))
        if changed:
            with self._desk.changing(self.name, self._entry.revision) as changing:
                changing.keep(claim, why=self._why, facts=facts_of(changed))
            note_verdict(self._say, self._desk, changing)
        return changed

    def _text_of(self, claim: Claim) -> str:
        from claimpack.folder.claim_toml import claim_to_toml

        return _HEAD.format(number=self.name, revision=self._entry.revision) + claim_to_toml(claim)

    def _claim_of(self, text: str, source: str) -> Claim:
        """The claim a text tells, with what others changed since the text was opened."""
        from claimpack.folder.claim_toml import claim_from_toml

        mine, told = claim_from_toml(text, source), _REVISION.match(text)
        revision = int(told[1]) if told else None if self._kept else self._entry.revision
        # Nobody changed the claim meanwhile, so there is nothing to put together.
        if revision == self._entry.revision:
            return mine
        base = None if revision is None else self._desk.book.revision(self.name, revision)
        return _together(self._say, _Three(base, mine, self._entry.claim), self._kept, source)


class OfFolder:
    """The claim.toml of a claim folder, its comments kept."""

    def __init__(self, say: Say, path: Path, today: dt.date) -> None:
        from claimpack.file_contents import read_text
        from claimpack.folder.claim_folder import CLAIM_FILE

        self._say, self._today = say, today
        self._file = path if path.name == CLAIM_FILE else path / CLAIM_FILE
        self.name, self.text = self._file.parent.resolve().name, read_text(self._file)
        self.before = self.text
        self._now = _read_or_none(self.text)

    def going_on(self, kept: KeptText) -> str:
        """The text to open; as it is where nobody changed the folder since."""
        from claimpack.errors import AlreadyChanged
        from claimpack.file_contents import read_text
        from claimpack.folder.claim_toml import claim_from_toml, claim_to_toml

        text, beside = read_text(kept.path), before_of(kept.path)
        before = read_text(beside) if beside.is_file() else None
        if before == self.text or (self._now is None and kept.side == "mine"):
            return text
        if self._now is None:
            raise AlreadyChanged(
                f"{self._file} was changed by somebody else meanwhile, and cannot be read as it is now",
                "What they changed cannot be told from what was there.",
                "Put it right first; or take your text whole with --mine.",
            )
        mine = claim_from_toml(text, str(kept.path))
        base = None if before is None else _read_or_none(before)
        claim = _together(self._say, _Three(base, mine, self._now), kept, str(self._file))
        if claim == mine:
            return text
        if claim != self._now:
            self._say.note("Comments are not carried over where two changes are brought together.")
        return self.text if claim == self._now else claim_to_toml(claim)

    def keep(self, text: str) -> list[Difference]:
        """Keep the text as it is written, unless the file was changed meanwhile."""
        from claimpack.core.claims.days_ahead import new_days_ahead, refuse_days_ahead
        from claimpack.core.claims.editing.changes import Difference, differences
        from claimpack.errors import AlreadyChanged
        from claimpack.file_contents import read_text
        from claimpack.files import write_atomically
        from claimpack.folder.claim_toml import claim_from_toml

        claim = claim_from_toml(text, str(self._file))
        if self._now:
            refuse_days_ahead(new_days_ahead(self._now, claim, self._today), self._today, str(self._file))
        if read_text(self._file) != self.text:
            raise AlreadyChanged(f"{self._file} was changed by somebody else meanwhile", "Theirs would be lost.")
        write_atomically(self._file, text.encode())
        return list(differences(self._now, claim)) if self._now else [Difference("claim.toml", "wrong", "put right")]


def _read_or_none(text: str) -> Claim | None:
    from claimpack.errors import BadInput
    from claimpack.folder.claim_toml import claim_from_toml

    try:
        return claim_from_toml(text, "claim.toml")
    except BadInput:
        return None


def before_of(path: Path) -> Path:
    """The file beside a kept text that holds what stood there before."""
    return path.with_name(f"{path.stem}-before{path.suffix}")


class _Three(NamedTuple):
    """What both changes began from, where it is known; the claim as the text tells it; the claim as it stands now."""

    base: Claim | None
    mine: Claim
    theirs: Claim


def _together(say: Say, three: _Three, kept: KeptText | None, source: str) -> Claim:
    from claimpack.core.claims.claim import Claim
    from claimpack.core.claims.editing.changes import differences
    from claimpack.core.claims.editing.merge import merged, unfounded
    from claimpack.core.facts.keys import record_from

    base, mine, theirs = three
    side = kept.side if kept else None
    if base is None:
        if side is None:
            raise _refusal(unfounded(mine, theirs), "nobody knows what the text was opened from")
        return mine if side == "mine" else theirs
    found = merged(base, mine, theirs, side)
    if found.clashes and side is None:
        raise _refusal(found.clashes, "both were changed since the text was opened; all else of both is kept")
    keys = [change.key for change in differences(base, theirs) if not _is_in(change.key, found.clashes)]
    if keys or not found.clashes:
        say.note(f"Changed by others since your text was opened, and kept: {', '.join(keys) or 'nothing'}")
    for clash in found.clashes:
        say.note(f"{clash}; {'yours' if side == 'mine' else 'theirs'} is taken")
    return record_from(Claim, found.keys, source)


def _is_in(key: str, clashes: Sequence[Conflict]) -> bool:
    """Whether a key is, or lies under, one that both changed."""
    return any(key == clash.key or key.startswith((f"{clash.key}.", f"{clash.key}[")) for clash in clashes)


def _refusal(clashes: Sequence[Conflict], why: str) -> AlreadyChanged:
    from claimpack.errors import AlreadyChanged

    return AlreadyChanged(
        "your text and the claim as it stands now say different things; nothing was changed",
        f"One of the two would be lost: {why}.",
        "Choose for these keys: --mine takes yours, --theirs what stands now.",
        tuple(f"  {clash}" for clash in clashes),
    )
