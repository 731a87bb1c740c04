import pytest
from audits import MEASURES, a_picture, an_audited, found_by, with_pictures
from builders import a_plan

from claimpack.core.auditing.report.audit import (
    AUDIT_RULES,
    audit,
    chosen_rules,
    looked_by,
)
from claimpack.core.auditing.report.traces import KeptTraces
from claimpack.errors import BadInput


def test_a_sound_claim_passes_every_rule():
    report = audit([an_audited()._replace(plan=a_plan())], MEASURES)
    assert (report.claims, report.found, report.exit_code) == (1, (), 0)


@pytest.mark.parametrize(
    ("claims", "rule", "looked_at", "code"),
    [
        ([an_audited()], "bill-twice", "all", 0),
        ([an_audited(), an_audited("26-2", "2")._replace(plan=a_plan())], "filed-late", "in part", 4),
        ([an_audited()], "filed-late", "nothing", 4),
        ([an_audited()], "work-when-shut", "nothing", 4),
        ([], "bill-twice", "nothing", 4),
    ],
    ids=["all", "some without a plan", "all without a plan", "no setting", "no claim"],
)
def test_nothing_found_is_a_yes_where_all_was_looked_at_alone(claims, rule, looked_at, code):
    report = audit(claims, MEASURES, chosen_rules([rule]))
    assert (report.found, report.looked_at, report.exit_code) == ((), looked_at, code)


def test_a_rule_that_no_claim_could_be_asked_by_is_none_of_those_asked():
    rules = chosen_rules(["filed-late", "bill-twice"])
    assert audit([an_audited()], MEASURES, rules).asked == ("bill-twice",)


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
    (found,) = audit(claims, MEASURES).found
    assert found.evidence["pictures"] == "26-0001: photos/a.jpg, 26-0002: photos/a.jpg"


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


@pytest.mark.parametrize(
    ("off", "looked"),
    [
        ([], ["same-picture", "alike-pictures"]),
        (["alike-pictures"], ["same-picture"]),
        (["same-picture"], ["same-picture"]),
    ],
    ids=["none off", "the other off", "itself off"],
)
def test_a_rule_is_looked_by_with_those_that_come_upon_its_fact_unless_the_shop_has_them_off(off, looked):
    assert [rule.id for rule in looked_by(chosen_rules(["same-picture"]), off)] == looked
