import pytest
from claim_folders import a_folder
from PIL import Image
from printed import page_texts
from running import claimpack
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
