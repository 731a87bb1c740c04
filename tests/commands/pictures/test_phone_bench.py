from __future__ import annotations

import datetime as dt

import pytest
from PIL import ImageDraw
from running import NOW, Pipe, claimpack
from shop_builders import a_picture, a_shop, kept_claim, photographed

from claimpack.commands.desk.say import Say
from claimpack.commands.desk.world import World
from claimpack.commands.pictures.phone_bench import PhoneBench
from claimpack.errors import BadInput
from claimpack.evidence.pictures.likeness import look_at
from claimpack.phone.bench import SentPicture


@pytest.fixture
def shop(tmp_path):
    return a_shop(tmp_path, "26-0001", "26-0002", plan="halden-2025")


def a_bench(shop, only="", now=NOW):
    world = World(Pipe(), Pipe(), Pipe(), {"CLAIMPACK_WHO": "ann"}, folder=shop, clock=now)
    return PhoneBench(world, Say(world), only)


def sent(shop, name, size=(900, 700), shot="", instead=""):
    picture = a_picture(1)
    ImageDraw.Draw(picture).ellipse((300, 200, 600, 500), "black", "white", width=12)
    path = photographed(shop.parent / name, picture.resize(size))
    return SentPicture(path, look_at(path, name).sha256, name, shot, instead)


def keys(answer):
    return [doubt["key"] for doubt in answer["doubts"]]


def test_a_shot_is_told_to_be_there_once_it_was_taken(shop):
    bench = a_bench(shop, "26-0001")
    before = {each["shot"]: each["there"] for each in bench.begun()["claim"]["shots"]}
    after = bench.take("26-0001", sent(shop, "a.jpg", shot="whole unit"))["claim"]["shots"]
    assert not any(before.values())
    assert [each["shot"] for each in after if each["there"]] == ["whole unit"]


def test_claims_that_nobody_works_on_today_are_not_offered(shop):
    later = a_bench(shop, now=NOW + dt.timedelta(days=1))
    assert (len(a_bench(shop).begun()["claims"]), later.begun()["claims"]) == (2, [])


def test_a_picture_that_looks_like_another_of_the_claim_is_doubted(shop):
    bench = a_bench(shop, "26-0001")
    bench.take("26-0001", sent(shop, "a.jpg"))
    assert keys(bench.take("26-0001", sent(shop, "b.jpg", (800, 622)))) == ["alike"]


def test_a_picture_that_is_doubted_already_is_not_told_to_look_like_another(shop):
    bench = a_bench(shop, "26-0001")
    bench.take("26-0001", sent(shop, "a.jpg"))
    assert keys(bench.take("26-0001", sent(shop, "b.jpg", (450, 350)))) == ["small"]


def test_a_picture_taken_again_may_look_like_the_one_whose_place_it_takes(shop):
    bench, first = a_bench(shop, "26-0001"), sent(shop, "a.jpg")
    bench.take("26-0001", first)
    assert keys(bench.take("26-0001", sent(shop, "b.jpg", (800, 622), instead=first.sha256))) == []


def test_a_picture_that_another_claim_shows_is_doubted(shop):
    bench = a_bench(shop)
    for number in ("26-0001", "26-0002"):
        bench.claim_called(number)
    doubts = [bench.take(number, sent(shop, "a.jpg"))["doubts"] for number in ("26-0001", "26-0002")]
    assert [[(each["key"], each["facts"]) for each in some] for some in doubts] == [
        [],
        [("another-claim", {"claims": "26-0001"})],
    ]


def test_a_clock_that_runs_on_another_claim_is_not_stopped(shop):
    claimpack("labour", "start", "26-0002", "short-block-replace", "--technician", "ben", folder=shop)
    with pytest.raises(BadInput):
        a_bench(shop, "26-0001").do("26-0001", "stop", {"technician": "ben"})
    assert kept_claim(shop, "26-0002").labour == ()
