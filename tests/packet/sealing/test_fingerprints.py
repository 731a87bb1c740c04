from __future__ import annotations

import io
import random
import zlib

import pikepdf
import pytest
from packets import drawn_pages, image, jpeg, saved
from pikepdf import Array, Dictionary, Name

from claimpack.errors import BadInput
from claimpack.packet.sealing.fingerprints import Fingerprints, PagePrint, decoded_or_stored, is_jpeg


def prints_of(content: bytes) -> list[PagePrint]:
    with pikepdf.open(io.BytesIO(content), inherit_page_attributes=False) as pdf:
        prints = Fingerprints(pdf)
        return [prints.page(page) for page in pdf.pages]


def changed(act) -> list[PagePrint]:
    with pikepdf.open(io.BytesIO(drawn_pages())) as pdf:
        act(pdf)
        return prints_of(saved(pdf))


def test_object_numbers_do_not_count():
    def renumber(pdf):
        for _ in range(20):
            pdf.make_indirect(Dictionary(Unused=True))
        pdf.pages[0].obj.Resources = pdf.make_indirect(pdf.pages[0].obj.Resources)

    assert changed(renumber)[0].drawing != ""
    assert changed(renumber)[1:] == prints_of(drawn_pages())[1:]


def test_what_a_page_takes_from_above_counts_as_its_own():
    def lift(pdf):
        pdf.Root.Pages.MediaBox = pdf.pages[0].obj.MediaBox
        del pdf.pages[0].obj.MediaBox

    assert changed(lift)[0] == prints_of(drawn_pages())[0]


def test_how_a_number_is_written_does_not_count():
    def rewrite(pdf):
        pdf.pages[0].obj.MediaBox = pikepdf.Object.parse(b"[0 0 612.0 792.00]")

    def plain(pdf):
        pdf.pages[0].obj.MediaBox = pikepdf.Object.parse(b"[0 0 612.00 792.0]")

    assert changed(rewrite) == changed(plain)


def test_one_more_digit_in_a_box_counts():
    def move(pdf):
        pdf.pages[0].obj.MediaBox = Array([0, 0, 612, 791])

    assert changed(move)[0].everything != prints_of(drawn_pages())[0].everything


def test_content_in_several_streams_counts_like_one():
    def split(pdf):
        pdf.pages[0].obj.Contents = Array([pdf.make_stream(b"q"), pdf.make_stream(b"Q")])

    def join(pdf):
        pdf.pages[0].obj.Contents = pdf.make_stream(b"q\nQ")

    assert changed(split) == changed(join)


def test_a_page_without_content_has_a_fingerprint():
    def empty(pdf):
        del pdf.pages[0].obj.Contents

    assert len(changed(empty)[0].everything) == 64


def test_a_page_without_annotations_has_a_fingerprint():
    def bare(pdf):
        del pdf.pages[0].obj.Annots

    assert (changed(bare)[0].annotation_count, prints_of(drawn_pages())[0].annotation_count) == (0, 1)


def test_a_list_of_annotations_that_is_an_object_of_its_own_is_accounted_for():
    with pikepdf.open(io.BytesIO(drawn_pages())) as pdf:
        pdf.pages[0].obj.Annots = pdf.make_indirect(pdf.pages[0].obj.Annots)
        prints = Fingerprints(pdf)
        prints.page(pdf.pages[0])
        assert pdf.pages[0].obj.Annots.objgen in prints.met


def with_picture(place, colour: str):
    """The first page with a picture of that colour put somewhere."""
    return changed(lambda pdf: place(pdf, image(pdf, jpeg(colour))))[0]


def in_an_annotation(pdf, picture):
    pdf.pages[0].obj.Annots[0].AP = Dictionary(N=picture)


def beside_the_drawing(pdf, picture):
    pdf.pages[0].obj.Contents.Hidden = picture


@pytest.mark.parametrize("place", [in_an_annotation, beside_the_drawing])
def test_a_picture_counts_wherever_it_is_put(place):
    assert with_picture(place, "navy") == with_picture(place, "navy")
    assert with_picture(place, "navy") != with_picture(place, "white")


def test_a_picture_counts_in_the_fingerprint_of_what_refers_to_it():
    with pikepdf.new() as pdf:
        prints = Fingerprints(pdf)
        navy, white = (prints.of(Dictionary(Logo=image(pdf, jpeg(colour)))) for colour in ("navy", "white"))
        assert navy != white


def test_things_that_refer_to_each_other_come_to_an_end():
    def circle(pdf):
        one = pdf.make_indirect(Dictionary(Name="one"))
        one.Other = pdf.make_indirect(Dictionary(Back=one))
        pdf.pages[0].obj.PieceInfo = one

    assert changed(circle)[0] != prints_of(drawn_pages())[0]


def test_things_nested_deep_come_to_an_end():
    def nest(pdf):
        inner = pdf.make_indirect(Dictionary())
        for _ in range(3000):
            inner = pdf.make_indirect(Dictionary(In=inner))
        pdf.pages[0].obj.PieceInfo = inner

    assert len(changed(nest)[0].everything) == 64


def test_the_drawing_is_the_same_whatever_the_pictures_are():
    before, after = (prints_of(drawn_pages({"a": jpeg("navy"), "b": jpeg(colour)}))[2] for colour in ("white", "black"))
    assert before.drawing == after.drawing
    assert before.everything != after.everything


def test_pictures_inside_a_form_are_found():
    with pikepdf.new() as pdf:
        form = pdf.make_stream(b"/Im Do", Type=Name.XObject, Subtype=Name.Form)
        form.Resources = Dictionary(XObject=Dictionary(Im=image(pdf, jpeg("navy"))))
        assert len(Fingerprints(pdf).jpegs_of(form)) == 1


def test_a_jpeg_is_one_by_its_filter():
    with pikepdf.new() as pdf:
        assert is_jpeg(image(pdf, jpeg("navy")))
        assert not is_jpeg(pdf.make_stream(b"", Subtype=Name.Image))


def test_a_stream_that_swells_is_refused():
    with pikepdf.new() as pdf:
        stream = pikepdf.Stream(pdf, zlib.compress(bytes(257 << 20), 1), Filter=Name.FlateDecode)
        with pytest.raises(BadInput, match="swells"):
            decoded_or_stored(stream)


def test_a_stream_packed_twice_counts_as_it_is_stored():
    with pikepdf.new() as pdf:
        packed = zlib.compress(zlib.compress(b"text"))
        stream = pikepdf.Stream(pdf, packed, Filter=Array([Name.FlateDecode, Name.FlateDecode]))
        assert decoded_or_stored(stream) == (packed, False)


def test_a_packed_stream_is_unpacked():
    with pikepdf.new() as pdf:
        stream = pikepdf.Stream(pdf, zlib.compress(b"text"), Filter=Name.FlateDecode)
        assert decoded_or_stored(stream) == (b"text", True)


def test_a_large_stream_that_swells_little_is_unpacked():
    held = random.Random(7).randbytes(300_000)
    with pikepdf.new() as pdf:
        stream = pikepdf.Stream(pdf, zlib.compress(held), Filter=Name.FlateDecode)
        assert decoded_or_stored(stream) == (held, True)


@pytest.mark.parametrize("stored", [b"text", b"text" * 100_000], ids=["short", "long"])
def test_a_damaged_stream_counts_as_it_is_stored(stored):
    with pikepdf.new() as pdf:
        assert decoded_or_stored(pikepdf.Stream(pdf, stored, Filter=Name.FlateDecode)) == (stored, False)
