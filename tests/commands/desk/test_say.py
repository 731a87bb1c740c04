import errno
import io
import json
import os
import re
from pathlib import Path

import numpy as np
import pytest
import zxingcpp
from PIL import Image
from running import Pipe, Terminal

from claimpack.commands.desk.say import Say, harmless
from claimpack.commands.desk.world import World
from claimpack.errors import BadInput
from claimpack.tag.barcodes import qr_modules


def a_say(out, **environ):
    return Say(World(stdout=out, stderr=out, environ=environ))


def test_escape_codes_in_user_text_are_shown_not_obeyed():
    assert harmless("a\x1b[2Jb") == "a[U+001B][2Jb"


def test_direction_overrides_are_shown_not_obeyed():
    assert harmless("a\u202eb") == "a[U+202E]b"


def test_an_answer_shows_what_would_steer_a_terminal_and_keeps_its_own_styles():
    out = Terminal()
    say = a_say(out)
    say.answer(f"{say.styled('26-0001', 'strong')} block\u202e\x1b[2J")
    assert out.getvalue() == "\x1b[1m26-0001\x1b[0m block[U+202E][U+001B][2J\n"


@pytest.mark.parametrize(("out", "shown"), [(Pipe(), "a\u200b.pdf"), (Terminal(), "a[U+200B].pdf")])
def test_a_path_is_exact_for_scripts_and_harmless_on_a_terminal(out, shown):
    a_say(out).path(Path("a\u200b.pdf"))
    assert out.getvalue().endswith(f"{shown}\n")


def test_a_terminal_gets_colour():
    assert a_say(Terminal()).styled("x", "good") == "\x1b[1;32mx\x1b[0m"


def test_a_pipe_gets_none():
    assert a_say(Pipe()).styled("x", "good") == "x"


def test_no_color_is_respected():
    assert a_say(Terminal(), NO_COLOR="1").styled("x", "good") == "x"


def test_an_error_says_what_why_and_what_to_do():
    out = Pipe()
    a_say(out).error(BadInput("what", "why", "do"))
    assert out.getvalue() == "claimpack: what\n  why\n  do\n"


def test_json_is_the_one_document_and_says_its_format():
    out = Pipe()
    a_say(out).document({"a": "ä"})
    assert out.getvalue() == '{\n  "format": 1,\n  "a": "ä"\n}\n'


def test_columns_named_are_set_to_the_right():
    out = Pipe()
    a_say(out).table([("parts", "1.00"), ("labour", "147.20")], right=(1,))
    assert out.getvalue() == "  parts     1.00\n  labour  147.20\n"


def test_progress_is_silent_off_a_terminal():
    out = Pipe()
    with a_say(out).progress("Photos", 5) as advance:
        advance()
    assert out.getvalue() == ""


def test_progress_shows_how_many_are_done():
    out = Terminal()
    with a_say(out).progress("Photos", 2) as advance:
        advance()
    assert "1/2" in out.getvalue()


class Full(Pipe):
    """A stream whose disk is full."""

    def write(self, text):
        raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))


def test_a_message_that_does_not_fit_changes_nothing():
    out = Pipe()
    Say(World(stdout=out, stderr=Full())).note("x")
    assert out.getvalue() == ""


def test_a_message_names_paths_from_where_one_stands():
    err = Pipe()
    Say(World(stdout=Pipe(), stderr=err, folder=Path("/home/q/shop"))).note("/home/q/shop/a.jpg is on the claim")
    assert err.getvalue() == "a.jpg is on the claim\n"


WORDS = "The serial HC70-118-20417 has not the form that the plan gives for the serial of the unit at all."


@pytest.fixture
def eighty(monkeypatch):
    """What a voice says on a terminal of 80 columns, a line each."""
    monkeypatch.setenv("COLUMNS", "80")

    def said(speak):
        out = Terminal()
        speak(a_say(out, NO_COLOR="1"))
        return out.getvalue().splitlines()

    return said


@pytest.mark.parametrize("way", ["heading", "lines", "paragraph"])
def test_long_texts_break_between_words(eighty, way):
    lines = [line for line in eighty(lambda say: getattr(say, way)(WORDS)) if line]
    assert (len(lines), " ".join(lines), max(map(len, lines)) <= 80) == (2, WORDS, True)


@pytest.mark.parametrize("room", range(60, 90))
def test_a_serial_number_is_never_broken(monkeypatch, room):
    monkeypatch.setenv("COLUMNS", str(room))
    out = Terminal()
    a_say(out, NO_COLOR="1").item("!", f"{'x' * 50} HC70-118-20417")
    assert "HC70-118-20417" in out.getvalue()


def test_a_warning_hangs_under_its_mark(eighty):
    assert eighty(lambda say: say.paragraph(f"! {WORDS}", hanging=2))[1].startswith("  ")


def test_a_note_is_broken_between_words_alone(eighty):
    assert " ".join(eighty(lambda say: say.note(WORDS))) == WORDS


def test_off_a_terminal_a_message_is_one_line():
    out = Pipe()
    a_say(out).paragraph(f"{WORDS} {WORDS}")
    assert out.getvalue() == f"{WORDS} {WORDS}\n"


def test_words_before_a_text_have_styles_of_their_own():
    out = Terminal()
    a_say(out).lines("until 2026-06-01", ("26-0001", "strong"), ("COVERED", "good"))
    assert out.getvalue() == "\x1b[1m26-0001\x1b[0m  \x1b[1;32mCOVERED\x1b[0m  until 2026-06-01\n"


def test_a_file_as_the_answer_goes_out_byte_for_byte():
    out = io.TextIOWrapper(io.BytesIO(), encoding="ascii", newline="\r\n")
    say = a_say(out)
    say.answer("first")
    say.content("Ελένη\r\n".encode())
    assert out.buffer.getvalue() == b"first\r\n" + "Ελένη\r\n".encode()


def test_a_file_as_the_answer_steers_no_terminal():
    out = Terminal()
    a_say(out).content(b"a,\x1b[2J\r\n")
    assert out.getvalue() == "a,[U+001B][2J\n"


def test_what_is_said_once_is_not_said_again():
    out = Pipe()
    say = a_say(out)
    for text in ("one", "two", "one"):
        say.note_once(text)
    assert out.getvalue() == "one\ntwo\n"


@pytest.mark.parametrize("encoding", ["ascii", "latin-1", "utf-16"])
def test_json_is_in_utf8_whatever_the_language_of_the_machine(encoding):
    out = io.TextIOWrapper(io.BytesIO(), encoding=encoding)
    a_say(out).document({"owner": "Ελένη Müller"})
    assert json.loads(out.buffer.getvalue().decode("utf-8")) == {"format": 1, "owner": "Ελένη Müller"}


def test_json_takes_what_is_no_text_at_all():
    out = io.TextIOWrapper(io.BytesIO(), encoding="utf-8")
    a_say(out).document({"file": "\udcff.jpg"})
    assert json.loads(out.buffer.getvalue()) == {"format": 1, "file": "\udcff.jpg"}


def test_no_message_shows_a_password():
    out = Pipe()
    a_say(out).error(BadInput("postgresql://ann:s3cr3t@h/c is no book", "why", "s://b:s3cr3t@h"))
    a_say(out).note("postgresql://ann:s3cr3t@h/c")
    assert ("s3cr3t" in out.getvalue(), out.getvalue().count("***")) == (False, 3)


@pytest.mark.parametrize("environ", [{}, {"NO_COLOR": "1"}], ids=["in colours", "without"])
def test_a_code_on_a_terminal_can_be_scanned(environ):
    stream = Terminal()
    Say(World(stderr=stream, environ=environ)).code(qr_modules("http://192.0.2.7:8617/secret/"))
    inks = {" ": (0, 0), "\u2580": (1, 0), "\u2584": (0, 1), "\u2588": (1, 1)}
    rows = [[inks[mark] for mark in line if mark in inks] for line in stream.getvalue().splitlines()]
    # On a dark terminal without colours a full block is light.
    dark = 0 if environ else 1
    cells = [[255 * (cell[half] != dark) for cell in row] for row in rows for half in (0, 1)]
    picture = Image.fromarray(np.array(cells, np.uint8)).resize((8 * len(cells[0]), 8 * len(cells)), 0)
    assert zxingcpp.read_barcodes(picture)[0].text == "http://192.0.2.7:8617/secret/"


def test_a_code_on_a_terminal_has_a_light_margin_of_two_modules_at_least():
    stream = Terminal()
    Say(World(stderr=stream, environ={})).code(qr_modules("26-0001/1"))
    first, *lines = [re.sub(r"\x1b\[[0-9;]*m", "", line) for line in stream.getvalue().splitlines()]
    assert (first.strip(" "), {line[:2] + line[-2:] for line in lines}, lines[-1].strip(" ")) == ("", {"    "}, "")


def test_the_last_cell_of_a_table_goes_on_under_itself(monkeypatch):
    monkeypatch.setenv("COLUMNS", "60")
    out = Terminal()
    a_say(out, NO_COLOR="1").table([("us-ca-small-offroad", "California emission warranty for small off-road engines")])
    assert out.getvalue().splitlines() == [
        "  us-ca-small-offroad  California emission warranty for",
        "                       small off-road engines",
    ]


@pytest.mark.parametrize(("columns", "lines"), [(79, ["Hash:", "f" * 74]), (80, ["Hash: " + "f" * 74])])
def test_a_word_to_copy_stands_on_a_line_of_its_own_before_it_breaks(monkeypatch, columns, lines):
    monkeypatch.setenv("COLUMNS", str(columns))
    out = Terminal()
    a_say(out).whole("Hash:", "f" * 74)
    assert out.getvalue().splitlines() == lines
