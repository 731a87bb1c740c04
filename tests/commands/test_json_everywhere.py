"""Every command takes `--json`: its answer, or what is wrong, is one JSON document on stdout."""

import json

import pytest
from answers_told import EVERY
from demo_shop import NOW, a_demo_shop
from jsonschema import Draft202012Validator
from running import claimpack
from shop_builders import an_empty_shop

from claimpack.commands.guide import PAGES
from claimpack.folder.file_kinds import ANSWER, schema_of

SCHEMA = json.loads(schema_of(ANSWER))

NOT_THERE = {"photo receive": ["26-9999"]}
"""What waits for pictures unless something is wrong."""

LOOKED_AT = """
list --all · pending · due · hold list · hold list --state all · audit · history Q-041 · history Q-041 --full
show Q-041 · show Q-116 · check Q-116 · check Q-118 · photo list Q-116 · paper list Q-116 · part list Q-116
labour list Q-116 · finding list Q-116 · extra list Q-116 · find HC70 · chase Q-059 · plan list · campaign list
shop show
"""


@pytest.fixture(scope="module")
def shop(tmp_path_factory):
    return an_empty_shop(tmp_path_factory.mktemp("shop"))


@pytest.fixture(scope="module")
def invented(tmp_path_factory):
    return a_demo_shop(tmp_path_factory.mktemp("invented"))


def _said_of(command, told):
    """What the schema has against an answer."""
    kind = "error" if "error" in told else command
    found = Draft202012Validator({"$ref": f"#/$defs/{kind}", "$defs": SCHEMA["$defs"]}).iter_errors(told)
    return [(list(error.absolute_path), error.message) for error in found]


@pytest.mark.parametrize("command", EVERY)
def test_every_command_answers_in_one_json_document(shop, command):
    told = json.loads(claimpack(*command.split(), *NOT_THERE.get(command, ()), "--json", folder=shop).out)
    assert "No such option" not in told.get("error", {}).get("what", "")
    assert told.get("$schema") or (told["format"], _said_of(command, told)) == (1, [])


def test_the_schema_of_answers_knows_every_command():
    assert Draft202012Validator.check_schema(SCHEMA) is None
    assert set(SCHEMA["$defs"]) == {*EVERY, "error"} - {"schema"}


@pytest.mark.parametrize("line", LOOKED_AT.replace("\n", " · ").strip(" ·").split(" · "))
def test_what_is_told_of_the_invented_shop_agrees_with_the_schema_of_answers(invented, line):
    command = max((each for each in EVERY if f"{line} ".startswith(f"{each} ")), key=len)
    told = json.loads(claimpack(*line.split(), "--json", folder=invented, now=NOW).out)
    assert ("error" in told, _said_of(command, told)) == (False, [])


def test_guides_are_told_with_their_commands(tmp_path):
    assert claimpack("guide", "--json", folder=tmp_path).json == {"guides": list(PAGES)}
    told = claimpack("guide", "writer", "--json", folder=tmp_path).json
    assert told["commands"]
    assert all(command in told["text"] for command in told["commands"])


def test_a_command_is_described_with_its_options_and_examples(tmp_path):
    told = claimpack("help", "hold", "send", "--json", folder=tmp_path).json
    assert (told["words"], "--json" in [option["word"] for option in told["options"]]) == ("hold send", True)
    assert told["examples"]


@pytest.mark.parametrize("words", [["start", "new"], ["plan", "start", "new.toml"]], ids=" ".join)
def test_what_asks_questions_is_refused_and_its_blank_file_told(tmp_path, words):
    refused = claimpack(*words, "--json", folder=tmp_path)
    assert (refused.code, refused.json["error"]["kind"], list(tmp_path.iterdir())) == (2, "bad input", [])
    written = claimpack(*words, "--blank", "--json", folder=tmp_path).json["file"]
    assert (tmp_path / written).is_file()


def test_a_manual_page_is_no_json(tmp_path):
    assert claimpack("help", "--man", "--json", folder=tmp_path).code == 2
