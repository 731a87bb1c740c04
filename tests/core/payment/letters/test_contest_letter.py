from datetime import date

import pytest
from builders import TODAY
from new_events import DAY, FILED, LATER, OPENED, accepted_in_part, paid

from claimpack.core.events.events import NewEvent
from claimpack.core.events.fold import stand
from claimpack.core.payment.chasing import Chased
from claimpack.core.payment.letters.contest_letter import contest, contested_on
from claimpack.core.payment.letters.letter import Sender, as_text
from claimpack.errors import WrongState


def happened(what, why="", **facts):
    return NewEvent(what=what, on=date(2026, 3, 2), why=why, facts=facts)


def chased(*events):
    return Chased("26-1", "Halden", "CS-70", "HC70-1", stand([OPENED, FILED, *events]), None, "No part.")


def letter(*events, enclosed=("3 photos, on 2 pages",)):
    about = chased(*events)
    return contest(about, contested_on(about, TODAY), "It is open.", Sender(name="Q"), TODAY, enclosed)


REFUSED = happened("answered", "Wear.", answer="refused")


@pytest.mark.parametrize(
    ("events", "against"),
    [
        ([REFUSED], "refusal"),
        ([accepted_in_part("100.00")], "refusal of the rest"),
        (
            [happened("answered", answer="accepted"), paid("159.70"), happened("charged back", amount="50.00")],
            "charge-back",
        ),
    ],
)
def test_what_the_maker_did_is_named(events, against):
    assert letter(*events).subject == f"Warranty claim 26-1: we contest your {against}"


def test_a_refusal_by_silence_is_not_said_to_have_been_written():
    silent = letter(happened("answered", answer="refused", silence="yes"))
    assert "Refused on" not in dict(silent.facts)
    assert "no answer to it from you by 2 March 2026" in silent.paragraphs[0]


def test_the_letter_has_the_grounds_and_the_makers_reason_and_asks_for_no_payment():
    said = " ".join(as_text(letter(REFUSED)).split())
    assert all(part in said for part in ("Our grounds: It is open.", "Wear", "3 photos, on 2 pages"))
    assert "pay" not in letter(REFUSED).ask


def test_nothing_enclosed_is_not_said_to_be():
    assert "enclosed" not in as_text(letter(REFUSED, enclosed=())).casefold()


@pytest.mark.parametrize("events", [[], [happened("answered", answer="accepted")]])
def test_where_nothing_was_refused_there_is_nothing_to_contest(events):
    with pytest.raises(WrongState):
        contested_on(chased(*events), TODAY)


@pytest.mark.parametrize("answer", [REFUSED, accepted_in_part("100.00")], ids=["all of it", "a part"])
def test_a_favour_that_was_refused_is_asked_for_again_rather_than_contested(answer):
    with pytest.raises(WrongState):
        contested_on(chased(answer)._replace(is_favour=True), TODAY)


ACCEPTED = happened("answered", answer="accepted")
TAKEN_BACK = happened("charged back", amount="20.00")
REST_AND_TAKEN_BACK = [accepted_in_part("100.00"), paid("100.00"), TAKEN_BACK]


@pytest.mark.parametrize(
    ("events", "labels"),
    [
        ([ACCEPTED, paid("150.00"), TAKEN_BACK], ["Accepted on"]),
        (REST_AND_TAKEN_BACK, ["Accepted in part on"]),
        ([paid("150.00"), TAKEN_BACK], []),
    ],
    ids=["whole", "in part", "paid without a word"],
)
def test_the_day_of_an_acceptance_is_named_where_the_maker_wrote_one(events, labels):
    assert [label for label, _ in letter(*events).facts if label.startswith("Accepted")] == labels


@pytest.mark.parametrize(
    ("events", "accepted", "disputed"),
    [
        ([REFUSED], None, "150.00 USD"),
        ([accepted_in_part("100.00")], "100.00 USD", "50.00 USD"),
        (REST_AND_TAKEN_BACK, "100.00 USD", "20.00 USD"),
        ([ACCEPTED, paid("150.00"), TAKEN_BACK], None, "20.00 USD"),
    ],
    ids=["refusal", "refusal of the rest", "charge-back of a part", "charge-back"],
)
def test_as_much_is_in_dispute_as_the_maker_refused_or_took_back(events, accepted, disputed):
    amounts = dict(letter(*events).amounts)
    assert (amounts.get("Accepted"), amounts["In dispute"]) == (accepted, disputed)


@pytest.mark.parametrize(
    ("paid_on", "answered_on", "is_first"),
    [(DAY, LATER, "paid"), (LATER, LATER, "answer"), (LATER, DAY, "answer")],
    ids=["money first", "on one day", "answer first"],
)
def test_money_and_answer_are_told_in_the_order_of_their_days(paid_on, answered_on, is_first):
    events = sorted((accepted_in_part("100.00", answered_on), paid("60.00", paid_on)), key=lambda event: event.on)
    said = letter(*events).paragraphs[0]
    assert (said.index("You paid") < said.index("You accepted")) == (is_first == "paid")
