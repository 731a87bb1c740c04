from __future__ import annotations

import threading

import pytest
from evidence.pictures import gradient, stored
from PIL import Image

from claimpack.evidence.pictures.memory import DecodingRoom, bytes_decoded, threads


def most_at_once(capacity, wanted, workers=6):
    room, inside, counts, lock = DecodingRoom(capacity), [0], [], threading.Lock()

    def work():
        with room.taken(wanted):
            with lock:
                inside[0] += 1
                counts.append(inside[0])
            with lock:
                inside[0] -= 1

    threads = [threading.Thread(target=work) for _ in range(workers)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join(timeout=10)
    return len(counts), max(counts)


def test_no_more_are_inside_than_fit():
    finished, most = most_at_once(capacity=10, wanted=5)
    assert finished == 6
    assert most <= 2


def test_who_does_not_fit_comes_in_when_another_has_left():
    room, told = DecodingRoom(10), []

    def come_in():
        with room.taken(4):
            told.append("came in")

    waiting = threading.Thread(target=come_in)
    with room.taken(7):
        waiting.start()
        # not waited for: it comes in only where there is room for it
        waiting.join(timeout=0.03)
        told.append("left")
    waiting.join(timeout=10)
    assert told == ["left", "came in"]


def test_one_larger_than_the_room_goes_in_alone():
    assert most_at_once(capacity=10, wanted=1000) == (6, 1)


@pytest.mark.parametrize(("processors", "used"), [(None, 2), (1, 2), (6, 6), (64, 8)])
def test_as_many_pictures_are_looked_at_as_there_are_processors(monkeypatch, processors, used):
    monkeypatch.setattr("os.cpu_count", lambda: processors)
    assert threads(8) == used


@pytest.mark.parametrize("times", [1, 2, 3, 4, 7, 8, 20])
def test_a_jpeg_takes_the_room_of_the_pixels_that_its_decoder_leaves(tmp_path, times):
    edge = 40 * times
    with Image.open(stored(tmp_path / "a.jpg", gradient(edge, edge))) as picture:
        picture.draft(None, (40, 40))
    taken = bytes_decoded("JPEG", (edge, edge), 40, is_progressive=False)
    assert taken == 4 * picture.width * picture.height + 12 * 40 * 40


def test_a_progressive_jpeg_takes_room_for_every_coefficient_as_well():
    plain, progressive = (bytes_decoded("JPEG", (900, 700), 100, is_progressive=each) for each in (False, True))
    assert progressive - plain == 6 * 900 * 700


@pytest.mark.parametrize(("kind", "each"), [("PNG", 5), ("TIFF", 5), ("WebP", 12), ("HEIC", 12)])
def test_another_picture_takes_room_for_each_of_its_pixels_and_the_printed_ones(kind, each):
    assert bytes_decoded(kind, (900, 700), 100, is_progressive=False) == each * 900 * 700 + 12 * 100 * 100
