"""Dates to keep before and at filing: the end of cover, the day to file by, how long a part is held."""

from __future__ import annotations

from collections.abc import Container
from datetime import date
from typing import NamedTuple

from claimpack.core.claims.claim import Claim
from claimpack.core.clauses.operations import Filing
from claimpack.core.holding.hold import ClaimsHold
from claimpack.core.plans.plan import Plan
from claimpack.core.values.periods import moved, next_working_day
from claimpack.core.values.wording.sentence import Sentence, days_in_words, say
from claimpack.core.verdict.coverage import Judgement


class Deadline(NamedTuple):
    """One date to keep of an assessed claim, worded from its plan for packet, check and form, in the layout's language.

    `days_left` is counted from today and below zero when it is missed. The same days go into the book as columns of the
    claim's row; what is due over all claims, under payment terms and with whose turn it is, is a `DueItem`.
    """

    what: Sentence
    on: date
    because: Sentence
    days_left: int


class Late(NamedTuple):
    """The last day to file, by how many days it was missed, or is by now, and a sentence that says so."""

    file_by: date
    days: int
    says: Sentence


def late(claim: Claim, plan: Plan, today: date, first_filed: date | None = None) -> Late | None:
    """By how much the last day to file was missed; None in time, without a limit, or before its event has come.

    Args:
        claim: the claim.
        plan: its plan.
        today: the day it is, which counts while the claim is not filed.
        first_filed: the day it was filed for the first time; sending in again has limits of its own.

    Source: the period is the plan's; the last day counts.
    """
    last = last_day_to_file(claim, plan)
    # filed once in time, it is not late for being sent in again
    days = ((first_filed or today) - last).days if last else 0
    if last is None or days <= 0:
        return None
    key = "late.filed" if first_filed else "late.unfiled"
    return Late(last, days, say(key, file_by=last, late_period=days_in_words(days)))


def last_day_to_file(claim: Claim, plan: Plan) -> date | None:
    """The last day to file a claim; None without a limit, or before its event has come."""
    event = getattr(claim.dates, plan.filing.of) if plan.filing else None
    return file_by(plan.filing, event) if plan.filing and event else None


def deadlines(claim: Claim, plan: Plan, judgement: Judgement, today: date, hold: ClaimsHold) -> tuple[Deadline, ...]:
    """The dates to keep, the nearest first. Periods leave out the day of the event and include the last day.

    Source: Reg. (EEC, Euratom) 1182/71 Art. 3(1) (the event's day is not counted); the periods are the plan's.
    """
    filed = hold.starts.filed
    found = [
        *_repair_by(claim, today, filed),
        *_file_by(claim, plan, today, filed),
        *_cover_ends(judgement, today),
        *hold_until(claim, hold, today),
    ]
    return tuple(sorted(found, key=lambda deadline: deadline.on))


def file_by(filing: Filing, event: date, holidays: Container[date] = ()) -> date:
    """The last day to file; it rolls to the next working day only where the plan says so.

    Source: Reg. (EEC, Euratom) 1182/71 Art. 3(4), FRCP 6(a)(1)(C) for the roll; the period is the plan's.
    """
    last = moved(event, filing.within)
    # a plan that says nothing of days off means its day, a Sunday too
    if filing.roll == "none":
        return last
    return next_working_day(last, holidays or {*filing.holidays})


def repair_by(claim: Claim) -> date | None:
    """The last day to repair under the maker's approval; None once it is repaired, or where the approval sets none.

    Source: common practice, no source; the day is the approval's.
    """
    return claim.approval.expires if claim.approval and not claim.dates.repaired else None


def _repair_by(claim: Claim, today: date, filed: date | None) -> list[Deadline]:
    on = repair_by(claim)
    # nobody repairs under an approval, or files, what is with the maker already
    if on is None or filed:
        return []
    return [Deadline(say("deadline.approval"), on, say("because.approval"), (on - today).days)]


def _file_by(claim: Claim, plan: Plan, today: date, filed: date | None) -> list[Deadline]:
    filing, on = plan.filing, last_day_to_file(claim, plan)
    if filing is None or on is None or filed:
        return []
    last = moved(getattr(claim.dates, filing.of), filing.within)
    facts = {"within_period": filing.within, "role_word": filing.of}
    because = say("because.file-by", **facts) if on == last else say("because.file-by-rolled", last=last, **facts)
    return [Deadline(what=say("deadline.file-by"), on=on, because=because, days_left=(on - today).days)]


def _cover_ends(judgement: Judgement, today: date) -> list[Deadline]:
    window = judgement.window
    # an end that holds only for one of several answers is no date to keep
    if window is None or window.ends is None or judgement.whatever:
        return []
    because = say("because.cover-ends", window=window.title)
    left = (window.ends - today).days
    return [Deadline(what=say("deadline.cover-ends"), on=window.ends, because=because, days_left=left)]


def hold_until(claim: Claim, hold: ClaimsHold, today: date) -> list[Deadline]:
    """The last day to keep failed parts; none where none is held, or the day is not known.

    Source: common practice, no source; the hold is the plan's.
    """
    on = hold.until
    if on is None or not claim.held:
        return []
    because = say("because.hold-until", for_period=hold.rule.period, role_word=hold.rule.of)
    return [Deadline(what=say("deadline.hold-until"), on=on, because=because, days_left=(on - today).days)]
