from __future__ import annotations

import re

import pytest
from running import claimpack

from claimpack.commands.guide import GUIDES, PAGES


@pytest.mark.parametrize("columns", [60, 80])
@pytest.mark.parametrize("page", [page for page in PAGES if page != "scripts"])
def test_every_line_of_a_guide_fits_the_screen(monkeypatch, page, columns):
    monkeypatch.setenv("COLUMNS", str(columns))
    assert max(map(len, claimpack("guide", page, terminal=True).out.splitlines())) <= columns


@pytest.mark.parametrize("page", PAGES)
def test_a_guide_on_a_screen_says_every_word_of_it(page):
    said = claimpack("guide", page, terminal=True, environ={"NO_COLOR": "1"}).out
    whole = (GUIDES / f"{page}.md").read_text("utf-8")
    words = re.sub(r"^(#+ |```.*)|\\$", "", whole, flags=re.MULTILINE).split()
    assert re.sub(r" \\$", "", said, flags=re.MULTILINE).split() == words


def test_a_guide_in_a_file_is_as_it_was_written():
    assert claimpack("guide", "writer").out == (GUIDES / "writer.md").read_text("utf-8")


@pytest.mark.parametrize("page", PAGES)
def test_no_guide_holds_a_table_which_a_screen_would_run_together(page):
    assert not [line for line in claimpack("guide", page, terminal=True).out.splitlines() if "|---" in line]
