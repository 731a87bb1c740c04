from __future__ import annotations

from pathlib import Path

import pytest
from running import Pipe

from claimpack.commands.desk.say import Say
from claimpack.commands.desk.world import World
from claimpack.commands.outgoing.printer import print_files, print_job, said, words_of
from claimpack.errors import BadInput, CannotWrite, NotInstalled

FILES = [Path("/shop/tag 1.pdf"), Path("/shop/-2.pdf")]


@pytest.mark.parametrize(
    ("printer", "raw", "words"),
    [
        ("", False, "lp -- '/shop/tag 1.pdf' /shop/-2.pdf"),
        ("front desk", False, "lp -d 'front desk' -- '/shop/tag 1.pdf' /shop/-2.pdf"),
        ("zebra", True, "lp -d zebra -o raw -- '/shop/tag 1.pdf' /shop/-2.pdf"),
    ],
)
def test_files_go_to_lp_as_files_whatever_they_are_called(printer, raw, words):
    assert said(words_of(FILES, printer, raw=raw, windows=False), windows=False) == words


@pytest.mark.parametrize(("printer", "verb"), [("", "print"), ("Front desk", "printto")])
def test_windows_prints_by_the_verb_of_its_shell(printer, verb):
    assert words_of(FILES[:1], printer, raw=False, windows=True)[0] == verb


@pytest.mark.parametrize(("printer", "raw"), [("", True), ('a" /x', False)])
def test_windows_is_not_given_what_it_would_print_as_something_else(printer, raw):
    with pytest.raises(BadInput):
        words_of(FILES, printer, raw=raw, windows=True)


@pytest.mark.parametrize(
    ("out", "printer", "wanted", "dry_run"),
    [(None, "", False, True), (None, "zebra", False, False), (Path("-"), "", True, False)],
    ids=["dry run alone", "printer alone", "standard output"],
)
def test_options_that_mean_nothing_without_each_other_are_refused(out, printer, wanted, dry_run):
    with pytest.raises(BadInput):
        print_job(out, printer, wanted=wanted, dry_run=dry_run)


def with_lp(folder, script):
    """A world whose `lp` is a script of the shell."""
    (folder / "lp").write_text(f"#!/bin/sh\n{script}\n", encoding="utf-8")
    (folder / "lp").chmod(0o755)
    return World(environ={"PATH": str(folder)}, folder=folder)


def test_lp_gets_the_words_as_they_are(tmp_path):
    world = with_lp(tmp_path, f'for word; do echo "$word"; done > {tmp_path}/words')
    print_files(world, FILES, "", words_of(FILES, "zebra", raw=True, windows=False))
    assert (tmp_path / "words").read_text().splitlines() == ["-d", "zebra", "-o", "raw", "--", *map(str, FILES)]


def test_what_the_printer_says_is_told(tmp_path):
    world = with_lp(tmp_path, "echo 'lp: no such printer' >&2; exit 1")
    with pytest.raises(CannotWrite) as caught:
        print_files(world, FILES, "", ["lp"])
    assert caught.value.why == "lp: no such printer"


def test_a_machine_without_lp_says_so(tmp_path):
    with pytest.raises(NotInstalled, match="there is no lp"):
        print_files(World(environ={"PATH": str(tmp_path)}, folder=tmp_path), FILES, "", ["lp"])


def test_a_dry_run_writes_and_prints_nothing(tmp_path):
    job = print_job(None, "", wanted=True, dry_run=True)
    ran = job.run(with_lp(tmp_path, f"echo x > {tmp_path}/printed"), FILES, (tmp_path / "written").touch)
    assert (job.as_json(ran)["printed"]["dry_run"], [path.name for path in tmp_path.iterdir()]) == (True, ["lp"])


@pytest.mark.parametrize(
    ("printer", "words", "dry_run", "answered", "noted"),
    [
        ("", [], True, "", ""),
        ("", [], False, "", ""),
        ("", ["lp"], False, "", "Sent to the printer.\n"),
        ("zebra", ["lp"], False, "", "Sent to zebra.\n"),
        ("", ["lp"], True, "Not written, not printed. It would run: lp\n", ""),
    ],
)
def test_what_was_printed_is_noted_and_what_would_be_is_answered(tmp_path, printer, words, dry_run, answered, noted):
    world = World(stdout=Pipe(), stderr=Pipe(), environ={}, folder=tmp_path)
    job = print_job(None, printer, wanted=True, dry_run=dry_run)
    job.tell(Say(world), words)
    assert (world.stdout.getvalue(), world.stderr.getvalue(), bool(job.as_json(words))) == (
        answered,
        noted,
        bool(words),
    )
