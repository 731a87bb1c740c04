"""The amount claimed in one line, with the four parts it is made of and what others pay."""

from __future__ import annotations

from typing import Any

from claimpack.packet.drawing.draft import Draft
from claimpack.printing.lettering import text
from claimpack.printing.palette import INK, RULE, TINT
from claimpack.printing.tables import ALL, framed, grid, padded


def amount_strip(draft: Draft) -> Any:
    """The strip, or the sentence that says why there is no amount."""
    words, price = draft.words, draft.assessment.price
    if price is None:
        return framed([text(words.not_priced, "shout")], draft.width, [("BACKGROUND", *ALL, TINT)])
    amounts = price.amounts
    # the owner is told what the owner pays, and nothing the shop earns
    if not draft.layout.tells_prices:
        # with nothing written down, nobody knows yet what the owner pays: 0.00 would read as a promise
        pays = [
            text(words.owner_pays, "label"),
            text(draft.in_money(amounts.owner) if price.lines else words.none_given, "amount"),
        ]
        only_if = {
            "covered": words.would_be,
            "granted": words.if_granted,
            "repaired": words.if_repaired,
            "used": words.if_used,
        }
        if draft.assessment.owner_pays_if and price.lines:
            pays.append(text(only_if[draft.assessment.owner_pays_if], "small"))
        return framed(pays, draft.width, [("BACKGROUND", *ALL, TINT)])
    claimed = [
        text(words.amount_claimed, "label"),
        text(draft.in_money(amounts.claimed), "amount"),
    ]
    if amounts.would_be:
        claimed.append(text(f"{words.would_be}: {draft.in_money(amounts.would_be)}", "small"))
    made_of = (
        (words.parts, amounts.parts),
        (words.handling, amounts.handling),
        (words.labour, amounts.labour),
        (words.extras, amounts.extras),
        *([(words.makers_tax, amounts.tax)] if amounts.tax else []),
        (words.owner_pays, amounts.owner),
        (words.shop_bears, amounts.shop),
        *([(words.other_maker_pays, amounts.other_maker)] if amounts.other_maker else []),
    )
    # columns of those who pay beside the maker: owner, shop, another maker
    others = 3 if amounts.other_maker else 2
    cells = [[text(label, "label"), text(draft.number(amount), "cell-strong")] for label, amount in made_of]
    share = (draft.width * 0.7) / len(cells)
    commands = [
        *padded(7, 1, 3, 5),
        ("BACKGROUND", *ALL, TINT),
        ("VALIGN", *ALL, "MIDDLE"),
        ("LINEBEFORE", (1, 0), (-others - 1, -1), 0.5, RULE),
        ("LINEBEFORE", (-others, 0), (-others, -1), 1.5, INK),
    ]
    return grid([[claimed, *cells]], [draft.width * 0.3, *[share] * len(cells)], commands)
