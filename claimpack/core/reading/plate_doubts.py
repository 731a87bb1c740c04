"""What is doubtful about a picture of a plate, by what was read off it, while it can still be taken again."""

from __future__ import annotations

from collections.abc import Sequence

from claimpack.core.clauses.picture_doubts import PictureDoubt, another_number, no_number
from claimpack.core.reading.compared import Compared
from claimpack.core.reading.serials import KEY
from claimpack.core.values.words import word_set

_WITH_A_NUMBER = {"plate", "serial"}


def shows_a_number(shot: str) -> bool:
    """Whether a shot is of something that carries a serial number."""
    return not _WITH_A_NUMBER.isdisjoint(word_set(shot))


def plate_doubts(found: Sequence[Compared], shot: str) -> list[PictureDoubt]:
    """That no serial number could be read, or another one than the claim says.

    Source: a rule of this tool's, no source.
    """
    if not shows_a_number(shot):
        return []
    numbers = [each for each in found if each.proposal.key.startswith(KEY)]
    if not numbers:
        return [no_number()]
    return [another_number(each.proposal.text, each.typed) for each in numbers if each.state == "differs"]
