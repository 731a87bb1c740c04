"""Inputs changed at random, handed to every reader, and what must never happen to a reader."""

from __future__ import annotations

import csv
import io
import json
import random
import re
import shutil
import time
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from functools import cache, partial
from pathlib import Path
from typing import NamedTuple

import pikepdf
from evidence.drawn_papers import photo, placed, switched_off
from evidence.pictures import camera_exif, gradient
from packets import a_packet
from running import claimpack

from claimpack.errors import ClaimpackError
from claimpack.evidence.papers.papers import read_paper
from claimpack.evidence.pictures.exif import taken_at
from claimpack.evidence.pictures.likeness import look_at
from claimpack.evidence.pictures.photos import PrintSize, prepare
from claimpack.forms.filling import fill
from claimpack.forms.writings import PageArea, Writing
from claimpack.lists.parts_lists import listed_part
from claimpack.packet.proving.verify import verify

ROOT = Path(__file__).parents[1]
SAMPLES = ROOT / "sample_claims"
MOST_SECONDS = 20

_WORDS = (
    *(b"1e999999", b"nan", b"-1", b"0", b"9" * 400, b"9999-12-31", b"0001-01-01", b"2026-02-30", b'""', b'"P99999Y"'),
    *(b'"(a+)+$"', b"[" * 3000, b"{" * 3000, b'"\\u0000"', b'"\\ud800"', b"true", b"[]", b"{}", b"null", b"\xff\xfe"),
    *("\u202e\u0301\U0001f4a5".encode(), b'"' + b"x" * 40_000 + b'"', b"\0", b"\r", b"1.5.2", b"2026-02-05T09:00:00Z"),
    *(b'"../../etc/passwd"', b'"*"', b'"[a-"', b"0x10", b"inf", b"# ", b"'''", b'"""', b"<<", b">>", b" R ", b"stream"),
)
_VALUE = re.compile(rb'"[^"\n]*"|\b\d[\d.:T-]*\b|\btrue\b|\bfalse\b|/[A-Za-z0-9]+')


def mutated(content: bytes, chance: random.Random) -> bytes:
    """The content after one to five changes of a kind that files meet on their way, or that somebody makes."""
    for _ in range(chance.choice((1, 1, 2, 3, 5))):
        content = chance.choice(_CHANGES)(content, chance) or b"\0"
    return content


def _place(content: bytes, chance: random.Random) -> int:
    return chance.randrange(len(content) + 1)


def _flip(content: bytes, chance: random.Random) -> bytes:
    at = min(_place(content, chance), len(content) - 1)
    return content[:at] + bytes((content[at] ^ 1 << chance.randrange(8),)) + content[at + 1 :]


def _cut(content: bytes, chance: random.Random) -> bytes:
    at = _place(content, chance)
    return content[:at] + content[at + chance.choice((1, 4, 40, 400, 10**9)) :]


def _repeat(content: bytes, chance: random.Random) -> bytes:
    at = _place(content, chance)
    piece = content[at : at + chance.choice((1, 8, 80, 800))]
    return content[:at] + piece * chance.choice((2, 3, 50)) + content[at:]


def _put(content: bytes, chance: random.Random) -> bytes:
    at = _place(content, chance)
    return content[:at] + chance.choice((chance.choice(_WORDS), chance.randbytes(8))) + content[at:]


def _overwrite(content: bytes, chance: random.Random) -> bytes:
    at, piece = _place(content, chance), chance.choice((b"\xff\xff\xff\xff", bytes(4), b"\x7f\xff\xff\xff", b"\x80"))
    return content[:at] + piece + content[at + len(piece) :]


def _replace_value(content: bytes, chance: random.Random) -> bytes:
    values = list(_VALUE.finditer(content))
    if not values:
        return _put(content, chance)
    value = chance.choice(values)
    other = chance.choice((chance.choice(_WORDS), chance.choice(values)[0]))
    return content[: value.start()] + other + content[value.end() :]


_CHANGES = (_flip, _cut, _repeat, _put, _overwrite, _replace_value, _replace_value)


class Fault(NamedTuple):
    """What happened that must not, and the input it happened to."""

    what: str
    content: bytes


@dataclass(frozen=True)
class Reader:
    """One way into the program: sound inputs, and what reads a changed one."""

    sound: Callable[[], list[bytes]]
    read: Callable[[bytes, Path], str]
    """Returns what must not have happened; empty where nothing did."""

    def faults(self, seed: int, count: int, place: Path) -> Iterator[Fault]:
        """Every fault among that many inputs of a seed."""
        chance, sound = random.Random(seed), self.sound()
        for _ in range(count):
            content = mutated(chance.choice(sound), chance)
            begun = time.perf_counter()
            what = self._read(content, place)
            if not what and time.perf_counter() - begun > MOST_SECONDS:
                what = f"took {time.perf_counter() - begun:.0f} s"
            if what:
                yield Fault(what, content)

    def _read(self, content: bytes, place: Path) -> str:
        try:
            return self.read(content, place)
        except ClaimpackError as error:
            ended = re.search(r"broke down|took more than \d+ s", error.what)
            return error.what if ended else ""
        except Exception as fault:  # noqa: BLE001  # any other is what is looked for
            return f"{type(fault).__name__}: {fault}"


def _answered(*arguments: object, folder: Path) -> str:
    ran = claimpack(*arguments, folder=folder)
    return "" if ran.code in (0, 2, 3, 4) and len(ran.err) < 20_000 else f"exit {ran.code}: {ran.err[:300]}"


def _texts(folder: Path, pattern: str) -> list[bytes]:
    return [path.read_bytes() for path in sorted(folder.glob(pattern))]


@cache
def _claim_folder(place: Path) -> Path:
    shutil.copytree(SAMPLES / "26-0041-short-block", place / "claim")
    return place / "claim"


def _check_claim(content: bytes, place: Path) -> str:
    folder = _claim_folder(place)
    (folder / "claim.toml").write_bytes(content)
    told = _answered("check", folder, folder=place)
    return told or ("" if (folder / "claim.toml").read_bytes() == content else "claim.toml was changed")


def _check_under_plan(content: bytes, place: Path) -> str:
    folder = _claim_folder(place)
    (folder / "claim.toml").write_bytes((SAMPLES / "26-0041-short-block" / "claim.toml").read_bytes())
    (place / "plan.toml").write_bytes(content)
    return _answered("check", folder, "--plans", place / "plan.toml", folder=place)


def _look_over(content: bytes, place: Path) -> str:
    (place / "template.toml").write_bytes(content)
    return _answered("plan", "check", place / "template.toml", folder=place)


@cache
def _shop(place: Path) -> Path:
    claimpack("shop", "init", place / "shop", "--name", "Quarry Road", "--currency", "USD", folder=place)
    return place / "shop"


@cache
def _sound_shops() -> list[bytes]:
    keys = b'name = "Quarry Road"\ncurrency = "USD"\nterms = "us-tx"\n[maker_terms]\nhalden = "us-tx"\n'
    return [keys, *_texts(ROOT / "templates" / "shop", "*.toml")]


def _show_shop(content: bytes, place: Path) -> str:
    shop = _shop(place)
    (shop / "shop.toml").write_bytes(content)
    return _answered("shop", "show", folder=shop) or _answered("pending", folder=shop)


@cache
def _archives() -> list[bytes]:
    import tempfile

    with tempfile.TemporaryDirectory() as temporary:
        place = Path(temporary)
        shop = _shop(place)
        claimpack("import", SAMPLES / "26-0041-short-block", folder=shop)
        claimpack("export", "--everything", place / "book.zip", folder=shop)
        return [(place / "book.zip").read_bytes()]


def _import(content: bytes, place: Path) -> str:
    shop = place / "taking-in"
    shutil.rmtree(shop, ignore_errors=True)
    shutil.copytree(_shop(place), shop)
    (place / "book.zip").write_bytes(content)
    ran = claimpack("import", place / "book.zip", folder=shop)
    if ran.code not in (0, 2, 3, 4):
        return f"exit {ran.code}: {ran.err[:300]}"
    held = claimpack("list", "--json", folder=shop)
    kept = held.code == 0 and held.json["claims"]
    return (
        ""
        if held.code == 0 and bool(kept) == (ran.code == 0)
        else f"{ran.code}, then list {held.code}: {held.out[:200]}"
    )


CLAIMS_KEPT = """Claim no,Maker,Model,Serial,Date in,State,Date filed,Amount,Paid,Date paid
25-0300,Halden,CS-70,HC70-118-20988,2025-11-03,sent,10 Nov 2025,$147.20,,
25-0301,halden,CS-70,HC70-118-20989,2025-10-01,paid,2025-10-09,"1,200.00","1,200.00",2025-11-01
"""


@cache
def _workbooks() -> list[bytes]:
    from openpyxl import Workbook

    book, written = Workbook(), io.BytesIO()
    for line in csv.reader(io.StringIO(CLAIMS_KEPT)):
        book.active.append(line)
    book.save(written)
    return [written.getvalue()]


def _take_over(name: str, content: bytes, place: Path) -> str:
    shop = _shop(place)
    (shop / "kept.csv").write_text(CLAIMS_KEPT)
    (shop / name).write_bytes(content)
    mapping = ("--mapping", "map.toml") if name == "map.toml" else ()
    return _answered("import", "kept.csv" if mapping else name, "--dry-run", *mapping, folder=shop)


def _look_up_part(content: bytes, place: Path) -> str:
    (place / "halden.csv").write_bytes(content)
    listed_part(place / "halden.csv", "70-3301-00", "USD")
    return ""


@cache
def _papers() -> list[bytes]:
    found = _texts(SAMPLES, "*/papers/*.pdf")[:4]
    with pikepdf.open(io.BytesIO(found[0])) as pdf:
        placed(pdf, photo(), Filter=pikepdf.Name.DCTDecode)
        switched_off(pdf, b"BT (x) Tj ET")
        written = io.BytesIO()
        pdf.save(written, compress_streams=False, object_stream_mode=pikepdf.ObjectStreamMode.disable)
    with pikepdf.open(io.BytesIO(found[1])) as pdf:
        plain = io.BytesIO()
        pdf.save(plain, qdf=True)
    return [*found, *[written.getvalue(), plain.getvalue()] * 3]


def _bring_in_paper(content: bytes, place: Path) -> str:
    (place / "paper.pdf").write_bytes(content)
    read_paper(place / "paper.pdf", "paper.pdf")
    return ""


@cache
def _forms() -> list[bytes]:
    whole = (ROOT / "templates" / "forms" / "halden-w7.pdf").read_bytes()
    with pikepdf.open(io.BytesIO(whole)) as pdf:
        plain = io.BytesIO()
        pdf.save(plain, qdf=True)
    return [whole, *[plain.getvalue()] * 3]


def _fill_form(content: bytes, place: Path) -> str:
    wide = PageArea(1, 10, 10, 90, 12)
    written = [Writing("owner.name", "Ann"), Writing("unit.serial", "HC70"), Writing("unit.use", "Rental")]
    written += [
        Writing("owner.first", tick=True),
        Writing("failure.cause", "long " * 99),
        Writing("at", "x", place=wide),
    ]
    return "" if fill(content, "form.pdf", (tuple(written),) * 2).pdf.startswith(b"%PDF-") else "no PDF"


def _look_over_mapping(content: bytes, place: Path) -> str:
    for path in (ROOT / "templates" / "forms").glob("*.pdf"):
        shutil.copy(path, place)
    return _look_over(content, place)


@cache
def _pictures(kind: str) -> list[bytes]:
    if kind == "HEIF":
        import pillow_heif

        pillow_heif.register_heif_opener()
    made = []
    for options in ({}, {"exif": camera_exif().tobytes()}, {"progressive": True} if kind == "JPEG" else {}):
        written = io.BytesIO()
        gradient().save(written, kind, **options)
        made.append(written.getvalue())
    return made


def _bring_in_picture(content: bytes, place: Path) -> str:
    path = place / "picture"
    path.write_bytes(content)
    for look in (taken_at, look_at, lambda *file: prepare(*file, PrintSize())):
        try:
            look(path, "picture")
        except ClaimpackError as error:
            if re.search(r"broke down|took more than \d+ s", error.what):
                raise
    return ""


def _prove(content: bytes, place: Path) -> str:
    verify(content)
    return ""


_EMBEDDED = ("claim.json", "plan.json", "assessment.json", "manifest.json")


@cache
def _embedded() -> list[bytes]:
    with pikepdf.open(io.BytesIO(a_packet())) as pdf:
        return [
            json.dumps([name, pdf.attachments[name].get_file().read_bytes().decode()]).encode() for name in _EMBEDDED
        ]


def _forge(content: bytes, place: Path) -> str:
    chance = random.Random(content)
    name, text = json.loads(chance.choice(_embedded()))
    forged = mutated(text.encode(), chance)
    with pikepdf.open(io.BytesIO(a_packet())) as pdf:
        old = pdf.attachments[name]
        del pdf.attachments[name]
        pdf.attachments[name] = pikepdf.AttachedFileSpec(pdf, forged, filename=name, description=old.description)
        written = io.BytesIO()
        pdf.save(written)
    return "called genuine" if verify(written.getvalue()).genuine and forged != text.encode() else ""


READERS = {
    "claim.toml": Reader(lambda: _texts(SAMPLES, "*/claim.toml"), _check_claim),
    "a plan": Reader(lambda: _texts(ROOT / "templates" / "coverage", "*.toml"), _look_over),
    "a plan in force": Reader(lambda: _texts(ROOT / "templates" / "coverage", "halden-2025.toml"), _check_under_plan),
    "terms": Reader(lambda: _texts(ROOT / "templates" / "terms", "*.toml"), _look_over),
    "a layout": Reader(lambda: _texts(ROOT / "templates" / "packet", "*.toml"), _look_over),
    "a stock": Reader(lambda: _texts(ROOT / "templates" / "tag", "*.toml"), _look_over),
    "a mapping": Reader(lambda: _texts(ROOT / "templates" / "forms", "*.toml"), _look_over_mapping),
    "a maker's form": Reader(_forms, _fill_form),
    "shop.toml": Reader(_sound_shops, _show_shop),
    "an archive": Reader(_archives, _import),
    "a list of claims": Reader(lambda: [CLAIMS_KEPT.encode()], partial(_take_over, "claims.csv")),
    "a workbook of claims": Reader(_workbooks, partial(_take_over, "claims.xlsx")),
    "the mapping of a list": Reader(
        lambda: [b'[columns]\nnumber = "Claim no"\nmaker = "Maker"\nmodel = "Model"\npresented = "Date in"\n'],
        partial(_take_over, "map.toml"),
    ),
    "a parts list": Reader(lambda: [b"number,name,cost\n70-3301-00,Ignition coil,$38.15\n"], _look_up_part),
    "a paper": Reader(_papers, _bring_in_paper),
    "a packet": Reader(lambda: [a_packet()], _prove),
    "what a packet carries": Reader(_embedded, _forge),
    **{
        f"a picture in {kind}": Reader(lambda kind=kind: _pictures(kind), _bring_in_picture)
        for kind in ("JPEG", "PNG", "TIFF", "WEBP", "HEIF")
    },
}
"""Every reader of the program, by what it reads."""
