"""User text shown where a control character or a direction override would change what is seen."""

from __future__ import annotations

import unicodedata


def harmless(text: str) -> str:
    """User text without anything that steers what shows it: control characters and direction overrides as codes."""
    if text.isprintable():
        return text
    kept = (
        mark if mark == "\n" or unicodedata.category(mark) not in ("Cc", "Cf", "Cs") else _code(mark) for mark in text
    )
    return "".join(kept)


def _code(mark: str) -> str:
    return " " if mark == "\t" else f"[U+{ord(mark):04X}]"
