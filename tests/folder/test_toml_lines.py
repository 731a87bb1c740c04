from __future__ import annotations

import tomllib

import pytest
import tomlkit

from claimpack.folder.toml_lines import put_key
from claimpack.template_files import shipped

BLANK = (shipped("claim") / "claim.toml").read_text(encoding="utf-8")


def put(text, table, key, value):
    """What the text is once a key was put into it."""
    return tomlkit.dumps(put_key(tomlkit.parse(text), table, key, value))


def test_a_key_takes_the_line_that_is_kept_for_it_and_leaves_its_comment_there():
    text = '[unit]\n# use = "professional"     # household | rental\n# hours = "1"\n'
    assert (
        put(text, "unit", "use", "rental") == '[unit]\nuse = "rental"             # household | rental\n# hours = "1"\n'
    )


def test_a_value_longer_than_the_room_keeps_off_the_comment():
    assert put('[f]\n# why = ""  # said\n', "f", "why", "It smokes.") == '[f]\nwhy = "It smokes."  # said\n'


@pytest.mark.parametrize("quote", ['"', "'"])
def test_a_number_sign_inside_a_kept_value_is_no_comment(quote):
    assert put(f"[f]\n# why = {quote}no # here{quote}\n", "f", "why", "x") == '[f]\nwhy = "x"\n'


REMARK = "# hours = 112.4 says the owner; the meter itself was broken, ask Tobias"


def test_a_remark_that_begins_like_a_key_is_kept():
    assert put(f"[unit]\n{REMARK}\n\n[g]\n", "unit", "hours", 98) == f"[unit]\n{REMARK}\nhours = 98\n\n[g]\n"


def test_a_line_kept_for_a_key_is_taken_though_a_remark_like_it_stands_above():
    text = put(f'[unit]\n{REMARK}\n# hours = "1"\na = 1\n', "unit", "hours", 98)
    assert text == f"[unit]\n{REMARK}\nhours = 98\na = 1\n"


def test_a_comment_behind_a_kept_line_stays_behind_a_text_of_several_lines():
    value = tomlkit.string("one\ntwo", multiline=True)
    assert put('[f]\n# why = ""  # said\n', "f", "why", value) == '[f]\nwhy = """one\ntwo"""  # said\n'


def lines_kept():
    """Every table and key that a blank claim keeps a line for, outside its lists."""
    table = ""
    for line in BLANK.partition("# [approval]")[0].splitlines():
        table = line.strip("[]") if line.startswith("[") else table
        word, equals, _ = line.removeprefix("# ").partition(" = ")
        if line.startswith("# ") and equals and word.isidentifier():
            yield table, word


@pytest.mark.parametrize(("table", "key"), list(lines_kept()))
def test_every_line_that_a_blank_claim_keeps_is_taken_by_its_key(table, key):
    assert len(put(BLANK, table, key, "x").splitlines()) == len(BLANK.splitlines())


def test_a_key_without_a_line_of_its_own_follows_the_others_of_its_table():
    text = "[f]\na = 1\n\n# [[parts]]\n# b = 2\n\n[g]\n"
    assert put(text, "f", "b", 3) == "[f]\na = 1\nb = 3\n\n# [[parts]]\n# b = 2\n\n[g]\n"


def test_a_key_above_all_tables_stays_above_them():
    assert put('a = 1\n# maker = "x"\n\n[unit]\n', "", "maker", "halden") == 'a = 1\nmaker = "halden"\n\n[unit]\n'


def test_a_key_that_is_there_is_changed_where_it_stands():
    assert put("[f]\nb = 1  # one\n# b = 2\n", "f", "b", 3) == "[f]\nb = 3  # one\n# b = 2\n"


def test_what_looks_like_a_kept_line_inside_a_text_is_text():
    text = '[f]\na = """\n# b = 1\n[g]\n"""\n'
    assert tomllib.loads(put(text, "f", "b", 2)) == {"f": {"a": "# b = 1\n[g]\n", "b": 2}}


def test_a_table_that_is_not_there_is_made():
    assert tomllib.loads(put("a = 1\n", "f", "b", 2)) == {"a": 1, "f": {"b": 2}}


def test_a_table_in_braces_takes_a_key_too():
    assert tomllib.loads(put("f = {a = 1}\n", "f", "b", 2)) == {"f": {"a": 1, "b": 2}}


def test_text_of_several_lines_is_put_whole():
    value = tomlkit.string("one\ntwo", multiline=True)
    assert tomllib.loads(put(BLANK, "failure", "complaint", value))["failure"]["complaint"] == "one\ntwo"


@pytest.mark.parametrize("listed", ["parts", "findings", "labour", "extras", "held", "earlier"])
def test_after_an_answer_the_lists_of_a_blank_claim_can_still_be_taken_into_use(listed):
    text = put(put(BLANK, "failure", "complaint", "It smokes."), "failure", "part_name", "coil")
    used = text.replace(f"# [[{listed}]]", f"[[{listed}]]")
    assert tomllib.loads(used)["failure"] == {"complaint": "It smokes.", "part_name": "coil"}


def test_what_looks_like_a_kept_line_inside_a_list_is_no_line_to_take():
    text = "[f]\na = [\n# b = 1\n3]\n"
    assert put(text, "f", "b", 2) == f"{text}b = 2\n"


def test_a_line_kept_in_a_table_that_is_not_taken_into_use_is_not_that_of_the_table_above():
    text = "[f]\n# [[parts]]\n# b = 2\n"
    assert put(text, "f", "b", 3) == "[f]\nb = 3\n# [[parts]]\n# b = 2\n"


def test_a_key_above_all_tables_needs_no_line_to_stand_on():
    assert put("[unit]\n", "", "maker", "halden") == 'maker = "halden"\n[unit]\n'
