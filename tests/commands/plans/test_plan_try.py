from __future__ import annotations

import pytest
from running import claimpack
from tried_plans import PLAN, tried


def test_scripts_get_every_day_and_share(tmp_path):
    found = tried(tmp_path, "--use", "household", "--json").json
    row = found["units"][0]["rows"][0]
    assert [(age["day"], paid["parts"]) for age, paid in zip(found["ages"], row["paid"], strict=True)][-2:] == [
        ("2027-03-14", "0.5000"),
        ("2027-03-15", "0.0000"),
    ]


def test_an_age_that_is_no_period_is_refused(tmp_path):
    ran = tried(tmp_path, "--age", "soon")
    assert (ran.code, ran.out, "--age" in ran.err) == (2, "", True)


def test_a_use_that_no_unit_has_is_refused(tmp_path):
    assert tried(tmp_path, "--use", "comercial").code == 2


def test_a_plan_within_reach_is_named_by_its_id(tmp_path):
    ran = claimpack("plan", "try", "tessaly-jp-2025", "--component", "hose", "--json", folder=tmp_path)
    assert (ran.code, ran.json["units"][0]["rows"][0]["components"]) == (0, ["hose"])


def test_of_a_limit_that_ends_cover_it_is_not_told_that_nothing_changes_up_to_it(tmp_path):
    (tmp_path / "own.toml").write_text(f"{PLAN}hours = 300\n")
    out = claimpack("plan", "try", "own.toml", "--sold", "2025-03-14", folder=tmp_path).out
    assert ("More than 300 hours" in out, "for: 300 hours" in out) == (True, False)


def test_what_changes_for_other_units_has_its_table_and_what_does_not_a_line(tmp_path):
    deck = '[[window]]\nid = "deck"\ncovers = ["deck"]\nperiod = "P12M"\nhours = 50\n'
    (tmp_path / "own.toml").write_text(f"{PLAN}first_owner_only = true\n{deck}")
    asked = ("plan", "try", "own.toml", "--sold", "2025-03-14", "--component", "hose")
    out, again = claimpack(*asked, folder=tmp_path).out, "sold again at once, and the maker told"
    told, _, unchanged = " ".join(out.split()).casefold().partition("nothing changes for: 50 hours")
    units = claimpack(*asked, "--json", folder=tmp_path).json["units"]
    assert [one["differs_by"] for one in units if one["rows"]] == [None, again, "more than 50 hours"]
    assert (told.count(": what changes"), f"{again}: what changes" in told, again in unchanged) == (2, True, False)


def test_parts_sold_and_campaigns_have_sections_of_their_own(tmp_path):
    found = claimpack("plan", "try", "halden-2025", folder=tmp_path)
    assert [line for line in found.out.splitlines() if line.startswith(("Parts sold", "Campaign"))] != []
    document = claimpack("plan", "try", "halden-2025", "--json", folder=tmp_path).json
    assert [row["components"] for row in document["parts"]["rows"]] == [
        ["a part sold over the counter"],
        ["a part the shop fitted"],
    ]
    assert document["campaigns"][0]["id"] == "HC-2026-03"


def test_the_work_of_a_campaign_is_told_by_its_name(tmp_path):
    out = claimpack("plan", "try", "halden-2025", folder=tmp_path).out
    assert "It pays: Replace pull cord guide, 0.4 h" in out


@pytest.mark.parametrize(
    ("options", "said"),
    [
        ([], {"registered that day", "first owner"}),
        (["--never-registered"], {"never registered", "first owner"}),
        (["--second-owner"], {"registered that day", "sold again that day"}),
        (["--sold-in", "US-CA"], {"in US-CA", "registered that day", "first owner"}),
    ],
)
def test_what_the_unit_is_that_was_tried_is_said_above_the_table(tmp_path, options, said):
    told = " ".join(tried(tmp_path, "--use", "household", *options).out.partition("what failed")[0].split())
    words = ("in US-CA", "registered that day", "never registered", "first owner", "sold again that day")
    assert {word for word in words if word in told} == said


def test_only_what_can_stand_in_a_cell_is_explained(tmp_path):
    (tmp_path / "own.toml").write_text(f'{PLAN}\n[[window]]\nid = "never"\ncovers = ["belt"]\nperiod = "P1M"\n')
    asked = ("own.toml", "--sold", "2025-03-14", "--component", "hose")
    told = (claimpack("plan", "try", *asked, folder=tmp_path).out, tried(tmp_path, "--use", "household").out)
    assert [("nothing is paid by: never" in out, "cannot be said" in out) for out in told] == [
        (True, True),
        (False, False),
    ]
