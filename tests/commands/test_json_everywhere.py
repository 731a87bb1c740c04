"""Every command takes `--json`: its answer, or what is wrong, is one JSON document on stdout."""

import json

import pytest
from running import claimpack
from shop_builders import an_empty_shop

from claimpack.commands.catalogue import GROUPS
from claimpack.commands.found import members_of
from claimpack.commands.guide import PAGES

EVERY = [
    f"{listed.name} {member}".split()
    for _, group in GROUPS
    for listed in group
    for member in members_of(listed.name) or ("",)
]


NOT_THERE = {("photo", "receive"): ["26-9999"]}
"""What waits for pictures unless something is wrong."""


@pytest.fixture(scope="module")
def shop(tmp_path_factory):
    return an_empty_shop(tmp_path_factory.mktemp("shop"))


@pytest.mark.parametrize("words", EVERY, ids=" ".join)
def test_every_command_answers_in_one_json_document(shop, words):
    told = json.loads(claimpack(*words, *NOT_THERE.get(tuple(words), ()), "--json", folder=shop).out)
    assert "No such option" not in told.get("error", {}).get("what", "")


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
