from __future__ import annotations

import itertools
import re
import subprocess
import sys
from functools import lru_cache
from io import BytesIO
from pathlib import Path

import numpy as np
import pikepdf
import pypdf
import pytest
import zxingcpp
from PIL import Image
from printed import page_texts, words_of

from claimpack.errors import BadInput
from claimpack.tag.draw import printer_dots, tag_notes, tag_pdf, tag_png
from claimpack.tag.drawing import Modules
from claimpack.tag.layout import laid_out

NUMBERS = ["26-0041", "0000412345", "QRSE-ASHBY-2026-WA-00413"]
SHORTEST_AND_ALL_DIGITS = ["7", "123456789012345678901234"]
PICTURES = list(zip(NUMBERS, (203, 300, 203), strict=True))
LONGEST = ["QTQHCkNW0MTX5F3Y1JcUkTfY", "ABCDEFGHIJKLMNOPQRSTUVWX"]


@pytest.fixture(scope="module")
def kept():
    return {}


@pytest.fixture
def drawn(kept):
    """The PDF of a tag on a stock, or its picture at so many dots; drawn once for all the tests that only read it."""

    def once(tag, stock, dpi=None):
        made = (tag, stock.id, dpi)
        if made not in kept:
            kept[made] = tag_png(tag, stock, dpi) if dpi else tag_pdf([tag], stock)
        return kept[made]

    return once


@pytest.fixture
def printed(stock, a_tag, drawn):
    """The PDF of a plain tag on a stock."""
    return drawn(a_tag(), stock)


def read(picture):
    """What a scanner finds in a picture: format and text, sorted."""
    return in_short(zxingcpp.read_barcodes(picture))


def in_short(found):
    return sorted((one.format.name, one.text) for one in found)


def both(*codes):
    return sorted((kind, code) for code in codes for kind in ("Code128", "QRCode"))


@lru_cache
def opened(content):
    return Image.open(BytesIO(content))


@lru_cache
def scanned(content, stock_turned):
    """A picture of dots, upright, and what a scanner finds in it."""
    picture = opened(content)
    picture = (picture.transpose(Image.Transpose.ROTATE_90) if stock_turned else picture).convert("L")
    return picture, zxingcpp.read_barcodes(picture)


def found_in(content, stock, kind):
    """The dots of an upright picture, and where the scanner saw a code of that kind."""
    picture, found = scanned(content, is_turned(stock))
    return np.asarray(picture) == 0, next(one for one in found if one.format.name == kind)


def is_turned(stock):
    return bool(stock.turned and not stock.sheet)


def code_128(content, stock):
    """Where the Code 128 stands in an upright picture of dots: its scan line, and its first and last dot."""
    dark, found = found_in(content, stock, "Code128")
    line = dark[(found.position.top_left.y + found.position.bottom_left.y) // 2]
    ink = np.flatnonzero(line)
    return line, ink[0], ink[-1]


@pytest.mark.parametrize("number", [NUMBERS[0], *SHORTEST_AND_ALL_DIGITS])
def test_both_barcodes_are_read_from_the_rendered_pdf(stock, a_tag, drawn, seen, number):
    tag = a_tag(claim=number)
    assert read(seen(drawn(tag, stock), 203)) == both(tag.code)


@pytest.mark.parametrize(("number", "dpi"), PICTURES)
def test_both_barcodes_are_read_from_the_png(stock, a_tag, drawn, number, dpi):
    tag = a_tag(claim=number)
    assert in_short(scanned(drawn(tag, stock, dpi), False)[1]) == both(tag.code)


@pytest.mark.parametrize("number", LONGEST)
def test_the_longest_code_a_tag_can_have_is_read_from_the_pdf(stock, a_tag, drawn, seen, number):
    tag = a_tag(claim=number, place=100, of=100)
    assert read(seen(drawn(tag, stock), 203)) == both(tag.code)


@pytest.mark.parametrize(("number", "dpi"), PICTURES)
def test_every_bar_and_space_is_a_whole_number_of_modules(stock, a_tag, drawn, number, dpi):
    line, first, last = code_128(drawn(a_tag(claim=number), stock, dpi), stock)
    changes = np.flatnonzero(np.diff(line[first : last + 1].astype(int))) + 1
    runs = np.diff([0, *changes, last + 1 - first])
    dots = runs.min()
    assert dots >= 2
    assert set(runs % dots) == {0}
    assert runs.max() <= 4 * dots


@pytest.mark.parametrize(("number", "dpi"), PICTURES)
def test_ten_blank_modules_stand_on_each_side_of_the_bars(stock, a_tag, drawn, number, dpi):
    line, first, last = code_128(drawn(a_tag(claim=number), stock, dpi), stock)
    module = (np.diff(np.flatnonzero(np.diff(line[first : last + 1].astype(int))))).min()
    assert first >= 10 * module
    assert len(line) - 1 - last >= 10 * module


@pytest.mark.parametrize(("number", "dpi"), PICTURES)
def test_four_blank_modules_stand_all_round_the_qr_code(stock, a_tag, drawn, number, dpi):
    dark, found = found_in(drawn(a_tag(claim=number), stock, dpi), stock, "QRCode")
    left, top, right, bottom = frame(dark, found)
    finder = int(np.flatnonzero(~dark[top, left:])[0])
    quiet = 4 * finder // 7
    around = dark[max(0, top - quiet) : bottom + quiet + 1, max(0, left - quiet) : right + quiet + 1]
    assert around.sum() == dark[top : bottom + 1, left : right + 1].sum()
    assert left >= quiet
    assert dark.shape[1] - 1 - right >= quiet
    assert finder % 7 == 0


def frame(dark, found):
    """The first and last dark dot of a QR code across and down, from about where the scanner saw it."""
    spots = [found.position.top_left, found.position.top_right, found.position.bottom_left]
    left, right = min(spot.x for spot in spots), max(spot.x for spot in spots)
    top, bottom = min(spot.y for spot in spots), max(spot.y for spot in spots)
    inner = dark[top - 3 : bottom + 4, left - 3 : right + 4]
    across, down = np.flatnonzero(inner.any(axis=0)), np.flatnonzero(inner.any(axis=1))
    return left - 3 + across[0], top - 3 + down[0], left - 3 + across[-1], top - 3 + down[-1]


def test_a_module_in_the_pdf_is_a_whole_number_of_the_printer_s_dots(a_stock, a_tag):
    stock = a_stock("shipping-tag-5")
    with pikepdf.open(BytesIO(tag_pdf([a_tag()], stock))) as document:
        widths = [float(step.operands[2]) for step in pikepdf.parse_content_stream(document.pages[0]) if is_bar(step)]
    dots = np.array(widths) / (72 / 203.2)
    assert len(widths) > 30
    assert np.abs(dots - dots.round()).max() < 0.01


def is_bar(step):
    return str(step.operator) == "re" and 15 < float(step.operands[3]) < 23 and float(step.operands[2]) < 20


def test_three_held_parts_are_on_one_sheet_each_with_its_own_codes(a_stock, a_tag, seen):
    for name in ("sheet-letter", "sheet-a4"):
        tags = [a_tag(place=index) for index in (1, 2, 3)]
        content = tag_pdf(tags, a_stock(name))
        assert len(pypdf.PdfReader(BytesIO(content)).pages) == 1
        assert read(seen(content, 203)) == both("26-0041/1", "26-0041/2", "26-0041/3")


def test_a_sheet_is_marked_to_be_cut_at_every_corner_of_its_tags(a_stock, a_tag):
    stock = a_stock("sheet-letter")
    page = pypdf.PdfReader(BytesIO(tag_pdf([a_tag()] * 4, stock))).pages[0]
    lines = re.findall(rb"(\S+) (\S+) m (\S+) (\S+) l", page.get_contents().get_data())
    level = {((float(x) + float(to)) / 2, -float(y)) for x, y, to, same in lines if y == same}
    corners = itertools.product(
        (27, 27 + stock.width, 27 + 2 * stock.width), (27, 27 + stock.height, 27 + 2 * stock.height)
    )
    assert sorted(level) == [pytest.approx(corner, abs=0.01) for corner in sorted(corners)]


def test_the_fifth_tag_begins_a_second_sheet(a_stock, a_tag):
    content = tag_pdf([a_tag(place=index, of=5) for index in range(1, 6)], a_stock("sheet-letter"))
    assert len(pypdf.PdfReader(BytesIO(content)).pages) == 2


def test_each_tag_has_a_page_of_its_own_on_a_single_stock(a_stock, a_tag):
    content = tag_pdf([a_tag(place=index) for index in (1, 2, 3)], a_stock("shipping-tag-5"))
    assert len(pypdf.PdfReader(BytesIO(content)).pages) == 3


def test_the_page_is_the_stock_s(stock, printed):
    box = pypdf.PdfReader(BytesIO(printed)).pages[0].mediabox
    assert (float(box.width), float(box.height)) == pytest.approx(stock.page, abs=0.01)


def test_the_text_is_read_back(printed):
    text = pypdf.PdfReader(BytesIO(printed)).pages[0].extract_text()
    facts = ("HOLD FOR WARRANTY", "26-0041", "1 of 3", "Halden", "CS-70", "HC70-118-20417", "short block", "H70-4410")
    assert [fact for fact in facts if fact not in text] == []


def test_dates_shelf_and_caution_are_read_back_by_a_second_reader(printed):
    text = words_of(printed)
    facts = ("2026-02-02", "2026-02-24", "2026-06-08", "B3", "DRAINED", "49 CFR 173.220")
    assert [fact for fact in facts if fact not in text] == []


def test_accents_greek_and_cyrillic_are_read_back(stock, a_long_tag, drawn):
    text = words_of(drawn(a_long_tag(), stock))
    assert "ΑΒΓ профи" in text
    assert "ÉÀÜ" in text


def test_a_character_without_a_typeface_is_printed_by_its_number(stock, a_tag):
    tag = a_tag(part="gear ไทย")
    assert "[Thai]" in words_of(tag_pdf([tag], stock))
    assert [note.split()[0] for note in tag_notes([tag], stock)] == ["no"]


@pytest.mark.parametrize("builder", ["a_long_tag", "a_bare_tag"])
def test_nothing_is_drawn_outside_the_page(stock, builder, request, seen):
    content = tag_pdf([request.getfixturevalue(builder)()] * 4, stock)
    stream = BytesIO()
    with pikepdf.open(BytesIO(content)) as document:
        document.pages[0].mediabox = [-30, -30, stock.page[0] + 30, stock.page[1] + 30]
        document.save(stream)
    dark = np.asarray(seen(stream.getvalue(), 144)) < 250
    dark[60 - 1 : -60 + 1, 60 - 1 : -60 + 1] = False
    assert not dark.any()


@pytest.mark.parametrize("builder", ["a_tag", "a_long_tag", "a_bare_tag"])
def test_nothing_is_printed_over_the_hole_or_near_the_edge(stock, builder, request, drawn):
    dark = np.asarray(scanned(drawn(request.getfixturevalue(builder)(), stock, 203), is_turned(stock))[0]) == 0
    edge = round(3 / 72 * 203)
    inside = dark[edge:-edge, edge:-edge]
    assert inside.sum() == dark.sum()
    if stock.hole:
        y, x = np.indices(dark.shape) * 72 / 203
        near = (x - stock.hole.x) ** 2 + (y - stock.hole.y) ** 2 < (stock.hole.across / 2) ** 2
        assert not dark[near].any()


@pytest.mark.parametrize("number", NUMBERS)
def test_a_module_is_as_many_dots_in_the_picture_as_in_the_pdf(stock, a_tag, number):
    picture, pdf = (laid_out(a_tag(claim=number), stock, dpi).marks for dpi in (203, 203.2))
    assert narrowest(picture) == narrowest(pdf)


def narrowest(marks):
    """The width in dots of the narrowest bar of each code."""
    return [min(cell[2] for cell in mark.cells) for mark in marks if isinstance(mark, Modules)]


def test_pdf_and_picture_show_the_same(stock, a_tag, drawn, seen):
    picture = opened(drawn(a_tag(), stock, 203)).convert("L")
    page = seen(tag_pdf([a_tag()], stock.model_copy(update={"dpi": 203})), 203)
    if stock.sheet:
        left, top = round(stock.sheet.left / 72 * 203), round(stock.sheet.top / 72 * 203)
        page = page.crop((left, top, left + picture.width, top + picture.height))
    small = [np.asarray(one.resize((60, 60), Image.Resampling.BOX), dtype=float) for one in (picture, page)]
    assert np.abs(small[0] - small[1]).mean() < 12


def test_only_black_and_white_are_used(printed):
    with pikepdf.open(BytesIO(printed)) as document:
        steps = pikepdf.parse_content_stream(document.pages[0])
        greys = {float(step.operands[0]) for step in steps if str(step.operator) in ("g", "G")}
        colours = {tuple(map(float, step.operands)) for step in steps if str(step.operator) in ("rg", "RG")}
    assert greys <= {0.0, 1.0}
    assert colours <= {(0.0, 0.0, 0.0)}


def test_the_picture_is_one_bit_deep_and_says_its_dots(stock, a_tag, drawn):
    picture = opened(drawn(a_tag(), stock, 300))
    assert picture.mode == "1"
    assert picture.info["dpi"] == pytest.approx((300, 300), abs=0.02)


def test_same_tag_same_bytes(a_stock, a_long_tag, drawn):
    stock = a_stock("label-4x6")
    assert tag_pdf([a_long_tag()], stock) == drawn(a_long_tag(), stock)
    assert tag_png(a_long_tag(), stock, 203) == drawn(a_long_tag(), stock, 203)


def test_another_run_of_the_program_writes_the_same_bytes(a_stock, a_tag):
    program = (
        "import datetime, sys, tomllib; from pathlib import Path; from claimpack.core.holding.tags import TagFacts; "
        "from claimpack.tag.draw import tag_pdf; from claimpack.tag.stock import stock_from; "
        "tag = eval(sys.argv[1]); stock = tomllib.loads(Path(sys.argv[2]).read_text()); "
        "sys.stdout.buffer.write(tag_pdf([tag], stock_from(stock, 'stock')))"
    )
    file = Path(__file__).parents[2] / "templates" / "tag" / "label-4x6.toml"
    other = subprocess.run([sys.executable, "-c", program, repr(a_tag()), str(file)], capture_output=True, check=True)
    assert other.stdout == tag_pdf([a_tag()], a_stock("label-4x6"))


def test_the_document_is_clean_and_names_its_claim_and_author(stock, a_tag):
    with pikepdf.open(BytesIO(tag_pdf([a_tag()], stock, author="Quarry Road Small Engine"))) as document:
        assert document.check_pdf_syntax() == []
        assert str(document.docinfo["/Title"]) == "Hold for warranty: 26-0041"
        assert str(document.docinfo["/Author"]) == "Quarry Road Small Engine"


def test_every_typeface_is_embedded_as_a_subset(a_stock, a_tag):
    with pikepdf.open(BytesIO(tag_pdf([a_tag()], a_stock("label-4x6")))) as document:
        fonts = [font for font in document.pages[0].Resources.Font.values() if str(font.BaseFont) != "/Helvetica"]
        assert len(fonts) >= 3
        assert all("+" in str(font.BaseFont) and "/FontFile2" in font.FontDescriptor for font in fonts)


def test_no_stream_is_written_in_ascii(stock, a_tag):
    assert b"ASCII85" not in tag_pdf([a_tag()], stock)


@pytest.mark.parametrize(("thermal", "dpi", "true"), [(True, 203, 203.2), (True, 300, 300), (False, 600, 600)])
def test_a_printer_of_203_dots_has_eight_a_millimetre(a_stock, thermal, dpi, true):
    stock = a_stock("label-4x6").model_copy(update={"thermal": thermal, "dpi": dpi})
    assert printer_dots(stock) == true


def pages_from(start, count, stock, a_tag):
    return [text.count("HOLD FOR WARRANTY") for text in page_texts(tag_pdf([a_tag()] * count, stock, start=start))]


def test_a_sheet_that_was_partly_used_goes_on_where_it_is_free(a_stock, a_tag):
    assert pages_from(3, 4, a_stock("sheet-letter"), a_tag) == [2, 2]


@pytest.mark.parametrize(("name", "start"), [("sheet-letter", 5), ("label-4x6", 2)])
def test_a_place_that_no_sheet_has_is_refused(name, start, a_stock, a_tag):
    with pytest.raises(BadInput):
        tag_pdf([a_tag()], a_stock(name), start=start)


def test_a_tag_is_printed_as_large_as_it_is(printed):
    assert pypdf.PdfReader(BytesIO(printed)).root_object["/ViewerPreferences"]["/PrintScaling"] == "/None"
