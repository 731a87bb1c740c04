from __future__ import annotations

import pytest

from claimpack.core.values.typed.mail import mail_address


@pytest.mark.parametrize("address", ["claims@halden.example.com", " a.b+c@x.example.org ", "o'neil@x-y.example.com"])
def test_an_address_is_taken_without_blanks_around_it(address):
    assert mail_address(address) == address.strip()


@pytest.mark.parametrize(
    "address",
    [
        "",
        "claims",
        "claims@halden",
        "claims@halden.example.com, other@example.com",
        "Claims <claims@halden.example.com>",
        "claims@halden.example.com;x",
        "cläims@halden.example.com",
        f"{'a' * 250}@x.example.com",
        None,
        3,
    ],
)
def test_what_is_no_single_address_is_refused(address):
    with pytest.raises(ValueError, match="is no mail address such as"):
        mail_address(address)


@pytest.mark.parametrize("mark", ["\n", "\r", "\r\n"])
def test_a_line_break_in_an_address_is_refused_by_name(mark):
    with pytest.raises(ValueError, match="has a line break in it"):
        mail_address(f"claims@halden.example.com{mark}Bcc: other@example.com")


@pytest.mark.parametrize("mark", ["\x0b", "\x85", "\u2028", "\x00", "\t"])
def test_no_other_mark_that_parts_lines_gets_into_an_address(mark):
    with pytest.raises(ValueError, match="no mail address"):
        mail_address(f"claims@halden.example.com{mark}Bcc:other@example.com")


@pytest.mark.parametrize(("length", "is_one"), [(253, True), (254, True), (255, False)])
def test_an_address_has_254_characters_at_most(length, is_one):
    address = f"a@{'x' * (length - len('a@.example.com'))}.example.com"
    try:
        assert (mail_address(address), is_one) == (address, True)
    except ValueError:
        assert not is_one
