"""What becomes of the invented shop's claims, each way with its days; chance is given, so that every way is walked."""

import datetime as dt
from decimal import Decimal
from random import Random

import pytest
from assessed_claims import assessed

from claimpack.demo.lives import life_of

FOREVER = dt.date(2040, 1, 1)
NOT_FORGOTTEN = 0.9


class Given(Random):
    """Chance that says what it is given, one after the other; of numbers in a range else the least."""

    def __init__(self, *shares, numbers=()):
        super().__init__()
        self.shares, self.numbers = list(shares), list(numbers)

    def random(self):
        return self.shares.pop(0)

    def randint(self, a, b):
        number = self.numbers.pop(0) if self.numbers else a
        assert a <= number <= b
        return number


CLAIM = assessed(
    parts=[{"number": "70-1", "name": "Short block", "unit_cost": "96.20"}],
    held=[{"part": "short block", "since": "2026-02-24"}],
)
REPAIRED = CLAIM.claim.dates.repaired
FILED = REPAIRED + dt.timedelta(days=1)


def lived(*shares, numbers=(), today=FOREVER):
    return life_of(CLAIM, Given(NOT_FORGOTTEN, *shares, numbers=numbers), today)


def told(life):
    """What happened from the filing on, each with the days since."""
    return [(event.what, (event.on - FILED).days) for event in life.events[1:]]


SENT = [("filed", 0), ("received", 2)]
WAYS = {
    "withdrawn": ([0.01], [("withdrawn", 0)]),
    "paid": ([0.02, 0.9, 0.95], [*SENT, ("answered", 6), ("paid", 30)]),
    "paid, part kept as long": ([0.61, 0.4, 0.9], [*SENT, ("answered", 6), ("paid", 30)]),
    "paid, part let go": ([0.5, 0.9, 0.89, 0.8], [*SENT, ("answered", 6), ("paid", 30), ("part released", 34)]),
    "paid, part scrapped": (
        [0.5, 0.9, 0.1, 0.79],
        [*SENT, ("answered", 6), ("paid", 30), ("part released", 34), ("part scrapped", 43)],
    ),
    "paid, part sent": (
        [0.5, 0.39],
        [*SENT, ("answered", 6), ("part called back", 9), ("part sent", 12), ("paid", 30)],
    ),
    "paid in part": ([0.62, 0.6], [*SENT, ("answered", 6), ("paid", 30)]),
    "paid in part, rest given up": ([0.71, 0.59], [*SENT, ("answered", 6), ("paid", 30), ("written off", 39)]),
    "put right": ([0.72], [*SENT, ("answered", 6), ("filed", 9), ("paid", 55)]),
    "refused, given up soon": ([0.8, 0.59], [*SENT, ("answered", 6), ("written off", 26)]),
    "refused, given up late": ([0.85, 0.6], [*SENT, ("answered", 6), ("written off", 96)]),
    "asked about": ([0.86], [*SENT, ("answered", 6), ("answered", 46), ("paid", 70)]),
    "paid short, then the rest": ([0.9, 0.59], [*SENT, ("paid", 30), ("paid", 105)]),
    "paid short, chased twice": (
        [0.93, 0.6],
        [*SENT, ("paid", 30), ("chased", 90), ("chased", 130), ("written off", 180)],
    ),
    "charged back": ([0.94], [*SENT, ("paid", 30), ("charged back", 90), ("written off", 230)]),
    "unanswered": ([0.96], [*SENT, ("paid", 90)]),
}


@pytest.mark.parametrize("way", WAYS)
def test_each_way_has_its_events_and_days(way):
    shares, events = WAYS[way]
    assert told(lived(*shares)) == events


@pytest.mark.parametrize("way", WAYS)
def test_what_has_not_come_yet_is_left_out_and_what_comes_today_is_told(way):
    shares, events = WAYS[way]
    for _, days in events:
        today = FILED + dt.timedelta(days=days)
        # a part wanted in the last weeks is still on its shelf
        if "part sent" in dict(events) and days < 9 + 25:
            continue
        assert told(lived(*shares, today=today)) == [event for event in events if event[1] <= days]


@pytest.mark.parametrize(("weeks", "is_sent"), [(24, False), (25, True)])
def test_a_part_wanted_in_the_last_weeks_is_still_on_its_shelf(weeks, is_sent):
    life = lived(0.5, 0.1, today=FILED + dt.timedelta(days=9 + weeks))
    assert ("part sent" in dict(told(life))) is is_sent
    assert told(life)[-1] == ("paid", 30)


def test_a_part_sent_after_the_payment_is_sent_all_the_same():
    late = [10000, 1, 28, 30, 12]
    assert told(lived(0.5, 0.1, numbers=late))[-3:] == [("part called back", 31), ("paid", 30), ("part sent", 43)]


def test_a_part_sent_on_the_day_of_the_payment_goes_first():
    same_day = [10000, 1, 18, 30, 9]
    assert told(lived(0.5, 0.1, numbers=same_day))[-3:] == [("part called back", 21), ("part sent", 30), ("paid", 30)]


def test_a_part_is_wanted_within_twelve_days():
    wanted = next(event for event in lived(0.5, 0.1).events if event.what == "part called back")
    assert wanted.facts["send_by"] == (wanted.on + dt.timedelta(days=12)).isoformat()


def test_a_letter_asks_for_payment_and_again_after_forty_days():
    letters = [event for event in lived(0.93, 0.6).events if event.what == "chased"]
    assert ["payment" in event.why for event in letters] == [True, True]
    assert letters[0].facts["again"] == (letters[0].on + dt.timedelta(days=40)).isoformat()


@pytest.mark.parametrize(("way", "share"), [("paid in part", "0.80"), ("paid short, chased twice", "0.85")])
def test_a_share_of_what_was_claimed_is_paid(way, share):
    standing = lived(*WAYS[way][0]).standing
    assert standing.paid == (standing.claimed * Decimal(share)).quantize(Decimal("0.01"))


@pytest.mark.parametrize(
    ("way", "state"),
    [
        ("paid in part, rest given up", "paid"),
        ("put right", "paid"),
        ("refused, given up late", "written off"),
        ("paid short, then the rest", "paid"),
        ("charged back", "written off"),
        ("unanswered", "paid"),
        ("withdrawn", "withdrawn"),
    ],
)
def test_where_a_way_ends(way, state):
    standing = lived(*WAYS[way][0]).standing
    assert standing.state == state
    assert not standing.refused_rest


@pytest.mark.parametrize(("share", "form"), [(0.72, "yes"), (0.8, None)], ids=["picture missing", "fuel"])
def test_a_missing_picture_is_refused_for_the_form_and_bad_fuel_is_not(share, form):
    events = lived(share, 0.9).events
    assert [event.facts.get("form") for event in events if event.facts.get("answer") == "refused"] == [form]


def test_a_claim_goes_out_under_the_makers_reference_once():
    assert lived(0.72, numbers=[54321]).standing.reference == "W54321"


def test_a_question_is_written_onto_the_claim():
    assert lived(0.86).claim.questions[0].text.startswith("The day of purchase")


@pytest.mark.parametrize(
    ("share", "days", "lies"),
    [
        (0.29, 9, True),
        (0.29, 34, True),
        (0.29, 8, False),
        (0.29, 35, False),
        (0.3, 20, False),
    ],
)
def test_some_repairs_lie_on_the_desk_between_the_second_and_the_fifth_week(share, days, lies):
    life = life_of(CLAIM, Given(share, 0.96, 0.96), REPAIRED + dt.timedelta(days=days))
    assert ("filed" not in dict(told(life))) is lies


def test_what_is_out_of_cover_is_withdrawn_after_the_owner_paid():
    refused = assessed(dates__purchased="2016-03-02", dates__delivered="2016-03-02")
    assert refused.verdict == "not covered"
    events = life_of(refused, Given(), FOREVER).events
    assert [(event.what, (event.on - REPAIRED).days) for event in events[1:]] == [("withdrawn", 20)]


@pytest.mark.parametrize(("share", "days", "is_noted"), [(0.39, 19, True), (0.39, 20, False), (0.4, 5, False)])
def test_of_some_units_that_came_in_of_late_a_receipt_is_asked_for(share, days, is_noted):
    waiting = assessed(dates__repaired=None)
    presented = waiting.claim.dates.presented
    today = presented + dt.timedelta(days=days)
    events = life_of(waiting, Given(share), today).events
    assert [event.what for event in events] == ["opened", *["noted"] * is_noted]
    if is_noted:
        assert (events[-1].on, events[-1].facts["again"]) == (
            today - dt.timedelta(days=3),
            (today - dt.timedelta(days=1)).isoformat(),
        )


def test_of_a_unit_that_came_in_two_days_ago_it_is_noted_on_that_day():
    waiting = assessed(dates__repaired=None)
    presented = waiting.claim.dates.presented
    assert life_of(waiting, Given(0.1), presented + dt.timedelta(days=2)).events[-1].on == presented


def test_an_owner_who_is_told_that_nothing_is_covered_takes_nothing_back_before_the_repair():
    waiting = assessed(dates__purchased="2016-03-02", dates__delivered="2016-03-02", dates__repaired=None)
    assert waiting.verdict == "not covered"
    assert [event.what for event in life_of(waiting, Given(0.9), FOREVER).events] == ["opened"]
