from __future__ import annotations

from contextlib import suppress

import pytest
from shop_builders import a_shop, kept_claim, the_desk

from claimpack.commands.talk.finish_session import DRAINED, FINISHING, HELD, LABOUR, PART, FinishSession
from claimpack.errors import BadInput

ASKED = {question.key: question for question in FINISHING}


@pytest.fixture
def session(tmp_path):
    shop = a_shop(tmp_path, plan="halden-2025", parts=[], labour=[], held=[])
    return FinishSession.of(the_desk(shop), kept_claim(shop))


@pytest.mark.parametrize(
    ("typed", "number", "name", "quantity", "cost", "source", "payer"),
    [
        ("70-9 Gasket", "70-9", "Gasket", "1", "0", "stock", "maker"),
        ("70-9 x2 =1.50 Gasket", "70-9", "Gasket", "2", "1.50", "stock", "maker"),
        ("70-9 X2.5 Fuel line owner", "70-9", "Fuel line", "2.5", "0", "stock", "owner"),
        ("70-9 Gasket sent", "70-9", "Gasket", "1", "0", "maker", "maker"),
        ("70-9 Gasket sent shop", "70-9", "Gasket", "1", "0", "maker", "shop"),
        ("70-9 owner manual", "70-9", "owner manual", "1", "0", "stock", "maker"),
        ("70-9 xylene", "70-9", "xylene", "1", "0", "stock", "maker"),
    ],
)
def test_a_part_is_read_from_one_line(session, typed, number, name, quantity, cost, source, payer):
    session.answer(ASKED[PART], typed)
    (part,) = session.parts
    assert (part.number, part.name, str(part.quantity), str(part.unit_cost)) == (number, name, quantity, cost)
    assert (part.source, part.payer) == (source, payer)


@pytest.mark.parametrize(
    ("typed", "hours"), [("swept the floor 0.5", "0.5"), ("short-block-replace", None), ("short-block-replace 2", "2")]
)
def test_labour_is_an_operation_of_the_schedule_or_words_with_hours(session, typed, hours):
    session.answer(ASKED[LABOUR], typed)
    (work,) = session.labour
    assert (work.operation, work.hours and str(work.hours)) == (typed.removesuffix(f" {hours}"), hours)
    assert work.technician == "ann"


@pytest.mark.parametrize("typed", ["short-b", "SHORT-BLOCK-REPLACE"])
def test_an_operation_may_be_begun_and_is_written_as_the_schedule_writes_it(session, typed):
    session.answer(ASKED[LABOUR], typed)
    assert session.labour[0].operation == "short-block-replace"


@pytest.mark.parametrize(("operations", "taken"), [(1, 0), (2, 1)], ids=["no number stands there", "numbered"])
def test_a_number_is_an_operation_only_where_it_stood_beside_one(session, monkeypatch, operations, taken):
    plan = session.plan()
    few = plan.model_copy(update={"operation": plan.operation[:operations]})
    monkeypatch.setattr(FinishSession, "plan", lambda _: few)
    with suppress(BadInput):
        session.answer(ASKED[LABOUR], "1")
    assert [work.operation for work in session.labour] == [plan.operation[0].code][:taken]


@pytest.mark.parametrize("typed", ["swept the floor", "0.5", "99"])
def test_work_outside_the_schedule_needs_its_hours_and_leaves_no_trace_without(session, typed):
    with pytest.raises(BadInput):
        session.answer(ASKED[LABOUR], typed)
    assert session.labour == []


@pytest.mark.parametrize(
    ("typed", "shelf"), [("B3", "B3"), ("y", ""), ("Yes", ""), ("n", None), ("no", None), ("not kept", None)]
)
def test_a_failed_part_is_kept_on_a_shelf_or_not_at_all(session, typed, shelf):
    session.answer(ASKED[HELD], typed)
    assert [held.shelf for held in session.held] == ([] if shelf is None else [shelf])
    assert (session.kept(ASKED[HELD]) == "not kept", ASKED[DRAINED].is_due(session)) == (
        shelf is None,
        shelf is not None,
    )


@pytest.mark.parametrize(("part", "number"), [({"number": "70-1180"}, "70-1180"), (None, "")])
def test_a_part_that_is_kept_has_the_number_of_what_failed_where_it_is_known(tmp_path, part, number):
    shop = a_shop(tmp_path, held=[], failure__part=part)
    session = FinishSession.of(the_desk(shop), kept_claim(shop))
    session.answer(ASKED[HELD], "B3")
    assert session.held[0].number == number


def test_a_part_of_which_nobody_said_what_failed_is_not_kept(tmp_path):
    shop = a_shop(tmp_path, failure__component=None, failure__part=None)
    session = FinishSession.of(the_desk(shop), kept_claim(shop))
    with pytest.raises(BadInput):
        session.answer(ASKED[HELD], "B3")


def test_a_held_part_is_asked_for_where_none_is_on_the_claim(tmp_path):
    shop = a_shop(tmp_path, held=[{"part": "rod"}])
    assert not ASKED[HELD].is_due(FinishSession.of(the_desk(shop), kept_claim(shop)))


def test_what_is_added_stands_behind_what_was_there_and_may_be_taken_back(tmp_path):
    shop = a_shop(tmp_path, parts=[{"name": "Ring", "number": "1"}], plan="halden-2025")
    session = FinishSession.of(the_desk(shop), kept_claim(shop))
    for typed in ("2 Seal", "3 Cap"):
        session.answer(ASKED[PART], typed)
    assert (session.take_back(ASKED[PART]).startswith("Cap (3)"), session.take_back(ASKED[HELD])) == (True, "")
    assert [part.name for part in session.claim("26-0001").parts] == ["Ring", "Seal"]


@pytest.mark.parametrize(
    ("key", "typed", "told"),
    [
        (PART, "7 =3.10 Ring", "Ring (7), 1 x 3.10"),
        (PART, "7 Ring sent", "Ring (7), 1, sent by the maker"),
        (PART, "7 =3.10 Ring owner", "Ring (7), 1 x 3.10, the owner pays"),
        (LABOUR, "clean 0.0", "clean, 0.0 h"),
        (LABOUR, "short-block-replace", "short-block-replace, by the schedule"),
        (HELD, "B3", "short block held since 2026-03-01, shelf B3"),
        (HELD, "y", "short block held since 2026-03-01"),
    ],
)
def test_what_was_written_down_is_told(session, key, typed, told):
    session.answer(ASKED[key], typed)
    assert session.kept(ASKED[key]) == told


def test_a_cost_is_in_the_shops_currency_where_neither_claim_nor_plan_has_one(tmp_path):
    shop = a_shop(tmp_path, maker="Nobody", plan=None, parts=[])
    settings = shop / "shop.toml"
    settings.write_text(f'currency = "USD"\n{settings.read_text()}')
    session = FinishSession.of(the_desk(shop), kept_claim(shop))
    with pytest.raises(BadInput, match="USD"):
        session.answer(ASKED[PART], "7 =€12 Ring")
    session.answer(ASKED[PART], "7 =$12 Ring")
    assert str(session.parts[0].unit_cost) == "12"
