import datetime as dt

import pytest
from claim_folders import a_folder
from running import NOW, claimpack
from shop_builders import a_shop, happen, kept_claim

from claimpack.commands.desk.world import World
from claimpack.commands.typed.left_out import number_left_out
from claimpack.errors import NotFound
from claimpack.folder.at_hand import take_at_hand


def test_the_claim_at_hand_stands_in_for_claim(shop):
    ran = claimpack("part", "add", "70-3301-00", "Ignition coil", "--cost", "38.15", folder=shop)
    assert (ran.code, "Claim at hand: 26-0001" in ran.err) == (0, True)
    assert [part.name for part in kept_claim(shop).parts][-1] == "Ignition coil"


def test_a_claim_that_is_named_goes_before_the_one_at_hand(shop):
    ran = claimpack("show", "26-0002", folder=shop)
    assert (ran.out.startswith("26-0002"), "at hand" in ran.err) == (True, False)


@pytest.mark.parametrize("slip", ["26-0003", "26-O001"])
def test_a_number_mistyped_never_means_the_claim_at_hand(shop, slip):
    ran = claimpack("finding", "add", slip, "compression", "42", folder=shop)
    assert (ran.code, kept_claim(shop).findings) == (2, ())


def test_a_claim_chosen_on_another_day_or_settled_is_told(shop):
    happen(shop, "26-0001", "withdrawn")
    err = claimpack("show", folder=shop, now=NOW + dt.timedelta(days=3)).err
    assert ("WITHDRAWN" in err, "chosen 3 days ago" in err) == (True, True)


def test_of_a_claim_chosen_today_and_open_nothing_more_is_told(shop):
    err = claimpack("show", folder=shop).err
    assert ("Claim at hand: 26-0001" in err, "chosen" in err, "DRAFT" in err) == (True, False, False)


@pytest.mark.parametrize(("listed", "code"), [("70-3302", 0), ("70-3303", 2)])
def test_a_part_number_of_the_form_of_a_claims_is_a_part_where_the_parts_list_has_it(shop, listed, code):
    (shop / "parts").mkdir(exist_ok=True)
    (shop / "parts" / "halden.csv").write_text(f"number,name,cost\n{listed},Ignition coil,38.15\n")
    assert claimpack("part", "add", "70-3302", folder=shop).code == code


def test_a_claim_that_is_there_goes_before_a_part_of_the_same_number(shop):
    (shop / "parts").mkdir(exist_ok=True)
    (shop / "parts" / "halden.csv").write_text("number,name,cost\n26-0002,Ignition coil,38.15\n")
    before = kept_claim(shop).parts
    assert (claimpack("part", "add", "26-0002", folder=shop).code, kept_claim(shop).parts) == (2, before)


def meant(shop, words, most=2, *, before_a_part=False):
    """The number that stands in for CLAIM where Ann typed these words."""
    world = World(folder=shop, environ={"CLAIMPACK_WHO": "ann"}, clock=NOW)
    return number_left_out(world, words, most, before_a_part=before_a_part)


@pytest.mark.parametrize(
    ("words", "most", "number"),
    [
        ([], 1, "26-0001"),
        (["It smokes."], 1, ""),
        (["It smokes."], 2, "26-0001"),
        (["one", "two", "three"], None, "26-0001"),
        (["26-0002"], 2, ""),
        (["folder"], 2, ""),
        (["folder/claim.toml"], 2, ""),
        (["folder/photos/0.jpg"], 2, "26-0001"),
    ],
)
def test_the_claim_at_hand_is_meant_where_a_word_is_wanting_and_the_first_is_no_claim(shop, words, most, number):
    a_folder(shop / "folder", shots=("whole unit",))
    assert meant(shop, words, most) == number


def test_a_file_called_as_a_claim_might_be_is_no_claim(shop):
    (shop / "26-0009").touch()
    assert meant(shop, ["26-0009"]) == "26-0001"


@pytest.mark.parametrize("told", ["chosen", "none chosen", "no shop"])
def test_nothing_stands_in_for_a_claim_where_none_is_at_hand(tmp_path, told):
    place = tmp_path if told == "no shop" else a_shop(tmp_path, "26-0001")
    if told == "chosen":
        claimpack("at-hand", "26-0001", folder=place, environ={"CLAIMPACK_WHO": "ann"})
    assert meant(place, []) == ("26-0001" if told == "chosen" else "")


@pytest.fixture
def with_parts(tmp_path):
    """A shop of its own numbers with a claim at hand, whose parts have numbers that look like a claim's."""
    parts = {"parts": [{"name": "Coil", "number": "70-3302"}], "failure__part": {"name": "Coil", "number": "H70-3303"}}
    shop = a_shop(tmp_path, "H26-0001", "H26-0002", **parts)
    claimpack("at-hand", "H26-0001", folder=shop, environ={"CLAIMPACK_WHO": "ann"})
    return shop


@pytest.mark.parametrize("word", ["70-3302", "H70-3303"])
def test_the_number_of_a_part_of_the_claim_is_a_part_only_where_a_part_is_wanted(with_parts, word):
    assert meant(with_parts, [word], 3, before_a_part=True) == "H26-0001"
    with pytest.raises(NotFound) as caught:
        meant(with_parts, [word], 3)
    assert "claimpack list" in caught.value.do


@pytest.mark.parametrize("word", ["26-0009", "H26-0009", "HI6-OOO9"])
def test_what_looks_like_a_claims_number_is_none_but_another_claim_or_part_named_in_full(with_parts, word):
    with pytest.raises(NotFound) as caught:
        meant(with_parts, [word], 3, before_a_part=True)
    assert f"H26-0001 {word}" in caught.value.do


@pytest.mark.parametrize("word", ["coil", "H26", "26-00-09"])
def test_a_word_that_looks_like_no_claims_number_is_what_is_said_of_the_one_at_hand(with_parts, word):
    assert meant(with_parts, [word], 3) == "H26-0001"


def test_a_claim_that_is_no_longer_in_the_book_stands_in_for_nothing(with_parts):
    take_at_hand(with_parts, "ann", "H26-0099", NOW)
    with pytest.raises(NotFound, match="is not in the book"):
        meant(with_parts, [])
