import tomllib

import pytest
from claim_folders import a_folder
from running import claimpack, claimpack_in_bytes
from shop_builders import a_shop, happen

WORK = {
    "parts": [{"name": "Short block", "number": "70-1", "unit_cost": "96.20"}, {"name": "Blade", "payer": "owner"}],
    "labour": [{"operation": "short-block-replace", "hours": "1.6", "technician": "Ben"}],
    "extras": [{"what": "Freight", "amount": "12.50"}],
    "findings": [{"what": "compression", "value": "42", "unit": "psi", "low": "110", "high": "150"}],
    "photos": [{"file": "photos/a.jpg", "shot": "failed part", "marks": [{"shape": "ring", "x": "0.1", "y": "0.1"}]}],
    "held": [{"part": "short block", "shelf": "B3", "drained": True}],
    "approval": {"number": "A-17"},
}


@pytest.fixture
def shop(tmp_path):
    return a_shop(tmp_path, **WORK)


def show(shop, *arguments, **how):
    return claimpack("show", "26-0001", *arguments, folder=shop, **how)


@pytest.mark.parametrize(
    "said",
    [
        "26-0001  DRAFT  Halden CS-70 · cut-off saw",
        "unit HC70-1 · engine E70-1 · professional · 100 hours",
        "A. Customer · first owner",
        "presented 2026-02-05",
        "Will not start.",
        "Short block replaced.",
        "1  Short block  70-1  1 x 96.20 USD",
        "owner pays",
        "1.6 h",
        "Freight",
        "42 psi  limits 110 to 150",
        "photos/a.jpg  1 mark",
        "shelf B3  held",
        "A-17",
        "Missing before",
        "Next         file by 2026-03-26",
    ],
)
def test_one_screen_says(shop, said):
    assert said in show(shop).out


def test_what_is_empty_is_left_out(tmp_path):
    out = show(a_shop(tmp_path)).out
    assert not {"Parts", "Labour", "Photos", "Held parts", "Approval"} & set(out.split())


def test_money_is_told_from_filing_on(shop):
    happen(shop, "26-0001", "filed", claimed="159.70", currency="USD", reference="R-1")
    happen(shop, "26-0001", "answered", answer="accepted", amount="150.00")
    happen(shop, "26-0001", "paid", amount="100.00")
    out = show(shop).out
    assert "Filed        2026-03-01 · R-1 · claimed 159.70 USD" in out
    assert ("accepted 150.00 USD" in out, "100.00 USD on" in out, "outstanding 50.00 USD" in out) == (True,) * 3


def test_a_filed_claim_lacks_nothing_any_more(shop):
    happen(shop, "26-0001", "filed", claimed="159.70", currency="USD")
    assert "Missing" not in show(shop).out


def test_a_held_part_says_where_it_stands(shop):
    happen(shop, "26-0001", "part called back", part="1")
    assert "called back" in show(shop).out


def test_toml_is_read_by_another_reader(shop):
    keys = tomllib.loads(show(shop, "--toml").out)
    assert (keys["parts"][0]["unit_cost"], keys["number"]) == ("96.20", "26-0001")


def test_the_document_has_claim_standing_and_revision(shop):
    happen(shop, "26-0001", "filed", claimed="159.70", currency="USD")
    answer = show(shop, "--json").json
    assert (answer["claim"]["number"], answer["standing"]["outstanding"], answer["revision"]) == (
        *("26-0001", "159.70"),
        2,
    )


def test_a_revision_shows_the_claim_as_it_was(shop):
    claimpack("set", "26-0001", "unit.hours", "300", folder=shop)
    assert ("100 hours" in show(shop, "--revision", "1").out, "300 hours" in show(shop).out) == (True, True)


def test_a_revision_stands_where_it_stood(shop):
    happen(shop, "26-0001", "filed", claimed="159.70", currency="USD")
    states = [show(shop, "--revision", number, "--json").json["standing"]["state"] for number in (1, 2)]
    assert states == ["draft", "filed"]


def test_a_revision_that_never_was_is_refused(shop):
    ran = show(shop, "--revision", "9")
    assert (ran.code, "no revision 9" in ran.err) == (2, True)


def test_a_claim_folder_is_shown_as_one(tmp_path):
    a_folder(tmp_path / "claim")
    ran = claimpack("show", "claim", folder=tmp_path)
    assert (ran.code, "26-0001  FOLDER  Halden CS-70" in ran.out) == (0, True)


def test_a_claim_folder_has_no_standing(tmp_path):
    a_folder(tmp_path / "claim")
    answer = claimpack("show", "claim", "--json", folder=tmp_path).json
    assert (answer["standing"], answer["revision"], answer["verdict"]) == (None, None, "covered")


def test_escape_codes_in_what_people_typed_are_not_obeyed(tmp_path):
    shop = a_shop(tmp_path, owner__name="A\u202eB", failure__complaint="x\u202ey")
    assert "\u202e" not in show(shop).out


def test_long_texts_stay_within_the_width(tmp_path):
    shop = a_shop(tmp_path, failure__complaint="It will not start when it is hot. " * 20)
    assert max(map(len, show(shop).out.splitlines())) <= 100


def test_an_unknown_claim_suggests_the_nearest(shop):
    ran = claimpack("show", "26-001", folder=shop)
    assert (ran.code, "26-0001" in ran.err) == (2, True)


def test_what_was_refused_of_a_paid_claim_is_told(shop):
    happen(shop, "26-0001", "filed", claimed="159.70", currency="USD")
    happen(shop, "26-0001", "answered", answer="part", amount="100.00")
    happen(shop, "26-0001", "paid", amount="100.00")
    assert "Money        not accepted 59.70 USD" in show(shop).out
    assert "Next         contest or write off 59.70 USD" in show(shop).out
    assert show(shop, "--json").json["standing"]["refused_rest"] == "59.70"


def test_a_claim_that_is_not_covered_lacks_nothing(tmp_path):
    out = show(a_shop(tmp_path, failure__component="blade")).out
    assert ("NOT COVERED" in out, "Missing before" in out) == (True, False)


def test_nothing_is_shown_with_the_decimals_of_its_currency(shop):
    happen(shop, "26-0001", "filed", claimed="0.00", currency="USD")
    assert "claimed 0.00 USD" in show(shop).out
    standing = show(shop, "--json").json["standing"]
    assert {standing[name] for name in ("claimed", "paid", "outstanding", "written_off")} == {"0.00"}


def test_money_taken_back_and_given_up_is_told_with_day_and_reason(shop):
    happen(shop, "26-0001", "filed", claimed="159.70", currency="USD")
    on = ("--on", "2026-03-01", "--because")
    for step in (
        ("answer", "26-0001", "part", "--amount", "100", *on, "Their rate."),
        ("pay", "26-0001", "100", "--on", "2026-03-01"),
        ("pay", "26-0001", "40", "--charged-back", *on, "Serial not found."),
        ("write-off", "26-0001", *on, "Not worth it."),
    ):
        claimpack(*step, folder=shop)
    out = show(shop).out
    assert "Charged back 2026-03-01 · 40.00 USD · Serial not found.\n" in out
    assert "Given up     2026-03-01 · 99.70 USD · Not worth it.\n" in out
    assert ("· Their rate." in out, out.count("Serial not found.")) == (True, 1)


@pytest.fixture
def corrected(shop):
    """The shop after the claim was filed and then corrected."""
    happen(shop, "26-0001", "filed", claimed="159.70", currency="USD")
    claimpack("set", "26-0001", "failure.cause", "Other.", folder=shop)
    return shop


def test_a_correction_that_was_not_sent_stands_under_what_was_filed(corrected):
    lines = show(corrected).out.splitlines()
    at = next(place for place, line in enumerate(lines) if line.startswith("Filed "))
    assert lines[at + 1].startswith("Corrected    2026-03-01, after it was filed; this version was not sent.")


def test_scripts_read_when_a_claim_was_corrected_and_not_sent(corrected):
    assert show(corrected, "--json").json["corrected_and_not_sent"] == "2026-03-01"


def test_a_claim_that_was_filed_as_it_is_has_nothing_unsent(shop):
    happen(shop, "26-0001", "filed", claimed="159.70", currency="USD")
    assert (show(shop, "--json").json["corrected_and_not_sent"], "Corrected" in show(shop).out) == (None, False)


def test_an_earlier_revision_names_the_maker_as_lists_do(shop):
    assert "26-0001  DRAFT  Halden CS-70" in show(shop, "--revision", "1").out


def test_a_claim_as_toml_is_in_utf8_whatever_the_language_of_the_machine(tmp_path):
    shop = a_shop(tmp_path, owner__name="Ελένη Müller")
    ran = claimpack_in_bytes("show", "26-0001", "--toml", folder=shop)
    assert tomllib.loads(ran.out.decode("utf-8"))["owner"]["name"] == "Ελένη Müller"
