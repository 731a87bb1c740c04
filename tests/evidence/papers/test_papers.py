from __future__ import annotations

import io
import re

import pikepdf
import pypdf
import pypdfium2
import pytest
from evidence.pictures import camera_exif, gradient, stored
from pikepdf import Array, Dictionary, Name, Pdf
from reportlab.pdfgen.canvas import Canvas

from claimpack.errors import BadInput, NotFound
from claimpack.evidence.papers.papers import MOST_PAGES, PageSize, printed_here, read_paper


def receipt(path, pages=1, size=(300, 500)):
    canvas = Canvas(str(path), pagesize=size)
    for number in range(1, pages + 1):
        canvas.drawString(20, 200, f"Receipt page {number}")
        canvas.showPage()
    canvas.save()
    return path


def changed(path, change, **options):
    with pikepdf.open(path, allow_overwriting_input=True) as pdf:
        change(pdf)
        pdf.save(path, **options)
    return path


def words(pdf):
    return [page.extract_text().strip() for page in pypdf.PdfReader(io.BytesIO(pdf)).pages]


def test_every_page_of_a_receipt_comes_in(tmp_path):
    paper = read_paper(receipt(tmp_path / "r.pdf", pages=3), "papers/r.pdf")
    assert words(paper.pdf) == ["Receipt page 1", "Receipt page 2", "Receipt page 3"]
    assert paper.pages == (PageSize(300, 500),) * 3


def test_the_original_is_hashed_and_left_as_it_was(tmp_path):
    path = receipt(tmp_path / "r.pdf")
    before = path.read_bytes()
    assert len(read_paper(path, "r.pdf").sha256) == 64
    assert path.read_bytes() == before


def test_the_same_paper_gives_the_same_bytes(tmp_path):
    path = receipt(tmp_path / "r.pdf", pages=2)
    assert here(path, "r.pdf").pdf == here(path, "r.pdf").pdf


def here(path, file):
    """A PDF of our own read without a process of its own."""
    return printed_here(path.read_bytes(), file)


def test_two_papers_have_two_identifiers(tmp_path):
    # ISO 32000-1, 14.4: an identifier is worked out of the content
    papers = [here(receipt(tmp_path / "r.pdf", pages), "r.pdf").pdf for pages in (1, 2)]
    one, other = (pypdf.PdfReader(io.BytesIO(pdf)).trailer["/ID"][0] for pdf in papers)
    assert one != other


@pytest.mark.parametrize(
    ("turn", "size"), [(0, (300, 500)), (90, (500, 300)), (180, (300, 500)), (270, (500, 300)), (-90, (500, 300))]
)
def test_a_turned_page_has_its_upright_size(tmp_path, turn, size):
    path = changed(receipt(tmp_path / "r.pdf"), lambda pdf: pdf.pages[0].obj.update({"/Rotate": turn}))
    paper = here(path, "r.pdf")
    assert paper.pages == (PageSize(*size),)
    assert pypdfium2.PdfDocument(paper.pdf)[0].get_size() == size


def test_a_cropped_page_has_the_size_that_is_seen(tmp_path):
    def crop(pdf):
        pdf.pages[0].CropBox = Array([50, 600, 250, 100])

    assert here(changed(receipt(tmp_path / "r.pdf"), crop), "r.pdf").pages == (PageSize(200, 400),)


def test_a_page_is_as_large_and_turned_as_the_pages_above_it_say(tmp_path):
    def tell_above(pdf):
        page, above = pdf.pages[0].obj, pdf.pages[0].obj["/Parent"]
        above.update({"/MediaBox": Array([0, 0, 400, 600]), "/CropBox": Array([0, 0, 200, 500]), "/Rotate": 90})
        for key in ("/MediaBox", "/Rotate"):
            del page[key]

    path = changed(receipt(tmp_path / "r.pdf"), tell_above)
    assert here(path, "r.pdf").pages == (PageSize(500, 200),)


def test_a_page_in_larger_units_has_its_true_size(tmp_path):
    path = changed(receipt(tmp_path / "r.pdf"), lambda pdf: pdf.pages[0].obj.update({"/UserUnit": 2}))
    assert here(path, "r.pdf").pages == (PageSize(600, 1000),)


@pytest.mark.parametrize(
    "box", [[0, 0, 0, 500], [0, 0, 300, 0], [0, 0, 300, 20_000]], ids=["no width", "no height", "too high"]
)
def test_a_page_that_cannot_be_shown_is_named(tmp_path, box):
    def resize(pdf):
        pdf.pages[0].MediaBox = Array(box)

    path = changed(receipt(tmp_path / "r.pdf"), resize)
    with pytest.raises(BadInput, match="page 1"):
        here(path, "r.pdf")


def arm(pdf):
    launch = Dictionary(S=Name.Launch, F="calc.exe")
    pdf.Root.OpenAction = Dictionary(S=Name.JavaScript, JS="app.alert(1)")
    pdf.Root.Names = Dictionary(JavaScript=Dictionary(Names=Array(["x", Dictionary(S=Name.JavaScript, JS="x()")])))
    pdf.pages[0].AA = Dictionary(O=launch)
    pdf.pages[0].Annots = Array(
        [pdf.make_indirect(Dictionary(Type=Name.Annot, Subtype=Name.Link, Rect=Array([0, 0, 9, 9]), A=launch))]
    )
    pdf.attachments["secret.txt"] = b"attached secret"


def test_scripts_actions_and_attachments_are_left_behind(tmp_path):
    paper = here(changed(receipt(tmp_path / "r.pdf"), arm), "r.pdf")
    with pikepdf.open(io.BytesIO(paper.pdf)) as pdf:
        told = b" ".join(found.unparse(resolved=False) for found in pdf.objects)
        assert not re.search(rb"/(JavaScript|JS|Launch|OpenAction|AA|Annots|EmbeddedFile|Names)\b", told)
        assert len(pdf.attachments) == 0
    assert words(paper.pdf) == ["Receipt page 1"]


def test_a_filled_form_keeps_what_was_filled_in(tmp_path):
    canvas = Canvas(str(tmp_path / "r.pdf"), pagesize=(300, 500))
    canvas.drawString(20, 200, "Serial number")
    canvas.acroForm.textfield(name="serial", value="HC70-1", x=20, y=300, width=200, height=20)
    canvas.save()
    paper = here(tmp_path / "r.pdf", "r.pdf")
    assert "HC70-1" in pypdfium2.PdfDocument(paper.pdf)[0].get_textpage().get_text_range()


def test_a_form_filled_in_by_a_program_that_drew_nothing_shows_what_was_filled_in(tmp_path):
    canvas = Canvas(str(tmp_path / "r.pdf"), pagesize=(300, 500))
    canvas.drawString(20, 200, "Serial number")
    canvas.acroForm.textfield(name="serial", value="HC70-1", x=20, y=300, width=200, height=20)
    canvas.save()

    def undrawn(pdf):
        pdf.Root.AcroForm.NeedAppearances = True
        del pdf.pages[0].Annots[0]["/AP"]

    paper = here(changed(tmp_path / "r.pdf", undrawn), "r.pdf")
    assert "HC70-1" in pypdfium2.PdfDocument(paper.pdf)[0].get_textpage().get_text_range()


def test_location_inside_a_scanned_page_never_leaves_the_shop(tmp_path):
    photo = stored(tmp_path / "scan.jpg", gradient(), exif=camera_exif()).read_bytes()

    def put(pdf):
        image = pdf.make_stream(photo, Type=Name.XObject, Subtype=Name.Image, Width=120, Height=80)
        image.update({"/ColorSpace": Name.DeviceRGB, "/BitsPerComponent": 8})
        image.write(photo, filter=Name.DCTDecode)
        pdf.pages[0].Resources.XObject = Dictionary(Im=image)
        pdf.pages[0].contents_add(b"q 120 0 0 80 50 300 cm /Im Do Q")

    paper = here(changed(receipt(tmp_path / "r.pdf"), put), "r.pdf")
    assert b"MAKERNOTE" not in paper.pdf
    assert pypdfium2.PdfDocument(paper.pdf)[0].render().to_pil().getpixel((60, 190))[2] > 150


def test_a_locked_paper_says_what_to_do(tmp_path):
    lock = pikepdf.Encryption(user="1234", owner="5678")
    path = changed(receipt(tmp_path / "r.pdf"), lambda _: None, encryption=lock)
    with pytest.raises(BadInput) as refused:
        here(path, "papers/r.pdf")
    assert refused.value.what.startswith("papers/r.pdf is locked")
    assert "without a password" in refused.value.do


def test_a_paper_that_only_forbids_changes_is_shown_with_a_note(tmp_path):
    lock = pikepdf.Encryption(user="", owner="5678")
    paper = here(changed(receipt(tmp_path / "r.pdf"), lambda _: None, encryption=lock), "r.pdf")
    assert words(paper.pdf) == ["Receipt page 1"]
    assert len(paper.notes) == 1


def test_a_sound_paper_has_no_notes(tmp_path):
    assert here(receipt(tmp_path / "r.pdf"), "r.pdf").notes == ()


def test_a_damaged_paper_is_repaired_with_a_note(tmp_path):
    path = receipt(tmp_path / "r.pdf")
    path.write_bytes(re.sub(rb"startxref\s+\d+", b"startxref 7", path.read_bytes()))
    paper = here(path, "r.pdf")
    assert "repaired" in paper.notes[0]
    assert words(paper.pdf) == ["Receipt page 1"]


@pytest.mark.parametrize("content", [b"%PDF-1.7\n", b"%PDF-1.7\n1 0 obj <</Type/Catalog>> endobj\n" * 3])
def test_a_paper_beyond_repair_is_named(tmp_path, content):
    (tmp_path / "r.pdf").write_bytes(content)
    with pytest.raises(BadInput, match=r"papers/r\.pdf is a"):
        here(tmp_path / "r.pdf", "papers/r.pdf")


def test_a_paper_without_pages_is_refused(tmp_path):
    Pdf.new().save(tmp_path / "r.pdf")
    with pytest.raises(BadInput, match="without any page"):
        here(tmp_path / "r.pdf", "r.pdf")


def test_the_longest_paper_is_taken(tmp_path):
    assert len(read_paper(receipt(tmp_path / "r.pdf", MOST_PAGES), "r.pdf").pages) == MOST_PAGES


def test_a_longer_paper_is_refused(tmp_path):
    path = receipt(tmp_path / "r.pdf", MOST_PAGES + 1)
    with pytest.raises(BadInput, match="201 pages"):
        read_paper(path, "r.pdf")


def test_a_photo_of_a_receipt_is_one_page(tmp_path):
    paper = read_paper(stored(tmp_path / "r.jpg", exif=camera_exif(6)), "r.jpg")
    assert (paper.pdf, paper.pages) == (b"", (PageSize(80, 120),))
    assert paper.photo.sha256 == paper.sha256


@pytest.mark.parametrize("content", [b"PK\3\4word document", b"Paid 100.00, thank you", b"\0" * 2000])
def test_another_kind_of_file_names_the_kinds_that_are_taken(tmp_path, content):
    (tmp_path / "r.docx").write_bytes(content)
    with pytest.raises(BadInput) as refused:
        read_paper(tmp_path / "r.docx", "r.docx")
    assert "Papers are PDF, JPEG" in refused.value.why


def test_an_empty_paper_is_refused(tmp_path):
    (tmp_path / "r.pdf").write_bytes(b"")
    with pytest.raises(BadInput, match="is empty"):
        read_paper(tmp_path / "r.pdf", "r.pdf")


def test_a_missing_paper_is_named(tmp_path):
    with pytest.raises(NotFound, match=r"papers/r\.pdf"):
        read_paper(tmp_path / "r.pdf", "papers/r.pdf")
