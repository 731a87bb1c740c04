from audits import RECEIPT, WITHDRAWN, an_audited, found_by


def proven(number="26-0001", serial="HC70-1", receipt=RECEIPT):
    return an_audited(number, serial)._replace(files=(receipt,))


def test_one_receipt_for_two_units_is_worth_a_look():
    found = found_by("same-paper", proven("26-0001", "HC70-1"), proven("26-0002", "HC70-2"))
    assert [(each.weight, each.claims) for each in found] == [("look", ("26-0001", "26-0002"))]
    assert found[0].evidence["papers"] == "26-0001: papers/receipt.pdf, 26-0002: papers/receipt.pdf"


def test_one_receipt_in_two_claims_about_one_unit_is_as_it_should_be():
    assert not found_by("same-paper", proven("26-0001"), proven("26-0002"))


def test_receipts_of_other_content_are_no_exception():
    other = RECEIPT._replace(sha256="dd" * 32)
    assert not found_by("same-paper", proven("26-0001", "HC70-1"), proven("26-0002", "HC70-2", other))


def test_a_receipt_may_be_used_again_when_its_claim_was_withdrawn():
    gone = proven("26-0001", "HC70-1")._replace(standing=WITHDRAWN)
    assert not found_by("same-paper", gone, proven("26-0002", "HC70-2"))
