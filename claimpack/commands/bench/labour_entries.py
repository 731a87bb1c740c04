"""Labour entries and running clocks as they are told: who works or worked, when, how long, and what is claimed."""

from __future__ import annotations

from collections.abc import Sequence
from shlex import quote
from typing import TYPE_CHECKING, Any

from claimpack.core.values.numbers_said import hours_said

if TYPE_CHECKING:
    from claimpack.book.tables.entries import Clock
    from claimpack.commands.desk.desk import Desk
    from claimpack.commands.desk.say import Say
    from claimpack.core.facts.lines import Labour
    from claimpack.core.pricing.labour import LabourTime


_DAY = len("2026-03-14")


def tell_entries(say: Say, entries: Sequence[Labour], times: Sequence[LabourTime]) -> None:
    """The entries in columns; where there is little room the schedule, who worked and what is claimed give way."""
    from claimpack.commands.screen.columns import ScreenColumn, tell_columns

    when = [_when(say, entry) for entry in entries]
    columns = [
        ScreenColumn("", [str(place) for place in range(1, len(entries) + 1)], right=True),
        ScreenColumn("Operation", [entry.operation for entry in entries], most=say.world.width() // 3 - 2),
        ScreenColumn("Who", [entry.worker for entry in entries], lesser=3, most=12),
        ScreenColumn("Day", [day for day, _ in when]),
        ScreenColumn("From-to", [span for _, span in when]),
        ScreenColumn("Worked", [worked_in_words(entry) for entry in entries], right=True),
        ScreenColumn("Schedule", _hours(times, len(entries), "schedule"), right=True, lesser=4),
        ScreenColumn("Claimed", _hours(times, len(entries), "claimed"), right=True, lesser=2),
        ScreenColumn("Pays", ["" if entry.payer == "maker" else entry.payer for entry in entries], lesser=1),
    ]
    tell_columns(say, columns, indent=0)


def _when(say: Say, entry: Labour) -> tuple[str, str]:
    """The day work began, and from when to when as the shop's clocks show it; empty where it is not known."""
    from claimpack.core.values.clock import shop_time

    if entry.started is None or entry.ended is None:
        return "", ""
    first, last = (shop_time(at, say.world.shown) for at in (entry.started, entry.ended))
    # a shift into the morning is understood without its second day
    is_one_night = (entry.ended.date() - entry.started.date()).days <= 1
    return first[:_DAY], f"{first[_DAY + 1 :]}-{last[_DAY + 1 :] if is_one_night else last}"


def _hours(times: Sequence[LabourTime], count: int, of: str) -> list[str]:
    from claimpack.core.values.money import plain

    hours = [getattr(time, of) for time in times] or [None] * count
    return ["-" if each is None else plain(each) for each in hours]


def worked_in_words(entry: Labour) -> str:
    """How long somebody worked: `1.6 h` as stated, `1 h 15 min` by the clock."""
    from claimpack.core.values.clock import time_between, time_in_words

    if entry.hours is not None:
        return hours_said(entry.hours)
    if entry.started is None or entry.ended is None:
        return "no time"
    return time_in_words(time_between(entry.started, entry.ended))


def span_of_other_days(say: Say, entry: Labour) -> str:
    """From when to when, where that is not all of today; else empty."""
    from claimpack.core.values.clock import span_in_words

    if entry.started is None or entry.ended is None:
        return ""
    is_today = entry.started.date() == entry.ended.date() == say.world.today()
    return "" if is_today else span_in_words(entry.started, entry.ended, say.world.shown)


def entry_json(place: int, entry: Labour, times: Sequence[LabourTime]) -> dict[str, Any]:
    """An entry as scripts read it, its place counted from 1."""
    from claimpack.core.values.money import plain, plain_or_none

    told = {"n": place, **entry.model_dump(mode="json")}
    if not times:
        return told
    time = times[place - 1]
    return told | {
        "claimed": plain(time.claimed),
        "schedule": plain_or_none(time.schedule),
        "clocked": plain_or_none(time.clocked),
    }


def who_works(desk: Desk, technician: str) -> str:
    """The technician named, else who is at work, as the running clock spells it; empty where no name is known."""
    from claimpack.core.values.words import folded

    # a maker reads this name, and one that stands for anybody tells nothing
    wanted = technician or desk.world.own_name()
    running = (clock.technician for clock in desk.book.clocks())
    # a clock started as Ben is stopped by ben
    return next((name for name in running if folded(name) == folded(wanted)), wanted)


def whose_clock(desk: Desk, technician: str) -> str:
    """The technician whose clock is meant.

    Raises:
        BadInput: nobody is named, and the login has no name.
    """
    from claimpack.errors import BadInput

    who = who_works(desk, technician)
    if not who:
        why = "A clock is a technician's, and this login has no name."
        raise BadInput("whose clock is meant is not known", why, "Name the technician: --technician NAME")
    return who


def clock_of(desk: Desk, technician: str) -> Clock:
    """A technician's running clock.

    Raises:
        NotFound: none is running; those that are get named.
    """
    from claimpack.errors import NotFound

    clocks = desk.book.clocks()
    found = next((clock for clock in clocks if clock.technician == technician), None)
    if found:
        return found
    others = ", ".join(f"{clock.technician} on {clock.claim}" for clock in clocks)
    raise NotFound(
        f"{technician} has no running clock that could be stopped",
        f"Running: {others}." if others else "No clock is running.",
        "Name the technician: --technician NAME" if others else "Write the time down: claimpack labour add CLAIM …",
    )


def tell_clock(desk: Desk, say: Say, clock: Clock) -> None:
    """A line about a running clock; a forgotten one says how to stop it."""
    from claimpack.core.values.clock import is_forgotten, shop_time, time_between, time_in_words

    now = desk.world.now()
    ran = time_in_words(time_between(clock.started, now))
    since = shop_time(clock.started, desk.world.shown)
    text = f"{clock.claim}  {clock.operation}, {clock.technician}, since {since} ({ran})"
    if is_forgotten(clock.started, now, desk.world.shown):
        say.item(say.mark("fail"), f"{text}: FORGOTTEN. {stop_earlier(clock)}", indent=0)
    else:
        say.item(say.mark("todo"), text, indent=0)


def stop_command(desk: Desk, technician: str) -> str:
    """What stops a technician's clock from this login; somebody else is named."""
    from claimpack.core.values.words import folded

    mine = folded(technician) == folded(desk.world.who())
    return "claimpack labour stop" if mine else f"claimpack labour stop --technician {quote(technician)}"


def stop_earlier(clock: Clock) -> str:
    """What to do about a clock that ran longer than the work."""
    stop = f"claimpack labour stop --technician {quote(clock.technician)} --at {clock.started:%Y-%m-%d}T…"
    return f"Say when the work ended: {stop}"


def clock_json(desk: Desk, clock: Clock) -> dict[str, Any]:
    """A running clock as scripts read it."""
    from claimpack.core.values.clock import is_forgotten, time_between

    now = desk.world.now()
    # whole minutes that are over: a clock just started ran for none
    minutes = int(time_between(clock.started, now).total_seconds()) // 60
    forgotten = is_forgotten(clock.started, now, desk.world.shown)
    return {**clock._asdict(), "started": clock.started.isoformat(), "minutes": minutes, "forgotten": forgotten}


def throw_away(desk: Desk, say: Say, clock: Clock, *, yes: bool, json: bool) -> int:
    """Forget a clock and its time, once the user agrees; the exit code."""
    from claimpack.commands.talk.yes_or_no import agrees
    from claimpack.core.values.clock import shop_time

    since = shop_time(clock.started, desk.world.shown)
    if not agrees(say, f"Throw away the time since {since} on {clock.operation}?", yes, json=json):
        return 4
    thrown = clock_json(desk, clock)
    desk.book.drop_clock(clock.technician)
    if json:
        say.document({"claim": clock.claim, "discarded": thrown})
    else:
        say.answer(f"{clock.claim}: {clock.technician}'s clock on {clock.operation} was thrown away")
    return 0
