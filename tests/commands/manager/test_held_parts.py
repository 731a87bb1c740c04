from __future__ import annotations

from datetime import date
from decimal import Decimal

import pytest
from manager_shop import PART, a_managed_shop, open_in
from shop_builders import the_desk

from claimpack.commands.desk.terms_in_force import TermsInForce
from claimpack.commands.manager.held_parts import (
    JudgedPart,
    as_json,
    at_hand,
    doubt_in_short,
    last_days,
    listed,
    mark_under,
    may_be_scrapped,
    state_shown,
    what_to_do,
)
from claimpack.core.holding.release_rules import Keeping, lets_go
from claimpack.core.steps.listed import ListedPart
from claimpack.errors import BadInput, NotFound

TODAY = date(2026, 3, 20)
YESTERDAY = date(2026, 3, 19)


def a_row(**changes):
    """A part on the shelf whose claim is settled."""
    nothing = dict.fromkeys(ListedPart._fields)
    texts = dict.fromkeys(("number", "shelf", "maker", "model", "serial", "plan", "terms"), "")
    known = {"claim": "26-0001", "nth": 1, "part": "coil", "state": "held", "claim_state": "paid", "currency": "USD"}
    money = {"outstanding": Decimal(0), "refused_rest": Decimal(0)}
    return ListedPart(**{**nothing, **texts, **known, **money, **changes})


def judged(**changes):
    row = a_row(**changes)
    keeping = Keeping(row.state, row.keep_until, withdrawn=row.claim_state == "withdrawn")
    return JudgedPart(row, keeping, lets_go(keeping, TODAY))


class NoTerms:
    def of(self, _claim):
        return None


@pytest.fixture
def found(tmp_path):
    """Finds a part by its code in a shop with one claim of two parts, one of one, and one of none."""
    shop = a_managed_shop(tmp_path)
    for number, held in (("26-0001", [PART, PART]), ("26-0002", [PART]), ("26-0003", [])):
        open_in(shop, number, held=held)
    desk = the_desk(shop)
    return lambda said: at_hand(desk, TermsInForce(desk, None), said)


@pytest.mark.parametrize(("said", "code"), [("26-0001/2", "26-0001/2"), ("26-0002", "26-0002/1")])
def test_a_part_is_found_by_its_code_and_an_only_one_by_its_claim(found, said, code):
    assert str(found(said).code) == code


def test_the_number_of_a_claim_with_two_parts_does_not_say_which(found):
    with pytest.raises(BadInput, match="does not say which") as refused:
        found("26-0001")
    assert refused.value.why == "26-0001/1 short block, 26-0001/2 short block"


@pytest.mark.parametrize("said", ["26-0001/3", "26-0002/2", "26-0003"])
def test_a_part_that_no_claim_holds_is_not_found(found, said):
    with pytest.raises(NotFound):
        found(said)


def test_what_was_called_back_comes_first_then_what_may_go_then_shelf_by_shelf():
    rows = [
        a_row(shelf="A1", nth=1),
        a_row(shelf="B2", nth=2, keep_until=YESTERDAY),
        a_row(shelf="C3", nth=3, state="called back", send_by=date(2026, 4, 2)),
        a_row(shelf="D4", nth=4, state="called back", send_by=date(2026, 4, 1)),
        a_row(shelf="A0", nth=5),
    ]
    assert [part.row.nth for part in listed(rows, NoTerms(), TODAY)] == [4, 3, 2, 5, 1]


@pytest.mark.parametrize(
    ("changes", "shown"),
    [
        ({"keep_until": TODAY}, "held"),
        ({"keep_until": YESTERDAY}, "may go"),
        ({"keep_until": YESTERDAY, "claim_state": "filed", "outstanding": Decimal(5)}, "better kept"),
        ({"keep_until": YESTERDAY, "state": "called back"}, "called back"),
        ({"state": "released"}, "released"),
    ],
)
def test_a_list_on_paper_says_whether_a_held_part_may_go(changes, shown):
    assert state_shown(judged(**changes)) == shown


def test_what_is_better_kept_is_not_to_be_scrapped_and_says_why():
    part = judged(keep_until=YESTERDAY, claim_state="filed", outstanding=Decimal(5))
    assert (may_be_scrapped(part), bool(doubt_in_short(part)), as_json(part)["may_go"]) == (False, True, True)
    assert doubt_in_short(part) in what_to_do(part)


@pytest.mark.parametrize(
    ("changes", "says"),
    [
        ({}, ""),
        ({"state": "called back"}, "send it"),
        ({"state": "called back", "send_by": date(2026, 4, 1)}, "send it by 2026-04-01"),
        ({"claim_state": "withdrawn"}, "--because"),
        ({"missing": YESTERDAY, "state": "called back"}, "; the maker called it back"),
    ],
)
def test_under_a_part_stands_what_to_do_with_it(changes, says):
    assert says in what_to_do(judged(**changes))
    assert bool(what_to_do(judged(**changes))) is bool(says)


def test_the_last_day_is_that_of_the_hold_or_the_makers_release():
    parts = [judged(keep_until=TODAY), judged(), judged(state="sent")]
    assert last_days(parts) == ["2026-03-20", "its release", ""]


@pytest.mark.parametrize(
    ("changes", "may_go", "better_kept"),
    [
        ({"keep_until": TODAY}, False, False),
        ({"keep_until": YESTERDAY}, True, False),
        ({"keep_until": YESTERDAY, "claim_state": "filed", "outstanding": Decimal(9)}, True, True),
    ],
    ids=["still to be kept", "may go", "better kept"],
)
def test_scripts_read_whether_a_part_may_go_by_which_rule_and_why_it_is_better_kept(changes, may_go, better_kept):
    told = as_json(judged(**changes))
    assert (told["may_go"], told["rule"] is not None, bool(told["better_kept"])) == (may_go, may_go, better_kept)
    assert (told["better_kept"] is None) is not better_kept


@pytest.mark.parametrize(
    ("changes", "mark"),
    [
        ({"state": "called back", "send_by": YESTERDAY}, "fail"),
        ({"state": "called back", "send_by": TODAY}, "todo"),
        ({"state": "held", "send_by": YESTERDAY}, "todo"),
    ],
)
def test_only_a_part_to_be_sent_is_late(changes, mark):
    assert mark_under(judged(**changes), TODAY) == mark


def test_a_part_called_back_without_a_day_comes_after_those_with_one_and_before_all_others():
    back = [a_row(claim=number, state="called back", send_by=day) for number, day in (("1", None), ("2", TODAY))]
    found = listed([a_row(claim="3", shelf="A1"), *back], NoTerms(), TODAY)
    assert [part.row.claim for part in found] == ["2", "1", "3"]
