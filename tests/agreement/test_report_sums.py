"""What a manager is told first and last, against what every other list tells of the same claims, of two shops."""

from __future__ import annotations

from collections import defaultdict
from decimal import Decimal

import pytest
from compared_shops import DAY


@pytest.fixture
def pending(answers):
    """All that `pending` says."""
    return answers.told("pending")


@pytest.fixture
def amounts(pending):
    """The claims of each of the three amounts with its amount, as `pending` has them for scripts."""
    told = pending["three_amounts"]
    names = ("can_be_lost", "late", "only_the_shop")
    return {name: [(one["claim"], one["amount"]) for one in told[name]["claims"]] for name in names}


def summed(rows, *columns):
    """What columns come to over rows, by currency; nothing where it is nothing."""
    found = defaultdict(Decimal)
    for row in rows:
        found[row.get("currency") or row["Currency"]] += sum(Decimal(str(row[column])) for column in columns)
    return {code: amount for code, amount in found.items() if amount}


def test_what_makers_are_late_with_is_what_pending_has_as_late_or_owed_again(answers, amounts):
    late = {
        number
        for number, row in answers.pending.items()
        if (row["days_overdue"] and not row["part_awaited"])
        or (row["owed_again"] or DAY) < DAY
        or row["audit_reached_to"]
    }
    contested = {item["claim"] for item in answers.due if item["what"] == "contest the refusal" and item["missed"]}
    assert {number for number, _ in amounts["late"]} == late | contested


def test_what_makers_are_late_with_is_outstanding_in_the_ledger_with_a_rest_that_is_contested(answers, amounts):
    for number, amount in amounts["late"]:
        owed, rest = (Decimal(answers.ledger[number][column]) for column in ("outstanding", "not_accepted"))
        assert (number, Decimal(amount) in {owed, owed + rest}) == (number, True)


def test_for_all_that_a_maker_is_late_with_there_is_a_letter(answers, amounts):
    assert all(answers.told("chase", number)["asks"] for number, _ in amounts["late"])


def test_what_only_the_shop_can_move_of_filed_claims_is_its_turn_or_a_refused_rest(answers, pending, amounts):
    late = {number: Decimal(amount) for number, amount in amounts["late"]}
    turns = [(row["claim"], row["outstanding"]) for row in pending["claims"] if row["turn"] == "shop"]
    rests = [(rest["claim"], rest["amount"]) for rest in pending["refused_rests"]]
    # a rest is counted once: with what is late where silence had accepted it, else beside it
    beside = [one for one in rests if late.get(one[0], 0) <= Decimal(answers.ledger[one[0]]["outstanding"])]
    ours = [one for one in (*(one for one in turns if one[0] not in late), *beside) if Decimal(one[1])]
    filed = [one for one in amounts["only_the_shop"] if answers.listed[one[0]]["state"] != "draft"]
    assert sorted(filed) == sorted(ours)


def test_what_a_draft_puts_into_the_three_amounts_is_what_the_ledger_has_it_claim(answers, amounts):
    drafts = {number: row["claimed"] for number, row in answers.ledger.items() if row["state"] == "draft"}
    told = {one for some in amounts.values() for one in some if one[0] in drafts}
    assert told <= set(drafts.items())


def test_what_can_be_lost_by_a_day_is_a_day_that_due_tells(answers, pending):
    days = {(item["claim"], item["on"]) for item in answers.due}
    told = {(one["claim"], one["by"]) for one in pending["three_amounts"]["can_be_lost"]["claims"] if one["by"]}
    assert told <= days


def test_what_is_lost_by_any_cause_is_written_off_missed_or_refused_for_good(answers):
    drafts = [row for number, row in answers.ledger.items() if is_missed(answers.listed[number], row)]
    too_late = [row for row in answers.pending.values() if (row["resubmit_by"] or DAY) < DAY]
    expected = defaultdict(Decimal)
    for rows, column in ((answers.ledger.values(), "written_off"), (drafts, "claimed"), (too_late, "outstanding")):
        for code, amount in summed(rows, column).items():
            expected[code] += amount
    assert summed(answers.reported["lost-by-cause"], "Amount") == expected


def is_missed(listed, row):
    """Whether a draft was not filed in time though it is covered."""
    return row["state"] == "draft" and row["verdict"] == "covered" and (listed["file_by"] or DAY) < DAY


@pytest.mark.parametrize(
    ("column", "month"), [("Claims", "Claims"), ("Claimed", "Claimed"), ("Paid", "Paid"), ("Still owed", "Owed")]
)
def test_recovery_comes_to_what_the_months_do(answers, column, month):
    months = [row for name, rows in answers.reported.items() if name.startswith("claimed-and-paid") for row in rows]
    assert summed(answers.reported["recovery"], column) == summed(months, month)
