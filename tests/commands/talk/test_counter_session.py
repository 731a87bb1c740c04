from __future__ import annotations

import datetime as dt
import tomllib

import pytest
from builders import TODAY

from claimpack.commands.talk.counter_questions import QUESTIONS, meter_keys
from claimpack.commands.talk.counter_session import CounterSession
from claimpack.errors import BadInput
from claimpack.template_files import Places

ASKED = {question.key: question for question in QUESTIONS}


def opened(folder, text=None):
    if text is not None:
        folder.mkdir()
        (folder / "claim.toml").write_text(text, encoding="utf-8")
    return CounterSession.open(folder, Places(), TODAY)


def answered(session, **answers):
    """Take answers; `a__b` names the question about key b of table a."""
    for key, typed in answers.items():
        session.answer(ASKED[key.replace("__", ".")], typed)
    return session


def saved(folder):
    return tomllib.loads((folder / "claim.toml").read_text(encoding="utf-8"))


@pytest.mark.parametrize(
    ("name", "number"),
    [
        ("26-0001", "26-0001"),
        ("Müller saw", "Mllersaw"),
        ("-_-", "1"),
        ("二六", "1"),
        ("1234567890-1234567890-123-5", "1234567890-1234567890-12"),
        ("12345678901234567890123-5", "12345678901234567890123"),
    ],
    ids=["a number", "letters beyond English", "no letter", "another script", "too long", "cut at a hyphen"],
)
def test_a_new_claim_is_numbered_by_its_folder(tmp_path, name, number):
    assert opened(tmp_path / name).value("number") == number


def test_nothing_is_written_before_the_first_answer(tmp_path):
    opened(tmp_path / "26-0001")
    assert not (tmp_path / "26-0001").exists()


def test_a_comment_of_the_users_outlives_an_answer(tmp_path):
    session = opened(tmp_path / "c", '# mine\nnumber = "7"  # the seventh\n')
    answered(session, failure__complaint="It smokes.")
    assert (tmp_path / "c" / "claim.toml").read_text().startswith('# mine\nnumber = "7"  # the seventh\n')


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ('unit = "CS-70"', "key unit: must be a table"),
        ("dates = 3", "key dates: must be a table"),
        ("failure = 2026-01-01", "key failure: must be a table"),
        ('[unit]\nserials = [{value = "HC70-1"}]', r"key unit\.serials\[1\]\.role is missing"),
        ('maker = "halden', "claim.toml"),
    ],
    ids=["a text", "a number", "a date", "half a serial", "no TOML"],
)
def test_a_file_that_can_be_no_claim_is_refused_before_anything_is_asked(tmp_path, text, says):
    with pytest.raises(BadInput, match=says):
        opened(tmp_path / "c", text)


def test_an_answer_that_contradicts_another_leaves_the_file_as_it_was(tmp_path):
    session = answered(opened(tmp_path / "c"), dates__failed="2026-02-02")
    with pytest.raises(BadInput, match="is before"):
        session.answer(ASKED["dates.presented"], "2026-02-01")
    assert "presented" not in saved(tmp_path / "c")["dates"]


@pytest.mark.parametrize("day", ["2026-02-28", "2026-03-01"])
def test_what_happened_up_to_today_is_taken(tmp_path, day):
    answered(opened(tmp_path / "c"), dates__failed=day)
    assert saved(tmp_path / "c")["dates"]["failed"] == dt.date.fromisoformat(day)


def test_what_is_to_happen_tomorrow_is_refused(tmp_path):
    session = opened(tmp_path / "c")
    with pytest.raises(BadInput, match="2026-03-02"):
        session.answer(ASKED["dates.failed"], "2026-03-02")


def test_a_known_answer_is_written_as_it_is_known(tmp_path):
    answered(opened(tmp_path / "c"), maker="HALDEN", unit__use="Rental")
    assert (saved(tmp_path / "c")["maker"], saved(tmp_path / "c")["unit"]["use"]) == ("halden", "rental")


def test_a_strange_maker_is_doubted_once(tmp_path):
    session = opened(tmp_path / "c")
    with pytest.raises(BadInput, match="is not known"):
        session.answer(ASKED["maker"], "Nobody & Sons")
    assert answered(session, maker="nobody & sons").value("maker") == "nobody & sons"


def test_what_no_claim_can_lack_may_be_left_open_the_second_time(tmp_path):
    session = opened(tmp_path / "c")
    with pytest.raises(BadInput, match="without it"):
        session.skip(ASKED["maker"])
    session.skip(ASKED["maker"])
    assert "maker" in session.lacks()


def test_what_a_claim_can_lack_may_be_left_open_at_once(tmp_path):
    session = opened(tmp_path / "c")
    session.skip(ASKED["owner.name"])
    assert session.lacks() == ["maker", "unit.model", "unit.serials", "dates.presented"]


def test_a_second_serial_stands_beside_the_first_and_one_of_its_role_replaces_it(tmp_path):
    session = answered(opened(tmp_path / "c"), **{"unit__serials__@unit": "A", "unit__serials__@engine": "E"})
    answered(session, **{"unit__serials__@unit": "B"})
    serials = saved(tmp_path / "c")["unit"]["serials"]
    assert {serial["role"]: serial["value"] for serial in serials} == {"unit": "B", "engine": "E"}


@pytest.mark.parametrize(("typed", "said"), [("0", "0"), ("112.4", "112.4"), ("none", "none"), ("No Meter", "none")])
def test_a_reading_is_told_as_it_was_typed(tmp_path, typed, said):
    assert answered(opened(tmp_path / "c"), unit__meter=typed).said("unit.meter") == said


def test_a_reading_of_nothing_in_the_file_is_a_reading(tmp_path):
    assert opened(tmp_path / "c", "[unit]\nmeter = true\nhours = 0\n").said("unit.meter") == "0"


def test_no_meter_takes_the_reading_away(tmp_path):
    answered(opened(tmp_path / "c"), unit__meter="100", **{"unit__serials__@unit": "A"})
    answered(opened(tmp_path / "c"), unit__meter="none")
    assert (saved(tmp_path / "c")["unit"]["meter"], "hours" in saved(tmp_path / "c")["unit"]) == (False, False)


def test_options_are_named_where_a_claim_in_memory_has_no_meaning():
    with pytest.raises(BadInput, match="--purchased"):
        CounterSession.in_memory(Places(), TODAY, {"dates.purchased": "soon"}, {"dates.purchased": "--purchased"})


def test_a_claim_in_memory_is_written_nowhere(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    session = CounterSession.in_memory(Places(), TODAY, {"maker": "halden"}, {})
    answered(session, owner__name="A. Customer")
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize(("typed", "meter"), [("none", False), ("NO", False), ("no-meter", False), ("0", True)])
def test_none_means_that_there_is_no_meter(typed, meter):
    assert meter_keys(typed)["meter"] is meter


def test_what_is_missing_is_listed_as_people_do(tmp_path):
    said = opened(tmp_path / "new").lacks_in_words()
    assert (said.count(" and "), said.endswith(" are missing")) == (1, True)


def in_memory(**answers):
    """A claim in memory; `a__b` names key b of table a."""
    told = {key.replace("__", "."): value for key, value in answers.items()}
    return CounterSession.in_memory(Places(), TODAY, told, {})


@pytest.mark.parametrize(
    ("key", "value", "said"),
    [
        ("owner.first_owner", True, "yes"),
        ("owner.first_owner", False, "no"),
        ("dates.never_registered", True, ""),
        ("unit.model", "CS-70", "CS-70"),
    ],
)
def test_what_was_answered_is_said_as_it_would_be_typed(key, value, said):
    session = CounterSession.in_memory(Places(), TODAY, {key: value}, {})
    asked = "dates.registered" if "registered" in key else key
    assert session.said(asked) == (said or "never")


@pytest.mark.parametrize(
    ("known", "says"),
    [
        ({}, "the maker, the model, the unit's serial number and the day it was brought in are missing"),
        ({"maker": "halden", "unit__model": "CS-70"}, "the unit's serial number and the day it was brought in are "),
        ({"maker": "halden", "unit__model": "CS-70", "unit__serials.@unit": "1"}, "the day it was brought in is "),
    ],
    ids=["four", "two", "one"],
)
def test_what_a_claim_lacks_is_told_as_people_list_things(known, says):
    assert in_memory(**known).lacks_in_words().startswith(says)


def test_what_is_known_from_elsewhere_fills_only_what_is_open():
    session = in_memory(unit__model="CS-70")
    session.fill({"unit.model": "HT-24", "unit.kind": "saw"})
    assert (session.value("unit.model"), session.value("unit.kind")) == ("CS-70", "saw")


def test_what_contradicts_an_answer_fills_nothing():
    session = in_memory(dates__presented="2026-02-05")
    with pytest.raises(BadInput):
        session.fill({"unit.kind": "saw", "dates.failed": "2026-02-09"})
    assert (session.value("unit.kind"), session.value("dates.failed")) == (None, None)


def test_a_claim_has_no_file_for_its_folder(tmp_path):
    (tmp_path / "26-0001").write_text("a file")
    with pytest.raises(BadInput):
        opened(tmp_path / "26-0001")


def test_only_a_new_claim_may_be_written_blank(tmp_path):
    opened(tmp_path / "26-0001").must_be_new()
    with pytest.raises(BadInput):
        opened(tmp_path / "26-0002", 'number = "1"\n').must_be_new()


def test_yes_takes_the_word_that_was_meant_at_that_question_and_at_no_other():
    session = in_memory(failure__complaint="Dead.")
    with pytest.raises(BadInput, match="halden"):
        session.answer(ASKED["maker"], "hald")
    session.answer(ASKED["unit.model"], "y")
    session.answer(ASKED["maker"], "y")
    assert (session.value("unit.model"), session.value("maker")) == ("y", "halden")


@pytest.mark.parametrize(("key", "typed"), [("unit.model", "Model X"), ("failure.component", "gizmo")])
def test_a_strange_word_is_doubted_of_no_question_but_the_maker(key, typed):
    session = in_memory(maker="halden", unit__model="CS-70")
    session.answer(ASKED[key], typed)
    assert session.value(key) == typed
