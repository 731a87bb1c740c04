from datetime import date
from decimal import Decimal

import pytest
from filed import FiledClaim
from new_events import FILED, OPENED, paid

from claimpack.core.events.fold import stand
from claimpack.core.payment.payment_dates import payment_dates
from claimpack.core.payment.silence import as_of, refusal_recorded, refused_by_silence, standing_as_of
from claimpack.core.plans.terms import Terms

TERMS = Terms(id="x", name="x", cites="Code 1", answer_within="P30D", silence="refused", resubmit_within="P30D")
LAST, AFTER = date(2026, 2, 1), date(2026, 2, 2)


@pytest.mark.parametrize(("day", "refused"), [(date(2026, 1, 31), None), (LAST, None), (AFTER, LAST)])
def test_silence_refuses_at_the_end_of_the_last_day_to_answer(day, refused):
    assert refused_by_silence(FiledClaim(), TERMS, day) == refused


@pytest.mark.parametrize("silence", ["accepted", "nothing"])
def test_silence_that_does_not_refuse_leaves_a_claim_filed(silence):
    terms = TERMS.model_copy(update={"silence": silence})
    assert as_of(FiledClaim(), terms, AFTER) == FiledClaim()


def test_without_the_day_of_receipt_silence_refuses_nothing():
    assert refused_by_silence(FiledClaim(received=None), TERMS, AFTER) is None


def test_a_claim_refused_by_silence_can_be_sent_in_again_for_as_long_as_one_refused_for_form():
    refused = as_of(FiledClaim(), TERMS, AFTER)
    dates = payment_dates(refused, TERMS)
    assert (refused.state, dates.refused_by_silence_on, dates.resubmit_by) == ("refused", LAST, date(2026, 3, 3))


def test_a_refusal_the_maker_sent_is_none_by_silence():
    refused = FiledClaim(state="refused", answered=date(2026, 1, 20), heard=date(2026, 1, 20))
    dates = payment_dates(refused, TERMS)
    assert (dates.refused_by_silence_on, dates.resubmit_by) == (None, None)


def test_a_part_that_was_paid_is_no_answer_to_the_rest():
    standing = standing_as_of(stand([OPENED, FILED, paid("50.00")]), TERMS, date(2026, 5, 1))
    assert (standing.state, standing.outstanding, standing.heard) == ("refused", Decimal("100.00"), None)


def test_what_is_recorded_of_a_refusal_by_silence_leaves_the_claim_as_it_counted():
    filed, day = [OPENED, FILED], date(2026, 5, 1)
    recorded = refusal_recorded(stand(filed), TERMS, day)
    assert stand([*filed, *recorded]) == standing_as_of(stand(filed), TERMS, day)


def test_where_silence_has_not_spoken_nothing_is_recorded():
    assert refusal_recorded(stand([OPENED, FILED]), TERMS, date(2026, 4, 2)) == ()
