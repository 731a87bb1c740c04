from __future__ import annotations

from pathlib import Path

import pytest
from running import claimpack
from shop_builders import a_shop, kept_claim

pytest.importorskip("pypdfium2", reason="the extra `read` is not installed, so no paper was read")

RECEIPT = Path(__file__).parents[3] / "sample_claims" / "26-0041-short-block" / "papers" / "receipt.pdf"

SERIALS = [{"role": "unit", "value": "HC70-118-20417"}, {"role": "engine", "value": "E70-55102"}]


@pytest.fixture
def shop(tmp_path):
    shop = a_shop(tmp_path, plan="halden-2025", unit__serials=SERIALS)
    claimpack("paper", "add", "26-0001", RECEIPT, "--proof", "receipt", folder=shop)
    return shop


def read(shop, *options):
    return claimpack("paper", "read", "26-0001", *options, "--json", folder=shop)


def type_day(shop, day):
    claimpack("set", "26-0001", "dates.purchased", day, folder=shop)


def test_the_day_of_a_receipt_is_compared_and_its_seller_and_total_are_told(shop):
    ran = read(shop)
    (told,) = ran.json["files"]
    assert (ran.code, [(each["read"], each["state"]) for each in told["proposals"]]) == (
        0,
        [("2025-03-14", "as typed"), ("HC70-118-20417", "as typed"), ("E70-55102", "as typed")],
    )
    assert told["told"] == {"seller": "Thornmoor Tools & Hire", "total": "1396.54 USD"}


def test_a_day_typed_otherwise_blocks_filing_until_somebody_says_which_is_right(shop):
    type_day(shop, "2025-03-12")
    assert read(shop).code == 4
    asked = [item["what"] for item in claimpack("check", "26-0001", "--json", folder=shop).json["missing"]]
    assert "the day of purchase as on its proof" in asked
    assert read(shop, "--take", "dates.purchased").code == 0
    assert str(kept_claim(shop).dates.purchased) == "2025-03-14"


def test_a_serial_typed_otherwise_than_the_receipt_prints_it_is_a_question(shop):
    claimpack("set", "26-0001", "unit.serials.unit", "HC70-118-20471", folder=shop)
    assert read(shop).code == 4
    assert read(shop, "--keep", "unit.serials.unit").code == 0
    assert kept_claim(shop).unit.serial("unit") == "HC70-118-20471"


def test_what_was_read_is_kept_with_the_proof_and_goes_with_it(shop):
    read(shop)
    assert [each.text for each in kept_claim(shop).proof.read] == ["2025-03-14", "HC70-118-20417", "E70-55102"]
    claimpack("paper", "remove", "26-0001", "1", folder=shop)
    assert kept_claim(shop).proof.read == ()


def test_without_a_proof_nothing_is_read(shop):
    claimpack("paper", "remove", "26-0001", "1", folder=shop)
    assert read(shop).code == 2


def test_a_paper_that_is_not_there_is_not_read_nor_another_in_its_place(shop):
    assert read(shop, "2").code == 2
