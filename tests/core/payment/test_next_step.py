from datetime import date
from decimal import Decimal
from types import SimpleNamespace

import pytest
from builders import TODAY, a_claim, a_plan
from new_events import FILED, OPENED, accepted_in_part, paid

from claimpack.core.events.fold import stand
from claimpack.core.judging.assessment import assess
from claimpack.core.judging.claim_summary import ClaimSummary
from claimpack.core.payment.next_step import before_the_work, is_late, step_with_dates, waits_for
from claimpack.core.payment.payment_dates import PaymentDates
from claimpack.core.plans.terms import NOT_KNOWN, Terms
from claimpack.core.steps.listed import listed, stood
from claimpack.core.values.wording.sentence import Sentence


def steps(**changes):
    plan = a_plan(requires__approval_components=["short block"])
    return before_the_work(assess(a_claim(**changes), [plan], TODAY))


def test_the_makers_approval_comes_before_the_repair():
    said, how = steps(dates__repaired=None)
    assert (said.startswith("First, before the repair: prior approval."), "claimpack approval request" in how) == (
        True,
        True,
    )


def test_an_approval_that_was_left_out_comes_before_filing():
    assert steps()[0].startswith("Before it is filed: prior approval.")


@pytest.mark.parametrize(
    ("approval", "how"), [(None, "approval given"), ({"number": "A-7", "up_to": "10"}, "Claim no more")]
)
def test_after_the_repair_no_approval_is_asked_for_any_more(approval, how):
    said = steps(approval=approval, parts=[{"name": "Ring", "unit_cost": "20.00"}])[1]
    assert (how in said, "--anyway REASON" in said, "approval request" in said) == (True, True, False)


def test_nothing_comes_before_the_work_once_the_maker_agreed():
    assert steps(dates__repaired=None, approval={"number": "A-7", "on": "2026-02-10"}) == ()


def test_scripts_are_told_the_amounts_of_an_approval_as_they_are_written():
    dear = a_claim(approval={"number": "A-7", "up_to": "1200"}, parts=[{"name": "Ring", "unit_cost": "2000.00"}])
    assessed = assess(dear, [a_plan()], TODAY)
    said = [before_the_work(assessed, spoken)[0] for spoken in (str, Sentence.plainly)]
    assert [("1,200" in one, "1200" in one) for one in said] == [(True, False), (False, True)]


TERMS = Terms.model_validate({"id": "t", "name": "T", "answer_within": "P30D", "silence": "accepted"})
DAYS = ("file_by", "filed", "received", "answered", "heard", "accepted_on", "paid_on", "owed_again")
EMPTY = {
    **dict.fromkeys(DAYS),
    "refused_for_form": False,
    "currency": "USD",
    "refused_rest": Decimal(0),
    "outstanding": Decimal(10),
    "approval_wanted": False,
    "approval_state": "",
    "case_kind": "repair",
    "claimed": Decimal(10),
    "approval_asked": None,
    "asks_goodwill": False,
    "elsewhere": "",
    "part_awaited": False,
    "seller_alone": False,
    "judged_by": "",
    "approval_until": None,
    "gave_no_grounds": False,
    "chased_on": None,
    "ask_again": None,
}


def next_of(terms=None, **row):
    return waits_for(SimpleNamespace(**{**EMPTY, "state": "draft", "verdict": "covered", **row}), terms, TODAY)


@pytest.mark.parametrize(
    ("row", "says"),
    [
        ({"verdict": "undecided"}, "find out if it is covered"),
        ({"verdict": "not covered"}, "tell the owner: not covered"),
        ({"verdict": "not covered", "asks_goodwill": True}, "file the request for goodwill"),
        ({"verdict": "not covered", "elsewhere": "Orrin & Vale"}, "open a claim under Orrin & Vale"),
        ({"seller_alone": True}, "close it: the seller owes it alone"),
        (
            {"verdict": "not covered", "asks_goodwill": True, "file_by": TODAY},
            "file the request for goodwill by 2026-03-01",
        ),
        ({}, "repair, then file"),
        ({"case_kind": "part"}, "replace the part, then file"),
        ({"file_by": date(2026, 3, 2)}, "file by 2026-03-02"),
        ({"file_by": TODAY}, "file by 2026-03-01"),
        ({"file_by": date(2026, 2, 28)}, "file by 2026-02-28 (late)"),
        ({"approval_wanted": True}, "get the maker's approval, repair, then file"),
        ({"approval_wanted": True, "file_by": TODAY}, "without full approval: file by 2026-03-01"),
        ({"approval_until": date(2026, 2, 28)}, "get the maker's approval, repair, then file"),
        ({"approval_state": "asked", "approval_asked": TODAY}, "wait for the maker's approval, asked on 2026-03-01"),
        ({"approval_state": "refused", "file_by": TODAY}, "tell the owner: the maker refused its approval"),
        ({"approval_until": TODAY}, "repair, then file"),
    ],
)
def test_a_draft_waits_for_the_shop(row, says):
    assert next_of(**row) == says


@pytest.mark.parametrize("asks", [True, False])
def test_a_favour_is_late_after_its_last_day_as_a_covered_claim_is(asks):
    late = {"state": "draft", "verdict": "not covered", "file_by": date(2026, 2, 28), "asks_goodwill": asks}
    assert is_late(SimpleNamespace(**{**EMPTY, **late}), TODAY) is asks


@pytest.mark.parametrize("state", ["paid", "written off", "withdrawn"])
def test_a_settled_claim_waits_for_nothing(state):
    assert next_of(state=state, filed=date(2026, 1, 2)) == ""


def test_a_filed_claim_without_terms_waits_for_the_answer():
    assert next_of(state="filed", filed=date(2026, 1, 2)) == "wait for the answer"


def test_a_claim_refused_for_form_is_to_be_put_right():
    refused = {"state": "refused", "filed": date(2026, 1, 2), "answered": date(2026, 2, 1), "refused_for_form": True}
    assert next_of(**refused) == "correct and resubmit"


def test_under_terms_a_late_answer_counts_by_its_day():
    says = next_of(TERMS, state="filed", filed=date(2026, 1, 2), received=date(2026, 1, 5))
    assert says.startswith("ask for payment")


@pytest.mark.parametrize(
    ("accepted", "says"), [("150", ""), ("100", "contest or write off 50.00 USD")], ids=["whole", "part"]
)
def test_a_paid_claim_waits_only_for_what_was_not_accepted(accepted, says):
    events = [OPENED, FILED, accepted_in_part(accepted), paid(accepted)]
    assert waits_for(listed(a_claim(), 1, ClaimSummary(), stood(stand(events))), None, TODAY) == says


def test_a_paid_claim_of_a_list_says_how_much_of_it_was_not_accepted():
    assert (
        next_of(state="paid", filed=date(2026, 1, 2), refused_rest=Decimal("31.78")) == "contest or write off 31.78 USD"
    )


PART_PAID_LATE = {
    "state": "paid",
    "filed": date(2026, 1, 2),
    "received": date(2026, 1, 2),
    "heard": date(2026, 2, 20),
    "refused_rest": Decimal("31.78"),
}


def test_a_rest_refused_after_silence_is_to_be_chased():
    assert next_of(TERMS, **PART_PAID_LATE) == "chase 31.78 USD: silence accepted it on 2026-02-01"


def test_a_rest_refused_in_time_may_be_written_off():
    assert next_of(TERMS, **{**PART_PAID_LATE, "heard": date(2026, 2, 1)}) == "contest or write off 31.78 USD"


@pytest.mark.parametrize(
    ("again", "says"),
    [(TODAY, "chased on 2026-02-10"), (date(2026, 3, 2), "chased on 2026-02-10, ask again from 2026-03-02")],
    ids=["the day to ask again", "the day before"],
)
def test_a_step_that_asks_the_maker_tells_of_the_letter_that_went_out(again, says):
    late = {"state": "filed", "filed": date(2026, 1, 2), "received": date(2026, 1, 2)}
    assert next_of(TERMS, **late, chased_on=date(2026, 2, 10), ask_again=again).partition("; ")[2] == says


def test_a_step_that_asks_nobody_tells_of_no_letter():
    assert "chased" not in next_of(state="questioned", filed=TODAY, chased_on=TODAY, ask_again=TODAY)


@pytest.mark.parametrize("state", ["filed", "accepted"])
def test_where_the_terms_of_its_shop_are_not_known_a_claim_is_never_said_to_wait(state):
    facts = {"state": state, "filed": date(2025, 1, 2)}
    assert (next_of(NOT_KNOWN, **facts).startswith("wait"), next_of(None, **facts).startswith("wait")) == (False, True)


@pytest.mark.parametrize(("state", "told"), [("questioned", 1), ("refused", 1), ("accepted", 0)])
def test_that_no_day_is_known_is_told_beside_a_step_that_a_day_could_change(state, told):
    step = next_of(NOT_KNOWN, state=state, filed=date(2025, 1, 2), answered=TODAY)
    assert step.count("; its shop's terms are not known here") == told


@pytest.mark.parametrize(
    ("silence", "said"),
    [
        ({"accepted_by_silence_on": TODAY}, "; silence then accepts it"),
        ({"refused_by_silence_on": TODAY}, "; silence then refuses it"),
        ({}, ""),
    ],
)
def test_what_silence_will_do_is_told_with_the_answer_that_is_waited_for(silence, said):
    step = step_with_dates("wait for the answer", PaymentDates(answer_due=TODAY, **silence))
    assert step == f"wait for the answer{said}"


def test_a_letter_that_went_out_is_told_after_the_days_of_the_step():
    dates = PaymentDates(answer_due=date(2026, 2, 1), accepted_by_silence_on=date(2026, 2, 1))
    said = step_with_dates("ask for payment: accepted by silence; chased on 2026-02-02", dates)
    assert said == "ask for payment: accepted by silence on 2026-02-01; chased on 2026-02-02"
