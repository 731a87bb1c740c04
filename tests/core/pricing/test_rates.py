import pytest
from builders import a_claim, a_plan

from claimpack.core.pricing.rates import class_of, handling, labour_rate

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


DATED = [{"class": "engine", "rate": "98"}, {"class": "engine", "from": "2026-02-24", "rate": "99"}]


@pytest.mark.parametrize("rates", [DATED, DATED[::-1]], ids=["the later one last", "the later one first"])
@pytest.mark.parametrize(("repaired", "rate"), [("2026-02-23", "98"), ("2026-02-24", "99")])
def test_of_rates_alike_the_one_from_the_latest_day_counts(rates, repaired, rate):
    claim = a_claim(labour=[{"operation": "diagnose", "hours": "1", "class": "engine"}], dates__repaired=repaired)
    assert str(labour_rate(claim.labour[0], claim, a_plan(pays__labour_rates=rates), "").rate) == rate


def test_a_unit_not_repaired_yet_is_paid_by_the_day_it_was_presented():
    assert paid(repaired=None, presented="2026-02-24") == ("95", ["price.rate-from"])


@pytest.mark.parametrize(
    ("level", "class_", "rate", "note"),
    [
        ("", "ENGINE", "98", "price.rate-class"),
        ("Gold", "engine", "110", "price.rate-class-level"),
        ("gold", "", "102", "price.rate-level"),
        ("silver", "engine", "98", "price.rate-class"),
        ("gold", "trim", "102", "price.rate-level"),
    ],
    ids=["class", "class and level", "level", "another level", "another class"],
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


BANDS = [{"up_to": "50", "rate": "0.3"}, {"rate": "0.2"}]


@pytest.mark.parametrize(
    ("pays", "part", "amount", "keys"),
    [
        ({"parts_handling": "0.2"}, {}, "18.00", []),
        ({"parts_handling": BANDS}, {}, "27.00", ["price.handling-band"]),
        ({"parts_handling": "0.2"}, {"source": "maker", "list_price": "70"}, "0.00", []),
        (
            {"handling_on_supplied": "0.1"},
            {"source": "maker", "list_price": "70"},
            "14.00",
            ["price.handling-supplied"],
        ),
        ({"handling_on_supplied": "0.1"}, {"source": "maker"}, "0.00", ["price.no-list-price"]),
        ({"handling_on_supplied": "0.1"}, {"list_price": "70"}, "0.00", []),
    ],
    ids=[
        "one rate",
        "rates by cost",
        "sent, and the plan says nothing",
        "sent",
        "sent without a list price",
        "from stock",
    ],
)
def test_handling_is_a_fraction_of_the_cost_or_of_the_list_price_of_what_was_sent(pays, part, amount, keys):
    used = a_claim(parts=[{"name": "ring", "quantity": 2, "unit_cost": "45.00", **part}]).parts[0]
    found = handling(used, a_plan(pays=pays))
    assert (str(found.rate), [note.key for note in found.notes]) == (amount, keys)
