import pytest
from running import claimpack

from claimpack.commands.typed.claim_left_out import Positional, may_leave_claim_out

CLAIM, ANY_CLAIMS = (
    Positional("claim", is_needed=True, is_many=False),
    Positional("claims", is_needed=False, is_many=True),
)


@pytest.mark.parametrize(
    ("command", "places", "line", "may"),
    [
        ("show", [CLAIM], [], True),
        ("pay", [Positional("claims", is_needed=True, is_many=True)], ["100"], True),
        ("open", [Positional("model", is_needed=True, is_many=False)], [], False),
        ("shop", [], [], False),
        ("withdraw", [CLAIM], [], False),
        ("history", [ANY_CLAIMS], [], False),
        ("chase", [ANY_CLAIMS], [], True),
        ("chase", [ANY_CLAIMS], ["--maker", "halden"], False),
        ("chase", [ANY_CLAIMS], ["--maker=halden"], False),
        ("chase", [ANY_CLAIMS], ["--because", "maker"], True),
    ],
)
def test_a_claim_may_be_left_out_where_its_absence_has_no_meaning_of_its_own(command, places, line, may):
    assert may_leave_claim_out(command, places, line) == may


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
