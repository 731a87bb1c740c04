import hashlib
import json
from datetime import date

import pytest
from audits import FILED, a_picture, an_audited, found_by, with_pictures

from claimpack.core.auditing.report.settled import Settled, asked_for, marks_of, settling, split, taking_up
from claimpack.errors import NotFound

HOW = Settled(date(2026, 3, 1), "ann", "Agreed by phone.")


def dear(claimed="1908.82"):
    standing = FILED.model_validate(FILED.model_dump() | {"claimed": claimed})
    (found,) = found_by(
        "over-approval", an_audited(approval={"number": "1200", "up_to": "450"})._replace(standing=standing)
    )
    return found


def formerly(rule, claims, what, **evidence):
    facts = [rule, [*claims, what, *sorted(evidence.items())]]
    return hashlib.sha256(json.dumps(facts).encode()).hexdigest()[:16]


OLD = formerly(
    "over-approval",
    ["26-0001"],
    "1908.82 is claimed, and approval 1200 reaches to 450.",
    claimed="1908.82",
    approved="450",
    approval="1200",
)


@pytest.mark.parametrize("mark", [marks_of(dear())[0], OLD], ids=["now", "formerly by its sentence"])
def test_a_finding_is_settled_by_its_facts_or_as_it_formerly_was(mark):
    assert split([dear()], {mark: HOW}) == ((), ((dear(), HOW),))


@pytest.mark.parametrize("mark", [marks_of(dear())[0], OLD], ids=["now", "formerly by its sentence"])
def test_a_finding_is_another_one_once_its_facts_are(mark):
    assert split([dear("1908.83")], {mark: HOW})[1] == ()


def test_the_words_of_a_finding_are_no_part_of_what_settles_it():
    marks = marks_of(dear())
    assert settling(dear(), "Agreed.", HOW.on).facts["finding"] == marks[0] != marks[1] == OLD


def test_whichever_way_a_finding_was_settled_it_is_taken_up():
    assert taking_up(dear(), "", HOW.on).facts["finding"].split() == list(marks_of(dear()))


def test_what_was_said_in_other_words_is_settled_still():
    finding = {"what": "compression", "value": "42", "high": "30"}
    (found,) = found_by("reading-against-cause", an_audited(findings=[finding], failure__cause="Low compression."))
    old = "The cause says compression is low; 42  is high."
    assert marks_of(found)[1] == formerly("reading-against-cause", ["26-0001"], old, limits="at most 30")


def test_a_cause_with_a_defect_that_nobody_named_is_settled_still():
    (found,) = found_by("cause-against-defect", an_audited(failure__cause="Worn out.", failure__defect=None))
    old = "The cause says 'Worn out', and the defect is claimed as not told."
    assert marks_of(found)[1] == formerly("cause-against-defect", ["26-0001"], old, cause="Worn out.")


@pytest.mark.parametrize("claims", [[], ["26-0001"], ["26-0001", "26-0002"]], ids=["none", "one", "all"])
def test_a_finding_is_asked_for_by_its_rule_and_some_of_its_claims(claims):
    found = found_by("same-picture", *(with_pictures(an_audited(f"26-000{n}"), a_picture()) for n in (1, 2)))
    assert asked_for(found, "same-picture", claims, "open") == found


def test_a_finding_does_not_tell_of_a_claim_that_it_does_not_name():
    with pytest.raises(NotFound):
        asked_for([dear()], "over-approval", ["26-0001", "26-0002"], "open")
