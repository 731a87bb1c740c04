from __future__ import annotations

import pytest
from claim_folders import receipt
from photographed_claims import add, files, kept, photo
from PIL import Image
from running import NOW, Meanwhile, Pipe, claimpack
from shop_builders import a_picture, a_shop, kept_claim, photographed

from claimpack.__main__ import run
from claimpack.commands.desk.world import World


@pytest.fixture
def shop(tmp_path):
    return a_shop(tmp_path, "26-0001", "26-0002", plan="halden-2025")


def test_pictures_go_on_the_claim(shop):
    ran = add(shop, "plate.jpg", "whole.jpg")
    assert (ran.code, files(shop)) == (0, ["photos/plate.jpg", "photos/whole.jpg"])


def test_shot_and_caption_are_kept(shop):
    given = photographed(shop.parent / "a.jpg")
    photo(shop, "add", "26-0001", given, "--shot", "serial plate", "--caption", "Under the handle.")
    each = kept_claim(shop).photos[0]
    assert (each.shot, each.caption) == ("serial plate", "Under the handle.")


@pytest.mark.parametrize("count", [2, 3], ids=["some", "as many as are missing"])
def test_pictures_take_the_names_of_the_missing_shots_in_order(shop, count):
    given = [photographed(shop.parent / f"{place}.jpg", a_picture(place)) for place in range(count)]
    wanted = photo(shop, "list", "26-0001", "--json").json["missing_shots"]
    assert photo(shop, "add", "26-0001", *given, "--shots").code == 0
    assert (len(wanted), [each.shot for each in kept_claim(shop).photos]) == (3, wanted[:count])


def test_no_shot_is_said_to_be_there_where_no_plan_is_known(tmp_path):
    shop = a_shop(tmp_path, maker="unheard of")
    ran = photo(shop, "add", "26-0001", photographed(tmp_path / "a.jpg"), "--shots")
    assert (ran.code, "fits no plan" in ran.err, files(shop)) == (2, True, [])


def test_more_pictures_than_shots_are_not_named_by_guess(shop):
    given = [photographed(shop.parent / f"{place}.jpg", a_picture(place)) for place in range(9)]
    ran = photo(shop, "add", "26-0001", *given, "--shots")
    assert (ran.code, "--shots: 9 pictures" in ran.err, files(shop)) == (2, True, [])


@pytest.mark.parametrize(("said", "shot"), [("plate", "serial plate"), ("ser", "serial plate"), ("lid", "lid")])
def test_a_word_of_a_shot_is_enough(shop, said, shot):
    photo(shop, "add", "26-0001", photographed(shop.parent / "a.jpg"), "--shot", said)
    assert kept_claim(shop).photos[0].shot == shot


def test_a_shot_that_looks_mistyped_is_told(shop):
    given = photographed(shop.parent / "a.jpg")
    ran = photo(shop, "add", "26-0001", given, "--shot", "serail plate")
    assert (ran.code, "asks for a shot 'serial plate'" in ran.err) == (0, True)


def test_shots_that_the_plan_still_asks_for_are_named(shop):
    given = photographed(shop.parent / "a.jpg")
    ran = photo(shop, "add", "26-0001", given, "--shot", "serial plate", "--json")
    assert ran.json["missing_shots"] == ["whole unit", "failed part"]


def test_two_pictures_of_one_name_are_told_apart_whatever_their_capitals(shop):
    given = [photographed(shop.parent / name, a_picture(n)) for n, name in enumerate(["a/IMG.jpg", "b/img.JPG"])]
    photo(shop, "add", "26-0001", *given)
    assert files(shop) == ["photos/IMG.jpg", "photos/img-2.JPG"]


def test_the_same_picture_is_not_added_twice(shop):
    add(shop, "plate.jpg")
    ran = photo(shop, "add", "26-0001", shop.parent / "plate.jpg")
    assert (ran.code, "already on the claim, as photos/plate.jpg" in ran.err, len(files(shop))) == (0, True, 1)


def saved_again(shop):
    """A picture on the claim, and the same one smaller and in lower quality."""
    first = photographed(shop.parent / "plate.jpg", a_picture(1))
    photo(shop, "add", "26-0001", first)
    again = shop.parent / "from-chat.jpg"
    a_picture(1, (450, 350)).save(again, quality=30)
    return again


def test_a_picture_saved_again_is_added_and_told_with_the_one_it_repeats(shop):
    again = saved_again(shop)
    ran = photo(shop, "add", "26-0001", again)
    assert (ran.code, files(shop)) == (0, ["photos/plate.jpg", "photos/from-chat.jpg"])
    assert f"{again.name} looks like photos/plate.jpg" in ran.err
    assert "claimpack photo remove 26-0001 2" in ran.err


def test_scripts_read_which_picture_is_repeated(shop):
    notes = photo(shop, "add", "26-0001", saved_again(shop), "--json").json["notes"]
    assert any("looks like photos/plate.jpg" in note for note in notes)


def test_a_picture_of_something_else_is_not_told_as_repeated(shop):
    add(shop, "plate.jpg")
    other = photographed(shop.parent / "whole.jpg", a_picture(1).rotate(90))
    assert "looks like" not in photo(shop, "add", "26-0001", other).err


def test_the_same_picture_given_twice_is_added_once(shop):
    given = photographed(shop.parent / "a.jpg")
    photo(shop, "add", "26-0001", given, given)
    assert files(shop) == ["photos/a.jpg"]


def test_a_picture_of_another_claim_is_warned_of(shop):
    add(shop, "plate.jpg")
    ran = photo(shop, "add", "26-0002", shop.parent / "plate.jpg")
    assert ("also on claim 26-0001" in ran.err, files(shop, "26-0002")) == (True, ["photos/plate.jpg"])


def test_a_picture_too_small_to_print_well_is_warned_of(shop):
    given = photographed(shop.parent / "a.jpg", a_picture(1, (320, 240)))
    assert "320 x 240 pixels only" in photo(shop, "add", "26-0001", given).err


def test_one_bad_picture_keeps_all_of_them_off(shop):
    good, bad = photographed(shop.parent / "a.jpg"), shop.parent / "b.jpg"
    bad.write_text("no picture")
    ran = photo(shop, "add", "26-0001", good, bad, shop.parent / "c.jpg")
    assert (ran.code, "b.jpg is not a picture" in ran.err, "c.jpg" in ran.err, files(shop)) == (
        *(2, True, True),
        [],
    )


def test_pictures_of_which_one_is_written_over_after_it_was_looked_at_are_kept_off(shop):
    given = [photographed(shop / f"{shade}.jpg", a_picture(shade)) for shade in (10, 20)]
    screen = Meanwhile(lambda: photographed(given[1], a_picture(90)))
    code = run(
        ["photo", "add", "26-0001", *map(str, given)], World(stdout=Pipe(), stderr=screen, folder=shop, clock=NOW)
    )
    assert (code, kept_claim(shop).photos) == (2, ())


def test_after_a_bad_picture_it_is_said_how_to_add_the_others(shop):
    names = [photographed(shop / name, a_picture(n)).name for n, name in enumerate(["a.jpg", "of b.jpg"])]
    (shop / "bad.jpg").write_text("no picture")
    err = photo(shop, "add", "26-0001", names[0], "bad.jpg", names[1], "--shot", "whole unit").err
    assert "None of the 3 pictures was added" in err
    assert "To add the others: claimpack photo add 26-0001 a.jpg 'of b.jpg' --shot 'whole unit'" in err


def test_when_every_picture_is_bad_there_is_no_other_to_add(shop):
    err = photo(shop, "add", "26-0001", "nowhere.jpg", "nothing.jpg").err
    assert ("None of the 2 pictures was added" in err, "To add the others" in err) == (True, False)


def test_a_pdf_is_sent_to_the_papers(shop):
    (shop.parent / "r.pdf").write_bytes(receipt())
    ran = photo(shop, "add", "26-0001", shop.parent / "r.pdf")
    assert (ran.code, "claimpack paper add CLAIM FILE" in ran.err) == (2, True)


def test_a_picture_takes_the_place_of_a_missing_one_of_its_name(shop):
    claimpack("set", "26-0001", "photos[1].file", "photos/plate.jpg", "photos[1].shot", "serial plate", folder=shop)
    ran = add(shop, "Plate.jpg", "other.jpg")
    assert ran.out.splitlines()[1].split() == ["1", "photos/plate.jpg", "serial", "plate"]
    assert files(shop) == [file.path for file in kept(shop) if file.path.startswith("photos/")][::-1]


def test_a_picture_that_came_out_badly_is_added_and_told_with_what_to_do(shop):
    given = photographed(shop.parent / "a.jpg", Image.new("RGB", (900, 700), "#101010"))
    ran = photo(shop, "add", "26-0001", given)
    assert (ran.code, len(files(shop)), "is too dark. Take it again" in ran.err) == (0, 1, True)


def test_a_picture_of_a_day_when_the_unit_was_not_here_is_told(shop):
    given = photographed(shop.parent / "a.jpg", taken="2026-01-01 09:05:00")
    assert "was taken on 2026-01-01" in photo(shop, "add", "26-0001", given).err
