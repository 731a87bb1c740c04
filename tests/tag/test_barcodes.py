from __future__ import annotations

import itertools

import pytest
import zxingcpp
from hypothesis import given, settings
from hypothesis import strategies as st
from PIL import Image

from claimpack.errors import BadInput
from claimpack.tag.barcodes import check_value, code128, dots_per_module, module_mm, qr_modules


def scanned(code, dots=3):
    bits = "".join(("1" if number % 2 == 0 else "0") * run for number, run in enumerate(code.runs))
    picture = Image.new("L", ((len(bits) + 20) * dots, 60), 255)
    for place, bit in enumerate(bits):
        if bit == "1":
            picture.paste(0, ((10 + place) * dots, 5, (11 + place) * dots, 55))
    return [found.text for found in zxingcpp.read_barcodes(picture)]


@pytest.mark.parametrize("text", ["26-0041/1", "0000412345/2", "7/3", "QRSE-ASHBY-2026-WA-00413/12", "a1b22c333d4444"])
def test_what_is_encoded_is_what_a_scanner_reads(text):
    assert scanned(code128(text)) == [text]


@settings(max_examples=60, deadline=None)
@given(st.text(alphabet="0123456789ABCxyz-/", min_size=2, max_size=28))
def test_any_claim_number_is_read_back(text):
    assert scanned(code128(text)) == [text]


@given(st.text(alphabet="0123A", min_size=1, max_size=9))
@settings(max_examples=60, deadline=None)
def test_no_other_change_of_sets_is_shorter(text):
    shortest = min(
        length for plan in itertools.product("BC", repeat=len(text)) if (length := symbols_of(text, plan)) is not None
    )
    assert len(code128(text).symbols) == shortest


def symbols_of(text, plan):
    """Symbols when the character at each place is in the set named there; None if that cannot be."""
    count, at, here = 1, 0, plan[0]
    while at < len(text):
        count += plan[at] != here
        here = plan[at]
        taken = 2 if here == "C" else 1
        if here == "C" and not (len(text) >= at + 2 and text[at : at + 2].isdigit()):
            return None
        count += 1
        at += taken
    return count


def test_digits_only_go_two_to_a_symbol():
    assert len(code128("0000412345").symbols) == 6


def test_a_lone_pair_of_digits_does_not_change_the_set():
    assert code128("A12B").symbols == (104, 33, 17, 18, 34)


def test_the_check_value_weighs_each_symbol_by_its_place():
    assert check_value((105, 34, 56, 78)) == (105 + 34 + 2 * 56 + 3 * 78) % 103


@pytest.mark.parametrize("text", ["É-1", "1-É"])
def test_an_accent_cannot_be_written_as_code_128(text):
    with pytest.raises(BadInput, match="cannot be written as a Code 128"):
        code128(text)


@pytest.mark.source("ISO/IEC 15417, table 1: the values of code sets A and B")
@pytest.mark.parametrize(
    ("letters", "sets", "values"),
    [(" _", "A", (0, 63)), ("\x00\x1f", "A", (64, 95)), (" _", "B", (0, 63)), ("`\x7f", "B", (64, 95))],
)
def test_the_first_and_last_letters_of_a_set_have_their_values(letters, sets, values):
    assert code128(letters, sets=sets).symbols[1:] == values


@pytest.mark.parametrize(("letter", "sets"), [("`", "A"), ("\x1f", "B"), ("\x80", "B"), ("\u0664\u0662", "C")])
def test_a_letter_that_a_set_does_not_hold_is_not_written_in_it(letter, sets):
    with pytest.raises(BadInput):
        code128(letter, sets=sets)


def test_an_empty_barcode_is_refused():
    with pytest.raises(BadInput, match="no text"):
        code128("")


@pytest.mark.parametrize("text", ["26-0041/1", "qrse-ashby-2026-wa-00413/12"])
def test_a_qr_code_is_read_back(text):
    rows = qr_modules(text)
    side = len(rows) + 8
    picture = Image.new("L", (side, side), 255)
    for y, row in enumerate(rows):
        for x, dark in enumerate(row):
            picture.putpixel((x + 4, y + 4), 0 if dark else 255)
    found = zxingcpp.read_barcodes(picture.resize((side * 4, side * 4), Image.Resampling.NEAREST))
    assert [one.text for one in found] == [text]


@pytest.mark.parametrize(
    ("available", "dots"),
    [(72 / 203 * 199, None), (72 / 203 * 200, 2), (72 / 203 * 201, 2), (72 / 203 * 299, 2), (72 / 203 * 300, 3)],
    ids=["a dot short of two", "just two", "a dot more", "a dot short of three", "just three"],
)
def test_a_module_is_the_largest_whole_number_of_dots(available, dots):
    if dots is None:
        with pytest.raises(BadInput, match="does not fit"):
            dots_per_module(203, available, 100)
    else:
        assert dots_per_module(203, available, 100) == dots


def test_too_fine_a_module_is_refused_even_of_many_dots():
    with pytest.raises(BadInput, match="does not fit"):
        dots_per_module(1200, 72 / 1200 * 500, 100)


def test_two_dots_at_eight_a_millimetre_are_a_quarter_millimetre():
    assert module_mm(203.2, 2) == pytest.approx(0.25)
