"""What is printed, checked by another program: for readers that say a page aloud."""

from __future__ import annotations

import pdfua
import pytest
from builders import a_claim
from drawn_packets import PHOTO, a_paper, a_shot, draw
from packets import Parts, receipt

NOT_CLAIMED = "UA-28-004"
"""No file says that it follows PDF/UA: whether words tell what a picture shows is for people to judge."""


@pytest.fixture(scope="module")
def packet() -> bytes:
    claim = a_claim(photos=[PHOTO], papers=["papers/receipt.pdf"], owner__email="sam@example.com")
    drawn = draw(claim, photos=[a_shot()], papers=[a_paper()])
    return Parts(drawn=drawn, papers={"papers/receipt.pdf": receipt()}).assembled()


@pytest.mark.source("ISO 14289-1:2014, as the library pdfua checks it")
def test_a_packet_has_all_that_readers_aloud_need(packet, tmp_path):
    file = tmp_path / "packet.pdf"
    file.write_bytes(packet)
    assert {finding.rule_id for finding in pdfua.validate(str(file)).findings} == {NOT_CLAIMED}
