from __future__ import annotations

import pytest
import segno
from PIL import Image, ImageDraw, ImageFont
from running import claimpack
from shop_builders import a_picture, a_shop, kept_claim, photographed, the_desk
from typed_terminal import answered_at_a_terminal

from claimpack.evidence.reading.letters import can_read_letters, no_letters
from claimpack.printing.typeface import BOLD, typeface_file

SERIALS = [{"role": "unit", "value": "HC70-118-20417"}]


def a_plate(text):
    """A picture of a plate with a QR code."""
    picture = a_picture(3)
    modules = [
        bytes(255 * (1 - module) for module in row) for row in segno.make(text, micro=False).matrix_iter(border=4)
    ]
    code = Image.frombytes("L", (len(modules[0]), len(modules)), b"".join(modules)).resize(
        (300, 300), Image.Resampling.NEAREST
    )
    picture.paste(code, (400, 250))
    return picture


@pytest.fixture
def shop(tmp_path):
    shop = a_shop(tmp_path, plan="halden-2025", unit__serials=SERIALS)
    add(shop, "plate.jpg", "HC70-118-20417", "--shot", "serial plate")
    return shop


def add(shop, name, text, *options):
    claimpack("photo", "add", "26-0001", photographed(shop.parent / name, a_plate(text)), *options, folder=shop)


def read(shop, *options, **more):
    return claimpack("photo", "read", "26-0001", *options, "--codes", folder=shop, **more)


def type_serial(shop, value):
    claimpack("set", "26-0001", "unit.serials.unit", value, folder=shop)


def blocked(shop):
    missing = claimpack("check", "26-0001", "--json", folder=shop).json["missing"]
    return any(item["what"].startswith("serial number as on the plate") for item in missing if item["blocks_filing"])


def test_a_serial_typed_as_on_its_plate_is_found_so(shop):
    ran = read(shop, "--json")
    assert (ran.code, [each["state"] for each in ran.json["files"][0]["proposals"]]) == (0, ["as typed"])


def test_a_serial_typed_otherwise_is_told_and_blocks_filing(shop):
    type_serial(shop, "HC70-118-20477")
    ran = read(shop, "--json")
    differs = ran.json["files"][0]["proposals"][0]["differs"]
    assert (ran.code, blocked(shop)) == (4, True)
    assert differs == [{"place": 13, "typed": "7", "read": "1", "looks_alike": False}]


def test_it_is_compared_again_whenever_the_claim_changes(shop):
    read(shop)
    type_serial(shop, "HC70-118-2O417")
    assert blocked(shop)


@pytest.mark.parametrize(("option", "serial"), [("--take", "HC70-118-20417"), ("--keep", "HC70-118-20477")])
def test_a_person_says_which_is_right_and_it_blocks_no_more(shop, option, serial):
    type_serial(shop, "HC70-118-20477")
    assert read(shop, option, "all").code == 0
    assert (kept_claim(shop).unit.serial("unit"), blocked(shop)) == (serial, False)


@pytest.mark.parametrize(("answer", "serial"), [("1", "HC70-118-20417"), ("2", "HC70-118-20477")])
def test_on_a_terminal_it_is_asked(shop, answer, serial):
    type_serial(shop, "HC70-118-20477")
    assert read(shop, typed=f"{answer}\n", terminal=True).code == 0
    assert kept_claim(shop).unit.serial("unit") == serial


def test_one_key_at_a_terminal_says_which_is_right(shop):
    type_serial(shop, "HC70-118-20477")
    answered_at_a_terminal("photo read 26-0001 --codes", shop, {"unit.serials.unit: which": "1"})
    assert kept_claim(shop).unit.serial("unit") == "HC70-118-20417"


@pytest.mark.parametrize(("answer", "taken"), [("y", True), ("Yes", True), ("n", False), ("", False)])
def test_on_a_terminal_what_is_new_is_taken_where_that_is_answered(tmp_path, answer, taken):
    shop = a_shop(tmp_path, plan="halden-2025", unit__serials=[])
    add(shop, "plate.jpg", "HC70-118-20417", "--shot", "serial plate")
    read(shop, typed=f"{answer}\n", terminal=True)
    assert (kept_claim(shop).unit.serial("unit") == "HC70-118-20417") is taken


def test_the_history_keeps_what_was_proposed_and_what_was_confirmed(shop):
    type_serial(shop, "HC70-118-20477")
    read(shop, "--keep", "unit.serials.unit")
    facts = the_desk(shop).book.history("26-0001")[-1].facts
    assert facts == {
        "proposed": "unit.serials.unit HC70-118-20417",
        "confirmed": "unit.serials.unit HC70-118-20477",
    }


def test_what_was_read_goes_with_its_picture(shop):
    type_serial(shop, "HC70-118-20477")
    read(shop)
    claimpack("photo", "remove", "26-0001", "1", folder=shop)
    assert not blocked(shop)


def test_what_a_picture_shows_may_be_said_anew_and_what_was_read_stays(shop):
    read(shop)
    claimpack("photo", "shot", "26-0001", "1", "serial plate, again", folder=shop)
    assert [each.text for each in kept_claim(shop).photos[0].read] == ["HC70-118-20417"]


def test_read_again_nothing_is_changed(shop):
    read(shop)
    before = the_desk(shop).book.get("26-0001").revision
    read(shop)
    assert the_desk(shop).book.get("26-0001").revision == before


def test_pictures_of_plates_are_read_and_others_only_when_named(shop):
    add(shop, "whole.jpg", "HC70-118-99999", "--shot", "whole unit")
    files = [read(shop, *named, "--json").json["files"] for named in ((), ("2",))]
    assert [[each["file"] for each in some] for some in files] == [["photos/plate.jpg"], ["photos/whole.jpg"]]


def test_a_key_that_was_not_read_cannot_be_taken(shop):
    assert read(shop, "--take", "unit.hours").code == 2


def test_codes_alone_are_read_where_only_they_are_wanted(shop):
    plate = a_plate("HC70-118-20417")
    typeface = ImageFont.truetype(typeface_file(BOLD), 60)
    ImageDraw.Draw(plate).text((60, 60), "SERIAL No. HC70-222-33344", "black", typeface)
    claimpack("photo", "add", "26-0001", photographed(shop.parent / "both.jpg", plate), folder=shop)
    ran = claimpack("photo", "read", "26-0001", "both.jpg", "--codes", "--json", folder=shop)
    assert ({line["by"] for line in ran.json["files"][0]["lines"]}, no_letters() in ran.err) == ({"code"}, False)


def test_where_letters_were_wanted_and_none_are_read_here_that_is_told(tmp_path):
    ran = claimpack("photo", "read", "26-0001", folder=a_shop(tmp_path))
    assert (no_letters() in ran.err) is not can_read_letters()
