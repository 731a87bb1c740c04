import pytest

from claimpack.core.values.likeness import has_contrast, look_alike

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
