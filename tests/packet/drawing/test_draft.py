from __future__ import annotations

from datetime import date
from decimal import Decimal

import pytest
from builders import a_claim, a_plan
from drawn_packets import a_draft, a_layout, a_shot

from claimpack.core.values.wording.sentence import say
from claimpack.packet.drawing.draft import day


def test_the_maker_is_named_as_people_know_it():
    assert a_draft(plan=a_plan(maker_name="Halden Works")).maker == "Halden Works"


def test_without_a_plan_the_maker_is_named_as_the_claim_does():
    assert a_draft(a_claim(maker="nobody")).maker == "nobody"


def test_the_serial_is_the_units_own():
    assert a_draft().serial == "HC70-1"


def test_without_one_of_its_own_the_first_serial_stands_for_the_unit():
    assert a_draft(a_claim(unit__serials=[{"role": "engine", "value": "E1"}])).serial == "E1"


def test_a_sentence_is_said_in_the_layouts_language():
    draft = a_draft(layout=a_layout("carta-a4"))
    assert draft.said(say("because.file-by", within_period="P1M", role_word="repaired")) == (
        "El plan da 1 mes desde el día en que se reparó."
    )


@pytest.mark.parametrize(("known", "said"), [(True, "yes"), (False, "no"), (None, "not noted")])
def test_yes_no_and_not_noted_are_three_answers(known, said):
    assert a_draft().yes_or_no(known) == said


def test_money_carries_its_currency():
    assert a_draft().money(Decimal("450.00")) == "450.00 USD"


def test_a_date_is_printed_as_iso_8601_has_it():
    assert (day(date(2026, 2, 5)), day(None, "none")) == ("2026-02-05", "none")


def test_a_picture_is_found_by_its_file():
    shot = a_shot("photos/a.jpg")
    draft = a_draft(photos=[shot])
    assert (draft.picture("photos/a.jpg"), draft.picture("photos/b.jpg")) == (shot, None)
