from claimpack.core.events.beside import EventsBeside

COMING = [("25-0001", ["a"]), ("25-0003", ["b", "c"]), ("25-0004", ["d"])]


def test_each_claim_is_given_its_own_events_and_one_of_which_nothing_is_told_none():
    told = EventsBeside(iter(COMING))
    numbers = ("25-0001", "25-0002", "25-0003", "25-0004", "25-0005")
    assert [told.of(number) for number in numbers] == [["a"], [], ["b", "c"], ["d"], []]


def test_no_more_is_read_than_up_to_the_claim_that_was_asked_for():
    coming = iter(COMING)
    EventsBeside(coming).of("25-0001")
    assert next(coming)[0] == "25-0003"


def test_events_of_a_claim_that_was_passed_over_are_still_there():
    told = EventsBeside(iter(COMING))
    assert (told.of("25-0004"), told.of("25-0001")) == (["d"], ["a"])
