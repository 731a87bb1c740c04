import datetime as dt
import sys

import icalendar
import pytest

from claimpack.core.payment.due_dates import DueItem
from claimpack.errors import NotInstalled
from claimpack.reports.calendar_file import calendar_file

AT = dt.datetime(2026, 3, 20, 8, 0, tzinfo=dt.timezone(dt.timedelta(hours=-5)))
ITEM = DueItem(
    dt.date(2026, 4, 2),
    "keep the part until",
    "26-0001",
    1,
    "short block",
    "shop",
    "Code 1; section 2",
    "the hold ends",
)
OTHER = ITEM._replace(what="file by", nth=0, part="", cites="")


def events(*items, shop="Quarry Road", at=AT):
    return icalendar.Calendar.from_ical(calendar_file(items, shop, at)).walk("VEVENT")


def test_a_date_is_an_event_of_its_day():
    event = events(ITEM)[0]
    assert (event.start, event.end, str(event["SUMMARY"])) == (
        dt.date(2026, 4, 2),
        dt.date(2026, 4, 3),
        "Keep the part until: claim 26-0001/1",
    )


def test_the_description_says_whose_turn_it_is_why_and_the_section():
    said = str(events(ITEM)[0]["DESCRIPTION"])
    wanted = ("The shop's turn.", "the hold ends", "short block", "Code 1; section 2", "not legal advice")
    assert [part for part in wanted if part not in said] == []


def test_without_a_section_there_is_nothing_to_check():
    assert "legal" not in str(events(OTHER)[0]["DESCRIPTION"])


def test_a_later_file_names_the_same_events_and_is_newer():
    moved = ITEM._replace(on=dt.date(2026, 5, 2))
    first, later = events(ITEM)[0], events(moved, at=AT + dt.timedelta(days=1))[0]
    assert (first["UID"], first["DTSTAMP"].dt < later["DTSTAMP"].dt) == (later["UID"], True)


def test_an_event_takes_nobodys_day():
    assert events(ITEM)[0]["TRANSP"] == "TRANSPARENT"


def test_a_calendar_without_dates_is_a_calendar():
    assert events() == []


def test_without_the_library_it_says_how_to_install_it(monkeypatch):
    monkeypatch.setitem(sys.modules, "icalendar", None)
    with pytest.raises(NotInstalled, match="calendar files"):
        calendar_file([ITEM], "", AT)
