from __future__ import annotations

import pytest
from running import claimpack
from shop_builders import a_shop, happen, kept_claim


@pytest.fixture
def shop(tmp_path):
    return a_shop(tmp_path)


def finding(shop, *arguments):
    return claimpack("finding", *arguments, folder=shop)


def test_a_value_out_of_limits_is_said_at_once(shop):
    ran = finding(shop, "add", "26-0001", "compression", "42", "psi", "--low", "110", "--high", "150")
    assert (ran.code, ran.out) == (0, "✗ 1  compression 42 psi: OUT OF LIMITS, too low (110 to 150 psi)\n")


@pytest.mark.parametrize(("value", "within"), [("109", False), ("110", True), ("150", True), ("150.5", False)])
def test_scripts_read_whether_it_is_within(shop, value, within):
    ran = finding(shop, "add", "26-0001", "compression", value, "psi", "--low", "110", "--high", "150", "--json")
    assert ran.json["within"] is within


def test_a_value_that_is_no_number_cannot_be_said(shop):
    ran = finding(shop, "add", "26-0001", "spark", "weak", "--low", "6", "--json")
    assert (ran.json["within"], ran.json["standing"]) == (None, None)


def test_without_limits_the_manual_is_named(shop):
    ran = finding(shop, "add", "26-0001", "compression", "42", "psi")
    assert ("no limits given" in ran.out, "--low LIMIT" in ran.err) == (True, True)


def test_limits_of_an_earlier_finding_are_not_guessed(shop):
    finding(shop, "add", "26-0001", "compression", "42", "psi", "--low", "110")
    finding(shop, "add", "26-0001", "compression", "44", "psi")
    assert kept_claim(shop).findings[1].low == ""


def test_a_value_below_zero_is_no_option(shop):
    finding(shop, "add", "26-0001", "vacuum", "-3", "inHg", "--low", "-5")
    kept = kept_claim(shop).findings[0]
    assert (kept.value, kept.unit, kept.low) == ("-3", "inHg", "-5")


def test_an_option_that_is_none_is_refused(shop):
    ran = finding(shop, "add", "26-0001", "compression", "42", "psi", "--lowest", "5")
    assert (ran.code, kept_claim(shop).findings) == (2, ())


def test_the_history_says_what_was_found(shop):
    finding(shop, "add", "26-0001", "compression", "42", "psi")
    from shop_builders import the_desk

    assert the_desk(shop).book.history("26-0001")[-1].why == "finding compression 42 psi"


def test_findings_are_listed_in_order(shop):
    finding(shop, "add", "26-0001", "compression", "42", "psi", "--low", "110")
    finding(shop, "add", "26-0001", "gap", "0.6", "mm", "--high", "0.7")
    listed = finding(shop, "list", "26-0001", "--json").json["findings"]
    assert [(each["n"], each["what"], each["within"]) for each in listed] == [
        (1, "compression", False),
        (2, "gap", True),
    ]


def test_an_empty_list_says_how_to_begin(shop):
    ran = finding(shop, "list", "26-0001")
    assert (ran.out, "finding add 26-0001" in ran.err) == ("", True)


def test_a_finding_is_taken_off(shop):
    finding(shop, "add", "26-0001", "compression", "42")
    finding(shop, "add", "26-0001", "gap", "0.6")
    finding(shop, "remove", "26-0001", "1")
    assert [each.what for each in kept_claim(shop).findings] == ["gap"]


@pytest.mark.parametrize("place", ["0", "2"])
def test_a_finding_that_is_not_there_is_not_found(shop, place):
    finding(shop, "add", "26-0001", "compression", "42")
    ran = finding(shop, "remove", "26-0001", place)
    assert (ran.code, "has 1 finding" in ran.err, len(kept_claim(shop).findings)) == (2, True, 1)


def test_a_claim_that_is_not_in_the_book_is_not_found(shop):
    assert finding(shop, "add", "26-0002", "gap", "1").err.startswith("claimpack: claim 26-0002 is not in the book")


def test_a_claim_folder_is_sent_to_the_book(shop):
    ran = finding(shop, "list", "./26-0001")
    assert (ran.code, "claimpack import ./26-0001" in ran.err) == (2, True)


def test_a_withdrawn_claim_takes_no_finding(shop):
    happen(shop, "26-0001", "withdrawn")
    assert "withdrawn" in finding(shop, "add", "26-0001", "gap", "1").err


def test_a_filed_claim_is_corrected(shop):
    happen(shop, "26-0001", "filed", claimed="10.00", currency="USD")
    finding(shop, "add", "26-0001", "gap", "1")
    from shop_builders import the_desk

    assert the_desk(shop).book.history("26-0001")[-1].what == "corrected"


def test_limits_that_leave_no_room_are_refused(shop):
    ran = claimpack("finding", "add", "26-0001", "gap", "0.7", "mm", "--low", "0.9", "--high", "0.5", folder=shop)
    assert (ran.code, "above --high" in ran.err) == (2, True)


@pytest.mark.parametrize("written", [("0,7", "--low", "0.5"), ("0.7", "--low", "0,5"), ("0.7", "--high", "0,9")])
def test_a_comma_between_digits_is_refused_and_nothing_is_kept(shop, written):
    ran = claimpack("finding", "add", "26-0001", "gap", *written, folder=shop)
    assert (ran.code, "has a comma between digits" in ran.err, kept_claim(shop).findings) == (2, True, ())


def test_a_value_that_cannot_be_compared_says_how_to_correct_it(shop):
    ran = finding(shop, "add", "26-0001", "spark", "weak", "--low", "6")
    assert "claimpack set 26-0001 'findings[1].value' VALUE" in ran.err


def test_a_value_that_has_no_meaning_is_told_by_its_option(shop):
    ran = finding(shop, "add", "26-0001", "compression", "95", "psi", "--low", "x" * 301)
    assert (ran.code, "finding add: --low: is longer than 300 characters" in ran.err) == (2, True)


@pytest.mark.parametrize(
    ("limits", "asks"),
    [((), True), (("--low", "6"), False), (("--high", "60"), False), (("--low", "6", "--high", "60"), False)],
)
def test_the_manual_is_named_only_where_there_is_no_limit_at_all(shop, limits, asks):
    ran = finding(shop, "add", "26-0001", "spark", "42", *limits)
    assert ("--low LIMIT" in ran.err, "claimpack set" in ran.err) == (asks, False)


def test_two_limits_may_be_one(shop):
    assert finding(shop, "add", "26-0001", "gap", "0.7", "--low", "0.7", "--high", "0.7").code == 0


def test_what_is_taken_off_is_said_with_its_reading(shop):
    finding(shop, "add", "26-0001", "compression", "42")
    assert finding(shop, "remove", "26-0001", "1").out == "26-0001: compression 42 removed\n"
