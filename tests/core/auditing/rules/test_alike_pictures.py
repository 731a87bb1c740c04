import random

import pytest
from audits import MEASURES, a_picture, found_by, shows, with_shot

from claimpack.core.auditing.audited import Irregularity
from claimpack.core.auditing.near_hashes import LARGEST_HEAP
from claimpack.core.auditing.report.traces import KeptTraces
from claimpack.core.auditing.rule import NotCompared
from claimpack.core.auditing.rules.alike_pictures import alike_pictures, keys_of_cuts
from claimpack.core.auditing.rules.pictures_and_papers import PictureSeen

LIKENESS = "f0e1d2c3b4a59687"


def changed_bits(likeness, *bits):
    """A hash with some bits the other way round."""
    value = int(likeness, 16)
    for bit in bits:
        value ^= 1 << bit
    return f"{value:016x}"


@pytest.mark.parametrize(
    ("bits", "count"), [((3, 20, 40), 1), ((3, 20, 40, 63), 1), ((3, 12, 20, 40, 63), 0)], ids=["3", "4", "5"]
)
def test_pictures_look_alike_up_to_four_bits_of_difference(bits, count):
    other = a_picture("photos/b.jpg", "cd" * 32, changed_bits(LIKENESS, *bits))
    found = found_by("alike-pictures", shows("26-0001", a_picture(likeness=LIKENESS)), shows("26-0002", other))
    assert len(found) == count


def test_pictures_that_look_alike_are_worth_a_look_and_no_more():
    claims = [shows(n, a_picture(sha256=n * 8, likeness=LIKENESS)) for n in ("26-0001", "26-0002")]
    assert [each.weight for each in found_by("alike-pictures", *claims)] == ["look"]


def test_copies_of_one_file_are_told_by_the_other_rule():
    claims = [shows(number, a_picture(likeness=LIKENESS)) for number in ("26-0001", "26-0002")]
    assert not found_by("alike-pictures", *claims)


def test_pictures_alike_in_one_claim_are_no_exception():
    other = a_picture("photos/b.jpg", "cd" * 32, LIKENESS)
    assert not found_by("alike-pictures", shows("26-0001", a_picture(likeness=LIKENESS), other))


@pytest.mark.parametrize("likeness", ["0" * 16, "f" * 16, "0000000000000f00"], ids=["dark", "bright", "almost"])
def test_pictures_without_contrast_look_like_nothing(likeness):
    claims = [shows(n, a_picture(sha256=n * 8, likeness=likeness)) for n in ("26-0001", "26-0002")]
    assert not found_by("alike-pictures", *claims)


def test_plates_of_one_design_are_not_alike():
    plates = [
        a_picture(sha256=each * 32, likeness=LIKENESS + f"{0xFFF8 >> place:064x}")
        for place, each in enumerate(("aa", "bb"))
    ]
    far = [plates[0], plates[1]._replace(likeness=LIKENESS + f"{2**40 - 1:064x}")]
    near, apart = (
        [with_shot(shows(f"26-000{place}", each), "serial plate") for place, each in enumerate(pictures)]
        for pictures in (plates, far)
    )
    assert (len(found_by("alike-pictures", *near)), len(found_by("alike-pictures", *apart))) == (1, 0)


@pytest.mark.parametrize(("bits", "count"), [(12, 1), (13, 0)])
def test_plates_are_alike_up_to_twelve_bits_of_detail(bits, count):
    pictures = [a_picture(sha256=f"{each:064x}", likeness=LIKENESS + f"{each:064x}") for each in (0, 2**bits - 1)]
    claims = [with_shot(shows(f"26-000{place}", each), "serial plate") for place, each in enumerate(pictures)]
    assert len(found_by("alike-pictures", *claims)) == count


def test_a_plate_whose_detail_is_not_kept_is_compared_with_none():
    claims = [
        shows(f"26-000{place}", a_picture(sha256=each * 32, likeness=LIKENESS))
        for place, each in enumerate(("aa", "bb"))
    ]
    assert not found_by("alike-pictures", *(with_shot(claim, "serial plate") for claim in claims))


def test_a_cut_of_one_picture_that_is_another_is_found():
    whole, part = (
        f"{1:016x}" + "0" * 64 + f"{0x1234_5678_9ABC_DEF0:016x}",
        f"{2**63:016x}" + "0" * 64 + f"{0x1234_5678_9ABC_DEF1:016x}",
    )
    claims = [shows("26-0001", a_picture(likeness=whole)), shows("26-0002", a_picture(sha256="cd" * 32, likeness=part))]
    assert [each.claims for each in found_by("alike-pictures", *claims)] == [("26-0001", "26-0002")]


@pytest.mark.parametrize(("shot", "count"), [("whole unit", 0), ("failed part", 1)])
def test_whole_units_of_one_model_are_alike_where_a_cut_is_nearly_the_same(shot, count):
    # eight bits apart in each cut
    one, other = (
        f"{whole:016x}" + "0" * 64 + f"{0x1234_5678_9ABC_DE00 | cut:016x}" * 2 for whole, cut in ((1, 0), (2**63, 255))
    )
    pictures = a_picture(likeness=one), a_picture(sha256="cd" * 32, likeness=other)
    claims = [with_shot(shows(f"26-000{place}", each), shot) for place, each in enumerate(pictures)]
    assert len(found_by("alike-pictures", *claims)) == count


def test_among_thousands_of_pictures_of_one_shot_a_cut_is_known_again():
    draw = random.Random(7)
    looks = [f"{draw.getrandbits(64):016x}{0:064x}{draw.getrandbits(63):016x}" for _ in range(3_002)]
    looks[-1] = looks[-1][:80] + changed_bits(looks[0][80:], 3, 11)
    seen = [PictureSeen(f"{place}", "a.jpg", f"{place}", each, "") for place, each in enumerate(looks)]
    not_compared, found = alike_pictures(seen, MEASURES, KeptTraces())
    assert (type(not_compared), found.claims) == (NotCompared, ("0", "3001"))


def kinds_found(seen):
    return [type(each) for each in alike_pictures(seen, MEASURES, KeptTraces())]


@pytest.mark.parametrize(("count", "kind"), [(500, Irregularity), (501, NotCompared)])
def test_plates_of_which_hundreds_are_alike_are_told_as_not_compared(count, kind):
    looks = LIKENESS + f"{0:064x}"
    plates = [PictureSeen(f"{each}", "a.jpg", f"{each}", looks, "HC70-1", "serial plate") for each in range(count - 1)]
    other = PictureSeen("other", "a.jpg", "other", looks, "HC70-2", "serial plate")
    assert kinds_found([*plates, other]) == [kind]


@pytest.mark.parametrize(("count", "kinds"), [(3_000, []), (3_001, [NotCompared])])
def test_more_than_three_thousand_pictures_of_one_shot_are_not_compared_in_full(count, kinds):
    draw = random.Random(7)
    looks = [f"{0:080x}{draw.getrandbits(63):016x}" for _ in range(count)]
    blank = [f"{0:080x}", f"{0:096x}"]
    seen = [PictureSeen(f"{place}", "a.jpg", f"{place}", each, "") for place, each in enumerate([*looks, *blank])]
    assert kinds_found(seen) == kinds


@pytest.mark.parametrize(("bits", "count"), [(10, 1), (11, 0)])
def test_cuts_that_come_near_show_one_scene_where_others_do_too(bits, count):
    far = 0x1234_5678_9ABC_D800 ^ 2**bits - 1
    looks = [f"{0:080x}" + f"{cut:016x}" * 2 for cut in (0x1234_5678_9ABC_D800, far)]
    claims = [shows(n, a_picture(sha256=n * 8, likeness=each)) for n, each in zip(("1", "2"), looks, strict=True)]
    assert len(found_by("alike-pictures", *claims)) == count


@pytest.mark.parametrize(("before", "found"), [(LARGEST_HEAP - 1, [Irregularity]), (LARGEST_HEAP, [])])
def test_a_cut_is_compared_with_the_first_five_hundred_that_are_alike_in_slow_waves(before, found):
    draw, slow, one = random.Random(7), 0x1234 << 48, 0x5678_9ABC_DEF0
    looks = [f"{0:080x}{slow | each:016x}" for each in (*(draw.getrandbits(48) for _ in range(before)), one, one ^ 1)]
    seen = [PictureSeen(f"{place}", "a.jpg", f"{place}", each, "") for place, each in enumerate(looks)]
    assert kinds_found(seen) == found


@pytest.mark.parametrize(
    ("pictures", "finer"),
    [
        (200_000, [""]),
        (200_001, ["11", "0011"]),
        (400_000, ["11", "0011"]),
        (400_001, ["111", "000111"]),
        (800_001, ["1111", "00001111"]),
    ],
)
def test_cuts_of_more_pictures_must_be_the_same_in_more_of_the_finer_waves(pictures, finer):
    keys = keys_of_cuts(pictures)
    assert [f"{key & 2**48 - 1:048b}".rstrip("0") for key in keys] == finer
    assert {key >> 48 for key in keys} == {-1}
