from claimpack.core.auditing.innocent import INNOCENT
from claimpack.core.auditing.report.audit import AUDIT_RULES


def test_every_rule_says_how_an_honest_claim_could_look_like_that():
    assert set(INNOCENT) == {rule.id for rule in AUDIT_RULES}
