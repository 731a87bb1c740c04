from datetime import date
from decimal import Decimal

from builders import TODAY, a_claim, a_plan

from claimpack.core.assessment import assess
from claimpack.core.digest import Digest, digest


def test_a_digest_tells_the_verdict_and_what_is_claimed():
    claim = a_claim(labour=[{"operation": "short-block-replace", "hours": "1.6"}])
    short = digest(assess(claim, [a_plan()], TODAY))
    assert (short.plan, short.verdict, short.covered_until) == ("halden-test", "covered", date(2026, 3, 14))
    assert (short.claimed, short.currency) == (Decimal("147.20"), "USD")


def test_a_digest_tells_until_when_to_file():
    plan = a_plan(filing={"within": "P30D", "of": "repaired"})
    assert digest(assess(a_claim(), [plan], TODAY)).file_by == date(2026, 3, 26)


def test_without_a_repair_there_is_no_day_to_file_by():
    plan = a_plan(filing={"within": "P30D", "of": "repaired"})
    assert digest(assess(a_claim(dates__repaired=None), [plan], TODAY)).file_by is None


def test_a_digest_tells_how_long_parts_are_held():
    short = digest(assess(a_claim(), [a_plan(hold={"for": "P90D", "of": "filed"})], TODAY))
    assert (short.hold_for, short.hold_of) == ("P90D", "filed")


def test_a_claim_without_a_plan_is_undecided_and_claims_nothing():
    assert digest(assess(a_claim(), [], TODAY)) == Digest(verdict="undecided")
