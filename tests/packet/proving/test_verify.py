from __future__ import annotations

import io

import pikepdf
import pypdf
import pytest
from packets import PHOTOS, a_packet, attached, drawn_pages, image, jpeg, replace_attachment, tampered
from pikepdf import Array, Dictionary, Name

from claimpack.errors import BadInput, NotFound
from claimpack.file_contents import hash_of
from claimpack.packet.proving.verify import LIMITS, verify


def problems(packet: bytes) -> tuple[str, ...]:
    return verify(packet).problems


def retype(pdf: pikepdf.Pdf, page: int, before: bytes, after: bytes) -> None:
    contents = pdf.pages[page].Contents
    contents.write(contents.read_bytes().replace(before, after))


def test_a_packet_as_it_was_made_is_genuine():
    found = verify(a_packet())
    assert (found.genuine, found.problems, found.claim, found.pages, found.pictures) == (True, (), "26-0001", 4, 2)


def test_the_packets_own_hash_is_told_with_what_it_cannot_prove():
    found = verify(a_packet())
    assert found.sha256 == hash_of(a_packet())
    assert found.notes == (LIMITS,)


def test_every_file_compared_is_counted():
    found = verify(a_packet())
    assert (found.attachments, found.pictures, found.originals, found.files) == (4, 2, 0, 6)


def test_the_answer_for_scripts_names_what_was_altered():
    told = verify(a_packet() + b"x").as_json()
    assert (told["genuine"], told["claim"], told["pages"]) == (False, "26-0001", 4)
    assert told["problems"] == list(problems(a_packet() + b"x"))


def test_a_packet_is_read_from_its_file(tmp_path):
    (tmp_path / "packet.pdf").write_bytes(a_packet())
    assert verify(tmp_path / "packet.pdf").genuine


@pytest.mark.parametrize(
    "how",
    [
        {"linearize": True},
        {"qdf": True, "object_stream_mode": pikepdf.ObjectStreamMode.disable},
        {"compress_streams": False, "stream_decode_level": pikepdf.StreamDecodeLevel.generalized},
        {"recompress_flate": True},
    ],
    ids=["linearized", "spread out", "uncompressed", "compressed again"],
)
def test_a_packet_saved_another_way_is_still_genuine(how):
    written = io.BytesIO()
    with pikepdf.open(io.BytesIO(a_packet())) as pdf:
        pdf.save(written, **how)
    assert problems(written.getvalue()) == ()


def test_a_packet_rewritten_by_another_library_is_still_genuine():
    written = io.BytesIO()
    pypdf.PdfWriter(clone_from=io.BytesIO(a_packet())).write(written)
    assert problems(written.getvalue()) == ()


def test_changed_text_names_its_page():
    assert problems(tampered(lambda pdf: retype(pdf, 1, b"page 2", b"page 7"))) == ("page 2 was changed",)


def test_changed_text_of_a_paper_names_its_page():
    def act(pdf):
        form = pdf.pages[3].Resources.XObject["/Paper1"]
        form.write(form.read_bytes().replace(b"Paid", b"Owed"))

    assert problems(tampered(act)) == ("page 4 was changed",)


def test_a_changed_typeface_names_every_page_that_uses_it():
    def act(pdf):
        pdf.pages[0].Resources.Font.F1.BaseFont = Name.Symbol

    assert "page 1 was changed" in problems(tampered(act))


def test_a_page_turned_over_is_changed():
    assert problems(tampered(lambda pdf: pdf.pages[0].rotate(180, relative=False))) == ("page 1 was changed",)


def test_a_page_cropped_is_changed():
    def act(pdf):
        pdf.pages[0].cropbox = [0, 0, 612, 300]

    assert problems(tampered(act)) == ("page 1 was changed",)


def test_a_replaced_picture_names_its_file_and_page():
    def act(pdf):
        pdf.pages[2].Resources.XObject["/Im1"] = image(pdf, jpeg("seagreen"))

    assert problems(tampered(act)) == ("the picture photos/damage.jpg on page 3 was replaced",)


def test_two_pictures_in_each_others_place_are_noticed():
    def act(pdf):
        shown = pdf.pages[2].Resources.XObject
        shown["/Im0"], shown["/Im1"] = shown["/Im1"], shown["/Im0"]

    (problem,) = problems(tampered(act))
    assert problem.startswith("the pictures on page 3 were put in each other's place")


def test_a_picture_shown_in_other_colours_is_noticed():
    def act(pdf):
        pdf.pages[2].Resources.XObject["/Im0"].Decode = Array([1, 0, 1, 0, 1, 0])

    (problem,) = problems(tampered(act))
    assert "altered in how they are shown" in problem


def test_a_picture_painted_over_changes_the_page():
    assert "page 3 was changed" in problems(tampered(lambda pdf: pdf.pages[2].contents_add(b"0 0 600 700 re f")))


def test_swapped_pages_are_named():
    def act(pdf):
        pdf.pages[0], pdf.pages[1] = pdf.pages[1], pdf.pages[0]

    (problem,) = problems(tampered(act))
    assert "out of place" in problem


def test_an_added_page_is_named():
    def act(pdf):
        pdf.add_blank_page(page_size=(612, 792))

    assert problems(tampered(act)) == ("the packet has 5 pages and was made with 4", "page 5 was added")


def test_a_removed_page_is_named():
    def act(pdf):
        del pdf.pages[1]

    assert any(problem.startswith("page 2 ") for problem in problems(tampered(act)))


@pytest.mark.parametrize("name", ["claim.json", "plan.json", "assessment.json"])
def test_a_changed_data_file_is_named(name):
    found = problems(tampered(lambda pdf: replace_attachment(pdf, name, lambda _: None)))
    assert found == (f"{name} was changed",)


@pytest.mark.parametrize("name", ["claim.json", "plan.json", "assessment.json"])
def test_a_removed_data_file_is_named(name):
    def act(pdf):
        del pdf.attachments[name]

    assert problems(tampered(act)) == (f"{name} was removed",)


def test_a_packet_without_its_claim_is_still_known_by_the_manifest():
    def act(pdf):
        del pdf.attachments["claim.json"]

    assert verify(tampered(act)).claim == "26-0001"


def test_a_changed_manifest_is_named():
    found = problems(tampered(lambda pdf: replace_attachment(pdf, "manifest.json", lambda _: None)))
    assert found == ("manifest.json was changed",)


def test_a_removed_manifest_is_named():
    def act(pdf):
        del pdf.attachments["manifest.json"]

    assert problems(tampered(act)) == ("manifest.json was removed, so pages and pictures cannot be checked",)


def test_a_manifest_that_is_none_is_named():
    found = problems(tampered(lambda pdf: replace_attachment(pdf, "manifest.json", lambda made: made.pop("pages"))))
    assert "manifest.json cannot be read, so pages and pictures cannot be checked" in found


def test_an_added_attachment_is_named():
    def act(pdf):
        pdf.attachments["letter.txt"] = pikepdf.AttachedFileSpec(pdf, b"Dear maker", filename="letter.txt")

    assert problems(tampered(act)) == ("the attachment letter.txt was added",)


def test_an_attachment_that_readers_show_under_another_name_is_named():
    def act(pdf):
        pdf.attachments["claim.json"].obj.UF = pikepdf.String("invoice.json")

    assert problems(tampered(act)) == ("the name under which readers show claim.json was changed",)


def test_a_second_content_of_an_attachment_is_named():
    def act(pdf):
        pdf.attachments["claim.json"].obj.EF.UF = pdf.make_stream(b"{}")

    assert "claim.json carries a second content that differs from the first" in problems(tampered(act))


def test_a_property_nobody_wrote_is_named():
    def act(pdf):
        pdf.docinfo["/Approved"] = "yes"

    assert problems(tampered(act)) == ("the property Approved of the document was added",)


def test_a_file_linked_beside_the_attachments_is_named():
    def act(pdf):
        pdf.Root.AF.append(pdf.make_indirect(Dictionary(Type=Name.Filespec, F="x")))

    assert any("was added" in said for said in problems(tampered(act)))


def test_an_added_annotation_is_named():
    def act(pdf):
        note = Dictionary(Type=Name.Annot, Subtype=Name.FreeText, Rect=[72, 72, 200, 100], Contents="approved")
        pdf.pages[2].obj.Annots.append(pdf.make_indirect(note))

    (problem,) = problems(tampered(act))
    assert problem.endswith("page 3")


def test_a_removed_annotation_is_named():
    def act(pdf):
        del pdf.pages[1].obj.Annots

    assert problems(tampered(act)) == ("an annotation was removed from page 2",)


def test_a_changed_annotation_is_named():
    def act(pdf):
        pdf.pages[1].obj.Annots[0].Rect = Array([0, 0, 612, 792])

    assert problems(tampered(act)) == ("an annotation on page 2 was changed",)


def test_an_annotation_on_a_changed_page_is_named_too():
    def act(pdf):
        retype(pdf, 1, b"page 2", b"page 7")
        pdf.pages[1].obj.Annots[0].Rect = Array([0, 0, 612, 792])

    assert problems(tampered(act)) == ("page 2 was changed", "an annotation on page 2 was changed")


@pytest.mark.parametrize(
    ("key", "value", "named"),
    [
        ("/AcroForm", Dictionary(Fields=Array([])), "a form was added"),
        ("/OpenAction", Dictionary(S=Name.JavaScript, JS="1"), "an action that runs on opening was added"),
        ("/Lang", pikepdf.String("tlh"), "the document's language was changed"),
    ],
    ids=["form", "script", "language"],
)
def test_an_entry_of_the_document_is_named(key, value, named):
    def act(pdf):
        pdf.Root[key] = value

    assert problems(tampered(act)) == (named,)


def test_a_script_among_the_names_is_named():
    def act(pdf):
        pdf.Root.Names.JavaScript = Dictionary(Names=Array(["x", Dictionary(S=Name.JavaScript, JS="1")]))

    assert problems(tampered(act)) == ("a script was added",)


def test_a_renamed_bookmark_is_noticed():
    def act(pdf):
        pdf.Root.Outlines.First.Title = "Verdict"

    assert problems(tampered(act)) == ("the list of bookmarks was changed",)


def test_a_changed_title_is_noticed():
    def act(pdf):
        pdf.docinfo["/Title"] = "Claim 26-0002"

    assert problems(tampered(act)) == ("the document's title was changed",)


def test_an_update_added_at_the_end_is_noticed_whatever_it_changes():
    writer = pypdf.PdfWriter(io.BytesIO(a_packet()), incremental=True)
    writer.add_metadata({"/Note": "x"})
    written = io.BytesIO()
    writer.write(written)
    assert problems(written.getvalue())[:2] == (
        "the file was added to once after it was made",
        "the property Note of the document was added",
    )


@pytest.mark.parametrize(("junk", "named"), [(b"x", "1 byte was"), (b"x" * 5000, "5000 bytes were")])
def test_bytes_appended_are_counted(junk, named):
    assert problems(a_packet() + junk) == (f"{named} appended after the end of the PDF",)


def test_bytes_before_the_start_are_counted():
    assert problems(b"junk\n" + a_packet()) == ("5 bytes were put before the start of the PDF",)


def a_folder(tmp_path, **contents: str):
    for file in PHOTOS:
        (tmp_path / file).parent.mkdir(exist_ok=True)
        (tmp_path / file).write_text(contents.get(file, file))
    return tmp_path


def test_originals_as_they_were_are_counted(tmp_path):
    found = verify(a_packet(), a_folder(tmp_path))
    assert (found.problems, found.originals, found.files) == ((), 2, 8)


def test_a_changed_original_is_named(tmp_path):
    folder = a_folder(tmp_path, **{"photos/damage.jpg": "another picture"})
    (problem,) = verify(a_packet(), folder).problems
    assert problem == f"photos/damage.jpg in {folder} is not the file the packet was made from"


def test_a_missing_original_is_named(tmp_path):
    (a_folder(tmp_path) / "photos/plate.jpg").unlink()
    assert verify(a_packet(), tmp_path).problems == (f"photos/plate.jpg is missing from {tmp_path}",)


def test_a_folder_that_is_not_there_is_refused(tmp_path):
    with pytest.raises(NotFound, match="no such folder"):
        verify(a_packet(), tmp_path / "gone")


def locked() -> bytes:
    written = io.BytesIO()
    with pikepdf.open(io.BytesIO(a_packet())) as pdf:
        pdf.save(written, encryption=pikepdf.Encryption(user="secret", owner="secret"))
    return written.getvalue()


@pytest.mark.parametrize(
    ("content", "what"),
    [
        (b"", "is not a PDF"),
        (b"PK\x03\x04 a spreadsheet", "is not a PDF"),
        (b"%PDF-1.7\n%%EOF\n", "is cut short or damaged"),
        (a_packet()[:-100], "is cut short or damaged"),
        (a_packet()[: len(a_packet()) // 2], "is cut short or damaged"),
        (a_packet().replace(b"/XRef", b"/XReg"), "is cut short or damaged"),
        (a_packet() + b"startxref\n0\n%%EOF\n", "is cut short or damaged"),
        (drawn_pages(), "cannot be verified"),
        (locked(), "is locked with a password"),
    ],
    ids=["empty", "other", "nothing in it", "end cut", "half", "broken", "ended again", "another PDF", "locked"],
)
def test_what_is_no_whole_packet_is_refused(content, what):
    with pytest.raises(BadInput, match=what):
        verify(content)


def test_a_file_that_is_not_there_is_refused(tmp_path):
    with pytest.raises(NotFound, match="no such file"):
        verify(tmp_path / "packet.pdf")


def test_a_page_stream_that_cannot_be_read_is_a_changed_page():
    def act(pdf):
        pdf.pages[1].Contents = pikepdf.Stream(pdf, b"not compressed at all", Filter=Name.FlateDecode)

    assert "page 2 was changed" in problems(tampered(act))


def test_the_manifest_names_every_picture_with_its_pages():
    listed = attached(a_packet(), "manifest.json")["pictures"]
    assert [(entry["file"], entry["pages"]) for entry in listed] == [(file, [3]) for file in PHOTOS]
