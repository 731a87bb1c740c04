from __future__ import annotations

import pytest
from running import claimpack
from shops_with_claims import a_shop_with
from tried_plans import PLAN

from claimpack.template_files import shipped


def beside(folder, *changes):
    """A copy of a shipped plan with words replaced, and the law it takes in beside it."""
    text = (shipped("coverage") / "halden-2025.toml").read_text()
    for old, new in changes:
        text = text.replace(old, new)
    (folder / "new.toml").write_text(text.replace('statutes = ["us-ca-small-offroad"]', ""))
    (folder / "old.toml").write_text(
        (shipped("coverage") / "halden-2025.toml").read_text().replace('statutes = ["us-ca-small-offroad"]', "")
    )
    return folder


@pytest.fixture(scope="module")
def shop(tmp_path_factory):
    return a_shop_with(tmp_path_factory.mktemp("diff"))


def test_plans_that_say_the_same_do_not_differ(tmp_path):
    ran = claimpack("plan", "diff", "old.toml", "new.toml", "--json", folder=beside(tmp_path))
    assert (ran.code, ran.json["claims"], ran.json["paid"], ran.json["keys"]) == (0, None, [], [])


def test_what_is_paid_otherwise_is_told_outside_of_a_shop(tmp_path):
    folder = beside(tmp_path, ('period = "P90D"\nfirst_owner_only', 'period = "P6M"\nfirst_owner_only'))
    ran = claimpack("plan", "diff", "old.toml", "new.toml", "--json", folder=folder)
    first = ran.json["paid"][0]
    assert (ran.code, first["uses"], first["to"], first["after"]["windows"]) == (
        3,
        ["rental"],
        "2025-07-01",
        ["unit-rental"],
    )


def test_claims_of_the_book_that_would_be_judged_otherwise_are_told(shop, tmp_path):
    folder = beside(tmp_path, ('labour_rate = "92.00"', 'labour_rate = "95.00"'))
    ran = claimpack("plan", "diff", folder / "old.toml", folder / "new.toml", "--json", folder=shop)
    assert (ran.code, [(one["claim"], one["differs"]) for one in ran.json["claims"]]) == (3, [("26-0001", ["claimed"])])
    assert ran.json["claims"][0]["after"]["window"] == "engine-professional"


def test_every_difference_is_a_line_for_people(shop, tmp_path):
    folder = beside(tmp_path, ('labour_rate = "92.00"\n', 'tax = "0.05"\n'))
    out = claimpack("plan", "diff", folder / "old.toml", folder / "new.toml", folder=shop).out
    claims, _, keys = out.partition("\n\n")
    assert claims.splitlines()[1:] == ["  • 26-0001 (draft): claimed 147.20 → 0.00"]
    assert keys.splitlines() == ["Keys", "  · pays.labour_rate: 92.00 → not said", "  · pays.tax: not said → 0.05"]


def test_a_claim_that_the_new_plan_is_not_for_is_told_with_all_it_loses(shop, tmp_path):
    folder = beside(tmp_path, ('id = "halden-2025"', 'id = "tessaly-2025"'), ('maker = "halden"', 'maker = "tessaly"'))
    out = claimpack("plan", "diff", folder / "old.toml", folder / "new.toml", folder=shop).out
    assert " ".join(out.partition("\n\n")[0].partition("(draft): ")[2].split()).split("; ") == [
        "covered → undecided",
        "window engine-professional → none",
        "last day 2027-06-01 → none",
        "claimed 147.20 → none",
    ]


def test_what_is_paid_otherwise_is_told_by_its_ages_and_shares(tmp_path):
    (tmp_path / "old.toml").write_text(PLAN)
    half = '{until = "P24M", maker = "0.50"}'
    (tmp_path / "new.toml").write_text(PLAN.replace(half, half.replace("0.50", "0.25")) + 'pays = ["parts"]\n')
    ran = claimpack("plan", "diff", "old.toml", "new.toml", folder=tmp_path)
    said = " ".join(ran.out.partition("\n\n")[0].split())
    first, second = (one.removeprefix("any other part; household; ") for one in said.split(" • ")[1:])
    assert first == "day of the sale to last day of 12 months: unit → unit (parts 100%, labour 0%, extras 0%)"
    assert second.endswith("12 months to last day of 24 months: unit 50% → unit (parts 25%, labour 0%, extras 0%)")
    told = claimpack("plan", "diff", "old.toml", "new.toml", "--json", folder=tmp_path).json["paid"]
    assert {one["differs_by"] for one in told} == {None}


def test_what_is_paid_otherwise_on_one_day_is_told_by_that_day(tmp_path):
    (tmp_path / "old.toml").write_text(PLAN)
    (tmp_path / "new.toml").write_text(PLAN.replace('period = "P24M"', 'period = "P24M"\nfirst_owner_only = true'))
    out = " ".join(claimpack("plan", "diff", "old.toml", "new.toml", folder=tmp_path).out.split())
    assert "(sold again at once, and the maker told)" in out
    assert "unit 50% → not covered" in out


def test_that_nothing_differs_is_said(tmp_path):
    assert claimpack("plan", "diff", "old.toml", "new.toml", folder=beside(tmp_path)).out == "NOTHING DIFFERS\n"


def test_a_plan_that_is_not_there_is_refused(tmp_path):
    assert claimpack("plan", "diff", "halden-2025", "nowhere.toml", folder=tmp_path).code == 2
