"""Every two ways to one day to keep, for every claim and held part of two shops."""

from __future__ import annotations

import csv
import datetime as dt
import io
from decimal import Decimal

import pytest
from compared_shops import DAY, sheet

TODAY = dt.date.fromisoformat(DAY)


def due(answers, what, key="claim"):
    """The days of that kind that `due` tells, by claim or code."""
    return {item[key]: item["on"] for item in answers.due if item["what"] == what}


def checked(answers, what):
    """The days of that kind that `check` tells, by claim."""
    return {
        number: day["on"]
        for number, told in answers.checked.items()
        for day in told["deadlines"]
        if day["what"] == what
    }


def test_the_day_to_file_is_the_same_in_list_check_and_due(answers):
    listed = {number: row["file_by"] for number, row in answers.listed.items() if row["file_by"]}
    assert checked(answers, "file by") == due(answers, "file by") == listed


def test_a_day_to_file_that_was_missed_is_the_same_in_list_check_and_due(answers):
    drafts = {number for number, row in answers.listed.items() if row["state"] == "draft"}
    missed = {number: row["file_by"] for number, row in answers.listed.items() if (row["file_by"] or DAY) < DAY}
    late = {number: told["late"] for number, told in answers.checked.items() if told.get("late") and number in drafts}
    assert {number: found["file_by"] for number, found in late.items()} == missed
    assert {item["claim"]: -item["days"] for item in answers.due if item["what"] == "file by" and item["missed"]} == {
        number: found["days"] for number, found in late.items()
    }


def test_the_day_to_answer_is_the_same_in_pending_and_due(answers):
    silent = {item["claim"] for item in answers.pending.values() if (item["accepted_by_silence_on"] or "9") < DAY}
    wanted = {number: row["answer_due"] for number, row in answers.pending.items() if row["answer_due"]}
    assert due(answers, "answer expected") == {number: day for number, day in wanted.items() if number not in silent}


def test_the_day_to_pay_is_the_same_in_pending_and_due(answers):
    waiting = due(answers, "payment expected") | due(answers, "contest the refusal")
    wanted = {number: row["pay_due"] for number, row in answers.pending.items() if row["pay_due"]}
    not_yet = {number for number in wanted if (answers.pending[number]["answer_due"] or "") >= DAY}
    assert waiting == {number: day for number, day in wanted.items() if number not in not_yet}


def test_the_day_to_send_again_is_the_same_in_pending_and_due(answers):
    wanted = {number: row["resubmit_by"] for number, row in answers.pending.items() if row["resubmit_by"]}
    assert due(answers, "resubmit by") == wanted


@pytest.mark.parametrize(
    ("column", "key"),
    [
        ("State", "state"),
        ("Filed", "filed"),
        ("First filed", "first_filed"),
        ("Answer by", "answer_due"),
        ("Accepted by silence on", "accepted_by_silence_on"),
        ("Pay by", "pay_due"),
        ("Send again by", "resubmit_by"),
        ("Outstanding", "outstanding"),
        ("Days late", "days_overdue"),
        ("Age", "age_days"),
    ],
)
def test_the_report_says_of_each_claim_what_pending_does(answers, column, key):
    pending = {number: said(row[key]) for number, row in answers.pending.items()}
    text = answers.report_file("-what-to-do-first.csv").read_text(encoding="utf-8-sig")
    for rows in (answers.reported["what-to-do-first"], csv.DictReader(io.StringIO(text))):
        assert {row["Claim"]: said(row[column]) for row in rows} == pending


def said(value):
    """A value as a list says it; nothing for none of something."""
    return "" if value in {None, 0, "0"} else str(value)


def test_the_reports_workbook_says_of_each_claim_what_pending_does(answers):
    rows = sheet(answers.report_file(".xlsx"), "what-to-do-first")
    told = {row["Claim"]: (row["What to do"], f"{row['Outstanding']:.2f}") for row in rows if row["Currency"] != "JPY"}
    pending = {number: (row["step"], row["outstanding"]) for number, row in answers.pending.items()}
    assert told == {number: facts for number, facts in pending.items() if number in told}
    assert {row["Claim"] for row in rows} == set(pending)


def test_the_report_on_paper_and_as_a_page_names_what_each_claim_owes(answers):
    paper = answers.printed(str(answers.report_file(".pdf")))
    page = answers.report_file(".html").read_text(encoding="utf-8")
    for number, row in answers.pending.items():
        owed = f"{Decimal(row['outstanding']):,}"
        assert (number, number in paper, owed in paper, owed in page) == (number, True, True, True)


def test_the_days_to_a_date_are_counted_alike_in_check_and_due(answers):
    for told in answers.checked.values():
        assert all(day["days_left"] == (dt.date.fromisoformat(day["on"]) - TODAY).days for day in told["deadlines"])
    assert all(item["days"] == (dt.date.fromisoformat(item["on"]) - TODAY).days for item in answers.due)


def test_a_letter_names_the_day_that_pending_does(answers):
    late = [number for number, row in answers.pending.items() if row["days_overdue"]]
    for number in late:
        row, letter = answers.pending[number], answers.told("chase", number)
        day = dt.date.fromisoformat(row["pay_due"] or row["answer_due"])
        assert (number, f"{day.day} {day:%B %Y}" in letter["text"]) == (number, True)


def test_what_is_outstanding_adds_up_alike_in_list_pending_report_and_ledger(answers):
    sums = {}
    for row in answers.ledger.values():
        sums[row["currency"]] = sums.get(row["currency"], 0) + round(float(row["outstanding"]) * 100)
    owed = {currency: cents for currency, cents in sums.items() if cents}
    totals = answers.told("pending")["totals"]
    by_currency = totals.get("by_currency") or {totals["currency"]: totals}
    told = {code: round(float(one["outstanding"]) * 100) for code, one in by_currency.items()}
    assert {code: cents for code, cents in told.items() if cents} == owed
    reported = {}
    for name, rows in answers.reported.items():
        for row in rows if name.startswith("outstanding") else ():
            reported[row["Currency"]] = reported.get(row["Currency"], 0) + round(float(row["Total"]) * 100)
    assert reported == owed
