from __future__ import annotations

from datetime import UTC, date, datetime

import pytest
from builders import TODAY, a_claim, a_plan, a_window

from claimpack.core.events.events import Event, NewEvent
from claimpack.core.events.fold import stand
from claimpack.core.events.standing import Standing
from claimpack.core.judging.assessment import Circumstances, assess
from claimpack.core.steps.filing import Sent, Unsent, blocks, filed, filing_of, filings, refuse_unfilable, unsent
from claimpack.errors import BadInput, NotFound, WrongState

SENT = Sent(on=TODAY, reference="H-1")
OUT_OF_COVER = {"dates__purchased": "2024-01-02", "dates__delivered": "2024-01-02"}


def assessed(plan=None, **changes):
    return assess(a_claim(**changes), [plan or a_plan()], TODAY)


def refused(sent, standing=None, today=TODAY):
    return refuse_unfilable(assessed(), standing or Standing(), sent, today)


def event(what, **facts):
    return Event(
        claim="26-0001",
        revision=1,
        at=datetime(2026, 3, 1, tzinfo=UTC),
        on=TODAY,
        who="ann",
        what=what,
        facts=facts,
        document="",
        previous="",
    )


@pytest.mark.parametrize("on", [date(2026, 2, 5), TODAY], ids=["the day it came in", "today"])
def test_a_claim_is_filed_from_the_day_it_came_in_until_today(on):
    assert refused(Sent(on=on)) is None


@pytest.mark.parametrize("received", ["2026-02-27", "2026-02-28"])
def test_a_claim_may_be_received_from_the_day_it_was_filed(received):
    assert refused(Sent.model_validate({"on": "2026-02-27", "received": received})) is None


@pytest.mark.parametrize(
    ("keys", "said"),
    [
        ({"on": "2026-02-04"}, "--on: 2026-02-04 is before 2026-02-05"),
        ({"on": "2026-03-02"}, "--on: 2026-03-02 is still to come"),
        ({"on": "2026-02-27", "received": "2026-02-26"}, "--received: 2026-02-26 is before"),
        ({"on": "2026-02-27", "received": "2026-03-02"}, "--received: 2026-03-02 is still to come"),
    ],
)
def test_impossible_days_are_refused(keys, said):
    with pytest.raises(BadInput, match=said):
        refused(Sent.model_validate(keys))


def test_a_filed_claim_is_not_filed_again():
    with pytest.raises(WrongState, match="the claim is filed"):
        refused(SENT, stand([NewEvent(what="filed", on=TODAY)]))


def test_a_claim_without_a_plan_has_no_price_to_freeze():
    assessment = assess(a_claim(maker="nobody"), [a_plan()], TODAY)
    with pytest.raises(BadInput, match="has no price"):
        refuse_unfilable(assessment, Standing(), SENT, TODAY)


def test_nothing_blocks_a_covered_and_complete_claim():
    assert blocks(assessed()) == ()


def test_what_is_missing_blocks_in_words():
    assert [sentence.split(".")[0] for sentence in blocks(assessed(failure__cause=None))] == ["cause"]


def test_a_claim_that_is_not_covered_is_blocked_by_its_verdict():
    assert "Not covered" in blocks(assessed(**OUT_OF_COVER))[0]


def test_a_filing_keeps_packet_amount_currency_and_revision():
    told = filed(assessed(), SENT, "ab" * 32, 3)
    assert told.facts == {
        "packet": "ab" * 32,
        "claimed": "0.00",
        "currency": "USD",
        "revision": "3",
        "reference": "H-1",
        "verdict": "covered",
    }


def test_a_missed_last_day_blocks_a_complete_claim():
    plan = a_plan(filing={"within": "P1D"})
    assert blocks(assessed(plan)) == (str(assessed(plan).late.says),)


def test_a_favour_asked_with_its_reason_is_not_blocked_by_the_verdict():
    asked = {"case": "goodwill", "goodwill": {"because": "A good customer."}}
    assert blocks(assessed(**OUT_OF_COVER, **asked)) == ()


def test_a_favour_that_the_claim_does_not_ask_for_is_blocked_by_the_verdict_whatever_reason_is_given():
    circumstances = Circumstances(anyway="Agreed by phone.")
    (said,) = blocks(assess(a_claim(**OUT_OF_COVER), [a_plan()], TODAY, circumstances))
    assert "Not covered" in said


def test_a_favour_is_blocked_while_nobody_can_say_whether_the_claim_is_covered():
    asked = {"case": "goodwill", "goodwill": {"because": "A good customer."}}
    assert "Cannot say yet" in blocks(assessed(dates__purchased=None, dates__delivered=None, **asked))[0]


@pytest.mark.parametrize(("operation", "blocked"), [("test", False), ("block", True)])
def test_a_repair_that_was_declined_is_filed_for_its_diagnosis_alone(operation, blocked):
    schedule = [{"code": "test", "hours": "0.5"}, {"code": "block", "hours": "1.6"}]
    plan = a_plan(operation=schedule, pays={"labour_rate": "92.00", "diagnosis": {"operation": "test"}})
    found = assessed(plan, case="declined", labour=[{"operation": operation, "hours": "0.5"}])
    assert any("declined" in said for said in blocks(found)) is blocked


def test_a_reason_to_file_anyway_is_kept():
    assert filed(assessed(), Sent(on=TODAY, anyway="Agreed by phone."), "ab", 1).why == "Agreed by phone."


def test_filings_are_the_events_with_a_packet():
    history = [
        event("opened"),
        event("filed"),
        event("filed", packet="aa"),
        event("answered"),
        event("filed", packet="bb"),
    ]
    assert [each.facts["packet"] for each in filings(history)] == ["aa", "bb"]


@pytest.mark.parametrize(("version", "packet"), [(1, "aa"), (2, "bb"), (0, "bb")])
def test_a_filing_is_counted_from_one_and_the_last_is_the_default(version, packet):
    history = [event("filed", packet="aa"), event("filed", packet="bb")]
    assert filing_of("26-0001", history, version).facts["packet"] == packet


@pytest.mark.parametrize(
    ("times", "version", "said"),
    [(0, 0, "has not been filed"), (1, 2, "was filed once, so there is no version 2"), (2, 3, "filed 2 times")],
)
def test_a_filing_that_never_was_is_not_found(times, version, said):
    with pytest.raises(NotFound, match=said):
        filing_of("26-0001", [event("filed", packet="aa")] * times, version)


REFUSED_BEFORE = [
    NewEvent(what="filed", on=date(2026, 2, 26)),
    NewEvent(what="answered", on=date(2026, 2, 26), facts={"answer": "refused"}),
]


def test_a_claim_is_not_sent_in_again_before_it_was_sent_in():
    with pytest.raises(BadInput, match="is before 2026-02-26, the day it was filed before"):
        refused(Sent(on=date(2026, 2, 25)), stand(REFUSED_BEFORE))


def test_a_claim_is_not_sent_in_again_before_it_was_refused():
    later = NewEvent(what="answered", on=date(2026, 2, 28), facts={"answer": "refused"})
    with pytest.raises(BadInput, match="is before 2026-02-28, the day it was refused"):
        refused(Sent(on=date(2026, 2, 27)), stand([*REFUSED_BEFORE, later]))


def test_what_speaks_against_a_filing_is_recorded_with_it():
    facts = filed(assessed(failure__cause=None), SENT, "ab", 1).facts
    assert (facts["verdict"], facts["against"].split(".")[0]) == ("covered", "cause")


def test_the_history_keeps_figures_as_they_are_written_and_people_read_them_apart():
    over = assessed(a_plan(window=[a_window(hours=1200)]), unit__hours="1300.5")
    recorded = filed(over, SENT, "ab", 1).facts["against"]
    assert ("100.5 h over the 1200 h" in recorded, "the 1,200 h" in blocks(over, str)[0]) == (True, True)


def test_a_reason_that_nothing_asked_for_is_recorded_as_such():
    assert filed(assessed(), SENT.model_copy(update={"anyway": "They know."}), "ab", 1).facts["against"] == "nothing"


def test_nothing_against_a_filing_is_not_recorded():
    assert "against" not in filed(assessed(), SENT, "ab", 1).facts


def test_a_claim_may_be_sent_in_again_on_the_same_day():
    assert refused(Sent(on=date(2026, 2, 26)), stand(REFUSED_BEFORE)) is None


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
