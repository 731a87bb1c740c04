import re

import pytest
from made_once import made_once
from manager_shop import PART, a_managed_shop, filed_in
from running import claimpack

CLAIM = "26-0001"
COMMANDS = [
    ("cover", "--maker", "halden", "--model", "CS-70", "--component", "ignition coil"),
    ("check", CLAIM),
    ("show", CLAIM),
    ("list",),
    ("find", CLAIM),
    ("history", CLAIM),
    ("pending",),
    ("due",),
    ("hold", "list"),
    ("audit",),
    ("plan", "try", "halden-2025", "--component", "ignition coil", "--age", "P12M"),
]


@pytest.fixture
def shop(tmp_path):
    return the_shop(tmp_path)


@made_once
def the_shop(place):
    shop = a_managed_shop(place)
    filed_in(shop, CLAIM, held=[PART])
    return shop


@pytest.mark.parametrize("columns", [60, 80])
@pytest.mark.parametrize("command", COMMANDS, ids=lambda words: words[0])
def test_no_line_is_wider_than_the_terminal(shop, monkeypatch, command, columns):
    monkeypatch.setenv("COLUMNS", str(columns))
    ran = claimpack(*command, "--no-pager", folder=shop, environ={"NO_COLOR": "1"}, terminal=True)
    # what a bar of progress wrote over is gone from the screen
    lines = [re.sub(r"^.*\r(?:\x1b\[K)?", "", line) for line in (ran.out + ran.err).splitlines()]
    assert [line for line in lines if len(line) > columns] == []
    assert ran.out
