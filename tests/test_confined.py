from __future__ import annotations

import os
import time
from pathlib import Path

import pytest

from claimpack.confined import confined, end_all
from claimpack.errors import BadInput, NotFound


def doubled(number):
    return 2 * number


def refuse(what):
    raise NotFound(what, "why", "do")


def fill(size):
    return len(bytes(size))


def wait_for_ever():
    while True:
        time.sleep(60)


def break_down():
    os._exit(7)


def talk():
    print("in the way", flush=True)
    return os.getpid()


@pytest.fixture(autouse=True)
def _found_by_the_other_process(monkeypatch):
    monkeypatch.setenv("PYTHONPATH", str(Path(__file__).parent))
    end_all()
    yield
    end_all()


def test_an_answer_comes_back():
    assert confined(doubled, 21, file="a.pdf") == 42


def test_the_next_file_is_read_by_the_same_process():
    assert confined(talk, file="a.pdf") == confined(talk, file="b.pdf") != os.getpid()


def test_a_refusal_comes_back_whole():
    with pytest.raises(NotFound) as refused:
        confined(refuse, "a.pdf is gone", file="a.pdf")
    assert refused.value.lines() == ["a.pdf is gone", "why", "do"]


@pytest.mark.skipif(os.name != "posix", reason="this system keeps no count of a process's memory")
def test_what_wants_too_much_memory_is_refused_by_name():
    with pytest.raises(BadInput, match=r"a\.pdf cannot be read: it took more than 1\.5 GB"):
        confined(fill, 3_000_000_000, file="a.pdf")


def test_what_never_ends_is_ended():
    with pytest.raises(BadInput, match=r"a\.pdf cannot be read: it took more than 0\.1 s"):
        confined(wait_for_ever, file="a.pdf", seconds=0.1)


def test_a_reader_that_breaks_down_takes_nothing_with_it():
    with pytest.raises(BadInput, match="broke down"):
        confined(break_down, file="a.pdf")
    assert confined(doubled, 1, file="b.pdf") == 2


def test_a_file_beside_the_claim_is_not_taken_for_a_module(tmp_path, monkeypatch):
    (tmp_path / "claimpack.py").write_text("raise SystemExit(9)")
    monkeypatch.chdir(tmp_path)
    assert confined(doubled, 2, file="a.pdf") == 4
