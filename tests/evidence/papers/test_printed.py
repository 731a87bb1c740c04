from __future__ import annotations

import io

import pypdfium2
import pytest
from evidence.drawn_papers import SECRET, a_paper, photo, pictures_in, placed, told_by
from pikepdf import Array, Dictionary, Name, Pdf

from claimpack.errors import BadInput

PLACE = Dictionary(Type=Name.Measure, Subtype=Name.GEO, GPTS=Array([51.5, -0.1]), Name="SECRET")


def on_a_picture(**entries):
    return lambda pdf: placed(pdf, bytes(120 * 80 * 3), **entries)


def private(pdf):
    pdf.pages[0]["/PieceInfo"] = Dictionary(Editor=Dictionary(Private="SECRET"))
    pdf.pages[0].Resources["/XUnknown"] = Dictionary(Note="SECRET")


def thumbnail(pdf):
    pdf.pages[0]["/Thumb"] = pdf.make_stream(SECRET, Subtype=Name.Image)


def described(pdf):
    pdf.pages[0].contents_add(b"/Span <</ActualText (SECRET)>> BDC EMC /Note /N DP")
    pdf.pages[0].Resources["/Properties"] = Dictionary(N=Dictionary(Text="SECRET"))


def in_a_form(pdf):
    inner = pdf.make_stream(b"0 0 9 9 re f", Type=Name.XObject, Subtype=Name.Form, BBox=Array([0, 0, 9, 9]))
    inner["/Metadata"], inner["/LastModified"] = pdf.make_stream(SECRET), "SECRET"
    outer = pdf.make_stream(b"/In Do", Type=Name.XObject, Subtype=Name.Form, BBox=Array([0, 0, 9, 9]))
    outer["/Resources"], outer["/Ref"] = Dictionary(XObject=Dictionary(In=inner)), Dictionary(ID=Array(["SECRET"]))
    pdf.pages[0].Resources["/XObject"] = Dictionary(Out=outer)
    pdf.pages[0].contents_add(b"/Out Do")


INSIDE = b"0 0 9 9 re f % SECRET\n"
PHOTO = b"q 120 0 0 80 50 300 cm BI /W 120 /H 80 /BPC 8 /CS /RGB /F /DCT ID " + photo() + b"\nEI Q"
BOX = Array([0, 0, 300, 500])


def a_form(pdf, content):
    form = pdf.make_stream(content, Type=Name.XObject, Subtype=Name.Form, BBox=BOX, Resources=Dictionary())
    pdf.pages[0].Resources["/XObject"] = Dictionary(Form=form)
    pdf.pages[0].contents_add(b"/Form Do")


def a_pattern(pdf, content):
    tile = pdf.make_stream(content, Type=Name.Pattern, PatternType=1, PaintType=1, TilingType=1, BBox=BOX)
    tile.update({"/XStep": 300, "/YStep": 500, "/Resources": Dictionary()})
    pdf.pages[0].Resources["/Pattern"] = Dictionary(Tile=tile)
    pdf.pages[0].contents_add(b"/Pattern cs /Tile scn 0 0 300 500 re f")


def attached(pdf):
    pdf.attachments["secret.txt"] = SECRET
    pdf.pages[0].AF = Array([pdf.attachments["secret.txt"].obj])
    note = Dictionary(Type=Name.Annot, Subtype=Name.FileAttachment, Rect=Array([0, 0, 9, 9]), Contents="SECRET")
    pdf.pages[0].Annots = Array([pdf.make_indirect(note)])


def inherited(pdf):
    pdf.pages[0].obj["/Parent"]["/PieceInfo"] = Dictionary(Private="SECRET")


def in_a_mask(pdf):
    mask = pdf.make_stream(bytes(120 * 80), Subtype=Name.Image, Width=120, Height=80, Metadata=pdf.make_stream(SECRET))
    mask.update({"/ColorSpace": Name.DeviceGray, "/BitsPerComponent": 8})
    placed(pdf, bytes(120 * 80 * 3), SMask=mask)


def in_a_letter(pdf):
    drawn = pdf.make_stream(b"500 0 d0 0 0 400 400 re f % SECRET\n/Span <</Alt (SECRET)>> BDC EMC")
    font = Dictionary(Type=Name.Font, Subtype=Name.Type3, FontBBox=Array([0, 0, 500, 500]), FirstChar=65, LastChar=65)
    font.update({"/FontMatrix": Array([0.01, 0, 0, 0.01, 0, 0]), "/Widths": Array([500]), "/Note": "SECRET"})
    font["/CharProcs"], font["/Encoding"] = Dictionary(box=drawn), Dictionary(Differences=Array([65, Name.box]))
    pdf.pages[0].Resources.Font["/T3"] = pdf.make_indirect(font)
    pdf.pages[0].contents_add(b"BT /T3 12 Tf 50 50 Td (A) Tj ET")


LEAKS = {
    "a letter": in_a_letter,
    "a remark in the text": lambda pdf: pdf.pages[0].contents_add(b"% SECRET\n"),
    "where a map lies": on_a_picture(Measure=PLACE, PtData=Dictionary(Names=Array(["SECRET"]))),
    "metadata of a picture": on_a_picture(Metadata=PLACE),
    "other pictures": on_a_picture(Alternates=Array([Dictionary(Image=PLACE)]), OPI=PLACE),
    "what an editor keeps": private,
    "a thumbnail": thumbnail,
    "text instead of text": described,
    "metadata inside forms": in_a_form,
    "attachments": attached,
    "what pages inherit": inherited,
    "metadata of a mask": in_a_mask,
    "a photo in the text": lambda pdf: pdf.pages[0].contents_add(PHOTO),
    "a photo in the text of a form": lambda pdf: a_form(pdf, PHOTO),
    "a remark in a form": lambda pdf: a_form(pdf, INSIDE),
    "a remark in a pattern": lambda pdf: a_pattern(pdf, INSIDE),
}


@pytest.mark.parametrize("hide", LEAKS.values(), ids=LEAKS)
def test_what_draws_nothing_never_leaves_the_shop(tmp_path, hide):
    assert SECRET not in told_by(a_paper(tmp_path, hide))


@pytest.mark.parametrize("hide", LEAKS.values(), ids=LEAKS)
def test_a_page_looks_as_before(tmp_path, hide):
    paper = a_paper(tmp_path, hide)
    before, after = (
        pypdfium2.PdfDocument(pdf)[0].render().to_numpy().astype(int) for pdf in (tmp_path / "r.pdf", paper.pdf)
    )
    assert abs(before - after).mean() < 0.5


def test_a_photo_in_the_text_of_a_pattern_is_refused(tmp_path):
    with pytest.raises(BadInput, match="in the middle of its text"):
        a_paper(tmp_path, lambda pdf: a_pattern(pdf, PHOTO))


def test_dots_in_the_text_stay_where_they_are(tmp_path):
    dots = b"q 80 0 0 40 50 300 cm BI /W 80 /H 40 /BPC 1 /CS /G ID " + b"\x55" * 400 + b"\nEI Q"
    paper = a_paper(tmp_path, lambda pdf: pdf.pages[0].contents_add(dots))
    assert (pictures_in(paper), b"\x55" * 400 in told_by(paper)) == ([], True)


def test_a_paper_that_takes_its_content_from_another_file_is_refused(tmp_path):
    def change(pdf):
        placed(pdf, b"", F="/etc/hostname")

    with pytest.raises(BadInput, match="another file"):
        a_paper(tmp_path, change)


def test_pages_described_without_end_are_refused(tmp_path):
    with pytest.raises(BadInput, match="described in more than 16 MB"):
        a_paper(tmp_path, lambda pdf: pdf.pages[0].contents_add(b"0 0 m " * 3_000_000))


def test_a_cleaned_paper_holds_nothing_but_its_pages(tmp_path):
    with Pdf.open(io.BytesIO(a_paper(tmp_path, attached).pdf)) as pdf:
        assert set(pdf.Root.keys()) == {"/Type", "/Pages"}
