from __future__ import annotations

import datetime as dt
import json
from decimal import Decimal

import pytest
from book_builders import SUMMARY, an_entry, happened, kept
from builders import a_claim

from claimpack.book.tables import rows, schema
from claimpack.book.tables.rows import KeptFile
from claimpack.book.tables.writing import named
from claimpack.core.events.events import Link
from claimpack.core.events.fold import stand
from claimpack.core.events.standing import Standing
from claimpack.core.steps.listed import ListedClaim, listed, stood

FILED = [happened("opened"), happened("filed", claimed="150.00", currency="CAD", received="2026-03-03", revision="2")]
HELD = [{"part": "short block", "shelf": "B-3", "since": "2026-02-24"}, {"part": "muffler"}]


def the_row(summary=SUMMARY, events=(), **changes):
    stands = rows.standing_columns(stand(events))
    return named(schema.CLAIMS, rows.claim_values(an_entry(**changes).claim, 7, summary, stands))


def an_event_row(**changes):
    told = {"at": "2026-03-01T09:00:00-05:00", "on": "2026-02-28", "who": "Ana", "what": "edited", "why": "Ünal"}
    row = rows.event_row(4, told, '{"a": "b"}', Link("26-0001", 2, "d" * 64, "p" * 64), "h" * 64)
    return {**dict(zip(schema.EVENTS.names, row, strict=True)), **changes}


def test_a_claim_as_lists_show_it_comes_back_from_its_row():
    kept = the_row(events=FILED)
    row = rows.claim_row([kept[name] for name in ListedClaim._fields])
    assert (row.number, row.revision, row.state, row.filed) == ("26-0001", 7, "filed", dt.date(2026, 3, 1))
    assert (row.claimed, row.outstanding, row.currency) == (Decimal("150.00"), Decimal("150.00"), "CAD")


@pytest.mark.parametrize("events", [(), FILED])
def test_every_field_of_a_listed_claim_is_a_column_and_comes_back(events):
    summary = SUMMARY.model_copy(update={"approval_wanted": True})
    claim = an_entry(approval={"expires": "2026-03-10"}, dates__repaired=None).claim
    row = listed(claim, 7, summary, stood(stand(events)))
    kept = named(schema.CLAIMS, rows.claim_values(claim, 7, summary, rows.standing_columns(stand(events))))
    assert rows.claim_row([kept[name] for name in ListedClaim._fields]) == row


@pytest.mark.parametrize(
    ("verdict", "case", "events", "asks"),
    [
        ("not covered", "goodwill", (), "yes"),
        ("not covered", "repair", (), None),
        ("covered", "goodwill", (), None),
        ("undecided", "goodwill", (), None),
        ("not covered", "goodwill", FILED, None),
    ],
)
def test_a_draft_out_of_cover_asks_a_favour_where_it_says_so(verdict, case, events, asks):
    summary = SUMMARY.model_copy(update={"verdict": verdict})
    assert the_row(summary, events, case=case)["asks_goodwill"] == asks


def test_where_a_claim_stands_and_its_summary_are_kept_as_said_and_no_more():
    row = the_row(events=[happened("opened")])
    assert (row["standing"], json.loads(row["digest"]).keys()) == ('{"opened":"2026-03-01"}', SUMMARY.model_fields_set)


def test_a_claim_is_found_by_the_makers_number_as_numbers_are_compared_and_by_its_shop_where_it_has_them():
    named = the_row(events=[happened("opened", shop="ashby"), happened("filed", reference="R-7 b", claimed="1")])
    assert (named["reference_word"], named["shop"]) == ("r7b", "ashby")
    assert [the_row(events=FILED)[name] for name in ("reference_word", "shop")] == [None, None]


def test_before_filing_what_is_claimed_is_what_the_claim_comes_to():
    row = the_row()
    assert (row["claimed"], row["currency"]) == ("159.70", "USD")


def test_the_last_day_to_file_stands_on_drafts_alone():
    summary = SUMMARY.model_copy(update={"file_by": dt.date(2026, 3, 31)})
    assert (the_row(summary)["file_by"], the_row(summary, FILED)["file_by"]) == ("2026-03-31", None)


def test_a_unit_without_serial_numbers_has_a_row():
    row = the_row(unit__serials=[])
    assert (row["serial"], rows.serial_rows(a_claim(unit__serials=[]))) == ("", [])


def test_serial_numbers_that_differ_in_writing_alone_are_one():
    serials = [{"role": "unit", "value": "HC70-1"}, {"role": "Unit", "value": "hc701"}]
    assert rows.serial_rows(a_claim(unit__serials=serials)) == [("26-0001", "unit", "hc701", "short block")]


def test_a_claim_is_looked_up_by_what_is_on_its_shelf_and_what_was_put_in():
    row = the_row(held=HELD, parts=[{"number": "70-1180", "name": "STRASSE"}], owner__name="Straße")
    words = row["words"].split()
    assert [words.count(word) for word in ("b", "3", "1180", "strasse")] == [1, 1, 1, 2]


def test_a_part_nobody_moved_is_held():
    claim, standing = a_claim(held=HELD), stand([happened("part called back", part="2", send_by="2026-03-20")])
    found = [(row[1], row[4], row[5], row[6], row[8]) for row in rows.held_rows(claim, standing, SUMMARY)]
    assert found == [(1, "B-3", "b 3", "held", None), (2, "", "", "called back", "2026-03-20")]


@pytest.mark.parametrize(
    ("repaired", "until"), [("2026-01-31", "2026-02-28"), ("2024-01-31", "2024-02-29"), (None, None)]
)
def test_a_hold_of_a_month_ends_with_a_short_month(repaired, until):
    summary = SUMMARY.model_copy(update={"hold_for": "P1M", "hold_of": "repaired"})
    claim = a_claim(held=[{"part": "short block"}], dates={"presented": "2024-01-02", "repaired": repaired})
    assert rows.held_rows(claim, Standing(), summary)[0][9] == until


@pytest.mark.parametrize("taken", ["", "2026-02-28T23:59:59", "2026-03-01T00:00:00+00:00"])
def test_a_file_comes_back_from_its_row(taken):
    file = KeptFile("photos/Größe 1.jpg", "ab" * 32, 0, dt.datetime.fromisoformat(taken) if taken else None)
    row = rows.file_rows("26-0001", [file])[0]
    assert rows.kept_file(dict(zip(("claim", *KeptFile._fields), row, strict=True))) == file


def test_what_a_history_proves_is_the_document_the_digest_and_the_files_by_path():
    claim, files = a_claim(), [kept("photos/b.jpg", "b" * 64), kept("photos/a.jpg", "a" * 64)]
    whole = rows.proven_text(*rows.revision_row(claim, 1, files, '{"plan":"p"}', "5a17")[2:])
    seen = f"1000\t2026-03-01T08:00:00+00:00\t{'f0' * 8}"
    listed = f"{'a' * 64}  photos/a.jpg\t{seen}\n{'b' * 64}  photos/b.jpg\t{seen}"
    assert whole == f'{claim.model_dump_json(exclude_unset=True)}\n{{"plan":"p"}}\n{listed}\n5a17'


def test_without_files_the_document_and_the_digest_are_proved():
    assert rows.proven_text("{}", "", '{"plan":"p"}') == '{}\n{"plan":"p"}'


def test_of_a_revision_that_carries_no_digest_the_rest_is_proved():
    assert rows.proven_text("{}", "ab  a.jpg", None) == "{}\nab  a.jpg"


def test_facts_are_kept_in_one_order_and_in_their_own_letters():
    assert rows.facts_text({"b": "é", "a": '"'}) == '{"a": "\\"", "b": "é"}'


def test_an_event_comes_back_from_its_row():
    event = rows.event_of(an_event_row())
    assert (event.claim, event.on, event.why, event.facts) == ("26-0001", dt.date(2026, 2, 28), "Ünal", {"a": "b"})


def test_an_event_keeps_the_offset_it_was_recorded_with():
    assert rows.event_of(an_event_row()).at.isoformat() == "2026-03-01T09:00:00-05:00"


def test_an_events_text_is_not_cleaned_so_that_a_change_shows():
    assert rows.event_of(an_event_row(why=" \x07 ")).why == " \x07 "


@pytest.mark.parametrize(
    ("change", "says"),
    [
        ({"facts": "[]"}, "the facts of an event are texts"),
        ({"facts": '{"amount": 5}'}, "the facts of an event are texts"),
        ({"facts": "{"}, "property name"),
        ({"at": "noon"}, "noon"),
        ({"on_day": "2026-02-30"}, "day"),
    ],
    ids=["a list", "a number", "no JSON", "no time", "no day"],
)
def test_an_event_overwritten_by_nonsense_is_none(change, says):
    with pytest.raises(ValueError, match=says):
        rows.event_of(an_event_row(**change))


def test_the_document_of_a_claim_says_what_was_written_and_no_more():
    document = json.loads(rows.revision_row(a_claim(), 1, [], "{}", "")[2])
    assert ("approval" in document, "format" in document, document["unit"]["hours"]) == (False, False, "100")


NAMED = SUMMARY.model_copy(update={"maker": "tessaly", "maker_name": "Tessaly Pumps"})


def test_a_maker_is_shown_as_its_plan_names_it_and_found_by_each_of_its_words():
    row = the_row(NAMED, maker="Tessaly")
    assert (row["maker"], row["maker_word"]) == ("Tessaly Pumps", "tessaly\ntessaly pumps")
    assert "pumps" in row["words"].split()


def test_a_digest_of_before_leaves_the_row_as_it_was():
    row = the_row(maker="Tessaly")
    assert (row["maker"], row["maker_word"]) == ("Tessaly", "tessaly")
