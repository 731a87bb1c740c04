import pytest
import zxingcpp
from PIL import Image
from shop_builders import a_picture, a_tag_code

from claimpack.evidence.reading.codes import codes_in, spot_around

KINDS = ["QRCode", "DataMatrix", "Code128", "Code39", "PDF417", "Aztec"]


def with_code(kind, text, at=(300, 200)):
    picture = a_picture(1, (1800, 1200)).convert("L")
    code = zxingcpp.create_barcode(text, getattr(zxingcpp.BarcodeFormat, kind)).to_image(scale=4, add_quiet_zones=True)
    picture.paste(Image.fromarray(code), at)
    return picture


@pytest.mark.parametrize("kind", KINDS)
def test_a_code_on_a_plate_is_read(kind):
    assert [each.text for each in codes_in(with_code(kind, "HC70-118-20417"))] == ["HC70-118-20417"]


def test_where_it_lies_is_told_as_fractions_of_the_picture():
    spot = codes_in(with_code("QRCode", "HC70-118-20417", (900, 600)))[0].spot
    assert (0.5 <= spot.x < 0.55, 0.5 <= spot.y < 0.6, 0 < spot.width < 0.2) == (True, True, True)


def test_our_own_tags_say_nothing_of_the_unit():
    assert codes_in(a_tag_code("26-0041/1").convert("L")) == []


def beside(*texts):
    """Codes beside one another on a light plate 600 x 400, each 29 modules of 4 dots, the first 50 from the left."""
    picture = Image.new("L", (600, 400), 255)
    for place, text in enumerate(texts):
        code = zxingcpp.create_barcode(text, zxingcpp.BarcodeFormat.QRCode).to_image(scale=4, add_quiet_zones=False)
        picture.paste(Image.fromarray(code), (50 + 250 * place, 150))
    return picture


def test_a_place_is_the_box_around_the_code():
    wide = 4 * 21
    (found,) = codes_in(beside("HC70-118"))
    assert found.spot == pytest.approx((50 / 600, 150 / 400, wide / 600, wide / 400), abs=0.01)


@pytest.mark.parametrize(("texts", "told"), [((" ",), []), (("A-1", "A-1"), ["A-1"]), (("A-1", "26-0041/1"), ["A-1"])])
def test_blank_codes_say_nothing_and_each_is_told_once(texts, told):
    assert [found.text for found in codes_in(beside(*texts))] == told


def test_a_place_ends_at_the_edges_of_its_picture():
    assert spot_around([(-5, 20), (50, 120)], (100, 80)) == (0, 0.25, 0.5, 0.75)
