from __future__ import annotations

import io
import json

import pytest
from claim_folders import CLAIM
from gathered_cases import a_case, pages
from PIL import Image
from pypdf import PdfReader

from claimpack.commands.folder.making import (
    claim_data,
    make_tag_pictures,
    make_tags,
    the_stock,
)
from claimpack.errors import NotFound

TWO_HELD = f'{CLAIM}\n[[held]]\npart = "muffler"\nshelf = "B4"\n'
NONE_HELD = CLAIM[: CLAIM.index("[[held]]")]


def test_the_data_are_one_document_in_their_own_letters(tmp_path):
    content = claim_data(a_case(tmp_path, CLAIM.replace("A. Customer", "Zoë")))
    document = json.loads(content)
    assert (document["claim"]["number"], document["assessment"]["claim"]) == ("26-0001", "26-0001")
    assert (b"Zo\xc3\xab" in content, content.endswith(b"}\n")) == (True, True)


def test_the_data_of_a_claim_hold_nothing_that_it_does_not_say(tmp_path):
    claim = json.loads(claim_data(a_case(tmp_path)))["claim"]
    assert claim.keys().isdisjoint({"case", "goodwill", "campaign", "extras"})


@pytest.mark.parametrize(("settings", "author"), [('name = "Quarry Road"', "Quarry Road"), ("", "claimpack")])
def test_tags_say_whose_they_are(tmp_path, settings, author):
    made = make_tags(a_case(tmp_path, settings=settings), "label-4x6")
    assert PdfReader(io.BytesIO(made.pdf)).metadata.author == author


@pytest.mark.parametrize(
    ("wanted", "settings", "stock"),
    [
        ("", None, "shipping-tag-8"),
        ("", 'stock = "label-4x6"', "label-4x6"),
        ("shipping-tag-8", 'stock = "label-4x6"', "shipping-tag-8"),
    ],
    ids=["the program's", "the shop's", "the one asked for"],
)
def test_the_nearest_wish_for_a_stock_wins(tmp_path, wanted, settings, stock):
    assert the_stock(a_case(tmp_path, settings=settings), wanted).id == stock


def test_a_stock_that_is_none_is_refused(tmp_path):
    with pytest.raises(NotFound, match="tag stock 'a4-2up' is not there"):
        the_stock(a_case(tmp_path), "a4-2up")


def test_every_held_part_has_a_tag(tmp_path):
    assert len(pages(make_tags(a_case(tmp_path, TWO_HELD), "label-4x6").pdf)) == 2


def test_the_tag_of_one_part_is_alone(tmp_path):
    said = pages(make_tags(a_case(tmp_path, TWO_HELD), "label-4x6", part=2).pdf)
    assert (len(said), "26-0001/2" in said[0]) == (1, True)


@pytest.mark.parametrize("part", [0, 1])
def test_where_nothing_is_held_there_is_nothing_to_print(tmp_path, part):
    assert make_tags(a_case(tmp_path, NONE_HELD), "", part) == (b"", ())


@pytest.mark.parametrize(("text", "part", "names"), [(CLAIM, 0, [""]), (TWO_HELD, 0, ["1", "2"]), (TWO_HELD, 2, [""])])
def test_pictures_go_by_the_number_of_the_part_unless_there_is_one_alone(tmp_path, text, part, names):
    pictures, _ = make_tag_pictures(a_case(tmp_path, text), "label-4x6", part, 203)
    assert list(pictures) == names


@pytest.mark.parametrize(("dpi", "size"), [(203, (812, 1218)), (300, (1200, 1800))])
def test_a_picture_has_the_printers_dots(tmp_path, dpi, size):
    pictures, _ = make_tag_pictures(a_case(tmp_path), "label-4x6", 0, dpi)
    assert Image.open(io.BytesIO(pictures[""])).size == size
