import re
from pathlib import Path

import pytest
from by_hand import Given, arguments

TESTS = Path(__file__).parent
SCRIPTS = [
    path for room in ("bench", "trust") for path in (TESTS / room).glob("*.py") if "__main__" in path.read_text("utf-8")
]


@pytest.mark.parametrize("script", SCRIPTS, ids=lambda script: script.name)
def test_a_script_run_by_hand_takes_help(script):
    assert re.search(r"\barguments\(\s*__doc__", script.read_text(encoding="utf-8"))


def test_help_tells_what_a_script_does_what_it_takes_and_an_example(capsys):
    with pytest.raises(SystemExit):
        arguments("How fast it is.", Given("claims", 300, "how many"), Given("--false", False, "all"), typed=["--help"])
    told = capsys.readouterr().out
    assert all(part in told for part in ("How fast it is.", "how many; default: 300", "--false", "example: python"))
    assert told.rstrip().endswith(" 300")


@pytest.mark.parametrize(
    ("typed", "said"),
    [([], (5, [], False)), (["7", "a", "b", "--loud"], (7, ["a", "b"], True))],
    ids=["nothing", "all of it"],
)
def test_what_is_left_out_is_as_the_script_has_it(typed, said):
    told = arguments("", Given("count", 5, ""), Given("name", [], ""), Given("--loud", False, ""), typed=typed)
    assert (told.count, told.name, told.loud) == said


def test_what_a_script_must_be_given_is_asked_for():
    with pytest.raises(SystemExit):
        arguments("", Given("folder", Path, ""), typed=[])
