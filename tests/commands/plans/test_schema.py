from __future__ import annotations

import json

from running import claimpack

from claimpack.file_kinds import FILE_KINDS, with_schema_line


def test_the_schema_of_a_kind_of_file_goes_to_standard_output(tmp_path):
    assert claimpack("schema", "plan", folder=tmp_path).json["properties"]["window"]["type"] == "array"


def test_a_kind_of_file_that_is_none_is_refused_with_the_nearest(tmp_path):
    ran = claimpack("schema", "layuot", folder=tmp_path)
    assert (ran.code, ran.out, "layout" in ran.err) == (2, "", True)


def test_a_new_shop_has_the_schema_of_every_kind_of_file(tmp_path):
    claimpack("shop", "init", "shop", folder=tmp_path)
    written = {path.stem: json.loads(path.read_text())["title"] for path in (tmp_path / "shop/schema").iterdir()}
    assert written == {kind: called for kind, (called, _) in FILE_KINDS.items()}


def test_a_claim_begun_in_a_shop_names_the_schema_that_lies_there(tmp_path):
    claimpack("shop", "init", "shop", folder=tmp_path)
    claimpack("start", "jobs/26-1", "--blank", folder=tmp_path / "shop")
    folder = tmp_path / "shop/jobs/26-1"
    mark, _, named = (folder / "claim.toml").read_text().partition("\n")[0].partition(" ")
    assert (mark, (folder / named).is_file()) == ("#:schema", True)


def test_a_file_outside_of_a_shop_names_no_schema(tmp_path):
    assert with_schema_line('#:schema ../schema/plan.json\nid = "x"\n', "plan", tmp_path, None) == 'id = "x"\n'
