from __future__ import annotations

import json

import pytest
from running import claimpack

from claimpack.folder.file_kinds import ANSWER, FILE_KINDS, schema_of, with_schema_line


def test_a_claim_begun_in_a_shop_names_the_schema_that_lies_there(tmp_path):
    claimpack("shop", "init", "shop", folder=tmp_path)
    claimpack("start", "jobs/26-1", "--blank", folder=tmp_path / "shop")
    folder = tmp_path / "shop/jobs/26-1"
    mark, _, named = (folder / "claim.toml").read_text().partition("\n")[0].partition(" ")
    assert (mark, (folder / named).is_file()) == ("#:schema", True)


def test_a_file_outside_of_a_shop_names_no_schema(tmp_path):
    assert with_schema_line('#:schema ../schema/plan.json\nid = "x"\n', "plan", tmp_path, None) == 'id = "x"\n'


def test_the_schema_of_a_claim_is_of_its_keys_and_that_of_answers_of_commands():
    claim, answers = (json.loads(schema_of(kind)) for kind in ("claim", ANSWER))
    assert {"number", "unit", "dates"} <= claim["properties"].keys()
    assert "unit" not in answers.get("properties", {})


@pytest.mark.parametrize("kind", FILE_KINDS)
def test_a_schema_shows_every_sign_as_it_is(kind):
    assert "\\u" not in schema_of(kind)
