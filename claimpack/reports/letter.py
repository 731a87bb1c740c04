"""The letter that asks a maker for an answer or a payment, as a PDF for a person to sign."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from itertools import zip_longest
from typing import Any

from reportlab.platypus import KeepTogether

from claimpack.core.payment.letters.letter import Letter
from claimpack.core.values.days import in_a_letter
from claimpack.core.values.words import on_one_line
from claimpack.printing.document import FRAME_BOTTOM, FRAME_LEFT, Titles, body_width, document
from claimpack.printing.drawn import gap
from claimpack.printing.lettering import page_text
from claimpack.printing.papers import Page
from claimpack.printing.tables import PAGE, PAGE_CLOSE, ruled
from claimpack.printing.window_envelope import WindowAddress

_LABEL, _AMOUNT = 150.0, 96.0
# A priced line of so many characters is set on one or two lines.
_SHORT = 90
# So few lines are not parted.
_FEW = 6


def letter_pdf(letter: Letter, page: Page) -> bytes:
    """The letter as a PDF; the same bytes for the same letter and page."""
    width = body_width(page)
    sender = letter.sender
    titles = Titles(title=letter.subject, author=sender.name, foot=sender.name)
    return document(lambda: [*_head(letter, width, page), *_body(letter, width), *_end(letter, width)], page, titles)


def _head(letter: Letter, width: float, page: Page) -> list[Any]:
    sender = letter.sender
    reach = "\n".join(part for part in (sender.address, sender.phone, sender.email) if part)
    on = page_text(in_a_letter(letter.on), right=bool(letter.address))
    if letter.address:
        # above the address, where the sheet is empty anyway: most letters then end on their first page
        own = on_one_line(f"{sender.name}\n{sender.address}")
        to = [gap(14), on, WindowAddress(letter.address, own, page, FRAME_BOTTOM, FRAME_LEFT)]
    else:
        to = [gap(16), on, gap(6), page_text(letter.to, "strong")]
    names = [[page_text(sender.name, "title"), page_text(reach, "small", right=True)]]
    return [
        ruled(names, [width * 0.58, width * 0.42], ruling=replace(PAGE, beside=(0, 0))),
        *to,
        gap(12),
        page_text(letter.subject, "heading"),
        gap(6),
    ]


def _body(letter: Letter, width: float) -> list[Any]:
    first, *others = [page_text(paragraph) for paragraph in letter.paragraphs]
    greeted = KeepTogether([page_text("To whom it may concern,"), gap(7), first])
    spaced = (piece for paragraph in (greeted, *others) for piece in (paragraph, gap(7)))
    return [_in_two_columns(letter.facts, width), gap(12), *spaced]


def _end(letter: Letter, width: float) -> list[Any]:
    enclosed = "\n".join(("Enclosed:", *(f"\u00b7 {one}" for one in letter.enclosed)))
    asked = [
        *_amounts(letter, width),
        gap(12),
        page_text(letter.ask, "strong"),
        gap(8),
        page_text(letter.closing),
        gap(10),
    ]
    along = [gap(10), page_text(enclosed, "cell")] if letter.enclosed else []
    signed = [page_text("Yours sincerely,"), gap(6), _signing(width), *along, gap(14), _small(letter)]
    # a sum without a line above it says nothing; claims told at length may go on without one
    are_short = all(len(what) < _SHORT for what, _, _ in letter.rows)
    few = 0 if len(letter.rows) <= _FEW else len(letter.rows) - 2
    first = few if are_short else len(letter.rows)
    lines, with_sum = (_priced(letter, some, width) for some in (letter.rows[:first], letter.rows[first:]))
    asked = [gap(8), *asked] if letter.rows else asked
    # A signature alone on a page could be put under any letter.
    return [*lines, KeepTogether([*with_sum, *asked, *signed])]


def _priced(letter: Letter, lines: Sequence[tuple[str, str, str]], width: float) -> list[Any]:
    """Some of the priced lines of a letter; nothing for none."""
    wide = 130 if any(much for _, much, _ in letter.rows) else 0
    rows = [
        [page_text(what, "cell"), *([page_text(much, "cell")] if wide else []), page_text(amount, "cell", right=True)]
        for what, much, amount in lines
    ]
    widths = [width - _AMOUNT - wide, *([wide] if wide else []), _AMOUNT]
    return [ruled(rows, widths, labels=(0,))] if rows else []


def _amounts(letter: Letter, width: float) -> list[Any]:
    """The amounts, the last of them in strong type, under the priced lines where there are any; else nothing."""
    if not letter.amounts:
        return []
    *others, last = letter.amounts
    amounts = [[page_text(label, "label"), page_text(value, "cell", right=True)] for label, value in others]
    amounts.append([page_text(last[0], "cell-strong"), page_text(last[1], "cell-strong", right=True)])
    widths = [width - _AMOUNT if letter.rows else _LABEL, _AMOUNT]
    return [gap(2), ruled(amounts, widths, strong=(len(amounts) - 1,), labels=(0,))]


def _in_two_columns(facts: Sequence[tuple[str, str]], width: float) -> Any:
    """Labels and values, the first half on the left: the letter stays on one page."""
    half = (len(facts) + 1) // 2
    rows = []
    for left, right in zip_longest(facts[:half], facts[half:], fillvalue=("", "")):
        rows.append(
            [
                page_text(said, name)
                for pair in (left, right)
                for said, name in zip(pair, ("label", "cell"), strict=True)
            ]
        )
    widths = [_LABEL * 0.72, width / 2 - _LABEL * 0.72, _LABEL * 0.8, width / 2 - _LABEL * 0.8]
    return ruled(rows, widths, ruling=PAGE_CLOSE, labels=(0, 2))


def _signing(width: float) -> Any:
    labels = [page_text(label, "label") for label in ("Signature", "Name", "Date")]
    rows = [[cell for label in labels for cell in (label, "")]]
    room = (width - 54 - 36 - 32 - 76) / 2
    return ruled(rows, [54, room, 36, room, 32, 76], ruling=replace(PAGE, height=32), labels=(0, 2, 4))


def _small(letter: Letter) -> Any:
    return page_text(letter.small_print, "small")
