"""What a plan pays, as tables that fit the width: ages across, components and uses down."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator, Sequence
from decimal import Decimal
from itertools import groupby, zip_longest
from string import ascii_lowercase
from typing import NamedTuple

from claimpack.core.clauses.window import Window
from claimpack.core.drafting.imagined import Axes
from claimpack.core.drafting.imagined_claims import Age
from claimpack.core.drafting.trial import KINDS, Paid, TrialBlock, TrialRow
from claimpack.core.plans.plan import Plan
from claimpack.core.values.money import percent, plain
from claimpack.core.values.words import some_of

NOTHING, OPEN = "-", "?"
_GAP = "  "
_WHOLE = Decimal(1)
_TENTH_OF_A_PERCENT = Decimal("0.001")


class Legend(NamedTuple):
    """The letter of every window, by its id, and the mark of every mixture of shares."""

    letters: dict[str, str]
    mixtures: dict[tuple[Decimal, ...], str]

    def cell(self, paid: Paid | None) -> str:
        """One cell: the window, and how much of a line it pays where that is not all."""
        if paid is None:
            return ""
        if paid.verdict != "covered":
            return NOTHING if paid.verdict == "not covered" else OPEN
        letter = "+".join(self.letters[name] for name in paid.windows)
        if paid.shares in self.mixtures:
            return f"{letter}{self.mixtures[paid.shares]}"
        return letter if paid.shares[0] == _WHOLE else f"{letter} {percent_said(paid.shares[0])}"


def percent_said(share: Decimal) -> str:
    """A share in percent, to one decimal."""
    return f"{percent(share.quantize(_TENTH_OF_A_PERCENT))}%"


def legend_of(plan: Plan, blocks: Sequence[TrialBlock]) -> Legend:
    """Letters for the windows that pay anything, in the order of the plan, and marks for mixtures of shares."""
    paid = [one for block in blocks for row in block.rows for one in row.paid if one and one.verdict == "covered"]
    used = {name for one in paid for name in one.windows}
    ids = [window.id for window in plan.window if window.id in used]
    mixtures = dict.fromkeys(one.shares for one in paid if len(set(one.shares)) > 1)
    return Legend(
        {name: _letter(place) for place, name in enumerate(ids)},
        {shares: str(place) for place, shares in enumerate(mixtures, start=1)},
    )


def _letter(place: int) -> str:
    before, own = divmod(place, len(ascii_lowercase))
    return (ascii_lowercase[before - 1] if before else "") + ascii_lowercase[own]


def tables(block: TrialBlock, axes: Axes, legend: Legend, width: int) -> Iterator[list[str]]:
    """The tables of a block, as lines: as many ages in each as fit beside the components and uses."""
    label = max(18, min(40, width // 4))
    uses = max(len("use"), *(min(len(_uses(row, axes)), 14) for row in block.rows))
    cells = {id(row): [legend.cell(paid) for paid in row.paid] for row in block.rows}
    widest = max(2, *(len(cell) for told in cells.values() for cell in told))
    spans = [list(span) for _, span in groupby(range(len(axes.ages)), key=lambda place: axes.ages[place].period)]
    room = width - label - uses - 2 * len(_GAP)
    for some in _fitting(spans, widest, room):
        yield [
            *_heads(some, axes, (label, uses, widest)),
            *_lines(block.rows, cells, some, axes, (label, uses, widest)),
        ]


def _fitting(spans: Sequence[list[int]], widest: int, room: int) -> Iterator[list[list[int]]]:
    """The periods that fit beside each other, each with the places of its days."""
    held: list[list[int]] = []
    for span in spans:
        if held and sum(_span_width(one, widest) for one in (*held, span)) > room:
            yield held
            held = []
        held.append(span)
    yield held


def _span_width(span: Sequence[int], widest: int) -> int:
    return max(len(span) * (widest + 1) + 2, 11)


def _heads(spans: Sequence[list[int]], axes: Axes, widths: tuple[int, int, int]) -> list[str]:
    label, uses, widest = widths
    periods, days = [], []
    for span in spans:
        ages = [axes.ages[place] for place in span]
        periods.append(_period(ages[0]).ljust(_span_width(span, widest)))
        days.append(" ".join(_day(age).rjust(widest) for age in ages).ljust(_span_width(span, widest)))
    blank = " " * (label + uses + 2 * len(_GAP))
    return [(blank + "".join(periods)).rstrip(), _joined("what failed", "use", "".join(days), widths)]


def _period(age: Age) -> str:
    return age.period.in_words() if age.period else "sale"


def _day(age: Age) -> str:
    if age.period is None:
        return ""
    return f"{age.days:+d}" if age.days else "0"


def _lines(
    rows: Sequence[TrialRow],
    cells: dict[int, list[str]],
    spans: Sequence[list[int]],
    axes: Axes,
    widths: tuple[int, int, int],
) -> Iterator[str]:
    label, uses, widest = widths
    for components, group in groupby(rows, key=lambda row: row.components):
        right: list[tuple[str, str]] = []
        for row in group:
            told = cells[id(row)]
            days = "".join(
                " ".join(told[place].rjust(widest) for place in span).ljust(_span_width(span, widest)) for span in spans
            )
            right += zip_longest(textwrap.wrap(_uses(row, axes), uses), [days], fillvalue="")
        left = _shortened(components, label, max(len(right), 3))
        for place in range(max(len(left), len(right))):
            use, days = right[place] if place < len(right) else ("", "")
            yield _joined(left[place] if place < len(left) else "", use, days, widths)


def _joined(name: str, use: str, days: str, widths: tuple[int, int, int]) -> str:
    return _GAP.join((name.ljust(widths[0]), use.ljust(widths[1]), days)).rstrip()


def _uses(row: TrialRow, axes: Axes) -> str:
    return "every use" if len(row.uses) == len(axes.uses) > 1 else ", ".join(row.uses)


def _shortened(components: Sequence[str], room: int, lines: int) -> list[str]:
    """The components in at most so many lines; how many more there are is said."""
    for shown in range(len(components), 0, -1):
        wrapped = textwrap.wrap(some_of(components, shown), room)
        if len(wrapped) <= lines:
            return wrapped
    return textwrap.wrap(components[0], room)[:lines]


def window_said(window: Window) -> str:
    """A window in a line: what it is called, how long it lasts, up to which readings, and for whom alone."""
    limits = [f"{plain(limit.at)} {limit.meter}" for limit in window.every_limit()]
    lasts = " or ".join((window.period.in_words(), *limits))
    told = [f"{lasts}, whichever comes {window.whichever}" if limits else lasts]
    if window.registered_within:
        more = f"{window.registered_adds.in_words()} more" if window.registered_adds else "only"
        told.append(f"{more} if registered within {window.registered_within.in_words()}")
    if window.repair_adds:
        told.append(f"{window.repair_adds.in_words()} more once after a repair")
    if window.owed_by == "seller":
        told.append("owed by the seller, who may claim it from the maker" if window.recourse else "owed by the seller")
    if window.shares:
        told.append("pays less with age")
    if window.first_owner_only:
        told.append("first owner only")
    if window.sold_in:
        told.append(f"sold in {', '.join(window.sold_in)}")
    return f"{window.id}: {'; '.join([*([window.name] if window.name else []), *told])}"


def mixture_said(shares: Sequence[Decimal]) -> str:
    """A mixture of shares in words."""
    return ", ".join(f"{kind} {percent_said(share)}" for kind, share in zip(KINDS, shares, strict=True))
