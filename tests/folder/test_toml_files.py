from __future__ import annotations

from datetime import date
from decimal import Decimal

import pytest

from claimpack.core.pricing.retail import Retail
from claimpack.errors import BadInput, NotFound
from claimpack.folder.toml_files import parse_toml, read_record, read_toml


def test_a_number_with_a_point_keeps_every_digit():
    keys = parse_toml("rate = 92.10\nfine = 0.1\nwhole = 3", "x")
    assert (str(keys["rate"]), keys["fine"], keys["whole"]) == ("92.10", Decimal("0.1"), 3)


def test_a_date_is_a_date():
    assert parse_toml("since = 2024-02-29", "x")["since"] == date(2024, 2, 29)


def test_an_empty_file_has_no_keys(tmp_path):
    (tmp_path / "shop.toml").write_bytes(b"")
    assert read_toml(tmp_path / "shop.toml") == {}


@pytest.mark.parametrize("content", [b'\xef\xbb\xbfname = "Z\xc3\xbcrich"\r\n', b'name = "Z\xc3\xbcrich"'])
def test_a_byte_order_mark_and_line_ends_of_windows_do_no_harm(tmp_path, content):
    (tmp_path / "shop.toml").write_bytes(content)
    assert read_toml(tmp_path / "shop.toml") == {"name": "Zürich"}


def test_another_encoding_is_refused_with_its_line(tmp_path):
    (tmp_path / "shop.toml").write_bytes('phone = ""\nname = "Zürich"'.encode("cp1252"))
    with pytest.raises(BadInput, match=r"shop\.toml, line 2: the text is not in UTF-8"):
        read_toml(tmp_path / "shop.toml")


def test_a_file_that_is_not_there_is_not_found(tmp_path):
    with pytest.raises(NotFound, match=r"shop\.toml: there is no such file"):
        read_toml(tmp_path / "shop.toml")


@pytest.mark.parametrize(
    "text",
    [
        "name = unquoted",
        'name = "a"\nname = "b"',
        "[a]\n[a]",
        "unit = {x = 1, x = 2}",
        "x = '\x00'",
    ],
    ids=["no quotes", "key twice", "table twice", "key twice in a line", "control character"],
)
def test_what_is_no_toml_names_the_file_and_what_to_look_for(text):
    with pytest.raises(BadInput, match=r"^shop\.toml: ") as caught:
        parse_toml(text, "shop.toml")
    assert "given twice" in caught.value.do
    assert "in quotes" in caught.value.do


@pytest.mark.parametrize(
    ("text", "begins"),
    [
        ("a = 1\nb =\nc = 2", "line 2: b ="),
        ('a = 1\nb = """x\nc = 2\n', 'line 2: b = """x'),
        ("a = 1\nb = [\n1,\n", "line 2: b = ["),
        ("a = 1\n\nsomething else\nb = 2", "line 3: something else"),
        ('a = """\nb =\n"""\nc = [', "line 4: c = ["),
        ("something else", "line 1: something else"),
        ("a = 1\n[b]\nc = 1\n[b]\nd = 1", "line 4: [b]"),
    ],
    ids=["no value", "text not closed", "list not closed", "no key", "a text like a key", "the first line", "twice"],
)
def test_the_line_that_is_wrong_is_shown_also_where_the_text_ends_inside_it(text, begins):
    with pytest.raises(BadInput) as caught:
        parse_toml(text, "shop.toml")
    assert caught.value.why == f"It begins on {begins}"


@pytest.mark.parametrize(
    "day", ["2025-13-99", "2026-02-30", "2026-2-5", "14.03.2025", "14/03/2025", "2026/02/05", "2026-02-30T09:10:00"]
)
def test_a_date_that_cannot_be_is_told_with_its_line(day):
    with pytest.raises(BadInput, match=rf"^shop\.toml: {day[:10]} is not a date such as 2026-02-05$") as caught:
        parse_toml(f"a = 1\nday = {day}  # bought\n", "shop.toml")
    assert caught.value.why == f"It begins on line 2: day = {day}  # bought"


def test_a_date_given_twice_is_not_called_impossible():
    with pytest.raises(BadInput) as caught:
        parse_toml("day = 2026-02-05\nday = 2026-02-05", "shop.toml")
    assert "given twice" in caught.value.do


@pytest.mark.parametrize(
    "text",
    [f"a = {'9' * 5000}", "a = 1e9999999999999999999", f"a = {'[' * 3000}"],
    ids=["digits", "exponent", "nesting"],
)
def test_what_nobody_writes_by_hand_is_refused(text):
    with pytest.raises(BadInput, match="nobody would write by hand"):
        parse_toml(text, "shop.toml")


def test_a_record_with_a_key_that_is_not_known_names_file_and_key(tmp_path):
    (tmp_path / "retail.toml").write_text("taxes = 0.05")
    with pytest.raises(BadInput, match=r"retail\.toml: key taxes is not known\. Did you mean tax\?"):
        read_record(Retail, tmp_path / "retail.toml")


@pytest.mark.parametrize(
    "text",
    [f"a{'.a' * 100_000} = 1", f"[{'a.' * 100_000}a]", f"x = {{a{'.a' * 100_000} = 1}}", "\n" * 100_001],
    ids=["a key", "a table", "a key inside", "lines"],
)
def test_what_would_keep_the_reader_busy_is_refused_unread(text):
    with pytest.raises(BadInput, match="nobody would write by hand"):
        parse_toml(text, "claim.toml")


def test_points_in_texts_and_remarks_are_no_parts_of_keys():
    dots = "." * 200
    assert parse_toml(f"a = \"{dots}\"  # {dots}\nb = '{dots}'", "claim.toml") == {"a": dots, "b": dots}


def test_as_many_lines_and_as_many_parts_of_a_key_as_may_be_are_read():
    longest = "a." * 64 + "a"
    assert parse_toml("\n" * 100_000, "claim.toml") == {}
    assert parse_toml(f"{longest} = 1  # {longest}.a", "claim.toml").keys() == {"a"}
    with pytest.raises(BadInput):
        parse_toml(f"{longest}.a = 1", "claim.toml")


@pytest.mark.parametrize(("long", "shown"), [(60, "x" * 60), (61, "x" * 60 + "...")])
def test_of_a_long_line_that_is_wrong_the_beginning_is_shown(long, shown):
    with pytest.raises(BadInput) as caught:
        parse_toml("x" * long, "claim.toml")
    assert caught.value.why == f"It begins on line 1: {shown}"


def test_line_ends_of_a_machine_of_old_are_refused_with_a_line():
    with pytest.raises(BadInput) as caught:
        parse_toml("a = 1\rb = 2", "claim.toml")
    assert caught.value.why == "It begins on line 2: b = 2"
