from __future__ import annotations

import io

import pytest
from gathered_cases import a_case, pages
from pypdf import PdfReader
from running import NOW, Pipe

from claimpack.commands.desk.say import Say
from claimpack.commands.desk.world import World
from claimpack.commands.folder.making import (
    the_layout,
)
from claimpack.commands.folder.packet_making import evidence_pages, make_packet


def quiet(place):
    return Say(World(stdin=Pipe(), stdout=Pipe(), stderr=Pipe(), environ={}, folder=place, clock=NOW))


@pytest.mark.parametrize(
    ("wanted", "settings", "layout"),
    [("", None, "letter"), ("", 'layout = "carta-a4"', "carta-a4"), ("letter", 'layout = "carta-a4"', "letter")],
    ids=["the program's", "the shop's", "the one asked for"],
)
def test_the_nearest_wish_for_a_layout_wins(tmp_path, wanted, settings, layout):
    assert the_layout(a_case(tmp_path, settings=settings), wanted).id == layout


def test_a_claim_without_photos_has_a_packet(tmp_path):
    made = make_packet(a_case(tmp_path), quiet(tmp_path), "", "")
    assert "26-0001" in pages(made.pdf)[0]


def test_a_packet_says_whose_it_is(tmp_path):
    case = a_case(tmp_path, settings='name = "Quarry & <Road>"')
    facts = PdfReader(io.BytesIO(make_packet(case, quiet(tmp_path), "", "").pdf)).metadata
    assert (facts.author, "26-0001" in facts.title) == ("Quarry & <Road>", True)


def test_a_packet_with_room_to_spare_is_the_same_with_and_without_a_limit(tmp_path):
    case = a_case(tmp_path, shots=("damage",))
    free, fitted = (make_packet(case, quiet(tmp_path), "", limit) for limit in ("", "20MB"))
    assert fitted.pdf == free.pdf


def test_originals_that_just_fit_the_limit_stay(tmp_path):
    case = a_case(tmp_path)
    whole = make_packet(case, quiet(tmp_path), "", "", originals=True).pdf
    assert make_packet(case, quiet(tmp_path), "", f"{len(whole)}B", originals=True).pdf == whole


@pytest.mark.parametrize(
    ("sections", "order"),
    [('"cover", "findings", "story"', ["Findings", "Complaint, cause"]), ('"cover"', ["Complaint, cause", "Findings"])],
    ids=["the shop's own order", "a layout that shows none"],
)
def test_what_was_found_goes_along_in_the_order_of_the_shops_layout(tmp_path, sections, order):
    (tmp_path / "packet").mkdir()
    layout = f'format = 1\nid = "own"\nname = "Own"\nlike = "letter"\nsections = [{sections}]\n'
    (tmp_path / "packet" / "own.toml").write_text(layout, encoding="utf-8")
    said = " ".join(pages(evidence_pages(a_case(tmp_path, settings='layout = "own"'), quiet(tmp_path))))
    assert sorted(order, key=said.index) == order
