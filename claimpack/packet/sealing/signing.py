"""A packet signed with the shop's key: one invisible signature over every byte of it."""

from __future__ import annotations

import asyncio
import datetime as dt
import hashlib
import io
from dataclasses import dataclass
from typing import Any

import pikepdf
from pikepdf import Array, Dictionary, Name, String

from claimpack.errors import BadInput, NotInstalled
from claimpack.installed import install_command
from claimpack.packet.sealing.embedded import saved

FIELD = "Signature"
SIGNATURE = {"/Type": "/Sig", "/Filter": "/Adobe.PPKLite", "/SubFilter": "/adbe.pkcs7.detached"}
"""What a signature says of itself; readers know by it how to check it."""

# Annotation flags print (4) and locked (128): no reader offers to drag the invisible field about.
_PRINTED_AND_LOCKED = 132
# Room for the largest place that can stand in it: the file must not change its length once it is signed.
_WIDE = 9_999_999_999
# Bytes: one signature may come out a little longer than the one it was measured by.
_SPARE = 64


@dataclass(frozen=True)
class ShopKey:
    """The shop's private key with its certificate, unlocked; the certificate is told by its SHA-256."""

    signer: Any
    certificate: str

    @property
    def name(self) -> str:
        """Who the certificate says the shop is."""
        return str(self.signer.signing_cert.subject.human_friendly)


def unlocked(pkcs12: bytes, passphrase: str, file: str) -> ShopKey:
    """The key in a PKCS#12 file.

    Raises:
        NotInstalled: this machine lacks the library for signatures.
        BadInput: the passphrase is wrong, or it is no such file.
    """
    try:
        from pyhanko.sign.signers import SimpleSigner
    except ImportError:
        raise NotInstalled(
            "signing a packet needs a library that this machine lacks",
            "An unsigned packet needs nothing more.",
            f"Install it: {install_command('pyhanko')}",
        ) from None
    try:
        signer = SimpleSigner.load_pkcs12_data(pkcs12, other_certs=[], passphrase=passphrase.encode())
    except (ValueError, AttributeError, TypeError) as error:
        raise BadInput(
            f"{file} cannot be unlocked",
            "The passphrase is not its own, or it is no PKCS#12 file with a key and its certificate.",
            "Try again; the file often ends in .p12 or .pfx.",
        ) from error
    return ShopKey(signer, signer.signing_cert.sha256.hex())


def signed(packet: bytes, key: ShopKey, at: dt.datetime) -> bytes:
    """The packet with a signature of the shop over all of it, dated.

    Source: ISO 32000-1:2008 12.8 (digital signatures), RFC 5652 (the signature itself).
    """
    room = len(_signature(key, b"", at)) + _SPARE
    with pikepdf.open(io.BytesIO(packet)) as pdf:
        _put_in(pdf, Dictionary(**_facts(key, at), Contents=String(bytes(room))))
        content = saved(pdf)
    blank, wide = b"<" + b"00" * room + b">", _range(_WIDE, _WIDE, _WIDE)
    begins = content.index(blank)
    ends = begins + len(blank)
    ranged = _range(begins, ends, len(content) - ends).ljust(len(wide))
    content = content.replace(wide, ranged, 1)
    made = _signature(key, content[:begins] + content[ends:], at).ljust(room, b"\0")
    return content[:begins] + b"<" + made.hex().encode() + b">" + content[ends:]


def _facts(key: ShopKey, at: dt.datetime) -> dict[str, Any]:
    told = {name[1:]: Name(value) for name, value in SIGNATURE.items()}
    covered = Array([0, _WIDE, _WIDE, _WIDE])
    moment = at.astimezone(dt.UTC).strftime("D:%Y%m%d%H%M%SZ")
    return {**told, "ByteRange": covered, "M": String(moment), "Name": String(key.name)}


def _put_in(pdf: pikepdf.Pdf, signature: Dictionary) -> None:
    page = pdf.pages[0].obj
    field = Dictionary(Type=Name.Annot, Subtype=Name.Widget, FT=Name.Sig, T=String(FIELD), F=_PRINTED_AND_LOCKED)
    field.Rect, field.P, field.V = Array([0, 0, 0, 0]), page, pdf.make_indirect(signature)
    placed = pdf.make_indirect(field)
    page.Annots = Array([*page.get("/Annots", ()), placed])
    pdf.Root.AcroForm = Dictionary(Fields=Array([placed]), SigFlags=3)


def _range(*places: int) -> bytes:
    return b"/ByteRange [ 0 %d %d %d ]" % places


def _signature(key: ShopKey, content: bytes, at: dt.datetime) -> bytes:
    from pyhanko.sign.signers.pdf_cms import PdfCMSSignedAttributes

    told = PdfCMSSignedAttributes(signing_time=at)
    digest = hashlib.sha256(content).digest()
    made = asyncio.run(key.signer.async_sign(digest, "sha256", signed_attr_settings=told))
    return bytes(made.dump())
