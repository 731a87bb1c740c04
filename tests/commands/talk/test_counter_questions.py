from __future__ import annotations

import datetime as dt

import pytest
import tomlkit
from builders import PLAN, TODAY, a_window, changed

from claimpack.commands.talk.counter_questions import QUESTIONS, words_of
from claimpack.commands.talk.counter_session import CounterSession
from claimpack.commands.talk.finish_session import FINISHING
from claimpack.core.claims.claim import Claim
from claimpack.errors import BadInput
from claimpack.template_files import Places

ASKED = {question.key: question for question in QUESTIONS}


@pytest.fixture
def counter(tmp_path):
    """Begins a claim with a plan of Ashby's within reach, changed; `answers` go by the key they fill."""

    def begin(answers=(), **changes):
        plan = changed(PLAN, {"maker": "ashby", "id": "ashby-test", **changes})
        (tmp_path / "ashby.toml").write_text(tomlkit.dumps(plan), encoding="utf-8")
        return CounterSession.in_memory(Places((tmp_path,)), TODAY, dict(answers), {})

    return begin


AN_AS_1 = {"maker": "ashby", "unit.model": "AS-1"}


def test_every_key_is_asked_for_once():
    assert len(ASKED) == len(QUESTIONS)


def test_every_question_fills_a_key_of_a_claim():
    known = {
        f"{table}.{key}"
        for table in ("unit", "owner", "dates", "proof", "failure", "part_sold")
        for key in _keys(table)
    }
    asked = {key.partition(".@")[0] for key in ASKED}
    assert asked - known == {"maker"}


def _keys(table):
    return Claim.model_fields[table].annotation.model_fields


def test_a_day_is_read_as_year_month_day():
    assert ASKED["dates.purchased"].read("2024-02-29") == dt.date(2024, 2, 29)


@pytest.mark.parametrize("typed", ["2026-02-30", "05.02.2026", "2026-2-5", "20260205", "2026-W06-4", "today", ""])
def test_a_day_written_otherwise_is_asked_again(typed):
    with pytest.raises(ValueError, match="is not a date such as 2026-02-05"):
        ASKED["dates.purchased"].read(typed)


@pytest.mark.parametrize(("typed", "first"), [("Y", True), ("yes", True), ("NO", False), ("n", False)])
def test_yes_and_no_may_be_a_letter(typed, first):
    assert ASKED["owner.first_owner"].read(typed) is first


@pytest.mark.parametrize("typed", ["", "maybe", "yess", "1"])
def test_what_is_neither_yes_nor_no_is_asked_again(typed):
    with pytest.raises(ValueError, match="Answer yes or no"):
        ASKED["owner.first_owner"].read(typed)


@pytest.mark.parametrize(("maker", "models"), [("ASHBY", ["AS-1"]), ("nobody", [])])
def test_models_are_those_of_the_maker_answered_and_no_patterns(counter, maker, models):
    session = counter({"maker": maker}, models=["AS-1", "AS-*"])
    assert ASKED["unit.model"].choices(session) == models


def test_a_maker_is_known_by_the_name_it_is_sold_under_too(counter):
    session = counter({"maker": "ashby-tools"}, maker_name="Ashby Tools", models=["AS-1"])
    assert ASKED["unit.model"].choices(session) == ["AS-1"]


def test_components_are_the_words_of_the_plans_windows(counter):
    windows = [a_window(covers=["short block", "*"]), a_window(id="unit", covers=["deck", "short block"])]
    session = counter(AN_AS_1, models=["AS-1"], window=windows, words={})
    assert ASKED["failure.component"].choices(session) == ["deck", "short block"]


@pytest.mark.parametrize(
    ("roles", "asked"), [(["unit"], False), (["unit", "engine"], True), ([], True)], ids=["unit", "both", "none said"]
)
def test_the_engine_is_asked_for_unless_the_plan_wants_other_serials_alone(counter, roles, asked):
    session = counter(AN_AS_1, models=["AS-1"], requires={"serial_roles": roles})
    assert ASKED["unit.serials.@engine"].is_due(session) is asked


def test_the_engine_is_asked_for_while_no_plan_is_found(counter):
    assert ASKED["unit.serials.@engine"].is_due(counter())


def test_the_day_brought_in_is_suggested_to_be_today(counter):
    assert ASKED["dates.presented"].suggestion(counter()) == "2026-03-01"


def test_a_question_explains_itself_with_the_answers_it_knows(counter):
    explained = ASKED["unit.use"].explains(counter())
    assert explained == "Windows differ by use. One of: household, professional, rental."


def test_what_operations_replace_is_offered_first_and_excluded_parts_last(counter):
    operation = [{"code": "valve", "name": "Replace unloader valve", "hours": "1"}]
    session = counter(AN_AS_1, models=["AS-1"], operation=operation, excluded={"components": ["nozzle"]}, words={})
    assert ASKED["failure.component"].choices(session) == ["unloader valve", "engine", "nozzle", "short block"]


@pytest.mark.parametrize(("name", "known"), [("Ashby Tools", ["ashby", "Ashby Tools"]), ("ASHBY", ["ashby"])])
def test_a_maker_may_be_answered_by_word_or_by_name_where_that_is_another(counter, name, known):
    choices = ASKED["maker"].choices(counter(maker_name=name))
    assert [choice for choice in choices if choice.casefold().startswith("ashby")] == known


@pytest.mark.parametrize("typed", ["never", "No", "NONE", "not registered"])
def test_registration_may_never_have_happened(typed):
    assert ASKED["dates.registered"].read(typed) == {"registered": None, "never_registered": True}


@pytest.mark.parametrize("typed", ["never", "No", "NONE"])
def test_a_part_may_never_have_been_fitted_by_the_shop(typed):
    assert ASKED["part_sold.fitted"].read(typed) == {"fitted": None, "never_fitted": True}


def test_keys_are_called_by_the_words_of_their_questions(counter):
    words = words_of(counter({"unit.serials.@engine": "E-1", "unit.serials.@unit": "U-1"}))
    assert [words[f"unit.serials[{place}].value"] for place in (1, 2)] == [
        "Serial number of the engine",
        "Serial number of the unit",
    ]
    assert (words["unit.hours"], words["dates.failed"]) == ("Hour-meter reading", "Failed on")


def test_the_uses_offered_are_those_of_the_plans_a_unit_may_fall_under(counter):
    session = counter(AN_AS_1, models=["AS-1"], uses=["farm"])
    assert ASKED["unit.use"].choices(session) == ["household", "professional", "rental", "farm"]


@pytest.mark.parametrize(("years", "due"), [({}, False), ({"model_years": [2024, 2025]}, True)])
def test_the_model_year_is_asked_for_where_a_plan_goes_by_it(counter, years, due):
    assert ASKED["unit.model_year"].is_due(counter(AN_AS_1, models=["AS-1"], **years)) is due


@pytest.mark.parametrize(
    ("first_owner", "owners", "due"),
    [("no", {"then": "P6M"}, True), ("no", None, False), ("yes", {"then": "P6M"}, False)],
    ids=["a second owner", "no matter to the plan", "the first owner"],
)
def test_a_second_sale_is_asked_for_where_a_plan_goes_by_it(counter, first_owner, owners, due):
    window = a_window(**({"owners": owners} if owners else {}))
    session = counter({**AN_AS_1, "owner.first_owner": first_owner}, models=["AS-1"], window=[window])
    assert [ASKED[key].is_due(session) for key in ("dates.resold", "dates.transferred")] == [due, due]


@pytest.mark.parametrize("case", ["repair", "stock", "part", None])
def test_what_only_some_cases_have_is_asked_in_those_alone(counter, case):
    session = counter({**AN_AS_1, **({"case": case} if case else {})})
    due = {question.key for question in QUESTIONS if question.is_due(session)}
    sold, receipt = {"part_sold.name", "part_sold.sold", "part_sold.fitted"}, {"dates.purchased", "dates.registered"}
    assert (due & sold, "unit.invoiced" in due) == (sold if case == "part" else set(), case == "stock")
    assert (due & receipt, "owner.name" in due) == (set() if case in ("stock", "part") else receipt, case != "stock")
    assert ("unit.serials.@engine" in due) is (case != "part")


def test_what_people_tell_in_their_own_words_may_be_pasted_in_several_lines():
    told = [question.key for question in (*QUESTIONS, *FINISHING) if question.several_lines]
    assert told == ["failure.complaint", "failure.cause", "failure.correction"]


def reads_a_day(question):
    try:
        read = question.read("2026-02-05")
    except (ValueError, BadInput):
        return False
    return dt.date(2026, 2, 5) in (read.values() if isinstance(read, dict) else [read])


@pytest.mark.parametrize("question", [*QUESTIONS, *FINISHING], ids=lambda question: question.key)
def test_a_question_about_a_day_and_no_other_takes_it_as_people_write_it(question):
    assert question.days is reads_a_day(question)
