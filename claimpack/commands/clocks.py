"""Running labour clocks: whose one is meant, and how one is told."""

from __future__ import annotations

from shlex import quote
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from claimpack.book.entries import Clock
    from claimpack.commands.desk import Desk
    from claimpack.commands.say import Say


def who_works(desk: Desk, technician: str) -> str:
    """The technician named, else who is at work; as the running clock spells the name, if one runs."""
    from claimpack.core.words import folded

    wanted = technician or desk.world.who()
    running = (clock.technician for clock in desk.book.clocks())
    return next((name for name in running if folded(name) == folded(wanted)), wanted)


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
    from claimpack.core.clock import is_forgotten, shop_time, time_between, time_in_words

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
    from claimpack.core.words import folded

    mine = folded(technician) == folded(desk.world.who())
    return "claimpack labour stop" if mine else f"claimpack labour stop --technician {quote(technician)}"


def stop_earlier(clock: Clock) -> str:
    """What to do about a clock that ran longer than the work."""
    stop = f"claimpack labour stop --technician {quote(clock.technician)} --at {clock.started:%Y-%m-%d}T…"
    return f"Say when the work ended: {stop}"


def clock_json(desk: Desk, clock: Clock) -> dict[str, Any]:
    """A running clock as scripts read it."""
    from claimpack.core.clock import is_forgotten, time_between

    now = desk.world.now()
    minutes = int(time_between(clock.started, now).total_seconds()) // 60
    forgotten = is_forgotten(clock.started, now, desk.world.shown)
    return {**clock._asdict(), "started": clock.started.isoformat(), "minutes": minutes, "forgotten": forgotten}


def throw_away(desk: Desk, say: Say, clock: Clock, *, yes: bool, json: bool) -> int:
    """Forget a clock and its time, once the user agrees; the exit code."""
    from claimpack.core.clock import shop_time

    since = shop_time(clock.started, desk.world.shown)
    if not say.agrees(f"Throw away the time since {since} on {clock.operation}?", yes):
        return 4
    thrown = clock_json(desk, clock)
    desk.book.drop_clock(clock.technician)
    if json:
        say.document({"claim": clock.claim, "discarded": thrown})
    else:
        say.answer(f"{clock.claim}: {clock.technician}'s clock on {clock.operation} was thrown away")
    return 0
