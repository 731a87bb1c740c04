from __future__ import annotations

import io
from dataclasses import replace

import pikepdf
import pypdf
import pypdfium2
import pytest
from packets import RECEIPT, Drawn, Parts, Slot, a_packet, attached, drawn_pages, enclosed, image, jpeg, receipt, saved
from pikepdf import Array, Dictionary, Name

from claimpack import __version__
from claimpack.errors import BadInput
from claimpack.packet.assemble import PacketTitles


def with_paper(paper: bytes, *slots: Slot) -> bytes:
    return Parts(drawn=Drawn(drawn_pages(), slots or (Slot(),)), papers={RECEIPT: paper}).assembled()


def edited(paper: bytes, act) -> bytes:
    with pikepdf.open(io.BytesIO(paper)) as pdf:
        act(pdf)
        return saved(pdf)


def ink(packet: bytes, page: int = 3) -> tuple[int, int, int, int]:
    """The box of dark pixels on a page: left, upper, right, lower, in points from the upper left."""
    bitmap = pypdfium2.PdfDocument(packet)[page].render(scale=1, draw_annots=False)
    picture = bitmap.to_pil().convert("L").point(lambda grey: 255 * (grey < 128))
    picture.paste(0, (0, 0, 612, 80))
    return picture.getbbox()


def a_bar(canvas) -> None:
    """A black bar along the whole lower edge of a receipt of 200 by 400 points."""
    canvas.rect(0, 0, 200, 40, stroke=0, fill=1)


def test_the_same_input_gives_the_same_bytes():
    assert Parts().assembled() == Parts().assembled()


def drawn_on(day: str) -> Drawn:
    return Drawn(edited(drawn_pages(), lambda pdf: pdf.docinfo.__setitem__("/CreationDate", day)))


def test_when_it_was_drawn_does_not_count():
    first, second = (Parts(drawn=drawn_on(day)).assembled() for day in ("D:20260301", "D:20310101"))
    assert first == second


def test_a_paper_page_fills_its_slot_and_keeps_its_shape():
    # 200 x 400 into 400 x 600 is scaled by 1.5 to 300 x 600, in the middle: x from 122 to 422, y from 72.
    assert ink(with_paper(receipt(a_bar))) == (122, 660, 422, 720)


def test_a_paper_page_larger_than_its_slot_is_made_smaller():
    def spread(pdf):
        pdf.pages[0].mediabox = [0, 0, 800, 1600]

    # 800 x 1600 into 400 x 600 is scaled by 0.375 to 300 x 600; the bar is a quarter as broad as the page.
    assert ink(with_paper(edited(receipt(a_bar), spread))) == (122, 705, 197, 720)


def test_a_page_upside_down_is_turned():
    paper = edited(receipt(a_bar), lambda pdf: pdf.pages[0].rotate(180, relative=False))
    assert ink(with_paper(paper)) == (122, 120, 422, 180)


def test_a_page_on_its_side_lies_across_its_slot():
    paper = edited(receipt(a_bar), lambda pdf: pdf.pages[0].rotate(90, relative=False))
    left, upper, right, lower = ink(with_paper(paper))
    # Turned clockwise by a quarter the lower edge becomes the left one: 400 x 200 fits 400 wide, the bar 40 of it.
    assert (left, right) == (72, 112)
    assert lower - upper == 200


def test_only_what_the_crop_box_shows_is_copied():
    def crop(pdf):
        pdf.pages[0].cropbox = [0, 0, 200, 100]

    # What is left is 200 x 100, scaled by 2 to 400 x 200 in the middle: y from 272, the bar 80 high.
    assert ink(with_paper(edited(receipt(a_bar), crop))) == (72, 440, 472, 520)


def test_a_trim_box_does_not_cut_a_paper():
    def trim(pdf):
        pdf.pages[0].trimbox = [50, 50, 100, 100]

    assert ink(with_paper(edited(receipt(a_bar), trim))) == ink(with_paper(receipt(a_bar)))


def test_the_text_of_a_paper_can_be_read():
    assert "Paid in full" in pypdf.PdfReader(io.BytesIO(a_packet())).pages[3].extract_text()


def test_a_paper_page_is_named_by_its_slot():
    paper = receipt(lambda canvas: (canvas.drawString(9, 9, "one"), canvas.showPage(), canvas.drawString(9, 9, "two")))
    packet = with_paper(paper, Slot(page_index=0, paper_page=1), Slot(page_index=1, paper_page=0))
    texts = [page.extract_text() for page in pypdf.PdfReader(io.BytesIO(packet)).pages]
    assert ["two" in texts[0], "one" in texts[1]] == [True, True]


def test_pages_of_one_paper_share_its_typefaces():
    paper = receipt(lambda canvas: (canvas.drawString(9, 9, "one"), canvas.showPage(), canvas.drawString(9, 9, "two")))
    packet = with_paper(paper, Slot(page_index=0, paper_page=1), Slot(page_index=1, paper_page=0))
    with pikepdf.open(io.BytesIO(packet)) as pdf:
        forms = [pdf.pages[place].Resources.XObject[f"/Paper{place + 1}"] for place in (0, 1)]
        assert len({form.Resources.Font["/F1"].objgen for form in forms}) == 1


def test_links_and_actions_of_a_paper_stay_behind():
    def act(pdf):
        pdf.Root.OpenAction = Dictionary(S=Name.JavaScript, JS="app.alert(1)")

    paper = edited(receipt(lambda canvas: canvas.linkURL("https://example.com", (0, 0, 99, 99))), act)
    packet = with_paper(paper)
    with pikepdf.open(io.BytesIO(packet)) as pdf:
        everything = b"".join(bytes(thing.unparse(resolved=True)) for thing in pdf.objects)
    assert b"example.com" not in everything
    assert b"JavaScript" not in everything


def test_a_stamp_on_a_paper_is_drawn_and_no_longer_an_annotation():
    def stamp(pdf):
        look = pdf.make_stream(b"0 0 100 100 re f", Type=Name.XObject, Subtype=Name.Form, BBox=[0, 0, 100, 100])
        note = Dictionary(Type=Name.Annot, Subtype=Name.Stamp, Rect=[0, 0, 200, 40], F=4, AP=Dictionary(N=look))
        pdf.pages[0].obj.Annots = Array([pdf.make_indirect(note)])

    packet = with_paper(edited(receipt(lambda _: None), stamp))
    assert ink(packet) == (122, 660, 422, 720)
    assert "Stamp" not in str([page.get("/Annots") for page in pypdf.PdfReader(io.BytesIO(packet)).pages])


def test_what_was_typed_into_a_form_is_drawn_though_the_program_it_was_typed_in_drew_nothing():
    def fill(pdf):
        face = Dictionary(Type=Name.Font, Subtype=Name.Type1, BaseFont=Name.Helvetica)
        field = Dictionary(Type=Name.Annot, Subtype=Name.Widget, FT=Name.Tx, T="paid", V="In cash", F=4)
        field.Rect, field.DA = Array([0, 0, 200, 40]), pikepdf.String("/Helv 12 Tf 0 g")
        field = pdf.make_indirect(field)
        pdf.pages[0].obj.Annots = Array([field])
        pdf.Root.AcroForm = Dictionary(Fields=Array([field]), DR=Dictionary(Font=Dictionary(Helv=face)))
        pdf.Root.AcroForm.NeedAppearances = True

    packet = with_paper(edited(receipt(), fill))
    assert "In cash" in pypdf.PdfReader(io.BytesIO(packet)).pages[3].extract_text()


def test_what_a_scanner_wrote_beside_the_picture_stays_behind():
    def describe(pdf):
        scan = image(pdf, jpeg("navy"))
        scan.Metadata = pdf.make_stream(b"<x>51.5 N</x>")
        pdf.pages[0].obj.Resources = Dictionary(XObject=Dictionary(Scan=scan))
        pdf.pages[0].obj.Contents = pdf.make_stream(b"200 0 0 400 0 0 cm /Scan Do")

    with pikepdf.open(io.BytesIO(with_paper(edited(receipt(), describe)))) as pdf:
        scan = pdf.pages[3].Resources.XObject["/Paper1"].Resources.XObject["/Scan"]
        assert "/Metadata" not in scan
        assert scan.read_raw_bytes() == jpeg("navy")


def test_what_a_page_leaves_set_does_not_move_the_paper():
    moved = edited(drawn_pages(), lambda pdf: pdf.pages[3].contents_add(b" 0.5 0 0 0.5 50 50 cm"))
    packet = Parts(drawn=Drawn(moved), papers={RECEIPT: receipt(a_bar)}).assembled()
    assert ink(packet) == ink(with_paper(receipt(a_bar)))


def cut() -> bytes:
    """A paper whose drawing cannot be unpacked."""

    def act(pdf):
        pdf.pages[0].Contents = pikepdf.Stream(pdf, b"not packed", Filter=Name.FlateDecode)

    return edited(receipt(), act)


def locked() -> bytes:
    written = io.BytesIO()
    with pikepdf.open(io.BytesIO(receipt())) as pdf:
        pdf.save(written, encryption=pikepdf.Encryption(user="secret", owner="secret"))
    return written.getvalue()


@pytest.mark.parametrize(
    ("paper", "what"),
    [
        (b"", f"{RECEIPT} cannot be copied"),
        (b"GIF89a", f"{RECEIPT} cannot be copied"),
        (locked(), f"{RECEIPT} is locked"),
        (cut(), f"{RECEIPT}, page 1 cannot be copied"),
    ],
    ids=["empty", "no PDF", "locked", "damaged"],
)
def test_a_paper_that_cannot_be_copied_is_named(paper, what):
    with pytest.raises(BadInput, match=what):
        with_paper(paper)


def test_a_page_the_paper_does_not_have_is_named():
    with pytest.raises(BadInput, match=f"{RECEIPT}, page 2 cannot be copied into the packet: the paper has 1"):
        with_paper(receipt(), Slot(paper_page=1))


def test_a_paper_without_content_is_named():
    with pytest.raises(BadInput, match=f"{RECEIPT}: the packet has a place for it"):
        Parts(papers={}).assembled()


def test_properties_say_what_they_were_given():
    told = pypdf.PdfReader(io.BytesIO(a_packet())).metadata
    assert (told.title, told.author, told.subject) == (
        "Claim 26-0001",
        "Quarry Road Small Engine",
        "CS-70, short block",
    )
    assert told.producer == f"claimpack {__version__}"


def test_the_second_set_of_properties_agrees_with_the_first():
    told = pypdf.PdfReader(io.BytesIO(a_packet())).xmp_metadata
    assert told.dc_title == {"x-default": "Claim 26-0001"}
    assert told.dc_creator == ["Quarry Road Small Engine"]
    assert told.dc_description == {"x-default": "CS-70, short block"}
    assert told.dc_language == ["en"]
    assert told.pdf_producer == f"claimpack {__version__}"


def test_titles_keep_any_script():
    titles = PacketTitles("Zoë — Ελένη", "", "", "el", Parts().titles.day)
    packet = Parts(titles=titles).assembled()
    reader = pypdf.PdfReader(io.BytesIO(packet))
    assert (reader.metadata.title, reader.metadata.author) == ("Zoë — Ελένη", None)
    assert reader.xmp_metadata.dc_title == {"x-default": "Zoë — Ελένη"}


def test_the_document_tells_its_language_and_shows_its_title():
    root = pypdf.PdfReader(io.BytesIO(a_packet())).trailer["/Root"]
    assert (root["/Lang"], root["/ViewerPreferences"]["/DisplayDocTitle"]) == ("en", True)


def test_bookmarks_are_kept():
    assert [entry.title for entry in pypdf.PdfReader(io.BytesIO(a_packet())).outline] == ["Reasons"]


def test_nothing_acts_when_the_packet_is_opened():
    def act(pdf):
        pdf.Root.OpenAction = Dictionary(S=Name.JavaScript, JS="1")
        pdf.Root.Names = Dictionary(JavaScript=Dictionary(Names=Array([])))
        pdf.pages[0].obj.AA = Dictionary(O=Dictionary(S=Name.JavaScript, JS="1"))

    packet = Parts(drawn=Drawn(edited(drawn_pages(), act))).assembled()
    with pikepdf.open(io.BytesIO(packet)) as pdf:
        assert not {"/OpenAction", "/AA", "/AcroForm"} & set(pdf.Root.keys())
        assert list(pdf.Root.Names.keys()) == ["/EmbeddedFiles"]
        assert "/AA" not in pdf.pages[0].obj


def test_pages_for_an_owner_carry_nothing_that_tells_prices():
    packet = pypdf.PdfReader(io.BytesIO(Parts(enclosed=replace(enclosed(), is_carried=False)).assembled()))
    assert (packet.attachments, "/ManifestSHA256" in packet.metadata, len(packet.pages)) == ({}, False, 4)


def test_jpegs_are_embedded_as_they_are():
    with pikepdf.open(io.BytesIO(a_packet())) as pdf:
        assert pdf.pages[2].Resources.XObject["/Im0"].read_raw_bytes() == jpeg("navy")


def test_a_scan_inside_a_paper_is_listed_under_the_paper():
    def scan(pdf):
        pdf.pages[0].obj.Resources = Dictionary(XObject=Dictionary(Scan=image(pdf, jpeg("olive"))))
        pdf.pages[0].obj.Contents = pdf.make_stream(b"200 0 0 400 0 0 cm /Scan Do")

    listed = attached(with_paper(edited(receipt(), scan)), "manifest.json")["pictures"]
    assert (listed[-1]["file"], listed[-1]["pages"]) == (RECEIPT, [4])


def test_a_paper_in_larger_units_fills_its_slot_alike():
    def enlarge(pdf):
        pdf.pages[0].obj.UserUnit = 3

    assert ink(with_paper(edited(receipt(a_bar), enlarge))) == ink(with_paper(receipt(a_bar)))
