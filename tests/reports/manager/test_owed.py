from __future__ import annotations

from datetime import date
from decimal import Decimal

import pytest
from filed import FiledClaim
from reported_claims import TERMS, told

from claimpack.core.payment.refused_rests import RefusedRest
from claimpack.reports.manager.owed import first_section, outstanding_section
from claimpack.reports.manager.section import REST


def owed(*makers, **changes):
    return tuple(FiledClaim(f"26-{index:04}", maker=maker, **changes) for index, maker in enumerate(makers))


def outstanding(*claims):
    return outstanding_section(told(owed=claims))


def drawn_words(chart, width=500):
    return [shape.said for shape in chart.draw(width).shapes if hasattr(shape, "said")]


def first(*claims, **more):
    return first_section(told(owed=claims, **more))


@pytest.mark.parametrize(
    ("filed", "bucket"),
    [
        (date(2026, 1, 30), 3),
        (date(2026, 1, 29), 4),
        (date(2025, 12, 31), 4),
        (date(2025, 12, 30), 5),
        (date(2025, 12, 1), 5),
        (date(2025, 11, 30), 6),
    ],
    ids=["30 days", "31", "60", "61", "90", "91"],
)
def test_an_amount_stands_in_the_column_of_its_age(filed, bucket):
    row = outstanding(FiledClaim(filed=filed)).tables[0].rows[0]
    assert [place for place, cell in enumerate(row[3:7], start=3) if cell] == [bucket]


def test_a_maker_alone_owes_rather_than_owes_most():
    assert outstanding(*owed("Halden")).charts[0].title == "Halden owes 100.00 USD"


@pytest.mark.parametrize(("makers", "bars"), [(12, 12), (13, 12)])
def test_the_thirteenth_maker_shares_the_last_bar(makers, bars):
    words = drawn_words(outstanding(*owed(*(f"Maker {number:02}" for number in range(makers)))).charts[0])
    labels = [word for word in words if word.startswith("Maker") or word.endswith("makers")]
    assert (len(labels), "2 other makers" in labels) == (bars, makers > bars)


def test_makers_put_together_owe_what_they_owe_together():
    words = drawn_words(outstanding(*owed(*(f"Maker {number:02}" for number in range(20)))).charts[0])
    assert words[words.index("9 other makers") + 1] == "900.00 USD"


def test_every_maker_is_in_the_table():
    table = outstanding(*owed(*(f"Maker {number:02}" for number in range(31)))).tables[0]
    assert (len(table.rows), table.rest()) == (31, f"The first 30 of 31 are shown. {REST}")


def test_amounts_are_in_whole_coins_of_their_currency():
    table = outstanding(FiledClaim(currency="JPY", outstanding=Decimal("1204.5"))).tables[0]
    assert table.rows[0][-1] == Decimal(1205)


def test_an_amount_without_a_currency_is_told_without_one():
    found = outstanding(FiledClaim(currency=""))
    assert found.tables[0].caption == "Outstanding, by days since the last filing"
    assert found.charts[0].description.startswith("Outstanding a maker, by days since the last filing")


def test_nothing_outstanding_is_a_sentence():
    found = outstanding()
    assert (found.finding[-1:], found.charts, found.tables, found.notes) == (".", (), (), ())


def test_an_overdue_claim_names_the_day_that_was_missed():
    row = first(FiledClaim(filed=date(2025, 12, 1))).tables[0].rows[0]
    assert (row[3], row[5]) == (date(2026, 2, 14), 15)


@pytest.mark.parametrize(
    ("filed", "by"),
    [
        (date(2026, 1, 14), date(2026, 3, 30)),
        (date(2026, 1, 15), date(2026, 3, 1)),
        (date(2026, 1, 16), date(2026, 3, 2)),
    ],
    ids=["45 days ended yesterday", "they end today", "tomorrow"],
)
def test_once_silence_has_accepted_a_claim_the_day_to_pay_is_the_next(filed, by):
    assert first(FiledClaim(filed=filed)).tables[0].rows[0][3] == by


def test_a_claim_with_time_left_names_the_next_day_and_no_days_late():
    row = first(FiledClaim(filed=date(2026, 2, 28), received=None)).tables[0].rows[0]
    assert (row[3], row[5]) == (date(2026, 4, 14), None)


def test_without_terms_there_is_no_day_and_a_note_says_why():
    found = first_section(told(owed=()))
    without = first_section(_without_terms())
    assert (found.notes, without.tables[0].rows[0][3]) == ((), None)
    assert without.notes == ("Some claims have no payment terms, and so no dates: name them in shop.toml.",)


def _without_terms():
    whole = told(owed=(FiledClaim(),))
    bare = [item._replace(terms="", cites="", dates=type(item.dates)()) for item in whole.pending]
    return whole._replace(pending=bare, terms=())


def test_terms_without_a_section_are_told_by_their_name():
    terms = TERMS.model_copy(update={"cites": ""})
    assert first(FiledClaim(), terms=terms).notes[0] == "us-tx: Texas."


@pytest.mark.parametrize(("currencies", "caption"), [(("USD",), ", USD"), (("USD", "CAD"), ""), (("",), "")])
def test_one_currency_is_said_in_the_caption(currencies, caption):
    claims = [FiledClaim(f"{place}", currency=code) for place, code in enumerate(currencies)]
    said = first(*claims).tables[0].caption.partition(";")[0]
    assert said == f"Filed and not settled, what to do first at the top{caption}"


def test_ages_are_of_days_since_filing_even_where_buckets_count_from_the_due_date():
    whole = told(owed=(FiledClaim(),))
    due = first_section(whole._replace(about=whole.about._replace(ageing="due"))).tables[0].caption
    assert due == first_section(whole).tables[0].caption
    assert due.endswith("age: days since the last filing")


def test_what_was_refused_of_claims_accepted_in_part_is_to_be_decided_first():
    rests = (RefusedRest("26-0007", "Halden", "USD", Decimal("59.70")),)
    assert "59.70 USD refused on 1 claim accepted in part" in first(rests=rests).finding


def test_a_rest_refused_after_silence_is_told_by_itself():
    rest = RefusedRest("26-0007", "Halden", "USD", Decimal("59.70"))
    rests = (rest, rest._replace(claim="26-0008", accepted_by_silence_on=date(2026, 2, 16)))
    told = first(rests=rests).finding
    assert "CLAIM: 26-0008. 59.70 USD" in told
    assert told.endswith("write off: 26-0007.")
