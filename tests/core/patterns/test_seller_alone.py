import pytest
from builders import TODAY, a_claim, a_plan, a_window

from claimpack.commands.screen.telling import before_filing
from claimpack.core.judging.assessment import assess
from claimpack.core.judging.claim_summary import summary_of
from claimpack.core.steps.filing import blocks

SELLERS = a_window(id="by-law", owed_by="seller")
RECOURSE = a_window(id="by-law", owed_by="seller", recourse=True)
MAKERS = a_window(id="makers")
CLOSED = a_window(id="makers", period="P1M")
OPEN = a_window(id="makers", hours=100)
LABOUR = [{"operation": "short-block-replace", "hours": "1.6"}]


def assessed(*windows, **changes):
    plan = a_plan(window=list(windows), filing={"within": "P30D", "of": "repaired"}, pays__labour_rate="92.00")
    return assess(a_claim(labour=LABOUR, failure__cause="", **changes), [plan], TODAY)


@pytest.mark.parametrize(
    ("windows", "alone"),
    [([SELLERS], True), ([SELLERS, CLOSED], True), ([RECOURSE], False), ([SELLERS, MAKERS], False), ([CLOSED], False)],
    ids=["the seller's", "the maker's closed", "recourse", "the maker's too", "not covered"],
)
def test_only_what_no_window_of_the_maker_may_pay_is_the_sellers_alone(windows, alone):
    assert assessed(*windows).seller_alone == alone


def test_while_a_window_of_the_maker_may_still_hold_it_is_not_the_sellers_alone():
    assert not assessed(SELLERS, OPEN, unit__hours=None, unit__meter=True).seller_alone


def test_what_is_the_sellers_alone_has_no_day_to_file_by_and_need_not_be_filed():
    found = assessed(SELLERS)
    assert (found.need_not_be_filed, found.late, summary_of(found).file_by) == (True, None, None)
    assert not [each for each in found.deadlines if each.what.key == "deadline.file-by"]
    assert [title for title in before_filing(found) if "before it can be filed" in title] == []


def test_filing_what_is_the_sellers_alone_wants_a_reason():
    assert len(blocks(assessed(SELLERS))) == len(blocks(assessed(MAKERS))) + 1
