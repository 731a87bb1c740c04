"""The cover: what the adjuster asks first, in the order it is asked."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from reportlab.platypus import CondPageBreak

from claimpack.core.judging.goodwill import GoodwillAsked
from claimpack.core.values.words import on_one_line
from claimpack.packet.drawing.amount_strip import amount_strip
from claimpack.packet.drawing.draft import Draft, day
from claimpack.packet.drawing.timeline import on_the_line
from claimpack.packet.drawing.timeline_drawing import MOST_WINDOWS, timeline_picture
from claimpack.packet.pages.cover_facts import fact_columns, failure_facts, shown_on_cover
from claimpack.packet.pages.hero import hero_picture
from claimpack.printing.drawn import bookmark, gap
from claimpack.printing.lettering import escaped, leading_to, marked_up, text
from claimpack.printing.palette import ACCENT, INK
from claimpack.printing.signs import OUTCOME_OF, sign
from claimpack.printing.tables import ALL, Command, grid, padded, side_by_side

# The cover must hold its windows too; the section behind it lists everything missing.
_MOST_MISSING = 6
# A longer claim number in large type would run into the maker's name.
_SHORT_NUMBER = 11
_BAR = 8.0
# Two lines of small type, in points.
_TWO_LINES = 19.6


def cover_section(draft: Draft) -> list[Any]:
    """Claim, verdict, what is missing, amount, unit, owner, dates, time line, and a picture where there is room."""
    body = [bookmark("cover", draft.words.cover), _masthead(draft), gap(8), _verdict(draft)]
    blocking = [] if draft.assessment.anyway else [item for item in draft.assessment.missing if item.blocks_filing]
    is_ours = draft.layout.reader != "owner"
    body += _strips(draft) if is_ours else []
    if is_ours and blocking and not draft.assessment.need_not_be_filed:
        body += [gap(6), _not_ready(draft)]
    body += [
        gap(6),
        amount_strip(draft),
        *(_sent_again(draft) if is_ours else []),
        gap(9),
        fact_columns(draft),
        gap(6),
        failure_facts(draft),
        gap(9),
    ]
    body += _timeline(draft)
    return [*body, gap(8), hero_picture(draft)]


def _masthead(draft: Draft) -> Any:
    words, shop = draft.words, draft.evidence.shop
    number = [
        text(words.claim.upper(), "label"),
        text(draft.claim.number, "number" if len(draft.claim.number) <= _SHORT_NUMBER else "number-long"),
        gap(1),
        text(words.judged_today.format(today=day(draft.assessment.today)), "small"),
    ]
    maker = [text(words.maker.upper(), "label"), text(draft.maker, "strong")]
    reached = " · ".join(line for line in (shop.phone, shop.email) if line)
    dealer = words.dealer_number.format(number=shop.dealer_number) if shop.dealer_number else ""
    beside: list[Any] = []
    if shop.name or dealer:
        lines = [line for line in (on_one_line(shop.address), reached, dealer if shop.name else "") if line]
        beside = [text(words.shop.upper(), "label"), text(shop.name or dealer, "strong")]
        beside += [_written_to(shop.email, line) for line in lines]
    widths = [draft.width * share for share in (0.4, 0.26, 0.34)]
    return side_by_side([number, maker, beside or ""], widths, 10)


def _written_to(mail: str, line: str) -> Any:
    """A line of the shop's; one that ends in its mail address leads to write to it."""
    shown = text(line, "small")
    return leading_to(f"mailto:{mail}", shown) if mail and line.endswith(mail) else shown


def _strips(draft: Draft) -> list[Any]:
    """A strip where the last day to file was missed; the reason of a claim that was filed all the same."""
    assessment, words = draft.assessment, draft.words
    pieces: list[Any] = []
    if assessment.late:
        said = text(draft.said(assessment.late.says), "strip-white")
        pieces += [gap(5), grid([[said]], [draft.width], [*padded(10, 10, 4, 6), ("BACKGROUND", *ALL, INK)])]
    if assessment.anyway and not assessment.goodwill:
        why = shown_on_cover(" ".join(assessment.anyway.split()))
        pieces += [gap(3), marked_up(f"<b>{escaped(words.filed_anyway)}:</b> {escaped(why)}", "cell")]
    return pieces


def _request(draft: Draft, asked: GoodwillAsked) -> Any:
    """A favour asked: how far out of cover the claim is, why it is asked all the same, and what."""
    words = draft.words
    miss = draft.said(asked.out_of_cover) if asked.out_of_cover else words.state_closed
    reason = shown_on_cover(" ".join(asked.because.split())) or words.goodwill_no_reason
    lines = [text(words.goodwill, "verdict"), text(f"{asked.window}: {miss}", "cell"), gap(2)]
    told = [(words.goodwill_because, reason), *([(words.goodwill_asks, asked.asks)] if asked.asks else [])]
    lines += [marked_up(f"<b>{escaped(label)}:</b> {escaped(said)}", "cell") for label, said in told]
    bar: list[Command] = [("BOX", *ALL, 1.6, INK), ("BACKGROUND", (0, 0), (0, -1), ACCENT)]
    return grid([["", lines]], [_BAR, draft.width - _BAR], [*padded(11, 10, 6, 9), *bar])


def _verdict(draft: Draft) -> Any:
    if draft.assessment.goodwill:
        return _request(draft, draft.assessment.goodwill)
    verdict = draft.assessment.verdict
    words = draft.words
    said = {"covered": words.covered, "not covered": words.not_covered, "undecided": words.undecided}[verdict]
    white = verdict == "covered"
    shade = "-white" if white else ""
    lines = [text(said, f"verdict{shade}"), text(draft.said(draft.assessment.headline), f"answer{shade}")]
    if draft.assessment.share:
        lines.append(text(draft.said(draft.assessment.share), f"answer{shade}"))
    left = _left_over(draft)
    if left:
        lines.append(text(left, f"answer{shade}"))
    edge: Command = ("BOX", *ALL, 2.2, INK)
    # told by form as well as by colour: filled, framed, or a broken frame, also in a grey copy
    if verdict == "covered":
        edge = ("BACKGROUND", *ALL, ACCENT)
    elif verdict == "undecided":
        edge = ("BOX", *ALL, 1.6, INK, 1, (5, 4))
    piece = sign(OUTCOME_OF[verdict], 36, white)
    commands = [*padded(11, 6, 6, 9), ("VALIGN", *ALL, "MIDDLE"), edge]
    return grid([[piece, lines]], [58, draft.width - 58], commands)


def _sent_again(draft: Draft) -> list[Any]:
    again = draft.assessment.sent_again
    return [gap(3), text(draft.said(again), "strong")] if again else []


def _left_over(draft: Draft) -> str:
    assessment, words = draft.assessment, draft.words
    if assessment.verdict != "covered":
        return ""
    said = []
    if assessment.days_left:
        said.append(words.days_left.format(period=draft.period(f"P{assessment.days_left}D")))
    if assessment.hours_left is not None:
        said.append(words.hours_left.format(hours=draft.number(assessment.hours_left)))
    return " · ".join(said)


def _not_ready(draft: Draft) -> Any:
    words = draft.words
    lacking = [draft.said(item.what) for item in draft.assessment.missing if item.blocks_filing]
    lines = [text(words.not_ready, "shout"), text("; ".join(lacking[:_MOST_MISSING]))]
    if len(lacking) > _MOST_MISSING:
        more = words.more_missing.format(count=len(lacking) - _MOST_MISSING, section=words.missing)
        lines.append(text(more, "small"))
    commands: list[Command] = [("BOX", *ALL, 1.2, INK), ("BACKGROUND", (0, 0), (0, -1), INK), ("SPAN", (0, 0), (0, -1))]
    edges: list[Command] = [("TOPPADDING", (1, 0), (1, 0), 7), ("BOTTOMPADDING", (1, -1), (1, -1), 7)]
    rows = [["", line] for line in lines]
    return grid(rows, [_BAR, draft.width - _BAR], [*padded(10, 10, 1.5, 1.5), *edges, *commands])


def _in_two_lines(draft: Draft, titles: Sequence[str]) -> Any:
    """The windows that do not apply, as many as two lines hold, and where the others are told."""
    words = draft.words

    def said(shown: int) -> Any:
        left = len(titles) - shown
        more = f" {words.more_missing.format(count=left, section=words.reasons)}" if left else ""
        return text(f"{words.not_applying}: {' · '.join(titles[:shown])}{more}", "small")

    # measured and not guessed: titles are as long as makers make them
    lines = (said(shown) for shown in range(len(titles), 1, -1))
    return next((line for line in lines if line.wrap(draft.width, draft.height)[1] <= _TWO_LINES), said(1))


def _timeline(draft: Draft) -> list[Any]:
    words = draft.words
    picture = timeline_picture(draft)
    # the title must not stay behind on the page before
    pieces = [CondPageBreak(picture.wrap(draft.width, 10_000)[1] + 14), text(words.timeline.upper(), "label"), gap(3)]
    pieces.append(picture)
    lines = on_the_line(draft.assessment)
    others = [window.title for window in draft.assessment.windows if window not in lines]
    if others:
        pieces += [gap(3), _in_two_lines(draft, others)]
    more = len(lines) - MOST_WINDOWS
    if more > 0:
        pieces.append(text(words.more_windows.format(count=more, section=words.reasons), "small"))
    return pieces
