from __future__ import annotations

import datetime as dt
from datetime import date
from decimal import Decimal

import pytest
from book_builders import ANA, OPENED, SUMMARY, an_entry, at, happened, kept, plans_about_events
from shop_builders import a_shop, happen, the_desk

from claimpack.book.database.engines import reading
from claimpack.book.database.sql import Sql
from claimpack.book.lookups import claims_called, claims_worked_on, events_of, last_day, narrowed, versions
from claimpack.book.opening import open_book
from claimpack.book.tables.entries import Wanted
from claimpack.core.events.events import NewEvent
from claimpack.core.events.states import OPEN


@pytest.fixture
def three(book):
    book.add(
        [
            an_entry("26-0001", owner__name="Ida North", dates__presented="2026-02-05", maker="halden"),
            an_entry("26-0002", owner__name="Per West", dates__presented="2026-02-07", maker="Orrin-Vale"),
            an_entry("26-0003", owner__name="Ida South", dates__presented="2026-02-06", maker="halden"),
        ],
        ANA,
        OPENED,
    )
    return book


def numbers(rows):
    return [row.number for row in rows]


def test_a_list_shows_the_latest_brought_in_first(three):
    assert numbers(three.claims()) == ["26-0002", "26-0003", "26-0001"]


def test_a_list_stops_at_its_limit(three):
    assert numbers(three.claims(Wanted(limit=1))) == ["26-0002"]


def test_a_count_knows_no_limit(three):
    assert three.count(Wanted(limit=1, maker="halden")) == 2


def test_a_list_shows_the_facts_of_a_claim(three):
    row = three.claims()[0]
    assert (row.owner, row.serial, row.component, row.presented) == (
        "Per West", "HC70-1", "short block", dt.date(2026, 2, 7)
    )  # fmt: skip
    assert (row.state, row.verdict, row.claimed, row.currency) == ("draft", "covered", Decimal("159.70"), "USD")


def test_a_list_is_narrowed_to_a_maker_however_it_is_written(three):
    assert numbers(three.claims(Wanted(maker="orrin vale"))) == ["26-0002"]


def test_a_list_is_narrowed_to_states(three):
    with three.change("26-0002", ANA) as change:
        change.save(change.claim, SUMMARY, happened("withdrawn"))
    assert numbers(three.claims(Wanted(states=("withdrawn",)))) == ["26-0002"]
    assert three.count(Wanted(states=("draft", "filed"))) == 2


@pytest.mark.parametrize(
    ("text", "found"),
    [
        ("26-0002", ["26-0002"]),
        ("per WEST", ["26-0002"]),
        ("west per", ["26-0002"]),
        ("ida", ["26-0003", "26-0001"]),
        ("sout", ["26-0003"]),
        ("hc70_1", ["26-0002", "26-0003", "26-0001"]),
        ("won't", []),
        ("%", []),
        ("26_0002", ["26-0002"]),
        ("not start.", ["26-0002", "26-0003", "26-0001"]),
        ("  -  ", ["26-0002", "26-0003", "26-0001"]),
    ],
)
def test_claims_are_found_by_words_in_any_order_and_case(three, text, found):
    assert numbers(three.claims(Wanted(text=text))) == found


def test_a_serial_is_looked_up_whole(book):
    book.add([an_entry("26-0001", unit__serials=[{"role": "unit", "value": "HC70-118"}])], ANA, OPENED)
    book.add([an_entry("26-0118", unit__serials=[{"role": "unit", "value": "HC70-999"}])], ANA, OPENED)
    assert numbers(book.claims(Wanted(text="hc70-118"))) == ["26-0001"]


@pytest.mark.parametrize(("serial", "typed", "found"), [("HC-7012", "hc7012", 1), ("HC-701", "hc701", 0)])
def test_a_number_of_six_signs_is_found_without_its_hyphen_and_a_shorter_one_as_it_is_written(
    book, serial, typed, found
):
    book.add([an_entry("26-0001", unit__serials=[{"role": "unit", "value": serial}])], ANA, OPENED)
    assert len(book.claims(Wanted(text=typed))) == found


@pytest.mark.parametrize("text", ["ÅSE", "åse", "STRASSE", "straße"])
def test_letters_beyond_english_are_found_in_any_case(book, text):
    book.add([an_entry("26-0001", owner__name="Åse Straße")], ANA, OPENED)
    assert numbers(book.claims(Wanted(text=text))) == ["26-0001"]


def test_a_unit_is_known_by_any_of_its_serials(book):
    book.add([an_entry("26-0001", unit__serials=[{"role": "unit", "value": "A-1"}])], ANA, OPENED)
    two = [{"role": "battery", "value": "B-1"}, {"role": "battery", "value": "b 2"}]
    book.add([an_entry("26-0002", unit__serials=two)], ANA, OPENED)
    assert numbers(book.with_serials(["a 1", "B-2", ""])) == ["26-0002", "26-0001"]


@pytest.mark.parametrize(
    ("named", "found"),
    [
        ({"names": ["ro-0001", ""]}, {"RO-0001": ("a1",)}),
        ({"names": ["w 88-1"]}, {"RO-0002": ("b2",)}),
        ({"serials": ["b 2"]}, {"RO-0002": ("b2",)}),
        ({"parts": ["70-1180"]}, {"RO-0001": ("a1",)}),
        ({"names": ["RO"], "serials": [""], "parts": ["70"]}, {}),
    ],
)
def test_a_claim_is_called_by_numbers_however_they_are_typed_and_told_with_its_serials(book, named, found):
    held = [{"part": "short block", "number": "70-1180"}]
    book.add([an_entry("RO-0001", held=held, unit__serials=[{"role": "unit", "value": "A-1"}])], ANA, OPENED)
    filed = happened("filed", reference="W-881", claimed="1.00", currency="USD")
    book.add([an_entry("RO-0002", unit__serials=[{"role": "unit", "value": "B-2"}])], ANA, OPENED, filed)
    assert claims_called(book.engine, **{"names": [], "serials": [], "parts": []} | named) == found


def test_of_several_claims_each_has_the_events_that_are_its_own(three):
    with three.change("26-0002", ANA) as change:
        change.save(change.claim, SUMMARY, happened("withdrawn"))
    with reading(three.engine) as connection:
        found = events_of(connection, ["26-0002", "26-0001", "26-0009"])
    assert found == {number: three.history(number) for number in ("26-0001", "26-0002", "26-0009")}


def test_no_serial_is_on_no_claim(three):
    assert three.with_serials(["", ""]) == []


def test_whole_claims_come_by_number_with_their_files(book):
    book.add([an_entry("26-0002", kept("b.jpg"), kept("a.jpg")), an_entry("26-0001")], ANA, OPENED)
    assert [(entry.claim.number, len(entry.files)) for entry in book.entries()] == [("26-0001", 0), ("26-0002", 2)]


def test_of_claims_asked_for_those_there_come(three):
    asked = ["26-0003", "26-9999", "26-0001", "26-0003"]
    assert [entry.claim.number for entry in three.entries(asked)] == ["26-0001", "26-0003"]


def test_more_claims_are_asked_for_than_one_question_holds(book):
    book.add((an_entry(f"26-{index:04}") for index in range(503)), ANA, OPENED)
    assert len(list(book.entries(book.numbers()))) == 503


@pytest.mark.parametrize("said", ["tessaly", "TESSALY PUMPS", "Tessaly-Pumps", "tsl"])
def test_a_maker_is_found_by_each_of_its_words(three, said):
    named = SUMMARY.model_copy(update={"maker": "tessaly", "maker_name": "Tessaly Pumps"})
    three.add([an_entry("26-0004", summary=named, maker="TSL")], ANA, OPENED)
    assert numbers(three.claims(Wanted(maker=said))) == ["26-0004"]


@pytest.mark.parametrize("said", ["tess", "pumps", "tessaly_pumps%", "%"])
def test_a_part_of_a_makers_word_is_another_maker(three, said):
    named = SUMMARY.model_copy(update={"maker": "tessaly", "maker_name": "Tessaly Pumps"})
    three.add([an_entry("26-0004", summary=named)], ANA, OPENED)
    assert three.claims(Wanted(maker=said)) == []


def test_the_makers_of_the_book_are_each_told_once(three):
    assert three.makers() == ["Orrin-Vale", "halden"]


def test_a_list_knows_the_day_the_maker_was_first_heard_of(book):
    book.add([an_entry("26-0001")], ANA, OPENED)
    told = [
        happened("filed", on=dt.date(2026, 2, 6), claimed="150.00", currency="USD", received="2026-02-06"),
        happened("answered", on=dt.date(2026, 2, 9), answer="questioned"),
        happened("answered", on=dt.date(2026, 2, 20), answer="refused"),
    ]
    with book.change("26-0001", ANA) as change:
        change.save(change.claim, SUMMARY, *told)
    row = book.claims()[0]
    assert (row.state, row.answered, row.heard) == ("refused", dt.date(2026, 2, 20), dt.date(2026, 2, 9))


def test_a_list_knows_when_the_maker_of_a_paid_claim_with_a_refused_rest_was_first_heard_of(book):
    book.add([an_entry("26-0001")], ANA, OPENED)
    told = [
        happened("filed", on=dt.date(2026, 2, 6), claimed="150.00", currency="USD", received="2026-02-06"),
        happened("answered", on=dt.date(2026, 2, 9), answer="part", amount="100.00"),
        happened("paid", on=dt.date(2026, 2, 20), amount="100.00"),
    ]
    with book.change("26-0001", ANA) as change:
        change.save(change.claim, SUMMARY, *told)
    row = book.claims(Wanted(refused_rest=True))[0]
    assert (row.state, row.heard) == ("paid", dt.date(2026, 2, 9))


def test_the_last_day_is_that_of_the_latest_event(tmp_path):
    shop = a_shop(tmp_path)
    happen(shop, "26-0001", "withdrawn")
    assert last_day(the_desk(shop).book.engine) == date(2026, 3, 1)


def test_an_empty_book_knows_no_day(tmp_path):
    assert last_day(open_book(str(tmp_path / "book.db"), create=True).engine) is None


@pytest.fixture
def changed(book):
    """A book in which a claim was changed twice, and another one once."""
    book.add([an_entry("26-0001"), an_entry("26-0002")], ANA, OPENED)
    for number, hours in (("26-0001", "101"), ("26-0002", "7"), ("26-0001", "102")):
        with book.change(number, ANA) as change:
            entry = an_entry(number, unit__hours=hours)
            change.save(entry.claim, entry.summary, NewEvent(what="edited", on=ANA.at.date()))
    return book


def hours(book, first, last):
    return [(revision, claim and claim.unit.hours) for revision, claim in versions(book.engine, "26-0001", first, last)]


def test_a_claim_is_read_at_every_revision_in_order(changed):
    assert hours(changed, 0, 9) == [(1, Decimal(100)), (2, Decimal(101)), (3, Decimal(102))]


def test_only_the_revisions_wanted_are_read(changed):
    assert [revision for revision, _ in hours(changed, 2, 3)] == [2, 3]


def test_a_revision_that_is_no_claim_any_more_is_none(changed):
    with changed.engine.transaction() as connection:
        connection.execute("UPDATE revisions SET document = '{}' WHERE claim = '26-0001' AND revision = 2")
    assert hours(changed, 1, 3) == [(1, Decimal(100)), (2, None), (3, Decimal(102))]


def labour(technician="Ben", started="2026-03-01T09:00:00+00:00", ended="2026-03-01T10:00:00+00:00"):
    return [{"operation": "clean", "technician": technician, "started": started, "ended": ended}]


def numbers_worked(book, technician="Ben"):
    return [entry.claim.number for entry in claims_worked_on(book.engine, technician, at(9), at(10))]


def with_labour(book, **work):
    book.add([an_entry("26-0001", labour=labour(**work)), an_entry("26-0002")], ANA, OPENED)


def test_claims_with_a_technicians_work_of_the_day_are_found(book):
    with_labour(book)
    assert numbers_worked(book) == ["26-0001"]


def test_a_name_is_found_in_any_case(book):
    with_labour(book)
    assert numbers_worked(book, "BEN") == ["26-0001"]


def test_a_name_that_begins_alike_is_another_one(book):
    with_labour(book, technician="Benedict")
    assert numbers_worked(book) == []


@pytest.mark.parametrize("name", ['Ben "Bolt" O\'Hara', "50%_Ben", "Zoë"])
def test_a_name_may_have_any_letters(book, name):
    with_labour(book, technician=name)
    assert numbers_worked(book, name) == ["26-0001"]


@pytest.mark.parametrize(
    ("day", "found"),
    [("2026-02-27", False), ("2026-02-28", True), ("2026-03-02", True), ("2026-03-03", False)],
)
def test_a_day_more_on_either_side_is_looked_at(book, day, found):
    with_labour(book, started=f"{day}T09:00:00", ended=f"{day}T10:00:00")
    assert bool(numbers_worked(book)) is found


def test_the_last_day_of_a_book_is_found_by_an_index(tmp_path):
    book = open_book(str(tmp_path / "book.sqlite"), create=True)
    (plan,) = plans_about_events(book, lambda: last_day(book.engine))
    assert "INDEX events_by_day" in plan


def test_what_is_open_or_to_be_decided_is_counted_without_reading_every_claim(tmp_path):
    book = open_book(str(tmp_path / "book.sqlite"), create=True)
    wanted = Wanted(states=OPEN, refused_rest=True)
    with reading(book.engine) as connection:
        query = Sql("SELECT count(*) FROM claims").where(*narrowed(connection, wanted))
        plan = [row["detail"] for row in connection.all(Sql(f"EXPLAIN QUERY PLAN {query.text}", query.values))]
    assert plan
    assert not [step for step in plan if step.startswith("SCAN")]
