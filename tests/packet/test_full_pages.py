"""No page of a packet is nearly empty: tried on every sample claim, on every paper."""

from __future__ import annotations

from datetime import date
from functools import cache
from pathlib import Path

import pypdf
import pypdfium2
import pytest
from drawn_packets import Receipt, Sheet, Shot, a_shot, layout_keys
from PIL import Image
from printed import overprinted, places_of

from claimpack.packet.drawing.evidence import PacketFile, PageEvidence, ShopFacts
from claimpack.packet.drawing.layout import layout_from
from claimpack.packet.drawn_pages import draw_pages
from claimpack.printing.page_saving import LEAST_FULL
from claimpack.scripts import judge

SAMPLES = sorted((Path(__file__).parents[2] / "sample_claims").glob("26-*"))
SHOP = ShopFacts("Quarry Road Small Engine", "18 Quarry Road, Ashby", "555-0142")
LATER = date(2026, 11, 29)
_SCALE = 0.25


@cache
def the_layout(name):
    own = layout_keys(name)
    base = layout_keys(own["like"]) if "like" in own else {}
    return layout_from({**base, **own}, f"{name}.toml")


@cache
def read(sample):
    """A sample judged, with pictures of the size of its own and papers with as many pages."""
    assessment = judge(sample, LATER)
    files = [path.relative_to(sample).as_posix() for path in sorted(sample.glob("p*/*"))]
    photos = [_picture(sample, photo.file) for photo in assessment.claim.photos]
    papers = [_paper(sample, file) for file in assessment.claim.paper_files()]
    listed = [PacketFile(file, "a1" * 32, 34567) for file in files]
    return assessment, PageEvidence(photos, papers, SHOP, listed)


def _picture(sample, file):
    wide, high = (1280, 960) if file.endswith(".heic") else Image.open(sample / file).size
    return Shot(file, a_shot(size=(80, 60)).jpeg, wide, high, original_width=wide, original_height=high)


def _paper(sample, file):
    pages = pypdf.PdfReader(sample / file).pages if file.endswith(".pdf") else [None]
    boxes = [page.mediabox if page else (0, 0, 612, 792) for page in pages]
    return Receipt(file, tuple(Sheet(float(box[2] - box[0]), float(box[3] - box[1])) for box in boxes))


@cache
def drawn(sample, name):
    assessment, evidence = read(sample)
    return draw_pages(assessment, the_layout(name), evidence).pdf


def filled(pdf, layout):
    """How far down the ink of every page reaches inside the margins, by another program."""
    shares = []
    for page in pypdfium2.PdfDocument(pdf):
        picture = page.render(scale=_SCALE, grayscale=True).to_pil().point(lambda shade: 255 * (shade < 240))
        _, bottom, _, height = layout.body if page.get_width() < page.get_height() else layout.body_across
        top, end = (int((page.get_height() - at) * _SCALE) for at in (bottom + height, bottom))
        inked = picture.crop((0, top, picture.width, end)).getbbox()
        shares.append(inked[3] / (end - top) if inked else 0.0)
    return shares


# those that had such a page on one paper or another
ON_EVERY_PAPER = ("26-0074", "26-0110", "26-0116")
DRAWN = [(sample, "letter") for sample in SAMPLES]
DRAWN += [
    (sample, layout)
    for sample in SAMPLES
    if sample.name.startswith(ON_EVERY_PAPER)
    for layout in ("legal", "letter-punched", "carta-a4")
]


@pytest.mark.parametrize(("sample", "name"), DRAWN, ids=lambda given: getattr(given, "name", given))
def test_no_page_but_the_first_is_under_a_third_full(sample, name):
    shares = filled(drawn(sample, name), the_layout(name))
    assert [number for number, share in enumerate(shares[1:], start=2) if share < LEAST_FULL] == []


@pytest.mark.parametrize(("sample", "name"), DRAWN, ids=lambda given: getattr(given, "name", given))
def test_no_words_of_a_packet_stand_on_others_or_beyond_the_page(sample, name):
    assert overprinted(drawn(sample, name)) == []


@pytest.mark.parametrize(("sample", "name"), DRAWN, ids=lambda given: getattr(given, "name", given))
def test_no_words_of_a_packet_reach_into_the_margins_at_the_sides(sample, name):
    layout, beyond = the_layout(name), []
    for page in pypdfium2.PdfDocument(drawn(sample, name)):
        left, _, width, _ = layout.body if page.get_width() < page.get_height() else layout.body_across
        beyond += [said for said, (start, _, end, _) in places_of(page) if start < left - 1 or end > left + width + 1]
    assert beyond == []
