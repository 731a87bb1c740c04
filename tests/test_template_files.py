from __future__ import annotations

import pytest
from builders import a_claim, a_plan

from claimpack.errors import BadInput, NotFound
from claimpack.template_files import (
    CAMPAIGNS,
    COVERAGE,
    TERMS,
    Places,
    Template,
    mark_of_plans,
    must_be_there,
    plans_for,
    read_plans,
    read_terms,
    template,
    templates,
    whole_layout,
    with_statutes,
)


def written(folder, name, text=""):
    folder.mkdir(parents=True, exist_ok=True)
    (folder / name).write_text(text or f'id = "{name.removesuffix(".toml")}"\n', encoding="utf-8")
    return folder / name


def test_the_nearest_of_the_same_id_wins(tmp_path):
    named, claim, shop = (tmp_path / place for place in ("named", "claim", "shop"))
    for folder in (named, claim / TERMS, shop / TERMS):
        written(folder, "us-tx.toml")
    places = Places((named,), claim, shop)
    nearer = [places, places._replace(named=()), places._replace(named=(), claim=None)]
    assert [template(TERMS, "us-tx", place).path.parent for place in nearer] == [named, claim / TERMS, shop / TERMS]


def test_a_file_without_an_id_goes_by_its_name(tmp_path):
    path = written(tmp_path, "spring.toml", 'name = "Spring"\n')
    assert templates(TERMS, Places((tmp_path,)))["spring"].path == path


def test_of_two_files_of_a_folder_with_one_id_the_first_by_name_wins(tmp_path):
    written(tmp_path, "b.toml", 'id = "own"\n')
    first = written(tmp_path, "a.toml", 'id = "own"\n')
    assert template(TERMS, "own", Places((tmp_path,))).path == first


def test_what_editors_and_file_servers_leave_behind_is_no_template(tmp_path):
    (tmp_path / "._own.toml").write_bytes(b"\x00\x05\x16\x07\xff")
    (tmp_path / ".#own.toml").symlink_to("ann@bench.4711")
    assert templates(TERMS, Places((tmp_path,))).keys() == templates(TERMS, Places()).keys()


def test_a_file_may_be_named_by_its_path(tmp_path):
    path = written(tmp_path, "us-tx.toml", 'id = "own"\n')
    assert template(TERMS, str(path), Places()).id == "own"


def test_a_place_named_that_is_not_there_is_not_passed_over(tmp_path):
    with pytest.raises(NotFound, match="there is no such file or folder"):
        templates(COVERAGE, Places((tmp_path / "nowhere",)))


def test_an_unknown_id_suggests_the_nearest():
    with pytest.raises(NotFound, match="coverage plan 'halden-205' is not there") as caught:
        template(COVERAGE, "halden-205", Places())
    assert "Did you mean 'halden-2025'?" in caught.value.do


def test_the_law_of_another_state_is_never_guessed_at():
    with pytest.raises(NotFound, match="payment terms 'us-oh' are not there") as caught:
        read_terms("us-oh", Places())
    assert ("Did you mean" in caught.value.do, "Leave the terms out" in caught.value.do) == (False, True)


def test_windows_of_law_are_no_plan_of_a_maker():
    found = templates(COVERAGE, Places())
    sets = {name for name, entry in found.items() if entry.is_window_set}
    assert (sets & {plan.id for plan in read_plans(Places())}, len(sets) > 0) == (set(), True)


def test_a_statute_that_is_not_there_names_the_plans_file():
    with pytest.raises(BadInput, match=r"own\.toml, key statutes: 'us-epa' is not there"):
        with_statutes(a_plan(statutes=["us-epa"]), {}, "own.toml")


def test_a_plan_with_a_problem_is_named_by_its_path(tmp_path):
    path = written(tmp_path, "own.toml", 'id = "own"\nmaker = "halden"\ncurrency = "USD"\nmodles = []\n')
    with pytest.raises(BadInput) as caught:
        read_plans(Places((path,)))
    assert (caught.value.what.startswith(f"{path}: "), "models" in str(caught.value.lines())) == (True, True)


def test_a_layout_takes_from_the_one_it_is_like_what_it_does_not_say(tmp_path):
    keys = {"id": "ours", "like": "letter", "margins": {"left": 30}, "words": {"yes": "aye"}}
    whole, letter = (whole_layout(one, Places(), "ours.toml") for one in (keys, {"id": "x", "like": "letter"}))
    assert (whole["id"], whole["margins"], "like" in whole) == ("ours", {"left": 30}, False)
    assert (whole["words"]["yes"], whole["words"]["no"]) == ("aye", letter["words"]["no"])


def test_a_layout_is_like_one_that_says_everything():
    with pytest.raises(BadInput):
        whole_layout({"like": "legal"}, Places(), "ours.toml")


@pytest.mark.parametrize(("maker", "is_of"), [("HALDEN", True), ("Halden Power", True), ("Orrin", False), ("", False)])
def test_a_file_is_of_a_maker_by_its_word_or_its_name(tmp_path, maker, is_of):
    assert Template({"maker": "halden", "maker_name": "Halden Power"}, tmp_path).is_of(maker) is is_of


@pytest.mark.parametrize("missing", ["closes", "operation", "serials", None])
def test_a_campaign_is_told_by_the_keys_that_no_plan_has(tmp_path, missing):
    keys = {"closes", "operation", "serials"} - {missing}
    assert Template(dict.fromkeys(keys), tmp_path).is_campaign is (missing is None)


@pytest.mark.parametrize("wanted", ["own", "gone.toml"], ids=["a file of another kind", "no file"])
def test_what_is_no_template_file_is_looked_for_by_its_id(tmp_path, wanted):
    (tmp_path / "own").write_text('id = "own"')
    with pytest.raises(NotFound, match="are not there"):
        template(TERMS, str(tmp_path / wanted), Places())


def test_a_template_that_a_setting_names_is_there_by_its_name_or_by_its_id(tmp_path):
    written(tmp_path, "own.toml")
    written(tmp_path, "spring.toml", 'id = "other"\n')
    for wanted in ("own", "other", "us-tx"):
        must_be_there(TERMS, wanted, Places((tmp_path,)), "shop.toml, key terms")


@pytest.mark.parametrize("wanted", ["spring", "nowhere"])
def test_a_template_that_a_setting_names_and_that_is_not_there_is_told_with_the_setting(tmp_path, wanted):
    written(tmp_path, "spring.toml", 'id = "other"\n')
    with pytest.raises(NotFound) as caught:
        must_be_there(TERMS, wanted, Places((tmp_path,)), "shop.toml, key terms")
    assert caught.value.what.startswith(f"shop.toml, key terms: payment terms '{wanted}'")


def makers(plans):
    return {plan.maker for plan in plans}


@pytest.mark.parametrize(
    ("changes", "judged_under", "alone"),
    [
        ({}, "", True),
        ({}, "halden-2025", True),
        ({}, "orrin-vale-2024", False),
        ({"plan": "halden-2025"}, "", False),
        ({"case": "campaign", "campaign": "HC-2026-03"}, "", False),
        ({"unit__model": "no such"}, "", False),
        ({"maker": "nobody"}, "", False),
    ],
)
def test_only_the_plans_of_its_maker_are_read_for_a_claim_that_falls_under_one_of_them(changes, judged_under, alone):
    claim = a_claim(**{"plan": None, **changes})
    found = makers(plans_for(claim, Places(), judged_under))
    assert (found == {"halden"}, len(found) > 1) == (alone, not alone)


CAMPAIGN = """
id = "HC-9"
name = "Guide"
plan = "{}"
serials = ["HC70-118-20000 .. HC70-118-20999"]
opens = 2026-03-01
closes = 2027-02-28
operation = {{code = "HC-9", hours = "0.4"}}
"""


def of_the_plan(plans, named):
    return [campaign.id for plan in plans if plan.id == named for campaign in plan.campaign]


@pytest.mark.parametrize("folder", [CAMPAIGNS, COVERAGE])
def test_a_campaign_counts_with_the_plan_it_names_from_its_own_folder_alone(tmp_path, folder):
    written(tmp_path / folder, "HC-9.toml", CAMPAIGN.format("halden-2025"))
    found = read_plans(Places(shop=tmp_path))
    assert ("HC-9" in of_the_plan(found, "halden-2025")) is (folder == CAMPAIGNS)
    assert "HC-9" not in of_the_plan(found, "orrin-vale-2024")


@pytest.mark.parametrize("maker", ["", "halden"])
def test_a_campaign_of_a_plan_that_is_not_there_names_its_file(tmp_path, maker):
    path = written(tmp_path / CAMPAIGNS, "HC-9.toml", CAMPAIGN.format("halden-2019"))
    with pytest.raises(BadInput) as caught:
        read_plans(Places(shop=tmp_path), maker)
    assert caught.value.what == f"{path}, key plan: 'halden-2019' is not there"


def test_a_campaign_of_another_maker_is_no_fault_where_the_plans_of_one_are_read(tmp_path):
    written(tmp_path / CAMPAIGNS, "HC-9.toml", CAMPAIGN.format("orrin-vale-2024"))
    found = read_plans(Places(shop=tmp_path), "halden")
    assert makers(found) == {"halden"}


@pytest.mark.parametrize("folder", [CAMPAIGNS, COVERAGE, TERMS])
def test_the_mark_of_the_plans_changes_with_every_plan_and_campaign_and_nothing_else(tmp_path, folder):
    places = Places(shop=tmp_path)
    before = mark_of_plans(places)
    written(tmp_path / folder, "own.toml")
    assert (mark_of_plans(places) != before) is (folder != TERMS)
