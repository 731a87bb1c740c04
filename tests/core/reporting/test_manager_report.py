from datetime import date
from decimal import Decimal

import pytest
from filed import FiledClaim
from reported_claims import TERMS, paid, shelved, told

from claimpack.core.payment.refused_rests import RefusedRest
from claimpack.core.plans.terms import not_read
from claimpack.core.reporting.manager_report import Gathered, manager_report
from claimpack.core.reporting.reported import Days

LATER = Days(date(2026, 2, 1), date(2026, 3, 1))


def test_what_is_owed_today_is_told_whatever_the_days_looked_back_on():
    found = told((paid(),), owed=(FiledClaim(),), days=LATER)
    assert (len(found.pending), found.outstanding[0].claims) == (1, 1)


def test_held_parts_are_told_whatever_the_days_looked_back_on():
    assert told(held=(shelved(),), days=LATER).held.parts == 1


def test_how_it_went_is_told_of_the_days_alone():
    found = told((paid(),), days=LATER)
    assert (found.months, found.speed.paid) == ((), 0)


def test_the_terms_that_dates_come_from_are_told_once():
    assert [terms.id for terms in told(owed=(FiledClaim("1"), FiledClaim("2"))).terms] == ["us-tx"]


@pytest.mark.parametrize("terms", [not_read("us-zz"), None], ids=["not read", "none"])
def test_a_pending_claim_whose_terms_are_not_known_tells_none(terms):
    assert told(owed=(FiledClaim(),), terms=terms).terms == ()


@pytest.mark.parametrize(("silent", "terms"), [(date(2026, 2, 16), ("us-tx",)), (None, ())])
def test_the_terms_of_a_rest_that_silence_had_accepted_are_told(silent, terms):
    rest = RefusedRest("1", "Halden", "USD", Decimal(5), accepted_by_silence_on=silent)
    gathered = Gathered((), (), (), {"1": TERMS}, (rest,))
    assert tuple(each.id for each in manager_report(gathered, told().about).terms) == terms


def test_without_pending_claims_no_terms_are_told():
    assert told((paid(),)).terms == ()
