from __future__ import annotations

import pytest

from claimpack.core.lacking import Missing, told_in_short, told_together
from claimpack.core.wording import say

ASKED = say("why.plan-requires")


def a_shot(shot):
    return Missing(say("missing.shot", shot=shot), ASKED)


def ahead(role, on="2026-03-05"):
    return Missing(say("missing.future", role_word=role), say("why.future", date=on, today="2026-03-01"))


def test_things_of_one_kind_and_one_reason_share_a_line():
    proof = Missing(say("missing.proof"), ASKED)
    assert told_together([a_shot("serial plate"), proof, a_shot("whole unit")]) == [
        "photo: serial plate, whole unit. The plan asks for it.",
        "proof of purchase. The plan asks for it.",
    ]


def test_another_reason_has_a_line_of_its_own():
    assert len(told_together([ahead("failed"), ahead("repaired", "2026-03-06")])) == 2


def test_several_dates_are_joined_by_words():
    said = told_together([ahead("failed"), ahead("repaired")])[0]
    assert said.startswith("a date that lies ahead: the day it failed and the day it was repaired. ")


def test_in_short_the_reasons_are_left_out():
    assert told_in_short([a_shot("plate"), ahead("failed"), a_shot("unit")]) == (
        "photo: plate, unit; a date that lies ahead: the day it failed"
    )


@pytest.mark.parametrize(("item", "wrong"), [(a_shot("plate"), False), (ahead("failed"), True)])
def test_what_is_there_and_cannot_stand_is_wrong_and_not_missing(item, wrong):
    assert item.is_wrong is wrong
