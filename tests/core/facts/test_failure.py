import pytest
from builders import CLAIM, a_claim, changed
from pydantic import ValidationError

from claimpack.core.claims.claim import Claim
from claimpack.core.facts.failure import Failures

COIL, SEAL = {"component": "coil"}, {"component": "seal"}


def test_the_component_falls_back_on_the_part_that_failed():
    assert a_claim(failure__component=None, failure__part={"name": "coil"}).component() == "coil"


def test_the_component_comes_before_the_part_that_failed():
    assert a_claim(failure__component="ignition", failure__part={"name": "coil"}).component() == "ignition"


@pytest.mark.parametrize(
    ("said", "words"),
    [
        (COIL, ["coil"]),
        ([COIL], ["coil"]),
        ([COIL, SEAL], ["coil", "seal"]),
        ((COIL, SEAL, COIL), ["coil", "seal", "coil"]),
        ([COIL | {"also": [SEAL]}], ["coil", "seal"]),
    ],
    ids=["a table", "a list of one", "two", "three", "others told by the first"],
)
def test_what_failed_is_one_table_or_several(said, words):
    failure = Claim.model_validate(changed(CLAIM, {"failure": said})).failure
    assert [one.word for one in (failure, *failure.also)] == words


@pytest.mark.parametrize("said", [[], ["coil"], "coil", [COIL, "seal"]], ids=repr)
def test_what_tells_of_no_failure_is_refused(said):
    with pytest.raises(ValidationError):
        a_claim(failure=said)


@pytest.mark.parametrize(
    ("failure", "written"),
    [(Failures(**COIL), COIL), (Failures(**COIL, also=[SEAL]), [COIL, SEAL])],
    ids=["one", "two"],
)
def test_one_failure_is_written_as_a_table_and_several_as_a_list(failure, written):
    claim = a_claim().model_copy(update={"failure": failure})
    assert claim.model_dump(mode="json", exclude_defaults=True)["failure"] == written
