"""Code 128 and QR against worked examples in print and two reference libraries."""

from __future__ import annotations

import barcode
import pytest
import segno
import zxingcpp
from PIL import Image

from claimpack.tag.barcodes import QUIET_128, QUIET_QR, code128, module_mm, qr_modules

CODE_128 = "Code 128 reference page restating ISO/IEC 15417"
FONT_PAGE = "font reference page, worked examples of Code 128 check values"
PRINTERS = "printer manuals restating ISO/IEC 15417 and ISO/IEC 18004"
ARITHMETIC = "arithmetic on ISO/IEC 15417 module counts"
CAPACITY = "ISO/IEC 18004 capacities, found by bisection with segno 1.6.6"


@pytest.mark.source(CODE_128 + ", worked example PJJ123C with Start A")
def test_pjj123c_from_start_a_has_check_value_54():
    code = code128("PJJ123C", sets="A")
    assert code.symbols == (103, 48, 42, 42, 17, 18, 19, 35)
    assert 103 + sum(place * value for place, value in enumerate(code.symbols[1:], start=1)) == 878
    assert code.check == 54


@pytest.mark.source(CODE_128 + ", the same rule with Start B; python-barcode 0.16.1")
def test_pjj123c_from_start_b_has_check_value_55_and_112_modules():
    code = code128("PJJ123C", sets="B")
    assert code.symbols[0] == 104
    assert (code.check, code.modules) == (55, 112)


@pytest.mark.source("python-barcode 0.16.1, drawing of PJJ123C")
def test_python_barcode_draws_the_same_bars():
    bits = "".join(("1" if number % 2 == 0 else "0") * run for number, run in enumerate(code128("PJJ123C").runs))
    assert bits == barcode.get("code128", "PJJ123C").build()[0]


@pytest.mark.source(CODE_128 + ", computed for Start B with every character in set B")
def test_hold_0001_in_set_b_has_check_value_38_and_134_modules():
    code = code128("HOLD-0001", sets="B")
    assert code.symbols[0] == 104
    assert (code.check, code.modules) == (38, 134)


@pytest.mark.source(CODE_128 + ", computed for Start B with the digits in set C")
def test_hold_0001_with_its_digits_in_set_c_has_123_modules():
    code = code128("HOLD-0001")
    assert code.symbols[0] == 104
    assert code.modules == 123


@pytest.mark.source(CODE_128 + ", worked example HI345678: Start A, then Code C")
def test_hi345678_from_start_a_has_check_value_67():
    code = code128("HI345678", sets="AC")
    assert code.symbols == (103, 40, 41, 99, 34, 56, 78)
    assert 103 + sum(place * value for place, value in enumerate(code.symbols[1:], start=1)) == 1406
    assert code.check == 67


@pytest.mark.source(FONT_PAGE)
@pytest.mark.parametrize(
    ("text", "sets", "start", "check"),
    [("ABCDEF", "A", 103, 42), ("abcdef", "B", 104, 97), ("345678", "C", 105, 73)],
    ids=["Start A", "Start B", "Start C"],
)
def test_one_set_alone(text, sets, start, check):
    code = code128(text, sets=sets)
    assert (code.symbols[0], code.check) == (start, check)


@pytest.mark.source(CODE_128)
@pytest.mark.parametrize("text", ["7/1", "26-0041/1", "QRSE-ASHBY-2026-WA-00413/12"])
def test_eleven_modules_a_symbol_and_thirteen_for_the_stop(text):
    code = code128(text)
    assert code.modules == 11 * (len(code.symbols) + 1) + 13


@pytest.mark.source(PRINTERS)
def test_quiet_zones_are_ten_modules_and_four():
    assert (QUIET_128, QUIET_QR) == (10, 4)


@pytest.mark.source(ARITHMETIC)
@pytest.mark.parametrize(
    ("dpi", "dots", "bars", "with_quiet"),
    [(203.2, 2, 28.0, 33.0), (203.2, 3, 42.0, 49.5), (300, 3, 28.45, 33.53)],
    ids=["203 dpi, 2 dots", "203 dpi, 3 dots", "300 dpi, 3 dots"],
)
def test_width_on_paper(dpi, dots, bars, with_quiet):
    modules = code128("PJJ123C", sets="B").modules
    assert modules * module_mm(dpi, dots) == pytest.approx(bars, abs=0.005)
    assert (modules + 2 * QUIET_128) * module_mm(dpi, dots) == pytest.approx(with_quiet, abs=0.005)


@pytest.mark.source(CAPACITY)
@pytest.mark.parametrize(
    ("version", "side", "at_m"), [(1, 21, 14), (2, 25, 26), (3, 29, 42), (4, 33, 62), (5, 37, 84), (10, 57, 213)]
)
def test_bytes_that_fit_at_level_m(version, side, at_m):
    assert side == 17 + 4 * version
    assert len(qr_modules("x" * at_m)) == side
    assert len(qr_modules("x" * (at_m + 1))) == side + 4


@pytest.mark.source(CAPACITY)
def test_the_largest_qr_code_has_177_modules_a_side():
    assert len(qr_modules("x" * 2331)) == 177


@pytest.mark.source(CAPACITY)
@pytest.mark.parametrize(
    ("version", "capacities"),
    [
        (1, (17, 14, 11, 7)),
        (2, (32, 26, 20, 14)),
        (3, (53, 42, 32, 24)),
        (4, (78, 62, 46, 34)),
        (5, (106, 84, 60, 44)),
        (10, (271, 213, 151, 119)),
        (40, (2953, 2331, 1663, 1273)),
    ],
)
def test_bytes_that_fit_at_each_level_by_segno(version, capacities):
    for level, capacity in zip("LMQH", capacities, strict=True):
        assert segno.make_qr(b"x" * capacity, error=level, boost_error=False).version == version


@pytest.mark.source(CAPACITY)
@pytest.mark.parametrize(
    ("text", "version"),
    [
        ("A" * 25, 1),
        ("A" * 26, 2),
        ("A" * 47, 2),
        ("A" * 77, 3),
        ("A" * 114, 4),
        ("A" * 154, 5),
        ("A" * 4296, 40),
        ("1" * 41, 1),
        ("1" * 77, 2),
        ("1" * 7089, 40),
    ],
    ids=lambda value: f"{len(value)} of {value[0]}" if isinstance(value, str) else f"version {value}",
)
def test_letters_and_digits_that_fit_at_level_l_by_segno(text, version):
    assert segno.make_qr(text, error="l", boost_error=False).version == version


@pytest.mark.source("segno 1.6.6, without raising the level")
@pytest.mark.parametrize(("length", "version"), [(17, 1), (32, 2), (33, 3)])
def test_the_smallest_version_for_bytes_at_level_l(length, version):
    assert segno.make_qr(b"x" * length, error="l", boost_error=False).version == version


@pytest.mark.source("printer manual restating ISO/IEC 18004: level M restores 15 %")
def test_a_smudge_over_a_corner_is_restored():
    text = "26-0041/1"
    rows = qr_modules(text)
    picture = Image.new("L", (len(rows) + 8, len(rows) + 8), 255)
    for y, row in enumerate(rows):
        for x, dark in enumerate(row):
            picture.putpixel((x + 4, y + 4), 0 if dark else 255)
    picture.paste(0, (len(rows) + 1, len(rows) + 1, len(rows) + 4, len(rows) + 4))
    large = picture.resize((picture.width * 5, picture.height * 5), Image.Resampling.NEAREST)
    assert [found.text for found in zxingcpp.read_barcodes(large)] == [text]
