from datetime import date

import pytest

from claimpack.core.holding.release_rules import (
    NOT_INSPECTED,
    RAN_OUT,
    RELEASED,
    WITHDRAWN,
    Keeping,
    LetGo,
    kept_until,
    lets_go,
    not_settled,
    why_kept,
    worth_keeping,
)

LAST = date(2026, 3, 10)
BEFORE, AFTER = date(2026, 3, 9), date(2026, 3, 11)


def rule(part, on):
    found = lets_go(part, on)
    return found.rule if found else None


@pytest.mark.parametrize(("on", "named"), [(BEFORE, None), (LAST, None), (AFTER, RAN_OUT)])
def test_the_last_day_of_the_hold_still_counts(on, named):
    assert rule(Keeping("held", keep_until=LAST), on) == named


@pytest.mark.parametrize(("on", "named"), [(BEFORE, None), (LAST, None), (AFTER, NOT_INSPECTED)])
def test_the_last_day_to_inspect_still_counts(on, named):
    assert rule(Keeping("held", inspect_by=LAST), on) == named


def test_a_released_part_may_go_at_once():
    assert rule(Keeping("released", keep_until=LAST), BEFORE) == RELEASED


def test_a_part_called_back_goes_to_the_maker_whatever_ran_out():
    assert rule(Keeping("called back", keep_until=LAST, inspect_by=LAST), AFTER) is None


def test_the_rules_are_kept_in_the_book_by_these_words():
    assert (RELEASED, RAN_OUT, NOT_INSPECTED, WITHDRAWN) == (
        "released by the maker",
        "the hold ran out",
        "the time to inspect passed",
        "its claim was withdrawn",
    )


def test_a_part_with_no_day_is_kept_until_released():
    part = Keeping("held")
    assert (rule(part, AFTER), kept_until(part)) == (None, None)
    assert "no day is known" in why_kept(part)


def test_the_nearer_of_hold_and_inspection_lets_a_part_go():
    assert kept_until(Keeping("held", keep_until=LAST, inspect_by=BEFORE)) == BEFORE


def test_a_refusal_names_the_day_from_which_the_part_may_go():
    assert "it may go from 2026-03-11" in why_kept(Keeping("held", keep_until=LAST))


def test_a_refusal_of_a_part_called_back_says_so():
    assert "called it back" in why_kept(Keeping("called back"))


def test_the_reason_cites_the_section():
    found = lets_go(Keeping("held", inspect_by=LAST, cites="Code 1"), AFTER)
    assert "Code 1" in found.because


@pytest.mark.parametrize(("state", "named"), [("held", WITHDRAWN), ("called back", None)])
def test_a_part_of_a_withdrawn_claim_may_go_unless_the_maker_called_it_back(state, named):
    assert rule(Keeping(state, keep_until=LAST, withdrawn=True), BEFORE) == named


def test_a_hold_that_ran_out_goes_before_the_withdrawn_claim():
    assert rule(Keeping("held", keep_until=LAST, withdrawn=True), AFTER) == RAN_OUT


@pytest.mark.parametrize(
    ("named", "owed", "doubted"),
    [
        (RAN_OUT, "150.00 USD", True),
        (RAN_OUT, "", False),
        (RELEASED, "150.00 USD", False),
        (NOT_INSPECTED, "150.00 USD", False),
    ],
)
def test_a_part_that_only_its_hold_lets_go_is_doubted_while_money_is_outstanding(named, owed, doubted):
    assert bool(worth_keeping(LetGo(named, "because"), "refused", owed)) is doubted


@pytest.mark.parametrize(("named", "doubted"), [(RAN_OUT, True), (RELEASED, False)])
def test_a_part_of_a_claim_still_to_be_filed_is_its_evidence(named, doubted):
    said = worth_keeping(LetGo(named, "because"), "draft", "")
    assert ("still to be filed, and the part is its evidence" in said) is doubted


@pytest.mark.parametrize(("named", "doubted"), [(RAN_OUT, True), (RELEASED, False)])
def test_a_part_of_a_paid_claim_is_evidence_for_its_refused_rest(named, doubted):
    said = worth_keeping(LetGo(named, "because"), "paid", "", "31.78 USD")
    assert ("paid, with 31.78 USD not accepted and not decided, and the part is evidence" in said) is doubted


@pytest.mark.parametrize(
    ("owed", "refused", "waits"),
    [
        ("150.00 USD", "", "accepted with 150.00 USD outstanding"),
        ("150.00 USD", "31.78 USD", "accepted with 150.00 USD outstanding"),
        ("", "31.78 USD", "accepted, with 31.78 USD not accepted and not decided"),
    ],
    ids=["owed", "owed and refused", "refused"],
)
def test_what_is_outstanding_is_told_before_what_was_refused(owed, refused, waits):
    assert not_settled("accepted", owed, refused) == f"the claim is {waits}"
