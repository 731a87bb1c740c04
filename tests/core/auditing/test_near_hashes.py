import math
import random
from itertools import combinations

import pytest

from claimpack.core.auditing.near_hashes import LARGEST_HEAP, met_again, near_by_key, near_hashes
from claimpack.core.auditing.rules.alike_pictures import keys_of_cuts

DRAW = random.Random(7)
HASHES = [DRAW.getrandbits(64) for _ in range(150)]
HASHES += [each ^ sum(1 << bit for bit in DRAW.sample(range(64), DRAW.randint(1, 6))) for each in HASHES]


def test_near_hashes_are_those_a_comparison_of_all_pairs_finds():
    near = {(a, b) for a in HASHES for b in HASHES if a < b and (a ^ b).bit_count() <= 4}
    grouped = {frozenset(group) for group in near_hashes(HASHES, 4)}
    assert {pair for group in grouped for pair in [tuple(sorted(group))]} == near


LOWEST = (0, 11, 22, 33, 44, 54)
"""The lowest bit of each of the six bands in which hashes are looked up."""


@pytest.mark.parametrize("bits", [*combinations(LOWEST, 4)])
def test_two_hashes_are_near_whichever_two_bands_four_changed_bits_leave_whole(bits):
    other = HASHES[0] ^ sum(1 << bit for bit in bits)
    assert near_hashes([HASHES[0], other], 4) == [sorted((HASHES[0], other))]


@pytest.mark.parametrize(("others", "found"), [(LARGEST_HEAP - 2, 1), (LARGEST_HEAP - 1, 0)], ids=["500", "501"])
def test_what_more_than_five_hundred_hashes_have_in_common_tells_nothing(others, found):
    near = [0, sum(1 << bit for bit in LOWEST[2:])]
    alike = [DRAW.getrandbits(42) << 22 for _ in range(others)]
    assert near_hashes([*near, *alike], 4) == [near] * found


def test_hashes_near_one_another_in_a_row_are_one_group():
    assert near_hashes([0b11, 0b1, 0b1111, 0b111 << 40], 2) == [[0b1, 0b11, 0b1111]]


def test_hashes_that_only_agree_in_some_bits_are_in_no_group():
    assert near_hashes([5, 1, 5], 0) == []


def test_hashes_looked_at_in_parts_are_in_the_groups_they_would_be_in_together():
    assert near_hashes(HASHES, 4, at_once=40) == near_hashes(HASHES, 4)


def test_a_hash_that_is_there_twice_is_met_again():
    assert met_again([*HASHES, HASHES[5], HASHES[9]], at_once=40) == {HASHES[5], HASHES[9]}


@pytest.mark.parametrize(("other", "pairs"), [(0b0001_0011, 1), (0b0001_1100, 1), (0b0001_0101, 0), (0b0010_0001, 0)])
def test_hashes_are_near_that_agree_in_all_bits_of_a_key_and_in_nearly_all_others(other, pairs):
    named = [(0b0001_0000, 1), (other, 2)]
    assert list(near_by_key(named, (0b1111_1100, 0b1111_0011), 2)) == [(1, 2)] * pairs


@pytest.mark.parametrize(("before", "found"), [(LARGEST_HEAP - 1, 1), (LARGEST_HEAP, 0)], ids=["499", "500"])
def test_under_one_key_a_hash_is_compared_with_the_first_five_hundred(before, found):
    unlike = [(0b1_1111_0000, 0)] * before
    assert list(near_by_key([*unlike, (0b1, 1), (0b1, 2)], (1 << 63,), 2)) == [(1, 2)] * found


def test_cuts_of_one_picture_are_not_compared_with_each_other():
    assert list(near_by_key([(0b1, 7), (0b11, 7)], (0b100,), 2)) == []


class _Counted(int):
    """A cut that counts how often any is compared."""

    compared = 0

    def __xor__(self, other):
        _Counted.compared += 1
        return int(self) ^ int(other)


def comparisons(count):
    """How many it takes among so many cuts of which ten bits of the slowest waves are always the same."""
    draw, _Counted.compared = random.Random(1), 0
    cuts = ((_Counted(draw.getrandbits(53)), place) for place in range(count))
    list(near_by_key(cuts, keys_of_cuts(count, most=1_000), 10))
    return _Counted.compared


@pytest.mark.parametrize("times", [2, 3, 6])
def test_cuts_take_comparisons_that_grow_no_faster_than_n_log_n(times):
    few, many = 1_000, 1_000 * times
    assert comparisons(many) / comparisons(few) <= times * math.log(many) / math.log(few)
