import pytest
from claim_folders import CLAIM, a_folder
from running import claimpack
from shop_builders import a_shop, happen


def checked(tmp_path, old="", new="", *arguments):
    a_folder(tmp_path / "claim", CLAIM.replace(old, new) if old else CLAIM)
    return claimpack("check", "claim", *arguments, folder=tmp_path)


def test_the_documented_keys_are_there(tmp_path):
    answer = checked(tmp_path, "", "", "--json").json
    assert {
        "claim",
        "plan",
        "verdict",
        "window",
        "starts",
        "ends",
        "judged_on",
        "days_left",
        "hours_left",
        "windows",
        "reasons",
        "missing",
        "amounts",
        "deadlines",
        "complete",
    } <= answer.keys()


def test_amounts_are_decimal_text(tmp_path):
    amounts = checked(tmp_path, "", "", "--json").json["amounts"]
    assert (amounts["labour"], amounts["claimed"]) == ("147.20", "147.20")


@pytest.mark.parametrize(
    ("old", "new", "code"),
    [
        ("", "", 0),
        ('defect = "material"', 'defect = "misuse"', 3),
        ('use = "professional"\n', "", 4),
        ('cause = "Piston scored."\n', "", 4),
    ],
    ids=["covered", "not covered", "undecided", "incomplete"],
)
def test_the_exit_code_is_the_answer(tmp_path, old, new, code):
    assert checked(tmp_path, old, new).code == code


def test_undecided_names_the_fact_that_would_decide(tmp_path):
    assert "how the unit is used" in checked(tmp_path, 'use = "professional"\n', "").out


def test_every_window_is_told_with_its_days(tmp_path):
    assert checked(tmp_path).out.count(" to 2026-06-01") >= 1


def test_the_date_to_file_by_is_told(tmp_path):
    assert "2026-03-26  file by, in 25 days." in checked(tmp_path).out


def test_a_picture_the_claim_does_not_list_is_mentioned(tmp_path):
    a_folder(tmp_path / "claim")
    (tmp_path / "claim" / "photos" / "extra.jpg").write_bytes(b"x")
    ran = claimpack("check", "claim", folder=tmp_path)
    assert "photos/extra.jpg" in ran.err


def test_a_plan_on_the_command_line_comes_first(tmp_path):
    a_folder(tmp_path / "claim")
    (tmp_path / "mine.toml").write_text(
        'format = 1\nid = "halden-2025"\nmaker = "halden"\ncurrency = "USD"\n'
        '[[window]]\nid = "all"\ncovers = ["*"]\nperiod = "P10Y"\n'
    )
    answer = claimpack("check", "claim", "--plans", tmp_path / "mine.toml", "--json", folder=tmp_path).json
    assert answer["window"] == "all"


def test_a_shops_own_plan_is_nearer_than_the_shipped_one(tmp_path):
    (tmp_path / "shop.toml").write_text("format = 1\n")
    (tmp_path / "coverage").mkdir()
    (tmp_path / "coverage" / "p.toml").write_text(
        'format = 1\nid = "halden-2025"\nmaker = "halden"\ncurrency = "USD"\n'
        '[[window]]\nid = "shops"\ncovers = ["*"]\nperiod = "P10Y"\n'
    )
    assert checked(tmp_path, "", "", "--json").json["window"] == "shops"


def test_a_file_of_a_book_claim_that_is_not_kept_is_missing(tmp_path):
    ran = claimpack("check", "26-0001", "--json", folder=a_shop(tmp_path, plan="halden-2025"))
    told = next(item for item in ran.json["missing"] if item["what"] == "the file papers/receipt.pdf")
    assert (told["blocks_filing"], "claimpack paper add 26-0001 FILE --proof receipt" in told["why"]) == (True, True)


def test_the_files_of_a_folder_lie_beside_its_claim(tmp_path):
    assert "the file" not in checked(tmp_path).out


def test_a_claim_that_was_filed_at_another_amount_says_so(tmp_path):
    shop = a_shop(tmp_path)
    happen(shop, "26-0001", "filed", claimed="101.50", currency="USD")
    assert "26-0001 was filed at 101.50" in claimpack("check", "26-0001", folder=shop).err


def test_a_correction_that_was_not_sent_is_told_at_the_same_amount_too(tmp_path):
    shop = a_shop(tmp_path)
    happen(shop, "26-0001", "filed", claimed="150.00", currency="USD")
    claimpack("set", "26-0001", "failure.cause", "Other.", folder=shop)
    told = "Corrected 2026-03-01, after it was filed; this version was not sent."
    assert told in claimpack("check", "26-0001", folder=shop).err


def test_a_missed_day_to_file_stands_in_the_first_lines(tmp_path):
    told = checked(tmp_path, "", "", "--today", "2026-06-05").out
    assert told.index("LATE") < told.index("Why")


def test_a_window_that_does_not_apply_has_no_mark(tmp_path):
    told = checked(tmp_path, "", "", "--why").out.partition("do not apply")[2].partition("How the amount")[0]
    assert {line[2] for line in told.splitlines() if line.startswith("  ")} == {"-", " "}


def test_what_is_not_covered_is_not_claimed(tmp_path):
    amounts = checked(tmp_path, 'defect = "material"', 'defect = "misuse"', "--json").json["amounts"]
    assert (amounts["claimed"], amounts["would_be"]) == ("0.00", "147.20")


def test_labour_clocked_at_nothing_is_worth_a_look(tmp_path):
    missing = checked(tmp_path, 'hours = "1.6"', 'hours = "0"', "--json").json["missing"]
    assert any("0.00 h" in item["why"] for item in missing)


PLAN = """\
id = "own"
maker = "halden"
currency = "USD"
[[window]]
id = "whole"
covers = ["*"]
period = "P12M"
[pays]
labour_rate = "92.00"
parts_handling = "15"
"""


def test_a_share_above_one_stops_the_check_and_names_what_it_may_mean(tmp_path):
    (tmp_path / "own.toml").write_text(PLAN, encoding="utf-8")
    ran = checked(tmp_path, 'plan = "halden-2025"', 'plan = "own"', "--plans", str(tmp_path / "own.toml"))
    assert (ran.code, "key pays.parts_handling: 15" in ran.err, "did you mean 0.15?" in ran.err) == (2, True, True)


def test_a_tax_above_one_stops_everything_in_the_shop(tmp_path):
    (tmp_path / "shop.toml").write_text('owner_tax = "8"\n', encoding="utf-8")
    ran = checked(tmp_path)
    assert (ran.code, "did you mean 0.08?" in ran.err) == (2, True)


def test_a_picture_that_should_be_taken_again_is_told_while_it_can_be(tmp_path):
    answer = checked(tmp_path, "repaired = 2026-02-24", "", "--json").json
    assert ("photos/0.jpg", "small") in {(each["file"], each["key"]) for each in answer["pictures"]}


def test_once_the_repair_is_done_pictures_are_not_looked_at(tmp_path):
    assert checked(tmp_path, "", "", "--json").json["pictures"] is None
