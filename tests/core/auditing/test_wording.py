from pathlib import Path

import claimpack
from claimpack.core.auditing.report.audit import AUDIT_RULES
from claimpack.core.auditing.wording import FORMERLY, SAYS
from claimpack.core.values.wording.sentence import placeholders, say

RULES = "\n".join(path.read_text() for path in Path(claimpack.__file__).parent.glob("core/auditing/rules/*.py"))


def test_every_rule_has_its_sentences():
    assert {key.partition(".")[0] for key in SAYS} - {"claims"} == {rule.id for rule in AUDIT_RULES}


def test_every_sentence_is_said_by_a_rule_and_ends_as_sentences_do():
    assert [key for key in SAYS if key.partition(".")[0] not in RULES or SAYS[key][-1] not in ".?"] == []


def test_a_sentence_that_was_worded_otherwise_is_still_said():
    assert set(FORMERLY) <= set(SAYS)
    assert [key for key in FORMERLY if FORMERLY[key] == SAYS[key]] == []


def test_no_fact_of_a_sentence_is_spoken_as_anything_but_itself():
    facts = {name for says in SAYS.values() for name in placeholders(says)}
    assert [
        name for name in facts if say(f"x.{name}", **{name: "P1Y"}).said({f"x.{name}": f"{{{name}}}"}) != "P1Y"
    ] == []
