from __future__ import annotations

import datetime as dt
import shutil
import subprocess

import pytest
from running import claimpack

from claimpack.commands.manual.described import Described, DescribedWord
from claimpack.commands.manual.man_page import man_page

DAY = dt.date(2026, 3, 1)


def page(*said, examples=()):
    told = Described(
        "note",
        "claimpack note CLAIM [OPTIONS]",
        said,
        options=(DescribedWord("--again DATE", "When."),),
        examples=examples,
    )
    return man_page("About.", [("The counter", [told])], "0 is yes.", DAY, "9.9")


def test_a_line_that_begins_with_a_point_is_no_command_of_roff():
    assert "\n\\&.toml files\n" in page(".toml files")


def test_a_sign_outside_of_ascii_is_named_by_its_number():
    assert "FILE\\[u2026]" in page("FILE…")


def test_the_options_of_a_command_stand_on_its_page_and_its_examples():
    text = page("Write.", examples=("claimpack note 26-0041 x",))
    assert (".TP\n.B \\-\\-again DATE\nWhen.\n" in text, "claimpack note 26\\-0041 x" in text) == (True, True)


@pytest.mark.skipif(shutil.which("groff") is None, reason="the machine has no groff")
def test_the_page_of_the_whole_program_is_set_without_a_warning():
    written = claimpack("help", "--man").out.encode()
    done = subprocess.run(["groff", "-man", "-Tutf8", "-ww"], input=written, capture_output=True, check=True)
    assert (done.stderr, b"hold send" in done.stdout) == (b"", True)
