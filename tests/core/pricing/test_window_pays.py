"""Whoever pays, no cent is lost or paid twice; and more cover never pays less."""

from __future__ import annotations

from decimal import Decimal

from builders import a_claim, a_plan
from hypothesis import given, settings
from hypothesis import strategies as st

from claimpack.core.claims.claim import Claim
from claimpack.core.pricing.pricing import price
from claimpack.core.pricing.window_pays import Cover
from claimpack.core.verdict.coverage import judge
from claimpack.core.verdict.paid_parts import paid_parts

PAYERS = st.sampled_from(["maker", "owner", "shop"])
MONEY = st.decimals(min_value=0, max_value=2000, places=2).map(str)
FRACTION = st.integers(0, 20).map(lambda twentieths: str(Decimal(twentieths) / 20))
KINDS = st.lists(st.sampled_from(["parts", "labour", "extras"]), min_size=1, unique=True)
SHARES = st.one_of(
    st.lists(FRACTION, min_size=1, max_size=4).map(
        lambda shares: [{"until": f"P{6 * place}M", "maker": one} for place, one in enumerate(shares, start=1)]
    ),
    st.just({"full_until": "P6M", "of": "P36M"}),
)
WINDOW = st.fixed_dictionaries(
    {"covers": st.just(["*"]), "period": st.sampled_from(["P12M", "P24M", "P36M"])},
    optional={"pays": KINDS, "shares": SHARES, "rest": st.sampled_from(["owner", "shop"])},
)
TERMS = st.fixed_dictionaries(
    {
        "labour_rate": MONEY,
        "parts_handling": FRACTION,
        "extras": st.lists(MONEY, max_size=1).map(lambda caps: [{"kind": "freight", "cap": cap} for cap in caps]),
    },
    optional={
        "extras_cap": MONEY,
        "claim_cap": MONEY,
        "claim_least": MONEY,
        "deductible": st.fixed_dictionaries({"amount": MONEY, "payer": st.sampled_from(["owner", "shop"])}),
    },
)
WORK = st.fixed_dictionaries(
    {
        "parts": st.lists(st.fixed_dictionaries({"unit_cost": MONEY, "payer": PAYERS}), max_size=3),
        "labour": st.lists(st.fixed_dictionaries({"hours": MONEY, "payer": PAYERS}), max_size=2),
        "extras": st.lists(st.fixed_dictionaries({"amount": MONEY, "payer": PAYERS}), max_size=3),
    }
)


def plan_of(terms, windows):
    return a_plan(pays=terms, window=[{**one, "id": f"w{place}"} for place, one in enumerate(windows)])


def claim_of(work) -> Claim:
    named = {"parts": "name", "labour": "operation", "extras": "what"}
    lines = {
        kind: [{**line, named[kind]: f"{kind} {place}"} for place, line in enumerate(work[kind])] for kind in named
    }
    lines["extras"] = [{**extra, "kind": "freight"} for extra in lines["extras"]]
    return a_claim(dates={"purchased": "2024-03-14", "presented": "2025-10-05"}, **lines)


def priced(claim, plan):
    return price(claim, plan, cover=Cover((paid_parts(plan, judge(claim, plan)),)))


def by_entry(found):
    sums: dict[str, Decimal] = {}
    for line in found.lines:
        sums[line.what] = sums.get(line.what, Decimal(0)) + line.whole
    return sums


@given(TERMS, st.lists(WINDOW, min_size=1, max_size=3), WORK)
@settings(max_examples=60, deadline=None)
def test_every_cent_of_every_line_is_paid_by_one(terms, windows, work):
    claim, plan = claim_of(work), plan_of(terms, windows)
    by_maker = by_entry(price(claim, plan))
    without_handling = by_entry(price(claim, plan_of({**terms, "parts_handling": "0"}, windows)))
    found = by_entry(priced(claim, plan))
    assert all(whole in (by_maker[what], without_handling[what]) for what, whole in found.items())


@given(TERMS, st.lists(WINDOW, min_size=1, max_size=3), WORK)
@settings(max_examples=60, deadline=None)
def test_the_totals_are_those_of_the_lines_of_each_payer(terms, windows, work):
    found = priced(claim_of(work), plan_of(terms, windows))
    sums = [sum(line.whole for line in found.lines if line.payer == payer) for payer in ("maker", "owner", "shop")]
    assert sums == [found.amounts.claimed, found.amounts.owner, found.amounts.shop]


@given(TERMS, st.lists(WINDOW, min_size=1, max_size=2), WINDOW, WORK)
@settings(max_examples=60, deadline=None)
def test_a_window_more_never_lowers_what_the_maker_pays(terms, windows, another, work):
    claim, fewer, more = claim_of(work), plan_of(terms, windows), plan_of(terms, [*windows, another])
    if judge(claim, fewer).verdict == "covered":
        assert priced(claim, more).amounts.claimed >= priced(claim, fewer).amounts.claimed


def test_a_plan_without_shares_pays_all():
    assert paid_parts(a_plan(), judge(a_claim(), a_plan())) == {}
