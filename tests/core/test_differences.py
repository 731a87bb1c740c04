from builders import a_claim

from claimpack.core.differences import differences


def told(**changes):
    return [tuple(difference) for difference in differences(a_claim(), a_claim(**changes))]


def test_the_same_claim_differs_in_nothing():
    assert told() == []


def test_a_changed_value_is_told_before_and_after():
    assert told(unit__hours="101.5") == [("unit.hours", "100", "101.5")]


def test_a_value_given_for_the_first_time_was_nothing_before():
    assert told(dates__registered="2025-03-20") == [("dates.registered", "", "2025-03-20")]


def test_a_value_taken_away_is_nothing_after():
    assert told(owner__name=None) == [("owner.name", "A. Customer", "")]


def test_yes_and_no_are_said_in_words():
    assert told(owner__first_owner=False) == [("owner.first_owner", "yes", "no")]


def test_a_new_item_is_one_difference_of_what_it_was_given():
    assert told(parts=[{"name": "Gasket", "unit_cost": "4.10"}]) == [("parts[1]", "", "Gasket, 4.10")]


def test_items_are_told_by_their_place():
    serials = [{"role": "unit", "value": "HC70-1"}, {"role": "engine", "value": "E70-2"}]
    assert told(unit__serials=serials) == [("unit.serials.engine", "E70-1", "E70-2")]


def test_a_serial_taken_away_is_told_by_its_role_and_the_others_are_not():
    serials = [{"role": "engine", "value": "E70-1"}]
    assert told(unit__serials=serials) == [("unit.serials.unit", "HC70-1", "")]


def test_a_new_serial_is_told_by_its_role_as_a_key_is_written():
    serials = [*({"role": serial.role, "value": serial.value} for serial in a_claim().unit.serials)]
    serials.append({"role": "left battery", "value": "B-1"})
    assert told(unit__serials=serials) == [("unit.serials.left-battery", "", "B-1")]


def test_serials_in_another_order_are_a_difference():
    serials = [{"role": "engine", "value": "E70-1"}, {"role": "unit", "value": "HC70-1"}]
    assert told(unit__serials=serials)[0] == ("unit.serials[1].role", "unit", "engine")


def test_a_table_given_for_the_first_time_is_told_by_its_values():
    assert told(approval={"number": "A-1", "on": "2026-02-10"}) == [("approval", "", "A-1, 2026-02-10")]
