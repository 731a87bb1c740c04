from __future__ import annotations

import datetime as dt
from ipaddress import ip_address

import pytest
from running import NOW

from claimpack.phone.certificate import certificate_for

x509 = pytest.importorskip("cryptography.x509", reason="this copy makes no certificates")


@pytest.fixture(scope="module")
def made():
    return x509.load_pem_x509_certificate(certificate_for("192.0.2.20", NOW).certificate)


def test_it_holds_for_a_day_and_for_clocks_that_are_a_little_behind(made):
    holds = made.not_valid_before_utc, made.not_valid_after_utc
    assert holds == (NOW - dt.timedelta(minutes=10), NOW + dt.timedelta(days=1))


def test_it_vouches_for_one_address_and_for_no_other_certificate(made):
    """RFC 5280: 4.2.1.9, that it signs none is critical; 4.2.1.6, the address is not where there is a subject."""
    names = made.extensions.get_extension_for_class(x509.SubjectAlternativeName)
    signing = made.extensions.get_extension_for_class(x509.BasicConstraints)
    assert (names.critical, names.value.get_values_for_type(x509.IPAddress)) == (False, [ip_address("192.0.2.20")])
    assert (signing.critical, signing.value.ca) == (True, False)
