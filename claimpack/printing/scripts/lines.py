"""A line as it is drawn: letters of scripts that run to the left in their order, each run in a typeface that has it."""

from __future__ import annotations

import re
from functools import lru_cache
from itertools import groupby

from claimpack.printing.scripts.found import face_for, has
from claimpack.printing.scripts.which import FOREIGN, LEFTWARD, Script, script_of

Run = tuple[str, str]
"""A typeface and what is set in it."""

_KANA = re.compile("[\u3040-\u30ff\u31f0-\u31ff\uff65-\uff9f]")
_HANGUL = re.compile("[\u1100-\u11ff\u3130-\u318f\ua960-\ua97f\uac00-\ud7ff]")


@lru_cache(maxsize=5000)
def in_order(line: str) -> str:
    """The letters of one line from left to right as they are seen, joined where their script joins them.

    Source: UAX #9 (the order of letters), as the library python-bidi has it.
    """
    if not LEFTWARD.search(line):
        return line
    import arabic_reshaper
    from bidi.algorithm import get_display

    return str(get_display(arabic_reshaper.reshape(line)))


def face_of(mark: str, line: str) -> str | None:
    """The typeface of another script that has a letter; a sign that scripts share is set as its neighbours are."""
    script = script_of(mark)
    if script is None:
        return None
    wanted: tuple[Script, ...] = (script,)
    if script == "Chinese":
        near: tuple[Script, ...] = ("Japanese",) if _KANA.search(line) else ("Korean",) if _HANGUL.search(line) else ()
        wanted = tuple(dict.fromkeys((*near, "Chinese", "Japanese", "Korean")))
    faces = (face_for(one) for one in wanted)
    return next((face for face in faces if face and has(face, mark)), None)


def in_faces(line: str, face: str) -> list[Run]:
    """A line that stands in order, in runs of one typeface each."""
    if not FOREIGN.search(line):
        return [(face, line)]
    told = [(face_of(mark, line) or face, mark) for mark in line]
    return [(one, "".join(mark for _, mark in run)) for one, run in groupby(told, key=lambda pair: pair[0])]
