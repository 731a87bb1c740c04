"""What the README shows is what the program does."""

import re
import shlex
import shutil
from pathlib import Path

import pytest
from running import claimpack

from claimpack.commands.catalogue import COMMANDS, GROUPS

ROOT = Path(__file__).resolve().parent.parent
README = (ROOT / "README.md").read_text(encoding="utf-8")
BLOCKS = [block.splitlines() for block in re.findall(r"```sh\n(.*?)```", README, re.DOTALL)]
SHOWN = [line for block in BLOCKS for line in block if line.startswith(("claimpack ", "cd "))]
EXTRAS = {"report": "reports"}


def test_every_command_shown_runs_in_its_order_in_a_copy_of_the_checkout(tmp_path):
    for name in ("sample_claims", "templates"):
        shutil.copytree(ROOT / name, tmp_path / name)
    claimpack("build", "sample_claims/26-0041-short-block", "--out", "out", folder=tmp_path)
    folder = tmp_path
    for program, *words in map(shlex.split, SHOWN):
        if program == "cd":
            folder /= words[0]
            continue
        ran = claimpack(*words, folder=folder)
        assert (words, ran.code in {0, 3, 4}, ran.err) == (words, True, ran.err)


NAMES = [listed.name for listed in COMMANDS]


@pytest.mark.parametrize("name", NAMES)
def test_every_command_is_in_the_readme(name):
    table = README.partition("## Commands")[2]
    assert re.search(rf"`{re.escape(name)}\b", table)


@pytest.mark.parametrize("name", NAMES)
def test_every_command_has_help(name):
    assert claimpack(name, "--help").code == 0


def test_exit_codes_are_those_of_the_program():
    told = set(re.findall(r"^\| (\d) \|", README, re.MULTILINE))
    assert told == {"0", "1", "2", "3", "4"}


def test_the_job_stands_first():
    assert README.split("\n\n")[1].startswith("A repair shop fixes a machine")


def test_the_readme_groups_the_commands_as_the_help_does():
    told = README.partition("## Commands")[2]
    assert [told.index(title) for title, _ in GROUPS] == sorted(told.index(title) for title, _ in GROUPS)
