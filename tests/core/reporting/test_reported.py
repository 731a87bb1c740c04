from datetime import date
from decimal import Decimal

import pytest
from builders import a_claim
from new_events import ACCEPTED, FILED, LATER, OPENED, accepted_in_part, happened
from reported_claims import TODAY, counted, paid

from claimpack.core.events.events import NewEvent
from claimpack.core.events.fold import stand
from claimpack.core.events.standing import Standing
from claimpack.core.judging.claim_summary import ClaimSummary
from claimpack.core.reporting.money_by_month import MoneyByMonth
from claimpack.core.reporting.reported import Days, by_maker, days_between, of_maker, reported
from claimpack.core.values.money import summed
from claimpack.errors import BadInput


def test_the_first_and_the_last_day_are_within():
    days = Days(date(2026, 1, 1), date(2026, 1, 31))
    assert [days.hold(date(2026, 1, day)) for day in (1, 31)] == [True, True]


def test_the_days_before_and_after_are_not():
    days = Days(date(2026, 1, 2), date(2026, 1, 30))
    assert [days.hold(date(2026, 1, day)) for day in (1, 31)] == [False, False]


def test_without_a_first_day_everything_before_is_within():
    assert Days(None, TODAY).hold(date(1999, 1, 1))


def test_a_day_that_is_not_known_is_not_within():
    assert not Days(None, TODAY).hold(None)


def test_days_end_today_unless_told():
    assert days_between(None, None, TODAY) == Days(None, TODAY)


def test_a_report_may_be_about_a_single_day():
    assert days_between(TODAY, TODAY, TODAY) == Days(TODAY, TODAY)


def test_days_that_end_before_they_begin_are_refused():
    with pytest.raises(BadInput, match=r"--from 2026-02-02 is after --to 2026-02-01"):
        days_between(date(2026, 2, 2), date(2026, 2, 1), TODAY)


def test_a_unit_is_known_by_its_own_serial_before_that_of_its_engine():
    serials = [{"role": "engine", "value": "E-1"}, {"role": "unit", "value": "U-1"}]
    assert reported(a_claim(unit__serials=serials), Standing(), ClaimSummary()).unit == "U-1"


def test_a_unit_with_an_engine_number_alone_is_known_by_it():
    claim = a_claim(unit__serials=[{"role": "engine", "value": "E-1"}])
    assert reported(claim, Standing(), ClaimSummary()).unit == "E-1"


def test_a_claim_filed_again_waits_since_it_was_filed_first():
    first, again = (NewEvent(what="filed", on=date(2026, 3, day)) for day in (1, 20))
    questioned = NewEvent(what="answered", on=date(2026, 3, 10), facts={"answer": "questioned"})
    standing = stand([OPENED, first, questioned, again])
    assert (standing.filed, reported(a_claim(), standing, ClaimSummary()).filed) == (
        date(2026, 3, 20),
        date(2026, 3, 1),
    )


def test_a_claim_withdrawn_and_taken_up_again_was_not_filed_before():
    first, again = (NewEvent(what="filed", on=date(2026, 3, day)) for day in (1, 20))
    away = [NewEvent(what=what, on=date(2026, 3, 10)) for what in ("withdrawn", "reopened")]
    assert reported(a_claim(), stand([OPENED, first, *away, again]), ClaimSummary()).filed == date(2026, 3, 20)


def test_a_claim_paid_without_a_word_is_accepted_as_claimed():
    standing = Standing(state="paid", claimed="80.00", accepted_on=TODAY)
    assert reported(a_claim(), standing, ClaimSummary()).accepted == Decimal("80.00")


def test_a_claim_not_answered_is_not_accepted():
    assert reported(a_claim(), Standing(state="filed", claimed="80.00"), ClaimSummary()).accepted is None


@pytest.mark.parametrize(("filed_in", "currency"), [("USD", "USD"), ("", "CAD")], ids=["filed", "draft"])
def test_a_claim_is_in_the_currency_it_was_filed_in_and_a_draft_in_its_plans(filed_in, currency):
    assert reported(a_claim(), Standing(currency=filed_in), ClaimSummary(currency="CAD")).currency == currency


def test_a_maker_written_two_ways_is_one():
    assert list(by_maker([paid("1", maker="Halden"), paid("2", maker="HALDEN")])) == ["Halden"]


def test_the_claims_of_one_maker_whatever_its_letters():
    assert [claim.number for claim in of_maker([paid("1"), paid("2", maker="Tessaly")], "halden")] == ["1"]


def test_a_maker_that_no_claim_names_is_refused_with_the_nearest():
    with pytest.raises(BadInput) as caught:
        list(of_maker([paid()], "Haldn"))
    assert "Did you mean 'Halden'?" in " ".join(caught.value.lines())


def test_currencies_are_not_added_to_each_other():
    sums = summed([("USD", Decimal(1)), ("CAD", Decimal(2)), ("USD", Decimal(3))])
    assert sums == {"CAD": Decimal(2), "USD": Decimal(4)}


LET_GO = happened("written off", amount="50.00", rest="50.00")
FILED_AGAIN = happened("filed", claimed="150.00", currency="USD")


@pytest.mark.parametrize(
    ("more", "sums"),
    [([], (0, 0, 50)), ([LET_GO], (0, 50, 0)), ([ACCEPTED], (50, 0, 0)), ([FILED_AGAIN], (50, 0, 0))],
    ids=["left open", "let go", "given in to", "filed again"],
)
def test_what_was_refused_of_a_paid_claim_is_in_one_sum_of_the_month(more, sums):
    events = [OPENED, FILED, accepted_in_part("100.00"), happened("paid", amount="100.00"), *more]
    (month,) = counted(MoneyByMonth(Days(None, LATER)), [reported(a_claim(), stand(events), ClaimSummary())])
    assert (month.outstanding, month.written_off, month.short) == sums


def test_a_maker_is_asked_for_by_any_of_its_words():
    claims = [paid("1", maker="Tessaly Pumps")._replace(maker_words=("tessaly", "tessaly pumps")), paid("2")]
    assert [claim.number for claim in of_maker(claims, "Tessaly")] == ["1"]
