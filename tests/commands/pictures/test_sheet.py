import pytest
from claim_folders import a_folder
from PIL import Image
from printed import page_texts
from running import claimpack
from shop_builders import a_shop, photographed
from shops_with_claims import a_shop_with


@pytest.fixture(scope="module")
def folder(tmp_path_factory):
    place = tmp_path_factory.mktemp("sheet")
    a_folder(place / "claim", shots=("serial plate", "damage"))
    return place


def test_a_claim_folder_has_its_sheet_and_its_gaps_told(folder):
    ran = claimpack("photo", "sheet", "claim", "--out", "sheet.pdf", "--json", folder=folder)
    assert (ran.code, ran.json["missing_shots"]) == (0, ["whole unit", "failed part"])
    assert "whole unit" in page_texts(folder / "sheet.pdf")[0]


def test_the_sheet_counts_the_pictures_there_are_and_the_places_left_empty(folder):
    claimpack("photo", "sheet", "claim", "--out", "counted.pdf", folder=folder)
    assert "2 pictures, 2 missing" in page_texts(folder / "counted.pdf")[0]


def test_the_name_of_the_file_chooses_pdf_or_png(folder):
    claimpack("photo", "sheet", "claim", "--out", "sheet.png", folder=folder)
    assert Image.open(folder / "sheet.png").format == "PNG"


def test_another_kind_of_file_is_refused(folder):
    assert claimpack("photo", "sheet", "claim", "--out", "sheet.docx", folder=folder).code == 2


def test_a_claim_of_the_book_has_its_sheet(tmp_path):
    shop = a_shop_with(tmp_path)
    ran = claimpack("photo", "sheet", "26-0001", "--out", "sheet.pdf", folder=shop)
    assert (ran.code, (shop / "sheet.pdf").read_bytes()[:4]) == (0, b"%PDF")


def test_a_picture_that_the_book_does_not_keep_is_left_out_and_named(tmp_path):
    shop = a_shop(tmp_path, photos=[{"file": "photos/gone.jpg"}])
    claimpack("photo", "add", "26-0001", photographed(tmp_path / "a.jpg"), folder=shop)
    ran = claimpack("photo", "sheet", "26-0001", folder=shop)
    assert [name for name in ("photos/gone.jpg", "photos/a.jpg") if name in ran.err] == ["photos/gone.jpg"]
    assert "1 picture," in page_texts(shop / "photos.pdf")[0]
