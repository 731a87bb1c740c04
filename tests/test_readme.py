"""What the README shows is what the program does."""

import re
import shlex
import shutil
from pathlib import Path

import pytest
from demo_shop import COMMAND, NOW, a_demo_shop
from running import claimpack

import claimpack as claimpack_package
from claimpack.commands.catalogue import COMMANDS
from claimpack.commands.guide import ROLES

ROOT = Path(__file__).resolve().parent.parent
README = (ROOT / "README.md").read_text(encoding="utf-8")
BLOCKS = [block.splitlines() for block in re.findall(r"```sh\n(.*?)```", README, re.DOTALL)]
SHOWN = [line for block in BLOCKS for line in block if line.startswith(("claimpack ", "cd "))]


def test_every_command_shown_runs_in_its_order_in_a_copy_of_the_checkout(tmp_path):
    for name in ("sample_claims", "templates"):
        shutil.copytree(ROOT / name, tmp_path / name)
    claimpack("build", "sample_claims/26-0041-short-block", "--out", "out", folder=tmp_path)
    folder = tmp_path
    for program, *words in map(shlex.split, SHOWN):
        if program == "cd":
            folder /= words[0]
            continue
        if words == COMMAND:
            a_demo_shop(folder)
            continue
        ran = claimpack(*words, folder=folder, now=NOW)
        assert (words, ran.code in {0, 3, 4}, ran.err) == (words, True, ran.err)


NAMES = [listed.name for listed in COMMANDS]
GUIDES = {role: (Path(claimpack_package.__file__).parent / "guides" / f"{role}.md").read_text() for role in ROLES}


def test_every_command_is_in_the_readme_or_a_guide():
    told = " ".join([README, *GUIDES.values()])
    assert [name for name in NAMES if not re.search(rf"(?:claimpack |`){re.escape(name)}\b", told)] == []


def test_the_readme_is_read_in_five_minutes():
    assert len(README.split()) < 1200


@pytest.mark.parametrize("name", NAMES)
def test_every_command_has_help(name):
    assert claimpack(name, "--help").code == 0


def test_exit_codes_are_those_of_the_program():
    told = set(re.findall(r"^\| (\d) \|", README, re.MULTILINE))
    assert told == {"0", "1", "2", "3", "4"}


def test_the_job_stands_first():
    assert README.split("\n\n")[1].startswith("A repair shop fixes a machine")
