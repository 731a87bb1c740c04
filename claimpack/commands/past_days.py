"""What is said where the answer is asked for as of a day that the book is past."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from claimpack.commands.desk import Desk
    from claimpack.commands.say import Say


def note_past(desk: Desk, say: Say) -> None:
    """Note that what happened after the day asked about counts all the same: history is not rolled back."""
    from claimpack.book.last_day import last_day

    if desk.day >= desk.world.today():
        return
    stands_at = last_day(desk.book)
    if stands_at and stands_at > desk.day:
        say.note(
            f"The book stands at {stands_at}: days are counted as of {desk.day}, but what has happened since then "
            f"is not taken back."
        )
