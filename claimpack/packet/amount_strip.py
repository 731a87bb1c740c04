"""The amount claimed in one line, with the four parts it is made of and what others pay."""

from __future__ import annotations

from typing import Any

from reportlab.platypus import Table, TableStyle

from claimpack.core.money import plain
from claimpack.packet.draft import Draft
from claimpack.packet.drawn import framed
from claimpack.packet.lettering import INK, RULE, TINT, text


def amount_strip(draft: Draft) -> Any:
    """The strip, or the sentence that says why there is no amount."""
    words, amounts = draft.words, draft.assessment.amounts
    if amounts is None:
        return framed([text(words.not_priced, "shout")], draft.width, [("BACKGROUND", (0, 0), (-1, -1), TINT)])
    claimed = [text(words.amount_claimed, "label"), text(f"{amounts.currency} {plain(amounts.claimed)}", "amount")]
    made_of = (
        (words.parts, amounts.parts),
        (words.handling, amounts.handling),
        (words.labour, amounts.labour),
        (words.extras, amounts.extras),
        (words.owner_pays, amounts.owner),
        (words.shop_bears, amounts.shop),
    )
    cells = [[text(label, "label"), text(plain(amount), "cell-strong")] for label, amount in made_of]
    share = (draft.width * 0.7) / len(cells)
    table = Table([[claimed, *cells]], colWidths=[draft.width * 0.3, *[share] * len(cells)], splitInRow=1)
    table.setStyle(
        TableStyle(
            [
                ("BACKGROUND", (0, 0), (-1, -1), TINT),
                ("VALIGN", (0, 0), (-1, -1), "MIDDLE"),
                ("LEFTPADDING", (0, 0), (-1, -1), 7),
                ("RIGHTPADDING", (0, 0), (-1, -1), 1),
                ("LINEBEFORE", (1, 0), (-3, -1), 0.5, RULE),
                ("LINEBEFORE", (-2, 0), (-2, -1), 1.5, INK),
                ("TOPPADDING", (0, 0), (-1, -1), 3),
                ("BOTTOMPADDING", (0, 0), (-1, -1), 5),
            ]
        )
    )
    return table
