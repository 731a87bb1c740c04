from __future__ import annotations

import pytest
from builders import a_claim, a_plan, a_window
from drawn_packets import a_layout, draw, page_texts

from claimpack.packet.drawing.evidence import ShopFacts


def cover(*args, **evidence) -> str:
    return page_texts(draw(*args, **evidence))[0]


@pytest.mark.parametrize(
    ("changes", "said"),
    [
        ({}, "COVERED Covered until 2026-03-14 under engine."),
        ({"failure__defect": "wear"}, "NOT COVERED Not covered: "),
        ({"dates__delivered": None, "dates__purchased": None}, "UNDECIDED Cannot say yet. "),
    ],
    ids=["covered", "not covered", "undecided"],
)
def test_the_verdict_is_said_in_words(changes, said):
    assert said in cover(a_claim(**changes), a_plan(excluded={"defects": ["wear"]}))


def test_a_claim_number_is_printed_large():
    assert "WARRANTY CLAIM 26-0001" in cover()


def test_a_shop_without_a_dealer_number_is_named_all_the_same():
    assert "555-0100" in cover(shop=ShopFacts("Quarry Road", "41 Quarry Road", "555-0100", "mail@example.com", ""))


def test_maker_shop_and_dealer_number_are_named():
    shop = ShopFacts("Quarry Road", "41 Quarry Road", "555-0100", "mail@example.com", "QR-2210")
    said = cover(plan=a_plan(maker_name="Halden Works"), shop=shop)
    assert "MAKER Halden Works" in said
    assert "SHOP Quarry Road 41 Quarry Road 555-0100 · mail@example.com Dealer no. QR-2210" in said


def test_what_blocks_filing_is_said_aloud():
    said = cover(plan=a_plan(requires={"shots": ["serial plate"]}))
    assert "NOT READY TO FILE: see to this first photo: serial plate" in said


def test_a_claim_that_is_not_covered_is_not_told_what_it_needs_to_be_filed():
    plan = a_plan(requires={"shots": ["serial plate"]}, excluded={"defects": ["wear"]})
    assert "NOT READY TO FILE" not in cover(a_claim(failure__defect="wear"), plan)


def test_a_long_list_of_what_is_missing_points_to_its_section():
    said = cover(plan=a_plan(requires={"shots": [f"shot {n}" for n in range(9)]}))
    assert "and 3 more under “What is missing”" in said


def test_a_complete_claim_raises_no_alarm():
    assert "NOT READY" not in cover()


def test_days_and_hours_left_are_those_of_the_day_judged():
    plan = a_plan(window=[{"id": "engine", "covers": ["*"], "period": "P12M", "hours": "300"}])
    assert "37 days left on the day judged · 200 h left" in cover(plan=plan)


def test_windows_beyond_those_drawn_are_counted():
    windows = [{"id": f"w{n}", "covers": ["*"], "period": "P12M"} for n in range(12)]
    assert "and 5 more windows under “Why: every window, with its reasons”" in cover(plan=a_plan(window=windows))


def test_windows_that_do_not_apply_and_have_no_room_are_counted():
    rental = {"covers": ["*"], "uses": ["rental"], "period": "P12M"}
    others = [rental | {"id": f"the-rental-window-{n}"} for n in range(9)]
    plan = a_plan(window=[{"id": "whole", "covers": ["*"], "period": "P12M"}, *others])
    assert "more under “Why: every window, with its reasons”" in cover(plan=plan)


def test_the_cover_of_an_ordinary_claim_is_one_page():
    assert "Why: every window" in page_texts(draw())[1]


def test_the_verdict_is_in_the_layouts_language():
    assert "CUBIERTA Cubierta hasta el 2026-03-14 por engine." in cover(layout=a_layout("carta-a4"))


def test_without_a_plan_the_cover_says_that_nothing_is_priced():
    assert "Not priced: no one plan is found" in cover(a_claim(maker="nobody"))


def test_the_makers_approval_is_told_with_its_limits():
    given = {"number": "A-1", "on": "2026-02-10", "by": "service desk", "up_to": "450.00", "expires": "2026-03-12"}
    said = cover(a_claim(approval=given))
    assert "A-1, given 2026-02-10, by service desk, up to" in said
    assert "450.00 USD, to be repaired by 2026-03-12" in said


LATE = a_plan(filing={"within": "P1D"})
ASKED = {"case": "goodwill", "failure__defect": "wear", "goodwill": {"because": "Failed twice.", "asks": "parts"}}


def test_a_missed_day_to_file_is_a_strip_under_the_verdict():
    said = cover(plan=LATE)
    assert (
        said.index("COVERED") < said.index("Late: the last day to file was 2026-02-25") < said.index("Amount claimed")
    )


def test_a_claim_in_time_has_no_strip():
    assert "Late:" not in cover(plan=a_plan(filing={"within": "P30D"}))


def test_a_favour_is_asked_with_its_reason_and_never_told_to_be_refused():
    said = cover(a_claim(**ASKED), a_plan(excluded={"defects": ["wear"]}))
    assert "REQUEST FOR GOODWILL engine: The plan does not cover damage from wear." in said
    assert ("Reason: Failed twice. Asked for: parts" in said, "NOT COVERED" in said) == (True, False)


def test_a_favour_asked_without_a_reason_says_so():
    said = cover(a_claim(**ASKED | {"goodwill": {}}), a_plan(excluded={"defects": ["wear"]}))
    assert "Reason: no reason is given yet" in said


def test_the_amount_of_what_is_not_covered_is_told_apart():
    claim = a_claim(failure__defect="wear", parts=[{"name": "Ring", "unit_cost": "8.00"}])
    said = cover(claim, a_plan(excluded={"defects": ["wear"]}))
    assert "Amount claimed 0.00 USD If it were covered: 8.00 USD" in said


def test_a_unit_in_stock_has_no_owner_on_the_cover():
    stock = a_claim(case="stock", owner=None, dates__purchased=None, dates__delivered=None)
    said = cover(stock)
    assert ("unit in dealer's stock" in said, "not sold yet, no owner" in said) == (True, True)


def test_a_part_sold_is_told_with_its_own_number_and_days():
    sold = {
        "name": "Ignition coil",
        "number": "70-3301-00",
        "serial": "S-1",
        "sold": "2026-01-10",
        "never_fitted": True,
    }
    said = cover(a_claim(case="part", part_sold=sold, dates__purchased=None, dates__delivered=None))
    assert all(part in said for part in ("PART SOLD", "70-3301-00", "S-1", "2026-01-10", "not by the shop"))


def test_a_claim_of_a_campaign_names_it():
    assert "campaign HC-2026-03" in cover(a_claim(case="campaign", campaign="HC-2026-03"))


@pytest.mark.parametrize(
    ("approval", "said"),
    [
        ({"state": "asked", "asked": "2026-02-06"}, "asked for 2026-02-06"),
        ({"state": "refused", "on": "2026-02-07"}, "refused 2026-02-07"),
        ({"number": "A-1", "conditions": "Send it back."}, "on this condition: Send it back."),
    ],
)
def test_an_approval_is_told_as_it_stands(approval, said):
    assert said in cover(a_claim(approval=approval))


def test_a_share_that_is_not_all_stands_beside_the_verdict():
    window = a_window(shares=[{"until": "P1Y", "maker": "0.50"}])
    assert "pays 50 % of it until" in cover(plan=a_plan(window=[window]))
