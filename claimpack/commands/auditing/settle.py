"""`claimpack audit settle`: a finding that was talked about is settled with a reason, or taken up again."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated

from claimpack.commands.desk.options import Json, Today
from claimpack.commands.line.declared import Argument, Context, Option

if TYPE_CHECKING:
    from claimpack.core.auditing.audited import Irregularity


def settle(
    context: Context,
    rule: Annotated[str, Argument(metavar="RULE", help="The rule that found it.")],
    claims: Annotated[list[str], Argument(metavar="CLAIM", help="The claims it is about.")],
    because: Annotated[str, Option(metavar="TEXT", help="Why there is nothing in it.")] = "",
    undo: Annotated[bool, Option("--undo", help="Take it up again.")] = False,
    today: Today = "",
    json: Json = False,
) -> int:
    """Settle what an audit found, with a reason.

    It is settled until its facts change: then it is another finding.
    """
    from claimpack.book.refusals import of_another_shop
    from claimpack.commands.auditing.looked_at import audited, one_line
    from claimpack.commands.desk.desk import Desk
    from claimpack.commands.desk.one_claim import number_of
    from claimpack.commands.desk.say import Say
    from claimpack.core.auditing.audited import Scope
    from claimpack.core.auditing.report.audit import chosen_rules
    from claimpack.core.auditing.report.settled import MARK, asked_for, settled_in, settling, split, taking_up

    desk, say = Desk(context.obj, today), Say(context.obj)
    chosen_rules([rule])
    entries = [desk.book.get(number_of(claim)) for claim in claims]
    for claim, standing in () if desk.world.all_shops else ((each.claim, each.standing) for each in entries):
        if standing.shop != desk.shop_id:
            raise of_another_shop(claim.number, standing.shop, "Settle it among all of them: add --all-shops")
    numbers = [entry.claim.number for entry in entries]
    # what one shop's claims do not show another's may
    whose = "--all-shops" if desk.book.holds_several() else ""
    everything = chosen_rules((), desk.shop.settings.audit_off)
    rules = everything if any(each.id == rule for each in everything) else chosen_rules([rule])
    report = audited(desk, say, rules, Scope(frozenset(numbers)))
    open_ones, done = split(report.found, settled_in(reversed(desk.book.told(MARK))))
    found: list[Irregularity]
    if undo:
        found = asked_for([each for each, _ in done], rule, numbers, "settled", whose)
    else:
        found = asked_for(open_ones, rule, numbers, "open", whose)
    record = taking_up if undo else settling
    for each in found:
        event = record(each, because, desk.day)
        with desk.changing(each.claims[0]) as changing:
            changing.keep(changing.claim, event)
    if json:
        told = [{"rule": each.rule, "claims": each.claims, "what": each.what} for each in found]
        say.document({"settled": [] if undo else told, "taken_up": told if undo else [], "because": because})
    else:
        for each in found:
            say.answer(f"{'Taken up again' if undo else 'Settled'}: {one_line(each)}")
    return 0
