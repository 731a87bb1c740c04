from audits import REFUSED, an_audited, found_by


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


def test_a_busy_technician_is_not_accused():
    busy = [*claims_of("Ben", 300), *claims_of("Ben", 30, "gearbox")]
    assert not found_by("pattern-technician-work", *OTHERS, *busy)


def test_a_technician_refused_far_more_often_than_the_others_is_told():
    found = found_by("pattern-technician", *OTHERS, *claims_of("Ben", 6), *refused(claims_of("Ben", 12, "clutch")))
    assert [each.evidence["of all"] for each in found] == ["12 of 18"]


def test_one_alone_is_compared_with_nobody():
    assert not found_by("pattern-technician", *refused(claims_of("Ben", 30)))
