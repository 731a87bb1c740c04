"""Whatever a plan says and a claim asks: every cent is paid by exactly one, and one more window takes nothing away."""

from __future__ import annotations

from datetime import date
from decimal import Decimal
from typing import Any

from builders import CLAIM, PLAN
from hypothesis import given, settings
from hypothesis import strategies as st

from claimpack.core.claims.claim import Claim
from claimpack.core.judging.assessment import Assessment, assess
from claimpack.core.plans.plan import Plan
from claimpack.core.values.money import rounded

COMPONENTS = ("short block", "gear case", "battery", "handle")
CENTS = st.decimals(0, 900, places=2).map(str)
SHARE = st.sampled_from(["0", "0.25", "0.333", "0.5", "1"])
PAYER = st.sampled_from(["maker", "maker", "owner", "shop"])
FAILURE = st.integers(1, 2)


def maybe(keys: dict[str, st.SearchStrategy[Any]]) -> st.SearchStrategy[dict[str, Any]]:
    return st.fixed_dictionaries({}, optional=keys)


PARTS = st.lists(
    st.fixed_dictionaries(
        {"name": st.just("part"), "unit_cost": CENTS, "payer": PAYER, "failure": FAILURE},
        optional={
            "quantity": st.sampled_from(["1", "2", "0.5"]),
            "source": st.just("maker"),
            "list_price": CENTS,
            "core": CENTS,
            "core_returned": st.just("2026-02-26"),
            "number": st.sampled_from(["KIT", "SEAL"]),
        },
    ),
    max_size=4,
)
LABOUR = st.lists(
    st.fixed_dictionaries(
        {"operation": st.sampled_from(["find", "block", "grip", "by hand"]), "payer": PAYER, "failure": FAILURE},
        optional={"hours": st.sampled_from(["0.3", "1.27", "4"])},
    ),
    max_size=4,
)
EXTRAS = st.lists(
    st.fixed_dictionaries(
        {"what": st.just("extra"), "amount": CENTS, "payer": PAYER, "failure": FAILURE},
        optional={"kind": st.sampled_from(["freight", "sublet"])},
    ),
    max_size=3,
)
WINDOW = st.fixed_dictionaries(
    {
        "covers": st.lists(st.sampled_from(["*", *COMPONENTS]), min_size=1, max_size=2),
        "period": st.sampled_from(["P6M", "P12M", "P24M"]),
        "rest": st.sampled_from(["owner", "shop"]),
    },
    optional={
        "pays": st.lists(st.sampled_from(["parts", "labour", "extras"]), min_size=1, max_size=2, unique=True),
        "owed_by": st.just("seller"),
        "shares": st.lists(st.builds(lambda maker: {"until": "P24M", "maker": maker}, SHARE), min_size=1, max_size=1),
    },
).filter(lambda window: not {"owed_by", "shares"} <= window.keys())
PAYS = maybe(
    {
        "labour_rate": CENTS,
        "parts_handling": SHARE,
        "handling_on_supplied": SHARE,
        "extras_cap": CENTS,
        "extras": st.builds(lambda cap: [{"kind": "freight", "cap": cap}], CENTS),
        "diagnosis": st.builds(
            lambda hours, other: {"operation": "find", "hours": hours, "else": other},
            st.sampled_from(["0", "0.5", "9"]),
            st.sampled_from(["owner", "shop"]),
        ),
        "core": st.just("claimed"),
        "claim_cap": CENTS,
        "unit_cap": st.builds(lambda cap: {"amount": cap, "per": "life"}, CENTS),
        "deductible": st.builds(
            lambda amount, payer: {"amount": amount, "payer": payer}, CENTS, st.sampled_from(["owner", "shop"])
        ),
        "claim_least": CENTS,
        "tax": SHARE,
    }
)
OPERATIONS = [
    {"code": "find", "hours": "0.8"},
    {"code": "block", "hours": "1.6", "includes": ["grip"]},
    {"code": "grip", "hours": "0.4"},
]
KIT = [{"number": "KIT", "includes": ["SEAL", "SEAL"]}]
ELSEWHERE = [{"components": ["battery"], "maker": "voltane", "because": "its own"}]


@st.composite
def claims(draw: st.DrawFn) -> Claim:
    words = draw(st.lists(st.sampled_from(COMPONENTS), min_size=2, max_size=2))
    lines = {"parts": draw(PARTS), "labour": draw(LABOUR), "extras": draw(EXTRAS)}
    paid = [{"component": "handle", "repaired": "2025-09-01", "paid": draw(CENTS)}]
    return Claim.model_validate({**CLAIM, **lines, "failure": [{"component": w} for w in words], "earlier": paid})


def assessed(claim: Claim, windows: list[dict[str, Any]], pays: dict[str, Any], **more: Any) -> Assessment:
    numbered = [{**window, "id": f"window-{place}"} for place, window in enumerate(windows)]
    known = {"words": {word: [] for word in COMPONENTS}, "operation": OPERATIONS, "kit": KIT, "elsewhere": ELSEWHERE}
    plan = Plan.model_validate({**PLAN, **known, "window": numbered, "pays": pays, **more})
    return assess(claim, [plan], date(2026, 3, 1))


WINDOWS = st.lists(WINDOW, min_size=1, max_size=3)
UNHURRIED = settings(max_examples=60, deadline=None)


@UNHURRIED
@given(claim=claims(), windows=WINDOWS, pays=PAYS)
def test_every_cent_of_every_line_is_paid_by_exactly_one(claim, windows, pays):
    found = assessed(claim, windows, pays)
    lines, amounts = found.price.lines, found.amounts
    asked = amounts.claimed if amounts.would_be is None else amounts.would_be
    by_all = asked + amounts.owner + amounts.shop + amounts.other_maker
    assert by_all == sum((line.whole + line.tax for line in lines), Decimal(0))
    assert {line.payer for line in lines} <= {"maker", "owner", "shop", "other maker"}
    assert all(line.amount >= 0 and line.handling >= 0 and line.tax >= 0 for line in lines)


@UNHURRIED
@given(claim=claims(), windows=WINDOWS, pays=PAYS)
def test_only_the_maker_adds_handling_and_tax(claim, windows, pays):
    lines = assessed(claim, windows, pays).price.lines
    assert not [line for line in lines if line.payer != "maker" and (line.handling or line.tax)]


@UNHURRIED
@given(claim=claims(), windows=WINDOWS, pays=PAYS)
def test_what_is_left_of_a_line_says_why(claim, windows, pays):
    assert all(line.notes for line in assessed(claim, windows, pays).price.lines if line.is_rest)


@UNHURRIED
@given(claim=claims(), windows=WINDOWS, pays=PAYS)
def test_an_amount_that_is_not_its_pieces_times_the_price_of_one_says_why(claim, windows, pays):
    lines = [line for line in assessed(claim, windows, pays).price.lines if not line.is_rest]
    other = [line for line in lines if line.amount != rounded(line.quantity * line.unit_price, "USD")]
    assert all(line.notes for line in other)


@UNHURRIED
@given(claim=claims(), windows=WINDOWS, one_more=WINDOW, pays=PAYS)
def test_one_more_window_never_lowers_what_the_maker_pays(claim, windows, one_more, pays):
    # what a job includes is paid with it, and a window that pays a part of the job pays that part alone
    apart = {"kit": [], "operation": [{key: one[key] for key in ("code", "hours")} for one in OPERATIONS]}
    fewer, more = (assessed(claim, some, pays, **apart) for some in (windows, [*windows, one_more]))
    assert more.amounts.claimed >= fewer.amounts.claimed
