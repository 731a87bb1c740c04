"""`claimpack pending`: what is filed and not settled, what to do first at the top."""

from __future__ import annotations

from enum import StrEnum
from typing import TYPE_CHECKING, Annotated, Any

from claimpack.commands.desk.options import Json, Today
from claimpack.commands.line.declared import Context, Option
from claimpack.core.values.numbers_said import how_many

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence
    from datetime import date

    from claimpack.commands.desk.desk import Desk
    from claimpack.commands.desk.say import Say
    from claimpack.core.payment.pending import Pending
    from claimpack.core.payment.refused_rests import RefusedRest
    from claimpack.core.plans.terms import Terms


class Group(StrEnum):
    """What a list of pending claims is grouped by."""

    maker = "maker"
    bucket = "bucket"
    turn = "turn"
    terms = "terms"
    shop = "shop"


def pending(
    context: Context,
    maker: Annotated[str, Option(help="Only the claims on this maker.")] = "",
    over: Annotated[int | None, Option(min=0, metavar="DAYS", help="Only claims older than this.")] = None,
    group: Annotated[Group | None, Option(metavar="maker|bucket|turn|terms|shop", help="Group the list.")] = None,
    json: Json = False,
    today: Today = "",
) -> int:
    """List what is filed and unpaid, what to do first on top."""
    from claimpack.commands.desk.desk import Desk, note_past
    from claimpack.commands.desk.say import Say
    from claimpack.commands.desk.terms_in_force import TermsInForce, tell_unread
    from claimpack.commands.manager.three_amounts import tell_amounts, watched_now
    from claimpack.core.events.states import PENDING
    from claimpack.core.payment import pending as core
    from claimpack.core.payment.refused_rests import refused_rests
    from claimpack.core.payment.remarks import rests_said
    from claimpack.core.reporting.three_amounts import as_json as amounts_as_json
    from claimpack.core.reporting.three_amounts import three_amounts

    say = Say(context.obj)
    desk = Desk(context.obj, today)
    desk.must_know_maker(maker)
    in_force = TermsInForce(desk, say)
    watched = watched_now(desk, in_force, maker)
    claims = [claim for claim in watched.claims if claim.state in PENDING]
    in_part = [claim for claim in watched.claims if claim.refused_rest]
    terms_of, first = watched.terms, three_amounts(watched, desk.day)
    ageing = desk.shop.settings.ageing
    items = core.older_than(over, core.pending(claims, terms_of, desk.day, ageing))
    tally = core.tally(items, ageing, desk.shop.settings.currency or "")
    groups = core.grouped(items, group.value, desk.shops.whose) if group else {}
    rests = refused_rests(in_part, terms_of)
    note_past(desk, say)
    if json:
        amounts = {"three_amounts": amounts_as_json(first, desk.shops.told, desk.shops.undated)}
        say.document({**_document(desk, items, tally, groups, rests), **amounts})
        return 0
    tell_amounts(say, first, desk)
    _tell(say, desk, items, groups, maker)
    _tell_totals(say, tally, ageing)
    if rests:
        say.heading("To decide")
    for said in rests_said(rests):
        say.item(say.mark("todo"), f"{said}.")
    _tell_terms(say, desk.day, items, rests, terms_of)
    tell_unread(say, first.unread)
    if any(item.days_overdue or item.owed_again for item in items):
        of_all = desk.shops.told is not None
        say.note(
            "Letters about all that a maker is late with, one of each shop's: claimpack chase --maker ID --all-shops"
            if of_all
            else "A letter about a late one: claimpack chase CLAIM"
        )
    if any(item.dates.audit_reached_to for item in items):
        say.note("A letter that contests a charge-back: claimpack chase CLAIM")
    if any(item.dates.no_grounds_on for item in items):
        say.note("No grounds on record: such a refusal counts as accepted by the terms. Where the maker gave a reason:")
        say.note("  claimpack answer CLAIM --undo --because TEXT, then the answer again with --because")
    refused = [item for item in items if item.state == "refused" and not item.part_awaited]
    if any(item.dates.answered_late or item.dates.no_grounds_on for item in refused):
        say.note("A letter that contests a refusal: claimpack chase CLAIM")
    return 0


def _document(
    desk: Desk,
    items: Sequence[Pending],
    tally: dict[str, Any],
    groups: dict[str, list[Pending]],
    rests: Sequence[RefusedRest],
) -> dict[str, Any]:
    from claimpack.core.payment.pending import as_json, tally_of
    from claimpack.core.payment.refused_rests import rest_as_json

    claims = [{**as_json(item), **desk.shops.with_shop(item.claim)} for item in items]
    document: dict[str, Any] = {"today": desk.day.isoformat(), "claims": claims}
    if groups:
        document["groups"] = [{"group": name, **tally_of(some)} for name, some in groups.items()]
    told = [{**rest_as_json(rest), **desk.shops.with_shop(rest.claim)} for rest in rests]
    return {**document, "totals": tally, "refused_rests": told}


def _tell(say: Say, desk: Desk, items: Sequence[Pending], groups: dict[str, list[Pending]], maker: str) -> None:
    from claimpack.core.payment.remarks import first_said

    say.heading(f"Pending on {desk.day}: {how_many(len(items), 'claim')} filed and not settled")
    if not items:
        say.note(f"Nothing {f'on {maker} ' if maker else ''}is filed and unpaid.")
        return
    say.item("·", first_said(items, desk.day))
    for name, some in (groups or {"": list(items)}).items():
        if name:
            say.heading(f"{name}: {how_many(len(some), 'claim')}, {_sums(some)} outstanding")
        else:
            say.answer()
        _tell_claims(say, desk, some)


def _sums(items: Iterable[Pending]) -> str:
    from claimpack.core.payment.pending import totals
    from claimpack.core.values.money import in_money

    return " and ".join(in_money(amount, currency) for currency, amount in totals(items)[0].items())


def _tell_claims(say: Say, desk: Desk, items: Sequence[Pending]) -> None:
    from claimpack.commands.screen.columns import ScreenColumn, Under, tell_columns
    from claimpack.core.values.money import in_money

    several = len({item.currency for item in items}) > 1
    money = [in_money(item.outstanding, item.currency) for item in items]
    if not several:
        money = [amount.partition(" ")[0] for amount in money]
    columns = (
        ScreenColumn("Claim", [item.claim for item in items], most=24),
        ScreenColumn("Shop", [desk.shops.shown(item.claim) for item in items], most=16),
        ScreenColumn("Maker", [item.maker for item in items], lesser=1, most=16),
        ScreenColumn("State", [item.state for item in items], lesser=2),
        ScreenColumn("Age", [str(item.age_days) for item in items], right=True),
        ScreenColumn("Bucket", [item.bucket for item in items], lesser=4),
        ScreenColumn("Outstanding", money, right=True),
        ScreenColumn("Turn", [item.turn for item in items], lesser=3),
        ScreenColumn("Answer by", [_answer_by(item) for item in items]),
        ScreenColumn("Pay by", [str(item.dates.pay_due or "") for item in items]),
        ScreenColumn("Late", [str(item.days_overdue or "") for item in items], right=True),
    )
    tell_columns(say, columns, [Under(_mark(item), _step(item)) for item in items], indent=1)


def _mark(item: Pending) -> str:
    return "fail" if item.is_late else "todo" if item.turn == "shop" else ""


def _answer_by(item: Pending) -> str:
    return f"{item.dates.answer_due or ''}{'?' if item.dates.answer_estimated else ''}"


def _step(item: Pending) -> str:
    """The next step, with the dates and the terms that no column has room for."""
    from claimpack.core.payment.next_step import step_with_dates

    said = step_with_dates(item.step, item.dates)
    said = f"{said} ({item.terms})" if item.terms and _is_dated(item) else said
    return (
        said if item.first_filed == item.filed else f"{said}; first filed on {item.first_filed}, again on {item.filed}"
    )


def _is_dated(item: Pending) -> bool:
    """Whether a section of the law has anything to do with it: none sets a day for money taken back in time."""
    return bool(item.dates.audit_reached_to or not item.dates.owed_again)


def _tell_totals(say: Say, tally: dict[str, Any], ageing: str) -> None:
    from decimal import Decimal

    from claimpack.core.values.ageing import AGED
    from claimpack.core.values.money import grouped

    by_currency = tally.get("by_currency") or {tally["currency"]: tally}
    for currency, sums in by_currency.items():
        say.heading(f"Outstanding: {grouped(Decimal(sums['outstanding']))} {currency or ''}".rstrip())
        say.table([(bucket, grouped(Decimal(amount))) for bucket, amount in sums["by_bucket"].items()], right=(1,))
    say.item("·", f"Counted in days {AGED[ageing]}.")


def _tell_terms(
    say: Say, today: date, items: Sequence[Pending], rests: Sequence[RefusedRest], terms_of: Mapping[str, Terms]
) -> None:
    from claimpack.commands.desk.terms_in_force import tell_sections

    dated = [item.claim for item in items if item.claim in terms_of and _is_dated(item)]
    dated += [rest.claim for rest in rests if rest.accepted_by_silence_on]
    tell_sections(say, (terms_of[claim] for claim in dated), today)
    if any(item.dates.answer_estimated for item in items):
        say.item(
            "·", "? counted from filing: the day of receipt is not noted. Note it: claimpack received CLAIM --on DATE"
        )
    if any(not item.terms and item.dates.terms_known for item in items):
        say.item("·", "Some claims have no terms, and so no dates: name them in shop.toml (terms, maker_terms).")
