import os
import shlex
import subprocess
import sys
import tempfile
import tomllib
from pathlib import Path
from types import SimpleNamespace

import pytest
from claim_folders import a_folder
from running import NOW, Pipe, Terminal, claimpack
from shop_builders import a_shop, happen, kept_claim, the_desk

from claimpack.__main__ import run
from claimpack.commands.counter import edit
from claimpack.commands.desk.world import World


@pytest.fixture(autouse=True)
def _kept_here(tmp_path, monkeypatch):
    (tmp_path / "kept").mkdir()
    monkeypatch.setattr(tempfile, "tempdir", str(tmp_path / "kept"))


@pytest.fixture
def shop(tmp_path):
    return a_shop(tmp_path)


def editor(place, *scripts):
    """An editor that runs one Python script on the text each time it is opened, the last one again and again."""
    program = place / "editor.py"
    turns = "\n".join(f"if turn == {turn}: text = ({script})" for turn, script in enumerate(scripts, start=1))
    program.write_text(
        "import pathlib, sys\n"
        "counter = pathlib.Path(__file__).with_suffix('.count')\n"
        f"turn = min(int(counter.read_text() if counter.exists() else 0) + 1, {len(scripts)})\n"
        "counter.write_text(str(turn))\n"
        "file = pathlib.Path(sys.argv[-1])\n"
        "text = file.read_text()\n"
        f"{turns}\n"
        "file.write_text(text)\n"
    )
    return {"EDITOR": f"{shlex.quote(sys.executable)} {shlex.quote(str(program))}", "PATH": os.environ["PATH"]}


def edited(shop, *scripts, arguments=(), typed=""):
    environ = editor(shop.parent, *scripts)
    return claimpack("edit", "26-0001", *arguments, folder=shop, environ=environ, typed=typed)


MORE = "text.replace('hours = \"100\"', 'hours = \"112.4\"')"
WRONG = "text.replace('hours = \"100\"', 'hours = \"lots\"')"
RIGHT = "text.replace('lots', '113')"


def kept_text(shop):
    """What lies where edited texts are kept."""
    return [path.read_text() for path in (shop.parent / "kept").rglob("*.toml")]


def test_what_the_editor_saves_is_kept(shop):
    ran = edited(shop, MORE)
    assert (ran.code, ran.out, str(kept_claim(shop).unit.hours)) == (0, "· unit.hours: 100 -> 112.4\n", "112.4")


def test_the_editor_is_given_the_claim_as_toml(shop):
    edited(shop, "text.replace('CS-70', str(len(__import__('tomllib').loads(text))))")
    assert kept_claim(shop).unit.model == "8"


def test_a_text_that_was_kept_leaves_nothing_behind(shop):
    edited(shop, MORE)
    assert list((shop.parent / "kept").iterdir()) == []


def test_closing_the_editor_unchanged_makes_no_revision(shop):
    ran = edited(shop, "text")
    assert ("nothing changed" in ran.err, the_desk(shop).book.get("26-0001").revision) == (True, 1)


@pytest.mark.parametrize("typed", ["y\n", "\n"], ids=["yes", "Enter"])
def test_a_wrong_text_is_explained_and_opened_again(shop, typed):
    ran = edited(shop, WRONG, RIGHT, typed=typed)
    assert ("unit.hours: 'lots' is not" in ran.err, str(kept_claim(shop).unit.hours)) == (True, "113")


def test_giving_up_keeps_the_text_and_tells_where(shop):
    ran = edited(shop, WRONG, typed="n\n")
    assert (ran.code, "lots" in kept_text(shop)[0], "/kept/" in ran.err) == (2, True, True)


def test_a_kept_text_can_be_gone_on_with(shop):
    edited(shop, WRONG, typed="n\n")
    kept = next((shop.parent / "kept").rglob("*.toml"))
    ran = edited(shop, RIGHT, arguments=("--from", kept))
    assert (ran.code, str(kept_claim(shop).unit.hours)) == (0, "113")


def test_text_that_is_no_toml_is_refused_by_its_line(shop):
    ran = edited(shop, "text.replace('[unit]', '[unit')", typed="n\n")
    assert (ran.code, "line" in ran.err) == (2, True)


def test_another_number_is_refused(shop):
    ran = edited(shop, "text.replace('26-0001', '26-0002')", typed="n\n")
    assert (ran.code, "keeps its number" in ran.err) == (2, True)


def ben_sets_the_phone(shop):
    """What an editor runs to let somebody else change the claim while it is open."""
    command = [sys.executable, "-m", "claimpack", "set", "26-0001", "owner.phone", "1"]
    environ = {**os.environ, "CLAIMPACK_WHO": "ben"}
    return f"__import__('subprocess').run({command}, cwd={str(shop)!r}, env={environ}, check=True)"


def test_a_claim_changed_meanwhile_is_not_overwritten(shop):
    ran = edited(shop, f"{ben_sets_the_phone(shop)} and {MORE}")
    assert (ran.code, kept_claim(shop).owner.phone, str(kept_claim(shop).unit.hours)) == (2, "1", "100")
    assert ("ben" in ran.err, "owner.phone" in ran.err, "112.4" in kept_text(shop)[0]) == (True, True, True)


def test_an_editor_that_fails_changes_nothing(shop):
    ran = edited(shop, "sys.exit(3)", typed="n\n")
    assert (ran.code, "code 3" in ran.err, the_desk(shop).book.get("26-0001").revision) == (2, True, 1)


def test_a_text_that_the_editor_removed_is_not_said_to_be_kept(shop):
    removing = shlex.join([sys.executable, "-c", "import os, sys; os.remove(sys.argv[-1])"])
    ran = claimpack("edit", "26-0001", folder=shop, environ={"EDITOR": removing, "PATH": os.environ["PATH"]})
    assert (ran.code, "left no text behind" in ran.err, "--from" in ran.err) == (2, True, False)


def test_an_editor_of_windows_is_found_by_its_whole_path(shop, monkeypatch):
    monkeypatch.setattr(edit, "os", SimpleNamespace(name="nt"))
    ran = claimpack("edit", "26-0001", folder=shop, environ={"EDITOR": r"C:\Tools\edit.exe", "PATH": ""})
    assert (r"C:\\Tools\\edit.exe" in ran.err, "$env:EDITOR" in ran.err) == (True, True)


def test_an_editor_that_is_not_there_is_named(shop):
    ran = claimpack("edit", "26-0001", folder=shop, environ={"VISUAL": "no-such-editor", "PATH": os.environ["PATH"]})
    assert (ran.code, "no-such-editor" in ran.err, kept_text(shop)) == (2, True, [])


def test_without_any_editor_it_says_how_to_name_one(shop, tmp_path):
    ran = claimpack("edit", "26-0001", folder=shop, environ={"PATH": str(tmp_path)})
    assert (ran.code, "export EDITOR=" in ran.err) == (2, True)


def test_without_a_terminal_no_editor_is_guessed(shop):
    ran = claimpack("edit", "26-0001", folder=shop, environ={"PATH": os.environ["PATH"]})
    assert (ran.code, "claimpack set" in ran.err, kept_text(shop)) == (2, True, [])


@pytest.mark.parametrize(
    ("stdin", "stdout", "opened"),
    [(Terminal, Terminal, ["nano"]), (Terminal, Pipe, []), (Pipe, Terminal, [])],
    ids=["a terminal", "into a file", "from a file"],
)
def test_the_usual_editor_is_opened_at_a_terminal_alone(shop, monkeypatch, stdin, stdout, opened):
    started = []
    monkeypatch.setattr(subprocess, "run", lambda line, **_: started.append(line) or SimpleNamespace(returncode=0))
    (shop.parent / "nano").touch(mode=0o755)
    environ = {"PATH": str(shop.parent), "CLAIMPACK_WHO": "ann"}
    run(["edit", "26-0001"], World(stdin(), stdout(), Pipe(), environ, folder=shop, clock=NOW))
    assert [Path(line[0]).name for line in started] == opened


def test_a_settled_claim_is_refused_before_the_editor_opens(shop):
    happen(shop, "26-0001", "withdrawn")
    ran = edited(shop, MORE)
    assert (ran.code, (shop.parent / "editor.count").exists()) == (2, False)


def test_the_history_says_why(shop):
    edited(shop, MORE, arguments=("--because", "misread"))
    event = the_desk(shop).book.history("26-0001")[-1]
    assert (event.why, event.facts) == ("misread", {"changed": "unit.hours"})


def test_a_claim_folder_keeps_its_comments(tmp_path):
    folder = a_folder(tmp_path / "claim")
    environ = editor(tmp_path, "'# from the counter\\n' + " + MORE)
    claimpack("edit", "claim", folder=tmp_path, environ=environ)
    text = (folder / "claim.toml").read_text()
    assert (text.startswith("# from"), tomllib.loads(text)["unit"]["hours"]) == (True, "112.4")


def test_a_claim_folder_that_is_wrong_already_can_be_put_right(tmp_path):
    folder = a_folder(tmp_path / "claim")
    (folder / "claim.toml").write_text((folder / "claim.toml").read_text().replace('"1.6"', '"lots"'))
    ran = claimpack("edit", "claim", folder=tmp_path, environ=editor(tmp_path, "text.replace('lots', '1.6')"))
    assert (ran.code, claimpack("check", "claim", folder=tmp_path).code != 2) == (0, True)


def test_a_claim_folder_changed_meanwhile_is_not_overwritten(tmp_path):
    folder = a_folder(tmp_path / "claim")
    other = f"pathlib.Path({str(folder / 'claim.toml')!r}).write_text('theirs') and {MORE}"
    ran = claimpack("edit", "claim", folder=tmp_path, environ=editor(tmp_path, other))
    assert (ran.code, Path(folder / "claim.toml").read_text()) == (2, "theirs")


LATER = "text.replace('2026-02-24', '2026-03-02')"


def test_a_day_still_to_come_is_explained_and_the_text_kept(shop):
    ran = edited(shop, LATER, typed="n\n")
    assert (ran.code, "dates.repaired: 2026-03-02 is still to come" in ran.err) == (2, True)
    assert "repaired = 2026-03-02" in kept_text(shop)[0]


def test_a_day_still_to_come_is_refused_in_a_claim_folder(tmp_path):
    folder = a_folder(tmp_path / "claim")
    ran = claimpack("edit", "claim", folder=tmp_path, environ=editor(tmp_path, LATER), typed="n\n")
    assert (ran.code, "2026-03-02" in (folder / "claim.toml").read_text()) == (2, False)
