"""Names for files inside a claim folder: as they came where that is safe, and no two alike."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Collection
from itertools import count

_LONGEST, _LONGEST_ENDING = 100, 9
_UNSAFE = re.compile(r'[<>:"/\\|?*]')
_DEVICE = re.compile(r"(con|prn|aux|nul|conin\$|conout\$|(com|lpt)[0-9\u00b9\u00b2\u00b3]) *(\..*)?", re.IGNORECASE)
"""Names that are devices on Windows, whatever ending follows.

Source: Microsoft, "Naming Files, Paths, and Namespaces": CON, PRN, AUX, NUL, COM0-9 and LPT0-9 with the superscripts.
"""


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


def is_device(name: str) -> bool:
    """Whether a file of that name would be a device on Windows, and what is written into it gone."""
    return _DEVICE.fullmatch(unicodedata.normalize("NFKC", name)) is not None or _DEVICE.fullmatch(name) is not None


def _safe(name: str) -> str:
    printed = "".join(
        "_" if unicodedata.category(mark)[0] == "C" else mark for mark in unicodedata.normalize("NFC", name)
    )
    safe = " ".join(_UNSAFE.sub("_", printed).split()).strip(". ")
    return f"_{safe}" if not safe or is_device(safe) else safe


def _parted(name: str) -> tuple[str, str]:
    stem, dot, ending = name.rpartition(".")
    if not stem or len(ending) > _LONGEST_ENDING:
        return name[:_LONGEST], ""
    return stem[:_LONGEST], dot + ending
