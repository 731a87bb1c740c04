from datetime import date
from decimal import Decimal

import pytest

from claimpack.core.events import Happening
from claimpack.core.states import OPEN, PENDING, HeldStanding, may_follow, stand
from claimpack.errors import WrongState

DAY = date(2026, 3, 1)
LATER = date(2026, 4, 2)


def happened(what, on=DAY, why="", **facts):
    return Happening(what=what, on=on, why=why, facts=facts)


OPENED = happened("opened")
FILED = happened("filed", claimed="150.00", currency="USD", received="2026-03-03", reference="R-7", revision="2")
ACCEPTED = happened("answered", answer="accepted")
REFUSED = happened("answered", answer="refused", form="yes", why="no receipt")
QUESTIONED = happened("answered", answer="questioned")
WITHDRAWN = happened("withdrawn")
REOPENED = happened("reopened")
UNDONE = happened("answer undone")
PAYMENT_UNDONE = happened("payment undone")


def paid(amount, on=DAY):
    return happened("paid", on, amount=amount)


def written_off(amount):
    return happened("written off", amount=amount)


def part(what, index="1", **facts):
    return happened(f"part {what}", part=index, **facts)


WAY_TO = {
    "draft": [OPENED],
    "filed": [OPENED, FILED],
    "questioned": [OPENED, FILED, QUESTIONED],
    "accepted": [OPENED, FILED, ACCEPTED],
    "refused": [OPENED, FILED, REFUSED],
    "paid": [OPENED, FILED, ACCEPTED, paid("150.00")],
    "written off": [OPENED, FILED, REFUSED, written_off("150.00")],
    "withdrawn": [OPENED, FILED, WITHDRAWN],
}


@pytest.mark.parametrize("state", WAY_TO)
def test_a_claim_stands_where_its_events_took_it(state):
    assert stand(WAY_TO[state]).state == state


@pytest.mark.parametrize(
    ("state", "what", "after"),
    [
        ("draft", happened("edited"), "draft"),
        ("draft", FILED, "filed"),
        ("draft", WITHDRAWN, "withdrawn"),
        ("filed", happened("corrected"), "filed"),
        ("filed", ACCEPTED, "accepted"),
        ("filed", happened("answered", answer="part", amount="90"), "accepted"),
        ("filed", REFUSED, "refused"),
        ("filed", QUESTIONED, "questioned"),
        ("filed", paid("150.00"), "paid"),
        ("filed", paid("10.00"), "accepted"),
        ("filed", written_off("150.00"), "written off"),
        ("filed", WITHDRAWN, "withdrawn"),
        ("questioned", FILED, "filed"),
        ("questioned", ACCEPTED, "accepted"),
        ("questioned", happened("corrected"), "questioned"),
        ("accepted", paid("150.00"), "paid"),
        ("accepted", UNDONE, "filed"),
        ("refused", UNDONE, "filed"),
        ("questioned", UNDONE, "filed"),
        ("paid", paid("1"), "paid"),
        ("paid", PAYMENT_UNDONE, "accepted"),
        ("accepted", written_off("150.00"), "written off"),
        ("accepted", WITHDRAWN, "withdrawn"),
        ("refused", FILED, "filed"),
        ("refused", ACCEPTED, "accepted"),
        ("refused", written_off("150.00"), "written off"),
        ("paid", happened("charged back", amount="150.00"), "accepted"),
        ("withdrawn", REOPENED, "draft"),
        ("written off", REOPENED, "refused"),
    ],
)
def test_what_may_follow_and_where_it_leads(state, what, after):
    standing = stand(WAY_TO[state])
    may_follow(standing, what)
    assert stand([what], standing).state == after


@pytest.mark.parametrize(
    ("state", "what"),
    [
        ("draft", ACCEPTED),
        ("draft", paid("1")),
        ("draft", happened("corrected")),
        ("draft", REOPENED),
        ("draft", written_off("1")),
        ("filed", FILED),
        ("filed", happened("edited")),
        ("filed", happened("charged back", amount="1")),
        ("accepted", FILED),
        ("accepted", REFUSED),
        ("refused", paid("1")),
        ("paid", WITHDRAWN),
        ("paid", ACCEPTED),
        ("paid", written_off("1")),
        ("withdrawn", FILED),
        ("withdrawn", WITHDRAWN),
        ("written off", paid("1")),
    ],
)
def test_what_may_not_follow(state, what):
    standing = stand(WAY_TO[state])
    with pytest.raises(WrongState) as caught:
        may_follow(standing, what)
    assert caught.value.what == f"the claim is {state}, so it cannot be {what.what} now"


def test_a_refusal_says_what_is_possible():
    with pytest.raises(WrongState) as caught:
        may_follow(stand([OPENED]), ACCEPTED)
    assert caught.value.why == "From draft it can be: edited, filed, withdrawn."


def test_a_shelf_count_follows_everywhere():
    assert may_follow(stand(WAY_TO["paid"]), happened("shelf counted")) is None


def test_filing_keeps_what_was_claimed_and_when():
    standing = stand(WAY_TO["filed"])
    assert (standing.filed, standing.received, standing.reference) == (DAY, date(2026, 3, 3), "R-7")
    assert (standing.claimed, standing.currency, standing.filed_revision) == (Decimal("150.00"), "USD", 2)


def test_a_claim_filed_again_waits_for_a_new_answer():
    standing = stand([*WAY_TO["refused"], happened("filed", LATER, claimed="140")])
    assert (standing.answered, standing.because, standing.refused_for_form) == (None, "", False)
    assert (standing.filed, standing.outstanding) == (LATER, Decimal(140))


def test_a_claim_filed_again_keeps_its_reference():
    assert stand([*WAY_TO["questioned"], happened("filed", LATER, claimed="1")]).reference == "R-7"


def test_a_refusal_for_form_is_told_from_one_for_substance():
    substance = happened("answered", answer="refused", why="misuse")
    assert stand(WAY_TO["refused"]).refused_for_form
    assert not stand([*WAY_TO["filed"], substance]).refused_for_form


def test_an_answer_in_part_is_what_is_owed():
    standing = stand([*WAY_TO["filed"], happened("answered", answer="part", amount="90.00")])
    assert (standing.owed, standing.outstanding) == (Decimal("90.00"), Decimal("90.00"))


def test_a_claim_accepted_without_an_amount_is_accepted_whole():
    assert stand(WAY_TO["accepted"]).accepted == Decimal("150.00")


def test_a_short_payment_leaves_the_difference_to_chase():
    standing = stand([*WAY_TO["accepted"], paid("100.00")])
    assert (standing.state, standing.outstanding) == ("accepted", Decimal("50.00"))


def test_several_payments_settle_a_claim():
    standing = stand([*WAY_TO["accepted"], paid("100.00"), paid("20.00"), paid("30.00", LATER)])
    assert (standing.state, standing.paid, standing.paid_on) == ("paid", Decimal("150.00"), LATER)


def test_a_payment_above_what_is_owed_settles_it_and_is_kept():
    standing = stand([*WAY_TO["accepted"], paid("151.00")])
    assert (standing.state, standing.paid, standing.outstanding) == ("paid", Decimal("151.00"), Decimal(0))


def test_a_payment_of_the_accepted_part_settles_a_claim():
    standing = stand([*WAY_TO["filed"], happened("answered", answer="part", amount="90"), paid("90.00")])
    assert standing.state == "paid"


def test_a_payment_without_an_answer_counts_as_accepted_from_its_day():
    standing = stand([*WAY_TO["filed"], paid("100.00", LATER)])
    assert (standing.state, standing.accepted_on, standing.outstanding) == ("accepted", LATER, Decimal("50.00"))


def test_an_answer_undone_leaves_the_one_before():
    standing = stand([*WAY_TO["questioned"], REFUSED, UNDONE])
    assert (standing.state, standing.refused_for_form) == ("questioned", False)


def test_an_answer_undone_and_another_given_owes_the_other_amount():
    standing = stand([*WAY_TO["accepted"], UNDONE, happened("answered", answer="part", amount="120")])
    assert (standing.state, standing.outstanding) == ("accepted", Decimal(120))


def test_a_payment_undone_is_owed_again():
    standing = stand([*WAY_TO["accepted"], paid("100.00"), paid("50.00"), PAYMENT_UNDONE])
    assert (standing.state, standing.paid, standing.outstanding) == ("accepted", Decimal("100.00"), Decimal("50.00"))


def test_the_rest_of_a_short_payment_can_be_written_off():
    standing = stand([*WAY_TO["accepted"], paid("100.00"), written_off("50.00")])
    assert (standing.state, standing.written_off, standing.outstanding) == ("written off", Decimal("50.00"), Decimal(0))


def test_a_charge_back_is_outstanding_again():
    standing = stand([*WAY_TO["paid"], happened("charged back", why="part not produced", amount="60.00")])
    assert (standing.paid, standing.outstanding) == (Decimal("90.00"), Decimal("60.00"))
    assert standing.because == "part not produced"


def test_a_claim_written_off_and_reopened_is_owed_again():
    standing = stand([*WAY_TO["written off"], REOPENED])
    assert (standing.state, standing.outstanding) == ("refused", Decimal("150.00"))


def test_a_claim_withdrawn_and_reopened_was_never_filed():
    standing = stand([*WAY_TO["withdrawn"], REOPENED])
    assert (standing.state, standing.filed, standing.claimed, standing.packet) == ("draft", None, Decimal(0), "")


@pytest.mark.parametrize("state", ["draft", "paid", "written off", "withdrawn"])
def test_nothing_is_outstanding_on_a_claim_that_is_not_pending(state):
    assert stand(WAY_TO[state]).outstanding == 0


def test_pending_is_open_without_drafts():
    assert tuple(state for state in OPEN if state != "draft") == PENDING


PART_WAY_TO = {
    "held": [],
    "called back": [part("called back", send_by="2026-03-20")],
    "sent": [part("called back"), part("sent")],
    "released": [part("released", rule="hold over")],
    "scrapped": [part("released"), part("scrapped")],
}


@pytest.mark.parametrize(
    ("state", "what", "after"),
    [
        ("held", "moved", "held"),
        ("held", "called back", "called back"),
        ("held", "released", "released"),
        ("called back", "moved", "called back"),
        ("called back", "sent", "sent"),
        ("called back", "released", "released"),
        ("released", "moved", "released"),
        ("released", "scrapped", "scrapped"),
    ],
)
def test_where_a_held_part_may_go(state, what, after):
    standing = stand(PART_WAY_TO[state])
    may_follow(standing, part(what))
    assert stand([part(what)], standing).part(1).state == after


@pytest.mark.parametrize(
    ("state", "what"),
    [
        ("held", "sent"),
        ("held", "scrapped"),
        ("called back", "scrapped"),
        ("called back", "called back"),
        ("sent", "moved"),
        ("sent", "scrapped"),
        ("sent", "released"),
        ("released", "sent"),
        ("scrapped", "moved"),
    ],
)
def test_where_a_held_part_may_not_go(state, what):
    standing = stand(PART_WAY_TO[state])
    with pytest.raises(WrongState) as caught:
        may_follow(standing, part(what))
    assert caught.value.what.startswith(f"the held part is {state}, so it cannot be {what}")


def test_a_part_called_back_is_due_on_a_day():
    called = stand(PART_WAY_TO["called back"]).part(1)
    assert called == HeldStanding(index=1, state="called back", called_back=DAY, send_by=date(2026, 3, 20))


def test_a_released_part_says_by_which_rule():
    assert stand(PART_WAY_TO["released"]).part(1).rule == "hold over"


def test_the_parts_of_a_claim_stand_each_for_itself():
    standing = stand([part("released", "2"), part("called back", "1")])
    assert [(held.index, held.state) for held in standing.parts] == [(1, "called back"), (2, "released")]
    assert standing.part(3).state == "held"


def test_events_in_two_goes_lead_where_they_lead_in_one():
    events = [*WAY_TO["paid"], part("released"), happened("charged back", amount="1")]
    assert stand(events[3:], stand(events[:3])) == stand(events)


@pytest.mark.parametrize("state", ["filed", "questioned"])
def test_the_day_the_maker_received_a_claim_may_be_noted_later(state):
    noted = happened("received", LATER)
    may_follow(stand(WAY_TO[state]), noted)
    assert (stand([*WAY_TO[state], noted]).received, stand([*WAY_TO[state], noted]).state) == (LATER, state)


@pytest.mark.parametrize("state", ["draft", "accepted", "refused", "paid", "withdrawn"])
def test_no_day_of_receipt_is_noted_of_a_claim_that_waits_for_no_answer(state):
    with pytest.raises(WrongState):
        may_follow(stand(WAY_TO[state]), happened("received", LATER))


def test_a_part_not_found_at_a_count_is_missing_until_one_finds_it():
    lost = happened("shelf counted", LATER, part="1", shelf="B3", found="no")
    found = happened("shelf counted", LATER, part="1", shelf="B3", found="yes")
    assert [stand([OPENED, lost]).part(1).missing, stand([OPENED, lost, found]).part(1).missing] == [LATER, None]


def a_short_paid_claim():
    return stand(
        [
            Happening(what="opened", on=DAY),
            Happening(what="filed", on=DAY, facts={"claimed": "100.00", "currency": "USD"}),
            Happening(what="paid", on=DAY, facts={"amount": "60.00"}),
        ]
    )


@pytest.mark.parametrize(("amount", "state"), [("60.00", "paid"), ("60.01", "accepted")])
def test_an_answer_after_a_short_payment_settles_what_it_accepts(amount, state):
    answer = Happening(what="answered", on=DAY, facts={"answer": "part", "amount": amount})
    may_follow(a_short_paid_claim(), answer)
    assert stand([answer], a_short_paid_claim()).state == state
