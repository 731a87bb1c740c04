"""An invented shop to try: something of everything in it, and every guide runs there as it is written."""

import re
import shlex
import subprocess
import sys
from pathlib import Path

import pytest
from demo_shop import NOW, a_demo_shop
from running import claimpack

from claimpack.commands.guide import GUIDES, ROLES

SAMPLES = Path(__file__).parents[3] / "sample_claims"


def _examples(page, language):
    return re.findall(rf"```{language}\n(.*?)```", (GUIDES / f"{page}.md").read_text(encoding="utf-8"), re.DOTALL)


@pytest.fixture(scope="module")
def place(tmp_path_factory):
    return a_demo_shop(tmp_path_factory.mktemp("demo"))


def _asked(place, *words):
    return claimpack(*words, "--json", folder=place, now=NOW).json


@pytest.mark.parametrize(
    "state", ["draft", "filed", "questioned", "accepted", "refused", "paid", "written off", "withdrawn"]
)
def test_claims_lie_there_in_every_state(place, state):
    claims = _asked(place, "list", "--all", "--limit", "0")["claims"]
    assert state in {claim["state"] for claim in claims}


@pytest.mark.parametrize("state", ["held", "called back", "sent", "released", "scrapped"])
def test_parts_are_kept_in_every_state(place, state):
    assert state in {part["state"] for part in _asked(place, "hold", "list", "--state", "all")["parts"]}


def test_money_is_late(place):
    assert any(claim["days_overdue"] for claim in _asked(place, "pending")["claims"])


def test_an_audit_finds_what_is_odd_and_little_else(place):
    found = _asked(place, "audit")["by_rule"]
    assert {"not-sent-back", "household-works-hard"} <= set(found)
    assert sum(found.values()) < 10


def test_letters_were_sent_about_what_was_given_up(place):
    assert "chased" in {event["what"] for event in _asked(place, "history", "--limit", "0")["events"]}


def test_what_happened_to_each_claim_is_told_in_the_order_of_its_days(place):
    days = {}
    for event in _asked(place, "history", "--limit", "0")["events"]:
        days.setdefault(event["claim"], []).append(event["on"])
    assert len(days) == 120
    assert [claim for claim, found in days.items() if found != sorted(found)] == []


def test_its_book_and_every_picture_are_proved(place):
    assert claimpack("shop", "verify", folder=place, now=NOW).code == 0


def test_a_folder_that_is_there_is_left_alone(place):
    ran = claimpack("shop", "demo", ".", folder=place, now=NOW)
    assert ran.code == 2
    assert "already exists" in ran.err


@pytest.mark.parametrize("role", ROLES)
def test_every_command_of_a_guide_runs_in_its_order(role, tmp_path):
    a_demo_shop(tmp_path)
    first, second, *lines = [line for block in _examples(role, "sh") for line in block.splitlines()]
    assert (first, second) == ("claimpack shop demo try", "cd try")
    for words in (shlex.split(line)[1:] for line in lines):
        ran = claimpack(*words, folder=tmp_path / "try", now=NOW)
        assert (words, ran.code in {0, 3, 4}, ran.err) == (words, True, ran.err)


def test_the_examples_of_the_guide_for_scripts_run(place, tmp_path):
    (tmp_path / "try").symlink_to(place)
    (tmp_path / "sample_claims").symlink_to(SAMPLES)
    example = "".join(_examples("scripts", "python"))
    done = subprocess.run([sys.executable, "-c", example], cwd=tmp_path, check=False, capture_output=True, text=True)
    assert (done.returncode, done.stderr) == (0, "")
    assert "Q-001" in done.stdout
