"""`claimpack shop take`: whose the claims are that came in before the book held several shops."""

from __future__ import annotations

from typing import Annotated

from claimpack.commands.desk.options import Json, Today, Yes
from claimpack.commands.line.declared import Argument, Context, Option
from claimpack.core.values.numbers_said import how_many


def take(
    context: Context,
    claims: Annotated[
        list[str] | None, Argument(metavar="[CLAIM…]", help="Claims of the book; default: all that are no shop's.")
    ] = None,
    because: Annotated[
        str,
        Option(metavar="TEXT", help="Why a claim under an id that no shop has is this one's."),
    ] = "",
    mistyped: Annotated[
        str,
        Option("--from", metavar="ID", help="The id that it stands under, and no shop has."),
    ] = "",
    yes: Yes = False,
    today: Today = "",
    json: Json = False,
) -> int:
    """Say that claims which came in before the book held several shops are this shop's.

    A claim that is a shop's already stays its own; one that was opened under a mistyped id is brought home by its
    number, the id and --because.
    """
    from claimpack.book.keeping.taking import Mistyped
    from claimpack.book.keeping.taking import take as take_claims
    from claimpack.commands.desk.desk import Desk
    from claimpack.commands.desk.one_claim import number_of
    from claimpack.commands.desk.say import Say
    from claimpack.commands.talk.yes_or_no import agrees
    from claimpack.errors import BadInput

    desk, say = Desk(context.obj, today), Say(context.obj)
    if not desk.shop_id:
        raise BadInput(
            "this shop has no id, so that no claim can be told to be its own",
            "A book of one shop needs none.",
            f'Give it one in {desk.home / "shop.toml"}: id = "ashby"',
        )
    numbers = list(dict.fromkeys(number_of(claim) for claim in claims or ()))
    count = len(numbers) or desk.book.without_a_shop()
    asked = f"Is what of {how_many(count, 'claim')} is no shop's yet {desk.shop_id}'s?"
    if (because or mistyped) and not (because and mistyped and numbers):
        raise BadInput(
            "--from and --because go together, with the claims by their numbers",
            "Whether a shop works under the id that a claim stands under, the book does not know.",
            "As in: claimpack shop take 26-0041 --from holis --because 'The id was mistyped.'",
        )
    if because:
        held = how_many(desk.book.shops().get(mistyped, 0), "claim")
        asked = f"Nobody works under {mistyped}, of which the book holds {held}: is what is named {desk.shop_id}'s?"
    else:
        desk.shops.must_be_told_apart()
    if count and not agrees(say, asked, yes, json=json):
        return 4
    home, known = Mistyped(mistyped, because), desk.shop.settings.shops
    taken = take_claims(desk.book, desk.author, desk.day, numbers, home, known=known)
    if json:
        say.document({"shop": desk.shop_id, "claims": taken})
    else:
        say.answer(f"{how_many(len(taken), 'claim')} became {desk.shop_id}'s.")
    return 0
