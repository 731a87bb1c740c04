"""The exact tests and the correction for many of them, beside scipy's."""

import random

import pytest
import scipy

from claimpack.core.auditing.chance import at_least, at_least_among, stand_out


@pytest.mark.source("Fisher, Statistical Methods for Research Workers (1934), § 21.02; scipy.stats.fisher_exact")
@pytest.mark.parametrize(
    ("hits", "drawn", "hits_in_all", "in_all"), [(3, 10, 12, 50), (9, 10, 12, 50), (0, 4, 2, 9), (18, 70, 45, 908)]
)
def test_the_tail_is_fishers(hits, drawn, hits_in_all, in_all):
    table = [[hits, drawn - hits], [hits_in_all - hits, in_all - drawn - hits_in_all + hits]]
    expected = scipy.stats.fisher_exact(table, alternative="greater").pvalue
    assert at_least_among(hits, drawn, hits_in_all, in_all) == pytest.approx(expected, rel=1e-9)


@pytest.mark.source("scipy.stats.binomtest")
@pytest.mark.parametrize(("hits", "tries", "chance"), [(0, 5, 0.2), (5, 5, 0.2), (14, 29, 0.25), (700, 2000, 0.3)])
def test_the_tail_of_tries_is_binomial(hits, tries, chance):
    expected = scipy.stats.binomtest(hits, tries, chance, alternative="greater").pvalue
    assert at_least(hits, tries, chance) == pytest.approx(expected, rel=1e-8)


@pytest.mark.source(
    "Benjamini and Hochberg (1995), J. R. Statist. Soc. B 57, 289-300; scipy.stats.false_discovery_control"
)
@pytest.mark.parametrize("seed", range(5))
def test_what_stands_out_is_what_benjamini_and_hochberg_reject(seed):
    draw = random.Random(seed)
    chances = [draw.random() ** draw.choice((1, 1, 4, 9)) for _ in range(draw.randrange(1, 60))]
    adjusted = scipy.stats.false_discovery_control(chances, method="bh")
    assert stand_out(chances, 0.05) == [value <= 0.05 for value in adjusted]


@pytest.mark.source("Benjamini and Hochberg (1995), section 3.1: fifteen hypotheses on myocardial infarction")
def test_the_worked_example_of_the_paper_rejects_four():
    chances = [0.0001, 0.0004, 0.0019, 0.0095, 0.0201, 0.0278, 0.0298, 0.0344, 0.0459, 0.3240, 0.4262, 0.5719, 0.6528]
    assert sum(stand_out([*chances, 0.7590, 1.0], 0.05)) == 4


@pytest.mark.source("Benjamini and Hochberg (1995), section 3.1: the largest i for which P(i) <= q* i / m")
@pytest.mark.parametrize(("chance", "told"), [(0.02, [True, False]), (0.0201, [False, False])], ids=["on it", "above"])
def test_a_chance_on_the_line_of_its_rank_is_rejected(chance, told):
    assert stand_out([chance, 0.5], 0.04) == told
