from __future__ import annotations

from datetime import date

import pytest
from new_events import DAY, LATER, WITHDRAWN, happened

from claimpack.core.events.events import Event
from claimpack.core.steps.filing import NEVER_FILED, FilingFound, filing_course, filing_with, layout_before


def sent(on=DAY, why="", **facts):
    return happened("filed", on, why, **facts)


CORRECTED = happened("corrected", date(2026, 3, 9), "The serial number.")


def test_a_claim_that_was_never_filed_was_filed_nowhere():
    assert (filing_course([]), NEVER_FILED.elsewhere) == (NEVER_FILED, False)


def test_a_claim_sent_in_again_was_first_filed_on_the_first_day():
    assert filing_course([sent(), sent(LATER)]).first_filed == DAY


def test_a_correction_is_told_with_its_day_and_reason():
    course = filing_course([sent(), CORRECTED])
    assert (course.corrected, course.why) == (date(2026, 3, 9), "The serial number.")


def test_what_was_corrected_before_a_claim_was_sent_again_went_out_with_it():
    assert filing_course([sent(), CORRECTED, sent(LATER)]).corrected is None


def test_a_claim_that_was_taken_back_counts_from_the_day_it_is_filed_again():
    assert filing_course([sent(), WITHDRAWN, sent(LATER)]).first_filed == LATER


def test_what_happens_besides_changes_nothing_of_how_a_claim_was_filed():
    events = [sent(verdict="covered"), happened("answered", LATER, answer="refused")]
    assert filing_course(events) == filing_course(events[:1])


@pytest.mark.parametrize(("facts", "elsewhere"), [({"import": "i-1"}, True), ({"packet": "ab"}, False)])
def test_a_filing_that_came_with_a_list_was_made_elsewhere(facts, elsewhere):
    assert filing_course([sent(**facts)]).elsewhere is elsewhere


@pytest.mark.parametrize(
    ("against", "told"),
    [("cause", ("cause", "As agreed.")), ("nothing", ("", ""))],
    ids=["something", "nothing"],
)
def test_a_reason_to_file_anyway_is_told_where_something_spoke_against_it(against, told):
    course = filing_course([sent(why="As agreed.", against=against)])
    assert (course.against, course.anyway) == told


def filings(*packets, **facts):
    return [Event.model_construct(what="filed", on=DAY, facts={"packet": packet, **facts}) for packet in packets]


@pytest.mark.parametrize(
    ("packet", "found"),
    [
        ("aa", FilingFound(1, DAY, same=True)),
        ("bb", FilingFound(2, DAY, same=True)),
        ("cc", FilingFound(2, DAY, same=False)),
    ],
    ids=["the first", "the last", "another"],
)
def test_a_packet_is_held_against_the_filing_that_froze_it_else_the_last(packet, found):
    assert filing_with(filings("aa", "bb"), packet) == found


def test_a_packet_of_a_claim_that_was_not_filed_is_held_against_none():
    assert filing_with([], "aa") is None


@pytest.mark.parametrize(
    ("history", "layout"),
    [([], ""), (filings("aa", layout="plain"), "plain"), (filings("aa", layout="plain") + filings("bb"), "")],
    ids=["never filed", "by name", "the shop's at last"],
)
def test_the_layout_of_the_last_packet_is_the_one_it_was_asked_for_in(history, layout):
    assert layout_before(history) == layout
