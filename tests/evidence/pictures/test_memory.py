from __future__ import annotations

import threading

from claimpack.evidence.pictures.memory import DecodingRoom


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


def test_one_larger_than_the_room_goes_in_alone():
    assert most_at_once(capacity=10, wanted=1000) == (6, 1)
