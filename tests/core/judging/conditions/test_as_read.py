import pytest
from builders import TODAY, a_claim, a_plan

from claimpack.core.judging.assessment import assess
from claimpack.core.judging.conditions.as_read import read_beside
from claimpack.core.judging.conditions.conditions import missing
from claimpack.core.judging.conditions.missing_items import ClaimFacts
from claimpack.core.pricing.pricing import price
from claimpack.core.reading.compared import proposed
from claimpack.core.reading.read_text import WHOLE, TextRead
from claimpack.core.verdict.matching import may_fall_under

PLAN = a_plan()


def with_plate(typed, **read):
    plate = {"key": "unit.serials.unit", "text": "HC70-118-20417", "by": "letters", **read}
    serials = [{"role": "unit", "value": typed}] if typed else []
    return a_claim(unit__serials=serials, photos=[{"file": "photos/plate.jpg", "read": [plate]}])


def blocks(claim):
    found = missing(ClaimFacts(claim, PLAN, price(claim, PLAN).amounts, TODAY, {}))
    return [str(item.what) for item in found if item.blocks_filing and item.is_wrong]


@pytest.mark.parametrize("typed", ["HC70-118-20471", "HC70-118-2O417", "HC70-118-2041", "HC70-118-204177"])
def test_a_serial_typed_otherwise_than_its_plate_shows_blocks_filing(typed):
    assert blocks(with_plate(typed)) == ["serial number as on the plate: unit"]


@pytest.mark.parametrize("typed", ["HC70-118-20417", "hc70 118 20417", ""])
def test_a_serial_typed_as_its_plate_shows_does_not(typed):
    assert blocks(with_plate(typed)) == []


@pytest.mark.parametrize(
    ("form", "read", "wrong"),
    [
        ("", {"text": "TYPE ABC 2024"}, 0),
        ("HC70-[0-9]{3}-[0-9]{5}", {"text": "2024-31"}, 0),
        ("HC70-[0-9]{3}-[0-9]{5}", {"text": "HC70-999-88888"}, 1),
        ("", {"text": "TYPE ABC 2024", "confirmed": "TYPE ABC 2024"}, 1),
    ],
    ids=["no form", "another form", "the form", "seen by a person"],
)
def test_a_number_unlike_the_typed_one_blocks_filing_only_in_the_plans_form_or_once_seen(form, read, wrong):
    plan = a_plan(requires__serial_patterns={"unit": form} if form else {})
    claim = with_plate("HC70-118-20417", **read)
    found = [
        item
        for item in missing(ClaimFacts(claim, plan, price(claim, plan).amounts, TODAY, {}))
        if item.what.key == "missing.serial-as-read"
    ]
    assert [item.blocks_filing for item in found] == [bool(wrong)]


@pytest.mark.parametrize("other_form", ["HC70-[0-9]{3}-[0-9]{5}", "HC71-.*"])
def test_while_no_plan_is_found_a_form_counts_that_all_it_may_fall_under_give(other_form):
    plans = [
        a_plan(id=name, requires__serial_patterns={"unit": form})
        for name, form in (("one", "HC70-[0-9]{3}-[0-9]{5}"), ("two", other_form))
    ]
    claim = with_plate("HC70-118-20417", text="HC70-999-88888")
    found = assess(claim, plans, TODAY)
    opened = [item.blocks_filing for item in found.missing if item.what.key == "missing.serial-as-read"]
    shown = [TextRead("HC70-999-88888", "letters", WHOLE)]
    read = proposed(shown, claim, may_fall_under(claim, plans), "serial plate", TODAY, "")
    assert (found.plan, opened) == (None, [any(each.is_open for each in read)])


def test_a_person_who_looked_is_believed_before_the_reader():
    assert blocks(with_plate("HC70-118-20477", confirmed="HC70-118-20477")) == []


def test_a_serial_changed_after_somebody_looked_is_compared_again():
    assert blocks(with_plate("HC70-118-20417", confirmed="HC70-118-20477")) != []


@pytest.mark.parametrize(
    ("typed", "key"),
    [
        ("HC70-118-2O417", "why.read-looks-alike"),
        ("HC70-118-20477", "why.read-differs"),
        ("E70-55102", "why.read-other"),
    ],
)
def test_how_the_two_differ_is_told(typed, key):
    assert [each.says.key for each in read_beside(with_plate(typed))] == [key]


def test_the_place_and_both_marks_are_told():
    (found,) = read_beside(with_plate("HC70-118-20477"))
    assert "Character 13: read 1; on the claim 7." in str(found.says)


@pytest.mark.parametrize(("day", "wrong"), [("2025-03-14", 0), ("2025-03-15", 1)])
def test_a_day_of_purchase_other_than_the_receipts_blocks_filing(day, wrong):
    read = [{"key": "dates.purchased", "text": day, "by": "text"}]
    assert len(blocks(a_claim(proof__read=read))) == wrong


def test_a_serial_other_than_the_proof_prints_blocks_filing_and_says_so_of_the_proof():
    read = [{"key": "unit.serials.unit", "text": "HC70-118-20471", "by": "text"}]
    serials = [{"role": "unit", "value": "HC70-118-20417"}]
    assert blocks(a_claim(unit__serials=serials, proof__read=read)) == [
        "serial number as on the proof of purchase: unit"
    ]


def test_what_is_read_of_other_keys_is_not_compared():
    assert not list(read_beside(with_plate("X", key="unit.model")))


@pytest.mark.parametrize(
    ("typed", "read", "key"),
    [
        ("", {}, "read.alone"),
        ("HC70-118-20417", {}, "read.same"),
        ("HC70-118-20477", {"confirmed": "HC70-118-20477"}, "read.confirmed"),
        ("HC70-118-20477", {}, "why.read-differs"),
    ],
    ids=["nothing is typed", "the same", "a person saw what is typed", "otherwise"],
)
def test_beside_the_picture_it_is_told_how_the_two_agree(typed, read, key):
    assert [each.told.key for each in read_beside(with_plate(typed, **read))] == [key]


def test_what_is_read_off_the_proof_names_its_file():
    (found,) = read_beside(a_claim(proof__read=[{"key": "dates.purchased", "text": "2025-03-14", "by": "text"}]))
    assert found.file == "papers/receipt.pdf"
