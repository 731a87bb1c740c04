from __future__ import annotations

import pytest

from claimpack.core.claims.file_names import free_name, is_device


def test_the_second_of_a_name_is_numbered():
    assert free_name("plate.jpg", ["plate.jpg"]) == "plate-2.jpg"


def test_a_name_nobody_has_stays():
    assert free_name("plate.jpg", []) == "plate.jpg"


@pytest.mark.parametrize(
    ("name", "second"),
    [
        ("plate", "plate-2"),
        (f"{'x' * 300}", f"{'x' * 100}-2"),
        ("plate.tar.gz", "plate.tar-2.gz"),
        ("letter.signature", "letter-2.signature"),
        ("Mr. Quarry's letter", "Mr. Quarry's letter-2"),
        ("letter.signatures", "letter.signatures-2"),
    ],
    ids=["none", "none, of a long name", "two", "of nine letters", "after a blank", "of ten letters"],
)
def test_a_number_goes_before_an_ending_of_nine_letters_at_most(name, second):
    assert free_name(name, [free_name(name, [])]) == second


def test_the_third_of_a_name_is_numbered_on():
    assert free_name("plate.jpg", ["plate.jpg", "plate-2.jpg"]) == "plate-3.jpg"


@pytest.mark.parametrize("other", ["PLATE.JPG", "Plate.jpg"])
def test_capitals_do_not_tell_names_apart(other):
    assert free_name("plate.jpg", [other]) == "plate-2.jpg"


def test_one_letter_written_two_ways_is_one_name():
    assert free_name("e\u0301.jpg", ["\u00e9.jpg"]) == "\u00e9-2.jpg"


@pytest.mark.parametrize(
    ("name", "safe"),
    [
        ("a\\b:c.jpg", "a_b_c.jpg"),
        ("a\nb.jpg", "a_b.jpg"),
        ("  a  b .jpg", "a b .jpg"),
        ("con.jpg", "_con.jpg"),
        ("LPT1", "_LPT1"),
        ("...", "_"),
        ("..jpg", "jpg"),
        ("\u202egpj.exe.jpg", "_gpj.exe.jpg"),
    ],
)
def test_what_another_system_could_not_hold_is_replaced(name, safe):
    assert free_name(name, []) == safe


def test_a_long_name_is_shortened_and_keeps_its_ending():
    assert free_name(f"{'x' * 300}.jpeg", []) == f"{'x' * 100}.jpeg"


def test_two_long_names_do_not_become_one():
    first = free_name(f"{'x' * 300}.jpeg", [])
    assert free_name(f"{'x' * 301}.jpeg", [first]) == f"{'x' * 100}-2.jpeg"


@pytest.mark.parametrize(
    "name", ["NUL.pdf", "con", "Aux .tar.gz", "COM\u00b9.pdf", "lpt0", "CONIN$", "\uff2e\uff35\uff2c.pdf"]
)
def test_a_device_of_another_system_is_known_by_its_name(name):
    assert (is_device(name), is_device(f"x{name}")) == (True, False)
