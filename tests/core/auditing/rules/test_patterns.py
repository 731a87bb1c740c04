from collections import Counter, defaultdict
from datetime import date

import pytest
from audits import DRAFT, MEASURES, REFUSED, WITHDRAWN, an_audited, found_by

from claimpack.core.auditing.chance import at_least_among
from claimpack.core.auditing.report.audit import chosen_rules
from claimpack.core.auditing.rule import Counted, PatternRule
from claimpack.core.auditing.rules.patterns import (
    LAST_DAYS,
    MONTH_END,
    Pattern,
    Tally,
    course_of_models,
    course_of_owners,
    course_of_technicians,
    work_of_technicians,
)
from claimpack.core.auditing.rules.patterns import REFUSED as WAS_REFUSED
from claimpack.core.judging.claim_summary import ClaimSummary


def claims_of(who, count, component="coil", **changes):
    for place in range(count):
        number = f"{who}-{component[:2]}-{place}"
        labour = [{"operation": "x", "technician": who}]
        yield an_audited(number, number, labour=labour, failure__component=component, **changes)


def refused(claims):
    return [claim._replace(standing=REFUSED) for claim in claims]


OTHERS = [
    *claims_of("Ida", 60),
    *claims_of("Cora", 60),
    *claims_of("Ida", 6, "gearbox"),
    *claims_of("Cora", 6, "gearbox"),
]


def test_a_technician_who_finds_one_thing_far_more_often_is_told():
    found = found_by("pattern-technician-work", *OTHERS, *claims_of("Ben", 10), *claims_of("Ben", 14, "gearbox"))
    assert [(each.evidence["of all"], each.evidence["others"]) for each in found] == [("14 of 24", "9 %")]
    assert all(claim.startswith("Ben-ge") for claim in found[0].claims)


@pytest.mark.parametrize(("times", "count"), [(0.99, 0), (1.01, 1)], ids=["likelier", "unlikelier"])
def test_a_pattern_is_one_of_as_many_questions_as_there_are_technicians_and_things(times, count):
    by_chance, questions = at_least_among(14, 24, 26, 156), 3 * 2
    claims = [*OTHERS, *claims_of("Ben", 10), *claims_of("Ben", 14, "gearbox")]
    measures = MEASURES._replace(false_share=times * questions * by_chance)
    assert len(found_by("pattern-technician-work", *claims, measures=measures)) == count


@pytest.mark.parametrize(
    ("hits", "others", "count"), [(6, 3, 1), (6, 4, 0), (5, 2, 0)], ids=["twice as often", "less", "five times alone"]
)
def test_a_pattern_is_six_claims_at_least_and_twice_as_many_as_with_others(hits, others, count):
    claims = [
        claim
        for who, often in (("Ben", hits), ("Ida", others))
        for component, times in (("gearbox", often), ("coil", 12 - often))
        for claim in claims_of(who, times, component)
    ]
    measures = MEASURES._replace(false_share=1)
    assert len(found_by("pattern-technician-work", *claims, measures=measures)) == count


def test_claims_that_name_nothing_that_failed_are_no_pattern_of_one_thing():
    nameless = [*claims_of("Ben", 10), *claims_of("Ben", 14, "")]
    assert not found_by("pattern-technician-work", *OTHERS, *nameless)


def test_a_busy_technician_is_not_accused():
    busy = [*claims_of("Ben", 300), *claims_of("Ben", 30, "gearbox")]
    assert not found_by("pattern-technician-work", *OTHERS, *busy)


def test_a_technician_refused_far_more_often_than_the_others_is_told():
    found = found_by("pattern-technician", *OTHERS, *claims_of("Ben", 6), *refused(claims_of("Ben", 12, "clutch")))
    assert [each.evidence["of all"] for each in found] == ["12 of 18"]


def test_two_technicians_of_one_name_in_two_shops_are_two():
    in_two = [
        claim._replace(standing=claim.standing.model_copy(update={"shop": f"shop-{place % 3}"}))
        for place, claim in enumerate(claims_of("Ben", 14, "gearbox"))
    ]
    assert not found_by("pattern-technician-work", *OTHERS, *claims_of("Ben", 10), *in_two)


def test_one_alone_is_compared_with_nobody():
    assert not found_by("pattern-technician", *refused(claims_of("Ben", 30)))


def told_of(claims, put_down_after):
    tallies = defaultdict(list)
    pattern = Pattern(*chosen_rules(["pattern-technician-work"]), lambda who, tally: tallies[who].append(tally))
    for place, claim in enumerate(claims):
        pattern.add(claim)
        if place in put_down_after:
            pattern.put_down()
    assert not [each for some in tallies.values() for each in pattern.weigh(some, MEASURES)]
    return list(pattern.found(MEASURES))


def test_what_is_put_down_in_between_counts_as_if_it_were_counted_in_one():
    claims = [*OTHERS, *claims_of("Ben", 10), *claims_of("Ben", 14, "gearbox")]
    last = len(claims) - 1
    assert told_of(claims, {last}) == told_of(claims, {70, 150, last}) != []


def test_a_tally_counts_every_claim_of_a_trait_and_names_two_hundred():
    tally = Tally("Ben", Counter(), {})
    for place in range(201):
        tally.add(f"{place}", ["coil"])
    assert (tally.claims["coil"], len(tally.named["coil"])) == (201, 200)


def test_what_is_counted_is_put_down_once_it_is_of_five_thousand():
    put_down, owners = [], iter(range(5_001))
    rule = PatternRule("pattern-owner", "", "", lambda _: Counted("", next(owners), ()))
    pattern = Pattern(rule, lambda owner, _: put_down.append(owner))
    for _ in range(5_000):
        pattern.add(CLAIM)
    assert put_down == []
    pattern.add(CLAIM)
    assert put_down == [*range(5_000)]


CLAIM = an_audited(labour=[{"operation": "x", "technician": "Ben"}], owner__phone="555-0169")


@pytest.mark.parametrize("counted", [work_of_technicians, course_of_technicians, course_of_owners, course_of_models])
def test_a_claim_that_was_withdrawn_is_in_no_pattern(counted):
    assert counted(CLAIM)
    assert counted(CLAIM._replace(standing=WITHDRAWN)) is None


@pytest.mark.parametrize("counted", [course_of_technicians, course_of_owners, course_of_models])
def test_a_claim_that_is_not_filed_has_run_no_course(counted):
    assert counted(CLAIM._replace(standing=DRAFT)) is None


@pytest.mark.parametrize("counted", [work_of_technicians, course_of_technicians, course_of_owners])
def test_a_claim_is_of_nobody_who_is_not_told(counted):
    assert counted(an_audited(owner__name="Una Whitlock")) is None


@pytest.mark.parametrize(
    ("ends", "traits"),
    [
        (date(2026, 2, 4), ()),
        (date(2026, 2, 5), (LAST_DAYS,)),
        (date(2026, 2, 12), (LAST_DAYS,)),
        (date(2026, 2, 13), ()),
        (None, ()),
    ],
    ids=["over", "the last day", "a week before", "earlier", "no end known"],
)
def test_a_claim_of_the_last_days_of_cover_came_in_within_its_last_week(ends, traits):
    claim = an_audited(dates__presented="2026-02-05")._replace(summary=ClaimSummary(covered_until=ends))
    assert course_of_models(claim).traits == traits


@pytest.mark.parametrize(
    ("repaired", "traits"),
    [("2026-02-25", ()), ("2026-02-26", (MONTH_END,)), ("2026-03-31", (MONTH_END,)), ("2026-03-28", ()), (None, ())],
)
def test_a_claim_of_a_month_s_end_was_repaired_on_one_of_its_last_three_days(repaired, traits):
    assert course_of_models(an_audited(dates__repaired=repaired)).traits == traits


def test_a_claim_that_was_refused_is_counted_as_that():
    assert course_of_models(CLAIM._replace(standing=REFUSED)).traits == (WAS_REFUSED,)
