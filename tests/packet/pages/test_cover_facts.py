from __future__ import annotations

import pytest
from builders import a_claim
from drawn_packets import a_draft, a_layout, draw, reader

from claimpack.packet.pages.cover_facts import dates, owner_facts, shown_on_cover, unit_facts


def test_the_unit_is_told_by_model_kind_serials_use_and_hours():
    assert unit_facts(a_draft()) == [
        ("Model", "CS-70"),
        ("Kind", "cut-off saw"),
        ("Serial (unit)", "HC70-1"),
        ("Serial (engine)", "E70-1"),
        ("Use", "professional"),
        ("Hour meter", "100 h"),
    ]


@pytest.mark.parametrize(
    ("meter", "hours", "said"),
    [(False, None, "the unit has none"), (True, None, "not noted"), (None, "12.5", "12.5 h")],
    ids=["no meter", "no reading", "reading alone"],
)
def test_the_hour_meter_is_told_as_far_as_it_is_known(meter, hours, said):
    assert ("Hour meter", said) in unit_facts(a_draft(a_claim(unit__meter=meter, unit__hours=hours)))


def test_serials_beyond_five_share_a_line():
    serials = [{"role": f"r{n}", "value": f"S{n}"} for n in range(7)]
    assert unit_facts(a_draft(a_claim(unit__serials=serials)))[-3] == ("Serial (…)", "r5 S5; r6 S6")


def test_dates_that_are_not_given_are_left_out_but_for_the_three_every_claim_needs():
    found = dates(a_draft(a_claim(dates={"presented": "2026-02-05"})))
    assert found == [("Failed", "none given"), ("Presented", "2026-02-05"), ("Repaired", "none given")]


def test_a_unit_that_was_never_registered_says_so():
    assert ("Registered", "never") in dates(a_draft(a_claim(dates__never_registered=True)))


def test_an_owner_without_a_name_is_told_as_not_given():
    assert owner_facts(a_draft(a_claim(owner=None)))[0] == ("Name", "none given")


def test_words_for_use_are_the_layouts():
    assert ("Uso", "profesional") in unit_facts(a_draft(layout=a_layout("carta-a4")))


def test_roles_of_serial_numbers_are_said_in_the_layouts_words():
    assert ("Serie (motor)", "E70-1") in unit_facts(a_draft(layout=a_layout("carta-a4")))


def test_a_text_too_long_for_the_cover_ends_in_a_mark():
    assert shown_on_cover("a" * 500).endswith("a…")


def test_a_long_mail_address_is_broken_before_its_sign():
    mail = "warranty.desk@a-name-that-is-rather-long.example.com"
    assert ("Email", "warranty.desk\n@a-name-that-is-rather-long.example.com") in owner_facts(
        a_draft(a_claim(owner__email=mail))
    )


def test_a_mail_address_a_little_too_long_is_set_smaller_and_stays_whole():
    mail = "bookings@copperbeech-hire.example.com"
    said = reader(draw(a_claim(owner__email=mail), layout=a_layout(sections=["cover"]))).pages[0].extract_text()
    assert mail in said.split()
