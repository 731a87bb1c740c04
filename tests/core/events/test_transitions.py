import pytest
from new_events import (
    ACCEPTED,
    FILED,
    LATER,
    OPENED,
    PAYMENT_UNDONE,
    QUESTIONED,
    REFUSED,
    REOPENED,
    UNDONE,
    WAY_TO,
    WITHDRAWN,
    accepted_in_part,
    happened,
    paid,
    written_off,
)

from claimpack.core.events.fold import stand
from claimpack.core.events.states import told_state
from claimpack.core.events.transitions import filed_otherwise, may_follow
from claimpack.errors import WrongState


@pytest.mark.parametrize(
    ("state", "what", "after"),
    [
        ("draft", happened("edited"), "draft"),
        ("draft", FILED, "filed"),
        ("draft", WITHDRAWN, "withdrawn"),
        ("filed", happened("corrected"), "filed"),
        ("filed", ACCEPTED, "accepted"),
        ("filed", happened("answered", answer="part", amount="90"), "accepted"),
        ("filed", REFUSED, "refused"),
        ("filed", QUESTIONED, "questioned"),
        ("filed", paid("150.00"), "paid"),
        ("filed", paid("10.00"), "filed"),
        ("filed", written_off("150.00"), "written off"),
        ("filed", WITHDRAWN, "withdrawn"),
        ("questioned", FILED, "filed"),
        ("questioned", ACCEPTED, "accepted"),
        ("questioned", happened("corrected"), "questioned"),
        ("accepted", paid("150.00"), "paid"),
        ("accepted", UNDONE, "filed"),
        ("refused", UNDONE, "filed"),
        ("questioned", UNDONE, "filed"),
        ("paid", paid("1"), "paid"),
        ("paid", PAYMENT_UNDONE, "accepted"),
        ("accepted", written_off("150.00"), "written off"),
        ("accepted", WITHDRAWN, "withdrawn"),
        ("refused", FILED, "filed"),
        ("refused", ACCEPTED, "accepted"),
        ("refused", written_off("150.00"), "written off"),
        ("paid", happened("charged back", amount="150.00"), "accepted"),
        ("withdrawn", REOPENED, "draft"),
        ("written off", REOPENED, "refused"),
    ],
)
def test_what_may_follow_and_where_it_leads(state, what, after):
    way = WAY_TO[state]
    may_follow(stand(way), what)
    assert stand([*way, what]).state == after


@pytest.mark.parametrize(
    ("state", "what"),
    [
        ("draft", ACCEPTED),
        ("draft", paid("1")),
        ("draft", happened("corrected")),
        ("draft", REOPENED),
        ("draft", written_off("1")),
        ("filed", FILED),
        ("filed", happened("edited")),
        ("filed", happened("charged back", amount="1")),
        ("accepted", FILED),
        ("accepted", REFUSED),
        ("refused", paid("1")),
        ("paid", WITHDRAWN),
        ("paid", ACCEPTED),
        ("paid", written_off("1")),
        ("withdrawn", FILED),
        ("withdrawn", WITHDRAWN),
        ("written off", paid("1")),
    ],
)
def test_what_may_not_follow(state, what):
    standing = stand(WAY_TO[state])
    with pytest.raises(WrongState) as caught:
        may_follow(standing, what)
    assert caught.value.what == f"the claim is {told_state(state)}, so it cannot be {what.what} now"


def test_a_refusal_says_what_is_possible():
    with pytest.raises(WrongState) as caught:
        may_follow(stand([OPENED]), ACCEPTED)
    assert caught.value.why == "What can happen to a draft: the shop changes it, it is filed or it is withdrawn."


@pytest.mark.parametrize("what", ["shelf counted", "noted"])
def test_a_shelf_count_and_a_note_follow_everywhere(what):
    assert may_follow(stand(WAY_TO["paid"]), happened(what)) is None


@pytest.mark.parametrize("state", ["filed", "questioned"])
def test_the_day_the_maker_received_a_claim_may_be_noted_later(state):
    noted = happened("received", LATER)
    may_follow(stand(WAY_TO[state]), noted)
    assert (stand([*WAY_TO[state], noted]).received, stand([*WAY_TO[state], noted]).state) == (LATER, state)


@pytest.mark.parametrize("state", ["draft", "accepted", "refused", "paid", "withdrawn"])
def test_no_day_of_receipt_is_noted_of_a_claim_that_waits_for_no_answer(state):
    with pytest.raises(WrongState):
        may_follow(stand(WAY_TO[state]), happened("received", LATER))


@pytest.mark.parametrize(("amount", "state"), [("60.00", "paid"), ("60.01", "accepted")])
def test_an_answer_after_a_short_payment_settles_what_it_accepts(amount, state):
    way, answer = [OPENED, FILED, paid("60.00")], accepted_in_part(amount)
    may_follow(stand(way), answer)
    assert stand([*way, answer]).state == state


IN_PART = [OPENED, FILED, accepted_in_part("100.00")]
PAID_IN_PART = [*IN_PART, paid("100.00", LATER)]
LET_GO = happened("written off", amount="50.00", rest="50.00")


@pytest.mark.parametrize("events", [IN_PART, PAID_IN_PART], ids=["waited for", "paid"])
@pytest.mark.parametrize("what", [ACCEPTED, FILED, LET_GO, happened("corrected")], ids=lambda what: what.what)
def test_a_refused_rest_can_be_contested_and_let_go(events, what):
    assert may_follow(stand(events), what) is None


@pytest.mark.parametrize("what", [ACCEPTED, FILED, LET_GO, happened("corrected")], ids=lambda what: what.what)
def test_a_paid_claim_whose_rest_was_let_go_is_settled(what):
    with pytest.raises(WrongState):
        may_follow(stand([*PAID_IN_PART, LET_GO]), what)


def test_a_rest_that_was_let_go_can_be_taken_up_again():
    assert may_follow(stand([*PAID_IN_PART, LET_GO]), REOPENED) is None


@pytest.mark.parametrize(
    ("more", "follows"),
    [([], True), ([paid("0.01")], False), ([paid("1"), happened("charged back", amount="1")], True)],
    ids=["nothing paid", "the smallest coin paid", "all taken back"],
)
def test_a_claim_is_withdrawn_only_while_no_money_is_kept(more, follows):
    assert (_told([*WAY_TO["accepted"], *more], WITHDRAWN) == "") is follows


def test_a_claim_not_withdrawn_for_the_money_says_how_much_came():
    with pytest.raises(WrongState, match=r"cannot be withdrawn now") as caught:
        may_follow(stand([*WAY_TO["accepted"], paid("0.01")]), WITHDRAWN)
    assert caught.value.why.startswith("0.01 USD was paid for it.")


@pytest.mark.parametrize("state", ["withdrawn", "written off"])
def test_a_claim_not_withdrawn_for_its_state_says_nothing_of_money(state):
    with pytest.raises(WrongState) as caught:
        may_follow(stand(WAY_TO[state]), WITHDRAWN)
    assert caught.value.why.startswith("What can happen")


@pytest.mark.parametrize(
    ("state", "what", "command"),
    [
        ("draft", ACCEPTED, "claimpack file 26-0007"),
        ("filed", FILED, "claimpack answer 26-0007 accepted|part|refused|questioned"),
        ("filed", REOPENED, "claimpack withdraw 26-0007 --because TEXT"),
        ("questioned", REOPENED, "claimpack file 26-0007"),
        ("accepted", REFUSED, "claimpack answer 26-0007 --undo --because TEXT"),
        ("refused", paid("1"), "claimpack answer 26-0007 accepted|part|refused|questioned"),
        ("paid", WITHDRAWN, "claimpack pay 26-0007 --undo --because TEXT"),
        ("paid", WITHDRAWN, "claimpack pay 26-0007 AMOUNT --charged-back --because TEXT"),
        ("written off", paid("1"), "claimpack reopen 26-0007 --because TEXT"),
        ("withdrawn", FILED, "claimpack reopen 26-0007 --because TEXT"),
    ],
)
def test_a_refusal_names_the_commands_that_take_the_claim_further(state, what, command):
    assert command in _told(WAY_TO[state], what)


def _told(events, what):
    """What is said of a step that does not follow; nothing where it does."""
    try:
        may_follow(stand(events), what, "26-0007")
    except WrongState as refused:
        return refused.do
    return ""


@pytest.mark.parametrize(
    ("events", "command"),
    [
        (WAY_TO["accepted"], "claimpack pay 26-0007 --undo"),
        ([OPENED, FILED, paid("1")], "claimpack answer 26-0007 --undo"),
        (WAY_TO["paid"], "claimpack file 26-0007"),
    ],
    ids=["no payment", "no answer", "no refused rest"],
)
def test_no_command_is_named_that_would_be_refused(events, command):
    assert command not in _told(events, happened("received"))


def test_a_paid_claim_with_a_refused_rest_names_how_to_contest_it():
    assert "claimpack file 26-0007" in _told(PAID_IN_PART, WITHDRAWN)


def test_a_draft_that_cannot_be_paid_names_both_ways_on():
    with pytest.raises(WrongState) as refused:
        may_follow(stand([OPENED]), paid("10.00"), "26-0001")
    assert refused.value.do == (
        "Send it in: claimpack file 26-0001; take it back: claimpack withdraw 26-0001 --because TEXT"
    )


def test_an_amount_that_differs_from_the_one_filed_is_told():
    standing = stand([OPENED, FILED])
    told = filed_otherwise(standing, "26-0001", standing.claimed + 1)
    assert (told.startswith("26-0001 was filed at 150.00"), "claimpack file" in told) == (True, False)


def test_where_the_claim_may_be_sent_again_its_other_amount_says_how():
    standing = stand([OPENED, FILED, REFUSED])
    assert filed_otherwise(standing, "26-0001", standing.claimed + 1).endswith("send it again: claimpack file 26-0001")


@pytest.mark.parametrize("events", [[OPENED], [OPENED, FILED], [OPENED, FILED, WITHDRAWN]])
def test_no_other_amount_is_told_of_a_draft_a_withdrawn_claim_or_one_that_comes_to_the_same(events):
    standing = stand(events)
    assert filed_otherwise(standing, "26-0001", stand([OPENED, FILED]).claimed) == ""


PAID_THEN_ANSWERED = [OPENED, FILED, paid("100.00"), accepted_in_part("100.00")]


def test_an_answer_that_settled_a_claim_paid_before_can_be_undone():
    standing = stand(PAID_THEN_ANSWERED)
    assert (standing.state, may_follow(standing, UNDONE)) == ("paid", None)


def test_an_answer_before_the_last_payment_is_not_undone_alone():
    with pytest.raises(WrongState):
        may_follow(stand([OPENED, FILED, ACCEPTED, paid("150.00")]), UNDONE)


def test_a_payment_is_undone_while_a_claim_filed_again_waits_for_its_answer():
    again = happened("filed", LATER, claimed="150.00", currency="USD")
    way = [*PAID_THEN_ANSWERED, again]
    assert (may_follow(stand(way), PAYMENT_UNDONE), stand([*way, PAYMENT_UNDONE]).state) == (None, "filed")


def test_a_charge_back_that_was_written_off_can_be_undone():
    written_off_after = [*WAY_TO["paid"], happened("charged back", amount="20.00"), written_off("20.00")]
    assert may_follow(stand(written_off_after), PAYMENT_UNDONE) is None


def test_the_payment_of_a_claim_written_off_is_not_undone():
    with pytest.raises(WrongState):
        may_follow(stand([*WAY_TO["accepted"], paid("100.00"), written_off("50.00")]), PAYMENT_UNDONE)


def test_without_a_payment_none_is_undone():
    with pytest.raises(WrongState):
        may_follow(stand(WAY_TO["filed"]), PAYMENT_UNDONE)
