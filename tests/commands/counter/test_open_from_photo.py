"""Slow where the extra `read` is installed: the letters of the picture are read as well."""

from __future__ import annotations

import pytest
import segno
from PIL import Image
from running import Pipe, Terminal, claimpack
from shop_builders import a_picture, an_empty_shop, kept_claim, photographed, the_desk

from claimpack.commands.counter.open_from_photo import PlatePhoto
from claimpack.commands.desk.say import Say
from claimpack.commands.talk.counter_session import CounterSession
from claimpack.evidence.reading.letters import can_read_letters, no_letters


@pytest.fixture(scope="module")
def begun(tmp_path_factory):
    """A shop, and the picture of a plate with a QR code."""
    place = tmp_path_factory.mktemp("counter")
    modules = [bytes(255 * (1 - dot) for dot in row) for row in segno.make("HC70-118-20417").matrix_iter(border=4)]
    code = Image.frombytes("L", (len(modules[0]), len(modules)), b"".join(modules))
    picture = a_picture(3)
    picture.paste(code.resize((300, 300), Image.Resampling.NEAREST), (400, 250))
    return an_empty_shop(place), photographed(place / "plate.jpg", picture)


def open_claim(begun, *options, **more):
    shop, plate = begun
    given = ("--model", "CS-70", "--component", "coil", "--photo", plate, "--json")
    return claimpack("open", *given, *options, folder=shop, **more)


def test_a_claim_is_opened_from_the_picture_of_a_plate_which_goes_on_it(begun):
    ran = open_claim(begun, "--take")
    claim = kept_claim(begun[0], ran.json["claim"])
    (photo,) = claim.photos
    assert (claim.maker, claim.unit.serial("unit")) == ("halden", "HC70-118-20417")
    assert (photo.shot, [each.text for each in photo.read]) == ("serial plate", ["HC70-118-20417"])
    assert (no_letters() in ran.err) is not can_read_letters()


@pytest.fixture(scope="module")
def plate(begun):
    """The picture of a plate once it was read, and the world of the counter where that was."""
    desk = the_desk(begun[0])
    return PlatePhoto(desk, Say(desk.world), begun[1]), desk.world


@pytest.mark.parametrize(
    ("stdin", "taken"),
    [(Pipe("y\n"), False), (Terminal("y\n"), True), (Terminal("n\n"), False), (Terminal(""), False)],
    ids=["nobody is there", "yes", "no", "no answer"],
)
def test_nothing_is_taken_over_that_nobody_looked_at(begun, plate, monkeypatch, stdin, taken):
    (photo, world), desk = plate, the_desk(begun[0])
    monkeypatch.setattr(world, "stdin", stdin)
    session = CounterSession.in_memory(desk.places, desk.day, {}, {})
    photo.offer(session, take=False)
    assert bool(session.value("unit.serials")) is taken


def test_what_is_still_lacking_is_told_as_a_command_with_the_picture(begun):
    ran = open_claim(begun)
    assert (ran.code, f"--photo {begun[1]}" in ran.out) == (2, True)


def test_what_is_typed_stands_and_is_compared_with_the_plate(begun):
    number = open_claim(begun, "--maker", "halden", "--serial", "HC70-118-20471").json["claim"]
    claim = kept_claim(begun[0], number)
    assert (claim.unit.serial("unit"), claim.photos[0].read[0].text) == ("HC70-118-20471", "HC70-118-20417")
