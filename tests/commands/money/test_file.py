import io

import pikepdf
import pytest
from claim_folders import CLAIM
from made_once import made_once
from printed import page_texts, words_of
from pypdf import PdfReader
from running import claimpack
from shop_builders import the_desk
from shops_with_claims import CLAIMED, a_copy, a_shop_with, walked

from claimpack.file_contents import content_hash

INCOMPLETE = CLAIM.replace('cause = "Piston scored."', "")
SOLD_LONG_AGO = CLAIM.replace("2025-0", "2023-0")


@pytest.fixture
def shop(draft_shop, tmp_path):
    return a_copy(draft_shop, tmp_path)


@pytest.fixture
def sent(filed_shop, tmp_path):
    """A shop whose claim is filed, as `filed` does it."""
    return a_copy(filed_shop, tmp_path)


@made_once
def a_shop_that_filed(place, text):
    """A shop whose claim was filed for a reason although something was against it."""
    shop = a_shop_with(place, text)
    filed(shop, "--anyway", "Agreed by phone.")
    return shop


def filed(shop, *options):
    return claimpack("file", "26-0001", "--on", "2026-02-25", *options, folder=shop)


def filed_amount(shop):
    return str(the_desk(shop).book.get("26-0001").standing.claimed)


def last_event(shop):
    return the_desk(shop).book.history("26-0001")[-1]


def test_filing_starts_the_claims_dates(sent):
    standing = the_desk(sent).book.get("26-0001").standing
    assert (standing.state, standing.filed.isoformat(), str(standing.claimed)) == ("filed", "2026-02-25", CLAIMED)


def test_the_history_keeps_what_went_out(shop):
    ran = filed(shop, "--ref", "H-17", "--received", "2026-02-27", "--json")
    event = last_event(shop)
    assert (event.what, event.who, event.on.isoformat()) == ("filed", "ann", "2026-02-25")
    assert ran.json["filed"] is True
    assert event.facts == {
        "packet": ran.json["packet"],
        "claimed": CLAIMED,
        "currency": "USD",
        "revision": "1",
        "received": "2026-02-27",
        "reference": "H-17",
        "verdict": "covered",
    }


def test_the_packet_is_frozen_in_the_vault_and_written_out(shop):
    ran = filed(shop, "--json")
    assert ran.json["packet"] == content_hash(shop / "26-0001-packet.pdf")
    assert the_desk(shop).vault.place(ran.json["packet"]).read_bytes() == (shop / "26-0001-packet.pdf").read_bytes()


def test_the_packet_goes_where_it_is_wanted(shop, tmp_path):
    filed(shop, "--out", tmp_path / "sent.pdf")
    assert len(PdfReader(tmp_path / "sent.pdf").pages) > 3


def test_the_frozen_packet_is_genuine(sent):
    assert claimpack("verify", "26-0001-packet.pdf", folder=sent).out.startswith("GENUINE")


def test_the_answer_says_amount_version_and_file(shop):
    said = filed(shop)
    assert f"26-0001 is filed on 2026-02-25: {CLAIMED} USD claimed" in said.out
    assert "frozen as version 1 (revision 1 of the claim)" in said.out
    assert "26-0001-packet.pdf" in said.out
    assert "claimpack answer 26-0001" in said.err


@pytest.mark.parametrize(("text", "code", "said"), [(INCOMPLETE, 4, "cause"), (SOLD_LONG_AGO, 3, "Not covered")])
def test_what_blocks_a_claim_is_named_and_nothing_is_filed(tmp_path, text, code, said):
    shop = a_shop_with(tmp_path, text)
    ran = filed(shop)
    assert (ran.code, "is not filed" in ran.out, said in ran.out) == (code, True, True)
    assert (last_event(shop).what, list(shop.glob("*.pdf"))) == ("imported", [])


def test_scripts_read_what_blocks(tmp_path):
    ran = filed(a_shop_with(tmp_path, INCOMPLETE), "--json")
    assert (ran.json["filed"], ran.json["verdict"]) == (False, "covered")
    assert [sentence.split(".")[0] for sentence in ran.json["blocks"]] == ["cause"]


def test_a_blocked_claim_goes_with_a_reason_that_is_kept(tmp_path):
    shop = a_shop_that_filed(tmp_path, INCOMPLETE)
    assert (last_event(shop).what, last_event(shop).why) == ("filed", "Agreed by phone.")


@pytest.mark.parametrize(("on", "code"), [("2026-03-25", 0), ("2026-03-26", 0), ("2026-03-27", 4)])
def test_a_claim_is_not_filed_after_its_last_day_without_a_reason(shop, on, code):
    assert claimpack("file", "26-0001", "--on", on, "--today", "2026-04-01", folder=shop).code == code


def test_a_claim_filed_after_its_last_day_for_a_reason_says_how_late_it_is(shop):
    late = ("--on", "2026-03-27", "--today", "2026-04-01", "--anyway", "The maker agreed.")
    ran = claimpack("file", "26-0001", *late, folder=shop)
    assert (ran.code, "the last day to file was 2026-03-26; it was filed 1 day later" in ran.err) == (0, True)


def test_a_claim_filed_late_is_as_late_when_it_is_looked_at_again(shop):
    claimpack("file", "26-0001", "--on", "2026-03-27", "--today", "2026-04-01", "--anyway", "Agreed.", folder=shop)
    found = claimpack("check", "26-0001", "--today", "2026-09-01", "--json", folder=shop).json
    assert found["late"] == {"file_by": "2026-03-26", "days": 1}


def test_a_claim_filed_in_time_is_not_late_where_it_is_sent_in_again(sent):
    walked(sent, "answer refused --form --on 2026-02-26")
    ran = claimpack("file", "26-0001", "--on", "2026-03-27", "--today", "2026-04-01", folder=sent)
    assert (ran.code, "last day to file" in ran.err) == (0, False)


def test_a_favour_is_filed_with_its_reason_alone(tmp_path):
    text = 'case = "goodwill"\n' + SOLD_LONG_AGO + '\n[goodwill]\nbecause = "Failed twice."\n'
    shop = a_shop_with(tmp_path, text)
    assert (filed(shop).code, filed_amount(shop)) == (0, CLAIMED)


def test_what_went_out_for_a_reason_prints_the_reason_and_nothing_against_itself(tmp_path):
    shop = a_shop_that_filed(tmp_path, SOLD_LONG_AGO.replace('cause = "Piston scored."', ""))
    cover = page_texts(shop / "26-0001-packet.pdf")[0]
    assert ("REQUEST FOR GOODWILL" in cover, "Agreed by phone." in cover) == (True, True)
    assert ("NOT COVERED" in cover, "NOT READY" in cover) == (False, False)


def test_what_goes_out_missing_is_told_and_no_longer_needed_before_filing(tmp_path):
    ran = filed(shop := a_shop_with(tmp_path, INCOMPLETE), "--anyway", "Agreed by phone.")
    said = words_of(shop / "26-0001-packet.pdf")
    assert ("Not enclosed" in ran.err, "Not enclosed" in said) == (True, True)
    assert ("Needed before filing" in said, "What is missing" in said) == (False, False)


def test_what_is_covered_and_filed_for_a_reason_stays_covered_and_prints_the_reason(tmp_path):
    shop = a_shop_that_filed(tmp_path, INCOMPLETE)
    cover = page_texts(shop / "26-0001-packet.pdf")[0]
    assert ("COVERED" in cover, "Filed all the same: Agreed by phone." in cover) == (True, True)


def test_a_claim_out_of_cover_filed_for_a_reason_is_claimed_as_a_favour(tmp_path):
    shop = a_shop_that_filed(tmp_path, SOLD_LONG_AGO)
    assert filed_amount(shop) == CLAIMED
    assert claimpack("check", "26-0001", "--json", folder=shop).json["goodwill"]["because"] == "Agreed by phone."


def test_a_correction_to_a_favour_compares_what_is_asked_for(tmp_path):
    shop = a_shop_that_filed(tmp_path, SOLD_LONG_AGO)
    assert f"was filed at {CLAIMED}" not in claimpack("check", "26-0001", folder=shop).err
    claimpack("set", "26-0001", "extras[1].what", "freight", "extras[1].amount", "10", folder=shop)
    assert f"was filed at {CLAIMED}" in claimpack("check", "26-0001", folder=shop).err


@pytest.mark.parametrize("command", ["check", "show"])
def test_what_was_filed_all_the_same_is_a_favour_wherever_it_is_looked_at(tmp_path, command):
    shop = a_shop_that_filed(tmp_path, SOLD_LONG_AGO)
    assert "GOODWILL ASKED" in claimpack(command, "26-0001", folder=shop).out


def test_a_draft_that_asks_a_favour_is_to_be_filed(tmp_path):
    shop = a_shop_with(tmp_path, 'case = "goodwill"\n' + SOLD_LONG_AGO)
    listed = claimpack("list", "--json", folder=shop).json["claims"][0]
    assert (listed["asks_goodwill"], listed["next"].startswith("file the ")) == (True, True)


def test_a_filed_claim_is_not_filed_twice(sent):
    ran = filed(sent)
    assert (ran.code, "the claim is filed, so it cannot be filed now" in ran.err) == (2, True)


def test_a_claim_refused_for_form_is_sent_in_again_and_both_packets_stay(sent):
    walked(sent, "answer refused --form --on 2026-02-26")
    walked(sent, "file --on 2026-02-27 --out second.pdf")
    claimpack("packet", "26-0001", "--filed", "--version", 1, "--out", "first.pdf", folder=sent)
    assert content_hash(sent / "first.pdf") == content_hash(sent / "26-0001-packet.pdf")
    assert content_hash(sent / "first.pdf") != content_hash(sent / "second.pdf")


def test_a_claim_sent_in_again_keeps_the_layout_of_its_last_packet(shop):
    walked(shop, "file --on 2026-02-25 --layout carta-a4", "answer refused --form --on 2026-02-26")
    walked(shop, "file --on 2026-02-27 --out second.pdf")
    assert last_event(shop).facts["layout"] == "carta-a4"
    assert "reclamación 26-0001" in page_texts(shop / "second.pdf")[0]


def test_a_correction_after_filing_makes_a_new_version(sent):
    with the_desk(sent).changing("26-0001") as changing:
        changing.keep(changing.claim.model_copy(update={"terms": "us-sc"}))
    assert last_event(sent).what == "corrected"
    walked(sent, "answer refused --form --on 2026-02-26")
    ran = walked(sent, "file --on 2026-02-27")[0]
    assert "frozen as version 2 (revision 4 of the claim)" in ran.out


def test_the_last_frozen_packet_comes_back_byte_for_byte(sent):
    sha256 = last_event(sent).facts["packet"]
    (sent / "26-0001-packet.pdf").unlink()
    ran = claimpack("packet", "26-0001", "--filed", "--json", folder=sent)
    assert (ran.json["sha256"], content_hash(sent / "26-0001-packet.pdf")) == (sha256, sha256)


def test_a_claim_never_filed_has_no_frozen_packet(shop):
    ran = claimpack("packet", "26-0001", "--filed", folder=shop)
    assert (ran.code, "has not been filed" in ran.err) == (2, True)


def test_a_frozen_packet_that_was_changed_in_the_vault_is_not_handed_out(sent):
    place = the_desk(sent).vault.place(last_event(sent).facts["packet"])
    place.write_bytes(place.read_bytes() + b" ")
    ran = claimpack("packet", "26-0001", "--filed", "--out", "p.pdf", folder=sent)
    assert (ran.code, "in the vault" in ran.err, (sent / "p.pdf").exists()) == (2, True, False)


def test_a_frozen_packet_is_among_what_the_shop_proves(sent):
    place = the_desk(sent).vault.place(last_event(sent).facts["packet"])
    assert claimpack("shop", "verify", folder=sent).code == 0
    place.unlink()
    ran = claimpack("shop", "verify", folder=sent)
    assert (ran.code, "the packet filed on 2026-02-25 is gone" in ran.out) == (3, True)


def test_the_packet_of_a_filing_knows_its_day(sent):
    packet = (sent / "26-0001-packet.pdf").read_bytes()
    with pikepdf.open(io.BytesIO(packet)) as pdf:
        facts = [pdf.attachments[name].get_file().read_bytes() for name in pdf.attachments]
    assert any(b'"filed": "2026-02-25"' in text or b'"filed":"2026-02-25"' in text for text in facts)


@pytest.mark.parametrize("on", ["2026-02-04", "2026-03-02", "the day before"])
def test_an_impossible_day_is_refused(shop, on):
    ran = claimpack("file", "26-0001", "--on", on, folder=shop)
    assert (ran.code, "--on" in ran.err) == (2, True)


def test_control_characters_in_a_reference_are_refused(shop):
    ran = filed(shop, "--ref", "a\x07b")
    assert (ran.code, "file: --ref: holds the control character" in ran.err) == (2, True)


def test_a_folder_is_not_filed(shop):
    ran = claimpack("file", "../incoming/0", folder=shop)
    assert (ran.code, "claimpack import ../incoming/0" in ran.err) == (2, True)


def test_a_claim_that_is_not_in_the_book_is_not_found(shop):
    ran = claimpack("file", "26-0002", folder=shop)
    assert (ran.code, "Did you mean 26-0001?" in ran.err) == (2, True)


def test_a_packet_that_cannot_be_written_is_not_filed(shop):
    (shop / "blocked").write_text("")
    ran = filed(shop, "--out", "blocked/packet.pdf")
    assert (ran.code, last_event(shop).what) == (2, "imported")


def test_a_claim_paid_in_part_is_put_right_and_filed_again_with_what_was_paid_counting(sent):
    walked(sent, "answer part --amount 100", "pay 100", "set labour[1].hours 2.0")
    ran = claimpack("file", "26-0001", folder=sent)
    assert ("100.00 USD" in ran.err, "47.20 USD" in ran.err) == (True, True)
    assert "frozen as version 2" in ran.out


def test_the_book_stays_whole_over_filing_again_after_payment(sent):
    walked(sent, "answer part --amount 100 --on 2026-02-25", "pay 100", "file --on 2026-02-26")
    walked(sent, "pay 40", "pay --undo --because slip", "answer accepted", "pay 47.20")
    assert claimpack("shop", "verify", folder=sent).out.startswith("WHOLE")


def test_a_file_the_claim_names_and_the_book_does_not_keep_blocks_filing(shop):
    claimpack("set", "26-0001", "proof.file", "papers/lost.pdf", folder=shop)
    ran = filed(shop)
    assert (ran.code, "claimpack paper add 26-0001 FILE --proof receipt" in ran.out.replace("\n   ", "")) == (4, True)
    assert filed(shop, "--anyway", "they know").code == 2


def test_the_packet_of_a_claim_sent_again_says_so_and_is_genuine(sent):
    walked(
        sent,
        "answer part --amount 100 --on 2026-02-25",
        "pay 100",
        "file --on 2026-02-26 --out again.pdf",
    )
    cover = page_texts(sent / "again.pdf")[0]
    assert ("100.00 USD was paid" in cover, "47.20 USD is asked" in cover) == (True, True)
    assert claimpack("verify", "again.pdf", folder=sent).out.startswith("GENUINE")


def test_a_claim_is_not_sent_again_before_it_was_refused(sent):
    walked(sent, "answer refused --on 2026-02-27")
    ran = claimpack("file", "26-0001", "--on", "2026-02-26", folder=sent)
    assert (ran.code, "is before 2026-02-27, the day it was refused" in ran.err) == (2, True)


def test_a_question_that_nobody_answered_stops_the_filing_before_anything_is_frozen(sent):
    walked(sent, "answer questioned --on 2026-02-26 --because fuel?")
    assert claimpack("file", "26-0001", "--on", "2026-02-27", folder=sent).code == 4
    assert last_event(sent).what == "answered"
    assert walked(sent, "file --on 2026-02-27 --reply Fresh.")[0].code == 0
