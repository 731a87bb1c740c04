from decimal import Decimal

import pytest
from settled_claims import ACCEPTED, PAID, SILENT, STEP, happened, standing

from claimpack.core.ending import reopened, withdrawn, written_off
from claimpack.errors import BadInput

IN_PART = happened("answered", answer="part", amount="120.00")


@pytest.mark.parametrize(
    "step",
    [
        lambda: written_off(standing(), SILENT),
        lambda: withdrawn(standing(), SILENT),
        lambda: reopened(standing(happened("withdrawn")), SILENT),
    ],
    ids=["write off", "withdraw", "reopen"],
)
def test_ending_a_claim_needs_a_reason(step):
    with pytest.raises(BadInput, match="--because is missing"):
        step()


def test_all_that_is_outstanding_is_written_off():
    assert written_off(standing(ACCEPTED, PAID), STEP).facts == {"amount": "59.70"}


def test_a_claim_written_off_owes_nothing():
    after = standing(ACCEPTED, PAID, written_off(standing(ACCEPTED, PAID), STEP))
    assert (after.state, after.outstanding, after.written_off) == ("written off", 0, Decimal("59.70"))


def test_what_the_maker_refused_of_a_paid_claim_is_written_off():
    before = standing(IN_PART, happened("paid", amount="120.00"))
    assert written_off(before, STEP).facts == {"amount": "39.70", "rest": "39.70"}


def test_the_refused_rest_alone_is_written_off_while_the_part_is_waited_for():
    assert written_off(standing(IN_PART), STEP, rest_only=True).facts == {"amount": "39.70", "rest": "39.70"}


def test_a_claim_given_up_whole_gives_up_the_refused_rest_too():
    assert written_off(standing(IN_PART, PAID), STEP).facts == {"amount": "59.70", "rest": "39.70"}


def test_without_a_refused_rest_it_cannot_be_written_off_alone():
    with pytest.raises(BadInput, match="--rest: no part of the claim is refused"):
        written_off(standing(ACCEPTED), STEP, rest_only=True)
