"""What other libraries do for the same question, each as a program of its own: tests/bench/peers.py pyvips PHOTO…

Pages are written from `pages.json`: the text of the packet's own pages, line by line, cells apart, and its photos, two
to a page with their captions, in the typeface the packet has. What a packet has beside is not asked of them: the
verdict, the contents, marks in photos, attachments and the list of what was hashed.
"""

from __future__ import annotations

import html
import json
import sys
from collections.abc import Callable, Iterable, Iterator
from itertools import groupby, islice
from pathlib import Path
from typing import Any

sys.path.insert(0, str(Path(__file__).parents[1]))

from by_hand import Given, arguments

FONT = Path(__file__).parents[2] / "claimpack" / "fonts" / "NotoSans-Regular.ttf"
LETTER = (612.0, 792.0)


def _told(pages: str) -> dict[str, Any]:
    return json.loads(Path(pages).read_text())


def _two_by_two(photos: Iterable[Any]) -> Iterator[list[Any]]:
    each = iter(photos)
    while two := list(islice(each, 2)):
        yield two


def img2pdf_pages(pages: str, out: str) -> None:
    """The photos alone, each on a page, as they are."""
    import img2pdf

    layout = img2pdf.get_layout_fun(LETTER)
    Path(out).write_bytes(img2pdf.convert([path for path, _ in _told(pages)["photos"]], layout_fun=layout))


def fpdf2_pages(pages: str, out: str) -> None:
    """The pages by fpdf2: tables by its own tables, other lines as paragraphs."""
    from fpdf import FPDF

    told, pdf = _told(pages), FPDF(format="letter", unit="pt")
    pdf.add_font("Noto", fname=FONT)
    pdf.set_font("Noto", size=9)
    for lines in told["pages"]:
        pdf.add_page()
        for cells, some in groupby(lines, key=len):
            if cells == 1:
                for (line,) in some:
                    pdf.multi_cell(0, 12, line, new_x="LMARGIN", new_y="NEXT")
                continue
            with pdf.table(borders_layout="NONE", first_row_as_headings=False, line_height=12) as table:
                for line in some:
                    table.row(line)
    for two in _two_by_two(told["photos"]):
        pdf.add_page()
        for path, caption in two:
            pdf.image(path, w=400)
            pdf.multi_cell(0, 12, caption, new_x="LMARGIN", new_y="NEXT")
    pdf.output(out)


def weasyprint_pages(pages: str, out: str) -> None:
    """The pages by WeasyPrint, tagged and for archives as the packet is."""
    from weasyprint import HTML

    told = _told(pages)
    body = []
    for lines in told["pages"]:
        body.append("<section>")
        for cells, some in groupby(lines, key=len):
            if cells == 1:
                body += [f"<p>{html.escape(line)}</p>" for (line,) in some]
                continue
            rows = ("".join(f"<td>{html.escape(cell)}</td>" for cell in line) for line in some)
            body.append("<table>" + "".join(f"<tr>{row}</tr>" for row in rows) + "</table>")
        body.append("</section>")
    for two in _two_by_two(told["photos"]):
        shown = (f'<img src="{Path(path).as_uri()}" alt=""><p>{html.escape(said)}</p>' for path, said in two)
        body.append("<section>" + "".join(shown) + "</section>")
    style = (
        f'@font-face {{ font-family: Noto; src: url("{FONT.as_uri()}") }} @page {{ size: letter; margin: 36pt }}'
        " body { font: 9pt Noto } p { margin: 2pt 0 } section { break-after: page } img { width: 400pt }"
    )
    page = f'<html lang="en"><title>Pages</title><style>{style}</style><body>{"".join(body)}</body></html>'
    HTML(string=page).write_pdf(out, pdf_tags=True, pdf_variant="pdf/a-3b")


def pyvips_photos(*paths: str) -> None:
    """Photos made small enough for print."""
    import pyvips

    for path in paths:
        pyvips.Image.thumbnail(path, 1600).write_to_buffer(".jpg")


PEERS: dict[str, Callable[..., None]] = {
    "img2pdf": img2pdf_pages,
    "fpdf2": fpdf2_pages,
    "weasyprint": weasyprint_pages,
    "pyvips": pyvips_photos,
}

if __name__ == "__main__":
    SAID = arguments(
        __doc__,
        Given("name", str, f"one of {', '.join(PEERS)}"),
        Given("arg", [], "what it works on, and where it writes"),
    )
    PEERS[SAID.name](*SAID.arg)
