from __future__ import annotations

import pytest
from packets import a_packet
from tamperings import TAMPERINGS, rebuilt

from claimpack.packet.proving.verify import verify


@pytest.mark.parametrize("name", ["a stream in the list of pages", "resources in the list of pages"])
def test_what_lies_among_the_pages_and_is_none_is_named(name):
    found = verify(TAMPERINGS[name](a_packet())).problems
    assert "something was put into the list of pages that is no page" in found


def test_a_page_said_to_be_something_else_is_not_genuine():
    found = verify(
        rebuilt(
            lambda body: body.replace(b"/Type /Page\n", b"/Type /Note\n").replace(b"/Type /Page ", b"/Type /Note ")
        )(a_packet())
    )
    assert found.genuine is False
