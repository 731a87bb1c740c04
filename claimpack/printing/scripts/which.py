"""Which script a letter is of, as people call it."""

from __future__ import annotations

import re
import unicodedata
from typing import Literal, get_args

Script = Literal["Japanese", "Chinese", "Korean", "Arabic", "Hebrew"]
"""The scripts that a typeface is looked for in."""

SCRIPTS: tuple[Script, ...] = get_args(Script)

# Source: the blocks of The Unicode Standard, version 16.
_RANGES: dict[Script, str] = {
    "Japanese": "\u3040-\u30ff\u31f0-\u31ff\uff65-\uff9f",
    "Chinese": "\u2e80-\u303f\u3100-\u312f\u3200-\u4dbf\u4e00-\u9fff\uf900-\ufaff\ufe30-\ufe4f\uff00-\uff64"
    "\uffe0-\uffef\U00020000-\U0003ffff",
    "Korean": "\u1100-\u11ff\u3130-\u318f\ua960-\ua97f\uac00-\ud7ff",
    "Arabic": "\u0600-\u06ff\u0750-\u077f\u08a0-\u08ff\ufb50-\ufdff\ufe70-\ufefc",
    "Hebrew": "\u0590-\u05ff\ufb1d-\ufb4f",
}
_OF = {script: re.compile(f"[{letters}]") for script, letters in _RANGES.items()}

FOREIGN = re.compile(f"[{''.join(_RANGES.values())}]")
"""A letter of one of these scripts."""

LEFTWARD = re.compile(f"[{_RANGES['Arabic']}{_RANGES['Hebrew']}]")
"""A letter of a script that runs to the left."""


def script_of(mark: str) -> Script | None:
    """The script of a letter; signs that Chinese shares with Japanese and Korean count as Chinese."""
    return next((script for script, letters in _OF.items() if letters.match(mark)), None)


def called(mark: str) -> str:
    """What a letter or sign is called where it cannot be printed: its script, or its own name."""
    script = script_of(mark)
    if script:
        return script
    name = unicodedata.name(mark, "")
    if not name:
        return f"U+{ord(mark):04X}"
    return name.split()[0].capitalize() if unicodedata.category(mark)[0] in "LM" else name.lower()
