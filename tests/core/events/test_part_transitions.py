import pytest
from new_events import PART_WAY_TO, part

from claimpack.core.events.fold import stand
from claimpack.core.events.transitions import may_follow
from claimpack.errors import WrongState


@pytest.mark.parametrize(
    ("state", "what", "after"),
    [
        ("held", "moved", "held"),
        ("held", "called back", "called back"),
        ("held", "released", "released"),
        ("called back", "moved", "called back"),
        ("called back", "sent", "sent"),
        ("called back", "released", "released"),
        ("released", "moved", "released"),
        ("released", "scrapped", "scrapped"),
    ],
)
def test_where_a_held_part_may_go(state, what, after):
    way = PART_WAY_TO[state]
    may_follow(stand(way), part(what))
    assert stand([*way, part(what)]).part(1).state == after


def test_a_part_called_back_may_be_wanted_by_another_day():
    assert may_follow(stand(PART_WAY_TO["called back"]), part("called back", send_by="2026-04-30")) is None


@pytest.mark.parametrize(
    ("state", "what"),
    [
        ("held", "scrapped"),
        ("called back", "scrapped"),
        ("called back", "called back"),
        ("sent", "moved"),
        ("sent", "scrapped"),
        ("sent", "released"),
        ("released", "sent"),
        ("scrapped", "moved"),
    ],
)
def test_where_a_held_part_may_not_go(state, what):
    standing = stand(PART_WAY_TO[state])
    with pytest.raises(WrongState) as caught:
        may_follow(standing, part(what))
    assert caught.value.what.startswith(f"the held part is {state}, so it cannot be {what}")


@pytest.mark.parametrize(("state", "step"), [("held", "sending"), ("sent", "call-back"), ("sent", "release")])
def test_a_step_that_a_held_part_did_not_take_last_is_not_undone(state, step):
    with pytest.raises(WrongState, match=f"so it cannot have its {step} undone now"):
        may_follow(stand(PART_WAY_TO[state]), part(f"{step} undone"))


@pytest.mark.parametrize("state", ["sent", "released", "scrapped"])
def test_no_other_day_is_named_for_a_part_that_is_gone(state):
    with pytest.raises(WrongState):
        may_follow(stand(PART_WAY_TO[state]), part("called back", send_by="2026-04-30"))


def test_a_part_nobody_called_back_is_said_not_to_be():
    with pytest.raises(WrongState, match="the maker did not call the part back, so it cannot be sent now"):
        may_follow(stand([]), part("sent"))


@pytest.mark.parametrize(
    ("state", "what", "command"),
    [
        ("held", "sent", "claimpack hold call-back 26-0007/1"),
        ("held", "sent", "claimpack hold release 26-0007/1 --because TEXT"),
        ("called back", "scrapped", "claimpack hold send 26-0007/1"),
        ("released", "sent", "claimpack hold scrap 26-0007/1"),
        ("sent", "moved", "claimpack history 26-0007"),
        ("scrapped", "moved", "claimpack history 26-0007"),
        ("called back", "called back", "claimpack hold call-back 26-0007/1 --send-by DATE"),
        ("sent", "moved", "claimpack hold send 26-0007/1 --undo --because TEXT"),
        ("released", "sent", "claimpack hold release 26-0007/1 --undo --because TEXT"),
        ("scrapped", "moved", "claimpack hold scrap 26-0007/1 --undo --because TEXT"),
    ],
)
def test_a_refusal_names_the_commands_that_take_the_part_further(state, what, command):
    with pytest.raises(WrongState) as refused:
        may_follow(stand(PART_WAY_TO[state]), part(what), "26-0007")
    assert command in refused.value.do


@pytest.mark.parametrize(("state", "ways"), [("sent", "nothing more."), ("called back", "sent")])
def test_a_part_that_cannot_take_a_step_is_told_which_it_can(state, ways):
    with pytest.raises(WrongState) as refused:
        may_follow(stand(PART_WAY_TO[state]), part("scrapped"))
    assert ways in refused.value.why
