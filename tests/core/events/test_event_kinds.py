from typing import get_args

import pytest

from claimpack.core.events.event_kinds import EVENT_KINDS, PART_WAYS, WAYS, EventName, command_of, from_where
from claimpack.core.events.states import PartState, State


def test_every_event_is_defined():
    assert set(EVENT_KINDS) == set(get_args(EventName))


@pytest.mark.parametrize("kind", EVENT_KINDS.values(), ids=lambda kind: kind.name)
def test_an_event_follows_from_states_that_there_are(kind):
    assert set(kind.follows or ()) <= set(get_args(PartState if kind.of_a_part else State))


@pytest.mark.parametrize("kind", EVENT_KINDS.values(), ids=lambda kind: kind.name)
def test_an_event_can_be_said_where_it_can_be_refused(kind):
    assert kind.of_a_part or kind.follows is None or bool(kind.can or kind.cannot)


def test_every_state_has_ways_on():
    assert (set(WAYS), set(PART_WAYS)) == (set(get_args(State)), set(get_args(PartState)))


@pytest.mark.parametrize("name", sorted({name for ways in WAYS.values() for name in ways}))
def test_a_way_on_names_its_command(name):
    assert command_of(name, "26-0007").startswith("claimpack ")


@pytest.mark.parametrize(
    ("name", "said"),
    [
        ("edited", "The shop changes it: while a draft."),
        ("received", "The day of its receipt is noted: while filed or questioned."),
        ("filed", "It is filed: while a draft, questioned or refused, or where a rest is refused."),
        (
            "withdrawn",
            "It is withdrawn: while a draft, filed, questioned, accepted or refused, not where money is kept.",
        ),
        (
            "answer undone",
            (
                "Its answer was a mistake: "
                "while questioned, accepted or refused, or where the answer came after the money."
            ),
        ),
    ],
    ids=["one state", "states alone", "and a condition", "and an exception", "taking something back"],
)
def test_where_an_event_follows_from_is_said_in_words(name, said):
    assert from_where(EVENT_KINDS[name]) == said
