from datetime import date, timedelta

from reported_claims import TODAY, shelved

from claimpack.core.holding.held_by_age import NO_DAY, held_by_age
from claimpack.core.holding.release_rules import RAN_OUT


def counts(*parts):
    return dict(held_by_age(parts, TODAY).states)


def days_ago(days):
    return TODAY - timedelta(days=days)


def test_parts_are_counted_by_the_days_on_the_shelf():
    found = counts(*(shelved(since=days_ago(days)) for days in (30, 31, 60, 61, 91, 400)))
    assert found["held"] == (1, 2, 1, 2)


def test_every_state_has_its_own_count():
    found = counts(shelved(), shelved(state="called back"), shelved(state="called back"), shelved(state="released"))
    assert {state: sum(some) for state, some in found.items()} == {"held": 1, "called back": 2, "released": 1}


def test_a_part_whose_day_is_not_noted_is_counted_apart():
    found = held_by_age([shelved(since=None), shelved()], TODAY)
    assert (found.buckets[-1], dict(found.states)["held"]) == (NO_DAY, (1, 0, 0, 0, 1))


def test_a_part_that_a_rule_lets_go_may_go():
    found = held_by_age([shelved("1/1"), shelved("2/1", rule=RAN_OUT)], TODAY)
    assert [part.code for part in found.may_go] == ["2/1"]


def test_parts_called_back_stand_by_the_day_they_must_be_sent():
    sent = [("1/1", None), ("2/1", date(2026, 3, 9)), ("3/1", date(2026, 3, 4))]
    found = held_by_age([shelved(code, state="called back", send_by=day) for code, day in sent], TODAY)
    assert [part.code for part in found.to_send] == ["3/1", "2/1", "1/1"]


def test_parts_that_a_count_missed_are_told():
    found = held_by_age([shelved("1/1"), shelved("2/1", missing=TODAY)], TODAY)
    assert [part.code for part in found.missing] == ["2/1"]


def test_a_part_in_doubt_is_better_kept_than_let_go():
    parts = [shelved("1/1", rule=RAN_OUT), shelved("2/1", rule=RAN_OUT, doubt="unpaid")]
    found = held_by_age(parts, TODAY)
    assert ([part.code for part in found.may_go], [part.code for part in found.better_kept]) == (["1/1"], ["2/1"])


def test_a_part_put_on_the_shelf_later_is_not_in_the_shop_yet():
    found = held_by_age([shelved(since=TODAY), shelved("26-0002/1", since=days_ago(-1))], TODAY)
    assert found.parts == 1


def test_a_held_part_that_terms_may_let_go_which_cannot_be_read_may_be_free():
    unread = [
        shelved("1/1", terms_unread="us-tx"),
        shelved("2/1", terms_unread="us-tx", state="called back"),
        shelved("3/1", terms_unread="us-tx", rule=RAN_OUT),
        shelved("4/1"),
    ]
    assert [part.code for part in held_by_age(unread, TODAY).may_be_free] == ["1/1"]
