from __future__ import annotations

import pytest

from claimpack.packet.sealing.pdf_tokens import NotWhole, entries_of, is_odd_comment, references, value_end, words


def test_strings_are_one_word_whatever_is_in_them():
    assert [word for word, _ in words(rb"<< /A (x \) (y) endobj) /B <0f> >>")] == [
        b"<<",
        b"/A",
        rb"(x \) (y) endobj)",
        b"/B",
        b"<0f>",
        b">>",
    ]


@pytest.mark.parametrize("cut", [b"<< /A 1", b"(never closed", b"[ 1 2", b"<12"])
def test_a_value_that_does_not_end_is_not_whole(cut):
    with pytest.raises(NotWhole):
        value_end(cut, 0)


def test_a_reference_inside_a_string_is_none():
    assert list(references(b"<< /A 5 0 R /B (6 0 R) /C [7 0 R 8 0 R] >>")) == [(5, 0), (7, 0), (8, 0)]


def test_entries_are_given_as_they_are_written():
    assert entries_of(b"<< /A 5 0 R /B << /C (x) >> /D [1 2]/E/F >>") == {
        "/A": b"5 0 R",
        "/B": b"<< /C (x) >>",
        "/D": b"[1 2]",
        "/E": b"/F",
    }


def test_a_key_named_twice_is_not_whole():
    with pytest.raises(NotWhole):
        entries_of(b"<< /A 1 /A 2 >>")


@pytest.mark.parametrize(
    ("word", "is_odd"), [(b"% approved", True), (b"%QDF-1.0", False), (b"%% Page 3", False), (b"approved", False)]
)
def test_a_comment_is_odd_unless_programs_write_it_for_people_who_read_the_file(word, is_odd):
    assert is_odd_comment(word) == is_odd
