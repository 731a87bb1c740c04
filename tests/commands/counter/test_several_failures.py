"""Two failures on one claim of the book: `check` and `show` tell of each, scripts read each."""

from __future__ import annotations

import pytest
from running import claimpack
from shop_builders import a_shop

FAILURES = [{"component": "short block", "defect": "material"}, {"component": "air filter", "cause": "Worn."}]
PARTS = [{"name": "filter", "unit_cost": "4.50", "failure": 2}]


@pytest.fixture(scope="module")
def shop(tmp_path_factory):
    return a_shop(tmp_path_factory.mktemp("shop"), failure=FAILURES, parts=PARTS, plan="halden-2025")


def test_check_tells_of_each(shop):
    told = claimpack("check", "26-0001", folder=shop).out
    assert ("Failure 1: short block" in told, "Failure 2: air filter" in told) == (True, True)


def test_check_tells_whose_line_it_is_and_why(shop):
    told = " ".join(claimpack("check", "26-0001", folder=shop).out.split())
    assert "filter, 4.50, the owner pays: Failure 2, air filter: not covered." in told


def test_show_tells_of_each_and_which_line_is_for_which(shop):
    told = claimpack("show", "26-0001", folder=shop).out
    assert ("failure 2 · air filter" in told, "Worn." in told, "4.5" in told) == (True, True, True)


def test_lists_name_all_that_failed(shop):
    (listed,) = claimpack("list", "--json", folder=shop).json["claims"]
    assert listed["component"] == "short block, air filter"


def test_scripts_read_each(shop):
    failures = claimpack("check", "26-0001", "--json", folder=shop).json["failures"]
    assert [one["verdict"] for one in failures][1] == "not covered"
