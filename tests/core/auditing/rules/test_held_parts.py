from datetime import date

import pytest
from audits import DRAFT, FILED, REFUSED, an_audited, found_by
from builders import a_plan

from claimpack.core.auditing.audited import Measures
from claimpack.core.events.part_state import HeldStanding
from claimpack.core.holding.release_rules import NOT_INSPECTED, RAN_OUT, RELEASED, WITHDRAWN
from claimpack.core.judging.claim_summary import ClaimSummary
from claimpack.core.plans.terms import Terms

PLAN = a_plan(hold={"for": "P90D", "of": "filed"})
PARTS = [{"name": "Short block", "number": "P-1"}]
HELD = [{"part": "short block"}]


def with_parts(**changes):
    return an_audited(parts=PARTS, **changes)._replace(plan=PLAN)


def test_parts_paid_and_nothing_held_is_serious():
    found = found_by("held-part-missing", with_parts())
    assert [(each.weight, each.evidence["until"]) for each in found] == [("serious", "2026-05-26")]


def test_a_held_part_is_what_the_plan_asks_for():
    assert not found_by("held-part-missing", with_parts(held=HELD))


@pytest.mark.parametrize(("today", "count"), [(date(2026, 5, 26), 1), (date(2026, 5, 27), 0)], ids=["last day", "over"])
def test_it_is_told_until_the_hold_has_run_out(today, count):
    assert len(found_by("held-part-missing", with_parts(), measures=Measures(today))) == count


@pytest.mark.parametrize("standing", [DRAFT, REFUSED], ids=["draft", "refused"])
def test_only_filed_claims_that_stand_need_one(standing):
    assert not found_by("held-part-missing", with_parts()._replace(standing=standing))


@pytest.mark.parametrize(
    "plan", [a_plan(), a_plan(hold={"for": "P90D"}, requires={"held_part": False})], ids=["no hold", "not required"]
)
def test_a_plan_may_ask_for_none(plan):
    assert not found_by("held-part-missing", with_parts()._replace(plan=plan))


def test_a_claim_for_labour_alone_has_no_part_to_hold():
    assert not found_by("held-part-missing", an_audited(parts=[PARTS[0] | {"payer": "owner"}])._replace(plan=PLAN))


def where(**part):
    """A filed claim whose held part stands so; the plan has it kept until 26 May."""
    standing = FILED.model_copy(update={"parts": (HeldStanding(index=1, **part),)})
    return with_parts(held=HELD)._replace(standing=standing, summary=ClaimSummary(hold_for="P90D", hold_of="filed"))


def test_a_part_not_found_when_shelves_were_counted_is_serious():
    found = found_by("held-part-missing", where(missing=date(2026, 3, 1)))
    assert [each.what for each in found] == ["Held part 26-0001/1 was not found on 2026-03-01."]


def test_a_part_sent_away_need_not_be_found():
    assert not found_by("held-part-missing", where(state="sent", missing=date(2026, 3, 1)))


def scrapped(on, rule):
    return where(state="scrapped", released=on, scrapped=on, rule=rule)


def test_a_part_scrapped_without_a_rule_is_serious():
    found = found_by("scrapped-early", scrapped(date(2026, 7, 1), ""))
    assert [(each.weight, each.evidence["rule recorded"]) for each in found] == [("serious", "none")]


@pytest.mark.parametrize(("on", "count"), [(date(2026, 5, 26), 1), (date(2026, 5, 27), 0)], ids=["last day", "after"])
def test_a_hold_that_had_not_run_out_lets_nothing_go(on, count):
    assert len(found_by("scrapped-early", scrapped(on, RAN_OUT))) == count


@pytest.mark.parametrize("rule", [RELEASED, WITHDRAWN])
def test_what_the_maker_released_or_nobody_claims_for_may_go_any_day(rule):
    assert not found_by("scrapped-early", scrapped(date(2026, 3, 1), rule))


@pytest.mark.parametrize(("on", "count"), [(date(2026, 4, 26), 1), (date(2026, 4, 27), 0)], ids=["day 60", "day 61"])
def test_the_time_to_inspect_lets_a_part_go_before_the_hold_ends(on, count):
    terms = Terms(id="us-test", name="Test law", inspect_within="P60D", inspect_from="filed")
    claim = scrapped(on, NOT_INSPECTED)._replace(terms=terms)
    assert len(found_by("scrapped-early", claim)) == count


def test_a_time_to_inspect_that_nobody_knows_is_not_said_to_have_been_kept_to_or_not():
    assert not found_by("scrapped-early", scrapped(date(2026, 3, 1), NOT_INSPECTED))


def test_a_claim_filed_again_after_the_scrapping_speaks_not_against_it():
    again = FILED.model_copy(update={"filed": date(2026, 6, 1)})
    part = HeldStanding(index=1, state="scrapped", scrapped=date(2026, 5, 27), rule=RAN_OUT, then_filed=FILED.filed)
    claim = scrapped(date(2026, 5, 27), RAN_OUT)
    assert not found_by("scrapped-early", claim._replace(standing=again.model_copy(update={"parts": (part,)})))


def test_without_a_known_hold_nothing_speaks_against_a_rule():
    assert not found_by("scrapped-early", scrapped(date(2026, 3, 1), RAN_OUT)._replace(summary=ClaimSummary()))


def test_a_part_on_its_shelf_is_not_scrapped():
    assert not found_by("scrapped-early", where())


def let_go(**part):
    standing = FILED.model_copy(update={"parts": (HeldStanding(index=1, **part),)})
    return an_audited(held=HELD)._replace(standing=standing)


RELEASED_ON = {"state": "released", "released": date(2026, 2, 26), "rule": "released by the maker"}


def test_a_part_let_go_before_the_maker_was_heard_of_is_told():
    assert [each.weight for each in found_by("released-unheard", let_go(**RELEASED_ON))] == ["look"]


def test_a_maker_who_answered_may_have_let_it_go():
    part = let_go(**RELEASED_ON)
    answers = [{"on": "2026-02-26", "answer": "accepted"}]
    standing = type(part.standing).model_validate({**part.standing.model_dump(), "answers": answers})
    assert not found_by("released-unheard", part._replace(standing=standing))


@pytest.mark.parametrize(
    ("changes", "count"),
    [
        ({"send_by": date(2026, 3, 1)}, 0),
        ({"send_by": date(2026, 2, 28)}, 1),
        ({"send_by": date(2026, 2, 28), "sent": date(2026, 2, 27), "state": "sent"}, 0),
        ({"released": date(2026, 2, 27), "scrapped": date(2026, 2, 27), "state": "scrapped"}, 1),
    ],
    ids=["today", "yesterday", "sent", "scrapped"],
)
def test_a_part_called_back_is_sent_in_time(changes, count):
    part = {"state": "called back", "called_back": date(2026, 2, 26), **changes}
    assert len(found_by("not-sent-back", let_go(**part))) == count
