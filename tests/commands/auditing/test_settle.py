import pytest
from running import claimpack
from several_shops import two_shops
from shop_builders import a_shop, happen

RULE = "unit-claimed-twice"
BECAUSE = ("--because", "Two carburettors, two visits; job cards 811 and 814.")


def ran(shop, *arguments):
    return claimpack("audit", *arguments, "--today", "2026-03-01", folder=shop)


@pytest.fixture
def two(tmp_path):
    """A shop with two claims for one component of one unit."""
    return a_shop(tmp_path, "26-0001", "26-0002", proof__file=None)


def test_what_is_settled_is_not_found_again_and_may_be_taken_up_again(two):
    assert ran(two, "settle", RULE, "26-0001", *BECAUSE).code == 0
    look = ran(two, "--json")
    assert (look.code, look.json["exceptions"]) == (0, [])
    assert [(each["rule"], each["because"]) for each in look.json["settled"]] == [(RULE, BECAUSE[1])]
    assert ran(two, "settle", RULE, "26-0002", "--undo").code == 0
    assert [each["rule"] for each in ran(two, "--json").json["exceptions"]] == [RULE]


def test_what_is_settled_was_found_all_the_same(two):
    ran(two, "settle", RULE, "26-0001", *BECAUSE)
    assert ran(two).out.startswith("NOTHING NEW FOUND  2 claims")


def test_what_is_settled_comes_up_again_once_its_facts_change(two):
    ran(two, "settle", RULE, "26-0001", *BECAUSE)
    claimpack("set", "26-0002", "dates.failed", "2026-02-03", folder=two)
    assert ran(two).code == 3


def test_what_was_settled_by_its_very_words_stays_so_until_it_is_taken_up(two):
    happen(two, "26-0001", "finding settled", finding="7dd2d34d7e6026e7", rule=RULE, claims="26-0001, 26-0002")
    assert ran(two).code == 0
    ran(two, "settle", RULE, "26-0001", "--undo")
    assert ran(two).code == 3


def test_nothing_is_settled_without_a_reason(two):
    assert ran(two, "settle", RULE, "26-0001").code == 2


def test_only_what_was_found_is_settled(two):
    assert ran(two, "settle", "same-picture", "26-0001", *BECAUSE).code == 2
    assert ran(two, "settle", RULE, "26-0001", "--undo").code == 2


def test_what_a_rule_finds_that_is_switched_off_may_be_settled(two):
    settings = two / "shop.toml"
    settings.write_text(f'audit_off = ["{RULE}"]\n{settings.read_text()}')
    assert ran(two, "settle", RULE, "26-0001", *BECAUSE).code == 0


def test_the_settled_are_listed_when_asked_for(two):
    ran(two, "settle", RULE, "26-0001", *BECAUSE)
    assert BECAUSE[1] in " ".join(ran(two, "--settled").out.split())


@pytest.mark.parametrize("rule", [RULE, "part-claimed-twice"])
def test_what_two_rules_tell_is_settled_for_each_of_them_alone(tmp_path, rule):
    part = {"number": "H70-4410", "name": "Short block", "unit_cost": "96.20"}
    shop = a_shop(tmp_path, "26-0001", "26-0002", proof__file=None, parts=[part])
    ran(shop, "settle", RULE, "26-0001", *BECAUSE)
    look = ran(shop, "--rule", rule, "--json")
    assert (look.code, [each["rule"] for each in look.json["settled"]]) == (0, [rule])


def test_a_rule_that_there_is_not_is_named_by_no_option(tmp_path):
    ran = claimpack("audit", "settle", "nope", "26-0001", "--because", "Looked at.", folder=a_shop(tmp_path))
    assert (ran.code, "--rule" in ran.err.splitlines()[0]) == (2, False)


@pytest.mark.parametrize(("claim", "code"), [("A-2", 2), ("H-2", 2)], ids=["ours", "another shop's"])
def test_a_finding_of_several_shops_is_settled_with_all_of_them_in_view(tmp_path, claim, code):
    shop = two_shops(tmp_path) / "ashby"
    ran = claimpack("audit", "settle", "same-picture", claim, "--because", "Talked about.", folder=shop)
    assert (ran.code, "--all-shops" in ran.err) == (code, True)
