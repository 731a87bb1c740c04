from collections import defaultdict

from audits import MEASURES, REFUSED, an_audited, found_by

from claimpack.core.auditing.report.audit import chosen_rules
from claimpack.core.auditing.rules.patterns import Pattern


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
    assert [each.evidence["of all"] for each in found] == ["14 of 24"]
    assert all(claim.startswith("Ben-ge") for claim in found[0].claims)


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
