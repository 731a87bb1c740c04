from __future__ import annotations

import contextlib
import io
import sys

import pytest
from running import Pipe, Terminal

from claimpack.commands.desk.paged import Buffered, paged, pager_of
from claimpack.commands.desk.world import World

PAGER = f"{sys.executable} -c 'import sys; sys.exit(0)'"


@pytest.mark.parametrize(
    "environ",
    [{"CLAIMPACK_PAGER": "", "PAGER": PAGER}, {"PAGER": "cat"}, {"PAGER": "no-such-pager"}, {"PAGER": "less '"}],
)
def test_a_pager_that_is_empty_or_not_there_is_none(environ):
    assert pager_of(environ) == []


def test_the_pager_of_this_program_goes_before_the_general_one_with_all_its_words():
    assert pager_of({"CLAIMPACK_PAGER": PAGER, "PAGER": "cat"}) == [sys.executable, "-c", "import sys; sys.exit(0)"]


def test_off_the_terminal_nothing_is_kept():
    world = World(stdout=Pipe(), stderr=Pipe(), environ={"PAGER": PAGER})
    with paged(world) as shown:
        assert shown is world


@pytest.fixture
def told(monkeypatch):
    """What a terminal of 10 lines shows of pieces written to stdout (o) and stderr (e), where a pager is at hand."""

    def shown_of(*pieces, pager=PAGER):
        screen = Terminal()
        # The test runner has its own stdout by the time a test runs.
        monkeypatch.setattr(sys, "stdout", screen)
        monkeypatch.setenv("LINES", "10")
        with contextlib.suppress(ValueError), paged(World(stderr=screen, environ={"PAGER": pager})) as world:
            for piece in pieces:
                {"o": world.stdout, "e": world.stderr}[piece[0]].write(piece[1:])
            raise ValueError
        return screen.getvalue()

    return shown_of


@pytest.mark.parametrize(("lines", "is_shown"), [(8, True), (9, True), (10, False)], ids=["less", "as much", "more"])
def test_what_fits_the_screen_goes_there_and_what_is_longer_to_the_pager(told, lines, is_shown):
    assert bool(told("o" + "line\n" * lines)) is is_shown


def test_answers_and_messages_come_in_their_order_also_before_a_failure(told):
    assert told("ea\n", "ob\n", "ec\n") == "a\nb\nc\n"


def test_a_moving_bar_moves_at_once():
    stream = io.StringIO()
    Buffered(stream, []).write("\rPhotos [##..]")
    assert stream.getvalue() == "\rPhotos [##..]"


def test_a_pager_may_be_told_not_to_be_used():
    world = World(stdout=Terminal(), stderr=Terminal(), environ={"PAGER": PAGER}, pages=False)
    with paged(world) as shown:
        assert shown is world


def test_a_stream_that_is_not_the_processs_own_is_never_paged():
    world = World(stdout=Terminal(), stderr=Terminal(), environ={"PAGER": PAGER})
    with paged(world) as shown:
        assert shown is world


@pytest.mark.parametrize("environ", [{}, {"PAGER": "less"}])
def test_without_a_word_of_a_pager_it_is_less(environ, monkeypatch, tmp_path):
    (tmp_path / "less").write_text("#!/bin/sh\n")
    (tmp_path / "less").chmod(0o755)
    monkeypatch.setenv("PATH", str(tmp_path))
    assert pager_of(environ)[0] == "less"


def test_what_is_kept_for_a_terminal_passes_for_one():
    stream = Terminal()
    kept = []
    assert (Buffered(stream, kept).isatty(), Buffered(stream, kept).write("abc"), kept) == (True, 3, [(stream, "abc")])


@pytest.mark.parametrize(("spoken", "kept"), [("latin-1", "latin-1"), (None, "utf-8")])
def test_what_is_kept_for_a_terminal_is_in_its_encoding(spoken, kept):
    class Speaking(Terminal):
        encoding = spoken

    assert Buffered(Speaking(), []).encoding == kept


def test_an_answer_whose_pager_does_not_start_goes_to_the_screen(told, tmp_path):
    broken = tmp_path / "pager"
    broken.write_bytes(b"")
    broken.chmod(0o755)
    answer = "line\n" * 20
    assert told(f"o{answer}", pager=str(broken)) == answer
