from itertools import pairwise

import icalendar
import pytest
from manager_shop import a_managed_shop, filed_in, on, open_in, took_place


@pytest.fixture
def shop(tmp_path):
    return a_managed_shop(tmp_path)


def items(shop, *arguments, day="2026-03-20"):
    return on(day, "due", "--json", *arguments, shop=shop).json["items"]


def told(shop, *arguments, **how):
    return [(item["what"], item["on"], item["missed"]) for item in items(shop, *arguments, **how)]


def test_an_empty_book_has_nothing_due(shop):
    assert on("2026-03-20", "due", shop=shop).code == 0


def test_a_draft_and_its_missed_day_to_file_are_told(shop):
    open_in(shop)
    assert told(shop) == [("file by", "2025-12-31", True)]


def test_answer_payment_and_hold_are_told(shop):
    filed_in(shop, "26-0001", "2026-01-02", "2026-01-02")
    filed_in(shop, "26-0002", "2026-02-10", "2026-02-12")
    assert told(shop) == [
        ("payment expected", "2026-03-18", True),
        ("answer expected", "2026-03-29", False),
        ("keep the part until", "2026-04-02", False),
    ]


@pytest.mark.parametrize(("days", "told_of"), [(9, False), (10, True)])
def test_a_claim_to_look_at_again_is_told_up_to_the_last_day_asked_for(shop, days, told_of):
    open_in(shop)
    on("2026-03-20", "note", "26-0001", "Ask Halden.", "--again", "2026-03-30", shop=shop)
    assert ("2026-03-30" in [day for _, day, _ in told(shop, "--within", days)]) is told_of


def test_how_far_to_look_ahead_is_an_option(shop):
    filed_in(shop, received="2026-01-02")
    assert [len(told(shop, "--within", str(days))) for days in (12, 13)] == [1, 2]


def test_records_are_kept_after_payment(shop):
    filed_in(shop, "26-0001", "2026-01-02")
    took_place(shop, "26-0001", "paid", "2026-02-20", amount="150.00")
    assert told(shop, day="2027-02-10") == [("keep records until", "2027-02-20", False)]


def test_the_time_to_inspect_ends_a_hold(tmp_path):
    shop = a_managed_shop(tmp_path, "us-sc")
    filed_in(shop, received="2026-01-05")
    took_place(shop, "26-0001", "answered", "2026-01-20", answer="questioned")
    assert told(shop, day="2026-02-20") == [("keep the part until", "2026-03-03", False)]


def test_a_part_called_back_must_be_sent(shop):
    filed_in(shop)
    took_place(shop, "26-0001", "answered", "2026-01-20", answer="questioned")
    took_place(shop, "26-0001", "part called back", "2026-03-01", part="1", send_by="2026-03-10")
    item = items(shop)[0]
    assert (item["code"], item["part"], item["missed"], item["days"]) == ("26-0001/1", "short block", True, -10)


def test_the_list_parts_what_was_missed_from_what_is_coming(shop):
    filed_in(shop, received="2026-01-02")
    out = on("2026-03-20", "due", shop=shop).out
    assert out.index("Missed: 1") < out.index("2026-03-18") < out.index("Coming: 1") < out.index("2026-04-02")


def test_every_date_says_why_and_the_section(shop):
    filed_in(shop, received="2026-01-02")
    out = " ".join(on("2026-03-20", "due", shop=shop).out.split())
    assert "30 days from acceptance by silence on 2026-02-16 (Tex. Bus. & Com. Code 57.253, 57.257)" in out
    assert out.count("not legal advice") == 1


def test_the_dates_go_into_a_calendar(shop):
    filed_in(shop, received="2026-01-02")
    ran = on("2026-03-20", "due", "--calendar", "dates.ics", shop=shop)
    events = icalendar.Calendar.from_ical((shop / "dates.ics").read_bytes()).walk("VEVENT")
    assert (ran.code, [event.start.isoformat() for event in events]) == (0, ["2026-03-18", "2026-04-02"])


def test_a_second_calendar_updates_the_first(shop):
    filed_in(shop, received="2026-01-02")
    names = []
    for day in ("2026-03-20", "2026-03-21"):
        on(day, "due", "--calendar", "dates.ics", shop=shop)
        events = icalendar.Calendar.from_ical((shop / "dates.ics").read_bytes()).walk("VEVENT")
        names.append([str(event["UID"]) for event in events])
    assert names[0] == names[1]


@pytest.mark.parametrize("wrong", [["--within", "-1"], ["--today", "tomorrow"], ["--today", "9999-12-31"]])
def test_a_wrong_option_is_refused(shop, wrong):
    assert on("2026-03-20", "due", *wrong, shop=shop).code == 2


@pytest.mark.parametrize(("terminal", "width"), [(False, 100), (True, 80)])
def test_no_line_is_wider_than_the_page(shop, terminal, width):
    filed_in(shop, "26-0001-LONGEST-NUMBER-1", received="2026-01-02")
    ran = on("2026-03-20", "due", shop=shop, terminal=terminal, environ={"NO_COLOR": "1"})
    assert max(map(len, ran.out.split("\n"))) <= width


@pytest.fixture
def part_paid_late(shop):
    filed_in(shop, received="2026-01-02", held=[])
    took_place(shop, "26-0001", "answered", "2026-03-01", answer="part", amount="100.00")
    took_place(shop, "26-0001", "paid", "2026-03-05", amount="100.00")
    return shop


@pytest.mark.parametrize(("day", "missed"), [("2026-03-18", False), ("2026-03-19", True)])
def test_a_rest_refused_after_silence_keeps_its_day_when_the_part_is_paid(part_paid_late, day, missed):
    assert told(part_paid_late, day=day) == [("contest the refusal", "2026-03-18", missed)]


def test_a_refusal_to_contest_names_the_letter(part_paid_late):
    assert "claimpack chase CLAIM" in on("2026-03-18", "due", shop=part_paid_late).err


def test_a_paid_claim_with_a_refused_rest_is_told_of_once(tmp_path):
    shop = a_managed_shop(tmp_path)
    filed_in(shop, received="2026-01-02")
    took_place(shop, "26-0001", "answered", "2026-03-01", answer="part", amount="100.00")
    took_place(shop, "26-0001", "paid", "2026-03-05", amount="100.00")
    items = on("2026-03-10", "due", "--within", "400", "--json", shop=shop).json["items"]
    told = [(item["what"], item["on"]) for item in items]
    assert len(told) == len(set(told))
    assert {"contest the refusal", "keep records until"} <= {what for what, _ in told}


def test_a_calendar_goes_to_standard_output_alone(shop):
    ran = on("2026-03-20", "due", "--calendar", "-", shop=shop)
    assert (ran.code, ran.out.startswith("BEGIN:VCALENDAR"), (shop / "-").exists()) == (0, True, False)
    assert on("2026-03-20", "due", "--calendar", "-", "--json", shop=shop).code == 2


def test_a_part_is_told_by_its_code_and_a_claim_by_its_number(shop):
    filed_in(shop, "26-0001", "2026-01-02", "2026-01-02")
    rows = [line.split() for line in on("2026-03-20", "due", shop=shop).out.splitlines()]
    named = {word for row in rows for word in row if word.startswith("26-0001")}
    assert named == {"26-0001", "26-0001/1"}


@pytest.mark.parametrize("terminal", [False, True])
def test_a_calendar_is_text_that_a_terminal_shows(shop, terminal):
    filed_in(shop, "26-0001", "2026-01-02", "2026-01-02")
    ran = on("2026-03-20", "due", "--calendar", "-", shop=shop, terminal=terminal)
    assert (ran.code, ran.out.startswith("BEGIN:VCALENDAR"), "Coming" in ran.out) == (0, True, False)


def test_no_letter_is_named_where_nothing_is_to_be_contested(shop):
    filed_in(shop, "26-0001", "2026-01-02", "2026-01-02")
    assert "contests" not in on("2026-03-20", "due", shop=shop).err


def test_scripts_read_section_code_and_part_of_a_date_or_nothing(shop):
    open_in(shop, "26-0001")
    filed_in(shop, "26-0002", received="2026-01-02")
    told = {item["what"]: [item[key] for key in ("cites", "code", "part")] for item in items(shop)}
    assert told == {
        "file by": [None, None, None],
        "payment expected": ["Tex. Bus. & Com. Code 57.253, 57.257", None, None],
        "keep the part until": [None, "26-0002/1", "short block"],
    }


def test_the_time_to_inspect_runs_from_filing_whenever_the_maker_received_the_claim(tmp_path):
    shop = a_managed_shop(tmp_path, "us-sc")
    filed_in(shop, on="2026-01-02", received="2026-01-30")
    took_place(shop, "26-0001", "answered", "2026-02-10", answer="questioned")
    assert told(shop, "--within", "3", day="2026-03-01") == [("keep the part until", "2026-03-03", False)]


def test_what_the_shop_has_to_do_is_marked_apart_from_what_others_do_and_from_what_was_missed(shop):
    filed_in(shop, "26-0001", "2026-01-02", "2026-01-02")
    filed_in(shop, "26-0002", "2026-02-10", "2026-02-12", held=[])
    lines = on("2026-03-20", "due", shop=shop).out.splitlines()
    missed, makers, ours = (below.split()[0] for each, below in pairwise(lines) if each.startswith(" 2026-"))
    assert (makers, len({missed, makers, ours})) == ("·", 3)
