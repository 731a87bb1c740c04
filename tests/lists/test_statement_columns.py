from decimal import Decimal

import pytest
from statement_rows import HEAD, read

from claimpack.errors import BadInput
from claimpack.lists.statement_columns import StatementColumns, heading_row, with_columns


def test_columns_are_taken_by_their_headings_below_whatever_stands_above():
    found = read(["Halden Tools"], ["Credit memo no.:", "CM-4471"], HEAD, ["26-0001", "R-7", "", "$1,150.00", "labour"])
    row = found.rows[0]
    assert (found.memo, row.place, row.number, row.reference, row.amount, row.because) == (
        *("CM-4471", 4, "26-0001", "R-7"),
        *(Decimal("1150.00"), "labour"),
    )


def test_columns_of_a_maker_are_those_that_were_said_the_rest_by_their_headings():
    known = with_columns(None, ["amount=Pay this"])
    found = read(["Claim", "Amount", "Pay this"], ["26-0001", "200.00", "150.00"], known=known)
    assert (found.rows[0].amount, found.columns) == (Decimal("150.00"), {"number": "Claim", "amount": "Pay this"})


def test_a_column_that_was_said_must_be_there():
    with pytest.raises(BadInput):
        read(HEAD, ["26-0001", "", "", "1", ""], known=StatementColumns(columns={"amount": "Pay this"}))


def test_a_column_says_what_is_known_alone():
    with pytest.raises(BadInput, match="'amuont' is nothing"):
        with_columns(None, ["amuont=Net"])


def test_a_heading_may_name_the_currency_that_is_read():
    assert read(["Claim", "Amount (USD)"], ["26-0001", "150.00"]).rows[0].amount == Decimal("150.00")


def test_what_is_paid_is_taken_before_a_bare_amount():
    assert read(["Claim", "Amount", "Amount paid"], ["26-0001", "150.00", "100.00"]).columns["amount"] == "Amount paid"


KEPT = {"amount": "Credited", "number": "Claim no", "serial": "Serial", "because": "Remarks"}


def test_a_remembered_column_may_be_missing_where_the_money_and_a_claim_are_there():
    found = read(["Serial", "Credited"], ["HC70-1", "150.00"], known=StatementColumns(columns=KEPT))
    assert found.columns == {"serial": "Serial", "amount": "Credited"}


def test_money_is_taken_from_no_other_column_than_the_remembered_one():
    with pytest.raises(BadInput, match="'Credited'"):
        read(["Claim no", "Amount paid"], ["26-0001", "150.00"], known=StatementColumns(columns=KEPT))


def test_a_column_may_be_taken_away():
    known = with_columns(StatementColumns(columns=KEPT), ["serial="])
    assert "serial" not in read(["Claim no", "Serial", "Credited"], ["26-0001", "X", "1.00"], known=known).columns


def test_where_no_column_is_what_is_paid_that_alone_is_asked_for_and_the_others_are_told():
    with pytest.raises(BadInput, match="no column is known for what is paid") as told:
        read(["Claim no", "Serial", "Given"], ["26-0001", "HC70-1", "150.00"])
    assert "Read: 'Claim no', 'Serial'. Not read: 'Given'." in told.value.why


def test_where_nothing_names_a_claim_that_alone_is_asked_for():
    with pytest.raises(BadInput, match=r"no column is known for what a claim goes by$"):
        read(["Owner", "Amount paid"], ["A. Customer", "150.00"])


def test_a_column_that_was_said_to_be_one_thing_is_not_guessed_to_be_another():
    known = with_columns(None, ["reference=Claim"])
    assert read(["Claim", "Amount"], ["R-7", "1.00"], known=known).columns == {"reference": "Claim", "amount": "Amount"}


def test_a_statement_may_have_no_other_columns_than_those_that_were_said():
    known = with_columns(None, ["reference=Which", "amount=Pay this"])
    cells = [(1, ["Which", "Pay this"]), (2, ["R-7", "1.00"])]
    assert heading_row(cells, "memo.csv", known, ("reference", "amount")) == (0, known.columns)


@pytest.mark.parametrize(("key", "told"), [("amuont", "'amount'"), ("xyz", "amount, because, charged back")])
def test_what_a_column_may_say_is_told_the_nearest_where_one_is_near(key, told):
    with pytest.raises(BadInput) as caught:
        with_columns(None, [f"{key}=Net"])
    assert told in caught.value.why
