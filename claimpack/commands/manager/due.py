"""`claimpack due`: everything with a date in the next days, or missed; as a list or as a calendar file."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any

from claimpack.commands.desk.options import Json, Today
from claimpack.commands.line.declared import Context, Option
from claimpack.core.values.numbers_said import how_many

if TYPE_CHECKING:
    from collections.abc import Sequence
    from datetime import date

    from claimpack.commands.desk.desk import Desk
    from claimpack.commands.desk.say import Say
    from claimpack.commands.desk.terms_in_force import TermsInForce
    from claimpack.core.payment.due_dates import DueItem


def due(
    context: Context,
    within: Annotated[int, Option(min=0, max=3650, metavar="DAYS", help="How far to look ahead.")] = 14,
    calendar: Annotated[
        Path | None,
        Option(metavar="FILE", help="Write a calendar file (.ics) too; - for standard output."),
    ] = None,
    json: Json = False,
    today: Today = "",
) -> int:
    """List what must be done by when, and what was missed."""
    from claimpack.commands.desk.desk import Desk, note_past
    from claimpack.commands.desk.named_files import answering_beside, goes_to_stdout
    from claimpack.commands.desk.say import Say
    from claimpack.commands.desk.terms_in_force import TermsInForce, tell_unread
    from claimpack.core.payment.due_dates import CONTEST, CONTEST_CHARGE_BACK
    from claimpack.core.plans.terms import claims_by_terms
    from claimpack.core.values.periods import Period, moved

    world = answering_beside(context.obj, calendar, json, "--calendar", is_text=True)
    say = Say(world)
    desk = Desk(context.obj, today)
    until = moved(desk.day, Period(days=within))
    items, unread = _items(desk, TermsInForce(desk, say), until)
    file = _write_calendar(desk, items, context.obj.path(calendar)) if calendar else None
    note_past(desk, say)
    if json:
        say.document(_document(desk, until, items, file) | {"terms_unread": claims_by_terms(unread)})
        return 0
    if goes_to_stdout(calendar):
        return 0
    _tell(say, desk, until, items)
    tell_unread(say, unread)
    if any(item.what == CONTEST for item in items):
        say.note("A letter that contests a refusal: claimpack chase CLAIM")
    if any(item.what == CONTEST_CHARGE_BACK for item in items):
        say.note("A letter that contests a charge-back: claimpack chase CLAIM")
    if file:
        say.note(
            f"{file} holds {how_many(len(items), 'date')}. Import it into a calendar; importing it again updates them."
        )
    return 0


def _items(desk: Desk, terms: TermsInForce, until: date) -> tuple[list[DueItem], dict[str, str]]:
    """Everything with a date, and what the terms of claims are named by where they cannot be read and give none."""
    from claimpack.book.tables.entries import Wanted
    from claimpack.core.events.states import PENDING
    from claimpack.core.payment import due_dates as core
    from claimpack.core.plans.terms import unread_of

    between = (desk.day, until)
    known = terms.every()
    reaches = {one.audit_reach for one in known if one.audit_reach}
    # claims paid so long ago that an audit by these terms ends in between
    paid = [core.starts_of(reach, between) for reach in sorted(reaches)]
    # two questions with an index each; a claim that answers both is told once below
    waiting = desk.book.claims(Wanted(states=PENDING)) + desk.book.claims(Wanted(refused_rest=True))
    with_a_date = waiting + desk.drafts_due(until) + desk.book.paid_within(paid)
    claims = list({claim.number: claim for claim in with_a_date}.values())
    days_filed, days_received = (
        [
            core.starts_of(one.inspect_within, between)
            for one in known
            if one.inspect_within and one.inspect_from == role
        ]
        for role in ("filed", "received")
    )
    parts = desk.held_due(until, days_filed, days_received)
    named = [(claim.number, claim) for claim in claims] + [(part.claim, part) for part in parts]
    in_force = terms.by_claim(named)
    found = core.due(claims, parts, in_force, between)
    # terms give a draft no day
    filed = {number: in_force[number] for number, one in named if one.filed and number in in_force}
    return core.in_order([*found, *_to_look_again(desk, until)]), unread_of(filed)


def _to_look_again(desk: Desk, until: date) -> list[DueItem]:
    """The claims that a note says to look at again, up to a day."""
    from claimpack.core.payment.due_dates import look_again
    from claimpack.core.steps.notes import to_look_again

    numbers = dict.fromkeys(event.claim for event in desk.book.told("again") if event.what in ("noted", "chased"))
    notes = ((number, to_look_again(desk.book.history(number))) for number in numbers)
    return [look_again(number, note) for number, note in notes if note and note.again and note.again <= until]


def _write_calendar(desk: Desk, items: Sequence[DueItem], target: Path) -> str:
    from claimpack.commands.desk.named_files import write_named
    from claimpack.reports.calendar_file import calendar_file

    write_named(desk.world, target, calendar_file(items, desk.shops.name_shown, desk.world.now()))
    return str(target)


def _document(desk: Desk, until: date, items: Sequence[DueItem], file: str | None) -> dict[str, Any]:
    today = desk.day
    return {
        "today": today.isoformat(),
        "until": until.isoformat(),
        "items": [
            {
                "on": item.on.isoformat(),
                "what": item.what,
                "claim": item.claim,
                "code": item.code or None,
                "part": item.part or None,
                "whose": item.whose,
                "missed": item.missed(today),
                "days": (item.on - today).days,
                "cites": item.cites or None,
                "because": item.because,
                **desk.shops.with_shop(item.claim),
            }
            for item in items
        ],
        "calendar": file,
    }


def _tell(say: Say, desk: Desk, until: date, items: Sequence[DueItem]) -> None:
    from claimpack.core.payment.payment_dates import CHECK

    today = desk.day
    missed = [item for item in items if item.missed(today)]
    coming = [item for item in items if not item.missed(today)]
    said = f"Due from {today} to {until}: {how_many(len(coming), 'date')}, and {len(missed)} missed"
    say.answer(say.styled(said, "strong"))
    for title, some in (("Missed", missed), ("Coming", coming)):
        if some:
            say.heading(f"{title}: {len(some)}")
            _tell_items(say, desk, some)
    # a section on a screen is taken for advice
    if any(item.cites for item in items):
        say.answer()
        say.item("·", CHECK)


def _tell_items(say: Say, desk: Desk, items: Sequence[DueItem]) -> None:
    from claimpack.commands.screen.columns import ScreenColumn, Under, tell_columns
    from claimpack.commands.screen.telling import how_far

    today = desk.day
    columns = (
        ScreenColumn("On", [str(item.on) for item in items]),
        ScreenColumn("When", [how_far((item.on - today).days) for item in items]),
        ScreenColumn("What", [item.what for item in items]),
        ScreenColumn("Claim", [item.code or item.claim for item in items], most=28),
        ScreenColumn("Shop", [desk.shops.shown(item.claim) for item in items], most=16),
        ScreenColumn("Part", [item.part for item in items], lesser=2, least=18),
        ScreenColumn("Whose", [item.whose for item in items], lesser=1),
    )
    under = [
        Under("fail" if item.missed(today) else "todo" if item.whose == "shop" else "", _why(item)) for item in items
    ]
    tell_columns(say, columns, under, indent=1)


def _why(item: DueItem) -> str:
    return f"{item.because} ({item.cites})" if item.cites else item.because
