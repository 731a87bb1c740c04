import datetime as dt
import inspect
import re

import pytest
from audits import FILED, MEASURES, REFUSED, WITHDRAWN, an_audited
from builders import a_plan

from claimpack.core.auditing.house import House, Person, PriceList
from claimpack.core.auditing.report.audit import AUDIT_RULES, audit, chosen_rules
from claimpack.core.auditing.report.wants import WANTS, goes_by
from claimpack.core.auditing.wording import LACKS
from claimpack.core.events.part_state import HeldStanding
from claimpack.core.holding.release_rules import NOT_INSPECTED
from claimpack.core.plans.terms import Terms, not_read
from claimpack.core.values.opening_hours import opening

TOLD = House(
    hours=opening({"mon": "08:00-17:00"}),
    staff=(Person("Ben Marsh"),),
    phone="555-0100",
    email="shop@example.com",
    address="12 Quarry Road",
    price_list=lambda _: PriceList({}, "parts/halden.csv"),
)
TERMS = Terms(id="a", name="A", labour_floor="retail")
FULL = an_audited()._replace(plan=a_plan(), terms=TERMS, house=TOLD)
FULL = FULL._replace(retail=FULL.retail.model_copy(update={"labour_rate": 90}))
KEPT = FILED.model_copy(update={"packet": "ab" * 32})
GONE = FILED.model_copy(update={"parts": (HeldStanding(index=1, state="scrapped", rule=NOT_INSPECTED),)})


def wanting(audited, *rules):
    """What is wanting of a claim, the rules that were not asked, and those that were in part."""
    return [
        (each.lacks, each.rules, each.in_part) for each in audit([audited], MEASURES, chosen_rules(rules)).not_asked
    ]


def of_house(**told):
    return FULL._replace(house=TOLD._replace(**told))


def test_of_a_claim_whose_shop_tells_all_nothing_is_wanting():
    assert wanting(FULL) == []


@pytest.mark.parametrize(
    ("audited", "said"),
    [
        (FULL._replace(plan=None, terms=None, retail=an_audited().retail), ("plan", ("below-floor",), ())),
        (FULL._replace(terms=None), ("terms", ("below-floor",), ())),
        (FULL._replace(terms=not_read("us-zz")), ("terms_unread", ("below-floor",), ())),
        (FULL._replace(terms=None, plan=None, standing=GONE), ("terms", (), ("scrapped-early",))),
        (FULL._replace(terms=not_read("z"), plan=None, standing=GONE), ("terms_unread", (), ("scrapped-early",))),
        (FULL._replace(retail=an_audited().retail), ("labour_rates", (), ("below-floor",))),
        (of_house(hours={}), ("opening_hours", ("work-when-shut",), ())),
        (of_house(hours={}, holidays={dt.date(2026, 1, 1)}), ("opening_hours", (), ("work-when-shut",))),
        (of_house(price_list=lambda _: PriceList()), ("parts_list", ("part-over-list",), ())),
        (of_house(price_list=lambda _: PriceList(wrong="row 2")), ("parts_list_unread", ("part-over-list",), ())),
        (of_house(vault_gone="/mnt/vault")._replace(standing=KEPT), ("vault", ("packet-changed",), ())),
        (of_house(phone="", email="", address=""), ("phone", ("owner-at-the-shop",), ())),
        (of_house(email=""), ("email", (), ("owner-at-the-shop",))),
        (of_house(staff=()), ("staff", (), ("owner-is-staff",))),
    ],
    ids=lambda case: case[0] if len(case) == 3 else "",
)
def test_what_is_wanting_is_told_with_the_rules_that_go_by_it(audited, said):
    _, not_asked, in_part = said
    assert wanting(audited, *not_asked, *in_part) == [said]


@pytest.mark.parametrize(
    ("audited", "rule"),
    [
        (FULL._replace(terms=None, standing=REFUSED), "below-floor"),
        (FULL._replace(terms=not_read("us-zz"), standing=REFUSED), "below-floor"),
        (FULL._replace(terms=Terms(id="a", name="A"), retail=an_audited().retail), "below-floor"),
        (FULL._replace(terms=None), "scrapped-early"),
        (FULL._replace(terms=not_read("us-zz")), "scrapped-early"),
        (FULL._replace(standing=GONE), "scrapped-early"),
        (of_house(holidays={dt.date(2026, 1, 1)}), "work-when-shut"),
        (of_house(vault_gone="/mnt/vault"), "packet-changed"),
        (FULL._replace(standing=KEPT), "packet-changed"),
        (
            of_house(vault_gone="/mnt/vault")._replace(standing=KEPT.model_copy(update={"state": "draft"})),
            "packet-changed",
        ),
    ],
    ids=[
        "refused without terms",
        "refused, terms not read",
        "no floor for labour",
        "no terms, nothing let go",
        "terms not read, nothing let go",
        "let go under terms",
        "holidays besides",
        "no packet",
        "the vault is there",
        "not filed",
    ],
)
def test_what_a_rule_does_not_need_for_a_claim_is_not_wanting(audited, rule):
    assert wanting(audited, rule) == []


def test_what_is_wanting_of_a_rule_that_was_not_chosen_is_not_told():
    assert wanting(of_house(hours={}, staff=()), "owner-is-staff") == [("staff", (), ("owner-is-staff",))]


def test_nothing_is_wanting_of_a_claim_that_was_withdrawn_but_what_the_shop_tells():
    assert wanting(FULL._replace(plan=None, terms=None, standing=WITHDRAWN)) == []


def test_of_a_shop_that_is_not_known_nothing_else_is_told_as_wanting():
    assert [lacks for lacks, *_ in wanting(an_audited()._replace(house=House(is_known=False)))] == ["shop"]


def test_what_a_shop_may_leave_untold_is_told_apart_from_what_is_out_of_reach():
    told = {may_be: {want.key for want in WANTS if want.is_setting is may_be} for may_be in (True, False)}
    assert told == {
        True: {"terms", "labour_rates", "opening_hours", "parts_list", "phone", "email", "address", "staff"},
        False: {"shop", "plan", "terms_unread", "parts_list_unread", "vault"},
    }


@pytest.mark.parametrize(
    ("rule", "keys"),
    [
        ("same-picture", ()),
        ("part-over-list", ("parts_list",)),
        ("scrapped-early", ("terms",)),
        ("owner-is-staff", ("staff",)),
    ],
)
def test_a_rule_says_what_it_goes_by_each_once(rule, keys):
    assert goes_by(rule) == keys


def test_of_a_shop_that_is_not_known_a_rule_is_either_not_asked_or_asked_in_part():
    ((_, not_asked, in_part),) = wanting(an_audited()._replace(house=House(is_known=False)))
    assert ("owner-at-the-shop" in not_asked, "evidence-missing" in in_part) == (True, True)
    assert not {*not_asked} & {*in_part}


def test_everything_that_may_be_wanting_has_its_sentence():
    assert {want.key for want in WANTS} == set(LACKS)


HOW = ("look", "traces", "counted")


def source_of(function, seen=frozenset()):
    """A function of a rule with those of its file that it calls."""
    own = inspect.getsource(function)
    called = {name: vars(inspect.getmodule(function)).get(name) for name in re.findall(r"\b(\w+)\(", own)}
    inside = [one for name, one in called.items() if inspect.isfunction(one) and name not in seen]
    inside = [one for one in inside if one.__module__ == function.__module__]
    return own + "".join(source_of(one, seen | set(called)) for one in inside)


@pytest.mark.parametrize(
    ("asks", "keys"),
    [
        (r"audited\.(?:plan|terms|retail|house|price_list|packet_damage)\b", ["shop"]),
        (r"audited\.plan\b", ["plan"]),
        (r"audited\.terms\b", ["terms", "terms_unread"]),
        (r"audited\.price_list\b", ["parts_list", "parts_list_unread"]),
        (r"audited\.retail\b", ["labour_rates"]),
        (r"audited\.packet_damage\b", ["vault"]),
    ],
)
def test_no_rule_goes_by_what_may_be_wanting_unless_that_is_told(asks, keys):
    looks = {rule.id: next(getattr(rule, how) for how in HOW if hasattr(rule, how)) for rule in AUDIT_RULES}
    rules = {rule for rule, look in looks.items() if re.search(asks, source_of(look))}
    assert {rule for want in WANTS if want.key in keys for rule in (*want.not_asked, *want.in_part)} == rules
