from __future__ import annotations

from datetime import date

import pytest
from reported_claims import shelved, told

from claimpack.reports.manager.held_parts import held_section

YOUNG, OLD = date(2025, 12, 1), date(2025, 11, 30)
"""90 and 91 days before the first of March 2026."""


def section(*parts):
    return held_section(told(held=parts))


def table(name, *parts):
    return next((table for table in section(*parts).tables if table.name == name), None)


@pytest.mark.parametrize(
    ("days", "title"),
    [
        ((YOUNG,), "0 parts have been kept for over 90 days"),
        ((YOUNG, OLD), "1 part has been kept for over 90 days"),
        ((OLD, OLD), "2 parts have been kept for over 90 days"),
    ],
)
def test_the_picture_says_how_many_are_old(days, title):
    parts = [shelved(f"26-000{index}/1", since=day) for index, day in enumerate(days)]
    assert section(*parts).charts[0].title == title


def test_every_state_has_a_row_and_the_last_adds_up():
    found = table("held-parts", shelved(), shelved("26-0002/1", state="called back", since=OLD))
    assert [row[0] for row in found.rows] == ["held", "called back", "released"]
    assert found.totals == [("All", 1, 0, 0, 1, 2)]


def test_a_state_without_parts_has_no_bar():
    words = [getattr(shape, "said", "") for shape in section(shelved()).charts[0].draw(500).shapes]
    assert ("held" in words, "released" in words) == (True, False)


def test_parts_whose_day_is_not_noted_have_a_column_of_their_own():
    headings = [column.heading for column in table("held-parts", shelved(since=None)).columns]
    assert headings[-2:] == ["no day noted", "All"]


def test_a_part_on_no_shelf_is_nowhere():
    assert table("parts-to-send", shelved(state="called back", shelf="")).rows[0][1] == "nowhere"


def test_parts_to_send_stand_in_the_order_they_are_wanted_those_without_a_day_last():
    days = {"26-0001/1": None, "26-0002/1": date(2026, 3, 31), "26-0003/1": date(2026, 3, 31), "26-0004/1": YOUNG}
    parts = [shelved(code, state="called back", send_by=day) for code, day in days.items()]
    codes = [row[0] for row in table("parts-to-send", *parts).rows]
    assert codes == ["26-0004/1", "26-0002/1", "26-0003/1", "26-0001/1"]


def test_a_part_that_may_go_says_by_which_rule():
    found = table("parts-that-may-go", shelved(rule="r", because="the hold ran out on 2026-02-28"))
    assert found.rows[0][-1] == "the hold ran out on 2026-02-28"


def test_a_part_the_count_missed_says_since_when():
    assert table("parts-not-found", shelved(missing=date(2026, 2, 28))).rows[0][-1] == date(2026, 2, 28)


def test_a_part_that_must_be_kept_is_in_no_list():
    assert [table.name for table in section(shelved()).tables] == ["held-parts"]
