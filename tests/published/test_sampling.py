"""Sample sizes and bounds against a reference library."""

from decimal import Decimal
from itertools import product

import pytest

from claimpack.core.auditing.sampling import probability_of_at_most, sample_size, tolerated, upper_bound

SCIPY = pytest.mark.source(
    "scipy.stats.hypergeom as reference library; hypergeometric distribution, any statistics text"
)


@pytest.fixture(scope="module")
def hypergeom():
    """The library's distribution; it takes seconds to load, so only these tests do."""
    from scipy.stats import hypergeom

    return hypergeom


@SCIPY
@pytest.mark.parametrize("population", [1, 7, 50, 333])
@pytest.mark.parametrize("sample_share", [1, 3, 9])
def test_probabilities_are_those_of_the_library(hypergeom, population, sample_share):
    sample = max(1, population // sample_share)
    for wrong in range(0, population + 1, max(1, population // 11)):
        for errors in (0, 1, 2, 5, sample):
            expected = hypergeom.cdf(errors, population, wrong, sample)
            assert float(probability_of_at_most(errors, population, wrong, sample)) == pytest.approx(
                expected, abs=1e-11
            )


@SCIPY
@pytest.mark.parametrize("population", [1, 2, 10, 59, 100, 500, 1234, 20_000])
def test_the_sample_size_is_the_first_the_library_finds_enough(hypergeom, population):
    for tolerable, confidence in product(("0.5", "1", "5", "10"), ("80", "90", "95", "99")):
        wrong, risk = tolerated(population, Decimal(tolerable)), 1 - float(confidence) / 100
        size = sample_size(population, Decimal(tolerable), Decimal(confidence))
        assert hypergeom.pmf(0, population, wrong, size) <= risk * (1 + 1e-9)
        assert size == 1 or hypergeom.pmf(0, population, wrong, size - 1) > risk * (1 - 1e-9)


@SCIPY
@pytest.mark.parametrize(("population", "sample"), [(10, 3), (100, 45), (500, 56), (2000, 59), (20_000, 300)])
def test_the_bound_is_the_last_the_library_does_not_rule_out(hypergeom, population, sample):
    for errors, confidence in product((0, 1, 2, 3), ("90", "95", "99")):
        most = upper_bound(population, sample, errors, Decimal(confidence)).most
        risk = 1 - float(confidence) / 100
        assert hypergeom.cdf(errors, population, most, sample) > risk * (1 - 1e-9)
        ruled_out = hypergeom.cdf(errors, population, most + 1, sample) <= risk * (1 + 1e-9)
        assert ruled_out or most == population - sample + errors


@pytest.mark.source(
    "scipy.stats.hypergeom: scan of n from 1 with pmf(0, 2000, 100, n) <= 0.05, and of M with cdf > 0.05"
)
def test_two_thousand_claims_at_95_and_5_per_cent(hypergeom):
    scanned = next(n for n in range(1, 2001) if hypergeom.pmf(0, 2000, 100, n) <= 0.05)
    bound = max(m for m in range(2001) if hypergeom.cdf(0, 2000, m, scanned) > 0.05)
    assert sample_size(2000, Decimal(5), Decimal(95)) == scanned == 58
    assert upper_bound(2000, scanned, 0, Decimal(95)).most == bound == 99
