"""Claim folders on disk for tests: small, complete, with a real picture and a real receipt."""

from __future__ import annotations

import io
from pathlib import Path

from PIL import Image
from reportlab.pdfgen.canvas import Canvas

CLAIM = """\
format = 1
number = "26-0001"
maker = "halden"
plan = "halden-2025"

[unit]
model = "CS-70"
kind = "cut-off saw"
use = "professional"
meter = true
hours = "100"
built = 2025-01-20
sold_in = "US-SC"
serials = [ {role = "unit", value = "HC70-118-20417"}, {role = "engine", value = "E70-55102"} ]

[owner]
name = "A. Customer"
first_owner = true

[dates]
purchased = 2025-06-01
registered = 2025-06-02
failed = 2026-02-02
presented = 2026-02-05
repaired = 2026-02-24

[proof]
kind = "receipt"
file = "papers/receipt.pdf"

[failure]
complaint = "Will not start."
cause = "Piston scored."
correction = "Short block replaced."
component = "short block"
defect = "material"

[approval]
number = "A-1"
on = 2026-02-10

[[findings]]
what = "compression"
value = "42"
unit = "psi"
low = "110"
high = "150"

[[parts]]
number = "70-1180-00"
name = "Short block"
source = "maker"

[[labour]]
operation = "short-block-replace"
hours = "1.6"

[[held]]
part = "short block"
shelf = "B3"
drained = true
since = 2026-02-24
"""

SHOTS = ("serial plate", "engine serial plate", "whole unit", "failed part", "damage")


def picture(width: int = 120, height: int = 90, colour: tuple[int, int, int] = (90, 90, 90)) -> bytes:
    """A small JPEG."""
    stream = io.BytesIO()
    Image.new("RGB", (width, height), colour).save(stream, "JPEG")
    return stream.getvalue()


def receipt(text: str = "Paid.") -> bytes:
    """A one-page PDF."""
    stream = io.BytesIO()
    canvas = Canvas(stream, pagesize=(300, 400), invariant=1)
    canvas.drawString(30, 350, text)
    canvas.save()
    return stream.getvalue()


def a_folder(place: Path, text: str = CLAIM, shots: tuple[str, ...] = SHOTS) -> Path:
    """A claim folder with one picture a shot."""
    (place / "photos").mkdir(parents=True)
    (place / "papers").mkdir()
    (place / "papers" / "receipt.pdf").write_bytes(receipt())
    listed = ""
    for index, shot in enumerate(shots):
        (place / "photos" / f"{index}.jpg").write_bytes(picture(colour=(90, 20 * index, 90)))
        listed += f'\n[[photos]]\nfile = "photos/{index}.jpg"\nshot = "{shot}"\n'
    (place / "claim.toml").write_text(text + listed, encoding="utf-8")
    return place
