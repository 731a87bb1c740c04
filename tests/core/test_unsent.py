from __future__ import annotations

from datetime import date

import pytest

from claimpack.core.events import Event
from claimpack.core.unsent import Unsent, unsent


def found(*kinds):
    """What is unsent after some events, one a revision and a day."""
    return unsent(
        [
            Event.model_construct(what=what, on=date(2026, 3, number), revision=number, why="", facts={})
            for number, what in enumerate(kinds, start=1)
        ]
    )


def test_the_last_correction_is_told_and_the_revision_that_went_out():
    assert found("opened", "edited", "filed", "corrected", "corrected") == Unsent(date(2026, 3, 5), 3)


@pytest.mark.parametrize(
    "kinds",
    [
        (),
        ("opened", "edited"),
        ("opened", "filed", "answered"),
        ("opened", "filed", "corrected", "filed"),
        ("opened", "filed", "corrected", "withdrawn", "reopened", "edited"),
    ],
    ids=["nothing", "never filed", "as it is", "sent again", "withdrawn"],
)
def test_nothing_is_unsent_where_the_maker_has_the_claim_as_it_is_or_not_at_all(kinds):
    assert found(*kinds) is None


def test_it_is_told_with_the_command_that_shows_what_the_maker_has():
    told = Unsent(date(2026, 3, 5), 3).told("26-0001")
    assert told == (
        "2026-03-05, after it was filed; this version was not sent. "
        "What the maker has: claimpack show 26-0001 --revision 3"
    )
