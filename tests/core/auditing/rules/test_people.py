import pytest
from audits import WITHDRAWN, an_audited, found_by

from claimpack.core.auditing.house import House, Person

HOUSE = House(
    staff=(Person("Ben Marsh", "555-0101"),), phone="555-0100", email="shop@example.com", address="Quarry Road 4\nAshby"
)


def owned(**owner):
    return an_audited(owner={"name": "A. Customer", **owner})._replace(house=HOUSE)


@pytest.mark.parametrize(("name", "count"), [("Marsh, Ben", 1), ("Mr. Ben Marsh", 1), ("Ada Marsh", 0), ("Ben", 0)])
def test_an_owner_with_the_name_of_a_member_of_staff_is_told(name, count):
    assert len(found_by("owner-is-staff", owned(name=name))) == count


def test_whoever_worked_on_the_claim_is_staff():
    claim = an_audited(owner={"name": "Ida Holm"}, labour=[{"operation": "x", "technician": "Ida Holm"}])
    assert len(found_by("owner-is-staff", claim)) == 1


@pytest.mark.parametrize(
    ("owner", "count"),
    [
        ({"phone": "+1 555 0100"}, 1),
        ({"phone": "(555) 0101"}, 1),
        ({"phone": "555-0177"}, 0),
        ({"email": "Shop@Example.com"}, 1),
        ({"address": "Ashby, Quarry Road 4"}, 1),
    ],
    ids=["the shop's phone", "a colleague's", "another", "mail", "address"],
)
def test_an_owner_reached_at_the_shop_is_told(owner, count):
    assert len(found_by("owner-at-the-shop", owned(**owner))) == count


@pytest.mark.parametrize(("name", "told"), [("Una Whitlock", "Una Whitlock"), ("", "not named")])
def test_an_owner_reached_at_the_shop_is_told_by_name_where_one_is_known(name, told):
    (found,) = found_by("owner-at-the-shop", owned(name=name, phone="555-0100"))
    assert found.says[0].facts["owner"] == told


@pytest.mark.parametrize(
    ("name", "use", "count"),
    [
        ("Crag Paving LLC", "household", 1),
        ("Crag Paving LLC", "professional", 0),
        ("Fell Rentals", "professional", 1),
        ("Una Whitlock", "household", 0),
    ],
)
def test_the_use_fits_the_owner(name, use, count):
    assert len(found_by("use-unlike-owner", an_audited(owner={"name": name}, unit__use=use))) == count


def test_hours_a_week_are_counted_by_the_days_there_were():
    days = {"dates__delivered": "2025-03-14", "dates__failed": "2026-02-02"}
    claim = an_audited(unit__use="household", unit__hours="600", **days)
    assert "600 h 325 days after 2025-03-14, 12.9 a week" in found_by("household-works-hard", claim)[0].said


@pytest.mark.parametrize(("hours", "count"), [("552", 0), ("553", 1)], ids=["twelve a week", "more"])
def test_a_household_has_use_for_so_many_hours(hours, count):
    claim = an_audited(unit__use="household", unit__hours=hours)
    assert len(found_by("household-works-hard", claim)) == count


@pytest.mark.parametrize(
    ("known", "count"),
    [
        ({"unit__use": "household"}, 1),
        ({"unit__use": "professional"}, 0),
        ({"unit__use": "household", "dates__purchased": None, "dates__delivered": None}, 0),
    ],
    ids=["at home", "at work", "never sold"],
)
def test_a_unit_that_ran_hard_is_asked_about_where_it_is_known_to_be_at_home(known, count):
    assert len(found_by("household-works-hard", an_audited(unit__hours="900", **known))) == count


def test_a_unit_without_a_reading_is_not_said_to_have_run_hard():
    assert not found_by("household-works-hard", an_audited(unit__use="household", unit__hours=None))


ASKED_ABOUT = {
    "owner-is-staff": owned(name="Ben Marsh"),
    "owner-at-the-shop": owned(phone="555-0100"),
    "use-unlike-owner": an_audited(owner={"name": "Fell Rentals"}),
    "household-works-hard": an_audited(unit__use="household", unit__hours="900"),
}


@pytest.mark.parametrize("rule", ASKED_ABOUT)
def test_nothing_is_asked_about_the_owner_of_a_claim_that_was_withdrawn(rule):
    assert found_by(rule, ASKED_ABOUT[rule])
    assert not found_by(rule, ASKED_ABOUT[rule]._replace(standing=WITHDRAWN))


def units(count, use, **owner):
    for place in range(count):
        yield an_audited(f"26-{place}", f"HC-{place}", unit__use=use, owner={"name": "Una Whitlock", **owner})


@pytest.mark.parametrize(("count", "use", "found"), [(3, "household", 0), (4, "household", 1), (9, "professional", 0)])
def test_a_household_has_few_units(count, use, found):
    assert len(found_by("many-units-of-one", *units(count, use, phone="555-0169"))) == found


def test_a_name_alone_does_not_tell_who_it_is():
    assert not found_by("many-units-of-one", *units(9, "household"))
