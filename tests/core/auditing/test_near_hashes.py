import random

from claimpack.core.auditing.near_hashes import met_again, near_hashes

DRAW = random.Random(7)
HASHES = [DRAW.getrandbits(64) for _ in range(150)]
HASHES += [each ^ sum(1 << bit for bit in DRAW.sample(range(64), DRAW.randint(1, 6))) for each in HASHES]


def test_near_hashes_are_those_a_comparison_of_all_pairs_finds():
    near = {(a, b) for a in HASHES for b in HASHES if a < b and (a ^ b).bit_count() <= 4}
    grouped = {frozenset(group) for group in near_hashes(HASHES, 4)}
    assert {pair for group in grouped for pair in [tuple(sorted(group))]} == near


def test_hashes_near_one_another_in_a_row_are_one_group():
    assert near_hashes([0b11, 0b1, 0b1111, 0b111 << 40], 2) == [[0b1, 0b11, 0b1111]]


def test_hashes_that_only_agree_in_some_bits_are_in_no_group():
    assert near_hashes([5, 1, 5], 0) == []


def test_hashes_looked_at_in_parts_are_in_the_groups_they_would_be_in_together():
    assert near_hashes(HASHES, 4, at_once=40) == near_hashes(HASHES, 4)


def test_a_hash_that_is_there_twice_is_met_again():
    assert met_again([*HASHES, HASHES[5], HASHES[9]], at_once=40) == {HASHES[5], HASHES[9]}
