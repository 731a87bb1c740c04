from claimpack.core.auditing.report.audit import AUDIT_RULES
from claimpack.core.auditing.rules.patterns import Pattern


def test_every_rule_has_an_id_of_its_own_a_sentence_and_a_source():
    assert len({rule.id for rule in AUDIT_RULES}) == len(AUDIT_RULES)
    assert all(rule.says.endswith(".") and rule.source for rule in AUDIT_RULES)


def test_every_rule_names_its_source_where_it_is_written():
    functions = [getattr(rule, "look", None) or getattr(rule, "judge", Pattern.found) for rule in AUDIT_RULES]
    assert all("Source:" in function.__doc__ for function in functions)
