"""Dates to keep as a calendar file of RFC 5545: an all-day event on the last day of each."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import UTC, datetime
from typing import TYPE_CHECKING

from claimpack.core.payment.due_dates import DueItem
from claimpack.core.values.periods import Period, moved
from claimpack.errors import NotInstalled
from claimpack.installed import install_command
from claimpack.version import __version__

if TYPE_CHECKING:
    from icalendar import Event

_CHECK = "Check the current text of the section and the dealer agreement; not legal advice."


def calendar_file(items: Iterable[DueItem], shop: str, at: datetime) -> bytes:
    """The dates as an iCalendar file; a second file of the same shop updates the events of the first.

    Args:
        items: the dates.
        shop: the shop's name, which keeps its events apart from another shop's.
        at: when the file is made.

    Raises:
        NotInstalled: the library that writes calendars is not there.

    Source: RFC 5545 3.6.1 (events of one day), 3.8.4.7 (UID), 3.8.7.2 (DTSTAMP in UTC).
    """
    try:
        from icalendar import Calendar
    except ModuleNotFoundError:
        raise NotInstalled(
            "calendar files need a library that this machine lacks",
            do=f"Install it: {install_command('icalendar')}",
        ) from None
    calendar = Calendar()
    calendar.add("version", "2.0")
    calendar.add("prodid", f"-//claimpack//claimpack {__version__}//EN")
    calendar.add("x-wr-calname", f"Warranty claims, {shop}" if shop else "Warranty claims")
    for item in items:
        calendar.add_component(_event(item, shop, at.astimezone(UTC)))
    return bytes(calendar.to_ical())


def _event(item: DueItem, shop: str, at: datetime) -> Event:
    from icalendar import Event

    event = Event()
    # the same for the same date of a claim, so that importing again updates it
    event.add("uid", item.uid(shop))
    event.add("dtstamp", at)
    event.add("dtstart", item.on)
    # an end is not part of an event: a day ends on the next one (RFC 5545, 3.6.1)
    event.add("dtend", moved(item.on, Period(days=1)))
    # a date to keep takes nobody's time, and must not refuse them appointments
    event.add("transp", "TRANSPARENT")
    event.add("summary", f"{item.what[0].upper()}{item.what[1:]}: claim {item.code or item.claim}")
    event.add("description", "\n".join(_described(item)))
    return event


def _described(item: DueItem) -> list[str]:
    said = [f"The {item.whose}'s turn.", f"Why: {item.because}."]
    if item.part:
        said.append(f"Part: {item.part}.")
    if item.cites:
        said += [f"Section: {item.cites}.", _CHECK]
    return said
