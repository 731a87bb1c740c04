import pytest
from audits import DRAFT, FILED, REFUSED, WITHDRAWN, an_audited, found_by

PACK = {
    "unit__serials": [{"role": "unit", "value": "HB40-1"}, {"role": "battery", "value": "BP40-1"}],
    "failure__component": "battery pack",
    "parts": [{"number": "BP-40", "name": "Battery pack 36 V", "unit_cost": "118.00"}],
}
OCTOBER = {"dates": {"presented": "2026-10-14", "repaired": "2026-10-15"}}


def after(day, number="26-0002", **changes):
    """A claim for the same pack, the unit brought in on a day."""
    return an_audited(number, **{**PACK, "dates": {"presented": day}, **changes})


@pytest.mark.parametrize(("day", "count"), [("2026-10-15", 1), ("2026-10-19", 1), ("2026-10-13", 0)])
def test_a_part_claimed_again_after_it_was_replaced_is_asked_about(day, count):
    first = an_audited(**PACK, **OCTOBER)
    found = found_by("replaced-part-again", first, after(day))
    assert [each.claims for each in found] == [("26-0001", "26-0002")] * count


@pytest.mark.parametrize(
    "changes",
    [
        {"unit__serials": [{"role": "unit", "value": "HB40-1"}, {"role": "battery", "value": "BP40-2"}]},
        {"failure__component": "battery cover"},
        {"failure__component": "charger"},
    ],
    ids=["another pack", "a part of it", "another part"],
)
def test_another_part_than_the_one_replaced_is_nothing_to_ask_about(changes):
    assert not found_by("replaced-part-again", an_audited(**PACK, **OCTOBER), after("2026-10-19", **changes))


@pytest.mark.parametrize(("name", "count"), [("Battery pack 5 Ah", 1), ("Battery lid", 0)])
def test_a_part_is_known_by_the_words_that_are_no_measure(name, count):
    first = an_audited(**{**PACK, "parts": [{"name": name}]}, **OCTOBER)
    assert len(found_by("replaced-part-again", first, after("2026-10-19"))) == count


def test_a_part_that_was_mended_may_fail_again():
    mended = {**PACK, "parts": [{"name": "Battery cover"}]}
    assert not found_by("replaced-part-again", an_audited(**mended, **OCTOBER), after("2026-10-19"))


def days(failed, repaired, presented=None):
    """The dates of a claim; brought in on the day it failed unless told."""
    return {"failed": failed, "presented": presented or failed, "repaired": repaired}


FEBRUARY = days("2026-02-01", "2026-02-20")


@pytest.mark.parametrize(
    ("second", "count"),
    [
        (days("2026-02-19", "2026-02-25"), 1),
        (days("2026-02-20", "2026-02-25"), 1),
        (days("2026-02-21", "2026-02-25"), 0),
    ],
    ids=["before the repair", "on its day", "the day after"],
)
def test_one_component_claimed_twice_is_found_while_the_first_repair_lasts(second, count):
    first = an_audited("26-0001", dates=FEBRUARY)
    assert len(found_by("unit-claimed-twice", an_audited("26-0002", dates=second), first)) == count


def test_what_is_found_names_both_claims_and_their_days():
    found = found_by("unit-claimed-twice", an_audited("26-0002", dates=FEBRUARY), an_audited(dates=FEBRUARY))[0]
    assert found.claims == ("26-0001", "26-0002")
    assert found.evidence["26-0001"] == "2026-02-01 to 2026-02-20"
    assert "short block" in found.what


@pytest.mark.parametrize(
    "changes",
    [{"maker": "orrin-vale"}, {"serial": "HC70-2"}, {"failure__component": "coil"}],
    ids=["maker", "serial", "component"],
)
def test_another_maker_unit_or_component_is_another_thing(changes):
    assert not found_by("unit-claimed-twice", an_audited(), an_audited("26-0002", **changes))


def test_spelling_does_not_hide_a_second_claim():
    other = an_audited("26-0002", "hc70 1", failure__component="Short-Block")
    assert found_by("unit-claimed-twice", an_audited(), other)


@pytest.mark.parametrize("standing", [REFUSED, WITHDRAWN], ids=["refused", "withdrawn"])
def test_a_claim_that_asks_for_nothing_is_no_second_one(standing):
    assert not found_by("unit-claimed-twice", an_audited(), an_audited("26-0002")._replace(standing=standing))


@pytest.mark.parametrize(
    ("first", "second", "weight"), [(FILED, FILED, "serious"), (FILED, DRAFT, "look"), (DRAFT, DRAFT, "look")]
)
def test_a_draft_claimed_twice_is_worth_a_look_only(first, second, weight):
    claims = an_audited()._replace(standing=first), an_audited("26-0002")._replace(standing=second)
    assert [each.weight for each in found_by("unit-claimed-twice", *claims)] == [weight]


@pytest.mark.parametrize(("role", "key"), [("unit", "unit-claimed-twice.by-number"), ("engine", "unit-claimed-twice")])
def test_two_units_with_one_engine_number_are_not_said_to_be_one(role, key):
    engine = {"role": "engine", "value": "E70-1"}
    first = an_audited(unit__serials=[{"role": "unit", "value": "HC70-1"}, engine])
    other = [{"role": "unit", "value": "HC70-2"}, engine] if role == "unit" else [engine]
    (found,) = found_by("unit-claimed-twice", first, an_audited("26-0002", unit__serials=other))
    assert (found.says[0].key, found.evidence["serial"]) == (key, "E70-1")


def test_a_repair_not_done_yet_overlaps_everything_after_it():
    waiting = an_audited(dates={"presented": "2026-01-05"})
    found = found_by("unit-claimed-twice", waiting, an_audited("26-0002"))
    assert found[0].evidence["26-0001"] == "2026-01-05, not repaired yet"


def test_a_long_repair_overlaps_later_ones_behind_a_short_one():
    long = an_audited("26-0001", dates=days("2026-01-01", "2026-03-01"))
    short = an_audited("26-0002", dates=days("2026-01-02", "2026-01-03"))
    late = an_audited("26-0003", dates=days("2026-02-01", "2026-02-02"))
    claims = [each.claims for each in found_by("unit-claimed-twice", long, short, late)]
    assert claims == [("26-0001", "26-0002"), ("26-0001", "26-0003")]


def test_a_claim_that_names_no_component_is_compared_with_none():
    nameless = [an_audited(number, failure__component="") for number in ("26-0001", "26-0002")]
    assert not found_by("unit-claimed-twice", *nameless)


COIL = {"name": "Coil", "number": "P-1"}


def test_one_part_number_claimed_twice_on_a_unit_is_found_whatever_the_component():
    first = an_audited(parts=[COIL], failure__component="coil")
    second = an_audited("26-0002", parts=[COIL], failure__component="ignition coil")
    assert found_by("part-claimed-twice", first, second)[0].claims == ("26-0001", "26-0002")


@pytest.mark.parametrize(
    "changes",
    [{"standing": REFUSED}, {"claim": an_audited("26-0002", parts=[COIL], unit__serials=[]).claim}],
    ids=["refused", "no number"],
)
def test_a_part_of_a_claim_that_asks_for_nothing_or_tells_no_unit_is_not_claimed_twice(changes):
    claims = [an_audited(number, parts=[COIL])._replace(**changes) for number in ("26-0001", "26-0002")]
    assert not found_by("part-claimed-twice", an_audited("26-0003", parts=[COIL]), *claims)


def test_a_part_the_owner_pays_is_not_claimed():
    second = an_audited("26-0002", parts=[COIL | {"payer": "owner"}])
    assert not found_by("part-claimed-twice", an_audited(parts=[COIL]), second)


def test_one_part_on_two_lines_of_a_claim_is_worth_a_look():
    found = found_by("part-line-twice", an_audited(parts=[COIL, COIL, COIL]))
    assert [(each.weight, each.evidence["part"]) for each in found] == [("look", "P-1 Coil")]


def test_a_part_number_on_two_lines_is_one_with_or_without_its_hyphen():
    assert len(found_by("part-line-twice", an_audited(parts=[COIL, COIL | {"number": "P1"}]))) == 1


@pytest.mark.parametrize(
    "other",
    [COIL | {"number": "P-2"}, COIL | {"payer": "owner"}, {"name": "Coil"}],
    ids=["number", "payer", "nameless"],
)
def test_another_part_or_payer_is_another_line(other):
    assert not found_by("part-line-twice", an_audited(parts=[COIL, other]))


def test_two_lines_of_a_claim_that_was_withdrawn_ask_for_nothing():
    assert not found_by("part-line-twice", an_audited(parts=[COIL, COIL])._replace(standing=WITHDRAWN))


HELD = {"part": "battery", "number": "B-36", "serial": "S-9"}


def test_one_part_known_by_its_serial_in_two_claims_is_serious():
    failed = {"number": "b-36", "serial": "s 9"}
    found = found_by("part-serial-twice", an_audited(held=[HELD]), an_audited("26-0002", "x", failure__part=failed))
    assert [(each.weight, each.claims) for each in found] == [("serious", ("26-0001", "26-0002"))]


def test_the_failed_part_and_the_held_part_of_one_claim_are_one():
    claim = an_audited(held=[HELD], failure__part={"number": "B-36", "serial": "S-9"})
    assert not found_by("part-serial-twice", claim)


def test_parts_without_a_serial_are_many():
    nameless = {"part": "coil", "number": "P-1"}
    assert not found_by("part-serial-twice", an_audited(held=[nameless]), an_audited("26-0002", held=[nameless]))


def bought(number, purchased, failed="2026-02-02", **changes):
    dates = {"purchased": purchased, "failed": failed, "presented": "2026-02-05"}
    return an_audited(number, dates=dates, **changes)


def test_a_failure_before_the_purchase_another_claim_gives_is_serious():
    early = bought("26-0001", "2025-01-01", failed="2025-05-01")
    found = found_by("purchase-dates-differ", early, bought("26-0002", "2025-06-01"))[0]
    assert found.weight == "serious"
    assert "failed on 2025-05-01 (claim 26-0001), before it was bought on 2025-06-01" in found.what


def test_a_claim_that_does_not_tell_when_it_failed_is_told_by_the_day_it_came_in():
    early = bought("26-0001", "2025-01-01", failed=None)
    after_purchase = an_audited("26-0002", dates={"purchased": "2026-02-10", "presented": "2026-02-12"})
    found = found_by("purchase-dates-differ", early, after_purchase)[0]
    assert (found.says[0].key, found.weight) == ("purchase-dates-differ.came-in-before", "serious")
    assert found.evidence["26-0001"] == "bought 2025-01-01, came in 2026-02-05"


def test_a_failure_on_the_day_of_the_other_purchase_is_worth_a_look_only():
    early = bought("26-0001", "2025-01-01", failed="2025-06-01")
    found = found_by("purchase-dates-differ", early, bought("26-0002", "2025-06-01"))
    assert [each.weight for each in found] == ["look"]


def test_claims_that_agree_on_the_purchase_are_sound():
    assert not found_by("purchase-dates-differ", bought("26-0001", "2025-06-01"), bought("26-0002", "2025-06-01"))


def test_a_later_owner_bought_the_unit_again():
    again = bought("26-0002", "2025-11-01", owner__first_owner=False)
    assert not found_by("purchase-dates-differ", bought("26-0001", "2025-01-01", failed="2025-05-01"), again)
