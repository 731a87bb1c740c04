"""Names for files inside a claim folder: as they came where that is safe, and no two alike."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Collection
from itertools import count

_LONGEST = 100
_UNSAFE = re.compile(r'[<>:"/\\|?*]')
_DEVICE = re.compile(r"(con|prn|aux|nul|com\d|lpt\d)(\..*)?", re.IGNORECASE)


def free_name(name: str, used: Collection[str]) -> str:
    """A file name that no other file has, capitals or not, and that every system can hold.

    Args:
        name: the file's own name.
        used: the names that are taken.

    Returns:
        The name itself where it can be had; else with what is unsafe replaced, shortened, or numbered from 2.
    """
    stem, ending = _parted(_safe(name))
    taken = {unicodedata.normalize("NFC", other).casefold() for other in used}
    candidates = (f"{stem}{'' if number == 1 else f'-{number}'}{ending}" for number in count(1))
    return next(candidate for candidate in candidates if candidate.casefold() not in taken)


def _safe(name: str) -> str:
    printed = "".join(
        "_" if unicodedata.category(mark)[0] == "C" else mark for mark in unicodedata.normalize("NFC", name)
    )
    safe = " ".join(_UNSAFE.sub("_", printed).split()).strip(". ")
    return f"_{safe}" if not safe or _DEVICE.fullmatch(safe) else safe


def _parted(name: str) -> tuple[str, str]:
    dot = name.rfind(".")
    if dot <= 0 or len(name) - dot > 10:
        return name[:_LONGEST], ""
    return name[: min(dot, _LONGEST)], name[dot:]
