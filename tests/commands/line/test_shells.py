from __future__ import annotations

import shutil
import subprocess

import pytest
from running import claimpack

from claimpack.commands.line.completing import Offer
from claimpack.commands.line.shells import Completion, asked, told

TWO = [Offer("serial plate"), Offer("hold", "Parts: kept.")]


@pytest.mark.parametrize(
    ("shell", "environ"),
    [
        ("bash", {"COMP_WORDS": "claimpack show 26-", "COMP_CWORD": "2"}),
        ("zsh", {"_TYPER_COMPLETE_ARGS": "claimpack show 26-"}),
        ("fish", {"_TYPER_COMPLETE_ARGS": "claimpack show 26-"}),
        (
            "powershell",
            {"_TYPER_COMPLETE_ARGS": "claimpack show 26-", "_TYPER_COMPLETE_WORD_TO_COMPLETE": "26-"},
        ),
    ],
)
def test_every_shell_asks_in_its_own_way(shell, environ):
    assert asked({"_CLAIMPACK_COMPLETE": f"complete_{shell}", **environ}) == Completion(shell, ["show"], "26-")


def test_a_word_that_is_not_begun_is_empty():
    assert asked({"_CLAIMPACK_COMPLETE": "complete_zsh", "_TYPER_COMPLETE_ARGS": "claimpack show "}).begun == ""


@pytest.mark.parametrize(
    ("place", "completion"),
    [("2", (["show"], "")), ("1", ([], "show")), ("", ([], "claimpack")), ("9", (["show"], ""))],
)
def test_bash_says_at_which_word_it_stands(place, completion):
    environ = {"_CLAIMPACK_COMPLETE": "complete_bash", "COMP_WORDS": "claimpack show ", "COMP_CWORD": place}
    assert asked(environ) == Completion("bash", *completion)


def test_where_nothing_may_come_next_zsh_offers_files():
    assert told("zsh", []) == ("_files", 0)


def test_an_open_quotation_is_part_of_the_word():
    environ = {"COMP_WORDS": "claimpack photo add x --shot 'serial p", "COMP_CWORD": "5"}
    assert asked({"_CLAIMPACK_COMPLETE": "complete_bash", **environ}).begun == "serial p"


@pytest.mark.parametrize("said", ["", "source_bash", "complete_tcsh"])
def test_nothing_else_is_a_question(said):
    assert asked({"_CLAIMPACK_COMPLETE": said}) is None


@pytest.mark.parametrize(
    ("shell", "answer"),
    [
        ("bash", "serial\\ plate\nhold"),
        ("zsh", '_arguments \'*: :(("serial plate"\n"hold":"Parts\\\\: kept."))\''),
        ("fish", "serial plate\nhold\tParts: kept."),
        ("pwsh", "'serial plate'::: \nhold:::Parts: kept."),
    ],
)
def test_every_shell_is_told_in_its_own_way(shell, answer):
    assert told(shell, TWO) == (answer, 0)


def test_fish_is_told_whether_there_is_anything():
    assert [told("fish", found, "is-args") for found in (TWO, [])] == [("", 0), ("", 1)]


HOSTILE = "$(touch x)`touch x`;'\"&|\\*~!<>#"


@pytest.mark.skipif(shutil.which("bash") is None, reason="no bash here")
def test_what_bash_is_told_is_one_word_behind_its_prompt(tmp_path):
    answer, _ = told("bash", [Offer(HOSTILE)])
    typed = subprocess.run(
        ["bash", "-c", f"printf %s {answer}"], check=True, capture_output=True, text=True, cwd=tmp_path
    )
    assert typed.stdout == HOSTILE
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize(
    ("word", "answer"),
    [
        ("it's", "_arguments '*: :((\"it'\\''s\"))'"),
        ("\\$(touch x)", "_arguments '*: :((\"\\\\\\$(touch x)\"))'"),
        ('\\"`x`', '_arguments \'*: :(("\\\\\\"\\`x\\`"))\''),
    ],
)
def test_what_zsh_evaluates_is_text_alone(word, answer):
    assert told("zsh", [Offer(word)]) == (answer, 0)


# By the language's rules for quoting, about_Quoting_Rules and about_Parsing; no PowerShell ran here.
@pytest.mark.parametrize(
    ("word", "put_in"),
    [
        ("26-0041", "26-0041"),
        ("--shelf", "--shelf"),
        ("serial plate", "'serial plate'"),
        ("$(x) \u2019s", "'$(x) \u2019\u2019s'"),
        ("it's", "'it''s'"),
        ("a`b", "'a`b'"),
        ('6"', "'6\"'"),
        ("B3,B4", "'B3,B4'"),
        ("@home", "'@home'"),
        ("C:\\shops", "'C:\\shops'"),
    ],
)
def test_what_powershell_puts_in_is_one_word(word, put_in):
    assert told("pwsh", [Offer(word)]) == (f"{put_in}::: ", 0)


@pytest.mark.parametrize(
    ("typed", "begun", "words"),
    [
        ("--shop C:\\shops\\ashby show 26-", "26-", ["--shop", "C:\\shops\\ashby", "show", "26-"]),
        ("photo add x --shot 'serial p", "'serial p", ["photo", "add", "x", "--shot", "serial p"]),
        ('find "a `"b`" \'c\'" 2', "2", ["find", "a \"b\" 'c'", "2"]),
        ("find 'it''s' x", "x", ["find", "it's", "x"]),
        ("find a` b \u201cc d\u201d x", "x", ["find", "a b", "c d", "x"]),
    ],
    ids=["a backslash", "an open quotation", "double quotes", "a quote doubled", "a backtick and curved quotes"],
)
def test_words_are_taken_apart_as_powershell_does(typed, begun, words):
    environ = {"_TYPER_COMPLETE_ARGS": f"claimpack {typed}", "_TYPER_COMPLETE_WORD_TO_COMPLETE": begun}
    found = asked({"_CLAIMPACK_COMPLETE": "complete_powershell", **environ})
    assert [*found.words, found.begun] == words


def test_the_script_for_powershell_registers_a_completer_of_a_native_command(monkeypatch):
    monkeypatch.setenv("_TYPER_COMPLETE_TEST_DISABLE_SHELL_DETECTION", "1")
    script = claimpack("--show-completion", "pwsh").out
    lines = ("Register-ArgumentCompleter -Native", "CompletionResult]::new(", "-CommandName claimpack")
    assert [line for line in lines if line not in script] == []


@pytest.mark.parametrize("shell", ["bash", "zsh", "fish", "pwsh"])
def test_a_word_of_several_lines_is_not_offered(shell):
    assert told(shell, [Offer("B3\nrm x")]) == told(shell, [])


def at_a_tab(line, folder):
    environ = {"_CLAIMPACK_COMPLETE": "complete_fish", "_TYPER_COMPLETE_ARGS": line}
    return claimpack(folder=folder, environ=environ).out.split("\n")[:-1]


def test_claims_are_those_of_the_shop_that_was_named(tmp_path):
    claimpack("shop", "init", "quarry-road", folder=tmp_path)
    unit = ("--maker", "halden", "--model", "CS-70", "--serial", "1", "--number", "26-0001")
    claimpack("open", *unit, "--shop", "quarry-road", folder=tmp_path)
    assert at_a_tab("claimpack --shop quarry-road show 2", tmp_path) == ["26-0001"]


@pytest.mark.parametrize("line", ["claimpack --shop ", "claimpack list --shop ", "claimpack --shop nowhere show "])
def test_where_nothing_is_known_a_shell_offers_files(tmp_path, line):
    assert at_a_tab(line, tmp_path) == []


@pytest.mark.parametrize("shell", ["bash", "zsh", "fish", "powershell", "pwsh"])
def test_a_shell_that_is_named_is_shown_its_own_script(monkeypatch, shell):
    monkeypatch.setenv("_TYPER_COMPLETE_TEST_DISABLE_SHELL_DETECTION", "1")
    script = claimpack("--show-completion", shell)
    assert (script.code, f"complete_{shell.replace('pwsh', 'powershell')}" in script.out) == (0, True)
