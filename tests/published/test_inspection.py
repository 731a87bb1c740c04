"""A held part the maker did not inspect in time, as a statute gives it."""

from datetime import date

import pytest

from claimpack.core.holding.release_rules import Keeping, lets_go
from claimpack.core.payment.payment_dates import inspect_by
from claimpack.template_files import Places, read_terms


@pytest.mark.source("S.C. Code 39-59-100, read 2026-11-25 (row TX3): 60 days of filing, then it may be scrapped")
@pytest.mark.parametrize(
    ("today", "may_go"), [(date(2026, 3, 2), False), (date(2026, 3, 3), False), (date(2026, 3, 4), True)]
)
def test_in_south_carolina_a_part_may_be_scrapped_after_the_60th_day_from_filing(today, may_go):
    terms = read_terms("us-sc", Places())
    part = Keeping("held", inspect_by=inspect_by(date(2026, 1, 2), date(2026, 1, 5), terms), cites=terms.cites)
    assert bool(lets_go(part, today)) is may_go
