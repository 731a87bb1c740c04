from datetime import date, timedelta
from decimal import Decimal

from filed import FiledClaim

from claimpack.core.payment.pending import pending
from claimpack.core.reporting.outstanding import outstanding_by_age

TODAY = date(2026, 3, 1)


def owed(*claims, ageing="filed"):
    """Outstanding of claims given as (days old, amount, maker, currency)."""
    filed = []
    for place, (days, amount, maker, currency) in enumerate(claims):
        day = TODAY - timedelta(days=days)
        filed.append(FiledClaim(f"26-{place:04}", maker, filed=day, outstanding=Decimal(amount), currency=currency))
    return outstanding_by_age(pending(filed, {}, TODAY, ageing), ageing)


def test_amounts_fall_into_the_bucket_of_their_age():
    one = owed((30, "1.00", "Halden", "USD"), (31, "2.00", "Halden", "USD"), (91, "4.00", "Halden", "USD"))[0]
    assert one.makers[0].amounts == (Decimal("1.00"), Decimal("2.00"), 0, Decimal("4.00"))


def test_who_owes_most_stands_first():
    one = owed((3, "1.00", "Halden", "USD"), (3, "2.00", "Tessaly", "USD"))[0]
    assert [(maker.maker, maker.total) for maker in one.makers] == [("Tessaly", 2), ("Halden", 1)]


def test_what_is_older_than_sixty_days_is_counted():
    one = owed((60, "1.00", "Halden", "USD"), (61, "2.00", "Halden", "USD"), (400, "4.00", "Halden", "USD"))[0]
    assert (one.claims, one.older, one.older_amount) == (3, 2, Decimal("6.00"))


def test_each_currency_stands_for_itself_the_one_with_most_claims_first():
    found = owed((3, "9.00", "Halden", "CAD"), (3, "1.00", "Halden", "USD"), (3, "1.00", "Halden", "USD"))
    assert [(one.currency, one.total) for one in found] == [("USD", Decimal("2.00")), ("CAD", Decimal("9.00"))]


def test_a_claim_with_nothing_outstanding_is_left_out():
    assert owed((3, "0.00", "Halden", "USD")) == ()


def test_ageing_by_the_due_date_has_five_buckets():
    assert owed((3, "1.00", "Halden", "USD"), ageing="due")[0].buckets[0] == "current"
