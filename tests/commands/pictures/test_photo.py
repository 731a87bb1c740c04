from __future__ import annotations

import hashlib
from decimal import Decimal

import pytest
from photographed_claims import add, files, kept, photo
from running import claimpack
from screen_columns import ending_under
from shop_builders import a_picture, a_shop, happen, kept_claim, photographed, the_desk


@pytest.fixture
def shop(tmp_path):
    return a_shop(tmp_path, "26-0001", "26-0002", plan="halden-2025")


def test_the_vault_keeps_the_picture_byte_for_byte(shop):
    add(shop, "plate.jpg")
    content = (shop.parent / "plate.jpg").read_bytes()
    sha256 = hashlib.sha256(content).hexdigest()
    assert (kept(shop)[0].sha256, (shop / "vault" / sha256[:2] / sha256).read_bytes()) == (sha256, content)


def test_time_and_likeness_are_kept_with_it(shop):
    given = photographed(shop.parent / "a.jpg", taken="2026-02-20 09:05:00", offset="-05:00")
    photo(shop, "add", "26-0001", given)
    file = kept(shop)[0]
    assert (file.taken.isoformat(), len(file.likeness)) == ("2026-02-20T09:05:00-05:00", 320)


def kept_as_a_paper(shop):
    """A picture that is a paper of the claim."""
    picture = photographed(shop.parent / "plate.jpg", a_picture(1))
    claimpack("paper", "add", "26-0001", picture, folder=shop)
    return picture


def test_a_picture_kept_as_a_paper_is_added_as_a_photo_all_the_same(shop):
    ran = photo(shop, "add", "26-0001", kept_as_a_paper(shop), "--shot", "serial plate")
    assert (kept_claim(shop).paper_files()[1:], kept_claim(shop).photos[0].shot) == (
        ("papers/plate.jpg",),
        "serial plate",
    )
    assert "on the claim as a paper too, as papers/plate.jpg; it was added as 1" in ran.err


def test_a_picture_that_is_paper_and_photo_is_not_added_a_second_time(shop):
    picture = kept_as_a_paper(shop)
    photo(shop, "add", "26-0001", picture)
    ran = photo(shop, "add", "26-0001", picture)
    assert (len(files(shop)), "it was not added again" in ran.err) == (1, True)


def test_a_photo_that_is_a_paper_too_may_be_taken_off_and_the_paper_stays(shop):
    photo(shop, "add", "26-0001", kept_as_a_paper(shop))
    photo(shop, "remove", "26-0001", "1")
    assert ([file.path for file in kept(shop)], files(shop)) == (["papers/plate.jpg"], [])


def test_a_photo_that_is_the_proof_of_purchase_may_be_taken_off_and_the_proof_stays(shop):
    add(shop, "receipt.jpg")
    claimpack("set", "26-0001", "proof.file", "photos/receipt.jpg", folder=shop)
    photo(shop, "remove", "26-0001", "1")
    assert (files(shop), [file.path for file in kept(shop)]) == ([], ["photos/receipt.jpg"])


def test_a_settled_claim_takes_no_pictures(shop):
    happen(shop, "26-0001", "withdrawn")
    assert (add(shop, "plate.jpg").code, list((shop / "vault").rglob("*/*"))) == (2, [])


def test_pictures_are_listed_with_what_is_known(shop):
    given = photographed(shop.parent / "a.jpg", taken="2026-02-20 09:05:00")
    photo(shop, "add", "26-0001", given)
    listed = photo(shop, "list", "26-0001", "--json").json["photos"][0]
    assert (listed["n"], listed["file"], listed["taken"]) == (1, "photos/a.jpg", "2026-02-20T09:05:00")


def test_the_list_reads_in_columns(shop):
    add(shop, "plate.jpg")
    assert photo(shop, "list", "26-0001").out.splitlines()[1] == "1  photos/plate.jpg  -      no time"


def test_the_list_gives_way_on_a_narrow_terminal(shop, monkeypatch):
    monkeypatch.setenv("COLUMNS", "60")
    add(shop, "plate-of-the-unit-from-the-left-side.jpg")
    photo(
        shop, "shot", "26-0001", "1", "serial plate", "--caption", "Scratched, and readable in full all the same, too."
    )
    out = photo(shop, "list", "26-0001", terminal=True, environ={"NO_COLOR": "1"}).out
    assert (max(map(len, out.split("\n"))) <= 60, "readable in full" in out) == (True, True)


@pytest.mark.parametrize("place", ["1", "plate.jpg", "photos/plate.jpg", "PLATE.JPG"])
def test_a_picture_is_meant_by_number_or_name(shop, place):
    add(shop, "plate.jpg")
    photo(shop, "shot", "26-0001", place, "serial plate")
    assert kept_claim(shop).photos[0].shot == "serial plate"


@pytest.mark.parametrize(("place", "hint"), [("2", "has 1 photo"), ("plat.jpg", "Did you mean 'photos/plate.jpg'?")])
def test_a_picture_that_is_not_there_is_not_found(shop, place, hint):
    add(shop, "plate.jpg")
    ran = photo(shop, "shot", "26-0001", place, "serial plate")
    assert (ran.code, hint in ran.err) == (2, True)


def test_a_shot_near_one_the_plan_asks_for_is_pointed_out(shop):
    add(shop, "plate.jpg")
    assert "asks for a shot 'serial plate'" in photo(shop, "shot", "26-0001", "1", "serial plates").err


def test_naming_a_shot_keeps_caption_and_marks(shop):
    given = photographed(shop.parent / "a.jpg")
    photo(shop, "add", "26-0001", given, "--caption", "Under the handle.")
    photo(shop, "mark", "26-0001", "1", "--box", "0.1,0.1")
    photo(shop, "shot", "26-0001", "1", "serial plate")
    each = kept_claim(shop).photos[0]
    assert (each.caption, len(each.marks)) == ("Under the handle.", 1)


def test_a_mark_lies_where_it_is_put(shop):
    add(shop, "plate.jpg")
    photo(shop, "mark", "26-0001", "1", "--ring", "0.42,0.61,0.2", "--note", "crack")
    mark = kept_claim(shop).photos[0].marks[0]
    assert (mark.shape, mark.x, mark.y, mark.size, mark.note) == (
        *("ring", Decimal("0.42"), Decimal("0.61")),
        *(Decimal("0.2"), "crack"),
    )


@pytest.mark.parametrize("shape", ["ring", "arrow", "box"])
def test_marks_of_every_shape_are_added_to_those_there(shop, shape):
    add(shop, "plate.jpg")
    photo(shop, "mark", "26-0001", "1", "--ring", "0.1,0.1")
    photo(shop, "mark", "26-0001", "1", f"--{shape}", "0.5,0.5")
    assert [mark.shape for mark in kept_claim(shop).photos[0].marks] == ["ring", shape]


def test_marks_are_cleared(shop):
    add(shop, "plate.jpg")
    photo(shop, "mark", "26-0001", "1", "--ring", "0.1,0.1")
    photo(shop, "mark", "26-0001", "1", "--clear")
    assert kept_claim(shop).photos[0].marks == ()


@pytest.mark.parametrize("at", ["1.1,0.5", "0.5", "0.5,0.5,0", "a,b", "0.1,0.2,0.3,0.4"])
def test_a_mark_outside_the_picture_is_refused(shop, at):
    add(shop, "plate.jpg")
    ran = photo(shop, "mark", "26-0001", "1", "--ring", at)
    assert (ran.code, kept_claim(shop).photos[0].marks) == (2, ())


def test_a_mark_without_a_shape_is_refused(shop):
    add(shop, "plate.jpg")
    assert "--ring, --arrow or --box" in photo(shop, "mark", "26-0001", "1").err


def test_a_picture_taken_off_stays_in_the_vault(shop):
    add(shop, "plate.jpg")
    sha256 = kept(shop)[0].sha256
    photo(shop, "remove", "26-0001", "1")
    assert (files(shop), kept(shop), the_desk(shop).vault.find(sha256, "it").is_file()) == ([], (), True)


def test_a_picture_taken_off_may_come_back(shop):
    add(shop, "plate.jpg")
    photo(shop, "remove", "26-0001", "1")
    photo(shop, "add", "26-0001", shop.parent / "plate.jpg")
    assert files(shop) == ["photos/plate.jpg"]


def test_the_book_is_whole_after_all_of_it(shop):
    add(shop, "plate.jpg", "whole.jpg")
    photo(shop, "mark", "26-0001", "2", "--arrow", "0.5,0.5")
    photo(shop, "remove", "26-0001", "1")
    assert claimpack("shop", "verify", folder=shop).out.startswith("WHOLE")


def test_a_claim_without_a_picture_says_how_to_add_the_first_shot(shop):
    err = photo(shop, "list", "26-0001").err
    assert "claimpack photo add 26-0001 FILE --shot 'serial plate'" in err
    assert "photo shot" not in err


@pytest.mark.parametrize(("plan", "how_to"), [("halden-2025", False), ("", True)], ids=["shots asked for", "none"])
def test_how_to_add_the_first_picture_is_told_where_no_shot_is_asked_for(tmp_path, plan, how_to):
    shop = a_shop(tmp_path, plan=plan, maker="halden" if plan else "nobody")
    assert ("No picture yet" in photo(shop, "list", "26-0001").err) is how_to
    add(shop, "a.jpg")
    assert "No picture yet" not in photo(shop, "list", "26-0001").err


@pytest.mark.parametrize(
    "command",
    [
        ("shot", "26-0001", "1", "serial plate"),
        ("mark", "26-0001", "1", "--ring", "0.1,0.1"),
        ("remove", "26-0001", "1"),
        ("list", "26-0001"),
    ],
    ids=lambda command: command[0],
)
@pytest.mark.parametrize("as_json", [False, True])
def test_what_was_done_to_a_picture_is_told_in_words_or_in_one_document(shop, command, as_json):
    add(shop, "plate.jpg")
    ran = photo(shop, *command, *["--json"][:as_json])
    assert (ran.code, ran.out.startswith("{"), "photos/plate.jpg" in ran.out) == (0, as_json, True)


def test_what_a_picture_shows_is_told_with_its_caption_and_its_marks(shop):
    add(shop, "plate.jpg")
    told = [photo(shop, "mark", "26-0001", "1", "--ring", "0.1,0.2", *more).out for more in ((), ("--note", "crack"))]
    assert told[0] == "26-0001: photos/plate.jpg: ring at 0.1, 0.2\n"
    assert told[1].endswith("ring at 0.1, 0.2; ring at 0.1, 0.2 (crack)\n")
    assert photo(shop, "mark", "26-0001", "1", "--clear").out.endswith(": no shot, no mark\n")


def test_marks_are_taken_off_before_others_are_put_on(shop):
    add(shop, "plate.jpg")
    photo(shop, "mark", "26-0001", "1", "--ring", "0.1,0.1")
    photo(shop, "mark", "26-0001", "1", "--clear", "--box", "0.5,0.5")
    assert [mark.shape for mark in kept_claim(shop).photos[0].marks] == ["box"]


def test_only_the_picture_that_is_named_changes(shop):
    add(shop, "a.jpg", "b.jpg", "c.jpg")
    photo(shop, "shot", "26-0001", "2", "serial plate", "--caption", "Left side.")
    assert [(each.file, each.shot) for each in kept_claim(shop).photos] == [
        ("photos/a.jpg", ""),
        ("photos/b.jpg", "serial plate"),
        ("photos/c.jpg", ""),
    ]
    photo(shop, "remove", "26-0001", "2")
    assert (files(shop), len(kept(shop))) == (["photos/a.jpg", "photos/c.jpg"], 2)


def test_numbers_and_marks_of_pictures_stand_under_each_other(tmp_path):
    marked = {"marks": [{"shape": "ring", "x": "0.1", "y": "0.1"}]}
    photos = [{"file": f"photos/{n}.jpg", **(marked if n == 10 else {})} for n in range(1, 11)]
    told = photo(a_shop(tmp_path, photos=photos), "list", "26-0001").out
    assert [line[:2] for line in told.splitlines()[1:]] == [f"{place:>2}" for place in range(1, 11)]
    assert ending_under(told, "Marks") == ["1"]


def test_scripts_read_of_a_picture_nobody_has_that_it_is_not_there(tmp_path):
    shop = a_shop(tmp_path, photos=[{"file": "photos/gone.jpg"}])
    (told,) = photo(shop, "list", "26-0001", "--json").json["photos"]
    assert (told["sha256"], told["taken"]) == (None, None)


def test_scripts_read_which_picture_it_is_that_was_named(shop):
    add(shop, "a.jpg", "b.jpg")
    told = photo(shop, "shot", "26-0001", "b.jpg", "serial plate", "--json").json
    assert (told["n"], told["file"], told["shot"]) == (2, "photos/b.jpg", "serial plate")
