from __future__ import annotations

import itertools

import pytest

from claimpack.errors import BadInput
from claimpack.tag.drawing import Area, Modules, width_of
from claimpack.tag.fitting import descent
from claimpack.tag.layout import laid_out
from claimpack.tag.stock import Block

DPI = 203
SIDES = ("left", "right")


def words(drawing):
    return " ".join(text.text for text in drawing.texts)


def text_at(drawing, start):
    return next(text for text in drawing.texts if text.text.startswith(start))


def test_the_claim_number_is_the_largest_text(stock, a_tag):
    drawing = laid_out(a_tag(), stock, DPI)
    assert max(drawing.texts, key=lambda text: text.size).text == "26-0041"


def test_the_day_to_hold_until_is_larger_than_any_fact(stock, a_tag):
    drawing = laid_out(a_tag(), stock, DPI)
    facts = ("Halden", "CS-70", "HC70-118-20417", "short block", "2026-02-02")
    assert text_at(drawing, "2026-06-08").size >= 14
    assert text_at(drawing, "2026-06-08").size > max(text_at(drawing, fact).size for fact in facts)


@pytest.mark.parametrize("builder", ["a_tag", "a_long_tag", "a_bare_tag"])
def test_every_text_stays_inside_the_margin(stock, builder, request):
    drawing = laid_out(request.getfixturevalue(builder)(), stock, DPI)
    for text in drawing.texts:
        assert text.x >= stock.margin - 0.1
        assert text.x + width_of(text.text, text.face, text.size) <= stock.width - stock.margin + 0.1


@pytest.mark.parametrize("builder", ["a_tag", "a_long_tag", "a_bare_tag"])
def test_nothing_a_shop_would_write_is_cut(stock, builder, request):
    assert laid_out(request.getfixturevalue(builder)(), stock, DPI).notes == []


@pytest.mark.parametrize("hazard", ["fuel", "lithium battery", "wet battery", "none"])
def test_no_caution_is_cut_and_each_is_at_least_six_points(stock, a_tag, hazard):
    from claimpack.core.holding.cautions import cautions_for

    drawing = laid_out(a_tag(hazard=hazard, cautions=cautions_for(hazard)), stock, DPI)
    begun = [at for at, text in enumerate(drawing.texts) if text.text.startswith("CAUTION")]
    assert begun
    assert drawing.notes == []
    assert drawing.texts[begun[0]].size >= 6


def test_a_part_name_as_long_as_a_line_may_be_is_cut_with_a_note(a_stock, a_tag):
    drawing = laid_out(a_tag(part="crankshaft bearing " * 15), a_stock("shipping-tag-5"), DPI)
    assert any(text.text.endswith("…") for text in drawing.texts)
    assert "crankshaft bearing" in drawing.notes[0]


def test_a_large_stock_carries_the_caution_with_its_section(a_stock, a_tag):
    assert "(49 CFR 173.220(a)(1))" in words(laid_out(a_tag(), a_stock("label-4x6"), DPI))


def test_the_small_tag_carries_a_short_caution(a_stock, a_tag):
    said = words(laid_out(a_tag(), a_stock("shipping-tag-5"), DPI))
    assert "CAUTION: drain, dry, cap every opening" in said
    assert "Fire hazard" not in said


@pytest.mark.parametrize(
    ("drained", "said", "white"), [(True, "DRAINED", False), (False, "NOT DRAINED", True), (None, "drained", False)]
)
def test_drained_or_not_cannot_be_mistaken(stock, a_tag, drained, said, white):
    text = text_at(laid_out(a_tag(drained=drained), stock, DPI), said.split(maxsplit=1)[0])
    assert text.text in said
    assert text.white is white


def test_a_part_without_fuel_says_nothing_of_draining(stock, a_bare_tag):
    assert "drained" not in words(laid_out(a_bare_tag(), stock, DPI)).casefold()


def test_an_unknown_day_gives_the_rule_in_words(stock, a_long_tag):
    said = words(laid_out(a_long_tag(), stock, DPI))
    assert "HOLD UNTIL 90 days from the day it is filed, or until the maker releases it" in said


def test_an_unknown_fact_leaves_a_line_to_write_on(stock, a_tag, a_bare_tag):
    assert "failed on" in words(laid_out(a_bare_tag(), stock, DPI))
    assert "part no." not in words(laid_out(a_bare_tag(), stock, DPI))


def test_every_printed_word_is_the_stock_s(stock, a_tag):
    words_in_spanish = stock.words.model_copy(update={"banner": "RETENER POR GARANTÍA", "claim": "reclamación"})
    said = words(laid_out(a_tag(), stock.model_copy(update={"words": words_in_spanish}), DPI))
    assert "RETENER POR GARANTÍA" in said
    assert "HOLD FOR" not in said


def test_markup_is_printed_as_it_was_typed(stock, a_tag):
    assert "<b>gear</b>&" in words(laid_out(a_tag(part="<b>gear</b>&"), stock, DPI))


def test_a_code_too_long_for_the_printer_is_refused(a_stock, a_long_tag):
    with pytest.raises(BadInput, match=r"barcode of .* modules does not fit"):
        laid_out(a_long_tag(), a_stock("roll-62mm"), 100)


def test_bars_finer_than_is_sure_to_scan_are_noted(a_stock, a_long_tag):
    notes = laid_out(a_long_tag(claim="QRSE-ASHBY-A-B-C-D-E-F-G"), a_stock("roll-62mm"), 210).notes
    assert notes == ["the bars of QRSE-ASHBY-A-B-C-D-E-F-G/12 are only 0.24 mm wide; try one with your scanner first"]


def test_a_tag_says_where_its_part_belongs(stock, a_tag):
    said = words(laid_out(a_tag().of_shop("Quarry Road", "QR-1184"), stock, DPI))
    assert "Quarry Road, dealer QR-1184" in said


@pytest.mark.parametrize("builder", ["a_tag", "a_long_tag"])
def test_every_stock_tells_every_number_a_part_is_known_by(stock, builder, request):
    tag = request.getfixturevalue(builder)()
    said = words(laid_out(tag, stock, DPI))
    assert [told for told in (tag.model, tag.serial, tag.part_number, tag.part_serial) if told not in said] == []


def ink(text):
    """What the letters of a line cover: left, top, right, bottom."""
    wide = width_of(text.text, text.face, text.size)
    return text.x, text.baseline - 0.72 * text.size, text.x + wide, text.baseline + 0.8 * descent(text.text) * text.size


def rule_or_code(mark):
    """What a line to write on, a frame's edge or a code covers; None for what words may stand on."""
    if isinstance(mark, Modules):
        across, down = (max(cell[side] + cell[side + 2] for cell in mark.cells) * mark.dot for side in (0, 1))
        return mark.x, mark.y, mark.x + across, mark.y + down
    return (
        (mark.x, mark.y, mark.right, mark.bottom)
        if isinstance(mark, Area) and min(mark.width, mark.height) < 3
        else None
    )


def touch(one, other):
    return all(one[side] < other[side + 2] and other[side] < one[side + 2] for side in (0, 1))


@pytest.mark.parametrize(
    ("builder", "changes"),
    [
        ("a_tag", {}),
        ("a_tag", {"drained": None, "shelf": ""}),
        ("a_tag", {"hold_until": None, "boxed": False}),
        ("a_tag", {"shop": "Quarry Road Small Engine and Rental, Ashby", "dealer_number": "QR-1184"}),
        ("a_long_tag", {}),
        ("a_long_tag", {"drained": False}),
        ("a_bare_tag", {}),
    ],
)
def test_no_words_stand_on_others_or_on_a_line_or_a_code(stock, builder, changes, request):
    drawing = laid_out(request.getfixturevalue(builder)(**changes), stock, DPI)
    words = [(text.text, ink(text)) for text in drawing.texts]
    other = [(type(mark).__name__, covered) for mark in drawing.marks if (covered := rule_or_code(mark))]
    pairs = [*itertools.combinations(words, 2), *itertools.product(words, other)]
    assert [(one, another) for (one, inked), (another, covered) in pairs if touch(inked, covered)] == []


def on_black(drawing, text):
    """Whether a line begins on a blackened area, not on a line of a frame."""
    x, y = text.x + 0.5, text.baseline - 0.3 * text.size
    areas = [mark for mark in drawing.marks if isinstance(mark, Area) and min(mark.width, mark.height) > 3]
    return any(area.x < x < area.right and area.y < y < area.bottom for area in areas)


@pytest.mark.parametrize(
    ("builder", "changes"), [("a_tag", {}), ("a_tag", {"drained": False}), ("a_long_tag", {}), ("a_bare_tag", {})]
)
def test_words_are_white_on_black_and_black_on_white(stock, builder, changes, request):
    drawing = laid_out(request.getfixturevalue(builder)(**changes), stock, DPI)
    assert [text.text for text in drawing.texts if text.white != on_black(drawing, text)] == []


def test_a_long_banner_leaves_the_count_its_room(a_stock, a_tag):
    stock = a_stock("shipping-tag-5")
    words = stock.words.model_copy(update={"banner": "RETENER POR LA GARANTÍA DE FÁBRICA", "count": "{index} / {of}"})
    band = Block.model_validate(
        {"what": "band", "x": "9 pt", "y": "9 pt", "width": "150 pt", "height": "22 pt", "size": "14 pt", "count": True}
    )
    count, *banner = laid_out(a_tag(), stock.model_copy(update={"words": words, "block": (band,)}), DPI).texts
    assert max(ink(line)[2] for line in banner) < count.x - 7


@pytest.fixture
def alone(a_stock, a_tag):
    """What one block of a 4 x 6 in label shows, drawn without the others."""

    def draw(what, x, width, height=50, **changes):
        block = {"what": what, "x": f"{x} pt", "y": "20 pt", "width": f"{width} pt", "height": f"{height} pt"} | changes
        stock = a_stock("label-4x6").model_copy(update={"block": (Block.model_validate(block),)})
        return laid_out(a_tag(), stock, DPI)

    return draw


@pytest.mark.parametrize(
    ("height", "count", "beside"), [(31, False, True), (32, False, False), (31, True, False), (60, True, False)]
)
def test_the_label_of_a_low_claim_block_without_a_count_stands_beside_the_number(alone, height, count, beside):
    drawing = alone("claim", 12, 264, height, size="40 pt", count=count)
    label, number = text_at(drawing, "claim"), text_at(drawing, "26-0041")
    assert (ink(label)[2] < number.x, ink(label)[3] < ink(number)[1]) == (beside, not beside)
    assert label.size >= 6.5


def first_and_last_bar(drawing):
    """Where a code's ink begins and ends, in points from the left edge."""
    covered = [rule_or_code(mark) for mark in drawing.marks if isinstance(mark, Modules)]
    return covered[0][0], covered[0][2]


@pytest.mark.parametrize("kind", ["barcode", "qr"])
def test_a_code_lines_up_with_the_margin_if_its_quiet_zone_allows(alone, kind):
    dot = 72 / DPI
    placed = {
        across: first_and_last_bar(alone(kind, 0, 288, module="0.25 mm", across=across))
        for across in ("left", "middle", "right")
    }
    assert placed["left"][0] == pytest.approx(12, abs=dot)
    assert sum(placed["middle"]) / 2 == pytest.approx(144, abs=dot)
    assert placed["right"][1] == pytest.approx(288 - 12, abs=dot)


@pytest.mark.parametrize(("kind", "quiet"), [("barcode", 10), ("qr", 4)])
@pytest.mark.parametrize("x", [0, 100])
def test_a_code_keeps_its_quiet_zone_inside_its_block(alone, kind, quiet, x):
    dot = 72 / DPI
    left, right = (first_and_last_bar(alone(kind, x, 188, 150, module="0.375 mm", across=at)) for at in SIDES)
    # three eighths of a millimetre are three dots of a printer that has eight in one
    assert left[0] == pytest.approx(x + max(quiet * 3 * dot, 12 - x), abs=dot)
    assert right[1] == pytest.approx(x + 188 - max(quiet * 3 * dot, x + 188 - 276), abs=dot)


@pytest.mark.parametrize(("across", "further"), [("left", 0), ("right", 1)])
def test_a_code_that_fills_its_block_stands_nearer_the_edge_than_the_margin(alone, across, further):
    first, last = first_and_last_bar(alone("barcode", 0, 288, module="0.25 mm"))
    quiet = 20 * 72 / DPI
    drawing = alone("barcode", 3, round(last - first + 2 * quiet + 1, 3), module="0.25 mm", across=across)
    assert first_and_last_bar(drawing)[0] == pytest.approx(3 + quiet + further, abs=0.5 * 72 / DPI)


def test_a_qr_code_stands_in_the_middle_of_the_height_of_its_block(alone):
    _, top, _, bottom = rule_or_code(alone("qr", 12, 200, 90, module="0.5 mm").marks[0])
    assert (top + bottom) / 2 == pytest.approx(20 + 45, abs=72 / DPI)


def test_a_code_in_letters_stands_under_its_bars_and_inside_its_block(alone):
    drawing = alone("barcode", 12, 264, 50, module="0.25 mm", size="8 pt")
    _, _, _, low = rule_or_code(drawing.marks[0])
    _, top, _, bottom = ink(text_at(drawing, "26-0041/1"))
    assert 20 < low < top < bottom < 70
