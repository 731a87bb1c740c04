import pytest
from running import claimpack
from shop_builders import a_shop

CLAIM = {
    "owner__phone": "555-0142",
    "parts": [{"name": "Short block", "number": "70-1180-00"}],
    "held": [{"part": "short block", "shelf": "B3"}],
}


@pytest.fixture
def shop(tmp_path):
    return a_shop(tmp_path, **CLAIM)


def find(shop, *arguments):
    return claimpack("find", *arguments, folder=shop)


@pytest.mark.parametrize(
    "text",
    [
        "26-0001",
        "HC70-1",
        "e70-1",
        "customer",
        "555-0142",
        "5550142",
        "cs-70",
        "70-1180-00",
        "70118000",
        "B3",
        "will not",
    ],
)
def test_a_claim_is_found_by(shop, text):
    ran = find(shop, text)
    assert (ran.code, "26-0001" in ran.out, ran.err) == (0, True, "1 claim found.\n")


@pytest.mark.parametrize("text", ["", "-", "_ _"])
def test_no_word_finds_nothing_rather_than_everything(shop, text):
    ran = find(shop, "--", text)
    assert (ran.code, "no word to look for" in ran.err) == (2, True)


def test_every_word_must_be_there(shop):
    assert (find(shop, "halden", "start").code, find(shop, "halden", "pump").code) == (0, 3)


def test_nothing_found_is_a_no(shop):
    ran = find(shop, "zzz")
    assert (ran.code, ran.out, "zzz" in ran.err) == (3, "", True)


def test_the_document_lists_what_was_found(shop):
    answer = find(shop, "halden", "--json").json
    assert (answer["count"], answer["claims"][0]["number"]) == (1, "26-0001")


def test_nothing_found_is_an_empty_document(shop):
    ran = find(shop, "zzz", "--json")
    assert (ran.code, ran.json) == (3, {"claims": [], "count": 0})


def test_more_than_the_limit_is_said(tmp_path):
    shop = a_shop(tmp_path, "26-0001", "26-0002", "26-0003")
    ran = find(shop, "halden", "--limit", "2")
    assert (len(ran.out.splitlines()), "2 of 3 claims found" in ran.err) == (3, True)
