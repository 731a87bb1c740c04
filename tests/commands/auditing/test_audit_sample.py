import csv
import io

import pytest
from printed import page_texts
from running import claimpack
from shop_builders import a_shop, happen

NUMBERS = [f"26-{index:04}" for index in range(1, 13)]


@pytest.fixture(scope="module")
def shop(tmp_path_factory):
    """A shop with twelve claims, eleven of them filed on 1 March, one of those withdrawn."""
    place = a_shop(tmp_path_factory.mktemp("sample"), *NUMBERS)
    for number in NUMBERS[:11]:
        happen(place, number, "filed", claimed="159.70", currency="USD")
    happen(place, NUMBERS[10], "withdrawn")
    return place


def sample(shop, *arguments, **options):
    return claimpack("audit", "sample", "--tolerable", "20", "--confidence", "80", *arguments, folder=shop, **options)


def test_only_claims_that_are_filed_are_drawn_from(shop):
    drawn = sample(shop, "--json").json
    # of 10 with 2 wrong, a sample of 5 misses both in 56 of 252 ways, one of 6 in 28 of 210
    assert (drawn["population"], drawn["tolerable"], drawn["sample"]) == (10, 2, 6)
    assert {claim["claim"] for claim in drawn["claims"]} <= set(NUMBERS[:10])


def test_the_same_seed_draws_the_same_again(shop):
    seed = sample(shop, "--json").json["seed"]
    assert seed.startswith("2026-03-01-")
    assert sample(shop, "--json", "--seed", seed).json == sample(shop, "--json").json


def test_the_claims_are_told_with_unit_and_amount(shop):
    ran = sample(shop)
    assert ran.code == 0
    assert "CS-70  HC70-1  159.70  USD" in ran.out
    assert "claimpack audit conclude --population 10 --sample 6 --errors COUNT" in ran.err


def test_a_work_sheet_is_written_as_pdf(shop):
    ran = sample(shop, "--out", "sheet.pdf", "--paper", "a4")
    text = page_texts(shop / "sheet.pdf")[0]
    assert ran.out == "sheet.pdf\n"
    assert ("6 of 10 claims" in text, "up to 2026-03-01" in text) == (True, True)


def test_a_work_sheet_says_the_days_it_was_drawn_from_and_whose(shop):
    sample(shop, "--out", "span.pdf", "--filed-from", "2026-02-01", "--filed-to", "2026-03-02")
    text = page_texts(shop / "span.pdf")[0]
    assert ("from 2026-02-01 to 2026-03-02" in text, "not named" in text) == (True, True)


def test_a_work_sheet_is_written_as_csv(shop):
    sample(shop, "--out", "sheet.csv")
    rows = list(csv.reader(io.StringIO((shop / "sheet.csv").read_text(encoding="utf-8-sig"))))
    assert len(rows) == 7
    assert rows[1][1:4] == ["CS-70 HC70-1", "159.70", "USD"]


@pytest.mark.parametrize("terminal", [False, True])
def test_a_work_sheet_goes_to_standard_output_as_csv_and_to_a_terminal_too(shop, terminal):
    ran = sample(shop, "--out", "-", terminal=terminal)
    rows = list(csv.reader(io.StringIO(ran.out.removeprefix("\ufeff"))))
    assert (ran.code, len(rows), rows[1][1]) == (0, 7, "CS-70 HC70-1")


def test_another_kind_of_file_is_refused_before_anything_is_drawn(shop):
    ran = sample(shop, "--out", "sheet.docx")
    assert (ran.code, ran.out) == (2, "")
    assert "sheet.docx is neither a PDF nor a CSV file" in ran.err


@pytest.mark.parametrize(
    ("days", "code"),
    [(("--filed-from", "2026-03-01", "--filed-to", "2026-03-01"), 0), (("--filed-from", "2026-03-02"), 2)],
    ids=["that day", "later"],
)
def test_claims_are_drawn_from_the_days_given(shop, days, code):
    assert sample(shop, *days).code == code


@pytest.mark.parametrize(("option", "example"), [("--confidence", "95"), ("--tolerable", "5")])
def test_a_percentage_of_that_option_is_shown_where_it_is_none(shop, option, example):
    assert f"as in {option} {example}." in claimpack("audit", "sample", option, "most", folder=shop).err


@pytest.mark.parametrize("written", ["most", "0", "100", "nan"])
def test_what_is_no_percentage_is_refused(shop, written):
    ran = claimpack("audit", "sample", "--confidence", written, folder=shop)
    assert ran.code == 2
    assert "--confidence" in ran.err


def test_a_percent_sign_may_be_written(shop):
    assert claimpack("audit", "sample", "--confidence", "95 %", folder=shop).code == 0


def test_a_conclusion_is_one_sentence():
    ran = claimpack("audit", "conclude", "--population", 2000, "--sample", 58, "--errors", 0)
    assert ran.code == 0
    assert ran.out.startswith("With 95 % confidence, at most 99 of 2,000 claims (5.0 %) hold an error:")


def test_a_conclusion_as_json():
    found = claimpack("audit", "conclude", "--population", 2000, "--sample", 58, "--errors", 0, "--json").json
    assert (found["at_most"], found["at_most_percent"], found["confidence"]) == (99, "5.0", "95")
    assert found["exact"] is False


def test_what_was_looked_through_whole_is_exact():
    found = claimpack("audit", "conclude", "--population", 20, "--sample", 20, "--errors", 3, "--json").json
    assert (found["at_most"], found["exact"]) == (3, True)


def test_numbers_that_cannot_belong_together_are_refused():
    ran = claimpack("audit", "conclude", "--population", 20, "--sample", 58, "--errors", 0)
    assert (ran.code, ran.out) == (2, "")


def test_nothing_is_shown_with_the_decimals_of_its_currency(tmp_path):
    shop = a_shop(tmp_path, "26-0001")
    happen(shop, "26-0001", "filed", claimed="0", currency="USD")
    happen(shop, "26-0001", "answered", answer="refused")
    assert "HC70-1  0.00  USD" in sample(shop).out
    assert sample(shop, "--json").json["claims"][0]["amount"] == "0.00"
