from __future__ import annotations

import shutil

import pytest
from running import claimpack

from claimpack.template_files import shipped


def checked(folder, text, *more):
    (folder / "own.toml").write_text(text, encoding="utf-8")
    return claimpack("plan", "check", "own.toml", *more, folder=folder)


def test_a_template_without_a_problem_is_a_line(tmp_path):
    shutil.copy(shipped("terms") / "us-tx.toml", tmp_path)
    ran = claimpack("plan", "check", "us-tx.toml", folder=tmp_path)
    assert (ran.code, ran.out) == (0, "✓ us-tx.toml\n")


@pytest.mark.parametrize(
    ("text", "problem"),
    [
        ("", "own.toml is no coverage plan, terms, layout, stock or form"),
        ("id = own", "own.toml · Invalid value (at line 1, column 6)"),
        ('id = "own"\nname = "x"\nanswer_within = "soon"', "own.toml · key answer_within: 'soon' is not a period"),
        ('id = "own"\nname = "x"\nsilence = "accepted"', "silence has a meaning, but answer_within does not say"),
    ],
    ids=["empty", "no TOML", "wrong key", "doubtful"],
)
def test_what_is_wrong_or_doubtful_is_named_and_is_a_no(tmp_path, text, problem):
    ran = checked(tmp_path, text)
    assert (ran.code, problem in " ".join(ran.out.split())) == (3, True)


def test_every_problem_of_a_file_has_a_line(tmp_path):
    ran = checked(tmp_path, 'id = "own"\nname = "x"\nanswer_within = "soon"\npay_within = "P0D"\nfee = 1', "--json")
    problems = ran.json["files"][0]["problems"]
    assert [problem.split()[1].rstrip(":") for problem in problems[:3]] == ["answer_within", "pay_within", "fee"]


def test_one_bad_file_does_not_hide_the_next(tmp_path):
    shutil.copy(shipped("terms") / "us-tx.toml", tmp_path)
    (tmp_path / "own.toml").write_bytes(b"name = 'Z\xfcrich'")
    ran = claimpack("plan", "check", "own.toml", "us-tx.toml", folder=tmp_path)
    assert (ran.code, [line[0] for line in ran.out.splitlines() if line[0] != " "]) == (3, ["✗", "✓"])
