import random

import pytest
from audits import DRAFT, RECEIPT, WITHDRAWN, a_picture, an_audited, found_by, with_pictures

from claimpack.core.auditing.rules.alike_pictures import near_hashes

LIKENESS = "f0e1d2c3b4a59687"


def shows(number, *pictures, serial=""):
    return with_pictures(an_audited(number, serial or number), *pictures)


def changed_bits(likeness, *bits):
    """A hash with some bits the other way round."""
    value = int(likeness, 16)
    for bit in bits:
        value ^= 1 << bit
    return f"{value:016x}"


def test_one_picture_in_claims_about_two_units_is_serious():
    found = found_by("same-picture", shows("26-0001", a_picture()), shows("26-0002", a_picture("photos/b.jpg")))
    assert [(each.weight, each.claims) for each in found] == [("serious", ("26-0001", "26-0002"))]
    assert found[0].evidence["pictures"] == "26-0001: photos/a.jpg, 26-0002: photos/b.jpg"


def test_one_picture_in_two_claims_about_one_unit_is_worth_a_look():
    claims = [shows(number, a_picture(), serial="HC70-1") for number in ("26-0001", "26-0002")]
    assert [each.weight for each in found_by("same-picture", *claims)] == ["look"]


def test_one_picture_twice_in_one_claim_is_no_exception():
    assert not found_by("same-picture", shows("26-0001", a_picture(), a_picture("photos/b.jpg")))


@pytest.mark.parametrize(("count", "more"), [(5, ""), (6, " and 2 more")], ids=["ten in all", "twelve"])
def test_ten_places_are_named_and_the_others_counted(count, more):
    pictures = [a_picture(f"photos/{place}.jpg") for place in range(count)]
    (found,) = found_by("same-picture", shows("26-0001", *pictures), shows("26-0002", *pictures))
    assert found.evidence["pictures"].removeprefix("26-0001: photos/0.jpg").count(",") == 9
    assert found.evidence["pictures"].partition(" and ")[2] == more.removeprefix(" and ")


def test_one_receipt_in_two_claims_is_no_picture():
    assert not found_by("same-picture", an_audited("26-0001"), an_audited("26-0002"))


def test_a_picture_may_be_used_again_when_its_claim_was_withdrawn():
    gone = shows("26-0001", a_picture())._replace(standing=WITHDRAWN)
    assert not found_by("same-picture", gone, shows("26-0002", a_picture()))


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


def test_near_hashes_are_those_a_comparison_of_all_pairs_finds():
    draw = random.Random(7)
    hashes = [draw.getrandbits(64) for _ in range(150)]
    hashes += [each ^ sum(1 << bit for bit in draw.sample(range(64), draw.randint(1, 6))) for each in hashes]
    near = {(a, b) for a in hashes for b in hashes if a < b and (a ^ b).bit_count() <= 4}
    grouped = {frozenset(group) for group in near_hashes(hashes, 4)}
    assert {pair for group in grouped for pair in [tuple(sorted(group))]} == near


def test_hashes_near_one_another_in_a_row_are_one_group():
    assert near_hashes([0b11, 0b1, 0b1111, 0b111 << 40], 2) == [[0b1, 0b11, 0b1111]]


def test_hashes_that_only_agree_in_some_bits_are_in_no_group():
    assert near_hashes([5, 1, 5], 0) == []


def taken(day):
    return shows("26-0001", a_picture(taken=f"{day}T09:00:00"))


def test_a_picture_of_the_day_the_unit_was_bought_is_sound():
    assert not found_by("picture-before-unit", taken("2025-03-14"))


def test_a_picture_of_the_day_before_the_purchase_is_serious():
    found = found_by("picture-before-unit", taken("2025-03-13"))[0]
    assert (found.weight, found.evidence["taken"]) == ("serious", "2025-03-13")
    assert "before the unit was sold on 2025-03-14" in found.what


def test_a_picture_older_than_the_unit_is_told_as_such():
    old = with_pictures(an_audited(unit__built="2025-01-20"), a_picture(taken="2025-01-19T23:59:59+02:00"))
    assert "before the unit was built on 2025-01-20" in found_by("picture-before-unit", old)[0].what


def test_a_picture_without_a_date_is_not_judged():
    assert not found_by("picture-before-unit", shows("26-0001", a_picture()))


@pytest.mark.parametrize(("day", "count"), [("2025-11-07", 0), ("2025-11-06", 1)], ids=["90 days", "91 days"])
def test_a_picture_is_old_from_91_days_before_the_unit_came_in(day, count):
    assert len(found_by("picture-long-before", taken(day))) == count


@pytest.mark.parametrize(("day", "count"), [("2026-02-25", 0), ("2026-02-26", 1)], ids=["that day", "the day after"])
def test_a_picture_taken_after_filing_is_found(day, count):
    assert len(found_by("picture-after-filing", taken(day))) == count


@pytest.mark.parametrize(("day", "count"), [("2026-02-01", 0), ("2026-01-31", 1)], ids=["a day before", "two days"])
def test_a_picture_of_the_failed_part_is_from_before_it_failed(day, count):
    claim = taken(day)
    photo = claim.claim.photos[0].model_copy(update={"shot": "failed part"})
    shown = claim._replace(claim=claim.claim.model_copy(update={"photos": (photo,)}))
    assert len(found_by("picture-before-failure", shown)) == count


def test_a_picture_of_the_whole_unit_may_be_older_than_the_failure():
    assert not found_by("picture-before-failure", taken("2026-01-10"))


def test_the_plate_of_a_unit_stays_the_same():
    claims = [shows(number, a_picture(), serial="HC70-1") for number in ("26-0001", "26-0002")]
    assert not found_by("same-picture", *(with_shot(claim, "serial plate") for claim in claims))


def with_shot(audited, shot):
    photos = tuple(photo.model_copy(update={"shot": shot}) for photo in audited.claim.photos)
    return audited._replace(claim=audited.claim.model_copy(update={"photos": photos}))


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


def test_a_picture_of_a_draft_is_never_late():
    assert not found_by("picture-after-filing", taken("2026-02-26")._replace(standing=DRAFT))


def proven(number="26-0001", serial="HC70-1", receipt=RECEIPT, owner="A. Customer"):
    return an_audited(number, serial, owner__name=owner)._replace(files=(receipt,))


def test_one_receipt_for_units_of_two_owners_is_worth_a_look():
    found = found_by("same-paper", proven("26-0001", "HC70-1"), proven("26-0002", "HC70-2", owner="B. Other"))
    assert [(each.weight, each.claims) for each in found] == [("look", ("26-0001", "26-0002"))]
    assert found[0].evidence["papers"] == "26-0001: papers/receipt.pdf, 26-0002: papers/receipt.pdf"


def test_an_owner_buys_several_units_on_one_receipt():
    assert not found_by("same-paper", proven("26-0001", "HC70-1"), proven("26-0002", "HC70-2"))


def test_one_receipt_in_two_claims_about_one_unit_is_as_it_should_be():
    assert not found_by("same-paper", proven("26-0001"), proven("26-0002"))


def test_receipts_of_other_content_are_no_exception():
    other = RECEIPT._replace(sha256="dd" * 32)
    assert not found_by("same-paper", proven("26-0001", "HC70-1"), proven("26-0002", "HC70-2", other, "B. Other"))


def test_a_receipt_may_be_used_again_when_its_claim_was_withdrawn():
    gone = proven("26-0001", "HC70-1")._replace(standing=WITHDRAWN)
    assert not found_by("same-paper", gone, proven("26-0002", "HC70-2", owner="B. Other"))
