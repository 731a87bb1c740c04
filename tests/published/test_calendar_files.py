"""Calendar files against RFC 5545, read back by the icalendar library and octet by octet."""

import datetime as dt

import icalendar
import pytest

from claimpack.core.payment.due_dates import DueItem
from claimpack.reports.calendar_file import calendar_file

AT = dt.datetime(2026, 3, 15, 8, 30, tzinfo=dt.timezone(dt.timedelta(hours=-5)))
LAST_DAY = dt.date(2026, 3, 15)
ITEM = DueItem(LAST_DAY, "file by", "26-0001", 0, "", "shop", "Code 57.253, 57.257; note", "by then\\or never")
LONG = ITEM._replace(because="Größe, ポンプ und Żółć: " * 20)


def written(*items, shop="Quarry Road"):
    return calendar_file(items, shop, AT)


def lines(content):
    """The content lines as RFC 5545 3.1 has them unfolded: octets first, then decoded."""
    return content.replace(b"\r\n ", b"").replace(b"\r\n\t", b"").decode().split("\r\n")


def the_event(*items):
    return icalendar.Calendar.from_ical(written(*items)).walk("VEVENT")[0]


@pytest.mark.source("RFC 5545 3.6.1: the end of an all-day event is exclusive (row C7, C9)")
def test_a_last_day_is_an_event_of_that_day_whose_end_is_the_next():
    said = lines(written(ITEM))
    assert {"DTSTART;VALUE=DATE:20260315", "DTEND;VALUE=DATE:20260316"} <= set(said)


@pytest.mark.source("RFC 5545 3.6.1: a DATE without end lasts one day (row C8)")
def test_an_event_lasts_one_day():
    event = the_event(ITEM)
    assert event.end - event.start == dt.timedelta(days=1)


@pytest.mark.source("RFC 5545 3.6.2: DUE of a VTODO is the midnight before (row C10)")
def test_a_day_to_do_something_by_is_no_todo_that_would_end_a_day_early():
    assert b"VTODO" not in written(ITEM)
    assert b"\r\nDUE" not in written(ITEM)


@pytest.mark.source("RFC 5545 3.1: lines end in CRLF (row C11)")
def test_every_line_ends_in_carriage_return_and_line_feed():
    content = written(ITEM, LONG)
    assert content.endswith(b"END:VCALENDAR\r\n")
    assert b"\r" not in content.replace(b"\r\n", b"")
    assert b"\n" not in content.replace(b"\r\n", b"")


@pytest.mark.source("RFC 5545 3.1: no line longer than 75 octets (row C11, C12)")
@pytest.mark.parametrize(
    "item", [ITEM, LONG, ITEM._replace(claim="W26-LONGEST-NUMBER-OF-24", part="ポンプ" * 30, nth=3)]
)
def test_no_line_has_more_than_75_octets(item):
    assert max(map(len, written(item, item).split(b"\r\n"))) <= 75


@pytest.mark.source("RFC 5545 3.1: a character of several octets stays whole (row C12)")
def test_no_line_is_folded_inside_a_character():
    folded = written(LONG).split(b"\r\n")
    assert [part.decode().encode() for part in folded] == folded


@pytest.mark.source("RFC 5545 3.1: unfolding gives the text back (row C11)")
def test_unfolded_the_text_is_whole():
    assert LONG.because.strip() in next(
        line for line in lines(written(LONG)) if line.startswith("DESCRIPTION")
    ).replace("\\,", ",")


@pytest.mark.memory
def test_every_event_has_a_uid_and_a_time_stamp_in_utc():
    said = lines(written(ITEM))
    assert "DTSTAMP:20260315T133000Z" in said
    assert [line for line in said if line.startswith("UID:")]


@pytest.mark.memory
def test_backslash_semicolon_comma_and_line_break_are_escaped():
    line = next(line for line in lines(written(ITEM)) if line.startswith("DESCRIPTION"))
    assert r"by then\\or never.\nSection: Code 57.253\, 57.257\; note" in line


@pytest.mark.source("RFC 5545 3.3.11 read back by the icalendar library")
def test_a_reader_gets_the_text_back():
    assert "by then\\or never.\nSection: Code 57.253, 57.257; note" in str(the_event(ITEM)["DESCRIPTION"])


@pytest.mark.source("RFC 5545 3.4, 3.6: one VCALENDAR with version and product")
def test_the_file_is_one_calendar_of_version_two():
    said = lines(written(ITEM, LONG))
    assert (said[0], said.count("BEGIN:VCALENDAR"), said.count("VERSION:2.0")) == ("BEGIN:VCALENDAR", 1, 1)
    assert [line for line in said if line.startswith("PRODID:")]


@pytest.mark.source("RFC 5545 3.8.4.7: a UID names one event for ever")
def test_events_of_different_dates_have_different_uids():
    items = [ITEM, ITEM._replace(what="answer expected"), ITEM._replace(nth=1), ITEM._replace(claim="26-0002")]
    uids = [line for line in lines(written(*items)) if line.startswith("UID:")]
    assert len(set(uids)) == len(items)
