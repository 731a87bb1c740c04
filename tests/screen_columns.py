"""Tables of a terminal, read back by where their titles stand."""

from __future__ import annotations


def ending_under(told: str, title: str) -> list[str]:
    """The cells that end where a title ends, which is how numbers stand under each other."""
    lines = told.splitlines()
    at = next(place for place, line in enumerate(lines) if title in line.split())
    end = lines[at].index(title) + len(title)
    rows = [line for line in lines[at + 1 :] if line[end - 1 : end].strip() and not line[end : end + 1].strip()]
    return [line[:end].split()[-1] for line in rows]
