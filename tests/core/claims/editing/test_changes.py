import pytest
from builders import a_claim, a_plan, a_window

from claimpack.core.claims.editing.changes import Difference, by_revision, differences, shortened


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


def test_several_serials_of_one_role_are_each_told_when_they_are_taken_away():
    packs = [{"role": "battery", "value": f"B-{number}"} for number in (1, 2)]
    unit = {"role": "unit", "value": "HC70-1"}
    before, after = (a_claim(unit__serials=serials) for serials in ([unit, *packs], [unit]))
    assert [found.before for found in differences(before, after)] == ["battery, B-1", "battery, B-2"]


def test_a_list_given_for_the_first_time_was_nothing_before():
    before, after = a_plan(), a_plan(window=[a_window(uses=["rental", "household"])])
    assert list(differences(before, after)) == [("window[1].uses", "", "rental; household")]


def test_a_table_given_for_the_first_time_is_told_by_its_values():
    assert told(approval={"number": "A-1", "on": "2026-02-10"}) == [("approval", "", "A-1, 2026-02-10")]


def parts(*names):
    return a_claim(parts=[{"name": name, "unit_cost": "1"} for name in names])


@pytest.mark.parametrize(
    ("before", "after", "said"),
    [
        ("ABC", "BC", [("parts[1]", "A, 1", "")]),
        ("ABC", "AC", [("parts[2]", "B, 1", "")]),
        ("AA", "A", [("parts[2]", "A, 1", "")]),
        ("AC", "ABC", [("parts[2]", "", "B, 1")]),
        ("ABC", "AXC", [("parts[2].name", "B", "X")]),
    ],
    ids=["first away", "middle away", "one of two alike", "put in between", "changed"],
)
def test_an_item_put_in_or_taken_away_leaves_the_others_out(before, after, said):
    assert [tuple(each) for each in differences(parts(*before), parts(*after))] == said


def test_each_revision_is_told_by_what_it_changed():
    versions = [(3, a_claim()), (4, a_claim(unit__hours="101")), (5, a_claim(unit__hours="101", owner__name="B"))]
    found = by_revision(versions)
    assert {revision: [each.key for each in told] for revision, told in found.items()} == {
        4: ["unit.hours"],
        5: ["owner.name"],
    }


def test_a_revision_that_cannot_be_read_is_left_out_and_the_one_after_it():
    assert by_revision([(1, a_claim()), (2, None), (3, a_claim()), (4, a_claim(unit__hours="101"))]).keys() == {4}


@pytest.mark.parametrize(
    ("before", "after", "said"),
    [
        ("short", "shorter", ("short", "shorter")),
        ("one\ntwo", "", ("one two", "")),
        ("", "x" * 40, ("", "x" * 29 + "…")),
        ("It is hot and will not run, 9.", "It is hot and will not run, 8.", None),
        (
            "It dies when it is hot and stays dead.",
            "It dies when it is hot and stays so.",
            ("…is hot and stays dead.", "…is hot and stays so."),
        ),
    ],
    ids=["short", "several lines", "new", "as long as may be", "long and alike"],
)
def test_a_long_value_is_cut_to_where_it_differs(before, after, said):
    assert shortened(Difference("key", before, after), 30)[1:] == (said or (before, after))
