import datetime as dt
from pathlib import Path

import pytest
from running import NOW, claimpack, claimpack_in_bytes
from shops_with_claims import a_copy

from claimpack.commands.desk.named_files import ending_of
from claimpack.commands.desk.options import a_date, as_given, meters_told, one_meter, the_day
from claimpack.commands.desk.world import World
from claimpack.errors import BadInput


@pytest.mark.parametrize(("name", "ending"), [("sheet.pdf", ".pdf"), ("SHEET.PDF", ".pdf"), (None, "")])
def test_the_ending_says_what_is_to_be_written(name, ending):
    assert ending_of(name and Path(name), (".pdf", ".csv"), "It is printed.") == ending


@pytest.mark.parametrize(
    ("endings", "what", "do"),
    [
        ((".pdf",), "--out: p.txt is not a PDF file", "Let the name end in .pdf."),
        ((".pdf", ".csv"), "--out: p.txt is neither a PDF nor a CSV file", "Let the name end in .pdf or .csv."),
    ],
)
def test_another_ending_is_refused_with_those_there_are(endings, what, do):
    with pytest.raises(BadInput) as refused:
        ending_of(Path("p.txt"), endings, "It is printed.")
    assert (refused.value.what, refused.value.do) == (what, do)


@pytest.mark.parametrize("name", ["p", ".pdf", "pdf"])
def test_a_name_without_an_ending_is_refused(name):
    with pytest.raises(BadInput, match="is not a PDF file"):
        ending_of(Path(name), (".pdf",), "It is printed.")


@pytest.mark.parametrize(
    "command",
    [
        ("hold", "tag", "26-0001/1", "--out", "tag.txt"),
        ("hold", "sheet", "--out", "sheet.txt"),
        ("hold", "send", "26-0001/1", "--slip", "slip.txt"),
        ("chase", "26-0001", "--out", "letter.txt"),
    ],
)
def test_no_command_writes_a_pdf_under_another_ending(tmp_path, command):
    ran = claimpack(*command, folder=tmp_path)
    assert (ran.code, ".txt is " in ran.err, "end in .pdf" in ran.err) == (2, True, True)


FILES = (
    ("packet", "26-0001", "--out"),
    ("packet", "26-0001", "--filed", "--out"),
    ("tag", "26-0001", "--out"),
    ("hold", "tag", "26-0001/1", "--out"),
    ("hold", "sheet", "--out"),
)


@pytest.mark.parametrize("command", FILES, ids=lambda command: " ".join(command[:2]))
def test_a_pdf_goes_to_standard_output_and_what_is_said_beside_it(filed_shop, tmp_path, command):
    shop = a_copy(filed_shop, tmp_path)
    ran = claimpack_in_bytes(*command, "-", folder=shop)
    assert (ran.out[:5], ran.out.rstrip()[-5:], (shop / "-").exists()) == (b"%PDF-", b"%%EOF", False)


@pytest.mark.parametrize("command", FILES, ids=lambda command: " ".join(command[:2]))
def test_a_pdf_is_nothing_for_a_terminal_or_beside_json(filed_shop, tmp_path, command):
    shop = a_copy(filed_shop, tmp_path)
    refused = [claimpack(*command, "-", folder=shop, terminal=True), claimpack(*command, "-", "--json", folder=shop)]
    assert [(ran.code, "%PDF" in ran.out) for ran in refused] == [(2, False)] * 2


def test_a_packet_that_is_filed_may_go_to_standard_output(draft_shop, tmp_path):
    shop = a_copy(draft_shop, tmp_path)
    ran = claimpack_in_bytes("file", "26-0001", "--on", "2026-02-25", "--out", "-", folder=shop)
    assert (ran.code, ran.out[:5], "is filed on 2026-02-25" in ran.err) == (0, b"%PDF-", True)


def test_a_day_that_is_not_written_is_the_shops_today(tmp_path):
    late = World(folder=tmp_path, environ={}, clock=dt.datetime(2026, 2, 28, 23, 59, 59, tzinfo=NOW.tzinfo))
    assert [the_day(late, ""), the_day(late, "2024-02-29")] == [dt.date(2026, 2, 28), dt.date(2024, 2, 29)]


@pytest.mark.parametrize(
    "written",
    [
        "2026-02-29",
        "2026-13-01",
        "2026-2-5",
        "20260205",
        "2026-W06-4",
        "05.02.2026",
        "2026-02-05 ",
        "２０２６-０２-０５",
    ],
)
def test_a_day_that_is_none_names_its_option(written):
    with pytest.raises(BadInput, match=r"^--on: "):
        a_date(written, "--on")


@pytest.mark.parametrize("written", ["0001-01-01", "1899-12-31", "3000-01-01"])
def test_a_day_of_another_age_is_a_slip_of_the_pen(written):
    with pytest.raises(BadInput, match=r"--today: .* is outside the years 1900 to 2999"):
        a_date(written, "--today")


def test_a_reading_of_nothing_contradicts_no_meter_too():
    with pytest.raises(BadInput, match="--hours 0 and --no-meter"):
        one_meter("0", no_meter=True)


@pytest.mark.parametrize(("hours", "no_meter"), [("", True), ("0", False), ("", False)])
def test_a_reading_or_no_meter_goes_alone(hours, no_meter):
    assert one_meter(hours, no_meter=no_meter) is None


@pytest.mark.parametrize(
    ("given", "words"),
    [
        ({"on": "2026-02-05"}, ["--on", "2026-02-05"]),
        ({"on": "", "plans": None, "yes": False, "take": ()}, []),
        ({"yes": True, "plans": [Path("a.toml"), Path("b.toml")]}, ["--yes", "--plans", "a.toml", "--plans", "b.toml"]),
    ],
)
def test_options_given_are_typed_once_more(given, words):
    assert as_given(**given) == words


@pytest.mark.parametrize(
    ("written", "keys"),
    [
        ("cycles=4100", {"kind": "cycles", "value": "4100"}),
        ("cycles = none", {"kind": "cycles", "fitted": False}),
    ],
)
def test_a_further_meter_has_a_reading_or_is_not_there(written, keys):
    assert meters_told([written]) == [keys]


@pytest.mark.parametrize("written", ["cycles", "=4100", "cycles=", ""])
def test_a_further_meter_without_a_kind_or_a_reading_is_refused(written):
    with pytest.raises(BadInput):
        meters_told([written])


def test_no_further_meters_are_none():
    assert meters_told(None) == []
