import pytest
import zxingcpp
from PIL import Image
from shop_builders import a_picture, a_tag_code

from claimpack.evidence.reading.codes import codes_in

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
