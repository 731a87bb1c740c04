"""The letter that asks a maker for an answer or a payment, as a PDF for a person to sign."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import zip_longest
from typing import Any

from reportlab.platypus import KeepTogether, Spacer

from claimpack.core.payment.letters import Letter
from claimpack.core.values.days import in_a_letter
from claimpack.printing.document import Titles, body_width, document
from claimpack.printing.lettering import page_text
from claimpack.printing.papers import Page
from claimpack.printing.tables import ruled

_LABEL = 150.0
_LINES = ("Signature", "Name", "Date")


def letter_pdf(letter: Letter, page: Page) -> bytes:
    """The letter as a PDF; the same bytes for the same letter and page."""
    width = body_width(page)
    sender = letter.sender
    titles = Titles(title=letter.subject, author=sender.name, foot=sender.name)
    return document(lambda: [*_head(letter, width), *_body(letter, width), *_end(letter)], page, titles)


def _head(letter: Letter, width: float) -> list[Any]:
    sender = letter.sender
    reach = "\n".join(part for part in (sender.address, sender.phone, sender.email) if part)
    return [
        ruled([[page_text(sender.name, "title"), page_text(reach, "small", right=True)]], [width * 0.58, width * 0.42]),
        Spacer(0, 16),
        page_text(in_a_letter(letter.on)),
        Spacer(0, 6),
        page_text(letter.to, "strong"),
        Spacer(0, 12),
        page_text(letter.subject, "heading"),
        Spacer(0, 6),
    ]


def _body(letter: Letter, width: float) -> list[Any]:
    pieces = [_in_two_columns(letter.facts, width), Spacer(0, 12), page_text("To whom it may concern,"), Spacer(0, 7)]
    for paragraph in letter.paragraphs:
        pieces += [page_text(paragraph), Spacer(0, 7)]
    return pieces


def _end(letter: Letter) -> list[Any]:
    *others, last = letter.amounts
    amounts = [[page_text(label, "label"), page_text(value, "cell", right=True)] for label, value in others]
    amounts.append([page_text(last[0], "cell-strong"), page_text(last[1], "cell-strong", right=True)])
    return [
        Spacer(0, 2),
        ruled(amounts, [_LABEL, 110], strong=(len(amounts) - 1,)),
        Spacer(0, 12),
        page_text(letter.ask, "strong"),
        Spacer(0, 8),
        page_text(letter.closing),
        Spacer(0, 10),
        KeepTogether([page_text("Yours sincerely,"), Spacer(0, 6), _signing(), Spacer(0, 14), _small(letter)]),
    ]


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
    return ruled(rows, [_LABEL * 0.72, width / 2 - _LABEL * 0.72, _LABEL * 0.8, width / 2 - _LABEL * 0.8])


def _signing() -> Any:
    rows = [[page_text(line, "label"), ""] for line in _LINES]
    return ruled(rows, [70, 230], height=26)


def _small(letter: Letter) -> Any:
    return page_text(letter.small_print, "small")
