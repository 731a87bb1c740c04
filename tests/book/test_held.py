import datetime as dt
from decimal import Decimal

import pytest
from book_builders import ANA, OPENED, SUMMARY, an_entry, happened

from claimpack.book.held import EVERY_STATE, ON_THE_SHELF, HeldWanted, states_named
from claimpack.book.tables.entries import Wanted
from claimpack.errors import BadInput

FILED = dt.date(2026, 1, 2)
HOLD = SUMMARY.model_copy(update={"hold_for": "P90D", "hold_of": "filed"})
TWO = [{"part": "short block", "number": "70-1180", "shelf": "B3"}, {"part": "Ignition coil", "shelf": "A-1"}]
NO_SPAN = ()


def filled(book, number="26-0001", held=TWO, filed=FILED):
    facts = {"claimed": "10.00", "currency": "USD", "received": "2026-01-05", "revision": "1"}
    book.add([an_entry(number, summary=HOLD, held=held)], ANA, OPENED, happened("filed", on=filed, **facts))
    return book


def happen(book, what, number="26-0001", **facts):
    with book.change(number, ANA) as change:
        change.save(change.claim, HOLD, happened(what, **facts))


def codes(rows):
    return [str(row.code) for row in rows]


def due(book, today, until, filed=NO_SPAN, received=NO_SPAN, ending=NO_SPAN):
    between = (dt.date.fromisoformat(today), dt.date.fromisoformat(until))
    return codes(book.held_due(between, ending, filed, received))


def test_a_held_part_is_listed_with_its_shelf_and_the_end_of_its_hold(book):
    row = filled(book).held()[0]
    assert (row.part, row.shelf, row.keep_until, row.maker) == ("Ignition coil", "A-1", dt.date(2026, 4, 2), "halden")


def test_what_left_the_shop_is_listed_only_when_asked_for(book):
    happen(filled(book), "part called back", part="1")
    happen(book, "part sent", part="1")
    assert (codes(book.held()), len(book.held(HeldWanted(states=EVERY_STATE)))) == (["26-0001/2"], 2)


@pytest.mark.parametrize("shelf", ["A-1", "a 1", "A_1"])
def test_a_shelf_is_found_as_people_type_it(book, shelf):
    assert codes(filled(book).held(HeldWanted(shelf=shelf))) == ["26-0001/2"]


@pytest.mark.parametrize(("text", "found"), [("coil", 1), ("70-1180", 1), ("26-0001", 2), ("CS-70", 2), ("gyro", 0)])
def test_a_part_is_found_by_words_of_itself_and_its_claim(book, text, found):
    assert len(filled(book).held(HeldWanted(text=text))) == found


@pytest.mark.parametrize(
    ("plan", "of", "day", "found"),
    [
        (HOLD.plan, "filed", FILED, 2),
        (HOLD.plan, "filed", FILED + dt.timedelta(1), 0),
        (HOLD.plan, "repaired", dt.date(2026, 2, 24), 2),
        (HOLD.plan, "paid", FILED, 0),
        ("another", "filed", FILED, 0),
    ],
)
def test_a_hold_that_a_plan_ends_otherwise_by_now_is_looked_at(book, plan, of, day, found):
    assert len(due(filled(book), "2026-05-01", "2026-05-14", ending=[(plan, of, (day, day))])) == found


def test_parts_of_named_claims_alone_are_listed(book):
    filled(filled(book), "26-0002")
    assert codes(book.held(HeldWanted(claims=("26-0002",)))) == ["26-0002/2", "26-0002/1"]


def test_a_part_whose_hold_ends_soon_is_due(book):
    filled(book)
    assert (due(book, "2026-03-25", "2026-04-02"), due(book, "2026-03-20", "2026-04-01")) == (
        ["26-0001/1", "26-0001/2"],
        [],
    )


def test_a_part_called_back_is_due_even_when_its_day_was_missed(book):
    happen(filled(book), "part called back", part="1", send_by="2026-02-01")
    assert due(book, "2026-02-20", "2026-02-25") == ["26-0001/1"]


@pytest.mark.parametrize("role", ["filed", "received"])
def test_a_part_whose_time_to_inspect_ends_is_due(book, role):
    span = {role: [(dt.date(2026, 1, 1), dt.date(2026, 1, 6))]}
    assert due(filled(book), "2026-02-20", "2026-03-06", **span) == ["26-0001/1", "26-0001/2"]


def test_a_part_that_a_count_missed_says_since_when(book):
    happen(filled(book), "shelf counted", part="2", shelf="A-1", found="no")
    assert [row.missing for row in book.held()] == [dt.date(2026, 3, 1), None]


def test_a_claims_row_has_what_its_dates_are_counted_from(book):
    happen(filled(book), "answered", answer="refused", form="yes")
    row = book.claims(Wanted())[0]
    assert (row.filed, row.received, row.answered, row.refused_for_form) == (
        FILED,
        dt.date(2026, 1, 5),
        dt.date(2026, 3, 1),
        True,
    )


def test_drafts_to_be_filed_by_a_day_are_found(book):
    summary = SUMMARY.model_copy(update={"file_by": dt.date(2026, 3, 26)})
    book.add([an_entry(summary=summary)], ANA, OPENED)
    days = [book.drafts_due(dt.date(2026, 3, day)) for day in (25, 26, 27)]
    assert [len(found) for found in days] == [0, 1, 1]


@pytest.mark.parametrize(("repaired", "counts"), [(None, [0, 1, 1]), ("2026-02-24", [0, 0, 0])])
def test_drafts_waiting_under_an_approval_that_expires_are_found(book, repaired, counts):
    approval = {"number": "A-1", "expires": "2026-03-12"}
    book.add([an_entry(approval=approval, dates__repaired=repaired)], ANA, OPENED)
    days = [book.drafts_due(dt.date(2026, 3, day)) for day in (11, 12, 13)]
    assert [len(found) for found in days] == counts


def test_claims_paid_within_spans_of_days_are_found(book):
    happen(filled(book), "paid", amount="10.00")
    spans = [(dt.date(2025, 1, 1), dt.date(2025, 2, 1)), (dt.date(2026, 3, 1), dt.date(2026, 3, 1))]
    assert (len(book.paid_within(spans)), book.paid_within(spans[:1]), book.paid_within([])) == (1, [], [])


@pytest.mark.parametrize(
    ("said", "states"), [("", ON_THE_SHELF), ("all", EVERY_STATE), ("Called-Back", ("called back",))]
)
def test_states_are_named_as_people_type_them(said, states):
    assert states_named(said) == states


def test_a_state_that_is_none_is_refused():
    with pytest.raises(BadInput, match="no state of a held part"):
        states_named("lost")


def test_parts_are_those_of_a_maker_by_any_of_its_words(book):
    named = SUMMARY.model_copy(update={"maker": "tessaly", "maker_name": "Tessaly Pumps"})
    book.add([an_entry("26-0101", held=[{"part": "seal"}], summary=named, maker="tsl")], ANA, OPENED)
    book.add([an_entry("26-0102", held=[{"part": "coil"}])], ANA, OPENED)
    assert [row.part for row in book.held(HeldWanted(maker="Tessaly pumps"))] == ["seal"]


def test_a_held_part_tells_what_the_maker_refused_of_its_claim(book):
    happen(filled(book), "answered", answer="part", amount="6.00")
    happen(book, "paid", amount="6.00")
    assert {(row.claim_state, row.refused_rest) for row in book.held()} == {("paid", Decimal(4))}
