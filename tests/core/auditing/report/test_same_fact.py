from claimpack.core.auditing.audited import Irregularity
from claimpack.core.auditing.report.same_fact import told_by, told_once
from claimpack.core.values.wording.sentence import say


def found(rule, *claims):
    return Irregularity((say(rule, claims=" and ".join(claims)),), claims, "look")


def test_two_rules_about_one_fact_of_the_same_claims_are_one_finding():
    part = found("same-paper", "1", "2")
    (told,) = told_once([found("unit-of-two-models", "1", "2"), part])
    assert (told.rule, told.also) == ("unit-of-two-models", ("same-paper",))
    assert told.all_evidence == {"same-paper": part.what}


def test_the_same_fact_of_other_claims_is_another_finding():
    assert len(told_once([found("unit-claimed-twice", "1", "2"), found("job-split", "1", "3")])) == 2


def test_another_fact_of_the_same_claims_is_another_finding():
    assert len(told_once([found("unit-claimed-twice", "1", "2"), found("same-picture", "1", "2")])) == 2


def test_a_claim_filed_late_over_that_very_block_is_one_finding():
    assert len(told_once([found("filed-late", "1"), found("filed-over-block", "1")])) == 1


def test_one_rule_may_find_two_things_in_one_claim():
    assert len(told_once([found("owner-at-the-shop", "1"), found("owner-at-the-shop", "1")])) == 2


def test_of_two_things_one_rule_found_the_first_takes_what_another_rule_says():
    twice = found("part-serial-twice", "1", "2"), found("part-serial-twice", "1", "2")
    first, second = told_once([*twice, found("job-split", "1", "2")])
    assert (first.also, second.also) == (("job-split",), ())


def test_what_one_of_the_rules_said_can_be_told_alone():
    told = told_once([found("unit-claimed-twice", "1", "2"), found("job-split", "1", "2")])
    assert told_by(told[0], {"job-split"}) == [found("job-split", "1", "2")]
