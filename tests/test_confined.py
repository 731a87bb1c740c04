from __future__ import annotations

import os
import pickle
from pathlib import Path

import pytest
from packets import a_packet
from readers_at_work import (
    Harmful,
    break_down,
    doubled,
    fill,
    hand_back,
    read,
    refuse,
    talk,
    tell_of_too_much,
    wait_for_ever,
)

from claimpack.confined import confined, end_all
from claimpack.errors import BadInput, NotFound
from claimpack.packet.proving.verify import verify

posix = pytest.mark.skipif(os.name != "posix", reason="pipes and limits of a process are asked of the system")


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


@pytest.mark.parametrize(("name", "told"), [("a.pdf", "a.pdf"), ("gr\udcf6\udcdfe.pdf", "gr??e.pdf")])
def test_a_refusal_comes_back_whole_with_signs_for_letters_of_a_name_that_are_none(name, told):
    with pytest.raises(NotFound) as refused:
        confined(refuse, f"{name} is gone", file=name)
    assert refused.value.lines() == [f"{told} is gone", "why", "do"]


@posix
def test_what_wants_too_much_memory_is_refused_by_name():
    with pytest.raises(BadInput, match=r"a\.pdf cannot be read: it took more than 1\.5 GB"):
        confined(fill, 3_000_000_000, file="a.pdf")


def test_what_never_ends_is_ended():
    with pytest.raises(BadInput, match=r"a\.pdf cannot be read: it took more than 0\.1 s"):
        confined(wait_for_ever, file="a.pdf", seconds=0.1)


@pytest.mark.parametrize("work", [break_down, pytest.param(tell_of_too_much, marks=posix)])
def test_a_reader_that_breaks_down_or_would_fill_the_memory_takes_nothing_with_it(work):
    with pytest.raises(BadInput, match="broke down"):
        confined(work, file="a.pdf")
    assert confined(doubled, 1, file="b.pdf", seconds=10) == 2


def test_a_file_beside_the_claim_is_not_taken_for_a_module(tmp_path, monkeypatch):
    (tmp_path / "claimpack.py").write_text("raise SystemExit(9)")
    monkeypatch.chdir(tmp_path)
    assert confined(doubled, 2, file="a.pdf") == 4


def test_a_record_comes_back_as_it_was():
    assert confined(read, b"\x00\xff\n", file="a.pdf") == read(b"\x00\xff\n")


@posix
def test_what_a_reader_hands_back_is_never_run(tmp_path):
    with pytest.raises(BadInput, match="broke down"):
        confined(hand_back, b"answer\n" + pickle.dumps(Harmful(tmp_path / "mark")), file="a.pdf")
    assert not list(tmp_path.iterdir())


@posix
@pytest.mark.parametrize(
    "content",
    [b'answer\n[{"content": "AA==", "taken": null, "sizes": [["wide", 2]]}]', b"answer\n[7]", b'refused\n["BadInput"]'],
    ids=["a field", "a record", "an error"],
)
def test_what_has_not_the_form_of_an_answer_is_none(content):
    with pytest.raises(BadInput, match=r"a\.pdf cannot be read: its reader broke down"):
        confined(hand_back, content, file="a.pdf")


@posix
def test_only_errors_of_the_program_are_told():
    with pytest.raises(BadInput, match="so it says"):
        confined(hand_back, b'refused\n["SystemExit", "so it says", "", "", []]', file="a.pdf")


def test_a_packet_is_verified_in_another_process_than_the_one_that_asks(monkeypatch):
    monkeypatch.setattr("claimpack.packet.proving.verify.take_off", None)
    assert verify(a_packet()).genuine
