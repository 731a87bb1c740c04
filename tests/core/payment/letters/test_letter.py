from datetime import date

import pytest

from claimpack.core.payment.letters.letter import Letter, Sender, address_of, as_text

LETTER = Letter(
    sender=Sender(name="Quarry Road", address="18 Quarry Road\nAshby", phone="555-0142"),
    on=date(2026, 3, 19),
    to="Halden",
    subject="Warranty claim 26-0001: request for payment",
    facts=(("Our claim number", "26-0001"), ("Filed on", "2 January 2026")),
    amounts=(("Outstanding", "150.00 USD"),),
    paragraphs=("We filed this claim with you and have no answer from you on record. " * 3,),
    ask="Please pay.",
    closing="With our thanks.",
    small_print="Not legal advice.",
)


def test_no_line_of_the_text_is_too_long_for_a_mail():
    assert max(map(len, as_text(LETTER).split("\n"))) <= 76


def test_the_text_is_in_the_order_it_is_read():
    said = as_text(LETTER)
    read = (
        "Quarry Road",
        "Ashby",
        "555-0142",
        "19 March 2026",
        "To: Halden",
        "26-0001",
        "To whom",
        "150.00",
        "Signature",
    )
    places = [said.index(word) for word in read]
    assert places == sorted(places)


def test_labels_are_set_in_a_column():
    assert "  Our claim number:  26-0001\n  Filed on:          2 January 2026" in as_text(LETTER)


def test_a_number_with_hyphens_is_never_torn():
    said = as_text(LETTER._replace(ask="x" * 66 + " QR-ASHBY-WA."))
    assert "QR-ASHBY-WA." in said.splitlines()


def test_an_address_longer_than_a_line_is_never_torn():
    assert "y" * 90 in as_text(LETTER._replace(ask="y" * 90)).splitlines()


def test_amounts_of_priced_lines_end_where_the_lines_of_the_letter_do():
    rows = (("70-1 Coil", "1", "5.25 USD"), ("Replace block " * 9, "1.6 h", "147.25 USD"))
    said = as_text(LETTER._replace(rows=rows)).splitlines()
    coil, block = (line for line in said if line.endswith(".25 USD"))
    assert (len(coil), coil.startswith("  70-1 Coil, 1  "), len(block)) == (76, True, 76)


@pytest.mark.parametrize(
    ("written", "lines"),
    [
        ("", ()),
        ("1 Mill Lane\n Ashby\n", ("Halden", "1 Mill Lane", "Ashby")),
        ("HALDEN Service\n1 Mill Lane", ("HALDEN Service", "1 Mill Lane")),
    ],
    ids=["none", "without the name", "with it"],
)
def test_an_address_begins_with_the_makers_name_once(written, lines):
    assert address_of("Halden", written) == lines
