import inspect
import re

import pytest
from audits import MEASURES, a_picture, an_audited, found_by, with_pictures

from claimpack.core.auditing.report.audit import (
    AUDIT_RULES,
    NEED_A_PLAN,
    NEED_IT_IN_PART,
    NEED_THE_SHOP,
    AuditReport,
    audit,
    chosen_rules,
)
from claimpack.core.auditing.report.traces import KeptTraces
from claimpack.errors import BadInput


def test_a_sound_claim_passes_every_rule():
    report = audit([an_audited()], MEASURES)
    assert (report.claims, report.found, report.exit_code) == (1, (), 0)


def test_what_is_found_makes_the_answer_no():
    assert audit([an_audited(), an_audited("26-0002")], MEASURES).exit_code == 3


def test_claims_outside_the_scope_are_only_compared_with():
    two = [with_pictures(an_audited(number, number), a_picture()) for number in ("26-0001", "26-0002")]
    late = an_audited("26-0003", "other", approval={"number": "A", "on": "2026-02-26"})
    report = audit([*two, late], MEASURES, about=lambda audited: audited.number == "26-0001")
    assert [(each.rule, each.claims) for each in report.found] == [("same-picture", ("26-0001", "26-0002"))]


def test_the_serious_comes_first():
    claims = [
        an_audited("26-0001", parts=[{"name": "coil", "number": "P-1"}, {"name": "coil", "number": "P-1"}]),
        an_audited("26-0002", "other", approval={"number": "A", "on": "2026-02-26"}),
    ]
    assert [each.weight for each in audit(claims, MEASURES).found] == ["serious", "look"]


def test_the_same_thing_found_by_two_serials_is_told_once():
    serials = [{"role": "unit", "value": "HC70-1"}, {"role": "engine", "value": "E70-1"}]
    twice = [an_audited(number, unit__serials=serials) for number in ("26-0001", "26-0002")]
    assert len(found_by("unit-claimed-twice", *twice)) == 1


class Backwards(KeptTraces):
    def groups(self):
        return reversed(list(super().groups()))


def test_what_two_pictures_tell_alike_is_told_by_one_whichever_is_come_upon_first():
    pictures = a_picture("photos/a.jpg", "aa" * 32), a_picture("photos/b.jpg", "bb" * 32)
    claims = [with_pictures(an_audited(number, number), *pictures) for number in ("26-0001", "26-0002")]
    assert audit(claims, MEASURES, traces=Backwards()) == audit(claims, MEASURES)


def test_claims_may_come_from_a_stream():
    assert audit(iter([an_audited(), an_audited("26-0002")]), MEASURES).claims == 2


def test_without_a_wish_every_rule_is_on():
    assert chosen_rules() == AUDIT_RULES


def test_a_rule_the_shop_has_off_is_left_out():
    assert "same-picture" not in [rule.id for rule in chosen_rules(off=["same-picture"])]


def test_a_rule_asked_for_is_used_though_it_is_off():
    assert [rule.id for rule in chosen_rules(["same picture"], ["same-picture"])] == ["same-picture"]


@pytest.mark.parametrize(("wanted", "off"), [(["same-pictur"], []), ([], ["same-pictur"])], ids=["asked", "off"])
def test_an_unknown_rule_suggests_the_nearest(wanted, off):
    with pytest.raises(BadInput) as refused:
        chosen_rules(wanted, off)
    assert "'same-picture'" in refused.value.why


HOW = ("look", "traces", "counted")


def source_of(function, seen=frozenset()):
    """A function of a rule with those of its file that it calls."""
    own = inspect.getsource(function)
    called = {name: vars(inspect.getmodule(function)).get(name) for name in re.findall(r"\b(\w+)\(", own)}
    inside = [one for name, one in called.items() if inspect.isfunction(one) and name not in seen]
    inside = [one for one in inside if one.__module__ == function.__module__]
    return own + "".join(source_of(one, seen | set(called)) for one in inside)


def test_the_rules_that_go_by_what_a_shop_alone_knows_are_told_apart():
    looks = {rule.id: next(getattr(rule, how) for how in HOW if hasattr(rule, how)) for rule in AUDIT_RULES}
    asks = re.compile(r"audited\.(?:plan|terms|retail|house|packet_damage)\b")
    assert {rule for rule, look in looks.items() if asks.search(source_of(look))} == NEED_THE_SHOP | NEED_IT_IN_PART
    assert {rule for rule, look in looks.items() if "audited.plan" in source_of(look)} == NEED_A_PLAN


@pytest.mark.parametrize(
    ("rule", "lacking", "whole"),
    [
        ("filed-late", {"planless": 1}, False),
        ("owner-is-staff", {"planless": 1}, True),
        ("owner-is-staff", {"unknown": {"mill": 1}}, False),
        ("bill-twice", {"unknown": {"mill": 1}}, True),
        ("filed-late", {"unknown": {"mill": 0}}, True),
    ],
)
def test_what_a_rule_could_not_go_by_is_not_looked_at(rule, lacking, whole):
    assert AuditReport(1, (), **lacking).looked_at_all(chosen_rules([rule])) == whole
