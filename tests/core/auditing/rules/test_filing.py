from datetime import date
from decimal import Decimal

import pytest
from audits import DRAFT, FILED, WITHDRAWN, a_picture, an_audited, found_by, with_pictures
from builders import a_plan

from claimpack.core.steps.filing import FilingCourse

MARCH_26 = date(2026, 3, 26)
LIMITED = a_plan(filing={"within": "P30D", "of": "repaired"})


def filed_on(day, first=None):
    standing = FILED.model_copy(update={"filed": day})
    return an_audited()._replace(plan=LIMITED, standing=standing, course=FilingCourse(first or day))


@pytest.mark.parametrize(("day", "count"), [(25, 0), (26, 0), (27, 1)], ids=["before", "last day", "day after"])
def test_a_claim_is_late_the_day_after_the_limit(day, count):
    assert len(found_by("filed-late", filed_on(date(2026, 3, day)))) == count


def test_late_filing_says_the_days_and_the_limit():
    found = found_by("filed-late", filed_on(date(2026, 4, 1)))[0]
    assert found.what == "It was filed on 2026-04-01; the last day to file was 2026-03-26, 30 days after 2026-02-24."
    assert found.weight == "serious"


def test_a_claim_sent_again_later_was_filed_in_time():
    assert not found_by("filed-late", filed_on(date(2026, 5, 1), first=MARCH_26))


def test_a_number_without_the_makers_form_is_told_as_that_and_not_as_missing():
    plan = a_plan(requires={"serial_patterns": {"unit": "HC70-[0-9]{3}"}})
    odd = an_audited(serial="HC70-1O1")._replace(plan=plan)
    found = found_by("serial-of-another-form", odd)
    assert ([each.evidence["serial"] for each in found], found_by("evidence-missing", odd)) == (["HC70-1O1"], [])


@pytest.mark.parametrize(
    "change", [{"standing": DRAFT}, {"course": FilingCourse(elsewhere=True)}], ids=["a draft", "filed elsewhere"]
)
def test_a_number_of_another_form_is_told_of_what_was_filed_from_here_alone(change):
    plan = a_plan(requires={"serial_patterns": {"unit": "HC70-[0-9]{3}"}})
    assert not found_by("serial-of-another-form", an_audited(serial="HC70-1O1")._replace(plan=plan, **change))


@pytest.mark.parametrize(
    "change", [{"plan": None}, {"plan": a_plan()}, {"standing": DRAFT}], ids=["none", "no limit", "draft"]
)
def test_without_a_limit_or_a_filing_nothing_is_late(change):
    assert not found_by("filed-late", filed_on(date(2026, 5, 1))._replace(**change))


def test_a_packet_that_was_changed_is_serious():
    changed = an_audited()._replace(packet_damage="is gone")
    found = found_by("packet-changed", changed)
    assert [each.what for each in found] == ["The packet filed on 2026-02-25 is gone."]


def test_a_packet_as_it_was_is_sound():
    assert not found_by("packet-changed", an_audited())


def filed_anyway(verdict="", against="", anyway="Owner insists."):
    course = FilingCourse(MARCH_26, verdict=verdict, against=against, anyway=anyway)
    return found_by("filed-over-block", an_audited()._replace(course=course))


@pytest.mark.parametrize(
    ("facts", "said", "weight"),
    [
        ({"verdict": "not covered"}, " although it was not covered; the reason given: Owner insists.", "serious"),
        ({"verdict": "undecided"}, " although it was undecided; the reason given: Owner insists.", "look"),
        (
            {"verdict": "covered", "against": "No proof."},
            " although something spoke against it; the reason given: Owner insists.",
            "look",
        ),
        ({"verdict": "covered"}, "; the reason given: Owner insists.", "look"),
    ],
    ids=["not covered", "undecided", "against it", "an older book"],
)
def test_a_claim_filed_over_a_block_is_told_with_the_reason(facts, said, weight):
    assert [(each.what, each.weight) for each in filed_anyway(**facts)] == [
        (f"It was filed on 2026-02-25{said}", weight)
    ]


def test_a_claim_that_nothing_spoke_against_is_not_told():
    assert filed_anyway(verdict="covered", anyway="") == []


@pytest.mark.parametrize(
    ("case", "besides", "told"),
    [
        ("goodwill", {}, 0),
        ("goodwill", {"against": "No proof."}, 1),
        ("goodwill", {"anyway": "They know."}, 1),
        ("repair", {}, 1),
    ],
)
def test_a_favour_that_was_asked_as_one_and_complete_is_not_told(case, besides, told):
    course = FilingCourse(first_filed=MARCH_26, verdict="not covered", **besides)
    asked = an_audited(case=case)._replace(course=course)
    assert len(found_by("filed-over-block", asked)) == told


def test_what_spoke_against_a_filing_is_in_the_evidence():
    assert filed_anyway(verdict="covered", against="No proof.")[0].evidence["against"] == "No proof."


def test_a_withdrawn_claim_is_not_held_against_its_filing():
    course = FilingCourse(MARCH_26, verdict="not covered")
    assert not found_by("filed-over-block", an_audited()._replace(course=course, standing=WITHDRAWN))


CORRECTED = FilingCourse(date(2026, 2, 25), date(2026, 2, 27), "hours were wrong")


def test_a_correction_not_sent_again_is_worth_a_look():
    found = found_by("corrected-after-filing", an_audited()._replace(course=CORRECTED))
    assert [(each.weight, each.evidence["why"]) for each in found] == [("look", "hours were wrong")]


def test_a_draft_has_nothing_sent_to_differ_from():
    assert not found_by("corrected-after-filing", an_audited()._replace(course=CORRECTED, standing=DRAFT))


DEMANDING = a_plan(
    requires={
        "proof": True,
        "serial_roles": ["unit", "engine"],
        "shots": ["serial plate"],
        "findings": ["compression"],
        "approval_above": "50.00",
    }
)


def missing_of(audited):
    return [each.evidence["missing"] for each in found_by("evidence-missing", audited)]


def test_everything_the_plan_asks_for_is_missed_on_a_filed_claim():
    bare = an_audited(proof={})._replace(plan=DEMANDING)
    assert len(missing_of(bare)) == 5
    assert any("serial plate" in what for what in missing_of(bare))
    assert any("compression" in what for what in missing_of(bare))


def test_what_a_settled_finding_goes_by_has_its_figures_as_they_are_written():
    dear = FILED.model_copy(update={"claimed": Decimal("1908.82")})
    said = " ".join(
        each.what for each in found_by("evidence-missing", an_audited()._replace(plan=DEMANDING, standing=dear))
    )
    assert ("1908.82 USD is claimed" in said, "1,908.82" in said) == (True, False)


@pytest.mark.parametrize(("currency", "told"), [("CAD", "CAD"), ("", "USD")], ids=["its own", "the plan's"])
def test_what_needs_an_approval_is_told_in_the_currency_it_was_filed_in_else_the_plans(currency, told):
    standing = FILED.model_copy(update={"currency": currency})
    found = found_by("evidence-missing", an_audited()._replace(plan=DEMANDING, standing=standing))
    assert {said.facts["currency"] for each in found for said in each.says if "currency" in said.facts} == {told}


def test_a_unit_in_stock_was_not_filed_without_a_receipt():
    stock = an_audited(case="stock", proof={}, dates__purchased=None, dates__delivered=None)
    assert not any("purchase" in what for what in missing_of(stock._replace(plan=DEMANDING)))


def test_a_draft_may_still_lack_what_it_needs():
    assert not missing_of(an_audited(proof={})._replace(plan=DEMANDING, standing=DRAFT))


def test_an_approval_that_reaches_too_low_has_a_rule_of_its_own():
    low = an_audited(approval={"number": "A-1", "up_to": "60.00", "on": "2026-02-26"})
    plan = a_plan(requires={"approval_above": "50.00"})
    assert not missing_of(low._replace(plan=plan))


def test_a_file_that_is_named_and_not_kept_is_missing():
    claim = with_pictures(an_audited(), a_picture())
    assert missing_of(claim._replace(files=())) == ["papers/receipt.pdf", "photos/a.jpg"]


def test_a_claim_with_its_files_lacks_nothing():
    assert not missing_of(with_pictures(an_audited(), a_picture()))


@pytest.mark.parametrize(
    ("approved", "count"),
    [("2026-02-23", 0), ("2026-02-24", 0), ("2026-02-25", 1)],
    ids=["before", "same day", "after"],
)
def test_a_repair_before_the_approval_is_serious(approved, count):
    claim = an_audited(approval={"number": "A-1", "on": approved})
    assert [each.weight for each in found_by("repaired-before-approval", claim)] == ["serious"] * count


@pytest.mark.parametrize("rule", ["repaired-before-approval", "over-approval"])
def test_what_the_maker_refused_is_no_approval(rule):
    refused = {"state": "refused", "on": "2026-02-25", "up_to": "1.00"}
    assert not found_by(rule, an_audited(approval=refused))


@pytest.mark.parametrize(
    ("expired", "count"),
    [("2026-02-23", 1), ("2026-02-24", 0), ("2026-02-25", 0)],
    ids=["before", "same day", "after"],
)
def test_a_repair_after_the_approval_expired_is_serious(expired, count):
    claim = an_audited(approval={"number": "A-1", "expires": expired})
    assert [each.weight for each in found_by("approval-ran-out", claim)] == ["serious"] * count


@pytest.mark.parametrize(("standing", "weight"), [(DRAFT, ["look"]), (FILED, ["serious"]), (WITHDRAWN, [])])
def test_a_file_that_is_not_kept_weighs_more_once_the_claim_is_filed(standing, weight):
    claim = an_audited()._replace(files=(), standing=standing)
    assert [each.weight for each in found_by("evidence-missing", claim)] == weight
