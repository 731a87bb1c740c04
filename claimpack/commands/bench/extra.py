"""`claimpack extra`: freight, outside work, travel, disposal, beside parts and labour."""

from __future__ import annotations

from enum import StrEnum
from typing import TYPE_CHECKING, Annotated, Any

from claimpack.commands.bench.part import ForFailure, Payer
from claimpack.commands.desk.options import BookClaim, Json
from claimpack.commands.line.declared import Argument, Context, Family, Option

if TYPE_CHECKING:
    from claimpack.commands.desk.changing import Changing
    from claimpack.commands.desk.desk import Desk
    from claimpack.commands.desk.say import Say
    from claimpack.core.facts.lines import Extra

extra_app = Family(help="Write down freight, outside work, travel.")
"""The commands about extras."""


class Kind(StrEnum):
    """What kind of extra it is; plans pay them differently."""

    freight = "freight"
    sublet = "sublet"
    travel = "travel"
    disposal = "disposal"
    other = "other"


_NAMED = {"what": "WHAT", "amount": "--amount", "distance": "--distance", "approval": "--approval"}


@extra_app.command("add")
def add_extra(
    context: Context,
    claim: BookClaim,
    what: Annotated[str, Argument(metavar="WHAT", help="What it is, as in 'freight for the short block'.")],
    amount: Annotated[str, Option("--amount", metavar="AMOUNT", help="What it costs.")] = "",
    kind: Annotated[Kind | None, Option(help="What kind it is; sublet: done outside.")] = None,
    distance: Annotated[
        str,
        Option(
            metavar="NUMBER", help="How far a visit was, in the plan's miles or km; then the plan gives the amount."
        ),
    ] = "",
    approval: Annotated[str, Option(metavar="NUMBER", help="Under which the maker approved it.")] = "",
    payer: Annotated[Payer, Option(help="Who pays for it.")] = Payer.maker,
    failure: ForFailure = 1,
    json: Json = False,
) -> int:
    """Add an extra to a claim."""
    from claimpack.commands.desk.desk import Desk
    from claimpack.commands.desk.one_claim import number_of
    from claimpack.commands.desk.say import Say
    from claimpack.core.facts.keys import record_from
    from claimpack.core.facts.lines import Extra

    # only travel is told in a distance
    by_distance = "travel" if distance else None
    keys = {
        "what": what,
        "kind": kind.value if kind else by_distance,
        "amount": amount,
        "distance": distance,
        "approval": approval,
        "payer": payer.value,
        "failure": failure,
    }
    given = {key: value for key, value in keys.items() if value not in ("", None)}
    added = record_from(Extra, given, "extra add", _NAMED)
    desk = Desk(context.obj)
    with desk.changing(number_of(claim)) as changing:
        _keep(changing, added)
    say, place = Say(context.obj), len(changing.claim.extras)
    if json:
        say.document({"claim": claim, **_as_json(place, added)})
        return 0
    say.answer(f"{claim}: {', '.join(part for part in _told(added) if part)}")
    _note_what_is_lacking(desk, say, claim, added)
    return 0


def _keep(changing: Changing, added: Extra) -> None:
    from claimpack.commands.desk.one_claim import must_have_failure

    must_have_failure(changing.claim, added.failure)
    after = changing.claim.model_copy(update={"extras": (*changing.claim.extras, added)})
    changing.keep(after, why=f"extra {added.what}")


def _note_what_is_lacking(desk: Desk, say: Say, claim: str, added: Extra) -> None:
    """What the plan still asks of this extra."""
    from claimpack.commands.desk.one_claim import number_of

    for item in desk.assess(desk.book.get(number_of(claim))).missing:
        # what other extras lack was told when those were added
        if item.what.key.startswith("missing.extra-") and item.what.facts.get("what") == added.what:
            say.note(f"Missing before it can be filed: {item.what}. {item.why}")


@extra_app.command("list")
def list_extras(context: Context, claim: BookClaim, json: Json = False) -> int:
    """List the extras on a claim."""
    from claimpack.commands.desk.desk import Desk
    from claimpack.commands.desk.one_claim import number_of
    from claimpack.commands.desk.say import Say

    say = Say(context.obj)
    extras = Desk(context.obj).book.get(number_of(claim)).claim.extras
    if json:
        say.document({"claim": claim, "extras": [_as_json(n, one) for n, one in enumerate(extras, start=1)]})
        return 0
    say.table([(str(n), *_told(one)) for n, one in enumerate(extras, start=1)], right=(0, 2), indent=0)
    if not extras:
        say.note(f"No extra yet: claimpack extra add {claim} WHAT --amount AMOUNT --kind freight")
    return 0


@extra_app.command("remove")
def remove_extra(
    context: Context,
    claim: BookClaim,
    place: Annotated[int, Argument(metavar="N", help="Which one, as listed.")],
    json: Json = False,
) -> int:
    """Take an extra off a claim."""
    from claimpack.commands.desk.one_claim import take_off
    from claimpack.commands.desk.say import Say

    removed = take_off(context.obj, claim, place, "extras", "what")
    say = Say(context.obj)
    if json:
        say.document({"claim": claim, "removed": _as_json(place, removed)})
    else:
        say.answer(f"{claim}: {removed.what} removed")
    return 0


def _told(one: Extra) -> tuple[str, ...]:
    from claimpack.core.values.money import grouped, plain

    if one.amount is not None:
        measured = grouped(one.amount)
    else:
        measured = f"distance {plain(one.distance)}" if one.distance is not None else ""
    approved = f"approval {one.approval}" if one.approval else ""
    return one.what, measured, one.kind or "", approved, f"{one.payer} pays"


def _as_json(place: int, one: Extra) -> dict[str, Any]:
    return {"n": place, **one.model_dump(mode="json")}
