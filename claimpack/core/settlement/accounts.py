"""The accounts that movements of money are entered under, as the shop maps them."""

from __future__ import annotations

from claimpack.core.facts.record import Record
from claimpack.core.values.words import Line


class Accounts(Record):
    """The accounts that entries of the journal name; what a maker credits may have one of its own.

    Args:
        money: where payments come in, as in `1010`.
        receivable: what makers owe for claims, as in `1210`.
        written_off: what is given up, as in `6900`.
    """

    money: Line = "Bank"
    receivable: Line = "Warranty claims receivable"
    written_off: Line = "Warranty claims written off"
