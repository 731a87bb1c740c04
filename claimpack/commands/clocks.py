"""Running labour clocks: whose one is meant, and how one is told."""

from __future__ import annotations

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
    from claimpack.core.clock import is_forgotten, time_between, time_in_words

    now = desk.world.now()
    ran = time_in_words(time_between(clock.started, now))
    text = f"{clock.claim}  {clock.operation}, {clock.technician}, since {clock.started:%Y-%m-%d %H:%M} ({ran})"
    if is_forgotten(clock.started, now):
        stop = f"claimpack labour stop --technician {clock.technician!r} --at {clock.started:%Y-%m-%d}T…"
        say.item(say.mark("fail"), f"{text}: FORGOTTEN. Say when the work ended: {stop}", indent=0)
    else:
        say.item(say.mark("todo"), text, indent=0)


def clock_json(desk: Desk, clock: Clock) -> dict[str, Any]:
    """A running clock as scripts read it."""
    from claimpack.core.clock import is_forgotten, time_between

    now = desk.world.now()
    minutes = int(time_between(clock.started, now).total_seconds()) // 60
    started = clock.started.isoformat()
    return {**clock._asdict(), "started": started, "minutes": minutes, "forgotten": is_forgotten(clock.started, now)}
