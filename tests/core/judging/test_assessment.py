from datetime import date, timedelta

import pytest
from assessed_claims import assessed
from builders import CAMPAIGN, TODAY, a_claim, a_plan, a_window
from hypothesis import given, settings
from hypothesis import strategies as st

from claimpack.core.judging.assessment import Circumstances, assess
from claimpack.core.judging.assessment_json import as_json
from claimpack.core.verdict.coverage import judge
from claimpack.errors import BadInput

UNFILED = {"failure__cause": ""}
LATE = {"dates__purchased": "2024-03-14", "dates__delivered": "2024-03-14"}


@pytest.mark.parametrize(
    ("changes", "code", "complete"),
    [
        ({}, 0, True),
        (UNFILED, 4, False),
        (LATE, 3, True),
        ({**LATE, **UNFILED}, 3, False),
        ({"failure__component": "seat"}, 4, False),
        ({"failure__component": None}, 4, False),
        ({"owner__name": ""}, 0, True),
    ],
    ids=[
        "covered",
        "covered but incomplete",
        "refused",
        "refused and incomplete",
        "no word of the plan",
        "open",
        "worth a look",
    ],
)
def test_the_answer_is_yes_no_or_not_yet(changes, code, complete):
    found = assessed(**changes)
    assert (found.exit_code, found.complete) == (code, complete)


def test_every_reason_is_kept_the_plans_first():
    assert [reason.rule for reason in assessed().reasons] == ["plan", "start", "event", "component", "age"]


def test_an_open_verdict_asks_for_the_facts_that_would_decide_it():
    plan = a_plan(window=[a_window(first_owner_only=True, hours=300)])
    assert assessed(plan, owner__first_owner=None, unit__hours=None).asks == ("owner.first_owner", "unit.hours")


def test_a_window_that_is_closed_asks_for_nothing():
    plan = a_plan(window=[a_window(first_owner_only=True), a_window(id="over", period="P6M", uses=["rental"])])
    assert assessed(plan, owner__first_owner=None, unit__use=None).asks == ("owner.first_owner",)


@pytest.mark.parametrize("owner", [True, False])
def test_a_settled_verdict_asks_for_nothing(owner):
    plan = a_plan(window=[a_window(first_owner_only=True), a_window(id="x", covers=["x"], uses=["rental"])])
    assert assessed(plan, owner__first_owner=owner, unit__use=None).asks == ()


@pytest.mark.parametrize(
    ("changes", "headline"),
    [
        ({"maker": "other"}, "Cannot say yet: no single plan fits the claim."),
        ({"dates__purchased": None, "dates__delivered": None}, "Cannot say yet. Still needed: the purchase date."),
    ],
)
def test_without_a_plan_it_cannot_be_said(changes, headline):
    plans = a_plan(id="old", sold_until="2024-12-31"), a_plan(id="new", sold_from="2025-01-01")
    found = assessed(*plans, **changes)
    assert (found.verdict, found.price, str(found.headline)) == ("undecided", None, headline)


def test_without_a_plan_held_parts_still_have_tags():
    assert assessed(maker="other", held=[{"part": "short block"}]).tags[0].code == "26-0001/1"


def test_a_claim_in_another_currency_is_no_claim_under_the_plan():
    with pytest.raises(BadInput, match="EUR"):
        assessed(currency="EUR")


def test_a_filed_claim_knows_how_long_its_parts_are_held():
    plan = a_plan(hold={"for": "P90D"})
    claim = a_claim(held=[{"part": "short block"}])
    assert assess(claim, [plan], TODAY, Circumstances(filed=date(2026, 3, 1))).tags[0].hold_until == date(2026, 5, 30)


def test_a_claim_is_judged_to_the_ends_of_our_time():
    claim = a_claim(dates={"purchased": "2999-12-31", "presented": "2999-12-31"})
    plan = a_plan(window=[a_window(period="P100Y", registered_within="P100Y", registered_adds="P1200M")])
    assert str(assess(claim, [plan], TODAY).headline).startswith("Cannot say yet") is False


def maybe(value):
    return st.none() | value


DAY = st.integers(0, 1500).map(lambda days: date(2023, 1, 1) + timedelta(days=days))
HOURS = st.integers(0, 999).map(str)
COMPONENT = st.sampled_from(["short block", "Engine", "spark plug", "blade", "*", ""])
CLAIMS = st.fixed_dictionaries(
    {
        "dates__failed": st.none(),
        "dates__repaired": st.none(),
        "dates__purchased": maybe(st.just("2023-01-31")),
        "dates__delivered": maybe(st.just("2022-12-31")),
        "dates__registered": maybe(DAY),
        "dates__presented": DAY.filter(lambda day: day >= date(2023, 1, 31)),
        "unit__use": maybe(st.sampled_from(["household", "professional"])),
        "unit__meter": maybe(st.booleans()),
        "unit__hours": maybe(HOURS),
        "unit__built": maybe(st.just("2022-12-01")),
        "owner__first_owner": maybe(st.booleans()),
        "proof": st.sampled_from([{}, {"kind": "none"}, {"kind": "receipt"}]),
        "failure__component": COMPONENT,
        "failure__defect": maybe(st.sampled_from(["material", "misuse", "unknown"])),
        "earlier": st.lists(st.fixed_dictionaries({"component": st.just("engine"), "repaired": DAY}), max_size=2),
    }
)
WINDOW = st.fixed_dictionaries(
    {
        "covers": st.sampled_from([["*"], ["engine", "short block"], ["spark plug"]]),
        "period": st.sampled_from(["P6M", "P24M", "P90D", "P1Y1D"]),
        "hours": maybe(st.just(300)),
        "uses": maybe(st.just(["household"])),
        "first_owner_only": st.booleans(),
        "registered_within": maybe(st.just("P30D")),
        "despite_exclusions": st.booleans(),
        "start": maybe(st.just(["in_service"])),
        "scheduled": st.sampled_from([[], [{"component": "engine", "hours": 100}]]),
    }
)
PLANS = st.fixed_dictionaries(
    {
        "judged_on": st.sampled_from(["presented", "failed"]),
        "last_day": st.sampled_from(["anniversary", "day-before"]),
        "month_end": st.sampled_from(["clamp", "last-day"]),
        "excluded": st.sampled_from([{}, {"components": ["blade"], "defects": ["misuse"]}]),
        "start_without_proof": maybe(st.just({"from": "built", "after": "P6M"})),
        "replaced": maybe(st.sampled_from([{"period": "P90D"}, {"keeps_remaining": True}])),
        "window": st.lists(WINDOW, min_size=1, max_size=3).map(
            lambda windows: [{**window, "id": f"w{index}"} for index, window in enumerate(windows)]
        ),
    }
)


@settings(max_examples=120, deadline=None)
@given(claim=CLAIMS, plan=PLANS)
def test_every_valid_claim_is_judged_and_everything_can_be_said(claim, plan):
    found = assess(a_claim(**claim), [a_plan(**plan)], TODAY)
    as_json(found)
    holding = [window for window in found.windows if window.holds]
    assert (found.verdict == "covered") is bool(holding)
    assert (found.verdict == "undecided") is bool(found.asks)


@settings(max_examples=120, deadline=None)
@given(claim=CLAIMS, plan=PLANS, later=st.integers(1, 90))
def test_cover_lost_with_time_is_not_found_again(claim, plan, later):
    changed = {
        **claim,
        "earlier": [],
        "proof": {},
        "dates__presented": claim["dates__presented"] + timedelta(days=later),
    }
    sooner = judge(a_claim(**{**changed, "dates__presented": claim["dates__presented"]}), a_plan(**plan))
    after = judge(a_claim(**changed), a_plan(**plan))
    assert not (sooner.verdict == "not covered" and after.verdict == "covered")


BLADE = {"failure__component": "blade", "parts": [{"name": "Blade", "unit_cost": "14.20"}]}


def test_a_favour_is_asked_for_with_its_reason_and_how_far_out_of_cover_it_is():
    found = assessed(**BLADE, case="goodwill", goodwill={"because": "Failed twice."})
    assert (str(found.amounts.claimed), found.goodwill.because, found.goodwill.out_of_cover.key) == (
        "14.20",
        "Failed twice.",
        "component.other",
    )


def test_what_is_filed_all_the_same_asks_a_favour_for_that_reason():
    found = assess(a_claim(**BLADE), [a_plan()], TODAY, Circumstances(anyway="Agreed by phone."))
    assert (found.goodwill.because, str(found.amounts.claimed)) == ("Agreed by phone.", "14.20")


@pytest.mark.parametrize("changes", [{"case": "goodwill"}, {}], ids=["said so", "filed all the same"])
def test_what_is_covered_asks_no_favour(changes):
    assert assess(a_claim(**changes), [a_plan()], TODAY, Circumstances(anyway="Said so.")).goodwill is None


def test_a_plan_that_covers_and_excludes_what_failed_decides_nothing():
    found = assessed(a_plan(excluded={"components": ["short block"]}))
    assert (found.verdict, found.exit_code, found.headline.key) == ("undecided", 4, "answer.undecided-fault")


def test_a_plan_that_covers_and_excludes_something_else_decides_as_ever():
    assert assessed(a_plan(excluded={"components": ["engine"]})).verdict == "covered"


def test_operations_that_include_each_other_keep_a_claim_from_being_filed():
    schedule = [{"code": code, "hours": "1", "includes": [other]} for code, other in ("ab", "ba")]
    found = assessed(a_plan(operation=schedule), labour=[{"operation": "a"}, {"operation": "b"}])
    assert (str(found.amounts.labour), found.exit_code, found.missing[0].what.key) == ("92.00", 4, "missing.plan-fault")


@pytest.mark.parametrize(("ahead", "verdict"), [(-1, "not covered"), (0, "not covered"), (1, "undecided")])
def test_a_registration_still_to_come_decides_nothing_and_is_asked_for(ahead, verdict):
    plan = a_plan(window=[a_window(registered_within="P30D")])
    claim = a_claim(dates__registered=(TODAY + timedelta(days=ahead)).isoformat())
    found = assess(claim, [plan], TODAY)
    assert (found.verdict, found.asks, found.claim) == (verdict, ("dates.registered",) * (ahead > 0), claim)


@pytest.mark.parametrize(("ahead", "verdict"), [(0, "covered"), (1, "undecided")])
def test_a_dealers_invoice_still_to_come_decides_nothing_and_is_asked_for(ahead, verdict):
    invoiced = (TODAY + timedelta(days=ahead)).isoformat()
    plan = a_plan(window=[a_window(start=["invoiced"])], judged_on="repaired")
    claim = a_claim(unit__invoiced=invoiced, dates__repaired=TODAY.isoformat())
    found = assess(claim, [plan], TODAY)
    assert (found.verdict, found.asks, found.claim) == (verdict, ("unit.invoiced",) * ahead, claim)


FAVOUR = {**BLADE, "case": "goodwill"}


@pytest.mark.parametrize(("changes", "need_not"), [({}, False), (BLADE, True), (FAVOUR, False)], ids=str)
def test_what_is_refused_need_not_be_filed_unless_a_favour_is_asked(changes, need_not):
    assert assessed(**changes).need_not_be_filed is need_not


UNREPAIRED = {"dates__repaired": None}
SOLD = {"case": "part", "part_sold": {"sold": "2026-01-10"}}
DECLINED = {**UNREPAIRED, "case": "declined"}


@pytest.mark.parametrize(
    ("changes", "pays_if"),
    [
        ({"failure__component": None}, "covered"),
        (FAVOUR, "granted"),
        ({**DECLINED, "parts": BLADE["parts"]}, "used"),
        (DECLINED, ""),
        (UNREPAIRED, "repaired"),
        ({}, ""),
        ({**UNREPAIRED, **SOLD}, ""),
    ],
    ids=["undecided", "a favour", "declined", "declined, no parts", "not repaired", "repaired", "a part sold"],
)
def test_the_owner_pays_once_what_is_open_has_come_true(changes, pays_if):
    assert assessed(**changes).owner_pays_if == pays_if


def test_the_parts_that_the_owner_pays_are_told_by_name():
    parts = [{"name": "Blade", "payer": "owner", "unit_cost": "5"}, {"name": "Block", "unit_cost": "9"}]
    free = {"name": "Clip", "payer": "owner", "unit_cost": "0"}
    labour = [{"operation": "clean", "hours": "1", "payer": "owner"}]
    assert assessed(parts=[*parts, free], labour=labour).parts_of_the_owner == ("Blade",)


CAMPAIGNS = [{**CAMPAIGN, "id": name} for name in ("c-1", "c-2")]


@pytest.mark.parametrize(
    ("changes", "carried"), [({"campaign": "c-2"}, []), ({"campaign": "c-2", "case": "campaign"}, ["c-2"])]
)
def test_a_claim_carries_the_campaign_it_is_of_and_no_other(changes, carried):
    assert [each.id for each in assessed(a_plan(campaign=CAMPAIGNS), **changes).plan.campaign] == carried


@pytest.mark.parametrize(
    ("filed", "days"),
    [({"filed": date(2026, 3, 28)}, 2), ({"filed": date(2026, 4, 28), "first_filed": date(2026, 3, 27)}, 1)],
    ids=["once", "again"],
)
def test_a_claim_is_as_late_as_it_was_filed_for_the_first_time(filed, days):
    plan = a_plan(filing={"within": "P30D"})
    assert assess(a_claim(), [plan], date(2026, 6, 1), Circumstances(**filed)).late.days == days


def test_a_share_is_told_of_the_one_failure_of_a_claim_and_of_several_by_each():
    half = a_plan(window=[a_window(shares=[{"until": "P12M", "maker": "0.50"}])])
    one, both = assessed(half), assessed(half, failure=[{"component": word} for word in ("short block", "engine")])
    assert (one.share.key, one.failures, both.share, len(both.failures)) == ("price.share", (), None, 2)
