from datetime import date

import pytest

from claimpack.core.events.events import Event
from claimpack.core.steps.notes import noting, to_look_again
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
