"""Flat lists: RFC 4180, and text that a spreadsheet would take for a formula."""

import csv
import io
from decimal import Decimal

import pytest

from claimpack.lists.ledger_sheets import Sheet, as_csv


def written(*cells):
    """One row as CSV, below a row of headings."""
    headings = [f"c{index}" for index in range(len(cells))]
    return as_csv(Sheet("", headings, [cells])).decode().split("\r\n", 1)[1]


@pytest.mark.source('RFC 4180 section 2(7): "aaa","b""bb","ccc"')
def test_a_double_quote_inside_a_field_is_doubled():
    """C1."""
    assert written('b"bb') == '"b""bb"\r\n'


@pytest.mark.source("RFC 4180 section 2(6)")
@pytest.mark.parametrize("text", ["a,b", 'a"b', "a\r\nb", "a\nb"], ids=["comma", "quote", "CRLF", "LF"])
def test_fields_with_commas_quotes_or_line_breaks_are_enclosed(text):
    """C2."""
    assert written(text) == f'"{text.replace(chr(34), chr(34) * 2)}"\r\n'


@pytest.mark.source("RFC 4180 section 2(1), 2(2), 2(4)")
def test_records_end_in_crlf_and_have_equally_many_fields():
    """C3."""
    content = as_csv(Sheet("", ["a", "b"], [("1", ""), ("", "2")]))
    assert content == b"a,b\r\n1,\r\n,2\r\n"


@pytest.mark.source("RFC 4180 section 2(4): spaces are considered part of a field")
def test_spaces_belong_to_the_field():
    """C3."""
    assert written(" a ", "b") == " a ,b\r\n"


@pytest.mark.source("OWASP ASVS 5, 1.2.10; CWE-1236")
@pytest.mark.parametrize("start", ["=", "+", "-", "@", "\t", "\0"])
def test_text_that_could_be_a_formula_gets_a_single_quote(start):
    """C4."""
    assert next(csv.reader(io.StringIO(written(f"{start}1+1"), newline=""))) == [f"'{start}1+1"]


@pytest.mark.memory
def test_a_carriage_return_in_front_is_made_safe_too():
    """C4, the mark that the OWASP page on CSV injection adds."""
    assert next(csv.reader(io.StringIO(written("\r=1"), newline=""))) == ["'\r=1"]


@pytest.mark.practice
def test_a_negative_number_stays_a_number():
    """C5: the rule for text is for text alone."""
    assert written(Decimal("-12.50")) == "-12.50\r\n"


@pytest.mark.source("secondary pages on CSV injection: quoting alone does not stop a formula")
def test_a_quoted_formula_is_made_safe_all_the_same():
    """C6."""
    assert written('=A1,"x"') == '"\'=A1,""x"""\r\n'


@pytest.mark.source("RFC 4180, read by pandas")
def test_another_reader_finds_the_same_texts():
    texts = ["a,b", 'b"bb', "two\r\nlines", " spaces ", "Łukowska", "0012"]
    content = as_csv(Sheet("", ["text"], [(text,) for text in texts]))
    import pandas as pd  # takes a second to load: only when this test runs

    assert list(pd.read_csv(io.BytesIO(content), dtype=str)["text"]) == texts
