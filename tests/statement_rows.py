"""A maker's statement from its rows."""

from datetime import date

from claimpack.lists.statement_files import StatementReading, read_statement

HEAD = ["Claim No", "Our Ref", "Serial", "Net Amount", "Reason"]


READING = StatementReading("USD", "", date(2026, 3, 20))


def read(*rows, known=None, currency="USD"):
    cells = [(place, list(row)) for place, row in enumerate(rows, 1)]
    return read_statement(cells, "memo.csv", known, READING._replace(currency=currency))
