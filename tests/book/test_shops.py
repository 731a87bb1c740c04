"""A book that holds several shops: each sees and changes its own claims."""

from __future__ import annotations

import pytest
from book_builders import ANA, BEN, DAY, EDITED, OPENED, SUMMARY, an_entry, at, happened
from running import claimpack

from claimpack.book.book import Book
from claimpack.book.held import HeldWanted
from claimpack.book.keeping.moving import everything, restore
from claimpack.book.keeping.proof import book_problems
from claimpack.book.keeping.taking import take
from claimpack.errors import BadInput, NotFound, WrongState

HELD = {"held": [{"part": "short block", "shelf": "B3"}]}


@pytest.fixture(params=["memory", "server"])
def lies_in(request):
    return request.param


def as_shop(book, shop, *, all_shops=False):
    """The same book as a shop sees it."""
    seen = Book(":memory:", shop, all_shops=all_shops)
    seen.place, seen.engine = book.place, book.engine
    return seen


@pytest.fixture
def ashby(book):
    """The book as ashby sees it, with a claim of its own and one of hollis."""
    as_shop(book, "hollis").add([an_entry("H26-0001", **HELD)], ANA, OPENED)
    seen = as_shop(book, "ashby")
    seen.add([an_entry("A26-0001", **HELD)], ANA, OPENED)
    return seen


def numbers(rows):
    return [row.number for row in rows]


def told_of(book):
    """The claims that each kind of list is about."""
    return {
        "claims": set(numbers(book.claims())),
        "entries": {entry.claim.number for entry in book.entries()},
        "events": {event.claim for event in book.each_event()},
        "history": {event.claim for event in book.history()},
        "histories": {claim for claim, _ in book.histories()},
        "held": {part.claim for part in book.held(HeldWanted())},
        "judged otherwise": set(numbers(book.drafts_judged_otherwise("another mark"))),
        "told": {event.claim for event in book.told("shop")},
    }


def test_every_list_is_of_the_shops_own_claims(ashby):
    assert set(map(frozenset, told_of(ashby).values())) == {frozenset(["A26-0001"])}


def test_all_shops_are_listed_where_that_is_asked(ashby):
    both = frozenset(["A26-0001", "H26-0001"])
    assert set(map(frozenset, told_of(as_shop(ashby, "ashby", all_shops=True)).values())) == {both}


def test_counts_are_of_the_shops_own_claims(ashby):
    assert (ashby.count(), ashby.event_count(), ashby.shops()) == (1, 1, {"ashby": 1, "hollis": 1})


@pytest.mark.parametrize(("shop", "others"), [("north", ["ashby", "hollis"]), ("ashby", []), ("", [])])
def test_a_shop_without_a_claim_in_a_book_of_several_is_told_whose_claims_it_holds(ashby, shop, others):
    assert as_shop(ashby, shop).shops_of_others() == others


def test_a_claim_of_another_shop_is_read_by_its_number_and_says_whose_it_is(ashby):
    assert ashby.get("H26-0001").standing.shop == "hollis"


def test_a_claim_of_another_shop_is_not_changed(ashby):
    with pytest.raises(WrongState, match="hollis"), ashby.change("H26-0001", BEN) as change:
        change.save(change.claim, SUMMARY, EDITED)


def test_of_several_claims_none_is_changed_where_one_is_another_shops(ashby):
    with pytest.raises(WrongState), ashby.change_all(["A26-0001", "H26-0001"], BEN):
        pass
    assert ashby.get("A26-0001").revision == 1


def test_no_clock_runs_on_a_claim_of_another_shop(ashby):
    with pytest.raises(WrongState):
        ashby.start_clock("Ben Marsh", "H26-0001", "find-fault", at(9))


def test_what_happened_is_recorded_of_any_claim_where_all_shops_are_meant(ashby):
    with as_shop(ashby, "ashby", all_shops=True).change("H26-0001", BEN) as change:
        change.save(change.claim, SUMMARY, EDITED)
    assert (ashby.get("H26-0001").revision, ashby.get("H26-0001").standing.shop) == (2, "hollis")


def test_a_number_that_another_shop_has_is_refused_with_its_name(ashby):
    with pytest.raises(BadInput, match="hollis"):
        ashby.add([an_entry("H26-0001")], ANA, OPENED)


def test_numbers_that_are_several_shops_are_refused_without_one_of_them(ashby):
    with pytest.raises(BadInput) as refused:
        ashby.add([an_entry("A26-0001"), an_entry("H26-0001")], ANA, OPENED)
    assert refused.value.what == "claim A26-0001, H26-0001 is already in the book"


def test_the_numbers_taken_are_those_of_every_shop(ashby):
    assert ashby.numbers() == ["A26-0001", "H26-0001"]


def test_a_book_of_two_shops_is_whole(ashby):
    assert book_problems(ashby) == []


def test_a_claim_given_to_another_shop_behind_the_history_is_found(ashby):
    with ashby.engine.transaction() as connection:
        connection.execute("UPDATE claims SET shop = 'ashby'")
    assert "H26-0001 is not as its history left it: shop" in book_problems(ashby)[0]


def test_a_book_that_is_moved_still_knows_whose_claims_are(ashby, tmp_path):
    from claimpack.book.opening import open_book

    moved = open_book(str(tmp_path / "moved.sqlite"), create=True, shop="hollis")
    with everything(ashby) as read:
        restore(moved, read)
    assert (numbers(moved.claims()), book_problems(moved)) == (["H26-0001"], [])
    moved.engine.dispose()


@pytest.fixture
def late(book):
    """The book as ashby sees it, in which two claims came in before anybody told shops apart, and one is hollis's."""
    book.add([an_entry("26-0001"), an_entry("26-0002")], ANA, OPENED)
    as_shop(book, "hollis").add([an_entry("H26-0001")], ANA, OPENED)
    return as_shop(book, "ashby")


def test_claims_of_no_shop_are_in_no_shops_list_until_somebody_says_whose_they_are(late):
    assert (late.claims(), late.without_a_shop(), numbers(as_shop(late, "").claims())) == (
        [],
        2,
        ["26-0002", "26-0001"],
    )


def test_a_claim_of_no_shop_is_not_changed_by_one(late):
    with pytest.raises(WrongState), late.change("26-0001", BEN) as change:
        change.save(change.claim, SUMMARY, EDITED)


def test_claims_of_no_shop_are_taken_and_the_others_stay_where_they_are(late):
    assert take(late, BEN, DAY) == ["26-0001", "26-0002"]
    assert (late.shops(), book_problems(late)) == ({"ashby": 2, "hollis": 1}, [])


def test_a_claim_that_is_taken_has_a_revision_more(late):
    take(late, BEN, DAY, ["26-0001"])
    assert (late.get("26-0001").revision, late.get("26-0002").revision) == (2, 1)


def test_some_claims_of_no_shop_are_taken_by_number(late):
    assert (take(late, BEN, DAY, ["26-0002"]), late.shops()) == (["26-0002"], {"": 1, "ashby": 1, "hollis": 1})


def test_a_claim_that_another_shop_has_is_not_taken_with_those_of_none(late):
    with pytest.raises(WrongState):
        take(late, BEN, DAY, ["26-0002", "H26-0001"])
    assert late.without_a_shop() == 2


def test_a_number_that_is_not_there_takes_nothing(late):
    with pytest.raises(NotFound):
        take(late, BEN, DAY, ["26-0001", "26-0009"])
    assert late.without_a_shop() == 2


def test_whose_a_claim_is_stays_with_it_when_it_is_withdrawn_and_taken_up_again(ashby):
    for what in ("withdrawn", "reopened"):
        with ashby.change("A26-0001", BEN) as change:
            change.save(change.claim, SUMMARY, happened(what))
    assert ashby.get("A26-0001").standing.shop == "ashby"


def test_a_book_lies_in_the_usual_schema_where_nothing_else_is_said(book):
    assert book.schema_name() == "public"


def test_a_book_of_one_shop_writes_nothing_of_shops(book):
    book.add([an_entry()], ANA, OPENED)
    assert (book.history()[0].facts, book.whose(), book.claims()[0].number) == ({}, {}, "26-0001")


def test_a_shop_joins_a_book_that_is_on_a_server_before_a_claim_is_in_it(server, tmp_path):
    book = server.fresh()
    made = [claimpack("shop", "init", name, "--id", name, "--book", book, "--json", folder=tmp_path) for name in "ab"]
    assert [(each.json["joined"], each.json["claims"]) for each in made] == [(False, {}), (True, {})]
