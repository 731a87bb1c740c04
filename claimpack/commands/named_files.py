"""Names of files that a command is to write: the ending says what is in them."""

from __future__ import annotations

from pathlib import Path


def ending_of(out: Path | None, endings: tuple[str, ...], why: str, option: str = "--out") -> str:
    """The ending of the name given for a file, in small letters; empty where none is given.

    Args:
        out: the name, if one is given.
        endings: those that there are, as in `.pdf`.
        why: what the file is for, for the message.
        option: what the name was given with.

    Raises:
        BadInput: the name ends in none of them.
    """
    from claimpack.errors import BadInput

    if out is None or out.suffix.casefold() in endings:
        return out.suffix.casefold() if out else ""
    kinds = [f"a {ending[1:].upper()}" for ending in endings]
    is_none = f"neither {' nor '.join(kinds)}" if kinds[1:] else f"not {kinds[0]}"
    raise BadInput(
        f"{option}: {out} is {is_none} file",
        why,
        f"Let the name end in {' or '.join(endings)}.",
    )
