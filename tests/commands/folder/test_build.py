import io

import pikepdf
import pypdfium2
import pytest
import zxingcpp
from claim_folders import CLAIM, a_folder
from pypdf import PdfReader
from running import Terminal, claimpack

from claimpack.__main__ import run
from claimpack.commands.desk.world import World


@pytest.fixture(scope="module")
def built(tmp_path_factory):
    place = tmp_path_factory.mktemp("built")
    a_folder(place / "claim")
    ran = claimpack("build", "claim", "--out", "out", "--today", "2026-03-01", folder=place)
    return place / "out", ran


def test_a_covered_and_complete_claim_gives_zero(built):
    assert (built[1].code, built[1].err) == (0, "")


def test_packet_tag_and_data_are_written(built):
    assert sorted(path.name for path in built[0].iterdir()) == ["claim.json", "packet.pdf", "tag.pdf"]


def test_another_reader_finds_no_fault_in_the_packet(built):
    with pikepdf.open(built[0] / "packet.pdf") as pdf:
        assert pdf.check_pdf_syntax() == []


def test_every_page_says_which_of_how_many_it_is(built):
    pages = PdfReader(built[0] / "packet.pdf").pages
    assert all(f"page {n} of {len(pages)}" in page.extract_text() for n, page in enumerate(pages, 1))


def test_the_tag_is_read_from_its_picture(built):
    with pypdfium2.PdfDocument(built[0] / "tag.pdf") as pdf:
        picture = pdf[0].render(scale=203 / 72).to_pil()
    assert {code.text for code in zxingcpp.read_barcodes(picture)} == {"26-0001/1"}


def test_the_same_claim_gives_the_same_bytes(built, tmp_path):
    a_folder(tmp_path / "claim")
    claimpack("build", "claim", "--out", "out", "--today", "2026-03-01", folder=tmp_path)
    assert (tmp_path / "out" / "packet.pdf").read_bytes() == (built[0] / "packet.pdf").read_bytes()


def test_a_packet_is_genuine_by_its_own_data(built):
    assert claimpack("verify", built[0] / "packet.pdf").code == 0


def test_a_packet_changed_later_is_not(built, tmp_path):
    altered = tmp_path / "altered.pdf"
    with pikepdf.open(built[0] / "packet.pdf") as pdf:
        del pdf.pages[1]
        pdf.save(altered)
    assert claimpack("verify", altered).code == 3


def test_verify_is_silent_but_for_one_document_with_json(built):
    assert claimpack("verify", built[0] / "packet.pdf", "--json").json["genuine"] is True


def test_an_incomplete_claim_still_gets_a_packet_and_says_so(tmp_path):
    a_folder(tmp_path / "claim", CLAIM.replace('cause = "Piston scored."\n', ""))
    ran = claimpack("build", "claim", folder=tmp_path)
    assert (ran.code, "cause" in ran.out, (tmp_path / "26-0001" / "packet.pdf").exists()) == (4, True, True)


def test_a_claim_without_held_part_gets_no_tag(tmp_path):
    a_folder(tmp_path / "claim", CLAIM[: CLAIM.index("[[held]]")])
    claimpack("build", "claim", "--out", "out", folder=tmp_path)
    assert not (tmp_path / "out" / "tag.pdf").exists()


def test_a_signature_of_a_shop_without_a_key_is_refused_before_anything_is_written(tmp_path):
    a_folder(tmp_path / "claim", shots=())
    assert (claimpack("build", "claim", "--sign", folder=tmp_path).code, [*tmp_path.iterdir()]) == (
        2,
        [tmp_path / "claim"],
    )


def test_the_packet_fits_the_limit_asked_for(tmp_path):
    a_folder(tmp_path / "claim")
    claimpack("packet", "claim", "--limit", "400kB", "--out", "p.pdf", folder=tmp_path)
    assert (tmp_path / "p.pdf").stat().st_size <= 400_000


def test_a_limit_that_cannot_be_kept_says_by_how_much(tmp_path):
    a_folder(tmp_path / "claim")
    ran = claimpack("packet", "claim", "--limit", "9kB", "--out", "p.pdf", folder=tmp_path)
    assert (ran.code, "kB" in ran.err, (tmp_path / "p.pdf").exists()) == (2, True, False)


def test_the_spanish_layout_is_asked_for_by_its_id(tmp_path):
    a_folder(tmp_path / "claim")
    claimpack("packet", "claim", "--layout", "carta-a4", "--out", "p.pdf", folder=tmp_path)
    assert round(float(PdfReader(tmp_path / "p.pdf").pages[0].mediabox.width)) == 595


def test_tags_for_a_thermal_printer_are_pictures(tmp_path):
    a_folder(tmp_path / "claim")
    claimpack("tag", "claim", "--stock", "label-4x6", "--png", "--dpi", "203", "--out", "t.png", folder=tmp_path)
    assert (tmp_path / "t.png").read_bytes().startswith(b"\x89PNG")


def test_a_held_part_that_is_not_there_is_refused(tmp_path):
    a_folder(tmp_path / "claim")
    ran = claimpack("tag", "claim", "--part", "2", folder=tmp_path)
    assert (ran.code, "from 1 to 1" in ran.err) == (2, True)


def test_photos_show_progress_on_a_terminal(tmp_path):
    a_folder(tmp_path / "claim")
    err = Terminal()
    world = World(stdin=io.StringIO(), stdout=Terminal(), stderr=err, environ={}, folder=tmp_path)
    run(["build", "claim", "--today", "2026-03-01"], world)
    assert "Photos [" in err.getvalue()


def test_a_link_planted_in_the_folder_is_not_followed(tmp_path):
    a_folder(tmp_path / "claim")
    theirs = tmp_path / "theirs.pdf"
    theirs.write_bytes(b"theirs")
    (tmp_path / "out").mkdir()
    (tmp_path / "out" / "packet.pdf").symlink_to(theirs)
    ran = claimpack("build", "claim", "--out", "out", folder=tmp_path)
    assert (ran.code, theirs.read_bytes(), sorted(path.name for path in (tmp_path / "out").iterdir())) == (
        *(2, b"theirs"),
        ["packet.pdf"],
    )
