import datetime as dt
import hashlib

import pytest

from claimpack.core.events.events import START_OF_CHAIN, Authorship, Event, Link, NewEvent, breaks, sealed, sealer


def an_event(previous=START_OF_CHAIN, **changes):
    fields = {
        "claim": "26-0001",
        "revision": 1,
        "at": dt.datetime(2026, 3, 1, 9, 30, tzinfo=dt.UTC),
        "on": dt.date(2026, 3, 1),
        "who": "Ana",
        "what": "opened",
        "document": "ab",
        "previous": previous,
    }
    event = Event(**fields | changes)
    return event.model_copy(update={"hash": event.computed_hash()})


def a_chain():
    first = an_event()
    second = an_event(first.hash, what="filed", facts={"reference": "Ü-7", "amount": "12.50"}, why='He said "no"')
    return [first, second, an_event(second.hash, what="paid")]


def test_the_hash_is_sha256_of_json_written_out_by_hand():
    text = (
        '{"at":"2026-03-01T09:30:00+00:00","claim":"26-0001","document":"ab","facts":{"a":"Ü","b":"2"},'
        f'"on":"2026-03-01","previous":"{"0" * 64}","revision":1,"what":"opened","who":"Ana","why":"He said \\"no\\""}}'
    )
    event = an_event(facts={"b": "2", "a": "Ü"}, why='He said "no"')
    assert event.hash == hashlib.sha256(text.encode("utf-8")).hexdigest()


def test_an_event_about_to_be_recorded_is_sealed_as_it_is_read_back():
    filed = NewEvent(what="filed", on=dt.date(2026, 2, 28), why="by mail", facts={"reference": "R-7"})
    signature = Authorship(who=" Ana ", at=dt.datetime(2026, 3, 1, 9, 30, tzinfo=dt.UTC))
    after = {"claim": "26-0001", "revision": 2, "document": "ab", "previous": START_OF_CHAIN}
    read = an_event(what="filed", on=filed.on, why=filed.why, facts=filed.facts, revision=2)
    assert sealed({**signature.told(filed), **after}) == read.hash


def test_events_that_tell_the_same_are_sealed_one_after_another_as_each_alone():
    told = Authorship(who='Jo "Ü"', at=dt.datetime(2026, 3, 1, 9, 30, tzinfo=dt.UTC)).told(
        NewEvent(what="imported", on=dt.date(2026, 2, 28), why="line\nbreak", facts={"from": "a\\b", "by": "é"})
    )
    seal = sealer(told)
    for link in (Link("26-0001", 1, "ab", START_OF_CHAIN), Link("26-0002", 7, "cd", "ef")):
        assert seal(link) == sealed({**told, **link._asdict()})


def test_a_moment_is_hashed_with_its_time_zone():
    east = dt.timezone(dt.timedelta(hours=1))
    assert an_event(at=dt.datetime(2026, 3, 1, 10, 30, tzinfo=east)).hash != an_event().hash


def test_a_whole_chain_has_no_breaks():
    assert breaks(a_chain()) == []


def test_no_events_are_a_whole_chain():
    assert breaks([]) == []


@pytest.mark.parametrize(
    "change",
    [{"who": "Eve"}, {"why": "x"}, {"facts": {}}, {"revision": 2}, {"document": "cd"}, {"on": dt.date(2026, 3, 2)}],
)
def test_an_event_that_was_changed_is_named(change):
    first, second, third = a_chain()
    assert breaks([first, second.model_copy(update=change), third]) == [
        "event 2 (filed of 26-0001) was changed after it was recorded"
    ]


def test_a_missing_event_is_named_by_the_one_after_it():
    first, _, third = a_chain()
    assert breaks([first, third]) == ["event 2 (paid of 26-0001) does not follow the event before it"]


def test_events_in_another_order_are_named():
    first, second, third = a_chain()
    assert len(breaks([second, first, third])) == 3


def test_an_event_sealed_anew_is_betrayed_by_the_next():
    first, second, third = a_chain()
    forged = an_event(first.hash, who="Eve")
    assert breaks([first, forged, third]) == ["event 3 (paid of 26-0001) does not follow the event before it"]
    assert second.hash != forged.hash


def test_a_chain_may_begin_after_another():
    _, second, third = a_chain()
    assert breaks([second, third], second.previous) == []


def test_every_field_is_sealed_but_a_salt_that_is_not_there():
    assert sealed({"why": ""}) != sealed({})
    assert (sealed({"salt": ""}) == sealed({}), sealed({"salt": "a"}) == sealed({})) == (True, False)
