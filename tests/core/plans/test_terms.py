from decimal import Decimal

import pytest
from pydantic import ValidationError

from claimpack.core.plans.terms import (
    NOT_KNOWN,
    Terms,
    claims_by_terms,
    labour_floor_gap,
    not_read,
    parts_floor_gap,
    unread_of,
    unread_said,
)


def terms(**keys):
    return Terms(id="us-xx", name="A law", **keys)


def test_a_floor_is_the_cost_and_its_part():
    assert terms(parts_floor="0.30").floor_of(Decimal("40.00")) == Decimal("52.00")


def test_without_a_floor_there_is_none():
    assert terms().floor_of(Decimal(40)) is None


def test_a_floor_of_nothing_is_the_cost():
    assert terms(parts_floor="0").floor_of(Decimal(40)) == 40


def test_silence_means_nothing_where_the_terms_do_not_say():
    assert terms().silence == "nothing"


@pytest.mark.parametrize("key", ["answer_within", "pay_within", "resubmit_within", "inspect_within", "audit_reach"])
def test_terms_that_are_absent_are_not_known_to_exist(key):
    assert getattr(terms(), key) is None


def test_a_term_is_a_period():
    with pytest.raises(ValidationError, match="period"):
        terms(answer_within="30 days")


def test_a_floor_below_nothing_is_refused():
    with pytest.raises(ValidationError, match="parts_floor"):
        terms(parts_floor="-0.1")


FLOOR = Terms(id="x", name="x", parts_floor="0.15", labour_floor="retail")
NONE = Terms(id="x", name="x")


@pytest.mark.parametrize(("handling", "gap"), [("0.14", "1.00"), ("0.15", "0"), ("0.16", "0")])
def test_a_plan_that_pays_the_floor_has_no_gap(handling, gap):
    assert parts_floor_gap(Decimal(100), Decimal(handling), FLOOR, "USD") == Decimal(gap)


def test_terms_without_a_floor_have_no_gap():
    assert parts_floor_gap(Decimal(100), Decimal(0), NONE, "USD") == 0


@pytest.mark.parametrize(("paid", "gap"), [("91.99", "0.01"), ("92.00", "0"), ("92.01", "0")])
def test_labour_below_the_retail_rate_has_a_gap(paid, gap):
    assert labour_floor_gap(Decimal(paid), Decimal("92.00"), FLOOR) == Decimal(gap)


def test_labour_has_no_floor_where_the_terms_have_none():
    assert labour_floor_gap(Decimal(1), Decimal(92), NONE) == 0


def test_a_shop_without_a_retail_rate_has_no_gap():
    assert labour_floor_gap(Decimal(1), None, FLOOR) == 0


@pytest.mark.parametrize(("cites", "section"), [("XX Code 1", "XX Code 1"), ("", "A law")])
def test_terms_are_cited_by_their_section_else_by_their_name(cites, section):
    assert terms(cites=cites).section == section


@pytest.mark.parametrize(("own", "section"), [("XX Code 2", "XX Code 2"), ("", "XX Code 1")])
def test_what_a_question_does_is_cited_by_a_section_of_its_own_where_it_has_one(own, section):
    assert terms(cites="XX Code 1", question_cites=own).question_section == section


@pytest.mark.parametrize(("question", "runs"), [("runs on", True), ("stops", False), (None, False)])
def test_the_time_to_answer_runs_on_through_a_question_where_the_terms_say_so(question, runs):
    assert terms(**({"question": question} if question else {})).runs_on is runs


def test_a_maker_may_refuse_a_favour_without_saying_why():
    asked = terms(without_grounds="accepted", answer_within="P30D")
    assert asked.of_a_favour == asked.model_copy(update={"without_grounds": "nothing"})


@pytest.mark.parametrize(
    ("asked", "known", "unread"),
    [(terms(), True, ""), (NOT_KNOWN, False, ""), (not_read("us-yy"), False, "us-yy")],
    ids=["read", "of a shop that has its own", "named and not there"],
)
def test_terms_are_read_or_nobody_here_knows_them(asked, known, unread):
    assert (asked.is_known, asked.unread) == (known, unread)


def test_of_claims_those_are_told_whose_terms_are_named_and_not_there():
    asked = {"26-0001": terms(), "26-0002": not_read("us-yy"), "26-0003": NOT_KNOWN}
    assert unread_of(asked) == {"26-0002": "us-yy"}


NAMED = {"26-0002": "us-yy", "26-0001": "us-yy", "26-0003": "us-zz"}


def test_claims_whose_terms_cannot_be_read_are_told_by_terms_in_order():
    assert claims_by_terms(NAMED) == {"us-yy": ["26-0001", "26-0002"], "us-zz": ["26-0003"]}


def test_each_of_the_terms_that_cannot_be_read_has_one_sentence():
    assert ["us-yy" in sentence for sentence in unread_said(NAMED)] == [True, False]
