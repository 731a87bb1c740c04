"""Small packets signed for tests."""

from __future__ import annotations

import dataclasses
import datetime as dt
from functools import cache

from packets import Parts
from shop_keys import PASSPHRASE, a_pkcs12

from claimpack.packet.sealing.signing import ShopKey, signed, unlocked

SIGNED = dt.datetime(2026, 3, 1, 9, 30, tzinfo=dt.UTC)


def a_key(**facts: object) -> ShopKey:
    """A shop's key, unlocked."""
    return unlocked(a_pkcs12(**facts), PASSPHRASE, "shop.p12")


@cache
def made_to_be_signed(key: ShopKey) -> bytes:
    """A packet that names the key, before it is signed."""
    parts = Parts()
    return dataclasses.replace(
        parts, enclosed=dataclasses.replace(parts.enclosed, signed_by=key.certificate)
    ).assembled()


def a_signed_packet(at: dt.datetime = SIGNED, **facts: object) -> bytes:
    """A packet signed with a key of these facts."""
    key = a_key(**facts)
    return signed(made_to_be_signed(key), key, at)
