from __future__ import annotations

import shutil

import pytest
from running import claimpack

from claimpack.commands.plans.looking_over import kind_of, problems_among
from claimpack.template_files import CAMPAIGNS, COVERAGE, FORMS, PACKET, TAG, TERMS, Places, shipped


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


@pytest.mark.parametrize(
    ("keys", "kind"),
    [
        ("file fields", FORMS),
        ("file rows", FORMS),
        ("file", None),
        ("fields", None),
        ("closes operation serials", CAMPAIGNS),
        ("serials window", COVERAGE),
        ("operation serials", None),
        ("window", COVERAGE),
        ("repair_time_extends", COVERAGE),
        ("sections", PACKET),
        ("like", PACKET),
        ("blocks", TAG),
        ("block", TAG),
        ("page", TAG),
        ("silence", TERMS),
        ("labour_floor", TERMS),
        ("name", None),
    ],
)
def test_a_template_is_known_by_the_keys_that_only_its_kind_has(keys, kind):
    assert kind_of(dict.fromkeys(keys.split())) == kind


TERMS_OF_ITS_OWN = 'id = "own"\nname = "x"\n'


@pytest.mark.parametrize(
    ("more", "doubts"),
    [
        ('cites = "s. 1"\nsilence = "nothing"\n', 0),
        ('cites = "s. 1"\nsilence = "accepted"\nanswer_within = "P30D"\n', 0),
        ('cites = "s. 1"\nsilence = "accepted"\n', 1),
        ('silence = "nothing"\n', 1),
    ],
)
def test_terms_are_doubtful_without_their_section_or_with_silence_after_no_time(tmp_path, more, doubts):
    (tmp_path / "own.toml").write_text(TERMS_OF_ITS_OWN + more)
    assert len(problems_among(tmp_path / "own.toml", Places(named=(tmp_path,)))) == doubts


@pytest.mark.parametrize(
    ("old", "new", "doubt"),
    [
        ("", "", ""),
        ('plan = "halden-2025"', 'plan = "halden-2052"', "halden-2025"),
        ("cites = ", "# cites = ", "cites"),
    ],
)
def test_a_campaign_is_doubtful_without_its_plan_or_where_the_maker_says_so(tmp_path, old, new, doubt):
    (campaign,) = (path for path in shipped("campaigns").glob("*.toml") if "halden-2025" in path.read_text())
    (tmp_path / "own.toml").write_text(campaign.read_text().replace(old, new) if old else campaign.read_text())
    told = problems_among(tmp_path / "own.toml", Places())
    assert (len(told), doubt in "".join(told)) == (bool(doubt), True)
