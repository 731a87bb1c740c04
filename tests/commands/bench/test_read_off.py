from __future__ import annotations

import json
from pathlib import Path

import pytest
from running import NOW, Pipe, Terminal
from shop_builders import a_shop, kept_claim, the_desk

from claimpack.commands.bench.read_off import Answered, FileRead, confirm
from claimpack.commands.desk.say import Say
from claimpack.commands.desk.world import World
from claimpack.core.reading.compared import Compared
from claimpack.core.reading.read_text import WHOLE, Proposal, Spot
from claimpack.errors import BadInput

KEY = "unit.serials.unit"


def read_as(text, typed="HC70-1", key=KEY, spot=WHOLE):
    return Compared(Proposal(key, text, "letters", spot), typed)


def on(*found, file="photos/plate.jpg", **told):
    return FileRead(file, (), found, told)


@pytest.fixture
def shop(tmp_path):
    return a_shop(tmp_path)


def confirmed(shop, *read, typed="", stream=Pipe, **said):
    """The exit code of files read, what was answered, and what was said beside it."""
    answered = Answered(**{word: tuple(keys) for word, keys in said.items() if word != "json"})
    world = World(stdin=stream(typed), stdout=Pipe(), stderr=Pipe(), environ={}, folder=Path(shop), clock=NOW)
    code = confirm(the_desk(shop), Say(world), "26-0001", read, answered, json=said.get("json", False))
    return code, world.stdout.getvalue(), world.stderr.getvalue()


@pytest.mark.parametrize(
    ("each", "says", "asks"),
    [
        (read_as("HC70-1"), "as on the claim", ""),
        (read_as("HC70-7"), "the claim says HC70-1; character 6: read 7, on the claim 1", "--keep"),
        (read_as("HC70-1", ""), "the claim says nothing", "--take"),
        (read_as("HC70-12"), "read 2, on the claim nothing", "--keep"),
        (read_as("HC70-", "HC70-1"), "character 6: read nothing, on the claim 1", "--keep"),
    ],
    ids=["as typed", "another figure", "new", "one more figure", "one less"],
)
def test_what_was_read_is_told_beside_the_claim_with_what_to_do(shop, each, says, asks):
    _, out, err = confirmed(shop, on(each))
    assert (says in out, ("--take" in err, "--keep" in err)) == (True, (bool(asks), asks == "--keep"))


def test_what_is_read_on_two_files_is_asked_about_and_told_once(shop):
    both = (on(read_as("HC70-7")), on(read_as("HC70-9"), file="papers/receipt.pdf"))
    assert confirmed(shop, *both)[2].count("--take") == 1
    asked = confirmed(shop, *both, typed="1\n1\n", stream=Terminal)[2]
    assert (kept_claim(shop).unit.serial("unit"), "HC70-9" in asked) == ("HC70-7", False)


def test_nobody_is_asked_about_what_reads_as_it_was_typed(shop):
    assert KEY not in confirmed(shop, on(read_as("HC70-1")), typed="1\n", stream=Terminal)[2]


@pytest.mark.parametrize(
    ("file", "command"), [("papers/receipt.pdf", "paper read"), ("photos/plate.jpg", "photo read")]
)
def test_the_command_for_going_on_is_that_of_the_file(shop, file, command):
    assert f"claimpack {command} 26-0001 --take" in confirmed(shop, on(read_as("HC70-7"), file=file))[2]


@pytest.mark.parametrize(("word", "says"), [("take", f"{KEY} is HC70-7\n"), ("keep", f"{KEY} is HC70-1, as it was\n")])
def test_what_was_confirmed_is_told(shop, word, says):
    code, out, err = confirmed(shop, on(read_as("HC70-7")), **{word: [KEY]})
    assert (code, says in out, "--take" in err) == (0, True, False)


def test_where_the_claim_says_nothing_there_is_nothing_to_keep(shop):
    code, out, _ = confirmed(shop, on(read_as("HC70-7", "")), keep=["all"])
    assert (code, f"{KEY} is" in out) == (0, False)


def test_a_file_on_which_nothing_is_to_compare_is_told_and_no_other(shop):
    told = confirmed(shop, on(read_as("HC70-1")), on(file="papers/receipt.pdf", seller="Thornmoor", total=""))
    assert (told[2].count("nothing in it reads"), "papers/receipt.pdf: nothing" in told[2]) == (1, True)
    assert ("Thornmoor" in told[1], "total" in told[1]) == (True, False)


@pytest.mark.parametrize(("spot", "area"), [(WHOLE, None), (Spot(0.25, 0.5, 0.1, 0.12345), 0.1235)])
def test_scripts_read_where_it_stood_unless_that_is_the_whole_picture(shop, spot, area):
    _, out, _ = confirmed(shop, on(read_as("HC70-7", spot=spot)), json=True)
    (one,) = json.loads(out)["files"][0]["proposals"]
    assert (one["area"] and one["area"]["height"], one["raw"], one["said"]) == (area, "HC70-7", None)


def test_nobody_is_asked_for_a_script_not_even_at_a_terminal(shop):
    confirmed(shop, on(read_as("HC70-7")), typed="1\n", stream=Terminal, json=True)
    assert kept_claim(shop).unit.serial("unit") == "HC70-1"


@pytest.mark.parametrize("word", ["take", "keep"])
def test_a_key_under_which_nothing_was_read_is_refused(shop, word):
    with pytest.raises(BadInput, match=f"--{word} unit.hours"):
        confirmed(shop, on(read_as("HC70-7")), **{word: ["unit.hours"]})


def test_a_verdict_is_told_only_where_the_claim_was_changed(shop):
    told = [confirmed(shop, on(read_as("HC70-7")), take=["all"])[2] for _ in range(2)]
    assert (len(told[0]) > len(told[1]), the_desk(shop).book.get("26-0001").revision) == (True, 2)


@pytest.mark.parametrize(
    ("typed", "answer", "kept"),
    [("HC70-1", "1", "HC70-7"), ("HC70-1", "2", "HC70-1"), ("", "y", "HC70-7"), ("", "n", "")],
)
def test_at_a_terminal_it_is_asked_which_is_right_or_whether_what_is_new_is(tmp_path, typed, answer, kept):
    serials = [{"role": "unit", "value": typed}] if typed else []
    shop = a_shop(tmp_path, unit__serials=serials)
    code, *_ = confirmed(shop, on(read_as("HC70-7", typed)), typed=f"{answer}\n", stream=Terminal)
    assert (kept_claim(shop).unit.serial("unit"), code) == (kept, 0)


def test_the_history_has_what_was_proposed_and_of_it_what_was_confirmed(shop):
    found = (read_as("HC70-7"), read_as("E70-9", "E70-1", key="unit.serials.engine"))
    confirmed(shop, on(*found), take=[KEY])
    facts = the_desk(shop).book.history("26-0001")[-1].facts
    assert (facts["proposed"], facts["confirmed"]) == (f"{KEY} HC70-7, unit.serials.engine E70-9", f"{KEY} HC70-7")
