from datetime import date
from decimal import Decimal

import pytest
from builders import a_claim, a_plan

from claimpack.core.events.standing import Standing
from claimpack.core.judging.claim_summary import ClaimSummary
from claimpack.core.pricing.pricing import Amounts
from claimpack.core.steps.earlier_visits import earlier_repairs, repeats, visit_of

NEW = a_claim(number="26-0009", dates__presented="2026-02-28", dates__repaired=None)


def a_visit(state="paid", verdict="covered", **changes):
    return visit_of(a_claim(**changes), Standing(state=state), ClaimSummary(verdict=verdict))


def kinds(*visits, claim=NEW):
    return [repeat.kind for repeat in repeats(claim, visits)]


@pytest.mark.parametrize("state", ["draft", "filed", "questioned", "accepted", "refused"])
def test_a_claim_still_open_is_warned_of(state):
    assert kinds(a_visit(state)) == ["open claim"]


@pytest.mark.parametrize("state", ["paid", "written off", "withdrawn"])
def test_a_settled_claim_is_not_open(state):
    assert kinds(a_visit(state, failure__component="recoil starter")) == ["here before"]


def test_the_same_component_is_warned_of_whatever_its_spelling():
    assert kinds(a_visit(failure__component="Short-Block")) == ["same component"]


def test_the_same_component_not_repaired_is_a_visit_only():
    assert kinds(a_visit(dates__repaired=None)) == ["here before"]


def test_an_engine_in_another_unit_counts():
    serials = [{"role": "unit", "value": "OTHER"}, {"role": "engine", "value": "e70-1"}]
    assert repeats(NEW, [a_visit(unit__serials=serials)])[0].because.startswith("E70-1 had the same component before")


def test_another_unit_is_no_repeat():
    assert kinds(a_visit(unit__serials=[{"role": "unit", "value": "OTHER"}])) == []


def test_open_claims_come_first_then_the_same_component():
    other = a_visit(number="25-0001", failure__component="coil")
    same, still_open = a_visit(number="25-0002"), a_visit("filed", number="25-0003")
    assert [repeat.claim for repeat in repeats(NEW, [other, same, still_open])] == ["25-0003", "25-0002", "25-0001"]


def test_of_two_other_visits_the_latest_comes_first():
    visits = [a_visit(number=f"25-000{n}", failure__component="coil", dates__presented=f"2026-02-1{n}") for n in (1, 2)]
    assert [repeat.claim for repeat in repeats(NEW, visits)] == ["25-0002", "25-0001"]


def test_a_warning_says_which_claim_when_and_what():
    because = repeats(NEW, [a_visit("draft")])[0].because
    assert because == "HC70-1 is on an open claim: 26-0001, draft, came in 2026-02-05, short block."


def test_another_makers_serial_is_told_as_such():
    assert "maker orrin-vale" in repeats(NEW, [a_visit(maker="orrin-vale")])[0].because


def earlier(*visits, claim=NEW):
    return [(repair.claim, repair.component, repair.repaired) for repair in earlier_repairs(claim, visits)]


def test_an_earlier_repair_is_carried_over():
    assert earlier(a_visit()) == [("26-0001", "short block", date(2026, 2, 24))]


def test_a_repair_of_the_day_the_unit_came_in_again_is_carried_over():
    assert earlier(a_visit(dates__repaired="2026-02-28")) == [("26-0001", "short block", date(2026, 2, 28))]


def test_earlier_repairs_stand_by_their_day_whatever_their_numbers():
    days = {"26-0001": "2026-02-20", "26-0002": "2026-02-10", "26-0003": "2026-02-15", "26-0004": None}
    visits = [a_visit(number=number, dates__repaired=day) for number, day in days.items()]
    assert [repair[0] for repair in earlier(*visits)] == ["26-0002", "26-0003", "26-0001"]


@pytest.mark.parametrize(
    "visit",
    [
        a_visit("withdrawn"),
        a_visit("refused"),
        a_visit(verdict="not covered"),
        a_visit(dates__repaired=None),
        a_visit(maker="orrin-vale"),
        a_visit(failure__component="coil"),
        a_visit(unit__serials=[{"role": "unit", "value": "OTHER"}]),
        a_visit(dates__repaired="2026-03-01"),
    ],
    ids=["withdrawn", "refused", "not covered", "not repaired", "maker", "component", "unit", "repaired later"],
)
def test_no_repair_under_warranty_of_this_component_is_not_carried_over(visit):
    assert earlier(visit) == []


def test_while_what_failed_is_unknown_every_repair_is_carried_over():
    claim = a_claim(number="26-0009", dates__presented="2026-02-28", dates__repaired=None, failure__component=None)
    assert len(earlier(a_visit(), a_visit(failure__component="coil"), claim=claim)) == 2


def test_a_repair_the_claim_names_already_is_not_named_twice():
    named = {"component": "Short block", "repaired": "2026-02-24", "claim": "old book"}
    claim = a_claim(number="26-0009", dates__presented="2026-02-28", dates__repaired=None, earlier=[named])
    assert [repair[0] for repair in earlier(a_visit(), claim=claim)] == ["old book"]


NAMED = ClaimSummary(verdict="covered", maker="halden", maker_name="Halden Tools")


@pytest.mark.parametrize("maker", ["halden", "Halden Tools"])
def test_one_maker_under_two_spellings_is_one(maker):
    visit = visit_of(a_claim(number="25-0001"), Standing(state="paid"), NAMED)
    assert earlier(visit, claim=NEW.model_copy(update={"maker": maker})) == [
        ("25-0001", "short block", date(2026, 2, 24))
    ]


CAPPED = a_plan(pays={"unit_cap": {"amount": "1200.00", "per": "life"}})


def paid_visit(state="paid", amounts=None, **changes):
    standing = Standing(state=state, currency="USD", payments=[{"on": "2025-10-01", "amount": "120.00"}])
    changes = {"number": "25-0001", "dates__presented": "2025-09-01", "dates__repaired": "2025-09-02", **changes}
    return visit_of(a_claim(**{"dates__failed": None, **changes}), standing, ClaimSummary(verdict="covered"), amounts)


@pytest.mark.parametrize(("state", "paid"), [("paid", "120.00"), ("written off", "120.00"), ("accepted", None)])
def test_under_a_cap_for_the_unit_what_a_settled_claim_was_paid_is_carried_over(state, paid):
    found = earlier_repairs(NEW, [paid_visit(state)], CAPPED)
    assert [repair.paid for repair in found] == [paid and Decimal(paid)]


def test_without_a_cap_for_the_unit_what_was_paid_is_not_asked_for():
    assert [repair.paid for repair in earlier_repairs(NEW, [paid_visit()], a_plan())] == [None]


def test_under_a_cap_for_the_unit_every_component_counts():
    starter = paid_visit(failure__component="recoil starter")
    assert (len(earlier_repairs(NEW, [starter], CAPPED)), earlier_repairs(NEW, [starter], a_plan())) == (1, ())


def test_where_time_in_repair_counts_every_component_is_carried_over_with_the_days_it_was_in():
    starter = paid_visit(failure__component="recoil starter", dates__returned="2025-09-05")
    (found,) = earlier_repairs(NEW, [starter], a_plan(repair_time_extends="calendar"))
    assert (found.component, found.presented, found.returned) == ("recoil starter", date(2025, 9, 1), date(2025, 9, 5))


def test_what_was_paid_with_tax_is_asked_for_and_not_carried_over():
    taxed = a_plan(pays={"unit_cap": {"amount": "1200.00", "per": "life"}, "tax": "0.08"})
    assert [repair.paid for repair in earlier_repairs(NEW, [paid_visit()], taxed)] == [None]


@pytest.mark.parametrize(("claimed", "paid"), [("120.00", "111.11"), ("150.00", None)])
def test_what_was_paid_in_full_is_carried_over_without_the_tax_of_its_claim(claimed, paid):
    taxed = a_plan(pays={"unit_cap": {"amount": "1200.00", "per": "life"}, "tax": "0.08"})
    amounts = Amounts.model_construct(claimed=Decimal(claimed), tax=Decimal("8.89"))
    found = earlier_repairs(NEW, [paid_visit(amounts=amounts)], taxed)
    assert [repair.paid for repair in found] == [paid and Decimal(paid)]
