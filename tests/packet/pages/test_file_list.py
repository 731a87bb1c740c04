from __future__ import annotations

import pytest
from drawn_packets import a_layout, draw, page_texts, text_of
from inked import words_on
from printed import overprinted
from pypdfium2 import PdfDocument

from claimpack.packet.drawing.evidence import PacketFile

ONLY = {"sections": ["files", "declaration"]}


def test_every_file_is_told_with_its_size_and_the_beginning_of_its_hash():
    files = [PacketFile("photos/plate.jpg", "0123456789abcdef" * 4, 5120)]
    assert "photos/plate.jpg 5,120 0123456789abcdef Declaration" in text_of(draw(layout=a_layout(**ONLY), files=files))


def test_a_long_list_repeats_its_titles_on_every_page():
    files = [PacketFile(f"photos/{n}.jpg", "ab" * 32, n) for n in range(120)]
    drawn = draw(layout=a_layout(sections=["files"]), files=files)
    assert drawn.page_count > 1
    assert all("File Bytes SHA-256 begins" in page for page in page_texts(drawn))


def test_many_files_with_short_names_stand_two_in_a_row():
    files = [PacketFile(f"photos/{n}.jpg", f"{n}" * 64, n) for n in range(1, 6)]
    said = text_of(draw(layout=a_layout(**ONLY), files=files))
    assert f"photos/1.jpg 1 {'1' * 16} photos/2.jpg 2 {'2' * 16} photos/3.jpg" in said
    assert f"photos/5.jpg 5 {'5' * 16} Declaration" in said


@pytest.mark.parametrize(("count", "columns"), [(4, 1), (5, 2)])
def test_a_handful_of_files_stand_one_in_a_row(count, columns):
    files = [PacketFile(f"{n}.jpg", "ab" * 32, n) for n in range(count)]
    assert listed(*files).count("File Bytes SHA-256 begins") == columns


def test_a_long_name_has_the_row_to_itself():
    names = [f"photos/{n} with a name as long as cameras and careful people make them.jpg" for n in range(1, 6)]
    said = text_of(draw(layout=a_layout(**ONLY), files=[PacketFile(name, "ab" * 32, 1) for name in names]))
    assert said.count("File Bytes SHA-256 begins") == 1


def test_a_packet_told_of_no_files_lists_none():
    assert "SHA-256" not in text_of(draw(layout=a_layout(**ONLY)))


def listed(*files):
    return text_of(draw(layout=a_layout(**ONLY), files=files))


def test_files_that_are_not_attached_are_said_not_to_be():
    assert "They are not attached themselves" in listed(PacketFile("a.jpg", "ab" * 32, 1))


def test_files_that_are_attached_carry_no_mark():
    said = listed(PacketFile("a.jpg", "ab" * 32, 1, attached=True, as_it_is=True))
    assert ("Files without a mark are attached" in said, "a.jpg 1" in said) == (True, True)


def test_a_copy_and_a_file_left_out_carry_marks_that_are_explained():
    whole, copy = (PacketFile(f"{at}.jpg", "ab" * 32, 1, attached=True, as_it_is=at == 1) for at in (1, 2))
    said = listed(whole, copy, PacketFile("3.heic", "ab" * 32, 1))
    assert ("2.jpg * 1" in said, "3.heic † 1" in said, "† not attached" in said) == (True, True, True)


@pytest.mark.parametrize("count", [3, 6])
def test_sizes_end_under_each_other_and_under_their_title(count):
    files = [PacketFile(f"{n}.jpg", "ab" * 32, 9 * 10**n) for n in range(count)]
    page = PdfDocument(draw(layout=a_layout(**ONLY), files=files).pdf)[0]
    sizes = [one for one in words_on(page) if one.words.replace(",", "").isdigit() or one.words == "Bytes"]
    columns = 1 if count < 5 else 2
    ends = [sorted({round(one.right) for one in sizes if (one.right < 300) == is_left}) for is_left in (True, False)]
    assert [len(end) for end in ends if end] == [pytest.approx(1, abs=1)] * columns
    assert all(end[-1] - end[0] <= 1 for end in ends if end)


@pytest.mark.parametrize("letters", [8, 10, 12, 14, 15, 16, 17])
def test_names_that_stand_two_in_a_row_have_a_row_each_and_reach_no_other_column(letters):
    drawn = draw(layout=a_layout(**ONLY), files=[PacketFile("M" * letters, "ab" * 32, 10**9 + n) for n in range(6)])
    assert overprinted(drawn.pdf) == []
    assert text_of(drawn).count("M" * letters) == 6
