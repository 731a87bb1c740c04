import io
from pathlib import Path

import pytest
from running import NOW, Pipe, Terminal
from screen_columns import ending_under

from claimpack.commands.bench.labour_entries import (
    entry_json,
    span_of_other_days,
    tell_entries,
    worked_in_words,
)
from claimpack.commands.desk.say import Say
from claimpack.commands.desk.world import World
from claimpack.core.facts.lines import Labour
from claimpack.core.pricing.labour import LabourTime

AT_HALF_PAST_EIGHT = "2026-03-01T08:30:00-05:00"


def worked(ended, started=AT_HALF_PAST_EIGHT, **keys):
    whole = {"operation": "short-block-replace", "technician": "ann", "started": started, "ended": ended, **keys}
    return Labour.model_validate(whole)


def stated(hours, **keys):
    return Labour.model_validate({"operation": "clean", "technician": "ann", "hours": hours, **keys})


def a_voice(stream=Pipe):
    return Say(World(stdin=io.StringIO(), stdout=stream(), environ={"NO_COLOR": "1"}, folder=Path(), clock=NOW))


def told(*entries, stream=Pipe):
    say = a_voice(stream)
    tell_entries(say, entries, ())
    return [" ".join(line.split()) for line in say.world.stdout.getvalue().splitlines()]


def test_two_entries_of_one_operation_are_told_apart_by_day_and_time():
    lines = told(worked("2026-03-01T09:15:00-05:00"), worked("2026-03-02T09:15:00-05:00", "2026-03-02T08:30:00-05:00"))
    assert [line.split()[3:5] for line in lines[1:]] == [["2026-03-01", "08:30-09:15"], ["2026-03-02", "08:30-09:15"]]


@pytest.mark.parametrize(
    ("ended", "says"),
    [("2026-03-02T00:10:00-05:00", "08:30-00:10"), ("2026-03-03T00:10:00-05:00", "08:30-2026-03-03 00:10")],
    ids=["the next day", "a later day"],
)
def test_an_end_on_a_later_day_than_the_next_is_told_with_its_day(ended, says):
    assert says in told(worked(ended))[1]


def test_hours_that_were_stated_have_no_day():
    assert told(stated("1.5"))[1] == "1 clean ann 1.5 h - -"


def test_who_pays_is_told_where_it_is_not_the_maker():
    assert told(stated("1"), stated("1", payer="owner"))[2].endswith(" owner")


@pytest.mark.parametrize(
    ("columns", "titles"),
    [
        (60, "Operation Day From-to Worked"),
        (80, "Operation Who Day From-to Worked Claimed"),
        (100, "Operation Who Day From-to Worked Schedule Claimed"),
    ],
)
def test_what_the_maker_pays_gives_way_to_day_and_time(columns, titles, monkeypatch):
    monkeypatch.setenv("COLUMNS", str(columns))
    assert told(worked("2026-03-01T18:45:00-05:00"), stream=Terminal)[0] == titles


@pytest.mark.parametrize("columns", [60, 80, 100])
def test_no_line_is_wider_than_the_terminal(columns, monkeypatch):
    monkeypatch.setenv("COLUMNS", str(columns))
    say = a_voice(Terminal)
    tell_entries(
        say, [worked("2026-03-01T18:45:00-05:00", operation="carburettor taken apart and cleaned", payer="owner")], ()
    )
    assert max(map(len, say.world.stdout.getvalue().splitlines())) <= columns


@pytest.mark.parametrize(
    ("entry", "says"),
    [
        (stated("1.6"), "1.6 h"),
        (worked("2026-03-01T09:45:00-05:00"), "1 h 15 min"),
        (Labour.model_validate({"operation": "clean", "technician": "ann"}), "no time"),
    ],
)
def test_time_worked_is_told_as_it_was_written_down(entry, says):
    assert worked_in_words(entry) == says


@pytest.mark.parametrize(
    ("ended", "says"),
    [("2026-03-01T09:15:00-05:00", ""), ("2026-03-02T00:10:00-05:00", "2026-03-01 08:30 to 2026-03-02 00:10")],
)
def test_when_it_was_is_told_where_it_is_not_all_of_today(ended, says):
    assert span_of_other_days(a_voice(), worked(ended)) == says


def test_hours_and_places_stand_under_each_other():
    entries = [*[stated("1.5")] * 9, stated("10.25")]
    claimed = [LabourTime(entry, "", entry.hours, entry.hours, None) for entry in entries]
    say = a_voice()
    tell_entries(say, entries, claimed)
    shown = say.world.stdout.getvalue()
    hours = [*["1.5"] * 9, "10.25"]
    assert (ending_under(shown, "Schedule"), ending_under(shown, "Claimed")) == (hours, hours)
    assert ending_under(shown, "Worked") == ["h"] * 10
    assert [line[:2] for line in shown.splitlines()[1:]] == [f"{place:>2}" for place in range(1, 11)]


@pytest.mark.parametrize("ended", ["2026-03-01T09:45:00-05:00", None], ids=["ended", "still running"])
def test_work_that_has_not_ended_has_no_time_and_no_day(ended):
    entry = worked(ended)
    spans = [span_of_other_days(a_voice(), entry.model_copy(update={"started": day})) for day in (None, entry.started)]
    assert (worked_in_words(entry) == "no time", "08:30" in told(entry)[1]) == (ended is None, ended is not None)
    assert spans == ["", ""]


@pytest.mark.parametrize("times", [(), (LabourTime(stated("1"), "", stated("1.5").hours, None, None),)])
def test_scripts_read_what_is_claimed_where_there_is_a_plan_to_price_with(times):
    assert entry_json(1, stated("1"), times).get("claimed") == ("1.5" if times else None)
