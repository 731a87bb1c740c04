import pytest
from builders import a_claim, a_plan

from claimpack.core.pricing.rates import class_of, labour_rate

RATES = [
    {"class": "Engine", "rate": "98"},
    {"class": "engine", "level": "gold", "rate": "110"},
    {"level": "gold", "rate": "102"},
    {"from": "2026-02-24", "rate": "95"},
]
PLAN = a_plan(
    pays__labour_rate="92", pays__labour_rates=RATES, operation=[{"code": "block", "hours": "1.6", "class": "engine"}]
)


def paid(level="", repaired="2026-02-23", presented="2026-02-05", **entry):
    """What an hour is paid, and the keys of the notes that say why."""
    labour = [{"operation": "diagnose", "hours": "1", **entry}]
    claim = a_claim(labour=labour, dates__repaired=repaired, dates__presented=presented)
    found = labour_rate(claim.labour[0], claim, PLAN, level)
    return str(found.rate), [note.key for note in found.notes]


def test_where_no_rate_fits_the_plain_one_counts():
    assert paid() == ("92", [])


@pytest.mark.parametrize(
    ("repaired", "rate"),
    [("2026-02-23", "92"), ("2026-02-24", "95"), ("2026-02-25", "95")],
    ids=["the day before", "the first day", "the day after"],
)
def test_a_rate_counts_from_its_first_day_of_repair(repaired, rate):
    assert paid(repaired=repaired)[0] == rate


def test_a_unit_not_repaired_yet_is_paid_by_the_day_it_was_presented():
    assert paid(repaired=None, presented="2026-02-24") == ("95", ["price.rate-from"])


@pytest.mark.parametrize(
    ("level", "class_", "rate", "note"),
    [
        ("", "ENGINE", "98", "price.rate-class"),
        ("Gold", "engine", "110", "price.rate-class-level"),
        ("gold", "", "102", "price.rate-level"),
        ("silver", "engine", "98", "price.rate-class"),
    ],
    ids=["class", "class and level", "level", "another level"],
)
def test_the_rate_of_a_class_or_level_is_told_as_such(level, class_, rate, note):
    assert paid(level, **{"class": class_}) == (rate, [note])


@pytest.mark.parametrize(
    ("entry", "of"),
    [
        ({"operation": "block"}, "engine"),
        ({"operation": "block", "class": "trim"}, "trim"),
        ({"operation": "clean"}, ""),
    ],
    ids=["its operation's", "its own", "none"],
)
def test_the_class_of_labour_is_its_own_else_that_of_its_operation(entry, of):
    assert class_of(a_claim(labour=[{"hours": "1", **entry}]).labour[0], PLAN) == of
