import pytest
from manager_shop import a_managed_shop, filed_in, on, open_in, took_place
from printed import words_of
from pypdf import PdfReader


@pytest.fixture
def shop(tmp_path):
    return a_managed_shop(tmp_path)


def test_the_letter_is_written_beside_the_book(shop):
    filed_in(shop, received="2026-01-02")
    ran = on("2026-03-20", "chase", "26-0001", shop=shop)
    assert (ran.code, ran.out.strip(), (shop / "26-0001-letter.pdf").is_file()) == (0, "26-0001-letter.pdf", True)


def test_the_pdf_says_what_the_text_says(shop):
    filed_in(shop, received="2026-01-02")
    ran = on("2026-03-20", "chase", "26-0001", "--text", "--out", "letter.pdf", shop=shop)
    paragraph = "Please pay 150.00 USD by 3 April 2026, naming our claim number 26-0001."
    assert paragraph in words_of(shop / "letter.pdf")
    assert paragraph in " ".join(ran.out.split())


def test_the_letter_fits_on_one_page(shop):
    filed_in(shop, received="2026-01-02")
    on("2026-03-20", "chase", "26-0001", "--paper", "a4", shop=shop)
    pages = PdfReader(shop / "26-0001-letter.pdf").pages
    assert (len(pages), round(float(pages[0].mediabox.width))) == (1, 595)


def test_the_text_alone_writes_no_file(shop):
    filed_in(shop, received="2026-01-02")
    ran = on("2026-03-20", "chase", "26-0001", "--text", shop=shop)
    assert (ran.code, list(shop.glob("*.pdf"))) == (0, [])


def test_the_maker_is_named_as_the_plan_names_it(shop):
    filed_in(shop, received="2026-01-02")
    assert "To: Halden" in on("2026-03-20", "chase", "26-0001", "--text", shop=shop).out


def test_scripts_get_the_letter_and_its_file(shop):
    filed_in(shop, received="2026-01-02")
    keys = on("2026-03-20", "chase", "26-0001", "--json", shop=shop).json
    assert (keys["asks"], keys["by"], keys["file"]) == ("payment", "2026-04-03", str(shop / "26-0001-letter.pdf"))


@pytest.mark.parametrize("json", [[], ["--json"]])
def test_nothing_to_ask_for_is_a_no(shop, json):
    filed_in(shop, received="2026-03-01")
    ran = on("2026-03-20", "chase", "26-0001", *json, shop=shop)
    assert (ran.code, "2026-04-15" in ran.out, list(shop.glob("*.pdf"))) == (3, True, [])


def test_a_draft_is_the_shops_turn(shop):
    open_in(shop)
    assert on("2026-03-20", "chase", "26-0001", shop=shop).code == 3


def test_a_question_is_the_shops_turn(shop):
    filed_in(shop)
    took_place(shop, "26-0001", "answered", "2026-02-01", answer="questioned")
    assert "shop's turn" in on("2026-03-20", "chase", "26-0001", shop=shop).out


@pytest.mark.parametrize("wrong", [["26-9999"], ["26-0001", "--paper", "a5"], ["./claim"]])
def test_a_wrong_claim_or_paper_is_refused(shop, wrong):
    filed_in(shop, received="2026-01-02")
    assert on("2026-03-20", "chase", *wrong, shop=shop).code == 2


def test_user_text_is_never_markup(shop):
    settings = shop / "shop.toml"
    settings.write_text(settings.read_text().replace("Quarry Road", "<b>A & B</b> <img src=x>"))
    filed_in(shop, received="2026-01-02")
    on("2026-03-20", "chase", "26-0001", shop=shop)
    assert "<b>A & B</b> <img src=x>" in words_of(shop / "26-0001-letter.pdf")


def test_what_was_refused_of_a_paid_claim_is_no_matter_for_a_letter_and_the_ways_on_are_named(shop):
    filed_in(shop, received="2026-01-02")
    took_place(shop, "26-0001", "answered", "2026-02-01", answer="part", amount="100.00")
    took_place(shop, "26-0001", "paid", "2026-02-10", amount="100.00")
    ran = on("2026-03-20", "chase", "26-0001", shop=shop)
    assert (ran.code, "no letter. What the maker accepted is paid" in ran.out) == (3, True)
    assert "claimpack file 26-0001" in ran.err


def test_a_refusal_after_silence_is_contested(shop):
    filed_in(shop, received="2026-01-02")
    took_place(shop, "26-0001", "answered", "2026-03-01", answer="refused")
    keys = on("2026-03-20", "chase", "26-0001", "--json", shop=shop).json
    assert (keys["asks"], keys["contests"], keys["by"]) == ("payment", True, "2026-04-03")
    assert "your refusal came on 1 March 2026" in " ".join(keys["text"].split())


def test_a_letter_that_contests_fits_on_one_page(shop):
    filed_in(shop, received="2026-01-02")
    took_place(shop, "26-0001", "answered", "2026-03-01", answer="refused")
    on("2026-03-20", "chase", "26-0001", shop=shop)
    assert len(PdfReader(shop / "26-0001-letter.pdf").pages) == 1


def test_a_claim_sent_in_again_after_a_refusal_is_not_said_to_be_unanswered(shop):
    filed_in(shop)
    took_place(shop, "26-0001", "answered", "2026-01-10", answer="refused")
    again = {"claimed": "150.00", "currency": "USD", "received": "2026-01-16", "revision": "1"}
    took_place(shop, "26-0001", "filed", "2026-01-15", **again)
    said = " ".join(on("2026-03-20", "chase", "26-0001", "--text", shop=shop).out.split())
    assert "We first filed this claim with you on 2 January 2026 and sent it in again on 15 January 2026" in said
    assert "No answer to what we sent in on 15 Jan" in said


def test_a_letter_about_a_rest_names_the_last_day_to_pay_after_the_part_is_paid(shop):
    filed_in(shop, received="2026-01-02")
    took_place(shop, "26-0001", "answered", "2026-03-01", answer="part", amount="100.00")
    took_place(shop, "26-0001", "paid", "2026-03-05", amount="100.00")
    keys = on("2026-03-10", "chase", "26-0001", "--json", shop=shop).json
    assert (keys["by"], keys["contests"], "Last day to pay:         18 March 2026" in keys["text"]) == (
        "2026-03-18", True, True
    )  # fmt: skip


def test_the_makers_address_is_printed_where_the_settings_give_one(shop):
    settings = shop / "shop.toml"
    named = '[maker_addresses]\nhalden = "40 Foundry Lane\\nNorthgate"'
    settings.write_text(settings.read_text().replace("[maker_addresses]", named))
    filed_in(shop, received="2026-01-02")
    assert on("2026-03-20", "chase", "26-0001", shop=shop).code == 0
    assert "Halden 40 Foundry Lane Northgate" in words_of(shop / "26-0001-letter.pdf")


def test_a_refusal_is_contested_only_on_grounds_that_are_given(shop):
    filed_in(shop)
    took_place(shop, "26-0001", "answered", "2026-02-01", answer="refused", form="yes")
    ran = on("2026-03-20", "chase", "26-0001", shop=shop)
    assert (ran.code, "--grounds TEXT" in ran.err) == (3, True)


def test_what_was_never_refused_cannot_be_contested(shop):
    filed_in(shop)
    assert on("2026-03-20", "chase", "26-0001", "--grounds", "Mine.", shop=shop).code == 2


@pytest.mark.parametrize(
    "facts", [{"what": "shelf counted", "found": "no"}, {"what": "part released"}], ids=["lost", "released"]
)
def test_a_part_that_is_not_there_any_more_is_not_offered(shop, facts):
    filed_in(shop, received="2026-01-02")
    before = on("2026-03-20", "chase", "26-0001", "--text", shop=shop).out
    took_place(shop, "26-0001", on="2026-03-01", part="1", **facts)
    after = on("2026-03-20", "chase", "26-0001", "--text", shop=shop).out
    assert ("held part" in before, "held part" in after) == (True, False)


def test_a_letter_on_the_shops_own_grounds_contests(shop):
    filed_in(shop, received="2026-01-02", proof__file=None)
    took_place(shop, "26-0001", "answered", "2026-02-01", answer="refused")
    told = on("2026-03-20", "chase", "26-0001", "--grounds", "It is no wear.", "--text", "--json", shop=shop)
    assert (told.json["asks"], told.json["contests"], told.json["file"]) == ("answer", True, None)


def test_scripts_read_that_there_is_nothing_to_ask_for(shop):
    filed_in(shop, received="2026-01-02")
    told = on("2026-01-03", "chase", "26-0001", "--json", shop=shop).json
    assert (told["asks"], told["contests"], told["file"], told["terms_unread"]) == (None, False, None, None)


@pytest.mark.parametrize("beside", ["--json", "--text"])
def test_a_letter_on_standard_output_has_nothing_beside_it(shop, beside):
    filed_in(shop, received="2026-01-02")
    assert on("2026-03-20", "chase", "26-0001", "--out", "-", beside, shop=shop).code == 2


@pytest.mark.parametrize("words", [(), ("26-0001", "--maker", "halden"), ("26-0001", "--early")])
def test_a_letter_is_about_one_claim_or_one_maker(shop, words):
    filed_in(shop, received="2026-01-02")
    assert on("2026-03-20", "chase", *words, shop=shop).code == 2
