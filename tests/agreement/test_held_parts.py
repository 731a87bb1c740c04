"""Every two ways to until when a part is held, for every held part of two shops, and after its plan changed."""

from __future__ import annotations

import shutil
from pathlib import Path

from compared_shops import DAY, TURNED, Answers

from claimpack.core.holding.hold import HoldRule

TEMPLATES = Path(__file__).parents[2] / "templates" / "coverage"
OF_THE_PLAN = "keep the failed part until"


def checked(answers):
    """Until when `check` has the parts of a claim kept, by claim."""
    return {
        number: day["on"]
        for number, told in answers.checked.items()
        for day in told["deadlines"]
        if day["what"] == OF_THE_PLAN
    }


def until_listed(answers):
    """Until when `hold list` has the parts that are held kept, by claim; where no time to inspect ends sooner."""
    return {row["claim"]: row["keep_until"] for row in answers.held.values() if row["keep_until"]}


def agree(answers, number):
    """Assert that every way to until when the parts of a claim are held says the same; returns it."""
    until = until_listed(answers).get(number)
    assert checked(answers).get(number) == until
    due = {item["on"] for item in answers.due if item["what"] == "keep the part until" and item["claim"] == number}
    assert due == ({until} if until and until >= DAY else set())
    for words in answers.papers(number):
        assert (until or HoldRule().terms) in words
    return until


def test_check_and_hold_list_say_the_same_of_every_part(answers):
    listed = until_listed(answers)
    still_held = {row["claim"] for row in answers.held.values() if row["state"] == "held"}
    assert {number: day for number, day in checked(answers).items() if number in still_held} == listed


def test_due_tells_every_day_that_hold_list_tells(answers):
    coming = {code: row["keep_until"] for code, row in answers.held.items() if (row["keep_until"] or "") >= DAY}
    assert {item["code"]: item["on"] for item in answers.due if item["what"] == "keep the part until"} == coming


def test_tags_and_packets_say_the_same_of_every_sample(samples):
    numbers = sorted({row["claim"] for row in samples.held.values()})
    assert {number: agree(samples, number) is not None for number in numbers}


def test_tags_and_packets_tell_a_machine_by_the_number_that_lists_do(samples):
    serial = samples.listed[TURNED]["serial"]
    assert [serial in words for words in samples.papers(TURNED)] == [True, True, True]


def test_a_plan_that_was_changed_counts_on_tags_and_in_lists_alike(samples, tmp_path):
    shop = shutil.copytree(samples.shop, tmp_path / "shop", ignore=shutil.ignore_patterns("*-shm"))
    plan = (TEMPLATES / "halden-2025.toml").read_text(encoding="utf-8")
    (shop / "coverage" / "halden-2025.toml").write_text(plan.replace('of = "filed"', 'of = "paid"'), encoding="utf-8")
    assert agree(Answers(shop), TURNED) == "2026-10-30"
