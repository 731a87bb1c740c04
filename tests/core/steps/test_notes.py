from datetime import date

import pytest
from new_events import FILED, OPENED

from claimpack.core.events.events import Event
from claimpack.core.events.fold import stand
from claimpack.core.steps.notes import Note, chased, notes_of, noting, to_look_again
from claimpack.errors import BadInput

MONDAY, FRIDAY = date(2026, 3, 2), date(2026, 3, 6)


@pytest.mark.parametrize(("text", "again"), [(" ", None), ("Call back.", date(2026, 3, 1))])
def test_a_note_says_something_and_looks_ahead(text, again):
    with pytest.raises(BadInput):
        noting(text, MONDAY, again)


def recorded(what, again=None):
    facts = {"again": again.isoformat()} if again else {"amount": "9.00", "answer": "refused"}
    return Event.model_construct(what=what, on=MONDAY, who="sam", why="Call back.", facts=facts)


@pytest.mark.parametrize(
    ("events", "day"),
    [
        ([recorded("noted", FRIDAY)], FRIDAY),
        ([recorded("noted", FRIDAY), recorded("noted")], None),
        ([recorded("noted", FRIDAY), recorded("paid")], FRIDAY),
        ([recorded("chased", FRIDAY), recorded("paid")], None),
        ([recorded("chased", FRIDAY), recorded("answered"), recorded("answer undone")], FRIDAY),
    ],
    ids=["a note", "a later note without a day", "money after a note", "money after a letter", "an answer undone"],
)
def test_the_last_note_or_letter_says_when_to_look_again(events, day):
    found = to_look_again(events)
    assert (found.again if found else None) == day


def test_a_note_without_a_day_says_no_day_to_look_again():
    assert to_look_again([recorded("noted")]) is None


@pytest.mark.parametrize(
    ("again", "facts"), [(None, {}), (MONDAY, {"again": "2026-03-02"}), (FRIDAY, {"again": "2026-03-06"})]
)
def test_a_note_may_say_to_look_again_the_same_day_or_later(again, facts):
    assert noting(" Call back. ", MONDAY, again).facts == facts


def test_the_notes_of_a_claim_are_told_the_latest_first():
    events = [recorded("noted"), recorded("paid"), recorded("noted", FRIDAY)]
    assert notes_of(events) == [
        Note(MONDAY, "sam", "Call back.", FRIDAY),
        Note(MONDAY, "sam", "Call back.", None),
    ]


@pytest.mark.parametrize("again", [MONDAY, FRIDAY])
def test_a_letter_says_to_ask_again_the_same_day_or_later(again):
    event = chased(stand([OPENED, FILED]), "26-0001", MONDAY, "an answer", again)
    assert (event.what, event.facts) == ("chased", {"again": again.isoformat()})


def test_a_letter_does_not_say_to_ask_again_before_it_went_out():
    with pytest.raises(BadInput, match="is over"):
        chased(stand([OPENED, FILED]), "26-0001", FRIDAY, "an answer", MONDAY)
