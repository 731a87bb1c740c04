from importlib import import_module

import pytest
import typer
from running import claimpack

from claimpack.commands.catalogue import COMMANDS, may_be_long, overview, wanted
from claimpack.commands.library import app_of
from claimpack.commands.line.declared import Family
from claimpack.core.events.event_kinds import EVENT_KINDS, from_where


def loaded(listed):
    module, _, attribute = listed.place.partition(":")
    return getattr(import_module(f"claimpack.commands.{module}"), attribute)


@pytest.mark.parametrize("listed", COMMANDS, ids=lambda listed: listed.name)
def test_the_help_says_what_the_command_says_of_itself(listed):
    found = loaded(listed)
    if isinstance(found, Family):
        assert listed.says == found.help
    else:
        assert listed.says == found.__doc__.strip().partition("\n")[0]


@pytest.mark.parametrize(
    ("name", "kind"), [(listed.name, kind) for listed in COMMANDS for kind in listed.makes], ids=str
)
def test_the_help_of_a_command_says_from_where_its_events_follow(name, kind):
    assert from_where(EVENT_KINDS[kind]) in " ".join(claimpack(name, "--help").out.split())


def test_every_event_with_a_command_of_its_own_is_in_the_help():
    made = {kind for listed in COMMANDS for kind in listed.makes}
    assert {kind.name for kind in EVENT_KINDS.values() if kind.way} <= made


@pytest.mark.parametrize("columns", [60, 80])
def test_every_line_of_the_overview_fits_the_screen(monkeypatch, columns):
    monkeypatch.setenv("COLUMNS", str(columns))
    assert max(map(len, overview().splitlines())) <= columns


@pytest.mark.parametrize("arguments", [(), ("--help",), ("-h",)])
def test_no_command_gives_the_overview(arguments):
    ran = claimpack(*arguments)
    assert (ran.code, ran.out.startswith("Usage: claimpack COMMAND")) == (0, True)


@pytest.mark.parametrize("line", ["note 26-0041 --because -h", "file 26-0041 --reply --help"])
def test_a_word_of_help_that_is_the_value_of_an_option_pages_nothing(line):
    assert not may_be_long(line.split())


@pytest.mark.parametrize(
    ("line", "may_be"),
    [
        ("", True),
        ("--help", True),
        ("-h", True),
        ("list", True),
        ("list --maker halden", True),
        ("plan list", True),
        ("list --json", False),
        ("plan check list", False),
        ("open", False),
        ("open --maker list", False),
    ],
)
def test_lists_and_help_may_be_longer_than_a_screen(line, may_be):
    assert may_be_long(line.split()) is may_be


def test_the_version_is_told():
    assert claimpack("--version").out.startswith("claimpack 0.")


def test_a_command_loads_alone():
    assert [listed.name for listed in wanted(["check", "claim"])] == ["check"]


def test_a_mistyped_command_loads_all_so_that_the_nearest_is_suggested():
    ran = claimpack("chekc")
    assert (ran.code, "check" in ran.err) == (2, True)


def test_every_command_can_be_loaded_at_once():
    assert len(app_of().registered_commands) + len(app_of().registered_groups) == len(COMMANDS)


def every_parameter(command, name=""):
    """The arguments and options of a command, and of those below it."""
    for below, each in getattr(command, "commands", {}).items():
        yield from every_parameter(each, f"{name} {below}".strip())
    for parameter in command.params:
        yield name, "/".join(parameter.opts), parameter


def test_every_argument_and_option_has_a_help_text():
    parameters = every_parameter(typer.main.get_command(app_of()))
    assert [f"{name} {opts}" for name, opts, each in parameters if not getattr(each, "help", None)] == []
