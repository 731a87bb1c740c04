from __future__ import annotations

import shutil

from running import claimpack

from claimpack.template_files import shipped

SHIPPED = [path for kind in ("coverage", "terms", "packet", "tag") for path in sorted(shipped(kind).glob("*.toml"))]


def checked(folder, text, *more):
    (folder / "own.toml").write_text(text, encoding="utf-8")
    return claimpack("plan", "check", "own.toml", *more, folder=folder)


def test_every_template_that_comes_with_the_program_can_be_used(tmp_path):
    ran = claimpack("plan", "check", *SHIPPED, "--json", folder=tmp_path)
    assert [file for file in ran.json["files"] if file["problems"]] == []
    assert (ran.code, len(ran.json["files"])) == (0, len(SHIPPED))


def test_a_file_that_is_not_there_is_refused(tmp_path):
    ran = claimpack("plan", "check", "nowhere.toml", folder=tmp_path)
    assert (ran.code, ran.out, "nowhere.toml" in ran.err) == (2, "", True)


def test_a_shops_own_template_is_listed_where_it_lies(tmp_path):
    claimpack("shop", "init", "shop", folder=tmp_path)
    own = tmp_path / "shop" / "terms" / "us-tx.toml"
    shutil.copy(shipped("terms") / "us-tx.toml", own)
    ran = claimpack("plan", "list", "--json", folder=tmp_path / "shop")
    assert (ran.json["terms"]["us-tx"], sorted(ran.json)) == (
        str(own),
        ["campaigns", "coverage", "forms", "packet", "tag", "terms"],
    )


def test_outside_a_shop_the_programs_own_are_listed(tmp_path):
    ran = claimpack("plan", "list", folder=tmp_path)
    assert (ran.code, "us-tx" in ran.out, "halden-2025" in ran.out) == (0, True, True)


def test_a_plan_may_come_in_on_standard_input(tmp_path):
    text = (shipped("coverage") / "halden-2025.toml").read_text(encoding="utf-8")
    checked = [
        claimpack("plan", "check", "-", folder=tmp_path, typed=typed).code for typed in (text, f"colour = 1\n{text}")
    ]
    assert checked == [0, 3]
