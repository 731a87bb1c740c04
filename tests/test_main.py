"""The program from outside: what becomes of a failure, an interruption, a reader that left, a stream that is closed."""

from __future__ import annotations

import errno
import io
import os
import subprocess
import sys
from pathlib import Path

import pytest
from running import Pipe, claimpack

from claimpack.__main__ import run
from claimpack.commands.desk.world import World
from claimpack.errors import NotFound

PROGRAM = (sys.executable, "-m", "claimpack")


class Failing(Pipe):
    """A stream that fails at every line."""

    def __init__(self, error: BaseException) -> None:
        super().__init__()
        self.error = error

    def write(self, text: str) -> int:
        raise self.error


def failing(error, *arguments):
    """The exit code and the message of a run whose answer meets an error."""
    err = Pipe()
    world = World(stdin=Pipe(), stdout=Failing(error), stderr=err, environ={}, folder=Path())
    return run(arguments or ["--version"], world), err.getvalue()


def in_a_shell(line, *arguments):
    """The program started by a shell with some of its streams elsewhere."""
    return subprocess.run(["sh", "-c", line, "sh", *PROGRAM, *arguments], check=False, capture_output=True, text=True)


def test_what_the_user_can_put_right_is_two():
    ran = claimpack("check", "nowhere")
    assert (ran.code, ran.out, ran.err.startswith("claimpack: ")) == (2, "", True)


def test_with_debug_the_error_comes_out_whole_wherever_the_option_stands(tmp_path):
    for arguments in (("--debug", "check", "nowhere"), ("check", "nowhere", "--debug")):
        with pytest.raises(NotFound):
            claimpack(*arguments, folder=tmp_path)


def test_a_fault_of_the_program_is_one_and_told_in_a_line():
    code, err = failing(RuntimeError("no such luck"))
    assert (code, err.splitlines()[0]) == (1, "claimpack: a fault of the program: RuntimeError: no such luck")


def test_a_path_no_disk_takes_is_bad_input():
    ran = claimpack("check", "a" * 300)
    assert (ran.code, ran.err.splitlines()[1].strip()) == (2, os.strerror(errno.ENAMETOOLONG))


@pytest.mark.parametrize("byte", [0x80, 0xFF])
def test_bytes_that_are_no_text_are_bad_input(tmp_path, byte):
    claimpack("shop", "init", tmp_path)
    ran = claimpack("check", os.fsdecode(b"a%c" % byte), folder=tmp_path)
    assert (ran.code, ran.err.splitlines()[0]) == (2, "claimpack: what was typed holds bytes that are no text")


def test_a_letter_that_cannot_be_written_is_a_fault_where_all_that_was_typed_is_text():
    assert failing(UnicodeEncodeError("ascii", "é", 0, 1, "no such letter"))[0] == 1


def test_with_debug_a_fault_comes_out_whole():
    with pytest.raises(RuntimeError, match="no such luck"):
        failing(RuntimeError("no such luck"), "--version", "--debug")


def test_an_interruption_is_one_hundred_and_thirty():
    assert failing(KeyboardInterrupt()) == (130, "\nStopped; nothing half done was left.\n")


def test_a_reader_that_stopped_reading_is_no_failure():
    assert failing(BrokenPipeError(errno.EPIPE, "Broken pipe")) == (0, "")


def test_a_full_disk_behind_the_answer_is_two_and_says_why():
    code, err = failing(OSError(errno.ENOSPC, "No space left on device"))
    assert (code, "No space left on device" in err) == (2, True)


def test_a_disk_that_is_full_of_what_has_no_name_is_two(monkeypatch):
    def full(_arguments):
        raise OSError(errno.ENOSPC, "No space left on device")

    monkeypatch.setattr("claimpack.commands.catalogue.quick_answer", full)
    ran = claimpack("list")
    assert (ran.code, "No space left on device" in ran.err, "fault" in ran.err) == (2, True, False)


def test_a_run_needs_a_world():
    with pytest.raises(TypeError, match="needs a World"):
        run(["--version"], io.StringIO())


def test_the_program_leaves_with_the_code_of_the_run(tmp_path):
    done = subprocess.run([*PROGRAM, "check", tmp_path / "nowhere"], check=False, capture_output=True)
    assert done.returncode == 2


@pytest.mark.parametrize("streams", [">&-", "2>&-", "<&-", "<&- >&- 2>&-"])
def test_a_stream_closed_by_who_started_the_program_is_no_fault(streams):
    done = in_a_shell(f'exec "$@" {streams}', "--version")
    assert (done.returncode, done.stderr) == (0, "")


def test_where_nobody_can_answer_the_conversation_ends(tmp_path):
    done = in_a_shell(f'cd "{tmp_path}" && exec "$@" <&-', "start", "26-0001")
    assert (done.returncode, "Traceback" in done.stderr, "a fault" in done.stderr) == (4, False, False)


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="no device that is always full")
def test_an_answer_that_cannot_be_written_is_not_tried_again_at_the_end():
    done = in_a_shell('exec "$@" >/dev/full', "--help")
    assert (done.returncode, "Exception ignored" in done.stderr) == (2, False)


def test_a_book_is_whole_in_one_file_when_the_program_has_ended(tmp_path):
    subprocess.run([*PROGRAM, "shop", "init", "shop"], check=True, capture_output=True, cwd=tmp_path)
    sample = Path(__file__).parents[1] / "sample_claims" / "26-0041-short-block"
    subprocess.run([*PROGRAM, "import", sample], check=True, capture_output=True, cwd=tmp_path / "shop")
    assert [path.name for path in (tmp_path / "shop").glob("book.sqlite*")] == ["book.sqlite"]
