"""An answer about a warranty booklet, read."""

from __future__ import annotations

from decimal import Decimal

from claimpack.core.drafting.booklet.answers import answer_of


def read(key, typed):
    return answer_of(key).read(typed, Decimal)
