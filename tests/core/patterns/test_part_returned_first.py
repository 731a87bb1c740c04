"""The maker pays when the failed part is back with it: until the shop has sent it, it is the shop's turn."""

from __future__ import annotations

from datetime import date

import pytest
from builders import a_claim, a_plan

from claimpack.core.events.events import NewEvent
from claimpack.core.events.fold import stand
from claimpack.core.judging.assessment import assess
from claimpack.core.judging.claim_summary import summary_of
from claimpack.core.payment.chasing import Chased, matter, why_not
from claimpack.core.payment.due_dates import due
from claimpack.core.payment.pending import as_json, pending
from claimpack.core.plans.terms import Terms
from claimpack.core.steps.listed import listed, stood

TODAY = date(2026, 4, 1)
TERMS = Terms.model_validate(
    {"id": "thirty-days", "name": "30 days", "cites": "section 3", "read_on": "2026-01-01", "pay_within": "P30D"}
)
ACCEPTED = [
    NewEvent(what="opened", on=date(2026, 3, 2)),
    NewEvent(what="filed", on=date(2026, 3, 2), facts={"claimed": "159.70", "currency": "USD"}),
    NewEvent(what="answered", on=date(2026, 3, 9), facts={"answer": "accepted"}),
]
SENT = NewEvent(what="part sent", on=date(2026, 3, 12), facts={"part": "1"})
RELEASED = NewEvent(what="part released", on=date(2026, 3, 12), facts={"part": "1"})


def row(*more: NewEvent, first: bool = True, held: int = 1):
    claim = a_claim(held=[{"part": "short block"}] * held)
    plan = a_plan(requires={"part_returned_first": first})
    return listed(claim, 1, summary_of(assess(claim, [plan], TODAY)), stood(stand([*ACCEPTED, *more])))


def waiting(*more: NewEvent, **plan: object) -> tuple[str, str, bool]:
    (found,) = pending([row(*more, **plan)], {"26-0001": TERMS}, TODAY)
    told = as_json(found)
    return told["turn"], told["step"], told["part_awaited"]


def test_an_accepted_claim_waits_for_the_shop_to_send_the_part():
    assert waiting() == ("shop", "send the part back: by its plan it is paid when it is there", True)


@pytest.mark.parametrize("gone", [SENT, RELEASED])
def test_with_the_part_on_its_way_or_released_the_payment_is_waited_for(gone):
    assert waiting(gone) == ("maker", "wait for the payment", False)


def test_every_held_part_is_to_be_sent():
    assert waiting(SENT, held=2)[2]


@pytest.mark.parametrize("plan", [{"first": False}, {"held": 0}])
def test_other_plans_and_claims_without_a_held_part_wait_for_the_payment(plan):
    assert waiting(**plan)[0] == "maker"


def test_the_date_to_be_paid_by_says_what_it_waits_for():
    (payment,) = due([row()], [], {"26-0001": TERMS}, (TODAY, date(2026, 5, 1)))
    assert payment.because.endswith("by its plan the maker pays when the part is back, and it is not sent yet")


@pytest.mark.parametrize("awaited", [True, False])
def test_no_letter_asks_for_the_payment_before_the_part_is_sent(awaited):
    late = date(2026, 5, 1)  # accepted on 2026-03-09, so to be paid by 2026-04-08
    chased = Chased("26-0001", "Halden", "CS-70", "HC70-1", stand(ACCEPTED), TERMS, part_awaited=awaited)
    assert (matter(chased, late) is None, "hold send" in why_not(chased, late)) == (awaited, awaited)


def test_nor_is_a_refusal_without_grounds_contested_before():
    refused = [*ACCEPTED[:2], NewEvent(what="answered", on=date(2026, 3, 9), facts={"answer": "refused"})]
    terms, late = TERMS.model_copy(update={"without_grounds": "accepted"}), date(2026, 5, 1)
    ways = [
        Chased("26-1", "Halden", "CS-70", "HC70-1", stand(refused), terms, part_awaited=one) for one in (True, False)
    ]
    assert [matter(way, late) is None for way in ways] == [True, False]


@pytest.mark.parametrize(("first", "told"), [(True, [False]), (False, [])])
def test_the_claim_tells_the_condition_and_may_be_filed_all_the_same(first, told):
    claim, plan = a_claim(held=[{"part": "short block"}]), a_plan(requires={"part_returned_first": first})
    items = assess(claim, [plan], TODAY).missing
    assert [item.blocks_filing for item in items if item.what.key == "missing.part-first"] == told
