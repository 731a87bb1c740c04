"""Fields that several records of a claim have, and what every record keeps to."""

from __future__ import annotations

import re
from decimal import Decimal
from pathlib import PurePosixPath
from typing import Annotated, Literal

from claimpack.core.values.marks import AfterValidator, Field
from claimpack.core.values.money import MINOR_UNITS, NotNegative
from claimpack.core.values.words import Named, did_you_mean, folded

Payer = Literal["maker", "owner", "shop"]


Defect = Literal["material", "workmanship", "misuse", "maintenance", "wear", "accident", "unknown"]


ExtraKind = Literal["freight", "sublet", "travel", "disposal", "other"]


ProofKind = Literal["receipt", "registration", "dealer-record", "none"]


USES = ("household", "professional", "rental")
"""The uses that every plan knows."""


_BEYOND_METERS = Decimal(100_000)


_NUMBER = re.compile(r"[A-Za-z0-9][A-Za-z0-9-]{0,23}", re.ASCII)


def _claim_number(text: str) -> str:
    if not _NUMBER.fullmatch(text):
        raise ValueError(f"{text!r} is no claim number: letters, digits and '-', at most 24, not starting with '-'")
    return text


def inside_folder(text: str) -> str:
    """A path that stays inside the claim folder, without `./` and doubled slashes: one file has one name.

    Raises:
        ValueError: it leaves it, or is not written with forward slashes.
    """
    if not names_a_file_inside(text):
        raise ValueError(f"{text!r} leaves the claim folder; give a path inside it, with forward slashes")
    return str(PurePosixPath(text))


def names_a_file_inside(text: str) -> bool:
    """Whether a path stays inside the claim folder, and is written with forward slashes."""
    # a drive letter and a backslash lead out of the folder on another machine than this one
    path = PurePosixPath(text)
    return not ("\\" in text or path.is_absolute() or ".." in path.parts or re.match("[A-Za-z]:", text))


def known_currency(code: str) -> str:
    """A currency code of ISO 4217.

    Raises:
        ValueError: it is none.
    """
    if code not in MINOR_UNITS:
        raise ValueError(f"{code!r} is not a currency code of ISO 4217. {did_you_mean(code, MINOR_UNITS)}".strip())
    return code


def _reading(hours: Decimal) -> Decimal:
    if hours < _BEYOND_METERS:
        return hours
    like_a_date = re.fullmatch(r"(?:19|20)?\d\d(?:0[1-9]|1[0-2])(?:0[1-9]|[12]\d|3[01])", f"{hours:f}")
    hint = "it looks like a date" if like_a_date else "that is more than ten years without a stop"
    raise ValueError(f"{hours:f} is no hour-meter reading: {hint}")


def _named_use(word: str) -> str:
    if folded(word) == "unknown":
        raise ValueError(f"{word!r} is no use: leave the line out while nobody knows how it is used")
    return _plain_word(word)


def _plain_word(word: str) -> str:
    if not re.fullmatch(r"[^\W_]+(?:[ '/-]+[^\W_]+)*", word):
        raise ValueError(f"{word!r} is no plain word: letters, digits, and blanks, '-', '/' between them")
    return word


ClaimNumber = Annotated[Named, AfterValidator(_claim_number)]
"""The shop's number of a claim."""


FilePath = Annotated[Named, AfterValidator(inside_folder)]
"""A path inside the claim folder, parts parted by forward slashes."""


Currency = Annotated[str, AfterValidator(known_currency)]
"""A currency code of ISO 4217."""


Use = Annotated[Named, AfterValidator(_named_use)]
"""How a unit is used, in a word that plans name."""


MeterKind = Annotated[Named, AfterValidator(_plain_word)]
"""What a meter counts, as in `cycles`, `miles` or `hours`."""


ModelYear = Annotated[int, Field(ge=1900, le=2100)]
"""The maker's model year of a unit."""


MeterHours = Annotated[NotNegative, AfterValidator(_reading)]
"""The reading of an hour meter."""


FailureNumber = Annotated[int, Field(ge=1)]
"""Which failure of the claim a line is for, counted from 1."""


Fraction = Annotated[NotNegative, Field(le=1)]
"""A fraction of a picture's width or height, from its upper left."""


def _template_id(text: str) -> str:
    if not re.fullmatch(r"[a-z0-9][a-z0-9-]{0,59}", text):
        raise ValueError(f"{text!r} is no id: small letters, digits and '-', at most 60")
    return text


TemplateId = Annotated[Named, AfterValidator(_template_id)]
"""The id of a template file."""


CaseKind = Literal["repair", "stock", "part", "campaign", "goodwill", "declined"]
"""What kind of claim it is: a repair for an owner, a dealer's unsold unit, a part sold, a maker's campaign, a favour,
or a repair that the owner declined."""
