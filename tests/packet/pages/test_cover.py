from __future__ import annotations

import pytest
from builders import TODAY, a_claim, a_plan, a_window
from drawn_packets import a_layout, draw, page_texts, reader
from inked import ink_on, words_on
from pypdfium2 import PdfDocument

from claimpack.core.judging.assessment import Circumstances, assess
from claimpack.packet.drawing.evidence import PageEvidence, ShopFacts
from claimpack.packet.drawn_pages import draw_pages
from claimpack.printing.palette import ACCENT, WHITE

ALONE = a_layout(sections=["cover"])


def cover(claim=None, plan=None, layout=ALONE, **evidence) -> str:
    return page_texts(draw(claim, plan, layout, **evidence))[0]


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


VERDICTS = {
    "COVERED": ({}, True, False),
    "NOT COVERED": ({"failure__defect": "wear"}, False, False),
    "UNDECIDED": ({"dates__delivered": None, "dates__purchased": None}, False, True),
}


@pytest.mark.parametrize("verdict", VERDICTS)
def test_a_verdict_is_told_by_form_a_full_band_a_frame_or_a_broken_frame(verdict):
    changes, is_filled, is_dashed = VERDICTS[verdict]
    page = PdfDocument(draw(a_claim(**changes), a_plan(excluded={"defects": ["wear"]}), ALONE).pdf)[0]
    said = next(one for one in words_on(page) if one.words == verdict)
    around = [one for one in ink_on(page) if one.bottom < said.bottom < said.top < one.top < said.top + 60]
    assert any(one.is_filled and one.colour == ACCENT for one in around) == is_filled
    assert any(one.is_dashed for one in around) == is_dashed
    assert any(one.is_upright and one.broad > 1.5 for one in around) == (not is_filled)
    assert (said.colour == WHITE) == is_filled


def filed_anyway(**changes) -> str:
    filed = assess(
        a_claim(**changes), [a_plan(excluded={"defects": ["wear"]})], TODAY, Circumstances(anyway="By phone.")
    )
    return page_texts(draw_pages(filed, ALONE, PageEvidence()))[0]


def test_why_it_is_filed_all_the_same_is_told_unless_a_favour_is_asked():
    assert "Filed all the same: By phone." in filed_anyway()
    assert "Filed all the same" not in filed_anyway(**ASKED)
    assert "Filed all the same" not in cover()


@pytest.mark.parametrize(("count", "more"), [(6, False), (7, True)])
def test_six_missing_things_are_told_one_by_one(count, more):
    plan = a_plan(requires={"shots": [f"shot {n}" for n in range(count)], "held_part": False})
    assert ("and 1 more under" in cover(plan=plan), "and 0 more" in cover(plan=plan)) == (more, False)


@pytest.mark.parametrize(("count", "more"), [(7, False), (8, True)])
def test_seven_windows_are_drawn_and_no_others_are_counted(count, more):
    windows = [{"id": f"w{n}", "covers": ["*"], "period": "P12M"} for n in range(count)]
    assert ("more windows under" in cover(plan=a_plan(window=windows))) == more


@pytest.mark.parametrize("count", [2, 4, 8])
def test_of_windows_that_do_not_apply_every_one_is_named_or_counted(count):
    names = [f"the quite long rental window number {n}" for n in range(count)]
    rental = [a_window(id=f"r{n}", name=name, uses=["rental"]) for n, name in enumerate(names)]
    said = cover(plan=a_plan(window=[a_window(), *rental]))
    named = sum(name in said for name in names)
    assert (f"and {count - named} more under" in said) == (named < count)


@pytest.mark.parametrize(("mail", "links"), [("mail@example.com", 1), ("", 0)])
def test_the_shops_mail_address_leads_to_write_to_it(mail, links):
    shop = ShopFacts("Quarry Road", "41 Quarry Road", "555-0100", mail, "QR-2210")
    page = reader(draw(layout=ALONE, shop=shop)).pages[0]
    uris = [note.get_object()["/A"]["/URI"] for note in page.get("/Annots", [])]
    assert uris == ["mailto:mail@example.com"] * links


@pytest.mark.parametrize(("number", "size"), [("26-00012345", 18), ("26-000123456", 8)])
def test_a_number_of_up_to_eleven_signs_is_printed_large(number, size):
    page = PdfDocument(draw(a_claim(number=number), layout=ALONE).pdf)[0]
    large = max((one for one in words_on(page) if one.words == number), key=lambda one: one.top - one.bottom)
    assert large.top - large.bottom == pytest.approx(size, abs=3)


@pytest.mark.parametrize("changes", [{}, ASKED], ids=["not ready", "a favour"])
def test_no_frame_of_the_cover_runs_into_the_margin(changes):
    plan = a_plan(excluded={"defects": ["wear"]}, requires={"shots": ["serial plate"]})
    left, _, width, _ = ALONE.body
    ink = ink_on(PdfDocument(draw(a_claim(**changes), plan, ALONE).pdf)[0])
    assert (min(one.left for one in ink), max(one.right for one in ink)) == pytest.approx((left, left + width), abs=0.1)
