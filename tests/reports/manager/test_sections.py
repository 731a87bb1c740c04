import datetime as dt
from decimal import Decimal

import pytest
from filed import FiledClaim
from reported_claims import TERMS, a_report, every_table, paid, shelved, told, waiting

from claimpack.core.events.events import Event
from claimpack.core.payment.payment_dates import CHECK
from claimpack.reports.manager.sections import report_of


def section(key, **changes):
    return next(part for part in a_report(**changes).sections if part.key == key)


def test_what_to_do_stands_before_what_there_is_to_learn():
    assert [part.key for part in a_report().sections] == [
        "amounts",
        "first",
        "outstanding",
        "held",
        "speed",
        "months",
        "lost",
        "recovery",
        "labour",
        "refusals",
        "repeats",
    ]


def test_every_picture_has_a_table_beside_it():
    assert all(part.tables for part in a_report().sections if part.charts)


def test_without_anything_to_show_there_is_a_sentence_and_no_picture():
    assert [(part.charts, part.tables, bool(part.finding)) for part in report_of(told()).sections] == [
        ((), (), True)
    ] * 11


def test_one_currency_is_said_once_above_the_table():
    table = section("outstanding").tables[0]
    assert table.caption == "Outstanding, USD, by days since the last filing"
    assert "Currency" not in [column.heading for _, column in table.visible()]


def test_two_currencies_have_a_picture_each_and_a_column():
    found = section("outstanding", owed=(FiledClaim("1"), FiledClaim("2", currency="CAD")))
    assert {chart.key for chart in found.charts} == {"outstanding-usd", "outstanding-cad"}
    assert "Currency" in [column.heading for _, column in found.tables[0].visible()]


def test_two_currencies_are_totalled_apart():
    found = section("outstanding", owed=(FiledClaim("1"), FiledClaim("2", currency="CAD")))
    assert [row[-1] for row in found.tables[0].totals] == [Decimal("100.00"), Decimal("100.00")]


def test_two_currencies_have_their_months_in_tables_of_their_own():
    tables = section("months", claims=(paid("1"), paid("2", currency="CAD"))).tables
    assert [table.name for table in tables] == ["claimed-and-paid-cad", "claimed-and-paid-usd"]


def test_months_with_claims_in_fewer_than_three_are_not_drawn():
    # between June and January lie months in which nothing was claimed
    months = (dt.date(2026, 1, 10), dt.date(2025, 6, 10), dt.date(2026, 2, 10))
    claims = [paid(f"{n}", filed=filed) for n, filed in enumerate(months)]
    drawn = [len(section("months", claims=tuple(some)).charts) for some in (claims[:2], claims)]
    assert drawn == [0, 1]


def test_a_month_without_claims_has_no_row():
    claims = (paid("1", filed=dt.date(2025, 6, 10)), paid("2", filed=dt.date(2026, 1, 10)))
    assert [row[0] for row in section("months", claims=claims).tables[0].rows] == ["2026-01", "2025-06"]


def test_who_owes_most_is_the_title_of_the_picture():
    owed = (FiledClaim("1"), FiledClaim("2", maker="Tessaly", outstanding=Decimal(300)))
    assert section("outstanding", owed=owed).charts[0].title == "Tessaly owes most, 300.00 USD"


def test_makers_that_owe_equally_much_all_owe_most():
    owed = (FiledClaim("1"), FiledClaim("2", maker="Tessaly"))
    assert section("outstanding", owed=owed).charts[0].title == "halden and Tessaly owe most, 100.00 USD each"


def test_more_makers_than_a_picture_holds_are_put_together():
    owed = tuple(FiledClaim(f"{place}", maker=f"Maker {place}") for place in range(20))
    words = [getattr(shape, "said", "") for shape in section("outstanding", owed=owed).charts[0].draw(500).shapes]
    assert "9 other makers" in words


def test_rows_left_out_are_counted():
    owed = tuple(FiledClaim(f"26-{place:04}") for place in range(40))
    table = section("first", owed=owed).tables[0]
    assert "12 of 40" in table.rest()


def test_a_claim_whose_receipt_is_not_noted_carries_a_mark():
    terms = TERMS.model_copy(update={"answer_from": "received"})
    found = section("first", owed=(FiledClaim(received=None),), terms=terms)
    assert found.tables[0].rows[0][2].endswith(" *")
    assert any(note.startswith("* The day of receipt is not noted") for note in found.notes)


def test_the_section_of_the_law_is_cited_where_its_dates_are():
    assert section("first").notes == (
        "us-tx: Tex. Bus. & Com. Code 57.253.",
        CHECK,
    )


def test_a_refusal_is_told_with_its_reason():
    refused = Event.model_construct(
        claim="1", what="answered", on=dt.date(2026, 2, 1), why="No plate", facts={"answer": "refused", "form": "yes"}
    )
    found = section("refusals", claims=(waiting("1"),), answers=(refused,))
    assert found.tables[0].rows == [("No plate", "Halden", 1, 0, 1, 1, "100.00 USD")]


def test_where_no_refusal_is_for_form_the_picture_says_so():
    refused = Event.model_construct(
        claim="1", what="answered", on=dt.date(2026, 2, 1), why="Wear", facts={"answer": "refused"}
    )
    title = section("refusals", claims=(waiting("1"),), answers=(refused,)).charts[0].title
    assert title.startswith("1 refusal ")


def test_a_part_called_back_says_by_when():
    part = shelved(state="called back", send_by=dt.date(2026, 3, 4))
    table = next(table for table in section("held", held=(part,)).tables if table.name == "parts-to-send")
    assert table.rows[0][-1] == dt.date(2026, 3, 4)


def test_a_part_better_kept_says_why():
    tables = section("held", held=(shelved(rule="r", doubt="the claim is filed with 5.00 USD outstanding"),)).tables
    assert [(table.name, table.rows[0][-1]) for table in tables[1:]] == [
        ("parts-better-kept", "the claim is filed with 5.00 USD outstanding")
    ]


def test_a_unit_that_came_back_names_both_claims():
    claims = (paid("1"), paid("2", presented=dt.date(2026, 2, 1)))
    assert "1, 2" in section("repeats", claims=claims).tables[0].rows[0]


def test_a_unit_with_many_claims_names_the_first_and_counts_the_rest():
    claims = tuple(paid(f"{place:03}") for place in range(300))
    assert "000, 001, 002, 003, 004 and 295 more" in section("repeats", claims=claims).tables[0].rows[0]


def test_the_share_paid_is_a_number():
    claims = (*(paid(f"{n}") for n in range(5)), *(waiting(f"{n}") for n in range(5, 10)))
    assert section("speed", claims=claims).tables[0].rows[1][:2] == (30, Decimal("50.0"))


def test_no_curve_is_drawn_from_fewer_than_five_payments():
    found = section("speed", claims=(*(paid(f"{n}") for n in range(4)), waiting("5")))
    assert (found.charts, found.tables[0].rows) == ((), [(30, 4, 1)])


def test_too_few_claims_of_a_maker_are_said():
    notes = " ".join(section("speed", claims=tuple(paid(f"{n}") for n in range(5))).notes)
    assert ("10 claims" in notes, "Halden" in notes) == (True, True)


NO_ROOM_ON_A_PHONE = {
    "what-to-do-first": ["Maker", "Days late", "First filed", "Filed", "Age"],
    "outstanding": ["Claims", "0–30 days", "31–60 days", "61–90 days"],
    "held-parts": ["0–30 days", "31–60 days", "61–90 days"],
    "parts-to-send": ["Unit", "Since"],
    "parts-that-may-go": ["Unit", "Since"],
    "parts-better-kept": ["Unit", "Since"],
    "parts-not-found": ["Unit", "Since"],
    "payments-so-far": [],
    "days-to-payment": ["From", "To"],
    "days-to-payment-by-maker": ["Open"],
    "claimed-and-paid": ["Claims", "Accepted", "Written off", "Not accepted", "Paid over"],
    "lost-by-cause": [],
    "recovery": ["Claims", "Claimed", "Paid", "Still owed", "Recovered, %"],
    "labour-rate-against-retail": ["At the maker's rate", "At the shop's own"],
    "technicians": ["Claims", "Hours claimed", "Labour claimed"],
    "refusals": ["Makers", "Form", "Substance", "Claims"],
    "repeats-by-model": ["First", "Last", "Claims", "Failed again"],
    "units-that-came-back": ["Model", "Claims", "Last"],
}
ONLY_IN_A_SPREADSHEET = {
    "what-to-do-first": {
        *("Terms", "Section", "State", "Answer by", "Accepted by silence on", "Refused by silence on"),
        *("Audit reached to", "Pay by", "Send again by", "Day of receipt not noted"),
    },
    "claimed-and-paid": {"Paid over"},
}


def test_every_table_leaves_out_on_a_phone_what_there_is_no_room_for():
    columns = {name: table.columns for name, table in every_table().items()}
    assert {name: [one.heading for one in some if not one.narrow] for name, some in columns.items()} == (
        NO_ROOM_ON_A_PHONE
    )


@pytest.mark.parametrize("name", NO_ROOM_ON_A_PHONE)
def test_a_person_is_shown_every_column_but_what_is_for_a_spreadsheet_alone(name):
    hidden = {column.heading for column in every_table()[name].columns if not column.shown} - {"Currency"}
    assert hidden == ONLY_IN_A_SPREADSHEET.get(name, set())


@pytest.mark.parametrize("name", NO_ROOM_ON_A_PHONE)
def test_numbers_stand_at_the_right_of_their_columns_and_words_at_the_left(name):
    table = every_table()[name]
    for place, column in enumerate(table.columns):
        cells = [row[place] for row in (*table.rows, *table.totals)]
        # what begins a row stands at the left, and amounts of refusals are words where there are several currencies
        numbers = place > 0 and any(isinstance(cell, int | Decimal) for cell in cells)
        assert (column.heading, column.right) == (column.heading, numbers or column.heading == "Claimed")


def test_where_rows_of_several_shops_are_left_out_the_command_lists_every_shop():
    claims = [FiledClaim(f"K26-{nth:04}") for nth in range(20)]
    report = report_of(told((), owed=claims)._replace(whose=dict.fromkeys([one.number for one in claims], "kettle")))
    rest = [table.rest() for section in report.sections for table in section.tables if "claimpack" in table.rest()]
    assert rest
    assert all("--all-shops" in one for one in rest)
