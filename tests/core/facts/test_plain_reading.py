"""What is written in just the way it is declared is read without pydantic; all else is left to it."""

from __future__ import annotations

import datetime as dt
from decimal import Decimal
from typing import Literal

import pytest

from claimpack.core.facts.fields import CaseKind, FailureNumber, Fraction, Payer
from claimpack.core.facts.plain_reading import LONGEST, reader, within
from claimpack.core.values.days import Day, Moment
from claimpack.core.values.money import NotNegative, Positive
from claimpack.core.values.words import Line, Named

NINE = dt.datetime(2026, 2, 24, 9, 10, tzinfo=dt.UTC)


def shortly(value):
    """A text by how it begins; what is declared has no name that every process would give it."""
    return ascii(value)[:24] if isinstance(value, str) else None


@pytest.mark.parametrize(
    ("declared", "written", "read"),
    [
        (NotNegative, "0", Decimal(0)),
        (Positive, "0.000001", Decimal("0.000001")),
        (Fraction, 1, Decimal(1)),
        (FailureNumber, 1, 1),
        (Named, "x", "x"),
        (Line, "x" * 300, "x" * 300),
        (str, "x" * LONGEST, "x" * LONGEST),
        (str, "Qu\u00e9bec", "Qu\u00e9bec"),
        (Decimal, Decimal("1.50"), Decimal("1.50")),
        (Day, "2026-02-24", dt.date(2026, 2, 24)),
        (Day, dt.date(2026, 2, 24), dt.date(2026, 2, 24)),
        (Moment, "2026-02-24T09:10:00", dt.datetime(2026, 2, 24, 9, 10)),  # noqa: DTZ001
        (Moment, NINE, NINE),
        (bool, True, True),
        (Literal["stock", "maker"], "maker", "maker"),
        (Literal["stock", 1], 1, 1),
        (Payer | CaseKind, "owner", "owner"),
        (Line | None, "x", "x"),
        (Line | None, None, None),
        (tuple[Line, ...], ["a", "b"], ("a", "b")),
        (tuple[Line, ...], (), ()),
        (tuple[int, Line], [1, "a"], (1, "a")),
        (dict[str, int], {"a": 1}, {"a": 1}),
    ],
    ids=shortly,
)
def test_what_is_written_as_it_is_declared_is_read_plainly(declared, written, read):
    found = reader(declared)(written)
    assert (type(found), found) == (type(read), read)


@pytest.mark.parametrize(
    ("declared", "written"),
    [
        (NotNegative, "-0.01"),
        (Positive, "0"),
        (Fraction, "1.01"),
        (FailureNumber, 0),
        (FailureNumber, True),
        (Named, " "),
        (Line, "x" * 301),
        (str, "x" * (LONGEST + 1)),
        (str, "\ud800"),
        (str, 1),
        (Decimal, Decimal("NaN")),
        (Decimal, 1),
        (Day, "20260224"),
        (Day, NINE),
        (Moment, "2026-02-24 09:10"),
        (Moment, dt.date(2026, 2, 24)),
        (bool, 1),
        (Literal["stock", "maker"], "owner"),
        (Literal["stock"], ["stock"]),
        (Literal["stock", 1], True),
        (Payer | CaseKind | None, "owner"),
        (Line | int, 1),
        (Line | None, 1),
        (tuple[Line, ...], "ab"),
        (tuple[Line, ...], {"a"}),
        (tuple[int, Line], [1]),
        (tuple[int, Line], [1, "a", "b"]),
        (tuple[int, Line], {1: "a"}),
        (dict[str, int], [("a", 1)]),
        (list[int], [1]),
    ],
    ids=shortly,
)
def test_what_is_not_plainly_what_is_declared_is_left_to_pydantic(declared, written):
    with pytest.raises(ValueError, match=r"."):
        reader(declared)(written)


def test_what_may_be_left_out_has_limits_only_where_it_is_given():
    assert within(reader(int | None), {"ge": 1})(None) is None


def test_limits_that_only_pydantic_knows_are_left_to_it():
    with pytest.raises(ValueError, match="not plain"):
        within(reader(str), {"pattern": "x", "max_length": 3})("x")
