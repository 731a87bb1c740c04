from running import claimpack


def test_each_person_has_a_claim_of_their_own_at_hand(shop):
    claimpack("at-hand", "26-0002", folder=shop, environ={"CLAIMPACK_WHO": "ben"})
    assert claimpack("at-hand", "--json", folder=shop).json["claim"] == "26-0001"


def test_none_may_be_at_hand(shop):
    claimpack("at-hand", "--none", folder=shop)
    assert "Missing argument" in claimpack("show", folder=shop).err


def test_the_claim_at_hand_is_told_by_its_number_alone(shop):
    assert claimpack("at-hand", folder=shop).out == "26-0001\n"
