from datetime import date
from decimal import Decimal

import pytest
from filed import FiledClaim

from claimpack.core.payment.pending import as_json, grouped, older_than, pending, tally, tally_of, totals
from claimpack.core.plans.terms import NOT_KNOWN, Terms, not_read
from claimpack.core.values.periods import period

TERMS = Terms(id="x", name="x", answer_within="P30D", silence="accepted", pay_within="P30D", resubmit_within="P30D")
TODAY = date(2026, 2, 15)


def listed(*claims, today=TODAY, terms=TERMS, **kind):
    return pending(claims, {claim.number: terms for claim in claims}, today, **kind)


def step(**facts):
    return listed(FiledClaim(**facts))[0].step


def test_what_is_not_filed_is_not_pending():
    assert listed(FiledClaim(state="draft", filed=None)) == []


def test_the_longest_overdue_comes_first():
    late = FiledClaim(number="late", filed=date(2025, 11, 1), received=date(2025, 11, 1))
    later = FiledClaim(number="later", filed=date(2025, 10, 1), received=date(2025, 10, 1))
    assert [item.claim for item in listed(late, FiledClaim(), later)] == ["later", "late", "26-0001"]


def test_the_shops_own_turn_comes_before_waiting():
    ours = FiledClaim(number="ours", state="questioned", filed=date(2026, 2, 10))
    assert [item.claim for item in listed(FiledClaim(), ours)] == ["ours", "26-0001"]


def test_what_the_maker_is_late_with_comes_before_the_shops_own_turn():
    late = FiledClaim(number="late", filed=date(2025, 11, 1), received=date(2025, 11, 1))
    ours = FiledClaim(number="ours", state="questioned", outstanding=Decimal("900.00"))
    assert [item.claim for item in listed(ours, late)] == ["late", "ours"]


def test_a_late_claim_that_waits_for_its_part_is_the_shops_own_turn():
    late = {"filed": date(2025, 11, 1), "received": date(2025, 11, 1)}
    waits = FiledClaim(number="waits", part_awaited=True, outstanding=Decimal("900.00"), **late)
    assert [item.claim for item in listed(waits, FiledClaim(number="late", **late))] == ["late", "waits"]


def test_a_claim_accepted_that_nothing_is_owed_for_is_the_shops_to_close():
    nothing = {"claimed": Decimal(0), "outstanding": Decimal(0)}
    item = listed(FiledClaim(state="accepted", accepted_on=date(2025, 11, 1), **nothing))[0]
    assert (item.step, item.turn, item.days_overdue) == ("nothing is owed: write it off to close it", "shop", 0)


@pytest.mark.parametrize(
    ("facts", "said"),
    [
        ({"received": date(2026, 2, 1)}, "wait for the answer"),
        ({"received": date(2026, 1, 10)}, "ask for payment: accepted by silence"),
        ({"received": date(2025, 12, 1)}, "chase the payment: accepted by silence"),
        ({"received": None, "filed": date(2026, 1, 1)}, "ask when it was received, and chase the answer"),
        ({"state": "questioned"}, "answer the maker's question"),
        ({"state": "accepted", "accepted_on": date(2026, 2, 1)}, "wait for the payment"),
        ({"state": "accepted", "accepted_on": date(2026, 1, 1)}, "chase the payment"),
        (
            {"state": "accepted", "accepted_on": date(2026, 1, 1), "owed_again": date(2026, 2, 3)},
            "chase the charge-back: owed again since 2026-02-03",
        ),
        ({"state": "refused"}, "contest, resubmit or write off"),
        ({"state": "refused", "answered": date(2026, 2, 1), "refused_for_form": True}, "correct and resubmit"),
        (
            {"state": "refused", "answered": date(2026, 1, 1), "refused_for_form": True},
            "contest or write off: the time to resubmit is over",
        ),
    ],
)
def test_the_next_step_follows_from_the_state_and_the_dates(facts, said):
    assert step(**facts) == said


@pytest.mark.parametrize(("day", "said"), [(2, "wait"), (3, "wait"), (4, "chase")])
def test_an_accepted_claim_is_chased_from_the_day_after_the_last_one_to_pay(day, said):
    accepted = FiledClaim(state="accepted", accepted_on=date(2026, 2, 1))
    assert listed(accepted, today=date(2026, 3, day))[0].step == f"{said} {'for ' * (said == 'wait')}the payment"


@pytest.mark.parametrize(("day", "said"), [(2, "ask for payment"), (3, "ask for payment"), (4, "chase the payment")])
def test_what_silence_accepted_is_chased_from_the_day_after_the_last_one_to_pay(day, said):
    assert listed(FiledClaim(), today=date(2026, 3, day))[0].step == f"{said}: accepted by silence"


BARE = TERMS.model_copy(update={"without_grounds": "accepted"})
NO_GROUNDS = {"state": "refused", "answered": date(2026, 1, 20), "heard": date(2026, 1, 20), "gave_no_grounds": True}


@pytest.mark.parametrize(
    ("awaited", "said"),
    [
        (False, "wait for the payment: refused on 2026-01-20, no grounds on record"),
        (True, "send the part back: by its plan it is paid when it is there"),
    ],
)
def test_a_refusal_without_grounds_that_counts_as_acceptance_is_waited_on_for_money(awaited, said):
    assert listed(FiledClaim(**NO_GROUNDS, part_awaited=awaited), terms=BARE)[0].step == said


def test_without_a_limit_a_refusal_for_form_is_still_to_be_put_right():
    claim = FiledClaim(state="refused", answered=date(2026, 2, 1), refused_for_form=True)
    assert pending([claim], {}, TODAY)[0].step == "correct and resubmit"


def test_every_bucket_is_told_even_when_empty():
    _, by_bucket = totals(listed(FiledClaim()))
    assert list(by_bucket) == ["0-30", "31-60", "61-90", "over 90"]


def test_two_currencies_are_never_added():
    yen = FiledClaim(number="yen", currency="JPY", outstanding=Decimal(500))
    whole, _ = totals(listed(FiledClaim(), yen))
    assert whole == {"USD": Decimal("100.00"), "JPY": Decimal(500)}


def test_a_shop_may_age_by_the_due_date():
    assert listed(FiledClaim(received=date(2025, 12, 1)), ageing="due")[0].bucket == "1-30"


def test_terms_and_their_section_are_named():
    cited = TERMS.model_copy(update={"cites": "Code 1"})
    assert listed(FiledClaim(), terms=cited)[0].cites == "Code 1"


def test_claims_older_than_a_number_of_days_are_picked_out():
    old = FiledClaim(number="old", filed=date(2026, 1, 15))
    items = listed(FiledClaim(), old)
    assert [item.claim for item in older_than(31, items)] == ["26-0001"]


def test_without_a_number_every_age_is_shown():
    assert len(older_than(None, listed(FiledClaim()))) == 1


def test_groups_keep_the_order_of_the_list():
    late = FiledClaim(number="late", filed=date(2025, 11, 1), received=date(2025, 11, 1))
    groups = grouped(listed(FiledClaim(), FiledClaim(number="other", maker="tessaly"), late), "maker")
    assert {name: [item.claim for item in items] for name, items in groups.items()} == {
        "halden": ["late", "26-0001"],
        "tessaly": ["other"],
    }


def test_buckets_are_grouped_from_young_to_old():
    ages = (date(2025, 9, 1), date(2026, 2, 10), date(2025, 12, 25))
    claims = [FiledClaim(number=str(place), filed=day) for place, day in enumerate(ages)]
    assert list(grouped(listed(*claims), "bucket")) == ["0-30", "31-60", "over 90"]


def test_buckets_past_the_due_date_are_grouped_from_current_to_late():
    received = (date(2025, 9, 1), date(2025, 12, 1), date(2026, 2, 10))
    claims = [FiledClaim(number=str(place), received=day) for place, day in enumerate(received)]
    assert list(grouped(listed(*claims, ageing="due"), "bucket")) == ["current", "1-30", "over 90"]


def test_other_groups_stand_by_name_whatever_the_order_of_the_list():
    late = FiledClaim(number="late", maker="tessaly", filed=date(2025, 11, 1), received=date(2025, 11, 1))
    assert list(grouped(listed(FiledClaim(), late), "maker")) == ["halden", "tessaly"]


def test_claims_without_terms_are_a_group_of_their_own():
    assert list(grouped(listed(FiledClaim(), terms=None), "terms")) == ["no terms"]


def test_totals_in_one_currency_are_plain_decimals():
    sums = tally(listed(FiledClaim()))
    assert (sums["outstanding"], sums["currency"], sums["by_bucket"]["31-60"]) == ("100.00", "USD", "100.00")


def test_totals_in_several_currencies_are_told_by_currency():
    yen = FiledClaim(number="yen", currency="JPY", outstanding=Decimal(500))
    sums = tally(listed(FiledClaim(), yen))
    assert sums["outstanding"] is None
    assert {code: each["outstanding"] for code, each in sums["by_currency"].items()} == {"USD": "100.00", "JPY": "500"}


def test_an_empty_list_is_zero_in_the_shops_currency():
    assert tally([], "filed", "USD")["outstanding"] == "0.00"


def test_a_group_tells_how_many_claims_and_how_much():
    assert tally_of(listed(FiledClaim())) == {"claims": 1, "outstanding": {"USD": "100.00"}}


def test_a_claim_without_terms_has_no_dates_for_scripts():
    keys = as_json(listed(FiledClaim(), terms=None)[0])
    assert (keys["answer_due"], keys["pay_due"], keys["terms"], keys["cites"]) == (None, None, None, None)


@pytest.mark.parametrize(("terms", "named"), [(not_read("us-zz"), "us-zz"), (NOT_KNOWN, None), (TERMS, None)])
def test_terms_that_cannot_be_read_are_named_for_scripts(terms, named):
    keys = as_json(listed(FiledClaim(), terms=terms)[0])
    assert (keys["terms_unread"], keys["terms"]) == (named, "x" if terms is TERMS else None)


def test_makers_that_differ_in_case_alone_are_one_group():
    groups = grouped(listed(FiledClaim(maker="Halden"), FiledClaim(number="other", maker="halden")), "maker")
    assert [(name.casefold(), len(some)) for name, some in groups.items()] == [("halden", 2)]


REFUSING = TERMS.model_copy(update={"silence": "refused"})


@pytest.mark.parametrize(
    ("today", "said"),
    [
        (date(2026, 2, 1), ("filed", "maker", "wait for the answer")),
        (date(2026, 2, 2), ("refused", "shop", "silence refused it on 2026-02-01: resubmit")),
        (date(2026, 3, 3), ("refused", "shop", "silence refused it on 2026-02-01: resubmit")),
        (date(2026, 3, 4), ("refused", "shop", "contest or write off: the time to resubmit is over")),
    ],
)
def test_a_claim_that_silence_refused_is_the_shops_to_send_in_again(today, said):
    item = listed(FiledClaim(), today=today, terms=REFUSING)[0]
    assert (item.state, item.turn, item.step) == said


TAKEN = {"state": "accepted", "accepted_on": date(2025, 1, 2), "owed_again": date(2026, 2, 3)}


@pytest.mark.parametrize(("today", "is_late"), [(3, False), (4, True)])
def test_money_taken_back_is_late_from_the_day_after_as_it_is_for_a_letter(today, is_late):
    assert listed(FiledClaim(**TAKEN), today=date(2026, 2, today))[0].is_late == is_late


REACH = TERMS.model_copy(update={"audit_reach": period("P1Y")})


@pytest.mark.parametrize(("paid", "said"), [(2, "contest the charge-back"), (3, "chase the charge-back")])
def test_money_taken_back_after_an_audit_could_reach_is_contested(paid, said):
    claim = FiledClaim(**TAKEN, charged_back_on=date(2026, 2, 3), charged_from=date(2025, 2, paid))
    assert listed(claim, terms=REACH)[0].step.startswith(said)


LATE = {"answered": date(2026, 2, 10), "heard": date(2026, 2, 10)}


@pytest.mark.parametrize(
    ("facts", "said"),
    [
        ({"state": "refused"}, "contest: silence accepted it on 2026-02-01"),
        (
            {"state": "refused", "refused_for_form": True},
            "contest: silence accepted it on 2026-02-01; or correct and resubmit",
        ),
        ({"state": "questioned"}, "answer the maker's question; silence accepted it on 2026-02-01"),
        ({"state": "accepted", "accepted_on": date(2026, 2, 10)}, "wait for the payment"),
    ],
)
def test_what_to_do_with_a_late_answer_names_the_day_of_silence(facts, said):
    assert step(**facts, **LATE) == said


def test_a_claim_that_is_not_covered_is_not_to_be_contested():
    assert pending([FiledClaim(state="refused", verdict="not covered")], {}, TODAY)[0].step.startswith("resubmit")


@pytest.mark.parametrize(("ageing", "days"), [("filed", 14), ("first filed", 100), ("due", 14)])
def test_a_claim_filed_again_is_as_old_as_the_shop_counts_it(ageing, days):
    again = FiledClaim(filed=date(2026, 2, 1), first_filed=date(2025, 11, 7))
    item = listed(again, ageing=ageing)[0]
    assert (item.age_days, item.first_filed, item.filed) == (days, date(2025, 11, 7), date(2026, 2, 1))


def test_of_two_late_claims_the_one_with_more_money_comes_first():
    old = {"filed": date(2025, 10, 1), "received": date(2025, 10, 1)}
    less = FiledClaim(number="less", outstanding=Decimal("10.00"), **old)
    assert [item.claim for item in listed(less, FiledClaim(number="more", **old))] == ["more", "less"]
