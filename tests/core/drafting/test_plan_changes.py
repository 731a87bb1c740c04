from __future__ import annotations

from datetime import date
from decimal import Decimal

from builders import TODAY, a_claim, a_plan, a_window

from claimpack.core.drafting.imagined import axes_of
from claimpack.core.drafting.plan_changes import changed_claims, changed_keys, changed_pay, outcome_of, renamed_windows
from claimpack.core.judging.assessment import assess

SOLD = date(2025, 3, 14)


def pay(old, new):
    """What is paid otherwise: components, unit, from and to which age, and what before and after."""
    return [
        (
            ", ".join(change.components),
            change.unit.says,
            (str(change.first.period or ""), change.first.days, str(change.last.period or ""), change.last.days),
            (" ".join(change.before.windows), " ".join(change.after.windows)),
        )
        for change in changed_pay(old, new, axes_of([old, new], SOLD))
    ]


def test_a_longer_window_pays_from_the_day_after_the_shorter_one_ended():
    longer = a_plan(window=[a_window(period="P18M")])
    assert pay(a_plan(), longer) == [("engine, short block", "", ("P12M", 1, "P18M", 0), ("", "engine"))]


def test_plans_that_pay_alike_differ_in_nothing_that_is_paid():
    assert pay(a_plan(), a_plan(pays={"labour_rate": "95.00"})) == []


def test_what_is_so_of_every_unit_is_told_once():
    old = a_plan(window=[a_window(first_owner_only=True)])
    new = a_plan(window=[a_window(first_owner_only=True, period="P18M")])
    assert [unit for _, unit, _, _ in pay(old, new)] == [""]


def test_what_is_so_of_another_unit_alone_is_told_of_it():
    told = pay(a_plan(window=[a_window(first_owner_only=True)]), a_plan())
    assert ["sold again" in unit for _, unit, _, _ in told] == [True]


def test_a_limit_that_is_lower_is_told_for_the_readings_between_once():
    told = pay(a_plan(window=[a_window(hours=300)]), a_plan(window=[a_window(hours=250)]))
    assert [(unit, paid) for _, unit, _, paid in told] == [("more than 250 hours", ("engine", ""))]


def test_a_key_is_told_with_what_both_plans_say():
    changes = changed_keys(a_plan(), a_plan(pays={"labour_rate": "95.00"}, name="Halden 2026"))
    assert [tuple(change) for change in changes] == [
        ("pays.labour_rate", "92.00", "95.00"),
        ("name", "", "Halden 2026"),
    ]


def test_an_entry_of_a_list_goes_by_its_name_and_not_by_its_place():
    one, two = a_window(), a_window(id="unit", covers=["*"])
    assert [change.key for change in changed_keys(a_plan(window=[one, two]), a_plan(window=[two, one]))] == []


def test_a_claim_that_comes_to_something_else_is_told_with_what_differs():
    claim, shorter = a_claim(), a_plan(window=[a_window(period="P6M")])
    pair = (assess(claim, [a_plan()], TODAY), assess(claim, [shorter], TODAY))
    assert [change.differing() for change in changed_claims([("26-0001", "draft", *pair)])] == [
        ("verdict", "window", "last_day")
    ]


def test_a_claim_that_comes_to_the_same_is_not_told():
    same = assess(a_claim(), [a_plan()], TODAY)
    assert changed_claims([("26-0001", "draft", same, same)]) == ()


def test_what_is_claimed_otherwise_is_told():
    claim = a_claim(labour=[{"operation": "coil", "hours": "2"}])
    found = [outcome_of(assess(claim, [a_plan(pays={"labour_rate": rate})], TODAY)) for rate in ("92.00", "95.00")]
    assert [outcome.claimed for outcome in found] == [Decimal("184.00"), Decimal("190.00")]


def test_a_window_that_is_only_called_otherwise_changes_its_name_alone():
    old, new = a_plan(), a_plan(window=[a_window(id="motor")])
    assert pay(old, new) == []
    assert [tuple(change) for change in changed_keys(old, new)] == [("window[engine].id", "engine", "motor")]


def test_a_window_that_is_new_is_none_of_those_that_are_gone():
    assert renamed_windows(a_plan(), a_plan(window=[a_window(id="clutch", covers=["clutch"])])) == {}


def test_a_window_that_now_says_what_another_said_keeps_its_own_name():
    longer = {"period": "P24M"}
    old = a_plan(window=[a_window(id="short"), a_window(id="long", **longer)])
    assert renamed_windows(old, a_plan(window=[a_window(id="short", **longer)])) == {}


def test_entries_of_a_list_without_names_go_by_their_place():
    shares = [{"until": "P6M", "maker": "1"}, {"until": "P12M", "maker": "0.5"}]
    less = [shares[0], {"until": "P12M", "maker": "0.4"}]
    changes = changed_keys(a_plan(window=[a_window(shares=shares)]), a_plan(window=[a_window(shares=less)]))
    assert [tuple(change) for change in changes] == [("window[engine].shares[2].maker", "0.5", "0.4")]


def test_a_word_beside_tables_in_a_list_goes_by_its_place():
    some = ["compression", {"what": "capacity", "unit": "%", "at_most": "70"}]
    changes = changed_keys(a_plan(requires={"findings": some}), a_plan(requires={"findings": ["leak-down", some[1]]}))
    assert [tuple(change) for change in changes] == [("requires.findings[1]", "compression", "leak-down")]


def test_yes_and_no_are_told_as_files_write_them():
    changes = changed_keys(a_plan(), a_plan(requires={"part_returned_first": True}))
    assert [change.after for change in changes] == ["true"]


def test_a_word_that_nothing_else_means_is_said_all_the_same():
    changes = changed_keys(a_plan(words={"seat": []}), a_plan(words={}))
    assert [(change.key, change.before, change.after) for change in changes] == [("words.seat", "said", "")]
