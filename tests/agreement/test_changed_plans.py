"""After a plan was changed, every way to one fact of a draft goes by the plan as it reads today."""

from __future__ import annotations

from pathlib import Path

import pytest
from compared_shops import DAY, SAMPLES, Answers, must, on

HALDEN = Path(__file__).parents[2] / "templates" / "coverage" / "halden-2025.toml"


@pytest.fixture(scope="module")
def changed(tmp_path_factory):
    """Every sample as a draft, under a plan with less time to file, another rate and shorter windows since."""
    place = tmp_path_factory.mktemp("changed")
    must(on(DAY, place, "shop", "init", "shop", "--name", "Quarry Road", "--terms", "us-tx", "--currency", "USD"))
    shop = place / "shop"
    must(on(DAY, shop, "import", *sorted(SAMPLES.glob("26-*"))))
    before = Answers(shop).listed
    plan = HALDEN.read_text(encoding="utf-8")
    for old, new in (('"P30D"', '"P10D"'), ('"92.00"', '"50.00"'), ('"P12M"', '"P1M"')):
        plan = plan.replace(old, new)
    (shop / "coverage" / "halden-2025.toml").write_text(plan, encoding="utf-8")
    return before, Answers(shop)


def drafts(changed):
    _, answers = changed
    return {number: row for number, row in answers.listed.items() if row["state"] == "draft"}


def test_the_list_goes_by_the_plan_as_it_reads_today(changed):
    said, now = changed[0], drafts(changed)
    told = ("verdict", "claimed", "file_by")
    assert all(any(said[number][fact] != now[number][fact] for number in now) for fact in told)


def test_list_and_check_tell_the_same_verdict(changed):
    checked = {number: changed[1].checked[number]["verdict"] for number in drafts(changed)}
    assert checked == {number: row["verdict"] for number, row in drafts(changed).items()}


def test_list_check_and_ledger_tell_the_same_amount(changed):
    listed = {number: row["claimed"] for number, row in drafts(changed).items()}
    amounts = {number: changed[1].checked[number]["amounts"] for number in listed}
    assert {number: told["claimed"] if told else "0.00" for number, told in amounts.items()} == listed
    assert {number: changed[1].ledger[number]["claimed"] for number in listed} == listed


def test_list_check_and_due_tell_the_same_day_to_file(changed):
    answers = changed[1]
    listed = {number: row["file_by"] for number, row in drafts(changed).items() if row["file_by"]}
    checked = {
        number: day["on"]
        for number in drafts(changed)
        for day in answers.checked[number]["deadlines"]
        if day["what"] == "file by"
    }
    assert checked == {item["claim"]: item["on"] for item in answers.due if item["what"] == "file by"} == listed
