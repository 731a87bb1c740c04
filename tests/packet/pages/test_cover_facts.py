from __future__ import annotations

import pytest
from builders import a_claim
from drawn_packets import a_draft, a_layout, draw, reader
from inked import page_of
from printed import overprinted

from claimpack.packet.pages.cover_facts import dates, failure_facts, owner_facts, shown_on_cover, unit_facts


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


def told(**changes) -> str:
    """What is said of the failure, the approval and the proof."""
    draft = a_draft(a_claim(**changes))
    return " ".join(page_of(failure_facts(draft), draft.width).get_textpage().get_text_range().split())


@pytest.mark.parametrize(
    ("approval", "said"),
    [
        (None, "none given"),
        ({"up_to": "450.00"}, "none given"),
        ({"number": "A-1"}, "A-1 Proof"),
        ({"by": "the desk"}, "by the desk"),
        ({"on": "2026-02-10"}, "given 2026-02-10"),
        ({"state": "refused"}, "refused"),
    ],
)
def test_an_approval_is_told_by_whatever_is_known_of_it(approval, said):
    assert f"Prior approval {said}" in told(approval=approval)


def test_what_is_not_given_of_a_failure_is_told_as_that_but_not_of_a_campaign():
    nothing = {"failure__component": None, "failure__defect": None, "failure__part": None}
    assert told(**nothing).count("none given") == 3
    assert told(case="campaign", campaign="HC-1", **nothing).count("none given") == 1
    assert "campaign none given" in told(case="campaign")


@pytest.mark.parametrize(("count", "cut"), [(3, False), (4, True)])
def test_three_earlier_repairs_are_told_and_more_are_hinted_at(count, cut):
    said = told(earlier=[{"component": f"coil {n}", "repaired": "2025-05-01"} for n in range(count)])
    assert [f"coil {n}" in said for n in range(count)] == [True] * 3 + [False] * (count - 3)
    assert ("…" in said) == cut


@pytest.mark.parametrize(("count", "cut"), [(4, False), (5, True)])
def test_four_failures_are_told_and_more_are_hinted_at(count, cut):
    failures = [{"component": "short block", "cause": "Worn."} for _ in range(count)]
    said = told(failure=failures)
    assert [f"Failure {n}" in said for n in (4, 5)] == [True, False]
    assert ("…" in said) == cut


def test_a_failure_of_several_without_a_component_is_told_as_that():
    assert "Failure 2 none given." in told(failure=[{"component": "short block"}, {"cause": "Bent."}])


@pytest.mark.parametrize(("first", "said"), [(True, "yes"), (False, "no"), (None, None)])
def test_whether_it_is_the_first_owner_is_told_where_it_is_known(first, said):
    assert dict(owner_facts(a_draft(a_claim(owner__first_owner=first)))).get("First owner") == said


@pytest.mark.parametrize("paper", ["letter", "carta-a4"])
def test_facts_however_long_stay_in_their_columns(paper):
    long, mail = "mm " * 45, "x" * 60 + "@" + "y" * 60 + ".example.com"
    claim = a_claim(
        unit__model=long,
        unit__kind=long,
        owner={"name": long, "address": long, "email": mail},
        failure__component=long,
        failure__part={"name": long},
        approval={"number": long, "by": long},
    )
    assert overprinted(draw(claim, layout=a_layout(paper, sections=["cover"])).pdf) == []
