"""One table of how fast claimpack is beside its peers: python tests/bench [--claims N] [PART…]

Each figure is the median of several runs, each a process of its own, taken in turn with its peer's; seconds are the
processor's. Needs the extras `bench` and `test`. Where the work is not the same, the line says what a peer leaves out.
"""

from __future__ import annotations

import itertools
import json
import math
import re
import sqlite3
import statistics
import subprocess
import sys
import tempfile
from collections.abc import Callable, Iterator, Sequence
from contextlib import closing
from pathlib import Path
from typing import NamedTuple

sys.path.insert(0, str(Path(__file__).parents[1]))

from bench_import import CLAIMS as IMPORTED
from bench_import import rounds as imports
from bench_packet import CLAIM, photo
from by_hand import Given, arguments
from large_shop import large_shop
from planted_shop import TODAY
from questions import ASKED
from timing import CLAIMPACK, medians, seconds

HERE = Path(__file__).parent
SAMPLE = HERE.parents[1] / "sample_claims" / "26-0041-short-block"
PEER = (sys.executable, HERE / "peers.py")
QUESTION = (sys.executable, HERE / "questions.py")
PREPARE = """
import sys
from pathlib import Path
from claimpack.evidence.pictures.photos import PrintSize, prepare_all
prepare_all([(name, Path(name)) for name in sys.argv[1:]], PrintSize())
"""
AS_OF = ("--today", TODAY.isoformat())


class Row(NamedTuple):
    """One figure: the question, ours and the peer's in seconds of the processor, and the largest ratio wanted.

    `less` is what the peer leaves out, where its work is not the same: then nothing is wanted of the ratio.
    """

    question: str
    ours: float
    peer: str
    theirs: float
    aim: float = 1.1
    less: str = ""

    def told(self) -> str:
        """The row as it is printed."""
        ratio = self.ours / self.theirs
        met = self.less or ("yes" if ratio <= self.aim else "NO")
        aim = "" if self.less else f"{self.aim:.2f}"
        return (
            f"{self.question:42} {_said(self.ours)}  {self.peer:18} {_said(self.theirs)} {ratio:7.2f} {aim:>6}  {met}"
        )


def _said(taken: float) -> str:
    return f"{taken:9.3f} s " if taken >= 0.01 else f"{1000 * taken:9.3f} ms"


class Bench(NamedTuple):
    """Where a table is made: a folder for what it needs, and how many claims a book has."""

    folder: Path
    claims: int

    def shop(self, claims: int) -> Path:
        """A shop with so many claims, made once."""
        home = self.folder / f"shop-{claims}"
        return home if home.exists() else large_shop(home, claims)


def start(_bench: Bench) -> Iterator[Row]:
    """The quick answers beside an empty Python."""
    commands = {"help": (*CLAIMPACK, "--help"), "check": (*CLAIMPACK, "check", SAMPLE)}
    found = medians({"python": (sys.executable, "-c", "pass"), **commands})
    for name, aim in (("help", 6.0), ("check", 20.0)):
        yield Row(f"start: {name}", found[name], "an empty Python", found["python"], aim)


def pictures(bench: Bench) -> Iterator[Row]:
    """Twelve photos of twelve megapixels made ready for print, and their packet."""
    place, photos = _photos(bench.folder / "large", 12, 4000, 3000)
    commands = {
        "pyvips": (*PEER, "pyvips", *photos),
        "photos": (sys.executable, "-c", PREPARE, *photos),
        "packet": (*CLAIMPACK, "packet", place, "--out", bench.folder / "large.pdf"),
    }
    found = medians(commands, rounds=3)
    yield Row("12 photos of 12 megapixels for print", found["photos"], "pyvips", found["pyvips"])
    yield Row("the packet of them", found["packet"], "pyvips", found["pyvips"], less="less: the photos alone")


def _photos(place: Path, count: int, width: int, height: int) -> tuple[Path, list[Path]]:
    """A claim with so many photos."""
    photos = [place / "photos" / f"{number}.jpg" for number in range(count)]
    photos[0].parent.mkdir(parents=True)
    for number, path in enumerate(photos):
        photo(path, width, height, number)
    (place / "claim.toml").write_text(CLAIM + _listed(photos))
    return place, photos


def _listed(photos: Sequence[Path]) -> str:
    return "".join(f'[[photos]]\nfile = "photos/{path.name}"\ncaption = "As found."\n' for path in photos)


def pages(bench: Bench) -> Iterator[Row]:
    """The text and the photos of a packet on pages; the photos have print's size already."""
    from pypdf import PdfReader

    place, photos = _photos(bench.folder / "pages", 24, 1600, 1200)
    keys = (SAMPLE / "claim.toml").read_text().partition("[[photos]]")[0].replace('file = "papers/receipt.pdf"\n', "")
    (place / "claim.toml").write_text(keys + _listed(photos))
    packet = (*CLAIMPACK, "packet", place, "--out", bench.folder / "packet.pdf")
    seconds(packet)
    text = [page.extract_text(extraction_mode="layout") for page in PdfReader(bench.folder / "packet.pdf").pages]
    lines = [[re.split(r"\s{2,}", line.strip()) for line in page.split("\n") if line.strip()] for page in text]
    told = {"pages": lines, "photos": [(str(path), "As found.") for path in photos]}
    (bench.folder / "pages.json").write_text(json.dumps(told))
    names = ("weasyprint", "fpdf2", "img2pdf")
    peers = {name: (*PEER, name, bench.folder / "pages.json", bench.folder / f"{name}.pdf") for name in names}
    found = medians({"packet": packet, **peers}, rounds=3)
    # tagged and for archives, as a packet is; the claim is judged and every page sealed besides
    yield Row("packet of text and 24 photos", found["packet"], "WeasyPrint", found["weasyprint"])
    less = {
        "fpdf2": "less: no tags, no PDF/A, no contents, nothing sealed",
        "img2pdf": "less: the photos alone, as they are",
    }
    for name, said in less.items():
        yield Row("packet of text and 24 photos", found["packet"], name, found[name], less=said)


def imported(bench: Bench) -> Iterator[Row]:
    """Claims put into an empty book."""
    measured = list(itertools.islice(imports(bench.folder), 3))
    ours, theirs = (min(each) for each in zip(*measured, strict=True))
    yield Row(f"{IMPORTED:,} claims put in", ours, "sqlite3: its rows", theirs, 2.0)


def lists(bench: Bench) -> Iterator[Row]:
    """Lists and look-ups in a large book, beside the same in an empty one."""
    full, empty = bench.shop(bench.claims), bench.shop(0)
    with closing(sqlite3.connect(full / "book.sqlite")) as driver:
        (serial,) = driver.execute("SELECT serial FROM claims ORDER BY number LIMIT 1 OFFSET 1000").fetchone()
    asked = {
        "list": ("list", "--limit", "50"),
        "list --all": ("list", "--all", "--limit", "50"),
        "find a serial": ("find", serial),
        "find words nowhere": ("find", "gyroscope"),
        "find words everywhere": ("find", "short block"),
    }
    for name, said in asked.items():
        found = medians(dict.fromkeys(("full", "empty"), (*CLAIMPACK, *said)), 3, {"full": full, "empty": empty})
        yield Row(f"{name}, {bench.claims:,} claims", found["full"], "an empty book", found["empty"], 1.5)
    for name in ("pending", "due"):
        said = (*CLAIMPACK, name, "--json", *AS_OF)
        found = medians(dict.fromkeys(("full", "empty"), said), 3, {"full": full, "empty": empty})
        yield Row(f"{name}, {bench.claims:,} claims", found["full"], "an empty book", found["empty"], 2.0)


def questions(bench: Bench) -> Iterator[Row]:
    """The same questions to the same rows, asked of the book, of sqlite3 and of DuckDB, each open already."""
    book = bench.shop(bench.claims) / "book.sqlite"
    subprocess.run([str(part) for part in (*QUESTION, "for-duckdb", book, bench.folder / "claims.duckdb")], check=True)
    places = {"book": book, "sqlite3": book, "duckdb": bench.folder / "claims.duckdb"}
    for asked in ASKED:
        runs = [
            {name: float(_output((*QUESTION, name, place, asked))) for name, place in places.items()} for _ in range(3)
        ]
        found = {name: statistics.median(run[name] for run in runs) for name in places}
        plain = "less: text, no dates and amounts" if "claim" in asked or "latest" in asked else ""
        yield Row(f"{asked}, in the program", found["book"], "sqlite3", found["sqlite3"], 1.5, plain)
        yield Row(f"{asked}, in the program", found["book"], "DuckDB", found["duckdb"], less=plain)


def _output(command: Sequence[object]) -> str:
    return subprocess.run([str(part) for part in command], check=True, capture_output=True, text=True).stdout


def growth(bench: Bench) -> Iterator[Row]:
    """Audit and report of ten times the claims, beside ten times the work of a tenth: n log n."""
    fewer, more = max(bench.claims // 10, 2_000), bench.claims
    by = more * math.log(more) / (fewer * math.log(fewer))
    for said in (("audit", "--json"), ("report", "--out", "report", "--json")):
        command = (*CLAIMPACK, *said, *AS_OF)
        small, large = (seconds(command, bench.shop(claims)) for claims in (fewer, more))
        yield Row(f"{said[0]} of {more:,} claims", large, f"{by:.1f} x {fewer:,}", by * small, 1.2)


PARTS: dict[str, Callable[[Bench], Iterator[Row]]] = {
    each.__name__: each for each in (start, pictures, pages, imported, lists, questions, growth)
}


def main() -> None:
    """Print the table, line by line as it is measured."""
    said = arguments(
        __doc__,
        Given("part", [], f"of {', '.join(PARTS)}; all without any"),
        Given("--claims", 20_000, "how many a large book has"),
    )
    print(f"{'question':42} {'ours':>12} {'':1}{'peer':18} {'theirs':>11} {'ratio':>8} {'aim':>6}  met")
    with tempfile.TemporaryDirectory() as folder:
        for part in said.part or PARTS:
            for row in PARTS[part](Bench(Path(folder), said.claims)):
                print(row.told(), flush=True)


if __name__ == "__main__":
    main()
