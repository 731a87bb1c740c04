import pytest
from claim_folders import receipt
from running import claimpack
from shop_builders import a_shop, kept_claim, the_desk
from typed_terminal import answered_at_a_terminal

OWNER = {"name": "Marrow Lane Paving", "phone": "555-0114", "address": "8 Marrow Lane, Ashby"}
BEGIN = "Dead.\nhalden\nCS-70\nHC70-1\n"


@pytest.fixture
def shop(tmp_path):
    """A shop that had the saw HC70-1 of Marrow Lane Paving in before."""
    return a_shop(tmp_path, "25-0310", owner=OWNER)


def taken_in(shop, typed, *options):
    """The claim opened in a conversation, and what was asked."""
    ran = claimpack("open", "--number", "26-0500", *options, folder=shop, typed=typed)
    return kept_claim(shop, "26-0500"), ran.err


def test_a_unit_and_its_owner_are_recalled_by_the_serial_once_confirmed(shop):
    claim, err = taken_in(shop, f"{BEGIN}y\ny\nstop\n")
    before = kept_claim(shop, "25-0310")
    assert ("The unit as on 25-0310" in err, claim.dates.purchased) == (True, before.dates.purchased)
    assert (claim.owner.name, claim.unit.serials) == (OWNER["name"], before.unit.serials)


def test_a_unit_named_by_options_is_recalled_too(shop):
    options = ("--maker", "halden", "--model", "CS-70", "--serial", "hc701", "--ask")
    claim, err = taken_in(shop, "y\ny\nstop\n", *options)
    assert (err.count("Take it over?"), claim.owner.name) == (2, OWNER["name"])


def test_a_reading_and_a_failure_are_of_one_visit(shop):
    claim, _ = taken_in(shop, f"{BEGIN}y\ny\nstop\n")
    assert (claim.unit.hours, claim.dates.failed, claim.failure.cause) == (None, None, "")


def test_another_owners_data_stay_off_the_claim_without_a_yes(shop):
    claim, err = taken_in(shop, f"{BEGIN}y\n\nstop\n")
    assert ("Still the same owner: Marrow Lane Paving" in err, claim.owner.name, claim.proof.file) == (True, "", None)


def test_a_proof_stays_with_its_owner_where_another_is_named_after_all(tmp_path):
    shop = a_shop(tmp_path, "25-0310", owner=OWNER, proof={"kind": "receipt", "file": "papers/receipt.pdf"})
    claim, _ = taken_in(shop, f"{BEGIN}y\ny\n\n\nyes\nback\nAshby Hire\nstop\n")
    assert (claim.owner.name, claim.proof.kind, claim.proof.file) == ("Ashby Hire", "receipt", None)


def test_the_serial_of_another_model_recalls_nothing(shop):
    _, err = taken_in(shop, "Dead.\nhalden\nHT-24\nHC70-1\nstop\n")
    assert "Take it over?" not in err


def test_an_owner_is_recalled_by_the_phone_once_confirmed(shop):
    options = ("--maker", "halden", "--model", "CS-70", "--serial", "HC70-9", "--ask")
    claim, err = taken_in(shop, "Dead.\n" + "\n" * 9 + "5550114\ny\nstop\n", *options)
    assert ("The owner of 25-0310" in err, claim.owner.address) == (True, OWNER["address"])


@pytest.fixture
def two_owners(tmp_path):
    """A shop where two owners were taken in with one phone."""
    shop = a_shop(tmp_path, "25-0310", owner=OWNER)
    claimpack(
        *("open", "--maker", "halden", "--model", "CS-70", "--serial", "HC70-8", "--number", "25-0311"),
        *("--owner", "Ashby Hire", "--phone", "555-0114"),
        folder=shop,
    )
    return shop


@pytest.mark.parametrize(("number", "owner"), [("1", OWNER["name"]), ("2", "Ashby Hire")])
def test_of_several_owners_with_one_phone_one_is_chosen(two_owners, number, owner):
    options = ("--maker", "halden", "--model", "CS-70", "--serial", "HC70-9", "--ask")
    claim, _ = taken_in(two_owners, "Dead.\n" + "\n" * 9 + f"555-0114\n{number}\nstop\n", *options)
    assert claim.owner.name == owner


def test_an_owner_who_was_not_taken_over_by_the_phone_is_not_offered_again(shop):
    options = ("--maker", "halden", "--model", "CS-70", "--serial", "HC70-9", "--ask")
    _, err = taken_in(shop, "Dead.\n" + "\n" * 9 + "5550114\nn\n\n\nstop\n", *options)
    assert err.count("The owner of 25-0310") == 1


@pytest.mark.parametrize("pressed", ["2", "2\n"], ids=["alone", "with Enter out of habit"])
def test_one_key_chooses_among_the_owners_at_a_terminal(two_owners, pressed):
    command = "open --number 26-0500 --maker halden --model CS-70 --serial HC70-9 --phone 555-0114 --ask"
    answered_at_a_terminal(command, two_owners, {"  Several owners": pressed, "What is wrong": "stop\n"})
    assert kept_claim(two_owners, "26-0500").owner.name == "Ashby Hire"


def test_a_serial_told_before_the_model_is_looked_up_once_the_model_is_known(shop):
    claim, err = taken_in(shop, "Dead.\nhalden\nCS-70\ny\ny\nstop\n", "--serial", "HC70-1", "--ask")
    assert (err.count("The unit as on 25-0310"), claim.owner.name) == (1, OWNER["name"])


def test_what_was_not_taken_over_is_not_offered_again(shop):
    _, err = taken_in(shop, f"{BEGIN}n\nn\nsaw\n\nrental\nstop\n")
    assert (err.count("The unit as on"), err.count("Still the same owner")) == (1, 1)


@pytest.mark.parametrize("begin", ["Dead.\nhalden\nCS-70\nE70-1\n", "Dead.\ntessaly\nCS-70\nHC70-1\n"])
def test_another_number_of_the_unit_or_another_maker_recalls_nothing(shop, begin):
    assert "Take it over?" not in taken_in(shop, f"{begin}stop\n")[1]


def test_an_owner_who_was_named_is_not_asked_about(shop):
    options = ("--maker", "halden", "--model", "CS-70", "--serial", "HC70-9", "--phone", "555-0114")
    assert "The owner of" not in taken_in(shop, "stop\n", *options, "--owner", "Ashby Hire", "--ask")[1]


@pytest.mark.parametrize("answer", ["0", "3", "two", ""])
def test_a_number_of_none_of_the_owners_takes_none_over(two_owners, answer):
    options = ("--maker", "halden", "--model", "CS-70", "--serial", "HC70-9", "--phone", "555-0114", "--ask")
    assert taken_in(two_owners, f"{answer}\nstop\n", *options)[0].owner.name == ""


def test_the_proof_is_taken_over_with_its_owner_and_no_other_paper(shop):
    for name in ("letter.pdf", "receipt.pdf"):
        (shop.parent / name).write_bytes(receipt(name))
    claimpack("paper", "add", "25-0310", shop.parent / "receipt.pdf", "--proof", "receipt", folder=shop)
    claimpack("paper", "add", "25-0310", shop.parent / "letter.pdf", folder=shop)
    taken_in(shop, f"{BEGIN}y\ny\nstop\n")
    assert [file.path for file in the_desk(shop).book.get("26-0500").files] == ["papers/receipt.pdf"]
