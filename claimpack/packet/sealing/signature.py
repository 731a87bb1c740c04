"""The signature of a packet: found, taken off so that the rest can be compared, and checked."""

from __future__ import annotations

import datetime as dt
import hashlib
from dataclasses import dataclass, replace
from typing import Any, Literal

import pikepdf

from claimpack.installed import install_command
from claimpack.packet.sealing.signing import FIELD, SIGNATURE

_FORM = {"/Fields", "/SigFlags"}
_FIELD_KEYS = {"/Type", "/Subtype", "/FT", "/T", "/F", "/Rect", "/P", "/V"}
# A signature over MD5 or SHA-1 can be moved to another file, so it proves nothing.
_STRONG = {"sha256", "sha384", "sha512"}
# Every error the library was seen to raise for something that is no signature.
_NO_SIGNATURE = (ValueError, TypeError, LookupError, AttributeError, NotImplementedError)
_SIGNATURE_KEYS = {*SIGNATURE, "/ByteRange", "/Contents", "/M", "/Name"}


@dataclass(frozen=True)
class Signature:
    """A packet's signature.

    Args:
        state: valid, altered, or unchecked where this machine lacks the library.
        signer: who the certificate says signed.
        issuer: who vouches for the certificate; whether they can be trusted is not checked.
        self_signed: whether the certificate vouches for itself.
        valid_from: the first day of the certificate.
        valid_until: its last day.
        signed_on: the day of signing, as the signer told it.
        certificate: the certificate's SHA-256.
    """

    state: Literal["valid", "altered", "unchecked"]
    signer: str = ""
    issuer: str = ""
    self_signed: bool = False
    valid_from: dt.date | None = None
    valid_until: dt.date | None = None
    signed_on: dt.date | None = None
    certificate: str = ""

    def said(self) -> tuple[str, ...]:
        """The signature in sentences: whose it is, and how far that can be trusted."""
        if self.state == "unchecked":
            return (f"It is signed, and this machine cannot check the signature: {install_command('pyhanko')}",)
        if not self.signer:
            return ()
        vouched = (
            "The certificate vouches for itself: anybody can make one in this name. Compare its SHA-256."
            if self.self_signed
            else f"{self.issuer} vouches for the certificate; whether they can be trusted is not checked."
        )
        lasts = f"The certificate is valid from {self.valid_from} to {self.valid_until}"
        if self.in_time is False:
            lasts += ", and was not on the day of signing"
        signed = f"Signed by {self.signer}" + (f", by their clock on {self.signed_on}." if self.signed_on else ".")
        return signed, f"{lasts}. Its SHA-256: {self.certificate}", vouched

    @property
    def in_time(self) -> bool | None:
        """Whether the certificate was valid on the day told; None where a day is not known."""
        if self.valid_from is None or self.valid_until is None or self.signed_on is None:
            return None
        return self.valid_from <= self.signed_on <= self.valid_until

    def as_json(self) -> dict[str, Any]:
        """The signature as scripts read it."""
        days = {"valid_from": self.valid_from, "valid_until": self.valid_until, "signed_on": self.signed_on}
        told = {"state": self.state, "signer": self.signer, "issuer": self.issuer, "self_signed": self.self_signed}
        written = {name: day.isoformat() if day else None for name, day in days.items()}
        return {**told, **written, "in_time": self.in_time, "certificate": self.certificate}


@dataclass(frozen=True)
class TakenOff:
    """A signature taken off a packet: what it covers, what it holds, and the objects it was made of."""

    covers: tuple[int, ...]
    holds: bytes
    objects: frozenset[tuple[int, int]]


def take_off(pdf: pikepdf.Pdf) -> TakenOff | None:
    """Take the shop's signature off an opened packet, so that all the rest must be as it was made.

    Nothing is taken off that this program would not have put there: that stays, and is named as what it is.
    """
    form, page = pdf.Root.get("/AcroForm"), pdf.pages[0].obj
    if not isinstance(form, pikepdf.Dictionary):
        return None
    fields = list(form.get("/Fields", ()))
    notes = list(page.get("/Annots", ()))
    # the one field is put last on the first page by our own signing; anything else was put there by others
    if len(fields) != 1 or form.keys() != _FORM or not notes or notes[-1].objgen != fields[0].objgen:
        return None
    field, signature = fields[0], fields[0].get("/V")
    if not (_is_ours(field, page) and isinstance(signature, pikepdf.Dictionary)):
        return None
    if signature.keys() != _SIGNATURE_KEYS or any(signature[key] != value for key, value in SIGNATURE.items()):
        return None
    del pdf.Root["/AcroForm"]
    page.Annots = pikepdf.Array(notes[:-1])
    covers = tuple(int(place) for place in signature["/ByteRange"])
    made_of = frozenset(thing.objgen for thing in (form, field, signature))
    return TakenOff(covers, bytes(signature["/Contents"]), made_of)


def _is_ours(field: Any, page: Any) -> bool:
    said = (field.get("/Type"), field.get("/Subtype"), field.get("/FT"), str(field.get("/T")))
    unseen = all(edge == 0 for edge in field.get("/Rect", [1]))
    ours = field.keys() == _FIELD_KEYS and said == ("/Annot", "/Widget", "/Sig", FIELD)
    return bool(ours and unseen and field["/P"].objgen == page.objgen)


def checked(taken: TakenOff, content: bytes) -> Signature:
    """Whether a signature fits the file it was taken from, and whose it is.

    Source: ISO 32000-1:2008 12.8.1 (what a signature covers), RFC 5652 5.4 to 5.6 (checking it).
    """
    try:
        from asn1crypto import cms
        from pyhanko.sign.general import extract_signer_info
        from pyhanko.sign.validation.generic_cms import extract_certs_for_validation, validate_sig_integrity
    except ImportError:
        # A signature that cannot be checked is neither good nor bad: the answer stays open.
        return Signature("unchecked")
    if not _covers_all(taken, content):
        return Signature("altered")
    _, begins, ends, _ = taken.covers
    try:
        told = cms.ContentInfo.load(taken.holds)
        info = extract_signer_info(told["content"])
        certificate = extract_certs_for_validation(told["content"]).signer_cert
        named = info["digest_algorithm"]["algorithm"].native
        digest = hashlib.new(named, content[:begins] + content[ends:]).digest()
        fits = validate_sig_integrity(info, certificate, "data", digest)
        # Room behind the signature is filled with zeros; anything else there is hidden data.
        whole = not taken.holds[len(told.dump()) :].strip(b"\0")
        described = _described(certificate, _moment(info))
    except _NO_SIGNATURE:
        return Signature("altered")
    return replace(described, state="valid" if all(fits) and whole and named in _STRONG else "altered")


def _covers_all(taken: TakenOff, content: bytes) -> bool:
    """Whether everything but the signature itself is covered."""
    if len(taken.covers) != len(("first", "before", "behind", "rest")):
        return False
    first, begins, ends, rest = taken.covers
    itself = content[begins:ends]
    return first == 0 and ends + rest == len(content) and itself.lower() == b"<" + taken.holds.hex().encode() + b">"


def _moment(info: Any) -> dt.date | None:
    from pyhanko.sign.validation.generic_cms import extract_self_reported_ts

    told = extract_self_reported_ts(info)
    return told.date() if told else None


def _described(certificate: Any, signed_on: dt.date | None) -> Signature:
    lasts = certificate["tbs_certificate"]["validity"].native
    return Signature(
        state="unchecked",
        signer=certificate.subject.human_friendly,
        issuer=certificate.issuer.human_friendly,
        self_signed=certificate.issuer == certificate.subject,
        valid_from=lasts["not_before"].date(),
        valid_until=lasts["not_after"].date(),
        signed_on=signed_on,
        certificate=certificate.sha256.hex(),
    )
