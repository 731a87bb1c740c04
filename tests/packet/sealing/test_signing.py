from __future__ import annotations

import io
import sys

import pytest
from packets import Parts, a_packet
from shop_keys import PASSPHRASE, a_pkcs12
from signed_packets import a_key, a_signed_packet

from claimpack.errors import BadInput, NotInstalled
from claimpack.packet.sealing.signing import unlocked


def test_another_library_finds_one_signature_over_the_whole_file():
    from pyhanko.pdf_utils.reader import PdfFileReader
    from pyhanko.sign.validation.status import SignatureCoverageLevel

    (signature,) = PdfFileReader(io.BytesIO(a_signed_packet())).embedded_signatures
    signature.compute_integrity_info(skip_diff=True)
    assert signature.coverage is SignatureCoverageLevel.ENTIRE_FILE


def test_an_unsigned_packet_is_the_same_bytes_every_time():
    assert Parts().assembled() == a_packet()


def test_the_key_tells_whose_it_is():
    assert "Quarry Road Small Engine" in a_key().name


@pytest.mark.parametrize(("content", "passphrase"), [(a_pkcs12(), "wrong"), (b"no key", PASSPHRASE), (b"", "")])
def test_a_key_that_cannot_be_unlocked_is_refused(content, passphrase):
    with pytest.raises(BadInput, match=r"shop\.p12 cannot be unlocked"):
        unlocked(content, passphrase, "shop.p12")


def test_without_the_library_it_is_said_what_to_install(monkeypatch):
    monkeypatch.setitem(sys.modules, "pyhanko.sign.signers", None)
    with pytest.raises(NotInstalled) as refused:
        unlocked(a_pkcs12(), PASSPHRASE, "shop.p12")
    assert "pyhanko" in refused.value.do
