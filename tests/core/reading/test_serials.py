import pytest

from claimpack.core.reading.read_text import Spot, TextRead
from claimpack.core.reading.serials import proposed_serials

FORMS = {"unit": "H[CT][0-9]{2}-[0-9]{3}-[0-9]{5}", "engine": "E[0-9]{2}-[0-9]{5}"}


def read(*texts, by="letters"):
    return [TextRead(text, by) for text in texts]


def serials(lines, forms=FORMS, **typed):
    return {each.key.removeprefix("unit.serials."): each.text for each in proposed_serials(lines, forms, typed)}


@pytest.mark.parametrize(
    "text",
    [
        "HC70-118-20417",
        "SERIAL No. HC70-118-20417",
        "HC70 118 20417",
        "HC7011820417",
        "HC7O-1I8-2O4I7",
        "hc70\N{EN DASH}118\N{EN DASH}20417",
        "S/N:HC70-118-20417.",
        "SERIAL No.HC70-118-20417",
    ],
)
def test_a_number_of_the_plans_form_is_read_and_its_look_alikes_settled(text):
    assert serials(read("HALDEN", "MODEL", "CS-70", text, "70.6 cm3")) == {"unit": "HC70-118-20417"}


def test_what_was_read_before_it_was_settled_is_kept():
    assert proposed_serials(read("HC7O-118-20417"), FORMS, {})[0].raw == "HC7O-118-20417"


def test_two_roles_on_one_plate_are_told_apart_by_their_forms():
    assert serials(read("HC70-118-20417", "E7O-551O2")) == {"unit": "HC70-118-20417", "engine": "E70-55102"}


def test_a_number_that_lies_in_two_boxes_side_by_side_is_one():
    halves = [
        TextRead("HC70-118-", "letters", Spot(0.1, 0.4, 0.2, 0.05)),
        TextRead("20417", "letters", Spot(0.31, 0.4, 0.1, 0.05)),
    ]
    assert serials(halves) == {"unit": "HC70-118-20417"}


def test_what_has_not_the_form_is_no_serial_number():
    assert serials(read("HC70-118-2041", "70.6 cm3", "2024")) == {}


def test_of_two_numbers_of_the_form_neither_is_proposed():
    assert serials(read("HC70-118-20417", "HC70-118-99999")) == {}


def test_of_two_numbers_of_the_form_the_typed_one_is_there():
    assert serials(read("HC70-118-20417", "HC70-118-99999"), unit="HC70-118-20417") == {"unit": "HC70-118-20417"}


def test_of_two_numbers_of_the_form_the_one_like_the_typed_one_is_proposed():
    assert serials(read("HC70-118-20417", "HC70-935-66882"), unit="HC70-118-20471") == {"unit": "HC70-118-20417"}


def test_a_mark_that_may_be_two_letters_settles_nothing():
    assert serials(read("0123456"), {"unit": "[A-Z][0-9]{6}"}) == {}


@pytest.mark.parametrize(
    "code",
    [
        "HC70-118-20417",
        "(01)09501101530003(21)HC70-118-20417",
        "CS-70,HC70-118-20417",
        "1PCS-70\x1dSHC70-118-20417",
        "https://example.com/u?sn=HC70-118-20417",
    ],
)
def test_a_number_is_found_inside_a_code(code):
    assert serials(read(code, by="code")) == {"unit": "HC70-118-20417"}


def test_a_code_is_believed_before_letters():
    assert serials([*read("HC70-118-20477"), *read("HC70-118-20417", by="code")]) == {"unit": "HC70-118-20417"}


def test_the_marks_of_a_code_are_never_swapped():
    assert serials(read("HC7O-118-20417", by="code")) == {}


@pytest.mark.parametrize("lines", [("SERIAL No.", "AB12-993"), ("S/N: AB12-993",), ("Serial number AB12-993",)])
def test_without_a_form_the_word_for_it_tells(lines):
    assert serials(read("MODEL", "X-1", *lines), {}, unit="") == {"unit": "AB12-993"}


def test_without_a_form_a_number_like_the_typed_one_is_it():
    assert serials(read("X-1", "AB120-9934"), {}, unit="AB120-9984") == {"unit": "AB120-9934"}


def test_a_number_typed_for_another_role_is_not_proposed():
    alike = {"unit": "[0-9]{7}", "engine": "[0-9]{7}"}
    assert serials(read("1180342", "0041277"), alike, unit="1180342", engine="0041277") == {
        "unit": "1180342",
        "engine": "0041277",
    }


@pytest.mark.parametrize("text", ["70.6 cm3", "HCTO-LLB"], ids=["another number", "like it and no number"])
def test_without_a_form_only_a_number_like_the_typed_one_is_proposed(text):
    assert serials(read(text), {}, unit="HC70-118") == {}


@pytest.mark.parametrize("read_as", ["OVE-1204471", "0VE-1204471"])
def test_the_engines_plate_says_nothing_of_the_units_number(read_as):
    typed = {"unit": "OV-RM42-0052630", "engine": "OVE-1204471"}
    assert "unit" not in serials(read("MODEL E-540V", f"SERIAL No. {read_as}"), {}, **typed)
