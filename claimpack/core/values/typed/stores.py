"""The address of a store of objects, as shop.toml names one: `s3://bucket/prefix`, and no secret in it."""

from __future__ import annotations

import re
from typing import Annotated, NamedTuple

from claimpack.core.values.marks import AfterValidator
from claimpack.core.values.words import Line

SCHEME = "s3://"

_BUCKET = re.compile(r"[a-z0-9][a-z0-9.-]{1,61}[a-z0-9]", re.ASCII)
_PREFIX = re.compile(r"[A-Za-z0-9!_.*'()-]+(/[A-Za-z0-9!_.*'()-]+)*", re.ASCII)
_DOTS = {".", ".."}


class StoreAddress(NamedTuple):
    """A bucket, and what the names of all objects in it begin with; the prefix may be empty."""

    bucket: str
    prefix: str

    def __str__(self) -> str:
        return f"{SCHEME}{self.bucket}{f'/{self.prefix}' if self.prefix else ''}"


def is_store(place: str) -> bool:
    """Whether a place is an address rather than a folder."""
    return "://" in place


def store_address(place: str) -> StoreAddress:
    """The address that a text is.

    Raises:
        ValueError: it is none, or holds a name or a password; what it says never quotes the address.

    Source: Amazon S3 User Guide, "General purpose bucket naming rules", and the safe characters of "Naming Amazon S3
    objects".
    """
    if not place.startswith(SCHEME):
        raise ValueError("is no address of a store; write a folder, or an address as in s3://bucket/prefix")
    bucket, _, prefix = place.removeprefix(SCHEME).partition("/")
    # The file is read by everybody in the shop, and copied into every backup.
    if "@" in place or ":" in bucket or "?" in place:
        raise ValueError(
            "holds a name, a password or an option, and is to be the address alone, as in s3://bucket/prefix; "
            "keys belong into AWS_ACCESS_KEY_ID and AWS_SECRET_ACCESS_KEY"
        )
    if not _BUCKET.fullmatch(bucket) or ".." in bucket:
        raise ValueError("names no bucket: 3 to 63 small letters, digits, dots and hyphens, as in s3://bucket/prefix")
    prefix = prefix.removesuffix("/")
    if prefix and (not _PREFIX.fullmatch(prefix) or _DOTS & {*prefix.split("/")}):
        raise ValueError("has a prefix of other marks than letters, digits, /, -, _ and dots, as in s3://bucket/prefix")
    return StoreAddress(bucket, prefix)


def _vault_place(place: str) -> str:
    return str(store_address(place)) if is_store(place) else place


VaultPlace = Annotated[Line, AfterValidator(_vault_place)]
"""Where a vault is: a folder, or the address of a store."""
