"""One claim, two failures: the short block in its second year, the handle out of cover, the battery another maker's."""

from __future__ import annotations

from datetime import date

import pytest
from booklets import notes, told, totals, under
from builders import a_claim, a_plan, a_window

from claimpack.core.judging.assessment_json import as_json
from claimpack.core.verdict.failures import (
    closed_of,
    cover_of,
    cover_years_from,
    judged_failures,
    owed_by_the_seller_alone,
)

BOOKLET = """
elsewhere = [ {components = ["battery"], maker = "voltane", because = "the battery has a maker of its own"} ]
operation = [
    {code = "block", hours = "1.6", includes = ["handle"]},
    {code = "handle", hours = "0.4"},
]
[[window]]
id = "unit"
name = "whole unit"
covers = ["*"]
period = "P6M"
[[window]]
id = "engine"
name = "engine warranty"
covers = ["short block"]
period = "P24M"
[excluded]
defects = ["wear"]
[pays]
labour_rate = "90.00"
parts_handling = "0.10"
[words]
handle = []
"""
PARTS = """
parts = [ {name = "block", unit_cost = "200.00"}, {name = "grip", unit_cost = "30.00", failure = 2} ]
labour = [ {operation = "handle", failure = 2} ]
extras = [ {what = "freight", amount = "12.00", failure = 2} ]
"""


ONE = '{{component = "{word}", cause = "It broke.", correction = "Renewed.", defect = "material"}}'


def failed(*words: str) -> str:
    return f"failure = [ {', '.join(ONE.format(word=word) for word in words)} ]\n"


def verdicts(found) -> list[tuple[str, str]]:
    return [(one.verdict, one.judgement.window.id if one.judgement.window else "") for one in found.failures]


def test_each_failure_has_the_verdict_of_its_own_windows():
    found = under(BOOKLET, failed("short block", "handle"))
    assert verdicts(found) == [("covered", "engine"), ("not covered", "")]


@pytest.mark.parametrize(
    ("words", "verdict"),
    [
        (("short block", "handle"), "covered"),
        (("handle", "short block"), "covered"),
        (("handle", "frobnicator"), "undecided"),
        (("frobnicator", "short block"), "covered"),
        (("handle", "battery"), "not covered"),
    ],
)
def test_a_claim_is_covered_if_a_failure_is_else_undecided_if_one_is(words, verdict):
    assert under(BOOKLET, failed(*words)).verdict == verdict


def test_what_is_for_a_failure_not_covered_is_the_owner_s():
    # parts 200.00, handling 20.00; the grip 30.00, 0.4 h x 90.00 = 36.00 and the freight 12.00 are left: 78.00
    found = under(BOOKLET, failed("short block", "handle") + PARTS)
    assert totals(found, "claimed", "owner", "shop") == ("220.00", "78.00", "0.00")


def test_an_operation_for_a_failure_not_covered_includes_nothing_of_one_that_is():
    work = 'labour = [ {operation = "block", failure = 2}, {operation = "handle"} ]'
    found = under(BOOKLET, failed("short block", "handle") + work)
    # 0.4 h x 90.00 is the maker's; 1.6 h x 90.00 the owner's
    assert totals(found, "claimed", "owner") == ("36.00", "144.00")


def test_nor_does_one_of_whose_labour_the_maker_pays_nothing():
    plan = BOOKLET.replace('period = "P6M"', 'period = "P12M"\npays = ["parts"]\nexcept = ["short block"]')
    work = 'labour = [ {operation = "block", failure = 2}, {operation = "handle"} ]'
    assert totals(under(plan, failed("short block", "handle") + work), "claimed") == ("36.00",)


def test_what_another_maker_covers_is_for_a_claim_with_that_maker():
    found = under(BOOKLET, failed("short block", "battery") + PARTS)
    assert totals(found, "claimed", "owner", "other_maker") == ("220.00", "0.00", "78.00")
    assert notes(found, 2) == ["Failure 2, battery: for a claim with voltane."]


def test_each_failure_is_paid_by_its_own_windows():
    plan = BOOKLET.replace('period = "P6M"', 'period = "P12M"\npays = ["parts"]\nexcept = ["short block"]')
    found = under(plan, failed("short block", "handle") + PARTS)
    # the handle's window pays parts alone: 200.00 + 20.00 + 30.00 + 3.00, and 36.00 + 12.00 are left
    assert totals(found, "claimed", "owner") == ("253.00", "48.00")


def test_every_line_names_its_failure():
    found = under(BOOKLET, failed("short block", "handle") + PARTS)
    assert [str(line.notes[0]) for line in found.price.lines[:2]] == [
        "Failure 1, short block.",
        "Failure 2, handle: not covered.",
    ]


def test_nothing_is_claimed_where_none_is_covered():
    found = under(BOOKLET, failed("handle", "battery") + PARTS)
    assert totals(found, "claimed", "would_be")[0] == "0.00"


def test_a_failure_still_open_beside_a_covered_one_blocks_filing_and_is_named():
    found = under(BOOKLET, failed("short block", "frobnicator"))
    item = next(item for item in found.missing if item.what.key == "missing.verdict-of")
    assert (item.blocks_filing, item.what.facts["failure"], found.complete) == (True, "2", False)


def test_cause_correction_and_defect_are_asked_of_each_that_the_maker_may_pay():
    claim = 'failure = [ {component = "short block"}, {component = "short block"}, {component = "handle"} ]'
    asked = [(item.what.key, item.what.facts.get("failure")) for item in under(BOOKLET, claim).missing]
    assert [each for each in asked if each[0].endswith("-of")] == [
        ("missing.defect-of", "1"),
        ("missing.defect-of", "2"),
        ("missing.cause-of", "1"),
        ("missing.correction-of", "1"),
        ("missing.cause-of", "2"),
        ("missing.correction-of", "2"),
    ]


def test_an_approval_is_asked_for_whichever_failure_needs_it():
    plan = BOOKLET + '[requires]\napproval_components = ["short block"]'
    found = under(plan, failed("handle", "short block"))
    assert "missing.approval" in [item.what.key for item in found.missing]


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("short block", "handle"), "Covered: short block; not covered: handle."),
        (("short block", "short block"), "Covered: short block, short block."),
        (("handle", "frobnicator"), "Cannot say yet: frobnicator; not covered: handle."),
    ],
)
def test_the_headline_names_what_is_covered_and_what_is_not(words, said):
    assert str(under(BOOKLET, failed(*words)).headline) == said


@pytest.mark.parametrize(
    ("words", "key"),
    [
        (("short block", "frobnicator"), "answer.failures-covered-open"),
        (("short block", "handle", "frobnicator"), "answer.failures-all-ways"),
        (("handle", "handle"), "answer.failures-closed"),
        (("frobnicator", "frobnicator"), "answer.failures-open"),
    ],
)
def test_the_headline_has_words_for_whatever_the_failures_come_to(words, key):
    assert under(BOOKLET, failed(*words)).headline.key == key


def test_scripts_read_each_failure_and_the_first_covered_one_above():
    told_ = as_json(under(BOOKLET, failed("handle", "short block")))
    assert (told_["window"], [(one["failure"], one["verdict"]) for one in told_["failures"]]) == (
        "engine",
        [(1, "not covered"), (2, "covered")],
    )


def test_one_failure_written_as_a_list_is_a_failure_as_ever():
    found = under(BOOKLET, failed("short block") + 'parts = [ {name = "block", unit_cost = "1.00"} ]')
    assert (found.failures, "failures" in as_json(found)) == ((), False)
    assert told(found) == [("block", "1.00", "0.10", "maker")]


def test_a_line_for_a_failure_that_is_not_there_is_refused():
    with pytest.raises(ValueError, match="failure is 3, and the claim has 2 failures"):
        under(BOOKLET, failed("short block", "handle") + 'parts = [ {name = "grip", failure = 3} ]')


def test_nothing_is_asked_of_an_extra_for_a_failure_that_is_not_covered():
    plan = BOOKLET.replace("[pays]", '[pays]\nextras = [ {kind = "freight", cap = "50.00"} ]')
    found = under(plan, failed("short block", "handle") + PARTS)
    assert "missing.extra-kind" not in [item.what.key for item in found.missing]


def test_only_a_failure_that_is_still_open_asks_for_anything():
    found = under(BOOKLET, failed("short block", "frobnicator", "handle")).failures
    assert [one.asks for one in found] == [(), ("failure.component",), ()]


@pytest.mark.parametrize(
    ("words", "apart"),
    [(("short block", "handle"), {2}), (("handle", "handle"), set())],
    ids=["beside a covered one", "none is covered"],
)
def test_a_failure_that_is_not_covered_is_told_apart_where_another_is(words, apart):
    assert closed_of(under(BOOKLET, failed(*words)).failures) == apart


def test_pricing_goes_by_which_failures_are_not_covered():
    found = under(BOOKLET, failed("short block", "handle"))
    assert cover_of(found.plan, found.failures).closed == {2}


MAKERS, SELLERS = a_window(id="makers"), a_window(id="by-law", owed_by="seller")


@pytest.mark.parametrize(
    ("windows", "alone"),
    [([SELLERS], True), ([SELLERS, a_window(period="P1M")], True), ([SELLERS, MAKERS], False), ([MAKERS], False)],
    ids=["the seller's", "the maker's is over", "the maker's too", "the maker's"],
)
def test_the_seller_alone_owes_what_no_window_of_the_maker_holds_for(windows, alone):
    plan = a_plan(window=windows)
    assert owed_by_the_seller_alone(plan, judged_failures(a_claim(), plan)) is alone


def years_from(plan, **changes):
    """The day the years of a cap for the unit are counted from."""
    return cover_years_from(plan, judged_failures(a_claim(**changes), plan))


FIRST_USE = a_plan(window=[a_window(start=["in_service"])])
USED = {"dates__in_service": "2025-06-01"}


def test_the_years_of_cover_go_by_the_plans_own_start():
    assert years_from(FIRST_USE, **USED) == date(2025, 3, 14)


def test_the_years_of_cover_are_not_known_while_the_plans_own_start_is_not():
    assert years_from(FIRST_USE, **USED, dates__purchased=None, dates__delivered=None) is None


def test_where_the_plans_own_start_never_comes_the_years_go_by_the_first_window_that_holds():
    plan = a_plan(start=["registered"], window=[a_window(start=["in_service"]), a_window(id="b", start=["purchased"])])
    assert years_from(plan, **USED, dates__never_registered=True) == date(2025, 3, 14)


def test_the_years_of_a_part_sold_go_by_its_receipt():
    plan = a_plan(window=[a_window(covers=["parts sold"])])
    assert years_from(plan, case="part", part_sold={"sold": "2026-01-01"}) == date(2026, 1, 1)
