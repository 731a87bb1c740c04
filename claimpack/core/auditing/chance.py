"""How likely chance is: exact tests of counts, and how many findings to trust when many questions were asked."""

from __future__ import annotations

from collections.abc import Sequence
from math import exp, lgamma, log


def _log_choose(of: int, take: int) -> float:
    # logarithms, since the ways to draw from thousands of claims are more than a float can hold
    return lgamma(of + 1) - lgamma(take + 1) - lgamma(of - take + 1)


def at_least_among(hits: int, drawn: int, hits_in_all: int, in_all: int) -> float:
    """The chance that so many drawn from all without looking have so many hits, or more.

    Args:
        hits: the hits among those drawn.
        drawn: how many were drawn.
        hits_in_all: the hits among all.
        in_all: how many there are.

    Source: Fisher's exact test, one-sided: the upper tail of the hypergeometric distribution.
    """
    most = min(drawn, hits_in_all)
    ways = _log_choose(in_all, drawn)
    others = in_all - hits_in_all
    terms = (
        exp(_log_choose(hits_in_all, each) + _log_choose(others, drawn - each) - ways)
        # of so many drawn at least those hit that the others cannot supply
        for each in range(max(hits, drawn - others, 0), most + 1)
    )
    return min(1.0, sum(terms))


def at_least(hits: int, tries: int, chance: float) -> float:
    """The chance of so many hits or more in so many tries, each with the same chance.

    Args:
        hits: how many there were.
        tries: how often it was tried.
        chance: of one try, between 0 and 1, neither of them.

    Source: the exact binomial test, one-sided.
    """
    yes, no = log(chance), log(1 - chance)
    terms = (exp(_log_choose(tries, each) + each * yes + (tries - each) * no) for each in range(hits, tries + 1))
    return min(1.0, sum(terms))


def stand_out(chances: Sequence[float], false_share: float, asked: int | None = None) -> list[bool]:
    """Which of many chances are too small for chance, so that of those told at most that share is expected to be false.

    Args:
        chances: one for each question that was asked, those without an answer too.
        false_share: the share of false ones that is borne, as in 0.01.
        asked: how many questions were asked, where chances larger than that share are left out.

    Source: Benjamini and Hochberg, Controlling the false discovery rate, J. R. Statist. Soc. B 57 (1995), 289-300.
    """
    # the largest rank that keeps its line counts, and all before it are told with it, whether they keep theirs or not
    order = sorted(range(len(chances)), key=chances.__getitem__)
    last, count = 0, len(chances) if asked is None else asked
    for rank, place in enumerate(order, start=1):
        if chances[place] <= false_share * rank / count:
            last = rank
    told = set(order[:last])
    return [place in told for place in range(len(chances))]
