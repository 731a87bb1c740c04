from __future__ import annotations

import io
import re

import pikepdf
import pytest
from packets import a_packet
from tamperings import TAMPERINGS, rebuilt

from claimpack.packet.proving.unaccounted import unaccounted
from claimpack.packet.proving.verify import verify
from claimpack.packet.sealing.fingerprints import Fingerprints

HIDDEN = "an object that nothing in the packet uses was hidden in the file"
GROUP_HOLDS_MORE = "a group of objects was made to hold more than is read from it"
UNTELLABLE = "the file is put together in a way that cannot be accounted for"


def found_in(content: bytes) -> list[str]:
    with pikepdf.open(io.BytesIO(content), attempt_recovery=False) as pdf:
        prints = Fingerprints(pdf)
        for page in pdf.pages:
            prints.page(page)
        return list(unaccounted(content, pdf, prints))


def blank_pages(count: int = 120, **how) -> bytes:
    written = io.BytesIO()
    with pikepdf.new() as pdf:
        for _ in range(count):
            pdf.add_blank_page(page_size=(200, 200))
        pdf.save(written, **how)
    return written.getvalue()


def written_by_hand(*more: bytes, page: bytes = b"", trailer: bytes = b"", behind: bytes = b"") -> bytes:
    """A file of one page; more objects stand before the table of objects, or one right behind its trailer."""
    body, places = b"%PDF-1.7\n", []
    catalog, pages = b"<< /Type /Catalog /Pages 2 0 R >>", b"<< /Type /Pages /Kids [3 0 R] /Count 1 >>"
    drawn = b"<< /Type /Page /Parent 2 0 R /MediaBox [0 0 9 9] %s >>" % page
    for number, content in enumerate((catalog, pages, drawn, *more), 1):
        places.append(len(body))
        body += b"%d 0 obj\n%s\nendobj\n" % (number, content)

    def table(places: list[int]) -> bytes:
        rows = b"".join(b"%010d 00000 n \n" % place for place in places)
        size = len(places) + 1
        return b"xref\n0 %d\n0000000000 65535 f \n%strailer\n<< /Root 1 0 R /Size %d%s >>" % (size, rows, size, trailer)

    told = table([*places, len(body) + len(table([*places, 0]))]) if behind else table(places)
    following = b"%d 0 obj\n%s\nendobj\n" % (len(places) + 1, behind) if behind else b"\n"
    return body + told + following + b"startxref\n%d\n%%%%EOF\n" % len(body)


def readable_groups() -> bytes:
    return blank_pages(compress_streams=False, object_stream_mode=pikepdf.ObjectStreamMode.generate)


def turned_heading(one: int, other: int) -> bytes:
    """A file whose first group of objects has two words of its heading in each other's place."""
    content = readable_groups()
    heading = re.search(rb"/ObjStm .*?stream\n((?:\d+ )+\d+)\n", content, re.DOTALL)[1]
    turned = heading.split(b" ")
    turned[one], turned[other] = turned[other], turned[one]
    return content.replace(heading, b" ".join(turned), 1)


@pytest.mark.parametrize(
    ("name", "named"),
    [
        ("a hidden stream", "an object that nothing in the packet uses was hidden in the file"),
        ("a key in the trailer", "the entry /Approved was added to the end of the file (its trailer)"),
        ("a long identifier", "the file's identifier was changed into something else"),
        ("text between two objects", "bytes that belong to nothing were put between the objects of the file"),
        ("text behind the last object of a group", "a group of objects was made to hold more than is read from it"),
        ("hidden parameters of a packing", "a stream of the file was made to hold more than is read from it"),
        ("words among the parameters of a packing", "a stream of the file was made to hold more than is read from it"),
        ("bytes behind a packed stream", "a stream of the file was made to hold more than is read from it"),
    ],
)
def test_what_nothing_in_the_packet_accounts_for_is_named(name, named):
    assert named in verify(TAMPERINGS[name](a_packet())).problems


def test_encryption_without_a_password_to_open_is_named():
    assert (
        "the file was encrypted after it was made"
        in verify(TAMPERINGS["encrypted with an owner password"](a_packet())).problems
    )


def test_a_stream_that_is_damaged_is_not_told_to_hold_more():
    problems = verify(TAMPERINGS["one bit of a page"](a_packet())).problems
    assert problems
    assert not any("hold more" in problem for problem in problems)


def test_streams_may_begin_behind_line_ends_of_two_signs():
    crossed = rebuilt(lambda body: body.replace(b">>\nstream\n", b">>\nstream\r\n"))
    assert verify(crossed(a_packet())).problems == ()


@pytest.mark.parametrize(
    "content",
    [
        blank_pages(linearize=True),
        blank_pages(object_stream_mode=pikepdf.ObjectStreamMode.generate),
        written_by_hand(b"90", page=b"/Rotate 4 0 R"),
        written_by_hand(page=b"/Rotate 4 0 R", behind=b"90"),
    ],
    ids=["many pages for the web", "several groups", "a number of its own", "an object right behind the trailer"],
)
def test_ways_of_other_programs_to_put_a_file_together_leave_nothing_to_say(content):
    assert found_in(content) == []


def test_a_stream_that_is_no_table_of_hints_is_hidden_though_a_file_for_the_web_names_it():
    content = blank_pages(linearize=True)
    assert content.count(b" /S ") == 1
    assert found_in(content.replace(b" /S ", b" /X ")) == [HIDDEN]


@pytest.mark.parametrize(("length", "named"), [(77, 0), (78, 1)])
def test_an_identifier_longer_than_any_has_room_for_something_else(length, named):
    assert len(found_in(written_by_hand(trailer=b" /ID [<%s><%s>]" % (b"a" * 77, b"a" * length)))) == named


def test_an_object_in_the_place_of_one_with_another_number_is_not_accounted_for():
    content = written_by_hand(b"(approved)").replace(b"4 0 obj", b"6 0 obj")
    assert found_in(content) == [UNTELLABLE]


@pytest.mark.parametrize(("one", "other"), [(10, 12), (11, 13)], ids=["numbers", "places"])
def test_a_group_whose_heading_says_something_else_than_the_table_of_objects_is_named(one, other):
    assert GROUP_HOLDS_MORE in found_in(turned_heading(one, other))


def test_words_between_two_objects_of_a_group_are_named():
    whole, shorter = b" /Resources << >> /Type /Page >>\n", b" /Type /Page >> /Resources << >>\n"
    content = readable_groups()
    assert content.count(whole) == 120
    assert GROUP_HOLDS_MORE in found_in(content.replace(whole, shorter, 1))
