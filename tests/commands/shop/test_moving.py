from __future__ import annotations

import os
import subprocess
import sys
import tomllib

import pytest
from running import NOW, Meanwhile, Pipe, Ran, claimpack
from shop_builders import photographed
from shops_with_claims import a_copy
from store_server import a_bucket, a_store, the_server

from claimpack.__main__ import run as run_in
from claimpack.commands.desk.world import World
from claimpack.evidence.vault import name_of

REQUEST = ("--because", "On request of the owner")


@pytest.fixture
def address():
    return f"s3://{a_bucket()}/shop"


@pytest.fixture
def shop(filed_shop, tmp_path):
    return a_copy(filed_shop, tmp_path)


@pytest.fixture
def moved(shop, address):
    assert run("shop", "move", address, shop=shop).code == 0
    return shop


def run(*arguments, shop, **environ):
    return claimpack(*arguments, folder=shop, environ={**the_server().environ, **environ})


def vault_of(shop):
    return tomllib.loads((shop / "shop.toml").read_text())["vault"]


def kept_in(folder):
    return sorted(path.name for path in folder.rglob("*") if path.is_file())


def test_a_vault_moved_into_a_store_holds_every_file_and_the_folder_is_left_as_it_was(shop, address):
    before = kept_in(shop / "vault")
    told = run("shop", "move", address, "--json", shop=shop).json
    assert told == {
        "from": str(shop / "vault"),
        "to": address,
        "moved": True,
        "sent": len(before),
        "there": 0,
        "problems": [],
    }
    assert (vault_of(shop), kept_in(shop / "vault")) == (address, before)
    assert run("shop", "verify", "--json", shop=shop).json["whole"]


def test_a_vault_moved_back_into_a_folder_holds_every_file(moved):
    ran = run("shop", "move", "files", shop=moved)
    assert (ran.code, vault_of(moved), kept_in(moved / "files")) == (0, "files", kept_in(moved / "vault"))


def test_nothing_is_moved_while_a_file_is_damaged_and_the_others_are_carried(shop, address):
    damaged, *others = [path for path in sorted((shop / "vault").rglob("*")) if path.is_file()]
    damaged.write_bytes(b"another")
    told = run("shop", "move", address, "--json", shop=shop)
    assert (told.code, told.json["moved"], told.json["sent"], len(told.json["problems"])) == (3, False, len(others), 1)
    assert "vault" not in tomllib.loads((shop / "shop.toml").read_text())


def test_a_store_that_cannot_be_asked_is_not_said_to_lack_its_files(moved, address):
    ran = run("shop", "move", "files", shop=moved, AWS_ENDPOINT_URL="http://127.0.0.1:1")
    assert (ran.code, ran.out, vault_of(moved)) == (2, "", address)


KILLED = """
import os, sys
from claimpack.__main__ import run
from claimpack.commands.desk.world import World
class Terminal:
    encoding = "utf-8"
    def isatty(self): return True
    def flush(self): pass
    def write(self, text):
        if "] 2/" in text: os._exit(9)
world = World(stderr=Terminal())
run(["shop", "move", sys.argv[1]], world)
"""


def test_a_move_that_was_killed_goes_on_where_it_was(shop, address):
    killed = subprocess.run(
        [sys.executable, "-c", KILLED, address], cwd=shop, env=os.environ | the_server().environ, check=False
    )
    told = run("shop", "move", address, "--json", shop=shop).json
    assert (killed.returncode, told["moved"], told["there"] >= 2) == (9, True, True)
    assert told["sent"] + told["there"] == len(kept_in(shop / "vault"))


def moved_while_filed(shop, address, *options, lost):
    """A move during which somebody files a picture, and the old vault loses it or not."""
    before = {*kept_in(shop / "vault")}

    def file():
        photographed(shop.parent / "late.jpg")
        claimpack("photo", "add", "26-0001", "../late.jpg", folder=shop)
        for name in {*kept_in(shop / "vault")} - before if lost else ():
            (shop / "vault" / name_of(name)).unlink()

    world = World(stdout=Pipe(), stderr=Meanwhile(file), environ=the_server().environ, folder=shop, clock=NOW)
    code = run_in(["shop", "move", address, *options], world)
    return Ran(code, world.stdout.getvalue(), world.stderr.getvalue())


@pytest.mark.parametrize("lost", [False, True])
def test_what_is_filed_during_a_move_is_carried_too_or_named(shop, address, lost):
    told = moved_while_filed(shop, address, "--json", lost=lost)
    assert (told.code, told.json["moved"], len(told.json["problems"])) == (3 * lost, True, lost)
    assert told.json["sent"] + told.json["there"] == len(kept_in(shop / "vault"))
    assert run("shop", "verify", shop=shop).code == told.code


def test_a_shop_that_moved_is_said_to_be_moved_though_a_file_is_lacking(shop, address):
    told = moved_while_filed(shop, address, lost=True)
    assert (told.code, vault_of(shop), told.out.startswith("MOVED")) == (3, address, True)


@pytest.mark.parametrize("vault", ["vault", "", "s3://B", "s3://key:secret@quarry-road/shop", "gs://quarry-road"])
def test_what_is_no_other_vault_is_refused_and_no_secret_is_said(shop, vault):
    ran = run("shop", "move", "--", vault, shop=shop)
    assert (ran.code, "secret@" in ran.err, len(ran.err.splitlines()) <= 3) == (2, False, True)


@pytest.mark.parametrize(
    "lost", [{"AWS_ENDPOINT_URL": "http://127.0.0.1:1"}, {"AWS_ACCESS_KEY_ID": ""}], ids=["no server", "no key"]
)
def test_a_picture_that_the_store_does_not_take_is_not_recorded_and_goes_in_with_the_same_command(
    moved, tmp_path, lost
):
    photographed(tmp_path / "damage.jpg")
    add = ("photo", "add", "26-0001", "../damage.jpg")
    before = run("history", "26-0001", "--json", shop=moved).json
    refused = run(*add, shop=moved, **lost)
    assert (refused.code, len(refused.err.splitlines())) == (2, 3)
    assert run("history", "26-0001", "--json", shop=moved).json == before
    assert (run(*add, shop=moved).code, run("shop", "verify", shop=moved).code) == (0, 0)


def test_a_packet_is_made_of_what_is_in_the_store_and_then_without_the_server(moved):
    online = run("packet", "26-0001", "--out", "one.pdf", shop=moved)
    offline = run("packet", "26-0001", "--out", "two.pdf", shop=moved, AWS_ENDPOINT_URL="http://127.0.0.1:1")
    assert (online.code, offline.code) == (0, 0)
    assert (moved / "one.pdf").read_bytes() == (moved / "two.pdf").read_bytes()


def test_verify_names_what_is_damaged_in_the_store(moved, address):
    store = a_store(address.split("/")[2])
    held = next(iter(store.names()))
    store.put(held.name, b"another", anew=True)
    told = run("shop", "verify", "--json", shop=moved)
    assert (
        told.code,
        [problem for problem in told.json["problems"] if "was changed in the vault" in problem] != [],
    ) == (3, True)


def test_what_is_erased_goes_out_of_the_store_and_off_other_machines(moved, address, tmp_path):
    run("packet", "26-0001", "--out", "one.pdf", shop=moved)
    other = a_copy(moved, tmp_path / "other")
    copies = kept_in(other / "vault-copies")
    gone = run("shop", "forget", "26-0001", "--photo", "1", *REQUEST, "--json", shop=moved).json["contents"]
    names = {held.name for held in a_store(address.split("/")[2]).names()}
    assert not names & {name_of(sha256) for sha256 in gone}
    (other / "book.sqlite").write_bytes((moved / "book.sqlite").read_bytes())
    assert run("shop", "verify", shop=other).code == 0
    assert set(copies) & set(gone) == set(copies) - set(kept_in(other / "vault-copies")) != set()


def test_a_backup_holds_the_files_of_the_store_and_is_put_back_into_a_folder(moved):
    assert run("shop", "backup", "../all.zip", shop=moved).code == 0
    ran = run("shop", "restore", "../all.zip", "../again", shop=moved)
    assert (ran.code, kept_in(moved.parent / "again" / "vault")) == (0, kept_in(moved / "vault"))


def test_an_archive_is_taken_over_into_a_store(moved, tmp_path):
    run("export", "--everything", "../all.zip", shop=moved)
    claimpack("shop", "init", "new", folder=tmp_path)
    new = f"s3://{a_bucket()}"
    assert run("shop", "move", new, shop=tmp_path / "new").code == 0
    assert run("import", "../all.zip", shop=tmp_path / "new").code == 0
    assert run("shop", "verify", "--json", shop=tmp_path / "new").json["whole"]
