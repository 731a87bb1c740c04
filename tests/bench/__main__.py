"""One table of how fast claimpack is beside its peers: python tests/bench [--claims N] [--only PART]…

Each figure is the median of several runs, each a process of its own, taken in turn with its peer's; seconds are the
processor's. Needs the extras `bench` and `test`. What the work of a peer leaves out stands under the table.
"""

from __future__ import annotations

import argparse
import itertools
import json
import math
import re
import sqlite3
import sys
import tempfile
from collections.abc import Iterator, Sequence
from contextlib import closing
from pathlib import Path
from typing import Any, NamedTuple

HERE = Path(__file__).parent
sys.path[:0] = [str(HERE), str(HERE.parent)]

from bench_import import CLAIMS as IMPORTED
from bench_import import rounds as imports
from bench_packet import CLAIM, photo
from large_shop import large_shop
from planted_shop import TODAY
from timing import CLAIMPACK, medians, seconds

SAMPLE = HERE.parents[1] / "sample_claims" / "26-0041-short-block"
PEER = (sys.executable, HERE / "peers.py")
AS_OF = ("--today", TODAY.isoformat())


class Row(NamedTuple):
    """One figure: the question, ours and the peer's in seconds of the processor; an aim of None for other work."""

    question: str
    ours: float
    peer: str
    theirs: float
    aim: float | None

    def told(self) -> str:
        """The row as it is printed."""
        ratio = self.ours / self.theirs
        met = "other work" if self.aim is None else "yes" if ratio <= self.aim else "NO"
        aim = "" if self.aim is None else f"{self.aim:.2f}"
        return f"{self.question:44} {self.ours:8.3f}  {self.peer:22} {self.theirs:8.3f} {ratio:7.2f} {aim:>6}  {met}"


def start() -> Iterator[Row]:
    """The quick answers beside an empty Python."""
    commands = {"help": (*CLAIMPACK, "--help"), "check": (*CLAIMPACK, "check", SAMPLE)}
    found = medians({"python": (sys.executable, "-c", "pass"), **commands})
    for name, aim in (("help", 6.0), ("check", 20.0)):
        yield Row(f"start: {name}", found[name], "an empty Python", found["python"], aim)


def pictures(folder: Path) -> Iterator[Row]:
    """Twelve photos of twelve megapixels made ready for print."""
    place, photos = _photos(folder / "large", 12, 4000, 3000)
    packet = (*CLAIMPACK, "packet", place, "--out", folder / "large.pdf")
    found = medians({"pyvips": (*PEER, "pyvips", *photos), "packet": packet}, rounds=3)
    yield Row("packet of 12 photos of 12 megapixels", found["packet"], "pyvips: scaling alone", found["pyvips"], 1.2)


def _photos(place: Path, count: int, width: int, height: int) -> tuple[Path, list[Path]]:
    """The sample claim with so many photos."""
    photos = [place / "photos" / f"{number}.jpg" for number in range(count)]
    photos[0].parent.mkdir(parents=True)
    for number, path in enumerate(photos):
        photo(path, width, height, number)
    (place / "claim.toml").write_text(CLAIM + _listed(photos))
    return place, photos


def _listed(photos: Sequence[Path]) -> str:
    return "".join(f'[[photos]]\nfile = "photos/{path.name}"\ncaption = "As found."\n' for path in photos)


def pages(folder: Path) -> Iterator[Row]:
    """The text and the photos of a packet on pages, the photos of print's own size already."""
    from pypdf import PdfReader

    place, photos = _photos(folder / "pages", 24, 1600, 1200)
    keys = (SAMPLE / "claim.toml").read_text().partition("[[photos]]")[0].replace('file = "papers/receipt.pdf"\n', "")
    (place / "claim.toml").write_text(keys + _listed(photos))
    packet = (*CLAIMPACK, "packet", place, "--out", folder / "packet.pdf")
    seconds(packet)
    text = [page.extract_text(extraction_mode="layout") for page in PdfReader(folder / "packet.pdf").pages]
    lines = [[re.split(r"\s{2,}", line.strip()) for line in page.split("\n") if line.strip()] for page in text]
    told = {"pages": lines, "photos": [(str(path), "As found.") for path in photos]}
    (folder / "pages.json").write_text(json.dumps(told))
    names = ("img2pdf", "fpdf2", "weasyprint")
    peers = {name: (*PEER, name, folder / "pages.json", folder / f"{name}.pdf") for name in names}
    found = medians({"packet": packet, **peers}, rounds=3)
    for name, peer, aim in (
        ("weasyprint", "WeasyPrint", 1.0),
        ("fpdf2", "fpdf2: no tags", 1.0),
        ("img2pdf", "img2pdf: photos alone", None),
    ):
        yield Row("packet of text and 24 photos", found["packet"], peer, found[name], aim)


def imported(folder: Path) -> Iterator[Row]:
    """Claims put into an empty book."""
    measured = list(imports(folder, 2))
    ours, theirs = (min(each) for each in zip(*measured, strict=True))
    yield Row(f"{IMPORTED:,} claims put in", ours, "sqlite3: its rows alone", theirs, 2.0)


def lists(folder: Path, claims: int) -> Iterator[Row]:
    """Lists and look-ups in a large book, beside the same in an empty one."""
    full, empty = _shop(folder, claims), _shop(folder, 0)
    with closing(sqlite3.connect(full / "book.sqlite")) as driver:
        number, serial = driver.execute("SELECT number, serial FROM claims ORDER BY number LIMIT 1 OFFSET 1000").fetchone()
    asked = {
        "list": ("list", "--limit", "50"),
        "list --all": ("list", "--all", "--limit", "50"),
        "find a serial": ("find", serial),
        "find words nowhere": ("find", "gyroscope"),
        "history of a claim": ("history", number),
        "pending": ("pending", "--json"),
        "due": ("due", "--json"),
    }
    for name, said in asked.items():
        said = (*said, *AS_OF) if name in {"pending", "due"} else said
        command = (*CLAIMPACK, *said)
        aim = 1.5 if name not in {"pending", "history of a claim"} else None
        # a claim that is not there, or claims that are pending, are another answer
        found = medians({"full": command, "empty": command}, 3, {"full": full, "empty": empty})
        yield Row(f"{name}, {claims:,} claims", found["full"], "an empty book", found["empty"], aim)


if __name__ == "__main__":
    main()
