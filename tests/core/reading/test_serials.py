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


FIRST = Spot(0.125, 0.25, 0.125, 0.25)


def in_two(second, first=FIRST):
    """What is proposed of a number that lies in two boxes."""
    return proposed_serials([TextRead("HC70-118-", "letters", first), TextRead("20417", "letters", second)], FORMS, {})


@pytest.mark.parametrize(("drop", "is_one"), [(0.0625, True), (0.125, False), (0.1875, False)])
def test_two_boxes_half_a_line_apart_are_two_lines(drop, is_one):
    assert [bool(in_two(Spot(0.25, 0.25 + way * drop, 0.25, 0.25))) for way in (-1, 1)] == [is_one, is_one]


@pytest.mark.parametrize(("x", "is_one"), [(0.0, False), (0.005, True), (0.5, True), (0.51, False), (0.75, False)])
def test_two_boxes_side_by_side_lie_less_than_two_heights_apart_and_hardly_over_each_other(x, is_one):
    assert bool(in_two(Spot(x, 0.25, 0.125, 0.25), Spot(0, 0.25, 0.01, 0.25))) is is_one


@pytest.mark.parametrize(
    ("second", "around"),
    [
        (Spot(0.25, 0.1875, 0.125, 0.125), Spot(0.125, 0.1875, 0.25, 0.3125)),
        (Spot(0.25, 0.3125, 0.125, 0.25), Spot(0.125, 0.25, 0.25, 0.3125)),
    ],
    ids=["higher", "lower"],
)
def test_a_number_in_two_boxes_has_the_place_of_both(second, around):
    assert in_two(second)[0].spot == around


NARROW, JUST_BEFORE = Spot(0.125, 0.25, 0.00390625, 0.25), Spot(0.12109375, 0.25, 0.125, 0.25)


@pytest.mark.parametrize(
    ("first", "second", "around"),
    [(FIRST, Spot(0.2421875, 0.25, 0.00390625, 0.25), FIRST), (NARROW, JUST_BEFORE, JUST_BEFORE)],
    ids=["ends before the first", "begins before the first"],
)
def test_a_number_in_two_boxes_over_each_other_has_the_place_of_both(first, second, around):
    assert in_two(second, first)[0].spot == around


@pytest.mark.parametrize(("first", "found"), [("AB", {"unit": "AB12"}), ("A", {})])
def test_what_lies_in_two_boxes_has_four_marks_at_least(first, found):
    boxes = [TextRead(first, "letters", FIRST), TextRead("12", "letters", Spot(0.25, 0.25, 0.25, 0.25))]
    assert serials(boxes, {"unit": "[A-Z]+[0-9]{2}"}) == found


@pytest.mark.parametrize(("text", "found"), [("AB1", {}), ("AB12", {"unit": "AB12"})])
def test_a_number_has_four_marks_at_least(text, found):
    assert serials(read(text), {"unit": "[A-Z]{2}[0-9]+"}) == found


@pytest.mark.parametrize(
    ("text", "found"),
    [("12 34 56 78 CC", {"unit": "12345678"}), ("12 34 56 7 8 CC", {})],
    ids=["four words", "five words"],
)
def test_a_number_is_set_in_four_words_at_most(text, found):
    assert serials(read(text), {"unit": "[0-9]{8}"}) == found


@pytest.mark.parametrize(
    ("text", "found"), [("ABCD1", {}), ("ABC12", {"unit": "ABC-12"}), ("AB123", {"unit": "AB-123"})]
)
def test_hyphens_are_put_into_what_has_two_digits_at_least(text, found):
    assert serials(read(text), {"unit": "[A-Z]{2,4}-[0-9]{1,3}"}) == found


@pytest.mark.parametrize(
    ("text", "found"),
    [("A123", {"unit": "A-1-23"}), ("A-123", {"unit": "A-1-23"}), ("B123", {}), ("B-123", {}), ("B-1-23", {})],
)
def test_hyphens_are_put_in_until_a_number_has_two(text, found):
    assert serials(read(text), {"unit": "A-[0-9]-[0-9]{2}|B-[0-9]-[0-9]-[0-9]"}) == found


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


def test_without_a_form_a_code_tells_behind_its_mark_for_serials():
    assert serials(read("1PX-1\x1dSAB12-993", by="code"), {}, unit="") == {"unit": "AB12-993"}


@pytest.mark.parametrize(
    ("value", "is_one"),
    [
        ("A12", False),
        ("A-12", False),
        ("AB12", True),
        ("ABC1", False),
        ("1" * 40, True),
        ("1" * 41, False),
        ("AB 12 99 3", True),
        ("AB 12 99 3 4", False),
    ],
)
def test_behind_the_word_for_it_stands_a_number_of_some_length_with_two_digits_in_four_words(value, is_one):
    assert serials(read(f"S/N {value}"), {}, unit="") == ({"unit": value} if is_one else {})


def test_without_a_form_a_number_like_the_typed_one_is_it():
    assert serials(read("X-1", "AB120-9934"), {}, unit="AB120-9984") == {"unit": "AB120-9934"}


def test_a_number_typed_for_another_role_is_not_proposed():
    alike = {"unit": "[0-9]{7}", "engine": "[0-9]{7}"}
    assert serials(read("1180342", "0041277"), alike, unit="1180342", engine="0041277") == {
        "unit": "1180342",
        "engine": "0041277",
    }


@pytest.mark.parametrize(
    ("text", "typed"),
    [("XQ99-871", "HC70-118"), ("ABIC-DEF", "AB1C-DEF")],
    ids=["another number", "like it and no number"],
)
def test_without_a_form_only_a_number_like_the_typed_one_is_proposed(text, typed):
    assert serials(read(text), {}, unit=typed) == {}


@pytest.mark.parametrize("read_as", ["OVE-1204471", "0VE-1204471"])
def test_the_engines_plate_says_nothing_of_the_units_number(read_as):
    typed = {"unit": "OV-RM42-0052630", "engine": "OVE-1204471"}
    assert "unit" not in serials(read("MODEL E-540V", f"SERIAL No. {read_as}"), {}, **typed)
