"""An assessment told on a terminal."""

from __future__ import annotations

from typing import TYPE_CHECKING

from claimpack.core.money import plain

if TYPE_CHECKING:
    from claimpack.commands.say import Say
    from claimpack.core.assessment import Assessment
    from claimpack.core.reasons import Reason
    from claimpack.core.windows import WindowJudgement

_VERDICT_STYLES = {"covered": "good", "not covered": "bad", "undecided": "wait"}


def tell(say: Say, assessment: Assessment) -> None:
    """The whole assessment, the verdict first."""
    claim = assessment.claim
    serials = ", ".join(f"{serial.role} {serial.value}" for serial in claim.unit.serials)
    say.answer(" · ".join(part for part in (claim.number, f"{claim.maker} {claim.unit.model}", serials) if part))
    tell_verdict(say, assessment)
    _tell_amounts(say, assessment)
    _tell_missing(say, assessment)
    _tell_deadlines(say, assessment)


def tell_verdict(say: Say, assessment: Assessment) -> None:
    """The verdict in one line, then every reason, window by window, the one cited first."""
    style = _VERDICT_STYLES[assessment.verdict]
    say.answer(f"{say.styled(assessment.verdict.upper(), style)}  {_after_colon(str(assessment.headline))}")
    say.heading("Why")
    for reason in assessment.reasons:
        if not reason.window:
            _tell_reason(say, reason)
    for window in sorted(assessment.windows, key=lambda window: _rank(window, assessment)):
        _tell_window(say, window)


def _after_colon(headline: str) -> str:
    return headline.split(": ", 1)[-1] if headline.startswith(("Not covered:", "Cannot say yet:")) else headline


def _rank(window: WindowJudgement, assessment: Assessment) -> int:
    if assessment.window and window.id == assessment.window.id:
        return 0
    return {True: 1, None: 2, False: 3}[window.holds]


def _tell_window(say: Say, window: WindowJudgement) -> None:
    state = {True: "holds", None: "not known yet", False: "closed"}[window.holds]
    if window.applies is False:
        state = "does not apply"
    days = f"{window.starts} to {window.ends}" if window.starts and window.ends else "days not known"
    cites = f" ({window.cites})" if window.cites else ""
    say.heading(f"{window.title}: {state} · {days}{cites}")
    for reason in window.reasons:
        _tell_reason(say, reason)


def _tell_reason(say: Say, reason: Reason) -> None:
    say.item(say.mark(reason.outcome), reason.because)


def _tell_amounts(say: Say, assessment: Assessment) -> None:
    amounts, price = assessment.amounts, assessment.price
    if amounts is None or price is None:
        return
    say.heading(f"Claimed from the maker: {plain(amounts.claimed)} {amounts.currency}")
    parts = ("parts", "handling", "labour", "extras")
    say.table([(name, plain(getattr(amounts, name))) for name in parts], right=(1,))
    for payer, amount in (("owner", amounts.owner), ("shop", amounts.shop)):
        if amount:
            say.item("·", f"the {payer} pays {plain(amount)}")
    for line in price.lines:
        if line.notes:
            say.item("·", f"{line.what}: {' '.join(str(note) for note in line.notes)}")


def _tell_missing(say: Say, assessment: Assessment) -> None:
    for title, blocks in (("Missing before it can be filed", True), ("Worth a look", False)):
        items = [item for item in assessment.missing if item.blocks_filing is blocks]
        if items:
            say.heading(title)
        for item in items:
            say.item(say.mark("todo"), f"{item.what}. {item.why}")


def _tell_deadlines(say: Say, assessment: Assessment) -> None:
    if not assessment.deadlines:
        return
    say.heading("Dates to keep")
    for deadline in assessment.deadlines:
        say.item("·", f"{deadline.on}  {deadline.what}, {how_far(deadline.days_left)}. {deadline.because}")


def how_far(days: int) -> str:
    """How far a day is from today, in words."""
    if days == 0:
        return "today"
    count = f"{abs(days)} day{'' if abs(days) == 1 else 's'}"
    return f"in {count}" if days > 0 else f"{count} ago"
