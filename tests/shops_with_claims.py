"""A shop whose book holds a complete claim with real files, and the steps a test walks through with it."""

from __future__ import annotations

import shutil
from pathlib import Path

from claim_folders import CLAIM, a_folder
from made_once import made_once
from running import Ran, claimpack

CLAIMED = "147.20"
"""What 26-0001 claims: 1.6 hours at 92.00."""


@made_once
def a_shop_with(place: Path, *texts: str) -> Path:
    """A shop into which claim folders of these texts were imported; the complete claim 26-0001 where none is given."""
    claimpack("shop", "init", "shop", "--name", "Quarry Road", folder=place)
    for index, text in enumerate(texts or (CLAIM,)):
        a_folder(place / "incoming" / str(index), text)
    ran = claimpack("import", "../incoming", folder=place / "shop")
    if ran.code:
        raise ValueError(ran.err)
    return place / "shop"


def a_copy(shop: Path, place: Path) -> Path:
    """A shop of its own for one test."""
    shutil.copytree(shop, place / "shop", ignore=shutil.ignore_patterns("*-shm"))
    shutil.copytree(shop.parent / "incoming", place / "incoming", dirs_exist_ok=True)
    return place / "shop"


def numbered(number: str, **changes: str) -> str:
    """The complete claim under another number, with words replaced."""
    text = CLAIM.replace("26-0001", number)
    for old, new in changes.items():
        text = text.replace(old, new)
    return text


def walked(shop: Path, *steps: str) -> list[Ran]:
    """Steps taken one after the other on claim 26-0001, as in `file --on 2026-02-25`; every one must be taken."""
    taken = []
    for step in steps:
        command, *options = step.split()
        ran = claimpack(command, "26-0001", *options, folder=shop)
        if ran.code:
            raise ValueError(f"{step}: {ran.out}{ran.err}")
        taken.append(ran)
    return taken
