"""The claim somebody has at hand: chosen once, kept for each person in the shop's folder."""

from __future__ import annotations

import datetime as dt
from pathlib import Path

from claimpack.core.facts.record import Record
from claimpack.core.values.days import Moment
from claimpack.core.values.words import Named, folded
from claimpack.file_contents import hash_of
from claimpack.files import remove, write_atomically
from claimpack.folder.toml_files import read_record
from claimpack.folders import make_folders

_FOLDER = "at-hand"


class AtHand(Record):
    """A claim at hand, and since when."""

    claim: Named
    since: Moment


def at_hand(shop: Path, who: str) -> AtHand | None:
    """The claim that somebody has at hand in a shop; None where there is none.

    Raises:
        BadInput: the file that tells it was damaged.
    """
    path = _path(shop, who)
    return read_record(AtHand, path) if path.is_file() else None


def take_at_hand(shop: Path, who: str, claim: str, since: dt.datetime) -> None:
    """Let somebody have a claim at hand.

    Raises:
        CannotWrite: the shop's folder takes no files.
    """
    path = _path(shop, who)
    make_folders([path.parent])
    write_atomically(path, f'claim = "{claim}"\nsince = {since.isoformat(timespec="seconds")}\n'.encode())


def put_away(shop: Path, who: str) -> None:
    """Let somebody have no claim at hand."""
    remove([_path(shop, who)])


def _path(shop: Path, who: str) -> Path:
    # A name may hold what no file name can.
    return shop / _FOLDER / f"{hash_of(folded(who).encode())[:16]}.toml"
