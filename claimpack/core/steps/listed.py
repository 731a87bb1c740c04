"""A claim and a held part as every list knows them: the one record of each, whose fields are the columns of a list."""

from __future__ import annotations

from collections.abc import Collection
from datetime import date
from decimal import Decimal
from typing import TYPE_CHECKING, NamedTuple

from claimpack.core.values.money import ZERO

if TYPE_CHECKING:
    from claimpack.core.claims.claim import Claim
    from claimpack.core.claims.part_codes import PartCode
    from claimpack.core.events.standing import Standing
    from claimpack.core.judging.claim_summary import ClaimSummary


class Stood(NamedTuple):
    """What a list knows of a claim from where it stands alone; many claims that come in at once share it."""

    state: str
    filed: date | None
    received: date | None
    first_filed: date | None
    asked_filed: date | None
    asked_received: date | None
    answered: date | None
    accepted_on: date | None
    refused_for_form: bool
    paid_on: date | None
    heard: date | None
    decided: date | None
    owed_again: date | None
    charged_back_on: date | None
    charged_from: date | None
    currency: str
    claimed: Decimal
    paid: Decimal
    outstanding: Decimal
    refused_rest: Decimal
    parts_gone: tuple[int, ...]
    gave_no_grounds: bool
    chased_on: date | None
    ask_again: date | None


class ListedClaim(NamedTuple):
    """A claim as lists know it.

    Whatever gets a field here gets a column in the book, which holds nothing where there is nothing to say.

    `first_filed` is the day it was filed first; `asked_filed` and `asked_received` those of the filing that the maker
    answered with a question, once it was filed again with the reply. `heard` is the first day since it was last filed
    that the maker was heard of, by an answer or by paying all of it; `decided` the same, questions left out;
    `owed_again` the day since which money that had come in is owed again; `charged_back_on` the day the maker took
    money back last, `charged_from` that of the last payment that had come in by then; `refused_rest` what the maker
    refused when it accepted a part, and nobody let go. `file_by`, `approval_until` and `approval_wanted` are of drafts,
    as is `asks_goodwill`: what is not covered is asked of the maker as a favour; `elsewhere`, the other maker that
    covers the component; and `judged_by`, the mark of the plan files it was judged under. `case_kind` is what kind of
    claim it is; `approval_state` and `approval_asked` tell of a draft whether the maker was asked for its
    approval, and when. `part_awaited` says that a held part is still to be sent to a maker that pays when it is there;
    `seller_alone` of a draft that the shop owes it all as the seller. `gave_no_grounds`: the maker refused it without a
    reason on record, and it was no favour; `chased_on` is the day of the last letter that nothing came of yet,
    `ask_again` the day from which to ask again.
    """

    number: str
    revision: int
    state: str
    maker: str
    model: str
    component: str
    owner: str
    serial: str
    presented: date
    filed: date | None
    received: date | None
    first_filed: date | None
    asked_filed: date | None
    asked_received: date | None
    answered: date | None
    accepted_on: date | None
    refused_for_form: bool
    paid_on: date | None
    heard: date | None
    decided: date | None
    owed_again: date | None
    charged_back_on: date | None
    charged_from: date | None
    currency: str
    claimed: Decimal
    paid: Decimal
    outstanding: Decimal
    refused_rest: Decimal
    plan: str
    terms: str
    verdict: str
    file_by: date | None
    approval_until: date | None
    approval_wanted: bool
    asks_goodwill: bool
    elsewhere: str
    judged_by: str
    case_kind: str
    approval_state: str
    approval_asked: date | None
    part_awaited: bool
    seller_alone: bool
    gave_no_grounds: bool
    chased_on: date | None
    ask_again: date | None


def is_favour(verdict: str) -> bool:
    """Whether a claim that went out asked for a favour: the shop itself reads it as not covered.

    A favour may be refused for any reason, or none, and its refusal is nothing to contest.

    Source: common practice, no source.
    """
    return verdict == "not covered"


def stood(standing: Standing) -> Stood:
    """What lists know of a claim from where it stands."""
    return Stood(*(getattr(standing, name) for name in Stood._fields))


def awaits_part(claim: Claim, summary: ClaimSummary, gone: Collection[int]) -> bool:
    """Whether the maker pays when the failed part is back with it, and a held part is neither sent nor let go.

    Args:
        claim: the claim.
        summary: what its plan says.
        gone: the held parts that need not be sent any more, by their index.

    Source: common practice, no source; the condition is the plan's.
    """
    return summary.part_first and any(nth not in gone for nth in range(1, len(claim.held) + 1))


def at_hand(claim: Claim, standing: Standing) -> tuple[int, ...]:
    """The held parts of a claim that the shop still has and a count did not miss, by their index."""
    held = (standing.part(nth) for nth in range(1, len(claim.held) + 1))
    return tuple(part.index for part in held if part.index not in standing.parts_gone and part.missing is None)


def listed(claim: Claim, revision: int, summary: ClaimSummary, at: Stood) -> ListedClaim:
    """A claim as lists know it; what a draft claims is what it would claim today."""
    from claimpack.core.judging.claim_summary import maker_shown
    from claimpack.core.judging.deadlines import repair_by

    draft = at.state == "draft"
    approval = claim.approval if draft else None
    # in the order of the fields: telling them by name takes twice as long, and a whole import waits for it
    return ListedClaim(
        claim.number,
        revision,
        at.state,
        maker_shown(claim, summary),
        claim.unit.model,
        claim.what_failed(),
        claim.owner.name,
        claim.unit.own_serial,
        claim.dates.presented,
        *at[1:15],  # from `filed` to `charged_from`
        at.currency or summary.currency,
        at.claimed if at.filed else summary.claimed,
        *at[17:20],  # what is paid, outstanding, refused
        summary.plan,
        claim.terms,
        summary.verdict,
        summary.file_by if draft else None,
        repair_by(claim) if draft else None,
        draft and summary.approval_wanted,
        draft and summary.verdict == "not covered" and claim.asks_goodwill,
        summary.elsewhere if draft else "",
        summary.judged_by if draft else "",
        claim.case,
        (approval.state or "") if approval and not approval.is_given else "",
        approval.asked if approval and approval.is_waited_for else None,
        awaits_part(claim, summary, at.parts_gone),
        draft and summary.seller_alone,
        not is_favour(summary.verdict) and at.gave_no_grounds,
        at.chased_on,
        at.ask_again,
    )


class ListedPart(NamedTuple):
    """The nth held part of a claim as lists know it; `missing` since a count did not find it.

    `keep_until` is the last day of its plan's hold, `send_by` the day the maker wants it sent by.
    """

    claim: str
    nth: int
    part: str
    number: str
    shelf: str
    state: str
    since: date | None
    send_by: date | None
    keep_until: date | None
    missing: date | None
    maker: str
    model: str
    serial: str
    claim_state: str
    filed: date | None
    received: date | None
    paid_on: date | None
    repaired: date | None
    plan: str
    terms: str
    currency: str
    outstanding: Decimal
    refused_rest: Decimal
    paid: Decimal = ZERO

    @property
    def code(self) -> PartCode:
        """The code on its tag."""
        from claimpack.core.claims.part_codes import PartCode

        return PartCode(self.claim, self.nth)
