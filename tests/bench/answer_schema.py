"""The JSON Schema that `claimpack schema answer` prints, written from all that tests make commands answer."""

from __future__ import annotations

import json
import re
import sys
import tempfile
from collections.abc import Iterable
from pathlib import Path
from typing import Any

import pytest

TESTS = Path(__file__).resolve().parents[1]
sys.path.insert(0, str(TESTS))

import running  # noqa: E402  the folder of the tests is on the path from here on
from by_hand import arguments  # noqa: E402

from claimpack.commands.desk.say import ANSWER_FORMAT  # noqa: E402

MADE = TESTS.parent / "claimpack/folder/answers.json"
ASKED = ("commands", "agreement", "test_every_kind_of_claim.py")
A_KEY, A_DAY = re.compile(r"[a-z][a-z0-9_]*"), re.compile(r"\d{4}-\d\d-\d\d")
NAMES_OF_THEIRS = {"serials", "rates", "files", "by_rule", "claims", "evidence", "facts"}
"""Keys of tables whose names are a shop's, a rule's or an event's own."""

WAITED_FOR = {"photo receive": {"claims": [{"claim": "26-0041", "added": ["photos/plate.jpg"]}]}}
"""What is answered once somebody took pictures with a phone."""

KINDS = {
    str: "string",
    bool: "boolean",
    int: "integer",
    float: "number",
    type(None): "null",
    list: "array",
    dict: "object",
}


class Recorded:
    """Everything that commands answered, by command."""

    def __init__(self) -> None:
        self.answers: dict[str, list[Any]] = {command: [answer] for command, answer in WAITED_FOR.items()}
        self._asked = running.claimpack
        running.claimpack = self  # before any test takes it from there

    def __call__(self, *words: object, **world: Any) -> running.Ran:
        ran = self._asked(*words, **world)
        if "--json" in map(str, words) and ran.out:
            self.keep([str(word) for word in words], json.loads(ran.out))
        return ran

    def keep(self, words: list[str], told: dict[str, Any]) -> None:
        """Keep an answer under the words of its command."""
        from answers_told import EVERY, command_of

        first = {command.split()[0] for command in EVERY}
        begun = next((place for place, word in enumerate(words) if word in first), None)
        if begun is not None:
            command = "error" if "error" in told else command_of(words[begun:])
            self.answers.setdefault(command, []).append(told)


def described(values: Iterable[Any]) -> dict[str, Any]:
    """What some values have in common: their types, and of what they hold the same."""
    values = list(values)
    # what was there each time may yet have nothing to say
    kinds = sorted({KINDS[type(value)] for value in (*values, None)})
    if kinds == ["null"]:
        return {}  # nothing was ever seen there, so nothing is said
    said: dict[str, Any] = {"type": kinds}
    texts = [value for value in values if isinstance(value, str)]
    if texts and all(map(A_DAY.fullmatch, texts)):
        said["format"] = "date"
    if items := [item for value in values if isinstance(value, list) for item in value]:
        said["items"] = described(items)
    if tables := [value for value in values if isinstance(value, dict)]:
        said |= _named(tables)
    return said


def _named(tables: list[dict[str, Any]]) -> dict[str, Any]:
    keys = dict.fromkeys(key for table in tables for key in table)
    if not all(map(A_KEY.fullmatch, keys)):
        return {"additionalProperties": described(value for table in tables for value in table.values())}
    under = {key: [table[key] for table in tables if key in table] for key in keys}
    named = {
        key: described(_unnamed(value) if key in NAMES_OF_THEIRS else value for value in found)
        for key, found in under.items()
    }
    return {"properties": named} if named else {}


def _unnamed(value: Any) -> Any:
    return {f"{name}!": each for name, each in value.items()} if isinstance(value, dict) else value


def schema(answers: dict[str, list[Any]]) -> dict[str, Any]:
    """The schema of all answers, each command's under its words."""
    told = {command: described(answers[command]) for command in sorted(answers)}
    for answer in told.values():
        answer["type"] = "object"
        answer["properties"] = {"format": {"const": ANSWER_FORMAT}, **answer["properties"]}
        answer["required"] = ["format"]
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": "answers of claimpack under --json",
        "description": (
            "Each command's answer by its words, and what is wrong under error. Money, hours and readings are texts of "
            "decimal figures. A key may be absent or null where it has nothing to say, and new ones may come; format "
            "grows where one goes or means something else."
        ),
        "$defs": told,
    }


def main() -> None:
    """Run the tests that ask, and the invented shop, and write the schema."""
    arguments(__doc__)
    recorded = Recorded()
    if pytest.main(["-q", "-p", "no:randomly", *(str(TESTS / each) for each in ASKED)]):
        raise SystemExit("tests fail: mend them first")
    with tempfile.TemporaryDirectory() as place:
        from answers_told import every_answer

        for _ in every_answer(Path(place)):
            pass
    MADE.write_text(json.dumps(schema(recorded.answers), separators=(",", ":"), ensure_ascii=False) + "\n")
    print(f"{MADE}: {len(recorded.answers)} kinds of answer")


if __name__ == "__main__":
    main()
