from __future__ import annotations

from dataclasses import FrozenInstanceError, fields

import pytest
from claim_folders import picture, receipt

from claimpack.evidence.papers.papers import read_paper
from claimpack.evidence.pictures.photos import PrintSize, prepare
from claimpack.packet.drawing.evidence import (
    PacketFile,
    PageEvidence,
    PaperSheet,
    PaperSheets,
    PrintedPicture,
    ShopFacts,
)


def asked(protocol):
    """The names of what pages ask of a picture or a paper."""
    return [name for name, value in vars(protocol).items() if isinstance(value, property)]


@pytest.fixture
def photo(tmp_path):
    (tmp_path / "a.jpg").write_bytes(picture(40, 30))
    return prepare(tmp_path / "a.jpg", "photos/a.jpg", PrintSize())


@pytest.fixture
def paper(tmp_path):
    (tmp_path / "a.pdf").write_bytes(receipt())
    return read_paper(tmp_path / "a.pdf", "papers/a.pdf")


def test_a_photo_made_ready_answers_all_that_pages_ask_of_a_picture(photo):
    assert [name for name in asked(PrintedPicture) if not hasattr(photo, name)] == []
    assert (photo.width, photo.height, photo.original_width, photo.file) == (40, 30, 40, "photos/a.jpg")


def test_a_paper_read_answers_all_that_pages_ask_of_a_paper(paper):
    assert [name for name in asked(PaperSheets) if not hasattr(paper, name)] == []


def test_a_page_of_a_paper_has_its_size_in_points(paper):
    assert [getattr(paper.pages[0], name) for name in asked(PaperSheet)] == [300, 400]


def test_a_shop_that_says_nothing_of_itself_is_told_by_nothing():
    assert {getattr(ShopFacts(), field.name) for field in fields(ShopFacts)} == {""}


def test_evidence_is_empty_where_none_is_told():
    assert PageEvidence() == PageEvidence((), (), ShopFacts(), ())


def test_a_file_that_is_listed_cannot_be_changed_afterwards():
    listed = PacketFile("photos/a.jpg", "ab" * 32, 1000)
    with pytest.raises(FrozenInstanceError):
        listed.sha256 = "cd" * 32
