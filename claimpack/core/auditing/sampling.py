"""Samples for an audit: how many claims to look at, which ones, and what the errors found say of all."""

from __future__ import annotations

import hashlib
from bisect import bisect_left
from collections.abc import Iterable, Sequence
from datetime import date
from decimal import ROUND_CEILING, Decimal
from fractions import Fraction
from math import ceil, comb
from typing import NamedTuple

from claimpack.core.values.money import plain
from claimpack.core.values.numbers_said import how_many
from claimpack.errors import BadInput

# up to these the exact whole numbers are worked out while somebody waits
MOST_CLAIMS = 1_000_000
MOST_CHECKED = 20_000


class Sample(NamedTuple):
    """A sample: the claims drawn, in order, and all that is needed to draw it again."""

    numbers: tuple[str, ...]
    population: int
    tolerable: int
    seed: str


class UpperBound(NamedTuple):
    """What a checked sample says of the whole: with this confidence no more than so many claims hold an error."""

    population: int
    sample: int
    errors: int
    confidence: Decimal
    most: int

    @property
    def most_percent(self) -> Decimal:
        """The bound as a percentage of the population, rounded up to a tenth."""
        share = Decimal(self.most) * 100 / Decimal(self.population)
        # a bound is rounded away from what is hoped for
        return share.quantize(Decimal("0.1"), ROUND_CEILING)

    def __str__(self) -> str:
        """The bound in one plain sentence, with its caution."""
        # all of them were looked at: there is nothing to infer, and no confidence to speak of
        if self.sample == self.population:
            return self._exactly()
        found = "no error was" if self.errors == 0 else f"{self.errors} error{_s(self.errors)} {_were(self.errors)}"
        return (
            f"With {plain(self.confidence)} % confidence, at most {self.most:,} of {self.population:,} claims "
            f"({plain(self.most_percent)} %) hold an error: {found} found in {self.sample:,} drawn at random. "
            f"An upper bound is no estimate: there may be far fewer."
        )

    def _exactly(self) -> str:
        holds = "holds" if self.errors == 1 else "hold"
        return (
            f"Exactly {self.errors:,} of {self.population:,} claim{_s(self.population)} "
            f"({plain(self.most_percent)} %) {holds} an error: all of them were looked at, so this is no estimate."
        )


def _s(count: int) -> str:
    return "" if count == 1 else "s"


def _were(count: int) -> str:
    return "was" if count == 1 else "were"


def probability_of_at_most(errors: int, population: int, wrong: int, sample: int) -> Fraction:
    """How likely a sample without replacement holds no more errors than so many; exact.

    Args:
        errors: the most errors in the sample.
        population: how many claims there are.
        wrong: how many of them hold an error.
        sample: how many are drawn.

    Source: the hypergeometric distribution, any statistics text.
    """
    return Fraction(*_ways_of_at_most(errors, population, wrong, sample))


def _ways_of_at_most(errors: int, population: int, wrong: int, sample: int) -> tuple[int, int]:
    """In how many ways of how many a sample holds no more errors than so many."""
    # Drawing n of which M are wrong is as likely as drawing M of which n are sampled; the smaller keeps numbers short.
    marked, drawn = max(wrong, sample), min(wrong, sample)
    least, most = max(0, drawn - (population - marked)), min(errors, drawn)
    if least > most:
        # no way at all, as where fewer are right than are drawn
        return 0, 1
    # each term follows from the one before by one multiplication: thousands of binomials would take minutes
    term = comb(marked, least) * comb(population - marked, drawn - least)
    ways = term
    for found in range(least, most):
        term = term * (marked - found) * (drawn - found)
        term //= (found + 1) * (population - marked - drawn + found + 1)
        ways += term
    return ways, comb(population, drawn)


def _is_likelier(risk: Fraction, errors: int, population: int, wrong: int, sample: int) -> bool:
    """Whether so few errors are found with a probability above the risk; huge fractions are compared, not reduced."""
    ways, of = _ways_of_at_most(errors, population, wrong, sample)
    # whole numbers across, as a fraction of such size would be reduced at every comparison
    return ways * risk.denominator > risk.numerator * of


def tolerated(population: int, tolerable: Decimal) -> int:
    """How many claims a percentage of a population is, rounded up.

    Raises:
        BadInput: the percentage is not between 0 and 100.
    """
    share = _percent(tolerable, "--tolerable")
    # half a claim in error is a claim in error
    return ceil(population * share)


def tolerated_said(population: int, tolerable: Decimal) -> str:
    """The percentage with the claims it is counted as, which are a whole number: that it was rounded up is said."""
    share, whole = tolerable * population / 100, tolerated(population, tolerable)
    said = how_many(whole, "claim")
    return f"{plain(tolerable)} % ({said if share == whole else f'{plain(share.normalize())}, rounded up to {said}'})"


def sample_size(population: int, tolerable: Decimal, confidence: Decimal) -> int:
    """The fewest claims to look at, so that finding no error speaks against the tolerable rate with that confidence.

    Were the tolerable percentage of the claims (rounded up) in error, a sample of this size would hold none of them
    with a probability of at most 100 % less the confidence.

    Args:
        population: how many claims there are.
        tolerable: per cent.
        confidence: per cent.

    Raises:
        BadInput: there are no claims, or a percentage is not between 0 and 100.

    Source: discovery sampling by the hypergeometric distribution, any statistics text.
    """
    _refuse_population(population)
    risk = 1 - _percent(confidence, "--confidence")
    wrong = tolerated(population, tolerable)
    # more claims looked at never make it likelier to find none in error, so the size can be halved towards
    return 1 + bisect_left(
        range(1, population), True, key=lambda size: not _is_likelier(risk, 0, population, wrong, size)
    )


def upper_bound(population: int, sample: int, errors: int, confidence: Decimal) -> UpperBound:
    """The most claims in error that the sample does not speak against, one-sided and exact.

    It is the largest number of wrong claims under which so few errors, or fewer, would still be found with a
    probability above 100 % less the confidence.

    Raises:
        BadInput: the numbers cannot belong to one sample, or the confidence is not between 0 and 100.

    Source: exact one-sided confidence bound of the hypergeometric distribution, any statistics text.
    """
    _refuse_population(population)
    _refuse_sample(population, sample, errors)
    risk = 1 - _percent(confidence, "--confidence")
    # at least those found are wrong; with more than all that were not looked at besides, there is no way to find so few
    most, reach = errors, 1
    # the bound lies near the errors found, far from the whole: first the reach is doubled, then halved
    while _is_likelier(risk, errors, population, most + reach, sample):
        most, reach = most + reach, 2 * reach
    most += bisect_left(
        range(most + 1, most + reach),
        True,
        key=lambda wrong: not _is_likelier(risk, errors, population, wrong, sample),
    )
    return UpperBound(population, sample, errors, confidence, most)


def draw(numbers: Iterable[str], tolerable: Decimal, confidence: Decimal, seed: str) -> Sample:
    """A random sample of the right size; the same claims and the same seed give the same sample anywhere.

    Claims are put in the order of the SHA-256 of the seed and their number, and the first ones are taken.

    Raises:
        BadInput: there are no claims, or a percentage is not between 0 and 100.

    Source: simple random sampling without replacement, any statistics text.
    """
    # in an order that does not depend on how the book lists them
    # each claim has one chance, however often it was listed
    population = sorted(set(numbers))
    size = sample_size(len(population), tolerable, confidence)
    # a hash and no random generator, whose numbers may change from one version of a library to the next
    shuffled = sorted(population, key=lambda number: hashlib.sha256(f"{seed}\n{number}".encode()).digest())
    return Sample(tuple(sorted(shuffled[:size])), len(population), tolerated(len(population), tolerable), seed)


def seed_of(numbers: Sequence[str], today: date) -> str:
    """A seed that follows from the day and the claims, so that nobody can choose a sample that suits."""
    population = "\n".join(sorted(set(numbers)))
    # twelve digits of it are enough to tell one set of claims from another, and short enough for a work sheet
    return f"{today}-{hashlib.sha256(population.encode()).hexdigest()[:12]}"


def _percent(written: Decimal, option: str) -> Fraction:
    if not 0 < written < 100:
        raise BadInput(
            f"{option}: {plain(written)} is not a percentage between 0 and 100",
            "Neither certainty nor nothing can be had from a sample.",
            f"Write it as in {option} {'95' if option == '--confidence' else '5'}.",
        )
    # a fraction is exact where a float would move the edge of a bound
    return Fraction(written) / 100


def _refuse_population(population: int) -> None:
    if population < 1:
        raise BadInput(
            "there is no claim to draw from, and a sample needs at least one",
            do="Choose other days with --filed-from and --filed-to.",
        )
    if population > MOST_CLAIMS:
        raise BadInput(
            f"{population:,} claims are more than a sample is worked out for",
            f"Up to {MOST_CLAIMS:,} the answer is exact.",
            "Draw from fewer, by year or by maker.",
        )


def _refuse_sample(population: int, sample: int, errors: int) -> None:
    if not 1 <= sample <= population:
        raise BadInput(
            f"--sample: {sample} cannot be drawn from {population} claims",
            "A sample holds at least one claim and no more than there are.",
            "Give the number of claims on the work sheet.",
        )
    if sample > MOST_CHECKED and sample < population:
        raise BadInput(
            f"--sample: {sample:,} claims are more than a bound is worked out for",
            f"Up to {MOST_CHECKED:,} the answer is exact.",
            "Give a smaller sample, or all claims.",
        )
    if not 0 <= errors <= sample:
        raise BadInput(
            f"--errors: {errors} cannot be found in a sample of {sample}",
            "A claim counts once, however much is wrong with it.",
            "Give the number of claims with an error.",
        )
