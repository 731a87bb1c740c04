import pytest
from happenings import LATER, PART_WAY_TO, happened, part

from claimpack.core.part_codes import PartCode
from claimpack.core.part_undoing import step_undone, undone_in_words
from claimpack.core.settling import Step
from claimpack.core.states import stand
from claimpack.errors import BadInput, WrongState

CODE = PartCode("26-0007", 1)
STEP = Step(on=LATER, why="The wrong tag was scanned.")
LET_GO = part("released", rule="released by the maker")
RAN_OUT = part("released", rule="the hold ran out")
NEW_DAY = part("called back", send_by="2026-04-30")
CALLED_BACK = PART_WAY_TO["called back"]


def undone(events, what, step=STEP):
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
        ([RAN_OUT, part("scrapped")], "scrapping", {"scrapped": "2026-03-01", "state": "held"}),
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
