from __future__ import annotations

import pytest
from packets import a_packet
from tamperings import TAMPERINGS, rebuilt

from claimpack.errors import BadInput
from claimpack.packet.proving.verify import verify


@pytest.mark.parametrize("name", TAMPERINGS)
def test_a_packet_tampered_with_is_never_called_genuine(name):
    try:
        found = verify(TAMPERINGS[name](a_packet()))
    except BadInput:
        return
    assert not found.genuine


def test_a_packet_written_anew_byte_by_byte_without_tampering_is_genuine():
    assert verify(rebuilt(lambda body: body)(a_packet())).problems == ()
