from __future__ import annotations

import pytest
from packets import a_packet
from tamperings import TAMPERINGS, rebuilt

from claimpack.packet.proving.verify import verify


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
