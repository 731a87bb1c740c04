from __future__ import annotations

import io

import pikepdf
import pytest
from builders import TODAY
from packets import a_packet

from claimpack.packet.sealing.attachments import Attachment, attach

NAMES = ["assessment.json", "claim.json", "manifest.json", "plan.json"]


@pytest.mark.parametrize("name", NAMES)
def test_each_file_tells_its_size_and_checksum(name):
    with pikepdf.open(io.BytesIO(a_packet())) as pdf:
        stored = pdf.attachments[name].get_file()
        assert stored.size == len(stored.read_bytes())
        assert stored.mod_date.date() == TODAY


def test_a_file_of_another_kind_keeps_its_kind():
    with pikepdf.new() as pdf:
        attach(pdf, [Attachment("terms.txt", b"x", "Alternative", "Terms", "text/plain")], TODAY)
        spec = pdf.attachments["terms.txt"]
        assert (spec.get_file().mime_type, str(spec.relationship)) == ("text/plain", "/Alternative")
