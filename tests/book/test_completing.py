import pytest
from book_builders import ANA, OPENED, an_entry

from claimpack.book.completing import words_beginning
from claimpack.book.database import engines


def completed(book, kind, begun, shop=""):
    with engines.reading(book.engine) as connection:
        return words_beginning(connection, kind, begun, shop)


@pytest.mark.parametrize("begun", ["hal", "HAL", "Hal"])
def test_a_word_is_completed_in_whatever_case_it_was_begun(book, begun):
    book.add([an_entry("26-0001", maker="Halden"), an_entry("26-0002", maker="tessaly")], ANA, OPENED)
    assert completed(book, "makers", begun) == ["Halden"]


def test_a_mark_that_stands_for_others_in_a_database_stands_for_itself(one):
    assert completed(one, "claims", "26_") == []


def test_claims_are_completed_the_latest_first(three):
    assert completed(three, "claims", "26-") == ["26-0003", "26-0002", "26-0001"]


@pytest.mark.parametrize(("kind", "found"), [("makers", ["halden"]), ("models", ["CS-70"]), ("claims", [])])
def test_makers_and_models_are_everybodys_claims_are_a_shops_own(one, kind, found):
    assert completed(one, kind, "", "north") == found
