from datetime import date
from decimal import Decimal

import pytest
from statement_rows import HEAD, READING, read

from claimpack.errors import BadInput
from claimpack.lists.statement_files import read_statement


@pytest.mark.parametrize("text", ["Memo CM-4471", "Statement no: CM-4471", "Remittance # CM-4471"])
def test_the_memo_is_named_above_the_columns(text):
    assert read([text], HEAD, ["26-0001", "", "", "1", ""]).memo == "CM-4471"


@pytest.mark.parametrize(
    ("written", "meant"), [("-20.00", "-20.00"), ("(20.00)", "-20.00"), ("20.00-", "-20.00"), ("20", "20")]
)
def test_what_was_taken_back_is_below_zero_however_books_write_it(written, meant):
    assert read(HEAD, ["26-0001", "", "", written, ""]).rows[0].amount == Decimal(meant)


def test_a_column_of_its_own_may_hold_what_was_taken_back():
    rows = read(["Claim", "Credit", "Debit"], ["26-0001", "150.00", ""], ["26-0002", "", "20.00"]).rows
    assert [row.amount for row in rows] == [Decimal("150.00"), Decimal("-20.00")]


def test_totals_are_no_rows_and_rows_must_come_to_them():
    rows = [HEAD, ["26-0001", "", "", "100.00", ""], ["26-0002", "", "", "50.00", ""]]
    assert len(read(*rows, ["Total", "", "", "150.00", ""]).rows) == 2
    with pytest.raises(BadInput, match=r"come to 150\.00.*says 151\.00"):
        read(*rows, ["Total", "", "", "151.00", ""])


BAD = [
    ([["Name", "Amount"], ["x", "1"]], "no column is known for"),
    ([HEAD, ["26-0001", "", "", "abc", ""]], "row 2, column 'Net Amount'"),
    ([HEAD, ["26-0001", "", "", "10.0051", ""]], "more decimals"),
]


@pytest.mark.parametrize(("rows", "named"), BAD, ids=["no columns", "no amount", "too many decimals"])
def test_what_cannot_be_read_is_refused_and_named(rows, named):
    with pytest.raises(BadInput) as caught:
        read(*rows)
    assert named in " ".join((caught.value.what, *caught.value.problems))


def test_a_point_that_may_part_thousands_is_asked_about():
    with pytest.raises(BadInput) as caught:
        read(HEAD, ["26-0001", "", "", "1.150", ""])
    assert "may be 1150 or 1.15" in caught.value.problems[0]


@pytest.mark.parametrize("written", ["1.234,56", "1,234.56", "$1,234.56", "1234.56"])
def test_an_amount_that_reads_one_way_is_read_whatever_parts_its_thousands(written):
    assert read(HEAD, ["26-0001", "", "", written, ""]).rows[0].amount == Decimal("1234.56")


def test_a_minus_sign_of_print_is_a_minus():
    assert read(HEAD, ["26-0001", "", "", "\N{MINUS SIGN}20.00", ""]).rows[0].amount == Decimal("-20.00")


@pytest.mark.parametrize("nothing", ["", "-", "\N{EN DASH}"])
def test_a_claim_without_an_amount_is_on_the_statement_with_nothing(nothing):
    paid = ["26-0002", "", "", "1.00", ""]
    assert read(HEAD, ["26-0001", "", "", nothing, "wear"], paid).rows[0].amount == 0


def test_the_same_row_twice_is_marked_where_no_total_tells_which_is_meant():
    rows = [HEAD, ["26-0001", "", "", "75.00", ""], ["26-0001", "", "", "75.00", ""]]
    with_total = read(*rows, ["Total", "", "", "150.00", ""])
    assert [[row.same_as for row in found.rows] for found in (read(*rows), with_total)] == [[0, 2], [0, 0]]


@pytest.mark.parametrize(
    "rows",
    [
        [["Claim", "Amount", "Currency"], ["26-0001", "150.00", "EUR"]],
        [["Claim", "Amount (EUR)"], ["26-0001", "150.00"]],
        [["Claim", "Amount"], ["26-0001", ""]],
        [["Claim", "Amount EUR"], ["26-0001", "150.00"]],
        [["Claim", "Paid", "Net"], ["26-0001", "150.00", "140.00"]],
        [["Claim", "Memo", "Amount"], ["26-0001", "CM-1", "150.00"], ["26-0002", "CM-2", "150.00"]],
    ],
    ids=[
        "a column of another currency",
        "a heading of one",
        "no amount at all",
        "one behind it",
        "two columns of what is paid",
        "two memos",
    ],
)
def test_what_could_be_booked_wrongly_is_refused(rows):
    with pytest.raises(BadInput):
        read(*rows)


def test_of_two_memos_the_one_that_was_said_is_read():
    rows = [["Claim", "Memo", "Amount"], ["26-0001", "CM-1", "150.00"], ["26-0002", "CM-2", "90.00"]]
    found = read_statement(list(enumerate(rows, 1)), "memo.csv", None, READING._replace(memo="CM-2"))
    assert ([row.number for row in found.rows], found.memo, found.is_part) == (["26-0002"], "CM-2", True)


ROWS = [HEAD, ["26-0001", "", "", "100.00", ""], ["26-0002", "", "", "50.00", ""]]


def test_a_remark_of_a_claim_may_say_total():
    assert [row.number for row in read(*ROWS, ["26-0003", "", "", "9.00", "total loss"]).rows] == [
        "26-0001",
        "26-0002",
        "26-0003",
    ]


def test_a_row_that_names_neither_claim_nor_amount_is_none_and_one_with_an_amount_is_kept():
    rows = read(*ROWS, ["", "", "", "", "Thank you."], ["", "", "", "7.00", ""]).rows
    assert [(row.number, row.amount) for row in rows[2:]] == [("", Decimal("7.00"))]


def test_a_total_without_an_amount_is_no_total():
    assert len(read(*ROWS, ["Total", "", "", "", ""]).rows) == 2


def test_a_total_may_be_of_what_was_taken_back_alone():
    rows = [["Claim", "Credit", "Debit"], ["26-0001", "", "20.00"], ["26-0002", "30.00", ""]]
    with pytest.raises(BadInput, match=r"come to 10\.00.*says -20\.00"):
        read(*rows, ["Total", "", "20.00"])


@pytest.mark.parametrize("wanted", ["", "CM-1"])
def test_a_file_of_one_memo_is_that_memos_whole(wanted):
    rows = [["Claim", "Memo", "Amount"], ["26-0001", "CM-1", "150.00"], ["26-0002", "", "90.00"]]
    found = read_statement(list(enumerate(rows, 1)), "memo.csv", None, READING._replace(memo=wanted))
    assert (found.memo, len(found.rows), found.is_part) == ("CM-1", 2, False)


def test_the_memo_stands_in_the_cell_after_its_name():
    assert read(["Credit memo", "CM-4471", "page 1"], HEAD, ["26-0001", "", "", "1", ""]).memo == "CM-4471"


DATED = ["Claim", "Paid on", "Amount"]


@pytest.mark.parametrize("written", ["2026-02-20", "2026-02-20 00:00:00", "20 Feb 2026"])
def test_a_row_may_carry_its_day(written):
    assert read(DATED, ["26-0001", written, "150.00"]).rows[0].on == date(2026, 2, 20)


def test_a_day_that_no_calendar_has_is_named():
    with pytest.raises(BadInput) as caught:
        read(DATED, ["26-0001", "2026-02-30", "150.00"])
    assert "row 2, column 'Paid on'" in caught.value.problems[0]
