from __future__ import annotations

import json
from decimal import Decimal

import pytest
from book_builders import ANA, BEN, DAY, EDITED, OPENED, SUMMARY, an_entry, happened, kept

from claimpack.book.database.engines import engine_for, writing
from claimpack.book.keeping.forgetting import Wish, forget, wipe
from claimpack.book.keeping.proof import book_problems
from claimpack.book.opening import open_book
from claimpack.errors import BadInput, NotFound

NAME, PHONE = "Marisol Tengrove", "555-0142"
PLATE, FACE, PACKET = "ab" * 32, "fa" * 32, "cd" * 32
FILED = happened("filed", claimed="159.70", currency="USD")


@pytest.fixture
def lived(book):
    """A claim that was edited, corrected and filed; its owner is named in its texts and in its history."""
    entry = an_entry(
        "26-0001",
        kept("photos/plate.jpg", PLATE),
        kept("photos/face.jpg", FACE),
        owner__name=NAME,
        owner__phone=PHONE,
        failure__complaint=f"{NAME.upper()} says it will not start; call {PHONE}.",
        photos=[{"file": "photos/plate.jpg"}, {"file": "photos/face.jpg", "caption": "a person"}],
    )
    book.add([entry, an_entry("26-0002", kept("photos/plate.jpg", PLATE))], ANA, OPENED)
    steps = (EDITED, happened("filed", f"{NAME} waits", packet=PACKET, claimed="159.70", currency="USD", revision="2"))
    for step in steps:
        with book.change("26-0001", BEN) as change:
            change.save(change.claim, SUMMARY, step)
    return book


def forgotten(book, *contents, owner=False, why="asked for", drop=lambda _: None, judged=SUMMARY):
    wish = Wish("26-0001", owner, frozenset(contents), "something", why, DAY)
    return forget(book, wish, BEN, lambda _claim, _files: judged, drop)


def everything_said(book):
    with book.engine.transaction() as connection:
        tables = ("claims", "revisions", "events", "kept_files", "serials", "held")
        return repr([tuple(row) for table in tables for row in connection.all(f"SELECT * FROM {table}")])  # noqa: S608


def test_an_owners_data_is_gone_from_every_revision_and_event(lived):
    forgotten(lived, owner=True)
    said = everything_said(lived)
    assert [word for word in (NAME, NAME.upper(), PHONE) if word in said] == []


def test_the_book_is_whole_after_an_owner_was_erased_and_the_old_heads_still_count(lived):
    head = lived.chain_end()[1]
    forgotten(lived, owner=True)
    assert (book_problems(lived), lived.position_of(head)) == ([], 4)


def test_figures_stay_when_an_owner_is_erased(lived):
    before = lived.get("26-0001")
    forgotten(lived, owner=True)
    after = lived.get("26-0001")
    assert (after.standing.claimed, after.standing.filed, after.summary) == (
        before.standing.claimed,
        before.standing.filed,
        before.summary,
    )


@pytest.mark.parametrize(("before", "claimed"), [(EDITED, "80.00"), (FILED, "159.70")], ids=["draft", "filed"])
def test_a_draft_is_judged_anew_without_what_was_erased_and_a_filed_claim_keeps_its_figures(book, before, claimed):
    book.add([an_entry("26-0001", owner__name=NAME)], ANA, OPENED)
    with book.change("26-0001", BEN) as change:
        change.save(change.claim, SUMMARY, before)
    forgotten(book, owner=True, judged=SUMMARY.model_copy(update={"claimed": Decimal("80.00")}))
    assert book.get("26-0001").summary.claimed == Decimal(claimed)


def test_whatever_else_a_claim_said_stands_in_every_revision_as_it_was_written(book):
    book.add([an_entry("26-0001", owner__name=NAME, failure__cause="Zündkerze verrußt.")], ANA, OPENED)
    before = documents(book)[0]
    forgotten(book, owner=True)
    owner = before.pop("owner")
    assert [(document.pop("owner"), document) for document in documents(book)] == [
        ({key: said for key, said in owner.items() if key != "name"}, before)
    ] * 2
    assert "Zündkerze verrußt." in everything_said(book)


def documents(book):
    with book.engine.transaction() as connection:
        return [json.loads(told) for told in connection.column("SELECT document FROM revisions ORDER BY revision")]


def test_that_something_was_erased_is_told_with_who_and_why(lived):
    forgotten(lived, owner=True, why="asked for on the phone")
    last = lived.history("26-0001")[-1]
    assert (last.what, last.who, last.why, last.on) == ("erased", "Ben", "asked for on the phone", DAY)


def test_a_packet_that_carried_the_owner_goes_from_the_vault(lived):
    gone = []
    done = forgotten(lived, owner=True, drop=gone.append)
    assert (gone, done.contents) == ([PACKET], (PACKET,))


def test_a_picture_is_gone_from_every_revision_with_its_caption_and_the_packet_that_showed_it(lived):
    gone = []
    forgotten(lived, FACE, drop=gone.append)
    said = everything_said(lived)
    assert (sorted(gone), "face.jpg" in said, "a person" in said, book_problems(lived)) == (
        sorted([FACE, PACKET]), False, False, [],
    )  # fmt: skip


def test_a_picture_that_another_claim_keeps_stays_in_the_vault(lived):
    gone = []
    done = forgotten(lived, PLATE, drop=gone.append)
    assert (done.kept_elsewhere, PLATE in gone) == ((PLATE,), False)


def test_a_packet_of_a_revision_without_the_picture_stays(book):
    book.add([an_entry("26-0001")], ANA, OPENED)
    for step, files in (
        (happened("filed", packet=PACKET, revision="1"), []),
        (happened("corrected"), [kept("a.jpg", FACE)]),
    ):
        with book.change("26-0001", BEN) as change:
            change.save(change.claim, SUMMARY, step, files=files)
    assert forgotten(book, FACE).contents == (FACE,)


def test_erased_twice_the_book_is_whole_and_nothing_more_is_rewritten(lived):
    forgotten(lived, owner=True)
    again = forgotten(lived, owner=True)
    assert (again.revisions, again.events, again.contents, book_problems(lived)) == (0, 0, (), [])


def test_after_owner_and_picture_the_book_is_whole(lived):
    forgotten(lived, FACE, why=f"asked for by {NAME}")
    forgotten(lived, owner=True)
    assert (book_problems(lived), NAME in everything_said(lived)) == ([], False)


@pytest.mark.parametrize(
    "statement",
    [
        "UPDATE revisions SET document = replace(document, 'will not', 'will') WHERE revision = 1",
        "UPDATE revisions SET document = replace(document, '[erased]', 'X') WHERE revision = 2",
        "UPDATE events SET why = 'something else' WHERE position = 4",
        "UPDATE events SET facts = replace(facts, '159.70', '999.00') WHERE position = 4",
        "DELETE FROM events WHERE what = 'erased'",
        "UPDATE events SET facts = '{}' WHERE what = 'erased'",
    ],
)
def test_what_is_changed_after_an_erasure_is_named(lived, statement):
    forgotten(lived, owner=True)
    with lived.engine.transaction() as connection:
        connection.execute(statement)
    assert book_problems(lived)


def test_what_was_erased_cannot_be_guessed_from_what_stays(lived):
    forgotten(lived, owner=True)
    with lived.engine.transaction() as connection:
        salts = connection.column("SELECT salt FROM revisions WHERE claim = '26-0001' AND revision < 4")
        assert set(salts) == {None}


def test_a_reason_that_names_the_owner_is_refused_and_nothing_is_erased(lived):
    with pytest.raises(BadInput):
        forgotten(lived, owner=True, why=f"{NAME} asked")
    assert lived.get("26-0001").claim.owner.name == NAME


def test_a_claim_that_is_not_there_is_not_erased(book):
    with pytest.raises(NotFound):
        forgotten(book, owner=True)


def test_where_the_owner_is_still_named_is_told(book):
    serials = [{"role": "unit", "value": NAME}]
    book.add([an_entry("26-0001", owner__name=NAME, unit__serials=serials)], ANA, OPENED)
    assert forgotten(book, owner=True).remains == ("unit.serials.value",)


def test_no_byte_of_the_owner_is_left_in_the_file_of_the_book(tmp_path):
    place = tmp_path / "book.sqlite"
    book = open_book(str(place), create=True)
    book.add([an_entry("26-0001", owner__name=NAME, owner__phone=PHONE)], ANA, OPENED)
    with book.change("26-0001", BEN) as change:
        change.save(change.claim, SUMMARY, EDITED)
    forgotten(book, owner=True)
    assert wipe(book.engine)
    left = b"".join(path.read_bytes() for path in tmp_path.iterdir())
    assert [word for word in (NAME, NAME.casefold(), PHONE) if word.encode() in left] == []


def test_while_somebody_reads_the_file_it_is_told_that_old_bytes_are_left(tmp_path):
    place = str(tmp_path / "book.sqlite")
    book, reader = open_book(place, create=True), open_book(place)
    book.add([an_entry("26-0001", owner__name=NAME)], ANA, OPENED)
    with reader.engine.transaction() as connection:
        connection.all("SELECT count(*) FROM claims")
        book.engine.dispose()
        assert not wipe(impatient(place))


def test_while_somebody_writes_the_file_it_is_told_that_old_bytes_are_left(tmp_path):
    place = str(tmp_path / "book.sqlite")
    with writing(open_book(place, create=True).engine):
        assert not wipe(impatient(place))


def impatient(place):
    return engine_for(place, wait=0)


def test_no_byte_of_the_owner_is_left_in_the_tables_on_a_server(server, book_on_server):
    with book_on_server.engine.transaction() as connection:
        connection.execute("TRUNCATE claims, serials, held, kept_files, revisions, events")
        connection.execute("UPDATE chain SET length = 0, hash = repeat('0', 64)")
    book_on_server.add([an_entry("26-0001", owner__name=NAME, owner__phone=PHONE)], ANA, OPENED)
    forgotten(book_on_server, owner=True)
    assert wipe(book_on_server.engine)
    server.run("emptied", "CHECKPOINT")
    folder = server.home / "base"
    left = b"".join(path.read_bytes() for path in folder.rglob("*") if path.is_file())
    assert NAME.encode() not in left
