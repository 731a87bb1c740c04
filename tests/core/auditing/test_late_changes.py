from datetime import date

import pytest
from builders import a_claim

from claimpack.core.auditing.late_changes import LateChange, late_change, late_edits
from claimpack.core.events.events import Event


def told(*happened):
    """Which revisions are compared, after events of one claim: what, day of February, revision."""
    about = {"claim": "26-0001", "who": "Ben", "at": "2026-02-01T09:00:00Z", "document": "", "previous": ""}
    events = (Event(what=what, on=date(2026, 2, day), revision=revision, **about) for what, day, revision in happened)
    return late_change(events, 3)


@pytest.mark.parametrize(("day", "first"), [(6, 2), (7, 1)], ids=["before those days", "in them"])
def test_the_last_revision_before_those_days_is_compared_with_the_one_filed(day, first):
    found = told(("opened", 1, 1), ("edited", day, 2), ("edited", 10, 3), ("filed", 10, 3))
    assert (found.before, found.changes[-1]) == (first, (date(2026, 2, 10), 3))


def test_a_claim_opened_and_filed_at_once_is_compared_with_its_first_revision():
    assert told(("opened", 10, 1), ("edited", 10, 2), ("filed", 10, 2)) == LateChange(1, ((date(2026, 2, 10), 2),))


def test_a_claim_opened_and_filed_as_it_was_has_nothing_to_compare():
    assert told(("opened", 10, 1), ("filed", 10, 1)) is None


def test_a_claim_that_is_not_filed_has_no_last_days():
    assert told(("opened", 9, 1), ("edited", 10, 2)) is None


def test_a_claim_that_was_not_changed_of_late_is_not_compared():
    assert told(("opened", 1, 1), ("edited", 2, 2), ("filed", 10, 2)) is None


def test_a_change_whose_day_was_told_late_hides_none_before_it():
    found = told(("opened", 1, 1), ("edited", 9, 2), ("edited", 2, 3), ("filed", 10, 3))
    assert found == LateChange(1, ((date(2026, 2, 9), 2), (date(2026, 2, 2), 3)))


def test_what_was_replaced_is_an_edit_of_the_day_it_was_changed_on():
    edited, pictured = (date(2026, 2, 9), a_claim()), (date(2026, 2, 8), a_claim(photos=[{"file": "photos/a.jpg"}]))
    (edit,) = late_edits(a_claim(unit__use="rental"), [edited, pictured])
    assert edit == (date(2026, 2, 9), "unit.use", "rental", "professional")
