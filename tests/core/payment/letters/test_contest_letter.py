from datetime import date

import pytest
from builders import TODAY
from new_events import FILED, OPENED, accepted_in_part, paid

from claimpack.core.events.events import NewEvent
from claimpack.core.events.fold import stand
from claimpack.core.payment.chasing import Chased
from claimpack.core.payment.letters.contest_letter import contest, contested_on
from claimpack.core.payment.letters.letter import Sender, as_text
from claimpack.errors import WrongState


def happened(what, why="", **facts):
    return NewEvent(what=what, on=date(2026, 3, 2), why=why, facts=facts)


def chased(*events):
    return Chased("26-1", "Halden", "CS-70", "HC70-1", stand([OPENED, FILED, *events]), None, "No part.")


def letter(*events, enclosed=("3 photos, on 2 pages",)):
    about = chased(*events)
    return contest(about, contested_on(about, TODAY), "It is open.", Sender(name="Q"), TODAY, enclosed)


REFUSED = happened("answered", "Wear.", answer="refused")


@pytest.mark.parametrize(
    ("events", "against"),
    [
        ([REFUSED], "refusal"),
        ([accepted_in_part("100.00")], "refusal of the rest"),
        (
            [happened("answered", answer="accepted"), paid("159.70"), happened("charged back", amount="50.00")],
            "charge-back",
        ),
    ],
)
def test_what_the_maker_did_is_named(events, against):
    assert letter(*events).subject == f"Warranty claim 26-1: we contest your {against}"


def test_a_refusal_by_silence_is_not_said_to_have_been_written():
    silent = letter(happened("answered", answer="refused", silence="yes"))
    assert "Refused on" not in dict(silent.facts)
    assert "no answer to it from you by 2 March 2026" in silent.paragraphs[0]


def test_the_letter_has_the_grounds_and_the_makers_reason_and_asks_for_no_payment():
    said = " ".join(as_text(letter(REFUSED)).split())
    assert all(part in said for part in ("Our grounds: It is open.", "Wear", "3 photos, on 2 pages"))
    assert "pay" not in letter(REFUSED).ask


def test_nothing_enclosed_is_not_said_to_be():
    assert "enclosed" not in as_text(letter(REFUSED, enclosed=())).casefold()


@pytest.mark.parametrize("events", [[], [happened("answered", answer="accepted")]])
def test_where_nothing_was_refused_there_is_nothing_to_contest(events):
    with pytest.raises(WrongState):
        contested_on(chased(*events), TODAY)


@pytest.mark.parametrize("answer", [REFUSED, accepted_in_part("100.00")], ids=["all of it", "a part"])
def test_a_favour_that_was_refused_is_asked_for_again_rather_than_contested(answer):
    with pytest.raises(WrongState):
        contested_on(chased(answer)._replace(is_favour=True), TODAY)
