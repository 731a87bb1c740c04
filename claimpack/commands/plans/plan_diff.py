"""`claimpack plan diff`: what another plan would change, for the claims of the book and for any unit."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated, Any

from claimpack.commands.desk.options import Json, Today
from claimpack.commands.line.declared import Argument, Context
from claimpack.commands.plans.plan_try import paid_document, the_plan
from claimpack.core.values.words import some_of

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from claimpack.commands.desk.say import Say
    from claimpack.commands.desk.world import World
    from claimpack.core.drafting.imagined_claims import Age
    from claimpack.core.drafting.plan_changes import ClaimChange, ClaimOutcome, KeyChange, PaidChange
    from claimpack.core.drafting.trial import Paid
    from claimpack.core.judging.assessment import Assessment
    from claimpack.core.plans.plan import Plan


def diff(
    context: Context,
    old: Annotated[str, Argument(metavar="OLD", help="A plan's file, or the id of one within reach.")],
    new: Annotated[str, Argument(metavar="NEW", help="The other plan.")],
    today: Today = "",
    json: Json = False,
) -> int:
    """Tell what another plan changes: claims of the book, what is paid, keys."""
    from claimpack.commands.desk.gather import the_shop
    from claimpack.commands.desk.options import the_day
    from claimpack.commands.desk.say import Say
    from claimpack.core.drafting.imagined import axes_of
    from claimpack.core.drafting.plan_changes import changed_claims, changed_keys, changed_pay, with_names_of

    world: World = context.obj
    before, after = the_plan(world, old), the_plan(world, new)
    sold = after.sold_from or before.sold_from or the_day(world, today)
    say, keys = Say(world), changed_keys(before, after)
    # plans of the same keys pay the same, and trying them takes long
    pay = changed_pay(before, after, axes_of([before, after], sold)) if keys else ()
    in_shop = the_shop(world).folder is not None
    claims = changed_claims(_assessed(world, say, before, with_names_of(before, after), today)) if in_shop else None
    if json:
        say.document(
            {
                "old": before.id,
                "new": after.id,
                "claims": None if claims is None else [_claim_document(change) for change in claims],
                "paid": [_pay_document(change) for change in pay],
                "keys": [change._asdict() for change in keys],
            }
        )
    else:
        _tell(say, claims, pay, keys)
    return 3 if claims or pay or keys else 0


def _assessed(
    world: World, say: Say, old: Plan, new: Plan, today: str
) -> Iterator[tuple[str, str, Assessment, Assessment]]:
    """Each claim of the book that falls under either plan, assessed under both."""
    from claimpack.commands.desk.desk import Desk
    from claimpack.commands.desk.gather import circumstances_in_book
    from claimpack.core.judging.assessment import assess
    from claimpack.core.plans.makers import is_maker_of

    desk = Desk(world, today)
    # the other plans stay within reach, since a claim may fall under one of them instead
    others = [plan for plan in desk.plans if plan.id not in (old.id, new.id)]
    with say.progress("Judging", desk.book.count()) as advance:
        for entry in desk.book.entries():
            claim = entry.claim
            # another maker's claims cannot be judged otherwise
            if is_maker_of(old, claim.maker) or is_maker_of(new, claim.maker):
                told = circumstances_in_book(entry, desk.shop, desk.day, desk.plans)
                one, other = (assess(claim, [*others, plan], desk.day, told) for plan in (old, new))
                yield claim.number, entry.standing.state, one, other
            advance()


def _tell(
    say: Say, claims: tuple[ClaimChange, ...] | None, pay: tuple[PaidChange, ...], keys: tuple[KeyChange, ...]
) -> None:
    if not (claims or pay or keys):
        say.answer(say.styled("NOTHING DIFFERS", "good"))
        return
    begin = _headings(say)
    if claims is not None:
        begin(f"Claims of the book that would be judged otherwise: {len(claims)}")
        for change in claims:
            said = "; ".join(_differs(name, change.before, change.after) for name in change.differing())
            say.item(say.mark("todo"), f"{change.number} ({change.state}): {said}")
    if pay:
        begin("What is paid")
        for paid in pay:
            say.item(say.mark("todo"), _paid_said(paid))
    if keys:
        begin("Keys")
        for key in keys:
            say.item("·", f"{key.key}: {key.before or 'not said'} → {key.after or 'not said'}")


def _headings(say: Say) -> Callable[[str], None]:
    """Headings with a blank line between what they head, and none before the first."""
    begun: list[str] = []

    def begin(title: str) -> None:
        if begun:
            say.heading(title)
        else:
            say.answer(say.styled(title, "strong"))
        begun.append(title)

    return begin


def _differs(name: str, before: ClaimOutcome, after: ClaimOutcome) -> str:
    from claimpack.core.values.money import plain

    one, other = getattr(before, name), getattr(after, name)
    words = [plain(each) if name == "claimed" and each is not None else str(each or "none") for each in (one, other)]
    return f"{'' if name == 'verdict' else name.replace('_', ' ') + ' '}{words[0]} → {words[1]}"


_MOST_COMPONENTS = 6


def _paid_said(change: PaidChange) -> str:
    first, last = _age_said(change.first), _age_said(change.last)
    when = first if first == last else f"{first} to {last}"
    unit = f" ({change.unit.says})" if change.unit.says else ""
    components = some_of(change.components, _MOST_COMPONENTS)
    return f"{components}; {', '.join(change.uses)}{unit}; {when}: {_said(change.before)} → {_said(change.after)}"


def _age_said(age: Age) -> str:
    if age.period is None:
        return "day of the sale"
    return {0: "last day of ", -1: "day before the last of ", 1: "day after "}[age.days] + age.period.in_words()


def _said(paid: Paid) -> str:
    from claimpack.commands.plans.trial_table import mixture_said, percent_said

    if paid.verdict != "covered":
        return paid.verdict
    named = " and ".join(paid.windows)
    if len(set(paid.shares)) > 1:
        return f"{named} ({mixture_said(paid.shares)})"
    return named if paid.shares[0] == 1 else f"{named} {percent_said(paid.shares[0])}"


def _claim_document(change: ClaimChange) -> dict[str, Any]:
    return {
        "claim": change.number,
        "state": change.state,
        "differs": list(change.differing()),
        "before": _outcome_document(change.before),
        "after": _outcome_document(change.after),
    }


def _outcome_document(outcome: ClaimOutcome) -> dict[str, Any]:
    from claimpack.core.values.money import plain_or_none

    return {
        "verdict": outcome.verdict,
        "window": outcome.window or None,
        "last_day": outcome.last_day.isoformat() if outcome.last_day else None,
        "claimed": plain_or_none(outcome.claimed),
    }


def _pay_document(change: PaidChange) -> dict[str, Any]:
    return {
        "differs_by": change.unit.says or None,
        "components": list(change.components),
        "uses": list(change.uses),
        "from": change.first.day.isoformat(),
        "to": change.last.day.isoformat(),
        "before": paid_document(change.before),
        "after": paid_document(change.after),
    }
