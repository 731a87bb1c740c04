"""Every two ways to one fact of a claim, for every claim of two shops."""

from __future__ import annotations

import json
from decimal import Decimal

import pytest

MONEY = ("claimed", "paid", "outstanding")


def by_claim(rows, *facts):
    """The facts of every claim, by its number."""
    return {number: tuple(row[fact] for fact in facts) for number, row in rows.items()}


def judged(answers):
    """The claims that the program has judged itself: all samples, and the drafts of the busy shop."""
    made_up = {number for number, row in answers.listed.items() if not row["plan"] and row["state"] != "draft"}
    return {number: row for number, row in answers.listed.items() if number not in made_up}


def test_a_state_is_the_same_in_list_show_and_ledger(answers):
    listed = by_claim(answers.listed, "state")
    assert by_claim({number: told["standing"] for number, told in answers.shown.items()}, "state") == listed
    assert by_claim(answers.ledger, "state") == by_claim(answers.ledger_workbook, "state") == listed


@pytest.mark.parametrize("day", ["filed", "received", "answered", "paid_on"])
def test_a_day_is_the_same_in_list_and_ledger(answers, day):
    assert {number: row[day] or None for number, row in answers.ledger.items()} == {
        number: row[day] for number, row in answers.listed.items()
    }


def test_money_is_the_same_in_list_and_ledger(answers):
    assert by_claim(answers.ledger, "currency", *MONEY) == by_claim(answers.listed, "currency", *MONEY)


def test_the_ledger_says_the_same_as_text_and_as_workbook(answers):
    numbers = {
        number: tuple(f"{row[name]:.2f}" for name in MONEY)
        for number, row in answers.ledger_workbook.items()
        if row["currency"] != "JPY"
    }
    assert numbers == {number: told for number, told in by_claim(answers.ledger, *MONEY).items() if number in numbers}


def test_money_of_a_filed_claim_is_the_same_in_list_and_show(answers):
    filed = {number: told["standing"] for number, told in answers.shown.items() if told["standing"]["filed"]}
    listed = by_claim(answers.listed, *MONEY)
    assert by_claim(filed, *MONEY) == {number: listed[number] for number in filed}


def test_what_a_draft_claims_is_the_same_in_list_and_check(answers):
    drafts = [number for number, row in answers.listed.items() if row["state"] == "draft"]
    amounts = {number: answers.checked[number]["amounts"] for number in drafts}
    checked = {number: amount["claimed"] if amount else "0.00" for number, amount in amounts.items()}
    assert checked == {number: answers.listed[number]["claimed"] for number in drafts}


@pytest.mark.parametrize("fact", ["verdict", "plan"])
def test_a_verdict_is_the_same_in_list_check_and_ledger(answers, fact):
    listed = {number: row[fact] or None for number, row in judged(answers).items()}
    assert {number: answers.checked[number][fact] for number in listed} == listed
    assert {number: answers.ledger[number][fact] or None for number in listed} == listed


def test_the_data_beside_a_packet_says_what_check_does(samples):
    for number in ("26-0041", "26-0090"):
        assert samples.papers(number)
        data = json.loads((samples.shop / "made" / number / "claim.json").read_text(encoding="utf-8"))
        judged = {key: value for key, value in samples.checked[number].items() if key != "pictures"}
        assert data["assessment"] == judged


def test_show_judges_as_check_does(answers):
    facts = ("verdict", "complete")
    assert by_claim(answers.shown, *facts) == by_claim(answers.checked, *facts)


def test_what_blocks_filing_is_the_same_in_show_and_check(answers):
    blocking = {
        number: [item["what"] for item in told["missing"] if item["blocks_filing"]]
        for number, told in answers.checked.items()
    }
    assert {number: told["missing"] for number, told in answers.shown.items()} == blocking


def test_the_next_step_is_the_same_in_list_and_show(answers):
    listed = {number: row["next"] for number, row in judged(answers).items()}
    assert {number: answers.shown[number]["next"] for number in listed} == listed


def test_the_next_step_is_the_same_in_list_pending_and_report(answers):
    pending = by_claim(answers.pending, "step")
    assert {number: (answers.listed[number]["next"],) for number in pending} == pending
    assert {row["Claim"]: (row["What to do"],) for row in answers.reported["what-to-do-first"]} == pending


def test_a_machine_is_told_by_one_number(answers):
    units = {
        number: {one["role"]: one["value"] for one in told["claim"]["unit"]["serials"]}.get("unit", "")
        for number, told in answers.shown.items()
    }
    assert {number: row["serial"] for number, row in answers.listed.items()} == units
    assert all(row["serial"] == units[row["claim"]] for row in answers.held.values())


def test_a_maker_goes_by_one_name(answers):
    listed = by_claim(answers.listed, "maker")
    assert by_claim(answers.ledger, "maker") == listed
    for rows in (answers.pending, answers.held):
        assert {(row["claim"], row["maker"]) for row in rows.values()} <= {(key, *name) for key, name in listed.items()}
    for number, (name,) in listed.items():
        assert f"· {name} {answers.listed[number]['model']}" in answers.said("check", number).splitlines()[0]


def test_an_audit_puts_at_risk_what_the_list_says_was_paid_and_is_asked_for(answers):
    told, sums = answers.told("audit", "--json"), dict[str, Decimal]()
    # of what a maker pays too little nothing is at risk
    found = (each["claims"] for each in told["exceptions"] if each["rule"] != "below-floor")
    for row in (answers.listed[number] for number in {claim for claims in found for claim in claims}):
        # what was refused is lost already
        asked = "0" if row["state"] == "refused" else row["outstanding"]
        sums[row["currency"]] = sums.get(row["currency"], Decimal(0)) + max(Decimal(row["paid"]), 0) + Decimal(asked)
    assert {code: Decimal(amount) for code, amount in told["at_risk"].items()} == {
        code: amount for code, amount in sums.items() if amount
    }
