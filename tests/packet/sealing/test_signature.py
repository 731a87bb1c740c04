from __future__ import annotations

import asyncio
import dataclasses
import datetime as dt
import hashlib
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


@pytest.mark.parametrize(
    ("signed_on", "in_time"),
    [
        (dt.date(2025, 12, 31), False),
        (dt.date(2026, 1, 1), True),
        (dt.date(2028, 1, 1), True),
        (dt.date(2028, 1, 2), False),
    ],
)
def test_a_certificate_is_valid_on_its_first_and_on_its_last_day(signed_on, in_time):
    days = {"valid_from": dt.date(2026, 1, 1), "valid_until": dt.date(2028, 1, 1)}
    assert Signature("valid", **days, signed_on=signed_on).in_time is in_time


def taken_off(packet):
    with pikepdf.open(io.BytesIO(packet)) as pdf:
        return take_off(pdf)


def with_signature(packet, holds):
    """The packet with other bytes in the room of its signature."""
    _, begins, ends, _ = taken_off(packet).covers
    return packet[:begins] + b"<" + holds.hex().encode() + b">" + packet[ends:]


def a_byte_changed(packet):
    return packet.replace(b"%PDF-1.7", b"%PDF-1.6", 1)


def hidden_behind_the_signature(packet):
    return with_signature(packet, taken_off(packet).holds[:-1] + b"x")


def signed_over_sha1(packet):
    from pyhanko.sign.signers.pdf_cms import PdfCMSSignedAttributes

    taken = taken_off(packet)
    _, begins, ends, _ = taken.covers
    digest = hashlib.sha1(packet[:begins] + packet[ends:], usedforsecurity=False).digest()
    told = PdfCMSSignedAttributes(signing_time=SIGNED)
    made = asyncio.run(a_key().signer.async_sign(digest, "sha1", signed_attr_settings=told)).dump()
    return with_signature(packet, made.ljust(len(taken.holds), b"\0"))


@pytest.mark.parametrize("act", [a_byte_changed, hidden_behind_the_signature, signed_over_sha1])
def test_a_signature_of_other_bytes_of_more_bytes_or_by_a_weak_digest_is_an_altered_one(act):
    altered = act(a_signed_packet())
    assert checked(taken_off(altered), altered).state == "altered"


def form(pdf):
    return pdf.Root.AcroForm


def field(pdf):
    return form(pdf).Fields[0]


def put(thing, key, value):
    thing[f"/{key}"] = value


NOT_OURS = {
    "a second field": lambda pdf: form(pdf).Fields.append(pdf.make_indirect(pikepdf.Dictionary(field(pdf)))),
    "more of a form": lambda pdf: put(form(pdf), "DR", pikepdf.Dictionary()),
    "no notes": lambda pdf: pdf.pages[0].obj.__delitem__("/Annots"),
    "a note behind it": lambda pdf: pdf.pages[0].obj.Annots.append(pdf.make_indirect(pikepdf.Dictionary())),
    "a place on the page": lambda pdf: put(field(pdf), "Rect", pikepdf.Array([0, 0, 9, 9])),
    "another name": lambda pdf: put(field(pdf), "T", pikepdf.String("Approval")),
    "another page": lambda pdf: put(field(pdf), "P", pdf.pages[1].obj),
    "a key of the field": lambda pdf: put(field(pdf), "TU", pikepdf.String("Approved")),
    "no signature": lambda pdf: put(field(pdf), "V", pikepdf.String("Approved")),
    "a key of the signature": lambda pdf: put(field(pdf).V, "Reason", pikepdf.String("Approved")),
    "another kind": lambda pdf: put(field(pdf).V, "SubFilter", pikepdf.Name("/adbe.x509.rsa_sha1")),
}


@pytest.mark.parametrize("name", NOT_OURS)
def test_what_the_program_would_not_have_put_there_is_not_taken_off_as_a_signature(name):
    with pikepdf.open(io.BytesIO(a_signed_packet())) as pdf:
        NOT_OURS[name](pdf)
        assert take_off(pdf) is None
        assert "/AcroForm" in pdf.Root


def test_what_is_taken_off_leaves_no_form_and_the_notes_there_were():
    with pikepdf.open(io.BytesIO(a_signed_packet())) as pdf:
        before = len(pdf.pages[0].obj.Annots)
        taken = take_off(pdf)
        assert ("/AcroForm" in pdf.Root, len(pdf.pages[0].obj.Annots)) == (False, before - 1)
        assert len(taken.objects) == 3


@pytest.mark.parametrize(
    "covers",
    [
        lambda a, b, c, d: (a, b, c),
        lambda a, b, c, d: (1, b, c, d),
        lambda a, b, c, d: (a, b, c, d - 1),
        lambda a, b, c, d: (a, b - 1, c, d),
    ],
)
def test_a_signature_that_leaves_part_of_the_file_out_is_an_altered_one(covers):
    packet = a_signed_packet()
    taken = taken_off(packet)
    assert checked(taken, packet).state == "valid"
    assert checked(dataclasses.replace(taken, covers=covers(*taken.covers)), packet).state == "altered"


def test_a_signature_tells_its_days_to_scripts_and_nothing_where_it_knows_none():
    told = verify(a_signed_packet()).signature.as_json()
    assert (told["valid_from"], told["signed_on"], told["in_time"]) == ("2026-01-01", "2026-03-01", True)
    unchecked = Signature("unchecked").as_json()
    assert (unchecked["valid_from"], unchecked["self_signed"]) == (None, False)


@pytest.mark.parametrize(
    ("told", "begins"),
    [
        ({}, ()),
        ({"signer": "A"}, ("Signed by A.",)),
        ({"signer": "A", "signed_on": dt.date(2026, 3, 1)}, ("Signed by A, by their clock on 2026-03-01.",)),
    ],
)
def test_a_signature_is_told_as_far_as_it_says_whose_it_is_and_of_when(told, begins):
    assert Signature("valid", **told).said()[:1] == begins
