from __future__ import annotations

import io
import re

import pytest
from running import Pipe, Terminal

from claimpack.commands.desk.outlet import Outlet, indented
from claimpack.commands.desk.say import Say
from claimpack.commands.desk.world import World
from claimpack.errors import BadInput


def a_say(stream=Pipe, typed="", **keys):
    return Say(World(stdin=stream(typed), stdout=stream(), stderr=stream(), environ={"NO_COLOR": "1"}, **keys))


@pytest.mark.parametrize("quiet", [False, True])
def test_a_quiet_voice_gives_answers_errors_and_questions_alone(quiet):
    say = a_say(quiet=quiet)
    say.note("beside")
    say.answer("answer")
    say.error(BadInput("wrong"))
    told = say.world.stderr.getvalue()
    assert (say.world.stdout.getvalue(), "beside" in told, "wrong" in told) == ("answer\n", not quiet, True)
    assert "aloud" in say_aloud(say)


def say_aloud(say):
    say.aloud().note("aloud")
    return say.world.stderr.getvalue()


@pytest.mark.parametrize("as_json", [False, True])
def test_an_error_is_told_in_a_document_where_one_is_wanted(as_json):
    say = a_say()
    say.error(BadInput("wrong", "why", "do"), json=as_json)
    assert say.world.stdout.getvalue().startswith("{") is as_json


def test_an_error_is_told_without_a_document_where_nothing_is_said_of_one():
    say = a_say()
    say.error(BadInput("wrong"))
    assert say.world.stdout.getvalue() == ""


@pytest.mark.parametrize(
    ("stream", "total", "quiet", "shown"),
    [(Terminal, 2, False, True), (Terminal, 1, False, False), (Terminal, 2, True, False), (Pipe, 2, False, False)],
    ids=["several at a terminal", "one", "quiet", "off a terminal"],
)
def test_a_bar_moves_at_a_terminal_where_there_are_several(stream, total, quiet, shown):
    say = a_say(stream, quiet=quiet)
    with say.progress("Photos", total) as advance:
        advance()
    assert (bool(say.world.stderr.getvalue()), say.world.stderr.getvalue().endswith("\r\x1b[K")) == (shown, shown)


def test_a_bar_is_as_full_as_the_work_is_done():
    say = a_say(Terminal)
    with say.progress("Photos", 4) as advance:
        advance()
    assert f"Photos [{'#' * 6}{'.' * 18}] 1/4" in say.world.stderr.getvalue()


@pytest.mark.parametrize(("typed", "heard"), [("yes\nno\n", "yes"), ("\n", ""), ("", None)])
def test_a_question_is_answered_by_a_line_or_by_the_end_of_the_input(typed, heard):
    say = a_say(typed=typed)
    assert (say.ask("Sure?"), say.world.stderr.getvalue()) == (heard, "Sure? ")


def test_a_secret_comes_from_the_stream_that_was_handed_in():
    assert a_say(typed="open sesame\n").ask_unseen("Passphrase:") == "open sesame"


@pytest.mark.parametrize(("encoding", "marks"), [("utf-8", "✓✗?•"), ("cp850", "+x?*"), ("ascii", "+x?*")])
def test_marks_are_those_that_the_terminal_knows(encoding, marks):
    out = io.TextIOWrapper(io.BytesIO(), encoding=encoding)
    say = Say(World(stdout=out, stderr=Pipe(), environ={}))
    assert "".join(say.mark(outcome) for outcome in ("pass", "fail", "unknown", "todo")) == marks


@pytest.mark.parametrize(
    "told",
    [
        {},
        [],
        {"a": {}},
        {"a": []},
        {"a": [1, "b", None, True]},
        {"a": {"b": [{"c": 1}, {}]}},
        [[1], {"a": 2}],
        "text",
        1.5,
    ],
)
def test_a_document_reads_as_the_standard_writer_writes_it(told):
    import json

    assert indented(told) == json.dumps(told, indent=2, ensure_ascii=False)


@pytest.mark.parametrize("stream", [Pipe, Terminal])
def test_an_outlet_is_a_terminal_where_its_stream_is_one(stream):
    out = stream()
    outlet = Outlet(out)
    assert (outlet.write("help"), out.getvalue(), outlet.isatty()) == (4, "help", stream is Terminal)


def test_a_paragraph_that_matters_least_has_no_mark():
    say = a_say()
    say.quiet_item(" ".join(["word"] * 30))
    first, *rest = say.world.stdout.getvalue().splitlines()
    assert (first[:4], {line[:4] for line in rest}, max(map(len, (first, *rest))) <= 100) == ("  - ", {"    "}, True)


def test_an_item_goes_on_below_its_text_within_the_width():
    say = a_say()
    say.item("*", "one\n" + " ".join(["word"] * 30), indent=3)
    lines = say.world.stdout.getvalue().splitlines()
    assert (lines[0], {line[:5] for line in lines[1:]}) == ("   * one", {"     "})
    assert 96 <= max(map(len, lines)) <= 100


WORDS = " ".join(["word"] * 50)


@pytest.fixture(params=range(60, 65))
def columns(monkeypatch, request):
    """The columns of a terminal: as many in turn as a word and its blank take."""
    monkeypatch.setenv("COLUMNS", str(request.param))
    return request.param


def are_full(lines, columns):
    """Whether lines fit a terminal, and none but the last of a paragraph has room for one word more."""
    return all(columns - len(" word") < len(line) <= columns for line in lines[:-1]) and len(lines[-1]) <= columns


def test_what_to_do_about_an_error_fits_the_terminal_line_by_line(columns):
    say = a_say(Terminal)
    say.error(BadInput("wrong", "", WORDS))
    assert are_full(say.world.stderr.getvalue().splitlines()[1:], columns)


def test_what_is_wrong_fits_the_terminal_line_by_line(columns):
    say = a_say(Terminal)
    say.error(BadInput(WORDS))
    assert max(map(len, say.world.stderr.getvalue().splitlines())) <= columns


@pytest.mark.parametrize("hanging", [0, 2, 4])
def test_a_paragraph_fits_the_terminal_line_by_line(columns, hanging):
    say = a_say(Terminal)
    say.paragraph(WORDS, hanging)
    assert are_full([" " * hanging + line.strip() for line in say.world.stderr.getvalue().splitlines()], columns)


def test_a_question_leaves_room_for_the_blank_behind_it(columns):
    say = a_say(Terminal)
    say.ask(WORDS)
    assert max(map(len, say.world.stderr.getvalue().split("\n"))) <= columns


def test_choices_stand_as_many_on_a_line_as_it_takes(columns):
    say = a_say(Terminal)
    say.choices(["word"] * 40, "none")
    lines = say.world.stderr.getvalue().splitlines()
    assert " ".join(lines).split() == [part for place in range(1, 41) for part in (str(place), "word")] + ["none"]
    nexts = [re.split(r"  +", line.strip())[0] for line in lines[1:]]
    assert all(len(line) <= columns < len(f"{line}  {each}") for line, each in zip(lines, nexts, strict=False))


@pytest.mark.parametrize(("out", "err", "is_coloured"), [(Pipe, Terminal, True), (Terminal, Pipe, False)])
def test_an_error_is_coloured_where_it_is_shown(out, err, is_coloured):
    say = Say(World(stdout=out(), stderr=err(), environ={}))
    say.error(BadInput("wrong"))
    assert ("\x1b[" in say.world.stderr.getvalue()) is is_coloured
