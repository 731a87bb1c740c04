"""Keys of shops for tests: PKCS#12 files made by another library than the one that signs."""

from __future__ import annotations

import datetime as dt
from functools import cache

from cryptography import x509
from cryptography.hazmat.primitives import hashes
from cryptography.hazmat.primitives.asymmetric import ec
from cryptography.hazmat.primitives.serialization import BestAvailableEncryption, pkcs12
from cryptography.x509.oid import NameOID

PASSPHRASE = "correct horse"  # noqa: S105 - of keys made for tests
SHOP = "Quarry Road Small Engine"


@cache
def a_pkcs12(name: str = SHOP, until: dt.date = dt.date(2028, 1, 1), issuer: str = "") -> bytes:
    """A key with its certificate, valid from 2026-01-01; it vouches for itself unless an issuer is named."""
    key, other = (ec.generate_private_key(ec.SECP256R1()) for _ in range(2))
    said = x509.Name([x509.NameAttribute(NameOID.COMMON_NAME, name)])
    by = x509.Name([x509.NameAttribute(NameOID.COMMON_NAME, issuer or name)])
    certificate = (
        x509.CertificateBuilder()
        .subject_name(said)
        .issuer_name(by)
        .public_key(key.public_key())
        .serial_number(7)
        .not_valid_before(dt.datetime(2026, 1, 1, tzinfo=dt.UTC))
        .not_valid_after(dt.datetime.combine(until, dt.time(), dt.UTC))
        .sign(other if issuer else key, hashes.SHA256())
    )
    encryption = BestAvailableEncryption(PASSPHRASE.encode())
    return pkcs12.serialize_key_and_certificates(b"shop", key, certificate, None, encryption)
