from contextlib import nullcontext
from datetime import date

import pytest
from builders import a_claim
from new_events import LATER, PART_WAY_TO, happened, part

from claimpack.core.claims.part_codes import PartCode
from claimpack.core.events.fold import stand
from claimpack.core.holding.release_rules import RAN_OUT, RELEASED, WITHDRAWN, LetGo
from claimpack.core.shelf.part_steps import (
    calling_back,
    late_sending,
    moved_to,
    moving,
    refuse_unexplained,
    releasing,
    scrapping,
    sending,
    step_undone,
    undone_in_words,
)
from claimpack.core.steps.settling import Step
from claimpack.errors import BadInput, WrongState

DAY = date(2026, 3, 1)
STEP = Step(on=DAY, why="Mail of its inspector.")
HELD = [{"part": "short block", "shelf": "B3"}, {"part": "coil", "shelf": "B3"}]


def test_only_the_part_moved_lies_elsewhere():
    assert [part.shelf for part in moved_to(a_claim(held=HELD), 2, " C1 ").held] == ["B3", "C1"]


@pytest.mark.parametrize("shelf", ["", "  "])
def test_a_shelf_without_a_name_is_refused(shelf):
    with pytest.raises(BadInput, match="is empty"):
        moved_to(a_claim(held=HELD), 1, shelf)


def test_a_shelf_that_cannot_be_printed_is_refused():
    with pytest.raises(BadInput, match="SHELF"):
        moved_to(a_claim(held=HELD), 1, "B\x07")


def test_a_move_records_both_shelves():
    assert moving(1, "B3", "C1", DAY).facts == {"part": "1", "from": "B3", "to": "C1"}


def test_a_call_back_records_when_the_part_must_be_sent():
    assert calling_back(1, STEP, date(2026, 3, 9)).facts["send_by"] == "2026-03-09"


def test_a_part_may_be_due_on_the_day_it_is_called_back():
    assert calling_back(1, STEP, DAY).facts["send_by"] == "2026-03-01"


def test_a_part_cannot_be_due_before_it_is_called_back():
    with pytest.raises(BadInput, match="is before"):
        calling_back(1, STEP, date(2026, 2, 28))


def test_a_release_needs_a_reason():
    with pytest.raises(BadInput, match="--because"):
        releasing(1, Step(on=DAY))


def test_a_release_records_its_rule_and_reason():
    released = releasing(1, STEP)
    assert (released.facts["rule"], released.why) == (RELEASED, "Mail of its inspector.")


def test_scrapping_a_part_of_a_withdrawn_claim_needs_a_reason():
    with pytest.raises(BadInput, match="why may 26-0001/1 go"):
        refuse_unexplained(PartCode("26-0001", 1), Step(on=DAY), LetGo(WITHDRAWN, "it was"))


@pytest.mark.parametrize(("rule", "step"), [(WITHDRAWN, STEP), (RAN_OUT, Step(on=DAY))])
def test_a_reason_or_another_rule_lets_a_part_go(rule, step):
    assert refuse_unexplained(PartCode("26-0001", 1), step, LetGo(rule, "it was")) is None


def test_sending_records_the_way_it_goes():
    assert sending(1, STEP, "Northway", "").facts == {"part": "1", "carrier": "Northway"}


AIR, ROAD = "Swift Air", "Northway"


@pytest.mark.parametrize(
    ("carrier", "hazard", "why", "refused"),
    [
        (AIR, "lithium battery", "", True),
        ("Vol aérien", "lithium battery", "", True),
        (AIR, "lithium battery", "Its vans drive.", False),
        (ROAD, "lithium battery", "", False),
        ("Fairway", "lithium battery", "", False),
        (AIR, "fuel", "", False),
    ],
)
def test_a_failed_lithium_battery_goes_by_air_for_no_unsaid_reason(carrier, hazard, why, refused):
    with pytest.raises(BadInput, match="by air") if refused else nullcontext():
        sending(1, Step(on=DAY, why=why), carrier, "", hazard)


@pytest.mark.parametrize(
    ("sent", "late"),
    [(date(2026, 3, 19), ""), (date(2026, 3, 20), ""), (date(2026, 3, 21), "1 day before"), (LATER, "13 days before")],
    ids=["the day before", "on the day", "the day after", "later"],
)
def test_a_part_sent_after_the_day_it_was_wanted_by_is_late(sent, late):
    said = " ".join(late_sending(date(2026, 3, 20), sent))
    assert (bool(said), late in said) == (bool(late), True)


def test_a_part_wanted_by_no_day_is_not_late():
    assert late_sending(None, LATER) == ()


def test_scrapping_a_held_part_records_the_rule_first_and_then_the_scrapping():
    told = scrapping(1, "held", STEP, LetGo(RAN_OUT, "kept until 2026-02-28"))
    assert [(each.what, each.why) for each in told] == [
        ("part released", "kept until 2026-02-28"),
        ("part scrapped", "Mail of its inspector."),
    ]


def test_scrapping_a_released_part_is_one_event():
    told = scrapping(1, "released", STEP, LetGo(RELEASED, "it did"))
    assert [each.what for each in told] == ["part scrapped"]


CODE = PartCode("26-0007", 1)
MISTAKE = Step(on=LATER, why="The wrong tag was scanned.")
LET_GO = part("released", rule=RELEASED)
AS_IT_RAN_OUT = part("released", rule=RAN_OUT)
NEW_DAY = part("called back", send_by="2026-04-30")
CALLED_BACK = PART_WAY_TO["called back"]


def undone(events, what, step=MISTAKE):
    return step_undone(stand(events), CODE, what, step)


@pytest.mark.parametrize(
    ("events", "what", "facts"),
    [
        (CALLED_BACK, "call-back", {"called_back": "2026-03-01", "state": "held"}),
        ([*CALLED_BACK, NEW_DAY], "call-back", {"send_by": "2026-04-30", "state": "called back"}),
        (PART_WAY_TO["sent"], "sending", {"sent": "2026-03-01", "state": "called back"}),
        ([LET_GO], "release", {"released": "2026-03-01", "state": "held"}),
        ([*CALLED_BACK, LET_GO], "release", {"released": "2026-03-01", "state": "called back"}),
        ([LET_GO, part("scrapped")], "scrapping", {"scrapped": "2026-03-01", "state": "released"}),
        ([AS_IT_RAN_OUT, part("scrapped")], "scrapping", {"scrapped": "2026-03-01", "state": "held"}),
    ],
)
def test_an_undone_step_names_its_day_and_where_the_part_stands_again(events, what, facts):
    told = undone(events, f"part {what} undone")
    assert (told.what, told.facts) == (f"part {what} undone", {"part": "1", **facts})


def test_what_is_undone_is_followed_by_the_events_before_it():
    twice = [*CALLED_BACK, NEW_DAY]
    first = undone(twice, "part call-back undone")
    assert undone([*twice, first], "part call-back undone").facts["state"] == "held"


def test_undoing_a_step_needs_a_reason():
    with pytest.raises(BadInput, match="--because is missing"):
        undone(CALLED_BACK, "part call-back undone", Step(on=LATER))


@pytest.mark.parametrize(
    ("state", "what"),
    [("held", "call-back"), ("called back", "sending"), ("sent", "release"), ("released", "scrapping")],
)
def test_only_the_last_step_is_undone(state, what):
    with pytest.raises(WrongState, match=f"the held part is {state}, so it cannot have its {what} undone now"):
        undone(PART_WAY_TO[state], f"part {what} undone")


@pytest.mark.parametrize(
    ("facts", "said"),
    [
        ({"sent": "2026-03-20", "state": "called back"}, "Undone: the sending of 2026-03-20."),
        ({"send_by": "2026-04-30", "state": "called back"}, "Undone: 2026-04-30 as the day to send it by."),
    ],
)
def test_what_was_undone_is_said_with_its_day(facts, said):
    assert undone_in_words(happened("part sending undone", part="1", **facts)) == said
