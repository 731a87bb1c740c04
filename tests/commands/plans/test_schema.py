from __future__ import annotations

import json

from running import claimpack

from claimpack.folder.file_kinds import FILE_KINDS


def test_the_schema_of_a_kind_of_file_goes_to_standard_output(tmp_path):
    assert json.loads(claimpack("schema", "plan", folder=tmp_path).out)["properties"]["window"]["type"] == "array"


def test_a_kind_of_file_that_is_none_is_refused_with_the_nearest(tmp_path):
    ran = claimpack("schema", "layuot", folder=tmp_path)
    assert (ran.code, ran.out, "layout" in ran.err) == (2, "", True)


def test_a_new_shop_has_the_schema_of_every_kind_of_file(tmp_path):
    claimpack("shop", "init", "shop", folder=tmp_path)
    written = {path.stem: json.loads(path.read_text())["title"] for path in (tmp_path / "shop/schema").iterdir()}
    assert written == {kind: called for kind, (called, _) in FILE_KINDS.items()}
