from __future__ import annotations

import io

import pikepdf
import pytest
from packets import a_packet
from pikepdf import Name
from tamperings import TAMPERINGS

from claimpack.packet.proving.structure import structure_changes
from claimpack.packet.proving.verify import verify


@pytest.mark.parametrize("name", ["a stream in the list of pages", "resources in the list of pages"])
def test_what_lies_among_the_pages_and_is_none_is_named(name):
    found = verify(TAMPERINGS[name](a_packet())).problems
    assert "something was put into the list of pages that is no page" in found


@pytest.mark.parametrize("said", [lambda pdf: pdf.Root, lambda pdf: pdf.pages[0].obj], ids=["the document", "a page"])
def test_what_is_said_to_be_something_else_is_named(said):
    with pikepdf.open(io.BytesIO(a_packet())) as pdf:
        said(pdf).Type = Name.Note
        assert list(structure_changes(pdf)) == ["the document or a page of it is said to be something else"]
