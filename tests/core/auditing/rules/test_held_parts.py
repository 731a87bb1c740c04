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


@pytest.mark.parametrize(("then_paid", "count"), [(None, 1), (date(2026, 2, 26), 0)], ids=["paid since", "paid then"])
def test_a_hold_that_runs_from_payment_is_counted_from_the_payment_there_was_when_it_was_scrapped(then_paid, count):
    claim = scrapped(date(2026, 3, 12), RAN_OUT)
    part = claim.standing.parts[0].model_copy(update={"then_paid": then_paid})
    paid = claim.standing.model_dump() | {"payments": [{"on": "2026-03-10", "amount": "100.00"}], "parts": [part]}
    claim = claim._replace(standing=type(claim.standing).model_validate(paid))
    assert (
        len(found_by("scrapped-early", claim._replace(summary=ClaimSummary(hold_for="P10D", hold_of="paid")))) == count
    )


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


@pytest.mark.parametrize(("day", "count"), [(24, 0), (25, 1)], ids=["before", "that day"])
def test_a_part_is_let_go_in_the_name_of_a_maker_that_was_asked_from_the_day_of_filing_on(day, count):
    assert len(found_by("released-unheard", let_go(**RELEASED_ON | {"released": date(2026, 2, day)}))) == count


def test_a_maker_who_answered_may_have_let_it_go():
    part = let_go(**RELEASED_ON)
    answers = [{"on": "2026-02-26", "answer": "accepted"}]
    standing = type(part.standing).model_validate({**part.standing.model_dump(), "answers": answers})
    assert not found_by("released-unheard", part._replace(standing=standing))


def called_back(**changes):
    return let_go(**{"state": "called back", "called_back": date(2026, 2, 26), **changes})


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
    assert len(found_by("not-sent-back", called_back(**changes))) == count


@pytest.mark.parametrize(
    ("scrapped", "told"),
    [(None, date(2026, 2, 27)), (date(2026, 2, 28), date(2026, 2, 28))],
    ids=["let go", "scrapped"],
)
def test_a_part_called_back_and_gone_is_told_with_the_day_it_was_last_there(scrapped, told):
    gone = called_back(state="scrapped" if scrapped else "released", released=date(2026, 2, 27), scrapped=scrapped)
    (found,) = found_by("not-sent-back", gone)
    assert (found.says[0].key, found.says[0].facts["day"]) == ("not-sent-back.let-go", str(told))


@pytest.mark.parametrize(("send_by", "told"), [(date(2026, 3, 1), "2026-03-01"), (None, "not named")])
def test_the_day_a_part_called_back_was_to_be_sent_by_is_told_where_the_maker_named_one(send_by, told):
    (found,) = found_by("not-sent-back", called_back(state="released", released=date(2026, 2, 27), send_by=send_by))
    assert found.evidence["send by"] == told


def test_a_part_called_back_without_a_day_to_send_it_by_is_never_late():
    assert not found_by("not-sent-back", called_back())


def test_a_part_called_back_need_not_be_sent_for_a_claim_that_was_refused():
    late = called_back(send_by=date(2026, 2, 28))
    refused = late.standing.model_copy(update={"state": "refused"})
    assert not found_by("not-sent-back", late._replace(standing=refused))
