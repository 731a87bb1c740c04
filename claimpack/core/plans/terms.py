"""Payment terms: how fast a maker must answer and pay, and what silence means."""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal
from typing import Literal

from claimpack.core.facts.fields import TemplateId
from claimpack.core.facts.record import Record
from claimpack.core.values.days import Day
from claimpack.core.values.money import ZERO, PartOfOne, rounded
from claimpack.core.values.periods import Duration
from claimpack.core.values.words import Line, Named, Text, some_of


class Terms(Record):
    """Payment terms of one law or dealer agreement; a term that is absent is not known to exist.

    Args:
        format: the form of the file, always 1.
        id: what the terms are told by, as in `us-tx`.
        name: what they are called, as in `Texas`.
        cites: the section of law, or the clause of the dealer agreement.
        read_on: the day they were read.
        answer_within: how soon the maker must answer, as in `P45D`.
        answer_from: the day that is counted from.
        silence: what a claim is when the maker has not answered in time.
        question: whether a question of the maker's stops its time to answer until the shop replies, or it runs on.
        question_cites: the section that says so, where it is another.
        without_grounds: what a claim is when the maker refuses it without saying why.
        pay_within: how soon the maker must pay once a claim is accepted, as in `P30D`.
        resubmit_within: how long the shop may put a refused claim right, from the refusal, as in `P30D`.
        inspect_within: how long the maker may inspect a held part; after that it may be scrapped, as in `P60D`.
        inspect_from: the day that is counted from.
        audit_reach: how far back the maker may audit a claim, as in `P1Y`.
        audit_from: the day that is counted from.
        parts_floor: the least that must be added to the cost of parts, as a fraction of it, as in `"0.15"`.
        labour_floor: whether an hour must be paid at what the shop charges owners.
        note: anything else a reader should know.
    """

    format: Literal[1] = 1
    id: TemplateId
    name: Named
    cites: Line = ""
    read_on: Day | None = None
    answer_within: Duration | None = None
    answer_from: Literal["received", "filed"] = "received"
    silence: Literal["accepted", "refused", "nothing"] = "nothing"
    question: Literal["stops", "runs on"] = "stops"
    question_cites: Line = ""
    without_grounds: Literal["accepted", "nothing"] = "nothing"
    pay_within: Duration | None = None
    resubmit_within: Duration | None = None
    inspect_within: Duration | None = None
    inspect_from: Literal["filed", "received"] = "filed"
    audit_reach: Duration | None = None
    audit_from: Literal["paid"] = "paid"
    parts_floor: PartOfOne | None = None
    labour_floor: Literal["retail", "none"] = "none"
    note: Text = ""

    @property
    def section(self) -> str:
        """What a message or a letter cites: the section of law, else the name of the agreement."""
        return self.cites or self.name

    @property
    def question_section(self) -> str:
        """What is cited for what a question does."""
        return self.question_cites or self.section

    @property
    def is_known(self) -> bool:
        """Whether anybody here can say what they are."""
        return True

    @property
    def unread(self) -> str:
        """What terms are called that are named and cannot be read here; empty for all others."""
        return ""

    @property
    def runs_on(self) -> bool:
        """Whether the time to answer runs on through a question."""
        return self.question == "runs on"

    @property
    def of_a_favour(self) -> Terms:
        """The same for goodwill, which a maker may refuse for any reason, or none."""
        return self.model_copy(update={"without_grounds": "nothing"})

    def floor_of(self, cost: Decimal) -> Decimal | None:
        """The least the law lets a maker pay for a part of that cost, unrounded; None where it sets no floor."""
        return None if self.parts_floor is None else cost * (1 + self.parts_floor)


class _NotKnown(Terms):
    """Terms that nobody here can read."""

    @property
    def is_known(self) -> bool:
        """Nobody here can say what they are."""
        return False


class _NotRead(_NotKnown):
    """Terms that are named and not there, or have problems."""

    @property
    def unread(self) -> str:
        """The id they are named by."""
        return self.id


def not_read(wanted: str) -> Terms:
    """Terms that are named for a claim and cannot be read: no day of it can be told, which is not to have none."""
    # an id that no file could have is named as it was written, too
    return _NotRead.model_construct(id=wanted, name=wanted)


NOT_KNOWN = _NotKnown(id="not-known", name="not known here")
"""The terms of a claim whose shop has its own, which nobody here can read: no day of it can be told."""


def unread_said(terms_of: Mapping[str, str]) -> list[str]:
    """That the terms of claims cannot be read, a sentence for each of the terms.

    Args:
        terms_of: what the terms that cannot be read are named by, by claim number.
    """
    return [
        f"Payment terms {terms} cannot be read: no day by them can be told of {some_of(claims, 6)}."
        for terms, claims in claims_by_terms(terms_of).items()
    ]


def claims_by_terms(terms_of: Mapping[str, str]) -> dict[str, list[str]]:
    """The claims of each of the terms that cannot be read, in order."""
    return {
        terms: sorted(claim for claim, named in terms_of.items() if named == terms)
        for terms in sorted(set(terms_of.values()))
    }


def unread_of(terms_of: Mapping[str, Terms]) -> dict[str, str]:
    """What the terms that cannot be read are named by, by claim number; claims whose terms are read are left out."""
    return {claim: terms.unread for claim, terms in terms_of.items() if terms.unread}


def parts_floor_gap(cost: Decimal, handling: Decimal, terms: Terms, currency: str) -> Decimal:
    """By how much a plan pays less for parts than the terms' floor; zero where it pays enough or there is no floor.

    Args:
        cost: the shop's cost of the parts.
        handling: what the plan adds, as a fraction.
        terms: the payment terms.
        currency: of the cost.

    Source: the section the terms cite, as S.D. Codified Laws 37-5-17 (cost plus at least 30 %).
    """
    floor = terms.floor_of(cost)
    if floor is None:
        return ZERO
    return max(rounded(floor, currency) - rounded(cost * (1 + handling), currency), rounded(ZERO, currency))


def labour_floor_gap(paid_rate: Decimal, retail_rate: Decimal | None, terms: Terms) -> Decimal:
    """By how much an hour a plan pays less than the shop's retail rate, where the terms ask for it.

    Source: the section the terms cite, as La. R.S. 51:501 (the dealer's posted retail rate).
    """
    if terms.labour_floor != "retail" or retail_rate is None:
        return ZERO
    return max(retail_rate - paid_rate, ZERO)
