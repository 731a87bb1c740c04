from datetime import date

from claimpack.core.values.ageing import age


def test_the_day_of_filing_is_left_out():
    assert age(date(2026, 1, 1), date(2026, 1, 31)) == 30
