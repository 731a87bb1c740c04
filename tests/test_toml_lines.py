from __future__ import annotations

import tomllib

import pytest
import tomlkit

from claimpack.template_files import shipped
from claimpack.toml_lines import put_key

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


def test_a_number_sign_inside_a_kept_value_is_no_comment():
    assert put('[f]\n# why = "no # here"\n', "f", "why", "x") == '[f]\nwhy = "x"\n'


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
