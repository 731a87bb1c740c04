"""An assessment told on a terminal."""

from __future__ import annotations

import shlex
from typing import TYPE_CHECKING

from claimpack.core.values.money import grouped, in_money
from claimpack.core.values.numbers_said import how_many

if TYPE_CHECKING:
    from collections.abc import Sequence

    from claimpack.commands.desk.say import Say
    from claimpack.core.judging.assessment import Assessment
    from claimpack.core.pricing.pricing import Amounts
    from claimpack.core.windows.judged import WindowJudgement
    from claimpack.core.windows.reasons import Reason

_MARKS = {"covered": "pass", "not covered": "fail", "undecided": "unknown"}
_VERDICT_STYLES = {"covered": "good", "not covered": "bad", "undecided": "wait"}


def tell(say: Say, assessment: Assessment, maker: str, *, named: str = "", why: bool = False) -> None:
    """The whole assessment of a claim by that maker; `named` and `why` as for `tell_verdict`.

    The answer first: verdict and amount, then what is missing and by when, then why.
    """
    claim = assessment.claim
    serials = ", ".join(f"{serial.role} {serial.value}" for serial in claim.unit.serials)
    about = (claim.number, f"{maker} {claim.unit.model}", serials)
    say.lines(" · ".join(part for part in about if part))
    tell_verdict_line(say, assessment)
    if assessment.amounts:
        say.lines(_claimed(assessment.amounts))
    _tell_missing(say, assessment)
    _tell_deadlines(say, assessment)
    _tell_looks(say, assessment)
    _tell_why(say, assessment, "" if why else named or assessment.claim.number)
    _tell_amounts(say, assessment)


def tell_verdict(say: Say, assessment: Assessment, *, named: str = "", why: bool = False) -> None:
    """The verdict in one line, then every reason: the window cited, the open ones, the closed ones.

    Windows that do not apply are named in one line; with `why` each with what speaks against it.

    Args:
        say: where it is told.
        assessment: the assessment.
        named: how the claim is named to a command: its number where nothing is said, or its folder.
        why: whether to say what speaks against windows that do not apply.
    """
    tell_verdict_line(say, assessment)
    _tell_why(say, assessment, "" if why else named or assessment.claim.number)


def _tell_why(say: Say, assessment: Assessment, named: str) -> None:
    """Every reason: the window cited, the open ones, the closed ones, and those that do not apply.

    `named` is how a command names the claim where those are named in one line alone; else what speaks against each.
    """
    ask_why = shlex.join(["claimpack", "check", named, "--why"]) if named else ""
    say.heading("Why")
    for reason in assessment.reasons:
        if not reason.window:
            _tell_reason(say, reason)
    if not assessment.failures:
        _tell_windows(say, assessment.windows, assessment.window, ask_why)
    for one in assessment.failures:
        say.heading(str(one.title))
        _tell_windows(say, one.judgement.windows, one.judgement.window, ask_why)


def _tell_windows(say: Say, windows: Sequence[WindowJudgement], cited: WindowJudgement | None, ask_why: str) -> None:
    """The windows judged for one failure; `ask_why` is the command that tells why some do not apply, or empty."""
    speaking = [window for window in windows if window.applies is not False]
    for window in sorted(speaking, key=lambda window: _rank(window, cited)):
        _tell_window(say, window)
    others = [window for window in windows if window.applies is False]
    if others and ask_why:
        named = ", ".join(window.title for window in others)
        say.answer()
        do_not = "window does" if len(others) == 1 else "windows do"
        say.quiet_item(f"{len(others)} {do_not} not apply: {named}. Why: {ask_why}")
        return
    if others:
        say.heading("Windows that do not apply")
    for window in others:
        against = [reason for reason in window.reasons if reason.outcome == "fail" and reason.rule != "age"]
        say.quiet_item(f"{window.title}. {' '.join(reason.because for reason in against)}")


def tell_verdict_line(say: Say, assessment: Assessment) -> None:
    """The verdict and its headline, in one line where there is room; then what is asked as a favour, and lateness."""
    headline = str(assessment.headline)
    for opening in ("Covered ", "Covered: ", "Not covered: ", "Cannot say yet: "):
        headline = headline.removeprefix(opening)
    say.lines(headline, (assessment.verdict.upper(), _VERDICT_STYLES[assessment.verdict]))
    if assessment.share:
        say.lines(str(assessment.share))
    for one in assessment.failures:
        share = f" {one.share}" if one.share else ""
        say.item(say.mark(_MARKS[one.verdict]), f"{one.title}. {one.headline}{share}")
    asked = assessment.goodwill
    if asked:
        said = f"{asked.asks}: {asked.because}" if asked.asks and asked.because else asked.asks or asked.because
        say.lines(said or "no reason is given yet", ("GOODWILL ASKED", "wait"))
    if assessment.late:
        said = str(assessment.late.says).removeprefix("Late: ")
        say.lines(said[:1].upper() + said[1:], ("LATE", "bad"))


def note_elsewhere(say: Say, assessment: Assessment) -> None:
    """How to open a claim with the maker who covers what failed instead."""
    other = assessment.elsewhere
    if other:
        like = shlex.join(["claimpack", "open", "--like", assessment.claim.number, "--maker", other.maker])
        say.note(f"A claim with {other.maker}: {like}")


def note_no_plan(say: Say, assessment: Assessment) -> None:
    """What to do where no plan was found."""
    if assessment.plan is None:
        say.note(
            "The plans there are: claimpack plan list. A plan of your own: --plans FILE, or coverage/ of the shop."
        )


def tell_summary(say: Say, assessment: Assessment) -> None:
    """The answer in a few lines: verdict, amount, and what still blocks filing."""
    tell_verdict_line(say, assessment)
    amounts = assessment.amounts
    if amounts:
        say.answer(_claimed(amounts))
    for title, lines in before_filing(assessment).items():
        say.answer(f"{title}:")
        for line in lines:
            say.item(say.mark("todo"), line)


def _claimed(amounts: Amounts) -> str:
    """What is claimed from the maker, or would be if anything were."""
    said = f"Claimed from the maker: {in_money(amounts.claimed, amounts.currency)}"
    return said if not amounts.would_be else f"{said} (if it were covered: {grouped(amounts.would_be)})"


_SELLER = "The seller owes it alone: nothing is asked of the maker, and it need not be filed"


def before_filing(assessment: Assessment) -> dict[str, list[str]]:
    """What still blocks filing, in lines under their titles; of a claim that need not be filed all in one line."""
    from claimpack.core.judging.conditions.missing_items import absent_and_wrong, told_in_short, told_together

    blocking = [item for item in assessment.missing if item.blocks_filing]
    if assessment.need_not_be_filed:
        lines = [f"If it is filed all the same, it still needs: {told_in_short(blocking)}."] if blocking else []
        title = _SELLER if assessment.seller_alone else "Not covered: it need not be filed"
        return {title: lines}
    absent, wrong = absent_and_wrong(blocking)
    found = {"To correct before it can be filed": wrong, "Missing before it can be filed": absent}
    return {title: told_together(items) for title, items in found.items() if items}


def _rank(window: WindowJudgement, cited: WindowJudgement | None) -> int:
    if cited and window.id == cited.id:
        return 0
    return {True: 1, None: 2, False: 3}[window.holds]


def _tell_window(say: Say, window: WindowJudgement) -> None:
    state = {True: "holds", None: "not known yet", False: "closed"}[window.holds]
    days = f"{window.starts} to {window.ends}" if window.ends else "days not known"
    days = f"from {window.starts}" if window.starts and window.is_past_its_last_day else days
    days = f"{window.starts} to {window.at_least} at least" if window.at_least else days
    days = f"{days} at least" if window.rests_on else days
    cites = f" ({window.cites})" if window.cites else ""
    say.heading(f"{window.title}: {state} · {days}{cites}")
    for reason in window.reasons:
        _tell_reason(say, reason)


def _tell_reason(say: Say, reason: Reason) -> None:
    say.item(say.mark(reason.outcome), reason.because)


def _tell_amounts(say: Say, assessment: Assessment) -> None:
    price = assessment.price
    if price is None:
        return
    amounts = price.amounts
    names = ("parts", "handling", "labour", "extras", "tax", "claimed")
    adds_up = [(name, grouped(amount)) for name in names if (amount := getattr(amounts, name))]
    others = [
        f"the {payer} pays {grouped(amount)}{_tax_in(amounts) if payer == 'owner' else ''}"
        for payer, amount in (("owner", amounts.owner), ("shop", amounts.shop), ("other maker", amounts.other_maker))
        if amount
    ]
    noted = [line for line in price.lines if line.notes]
    if adds_up or others or noted:
        say.heading("How the amount adds up")
    say.table(adds_up, right=(1,))
    for said in others:
        say.item("·", said)
    for line in noted:
        payer = "" if line.payer == "maker" else f", the {line.payer} pays"
        notes = " ".join(str(note) for note in line.notes)
        say.item("·", f"{line.what}, {grouped(line.whole)}{payer}: {notes}")


def _tax_in(amounts: Amounts) -> str:
    return f" (tax in it: {grouped(amounts.owner_tax)})" if amounts.owner_tax else ""


def _tell_missing(say: Say, assessment: Assessment) -> None:
    by = next((each for each in assessment.deadlines if each.what.key == "deadline.file-by"), None)
    when = f", by {by.on} ({how_far(by.days_left)})" if by and assessment.verdict != "not covered" else ""
    for title, lines in before_filing(assessment).items():
        say.heading(f"{title}{when}")
        for line in lines:
            say.item(say.mark("todo"), line)


def _tell_looks(say: Say, assessment: Assessment) -> None:
    from claimpack.core.judging.conditions.missing_items import told_together

    looks = told_together(item for item in assessment.missing if not item.blocks_filing)
    if looks:
        say.heading("Worth a look")
    for line in looks:
        say.item(say.mark("todo"), line)


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
    count = how_many(abs(days), "day")
    return f"in {count}" if days > 0 else f"{count} ago"
