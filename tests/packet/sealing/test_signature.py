from __future__ import annotations

import dataclasses
import datetime as dt
import io
import sys

import pikepdf
import pypdf
import pytest
from packets import a_packet
from signed_packets import SIGNED, a_key, a_signed_packet, made_to_be_signed
from tamperings import TAMPERINGS

from claimpack.errors import BadInput
from claimpack.packet.proving.verify import verify
from claimpack.packet.sealing.signature import Signature, checked, take_off
from claimpack.packet.sealing.signing import signed


def test_a_signed_packet_is_genuine_and_says_who_signed_it():
    found = verify(a_signed_packet())
    assert (found.problems, found.genuine) == ((), True)
    assert (found.signature.state, found.signature.signer) == ("valid", "Common Name: Quarry Road Small Engine")


def test_the_days_of_the_certificate_and_of_signing_are_told():
    told = verify(a_signed_packet()).signature
    days = (told.valid_from, told.valid_until, told.signed_on)
    assert (days, told.in_time) == ((dt.date(2026, 1, 1), dt.date(2028, 1, 1), dt.date(2026, 3, 1)), True)


def test_a_certificate_that_vouches_for_itself_is_said_to():
    own, other = (verify(a_signed_packet(issuer=by)).signature for by in ("", "Ashby Notary"))
    assert (own.self_signed, other.self_signed, other.issuer) == (True, False, "Common Name: Ashby Notary")
    assert any("vouches for itself" in sentence for sentence in own.said())


def test_a_certificate_that_had_run_out_on_the_day_of_signing_is_said_to():
    told = verify(a_signed_packet(until=dt.date(2026, 2, 1))).signature
    assert (told.state, told.in_time, any("was not on the day" in line for line in told.said())) == (
        "valid",
        False,
        True,
    )


def test_a_packet_without_a_signature_has_none():
    assert verify(a_packet()).signature is None


def test_a_signature_taken_away_is_named():
    assert verify(made_to_be_signed(a_key())).problems == ("the signature was removed",)


@pytest.mark.parametrize("made", [a_packet, lambda: made_to_be_signed(a_key())], ids=["for nobody", "for the shop"])
def test_somebody_elses_signature_is_named(made):
    forged = signed(made(), a_key(name="Somebody Else"), SIGNED)
    assert verify(forged).problems == ("it is signed with another key than the one it was made to be signed with",)


def test_a_signed_packet_saved_anew_no_longer_has_its_signature():
    written = io.BytesIO()
    with pikepdf.open(io.BytesIO(a_signed_packet())) as pdf:
        pdf.save(written)
    found = verify(written.getvalue())
    assert (found.genuine, found.signature.state) == (False, "altered")


def test_a_byte_changed_inside_the_signature_is_an_altered_one():
    content = bytearray(a_signed_packet())
    place = content.index(b"/Contents <") + 600
    content[place] = ord("1") if content[place] != ord("1") else ord("2")
    assert verify(bytes(content)).signature.state == "altered"


def test_what_is_added_behind_a_signed_packet_is_named():
    writer = pypdf.PdfWriter(io.BytesIO(a_signed_packet()), incremental=True)
    writer.add_metadata({"/Note": "x"})
    written = io.BytesIO()
    writer.write(written)
    assert verify(written.getvalue()).genuine is False


def test_a_signature_that_shows_something_is_a_form_that_was_added():
    written = io.BytesIO()
    with pikepdf.open(io.BytesIO(a_signed_packet())) as pdf:
        pdf.pages[0].obj.Annots[-1].AP = pikepdf.Dictionary(N=pdf.make_stream(b"0 0 9 9 re f"))
        pdf.save(written)
    assert "a form was added" in verify(written.getvalue()).problems


def test_without_the_library_a_signature_is_unchecked(monkeypatch):
    packet = a_signed_packet()
    monkeypatch.setitem(sys.modules, "pyhanko.sign.general", None)
    with pikepdf.open(io.BytesIO(packet)) as document:
        assert checked(take_off(document), packet).state == "unchecked"


def test_a_packet_whose_signature_cannot_be_checked_is_undecided():
    assert dataclasses.replace(verify(a_signed_packet()), signature=Signature("unchecked")).genuine is None


def test_without_the_library_what_was_altered_is_still_named(monkeypatch):
    packet = a_signed_packet()
    monkeypatch.setitem(sys.modules, "pyhanko.sign.general", None)
    assert verify(TAMPERINGS["text on a page"](packet)).genuine is False


@pytest.mark.parametrize(
    "name",
    [
        "a key of a page",
        "the title",
        "a hidden stream",
        "an attachment's description",
        "one bit of a page",
        "a page added",
    ],
)
def test_a_signed_packet_tampered_with_is_never_called_genuine(name):
    try:
        found = verify(TAMPERINGS[name](a_signed_packet()))
    except BadInput:
        return
    assert found.genuine is False


@pytest.mark.parametrize("unknown", ["valid_from", "valid_until", "signed_on"])
def test_where_a_day_is_not_known_nothing_is_said_of_the_certificates_time(unknown):
    days = {"valid_from": dt.date(2026, 1, 1), "valid_until": dt.date(2028, 1, 1), "signed_on": dt.date(2026, 3, 1)}
    assert Signature("valid", **{**days, unknown: None}).in_time is None
