import pytest
from audits import DRAFT, RECEIPT, WITHDRAWN, a_picture, an_audited, found_by, shows, with_pictures, with_shot


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


def test_a_picture_of_the_day_a_unit_was_built_is_not_older_than_the_unit():
    new = with_pictures(an_audited(unit__built="2025-01-20"), a_picture(taken="2025-01-20T09:00:00"))
    assert [each.says[0].key for each in found_by("picture-before-unit", new)] == ["picture-before-unit.sold"]


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


@pytest.mark.parametrize("standing", [DRAFT, WITHDRAWN], ids=["draft", "withdrawn"])
def test_a_picture_of_a_claim_that_is_not_with_the_maker_is_never_late(standing):
    assert not found_by("picture-after-filing", taken("2026-02-26")._replace(standing=standing))


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
