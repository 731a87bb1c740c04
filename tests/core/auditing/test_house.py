import pytest

from claimpack.core.auditing.house import House, Person, known_people, phone_digits


@pytest.mark.parametrize("written", ["+1 (419) 555-0142", "419.555.0142", "1-419-555-0142"])
def test_a_phone_is_the_same_however_it_is_written(written):
    assert phone_digits(written) == "4195550142"


def test_a_few_digits_are_no_phone():
    assert not phone_digits("ext. 100")


def test_whose_phone_it_is_is_said():
    house = House(phone="555-0100", staff=(Person("Ben Marsh", "555-0101"),))
    assert [house.phone_of(each) for each in ("5550100", "555 0101", "555-0199")] == [
        "the shop's phone",
        "the phone of Ben Marsh",
        "",
    ]


def test_one_name_alone_may_be_anybody_s():
    assert House(staff=(Person("Ben"), Person("Ida Holm"))).named("Ben") == ""


def test_whoever_worked_on_a_claim_and_is_not_known_by_another_spelling_is_known_besides():
    ben = Person("Ben Marsh", "555-0101")
    assert known_people(House(staff=(ben,)), ["", "Marsh, Ben", "Ida Holm"]).staff == (ben, Person("Ida Holm"))
