"""Small forms for tests, made by other libraries than the one under test, and read back by others again."""

from __future__ import annotations

import io
from collections.abc import Callable
from pathlib import Path
from typing import Any

import numpy as np
import pikepdf
import pypdfium2
import pytest
from builders import TODAY, a_claim, a_plan
from claim_folders import a_folder
from pikepdf import Array, Dictionary, Name, String
from pypdf import PdfReader
from reportlab.pdfgen.canvas import Canvas

from claimpack.core.judging.assessment import Assessment, assess
from claimpack.errors import BadInput
from claimpack.forms.facts import Facts, ShopSays
from claimpack.forms.filling import filled_here
from claimpack.forms.mapping import Form, form_from
from claimpack.forms.writings import Sheets, Writing, writings

SHOP = ShopSays("Quarry Road Small Engine", "18 Quarry Road, Ashby", "555-0142", "service@example.com", "QR-1184")
PAGE = (300.0, 200.0)


def a_form(draw: Callable[[Any], Any], page: tuple[float, float] = PAGE) -> bytes:
    """A PDF whose fields are made by the PDF engine's own."""
    stream = io.BytesIO()
    canvas = Canvas(stream, pagesize=page, invariant=1)
    draw(canvas.acroForm)
    canvas.showPage()
    canvas.save()
    return stream.getvalue()


def text_field(form: Any, name: str, y: float = 100, **more: Any) -> None:
    """A text field 200 points wide and 20 high."""
    given = {
        "x": 50,
        "width": 200,
        "height": 20,
        "fontName": "Helvetica",
        "fontSize": 10,
        "borderWidth": 0,
        "maxlen": None,
    } | more
    form.textfield(name=name, y=y, borderColor=None, fillColor=None, **given | {"maxlen": None} | more)


def one_field(**more: Any) -> bytes:
    """A form with one text field, `owner`."""
    return a_form(lambda form: text_field(form, "owner", **more))


def changed(content: bytes, act: Callable[[pikepdf.Pdf], Any], **options: Any) -> bytes:
    """A form after somebody changed it."""
    stream = io.BytesIO()
    with pikepdf.open(io.BytesIO(content)) as pdf:
        act(pdf)
        pdf.save(stream, **options)
    return stream.getvalue()


def without_fields(pages: int = 1, page: tuple[float, float] = PAGE, turned: int = 0) -> bytes:
    """A PDF with empty pages."""
    pdf = pikepdf.new()
    for _ in range(pages):
        pdf.add_blank_page(page_size=page)
        pdf.pages[-1].Rotate = turned
    stream = io.BytesIO()
    pdf.save(stream)
    return stream.getvalue()


def xfa_alone() -> bytes:
    """A form whose fields are in XFA alone."""

    def act(pdf: pikepdf.Pdf) -> None:
        pdf.Root.AcroForm = Dictionary(Fields=Array([]), XFA=pdf.make_stream(b"<xdp/>"))

    return changed(without_fields(), act)


def signed() -> bytes:
    """A form with a signature in it."""

    def act(pdf: pikepdf.Pdf) -> None:
        value = Dictionary(Type=Name.Sig, Contents=String("x"))
        field = pdf.make_indirect(Dictionary(FT=Name.Sig, T=String("dealer"), V=value))
        pdf.Root.AcroForm.Fields.append(field)

    return changed(one_field(), act)


def locked() -> bytes:
    """A form that may be read, but whose maker forbids to change it."""
    return changed(one_field(), lambda _: None, encryption=pikepdf.Encryption(owner="secret", user=""))


def filled(content: bytes, *written: Writing) -> bytes:
    """A form filled with one sheet."""
    return filled_here(content, "form.pdf", (written,)).pdf


def refusal(content: bytes, *written: Writing) -> str:
    """What is said of a form that does not take something."""
    with pytest.raises(BadInput) as caught:
        filled(content, *written)
    return "\n".join(caught.value.lines())


def values(content: bytes) -> dict[str, str]:
    """What another reader finds in the fields."""
    fields = PdfReader(io.BytesIO(content)).get_fields() or {}
    return {name: str(field.get("/V", "")) for name, field in fields.items()}


def pixels(content: bytes, page: int = 0, scale: float = 2) -> np.ndarray:
    """A page as another reader shows it, its fields too: True where there is ink."""
    with pypdfium2.PdfDocument(content) as pdf:
        pdf.init_forms()
        return np.asarray(pdf[page].render(scale=scale, may_draw_forms=True).to_pil().convert("L")) < 128


def ink(content: bytes, x: float, y: float, width: float, height: float, page: int = 0) -> tuple[float, float] | None:
    """Where the ink begins and ends across a rectangle, in points from its left edge; measured from the upper left."""
    shown = pixels(content, page)[round(2 * y) : round(2 * (y + height)), round(2 * x) : round(2 * (x + width))]
    across = np.flatnonzero(shown.any(axis=0))
    return (across[0] / 2, (across[-1] + 1) / 2) if across.size else None


def priced(parts: int = 1, **changes: Any) -> Assessment:
    """A claim with so many parts, assessed."""
    listed = [
        {"number": f"70-{number}", "name": f"Part {number}", "unit_cost": "2.50"} for number in range(1, parts + 1)
    ]
    return assess(a_claim(parts=listed, **changes), [a_plan()], TODAY)


def a_mapping(**keys: Any) -> Form:
    """A mapping with one field, changed."""
    base = {"id": "w7", "maker": "halden", "file": "form.pdf", "fields": {"owner": "{owner.name}"}}
    return form_from(base | keys, "w7.toml")


def sheets_of(assessment: Assessment | None = None, **keys: Any) -> Sheets:
    """What a mapping writes for a claim."""
    return writings(a_mapping(**keys), Facts(assessment or priced(), SHOP))


def said(text: str, assessment: Assessment | None = None, **keys: Any) -> str:
    """What one text comes to."""
    return sheets_of(assessment, fields={"f": {"text": text, **keys}})[0][0].text


MAPPING = """
format = 1
id = "w7"
name = "Form W-7"
maker = "halden"
file = "w7.pdf"
[fields]
owner = "{owner.name}"
"""


def a_shop_with_a_form(place: Path) -> Path:
    """A shop whose maker takes a form, and a claim folder in it."""
    (place / "shop.toml").write_text('[maker_forms]\nHalden = "w7"\n', encoding="utf-8")
    (place / "forms").mkdir()
    (place / "forms" / "w7.toml").write_text(MAPPING, encoding="utf-8")
    (place / "forms" / "w7.pdf").write_bytes(one_field())
    a_folder(place / "claim", shots=())
    return place
