import pytest

from claimpack.core.values.likeness import cuts, detail, differ, has_contrast, look_alike, show_one_scene, whole

PICTURE = 0x0F0F_3C3C_AAAA_5555


def changed(bits):
    """The hash of the picture with so many bits changed."""
    return f"{PICTURE ^ ((1 << bits) - 1):016x}"


@pytest.mark.parametrize(("bits", "alike"), [(0, True), (3, True), (4, True), (5, False)])
def test_pictures_look_alike_up_to_four_bits_of_difference(bits, alike):
    assert look_alike(changed(0), changed(bits)) is alike


@pytest.mark.parametrize(("one", "other"), [("", changed(0)), (changed(0), ""), ("", "")])
def test_a_file_without_a_hash_looks_like_none(one, other):
    assert not look_alike(one, other)


@pytest.mark.parametrize(
    ("likeness", "told"), [(0b1111, False), (0b11111, True), (2**59 - 1, True), (2**60 - 1, False)]
)
def test_a_picture_without_contrast_is_told_from_none(likeness, told):
    assert has_contrast(likeness) is told


def test_two_pictures_without_contrast_do_not_look_alike():
    assert not look_alike(f"{0:016x}", f"{0:016x}")


@pytest.mark.parametrize(("bits", "apart"), [(3, False), (4, False), (5, True)])
def test_two_readings_of_one_file_differ_by_four_bits_at_most(bits, apart):
    assert differ(changed(0), changed(bits)) is apart


KEPT = f"{1:016x}{2:064x}{3:016x}{0:016x}{4:016x}{5:016x}"


def test_what_is_kept_of_a_picture_is_its_whole_its_detail_and_its_cuts():
    assert (whole(KEPT), detail(KEPT), cuts(KEPT)) == (1, 2, (3, 4, 5))


def test_of_a_picture_kept_by_its_whole_alone_no_detail_and_no_cut_is_known():
    assert (detail(KEPT[:16]), cuts(KEPT[:16])) == (None, ())


def apart_by(*bits):
    """The cuts of two pictures that lie so many bits apart, a number for each cut of the second."""
    return [0], [(1 << each) - 1 for each in bits]


@pytest.mark.parametrize(("bits", "one_scene"), [(6, True), (7, True), (8, False)])
@pytest.mark.parametrize("surely", [True, False])
def test_one_cut_alone_shows_the_scene_up_to_seven_bits_of_difference(bits, one_scene, surely):
    assert show_one_scene(*apart_by(bits), surely=surely) is one_scene


@pytest.mark.parametrize(
    ("bits", "one_scene"),
    [
        ((10, 16, 16), True),
        ((11, 16, 16), False),
        ((10, 16, 17), False),
        ((10, 15, 15, 15), True),
        ((10, 10), False),
    ],
    ids=["just near", "too far", "one of three too far", "four", "only two"],
)
def test_cuts_that_are_less_alike_show_one_scene_where_three_come_near(bits, one_scene):
    assert show_one_scene(*apart_by(*bits)) is one_scene


def test_three_cuts_that_come_near_are_not_sure_to_show_one_scene():
    assert not show_one_scene(*apart_by(8, 8, 8), surely=True)


def test_pictures_without_cuts_show_no_scene_together():
    assert not show_one_scene([], [])
