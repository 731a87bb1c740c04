"""Several failures of one claim: written as `[[failure]]`, named by their number, changed one by one."""

from __future__ import annotations

import tomllib

import pytest
from builders import a_claim

from claimpack.core.claims.claim import Claim
from claimpack.core.claims.editing.changes import differences
from claimpack.core.claims.editing.key_paths import key_path
from claimpack.core.claims.editing.key_values import placed, with_values
from claimpack.errors import BadInput
from claimpack.folder.claim_toml import claim_from_toml, claim_to_toml, with_changes

TWO = a_claim(failure=[{"component": "short block"}, {"component": "gear case", "defect": "material"}])
TEXT = f"# from the bench\n{claim_to_toml(TWO)}"


def changed(claim, key, value):
    changes = [(key_path(Claim, key), value)]
    return with_values(claim, placed(claim, changes), "set"), changes


def test_they_are_written_as_tables_in_a_row():
    assert [one["component"] for one in tomllib.loads(TEXT)["failure"]] == ["short block", "gear case"]


def test_what_is_written_comes_back_the_same():
    assert claim_from_toml(TEXT, "claim.toml") == TWO


def test_a_document_has_them_in_a_row_and_one_alone_as_a_table():
    documents = [claim.model_dump(mode="json")["failure"] for claim in (TWO, a_claim())]
    assert [type(document) for document in documents] == [list, dict]


@pytest.mark.parametrize(
    ("key", "components"),
    [
        ("failure[2].component", ["short block", "belt"]),
        ("failure[1].component", ["belt", "gear case"]),
        ("failure.component", ["belt", "gear case"]),
        ("failure[3].component", ["short block", "gear case", "belt"]),
    ],
)
def test_one_of_them_is_changed_by_its_number(key, components):
    after, changes = changed(TWO, key, "belt")
    written = with_changes(TEXT, after, changes)
    assert [one.component for one in claim_from_toml(written, "claim.toml").failures] == components
    assert written.startswith("# from the bench")


def test_a_second_failure_is_added_to_the_one_there_is():
    after, _ = changed(a_claim(), "failure[2].component", "belt")
    assert after.components() == ("short block", "belt")


def test_a_key_taken_away_is_that_of_one_failure():
    after, _ = changed(TWO, "failure[2].defect", None)
    assert [one.defect for one in after.failures] == [None, None]


def test_what_differs_is_told_by_number():
    after, _ = changed(TWO, "failure[2].component", "belt")
    assert [found.key for found in differences(TWO, after)] == ["failure[2].component"]


def test_a_slip_in_one_of_them_is_named_by_number():
    with pytest.raises(BadInput, match=r"failure\[2\]\.defct is not known"):
        claim_from_toml(TEXT.replace("defect", "defct"), "claim.toml")
