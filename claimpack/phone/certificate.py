"""A certificate for one day: what is sent to the page cannot be read on the way, once its fingerprint was compared."""

from __future__ import annotations

import datetime as dt
import hashlib
from ipaddress import ip_address
from typing import NamedTuple

from claimpack.errors import NotInstalled
from claimpack.installed import install_command

_A_DAY = dt.timedelta(days=1)
# A phone's clock may be a little behind.
_BEFORE = dt.timedelta(minutes=10)


class DayCertificate(NamedTuple):
    """A key and its certificate, both as PEM, and the SHA-256 of the certificate as browsers show it."""

    key: bytes
    certificate: bytes
    fingerprint: str


def certificate_for(address: str, now: dt.datetime) -> DayCertificate:
    """A certificate that vouches for itself, for one address and one day.

    Raises:
        NotInstalled: this machine lacks the library for it.

    Source: RFC 5280 4.2.1.6 (the address is a subject alternative name), RFC 6125.
    """
    try:
        from cryptography import x509
        from cryptography.hazmat.primitives import hashes, serialization
        from cryptography.hazmat.primitives.asymmetric import ec
        from cryptography.x509.oid import ExtendedKeyUsageOID, NameOID
    except ImportError:
        raise NotInstalled(
            "--https needs a library that this machine lacks",
            "It makes the certificate of the day.",
            f"Install it: {install_command('cryptography')}; or leave --https out",
        ) from None
    # a curve that every phone's browser knows
    key = ec.generate_private_key(ec.SECP256R1())
    name = x509.Name([x509.NameAttribute(NameOID.COMMON_NAME, "claimpack, for one day")])
    made = (
        x509.CertificateBuilder()
        .subject_name(name)
        .issuer_name(name)
        .public_key(key.public_key())
        .serial_number(x509.random_serial_number())
        .not_valid_before(now - _BEFORE)
        # a key that is found tomorrow opens nothing
        .not_valid_after(now + _A_DAY)
        # browsers go by this alone and not by the name
        .add_extension(x509.SubjectAlternativeName([x509.IPAddress(ip_address(address))]), critical=False)
        .add_extension(x509.BasicConstraints(ca=False, path_length=None), critical=True)
        .add_extension(x509.ExtendedKeyUsage([ExtendedKeyUsageOID.SERVER_AUTH]), critical=False)
        .sign(key, hashes.SHA256())
    )
    told = hashlib.sha256(made.public_bytes(serialization.Encoding.DER)).hexdigest().upper()
    pem = key.private_bytes(serialization.Encoding.PEM, serialization.PrivateFormat.PKCS8, serialization.NoEncryption())
    fingerprint = ":".join(told[at : at + 2] for at in range(0, len(told), 2))
    return DayCertificate(pem, made.public_bytes(serialization.Encoding.PEM), fingerprint)
