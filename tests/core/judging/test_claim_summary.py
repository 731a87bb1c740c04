from datetime import date
from decimal import Decimal

import pytest
from builders import TODAY, a_claim, a_plan, a_window

from claimpack.core.judging.assessment import assess
from claimpack.core.judging.claim_summary import ClaimSummary, maker_shown, maker_words, summary_of


def test_a_digest_tells_the_verdict_and_what_is_claimed():
    claim = a_claim(labour=[{"operation": "short-block-replace", "hours": "1.6"}])
    short = summary_of(assess(claim, [a_plan()], TODAY))
    assert (short.plan, short.verdict, short.covered_until) == ("halden-test", "covered", date(2026, 3, 14))
    assert (short.claimed, short.currency) == (Decimal("147.20"), "USD")


def test_a_digest_tells_until_when_to_file():
    plan = a_plan(filing={"within": "P30D", "of": "repaired"})
    assert summary_of(assess(a_claim(), [plan], TODAY)).file_by == date(2026, 3, 26)


def test_without_a_repair_there_is_no_day_to_file_by():
    plan = a_plan(filing={"within": "P30D", "of": "repaired"})
    assert summary_of(assess(a_claim(dates__repaired=None), [plan], TODAY)).file_by is None


def test_a_digest_tells_how_long_parts_are_held():
    short = summary_of(assess(a_claim(), [a_plan(hold={"for": "P90D", "of": "filed"})], TODAY))
    assert (short.hold_for, short.hold_of) == ("P90D", "filed")


def test_a_claim_without_a_plan_is_undecided_and_claims_nothing():
    assert summary_of(assess(a_claim(), [], TODAY)) == ClaimSummary(verdict="undecided")


def test_a_digest_names_the_maker_as_the_plan_does():
    short = summary_of(assess(a_claim(), [a_plan(maker_name="Halden Tools")], TODAY))
    assert (short.maker, short.maker_name) == ("halden", "Halden Tools")


def test_without_a_plan_for_the_unit_another_plan_of_the_maker_names_it():
    plan = a_plan(maker_name="Halden Tools", models=["HT-*"])
    assert summary_of(assess(a_claim(), [plan], TODAY)).maker_name == "Halden Tools"


def test_a_maker_is_shown_by_one_name_and_asked_for_by_each():
    claim, known = a_claim(maker="TESSALY"), ClaimSummary(maker="tessaly", maker_name="Tessaly Pumps")
    assert (maker_shown(claim, known), maker_words(claim, known)) == ("Tessaly Pumps", ("tessaly", "tessaly pumps"))


def test_a_digest_that_knows_no_maker_leaves_the_claims_own_word():
    claim = a_claim(maker="Halden")
    assert (maker_shown(claim, ClaimSummary()), maker_words(claim, ClaimSummary())) == ("Halden", ("halden",))


APPROVAL = {"requires__approval_components": ["short block"]}


@pytest.mark.parametrize(
    ("changes", "wanted"),
    [({}, True), ({"approval": {"number": "A-7"}}, False), ({"dates__presented": date(2030, 1, 1)}, False)],
    ids=["lacking", "given", "not covered"],
)
def test_a_digest_tells_whether_the_makers_approval_is_lacking(changes, wanted):
    claim = a_claim(dates__repaired=None, dates__failed=None, **changes)
    assert summary_of(assess(claim, [a_plan(**APPROVAL)], TODAY)).approval_wanted is wanted


@pytest.mark.parametrize("first", [True, False])
def test_a_digest_tells_whether_the_failed_part_goes_back_first(first):
    plan = a_plan(requires={"part_returned_first": first})
    assert summary_of(assess(a_claim(), [plan], TODAY)).part_first is first


@pytest.mark.parametrize(("owes", "file_by"), [({}, date(2026, 3, 26)), ({"owed_by": "seller"}, None)])
def test_what_the_seller_alone_owes_has_no_day_to_file_by(owes, file_by):
    plan = a_plan(window=[a_window(**owes)], filing={"within": "P30D", "of": "repaired"})
    short = summary_of(assess(a_claim(), [plan], TODAY))
    assert (short.file_by, short.seller_alone) == (file_by, file_by is None)
