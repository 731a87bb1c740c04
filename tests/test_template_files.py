from __future__ import annotations

import pytest
from builders import a_plan

from claimpack.errors import BadInput, NotFound
from claimpack.template_files import (
    COVERAGE,
    TERMS,
    Places,
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
