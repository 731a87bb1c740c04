import pytest
from running import claimpack


def test_a_picture_is_no_claim(shop):
    (shop / "photos").mkdir()
    (shop / "photos" / "26-0003").write_bytes(b"none")
    assert "picture" in claimpack("photo", "add", "photos/26-0003", folder=shop).err.partition("at hand")[2]


@pytest.mark.parametrize("words", ["write-off", "withdraw", "shop forget"])
def test_what_gives_up_or_erases_wants_the_number(shop, words):
    assert "Missing argument" in claimpack(*words.split(), "--because", "x", folder=shop).err


def test_where_no_claim_means_all_the_one_at_hand_is_not_meant(shop):
    ran = claimpack("history", folder=shop)
    assert ("26-0002" in ran.out, "at hand" in ran.err) == (True, False)


def test_a_mistyped_claim_is_not_taken_for_a_word_after_another(shop):
    assert "26-0001 26-0009" not in claimpack("pay", "26-0009", "1200", folder=shop).err
