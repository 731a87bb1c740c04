import pytest
from manager_shop import a_managed_shop, filed_in, on, took_place
from running import claimpack
from screen_columns import ending_under


@pytest.fixture
def shop(tmp_path):
    return a_managed_shop(tmp_path)


def keys(shop, *arguments, day="2026-03-20"):
    return on(day, "pending", "--json", *arguments, shop=shop).json


def claims(shop, *arguments, **how):
    return [claim["claim"] for claim in keys(shop, *arguments, **how)["claims"]]


def own_terms(shop, **facts):
    lines = "\n".join(f"{key} = {value!r}" for key, value in facts.items())
    (shop / "terms" / f"{facts['id']}.toml").write_text(f"format = 1\nname = 'Agreement'\n{lines}\n")


def test_an_empty_book_has_nothing_pending(shop):
    ran = on("2026-03-20", "pending", shop=shop)
    assert (ran.code, "0 claims" in ran.out) == (0, True)


def test_an_empty_book_is_zero_for_scripts(shop):
    found = keys(shop)
    assert (found["claims"], found["totals"]["outstanding"], set(found["totals"]["by_bucket"].values())) == (
        [],
        "0.00",
        {"0.00"},
    )


def test_every_date_of_a_silent_claim_is_told(shop):
    filed_in(shop, received="2026-01-02")
    claim = keys(shop)["claims"][0]
    told = ("answer_due", "accepted_by_silence_on", "pay_due", "days_overdue", "age_days", "bucket", "terms")
    assert [claim[key] for key in told] == ["2026-02-16", "2026-02-16", "2026-03-18", 2, 77, "61-90", "us-tx"]


def test_the_json_has_the_keys_scripts_rely_on(shop):
    filed_in(shop, received="2026-01-02")
    found = keys(shop)
    relied = (
        "claim maker state filed age_days bucket claimed paid outstanding answer_due accepted_by_silence_on pay_due"
    )
    assert {*relied.split(), "days_overdue", "terms", "cites"} <= set(found["claims"][0])
    assert found["totals"]["by_bucket"] == {"0-30": "0.00", "31-60": "0.00", "61-90": "150.00", "over 90": "0.00"}


def test_drafts_and_settled_claims_are_not_pending(shop):
    filed_in(shop, "26-0001")
    filed_in(shop, "26-0002")
    took_place(shop, "26-0002", "paid", "2026-02-01", amount="150.00")
    assert claims(shop) == ["26-0001"]


def test_what_is_longest_overdue_stands_on_top(shop):
    filed_in(shop, "26-0001", "2026-03-01", "2026-03-01")
    filed_in(shop, "26-0002", "2026-01-02", "2026-01-02")
    assert claims(shop) == ["26-0002", "26-0001"]


def test_the_table_tells_the_days_a_late_claim_is_late_and_none_of_another(shop):
    filed_in(shop, "26-0001", "2026-01-02", "2026-01-02")
    filed_in(shop, "26-0002", "2026-03-01", "2026-03-01")
    rows = [line.split() for line in on("2026-03-20", "pending", shop=shop).out.splitlines()]
    ends = [row[-2:] for row in rows if row and row[0].startswith("26-")]
    assert ends[-2:] == [["2026-03-18", "2"], ["2026-04-15", "2026-05-15"]]


def test_ages_amounts_and_days_late_stand_under_each_other(shop):
    filed_in(shop, "26-0001", "2025-11-02", "2025-11-02")
    filed_in(shop, "26-0002", "2026-03-15", "2026-03-15")
    told = on("2026-03-20", "pending", shop=shop).out
    told = told[told.index("Claim ") :]
    assert ending_under(told, "Age") == ["138", "5"]
    assert ending_under(told, "Outstanding") == ["150.00", "150.00"]
    assert ending_under(told, "Late")[0].isdigit()


def test_the_list_is_narrowed_by_maker_and_age(shop):
    filed_in(shop, "26-0001", "2026-03-01")
    filed_in(shop, "26-0002", "2026-01-02", maker="Tessaly Pumps")
    found = claims(shop, "--maker", "tessaly-pumps"), claims(shop, "--over", "30"), claims(shop, "--over", "77")
    assert found == (["26-0002"], ["26-0002"], [])


def test_the_claims_own_terms_are_nearest(shop):
    filed_in(shop, received="2026-01-02", terms="us-wa")
    assert keys(shop)["claims"][0]["answer_due"] == "2026-02-01"


def test_the_makers_agreement_is_nearer_than_the_shops_terms(shop):
    settings = shop / "shop.toml"
    settings.write_text(settings.read_text().replace("[maker_terms]", '[maker_terms]\nHalden = "us-wa"'))
    filed_in(shop, received="2026-01-02")
    assert keys(shop)["claims"][0]["terms"] == "us-wa"


def test_the_shops_own_file_wins_over_a_shipped_one(shop):
    own_terms(shop, id="us-tx", answer_within="P10D", cites="our agreement")
    filed_in(shop, received="2026-01-02")
    claim = keys(shop)["claims"][0]
    assert (claim["answer_due"], claim["cites"]) == ("2026-01-12", "our agreement")


def test_terms_that_are_not_there_are_told_and_the_list_comes_all_the_same(shop):
    filed_in(shop, terms="us-tz")
    ran = on("2026-03-20", "pending", shop=shop)
    assert (ran.code, "26-0001" in ran.out, "us-tz" in ran.err) == (0, True, True)


def test_without_the_day_of_receipt_the_list_says_how_to_note_it(shop):
    filed_in(shop)
    ran = on("2026-03-20", "pending", shop=shop)
    assert ("2026-02-16?" in ran.out, "claimpack received" in ran.out) == (True, True)


def test_the_sections_are_cited_once_with_the_advice_to_check_them(shop):
    for number in ("26-0001", "26-0002"):
        filed_in(shop, number, received="2026-01-02")
    out = on("2026-03-20", "pending", shop=shop).out
    assert (out.count("57.253"), out.count("not legal advice")) == (1, 1)


def test_groups_tell_their_sums(shop):
    filed_in(shop, "26-0001", "2026-03-01")
    filed_in(shop, "26-0002", "2026-01-02")
    groups = keys(shop, "--group", "bucket")["groups"]
    assert [(group["group"], group["claims"], group["outstanding"]) for group in groups] == [
        ("0-30", 1, {"USD": "150.00"}),
        ("61-90", 1, {"USD": "150.00"}),
    ]


@pytest.mark.parametrize("group", ["maker", "bucket", "turn", "terms"])
def test_the_table_is_grouped_under_headings(shop, group):
    filed_in(shop)
    heading = {"maker": "Halden", "bucket": "61-90", "turn": "maker", "terms": "us-tx"}[group]
    assert (
        f"\n{heading}: 1 claim, 150.00 USD outstanding" in on("2026-03-20", "pending", "--group", group, shop=shop).out
    )


@pytest.mark.parametrize("wrong", [["--group", "colour"], ["--over", "-1"], ["--today", "2026-2-1"]])
def test_a_wrong_option_is_refused(shop, wrong):
    assert on("2026-03-20", "pending", *wrong, shop=shop).code == 2


@pytest.mark.parametrize(("terminal", "width"), [(False, 100), (True, 80)])
def test_no_line_is_wider_than_the_page(shop, terminal, width):
    filed_in(shop, "26-0001-LONGEST-NUMBER-1", received="2026-01-02", maker="Tessaly Pumps Manufacturing Company")
    ran = on("2026-03-20", "pending", shop=shop, terminal=terminal, environ={"NO_COLOR": "1"})
    assert max(map(len, ran.out.split("\n"))) <= width


def test_a_claim_in_another_currency_is_never_added(shop):
    filed_in(shop, "26-0001")
    filed_in(shop, "26-0002")
    took_place(shop, "26-0002", "answered", "2026-02-01", answer="refused")
    took_place(shop, "26-0002", "filed", "2026-02-02", claimed="9000", currency="JPY", revision="1")
    totals = keys(shop)["totals"]
    assert (totals["outstanding"], totals["by_bucket"]) == (None, None)
    assert {code: sums["outstanding"] for code, sums in totals["by_currency"].items()} == {
        "USD": "150.00",
        "JPY": "9000",
    }


def test_a_shop_may_age_by_the_due_date(shop):
    settings = shop / "shop.toml"
    settings.write_text(settings.read_text().replace("format = 1", 'format = 1\nageing = "due"', 1))
    filed_in(shop, received="2026-01-02")
    assert keys(shop)["claims"][0]["bucket"] == "1-30"


def test_money_taken_back_is_owed_again_since_that_day(shop):
    filed_in(shop, received="2026-01-02")
    took_place(shop, "26-0001", "paid", "2026-02-10", amount="150.00")
    took_place(shop, "26-0001", "charged back", "2026-03-01", amount="20.00")
    claim = on("2026-06-20", "pending", "--json", shop=shop).json["claims"][0]
    assert (claim["owed_again"], claim["pay_due"], claim["days_overdue"]) == ("2026-03-01", None, 0)


TWO_WAYS = [("26-0001", "tessaly"), ("26-0002", "Tessaly Pumps"), ("26-0003", "halden")]


@pytest.fixture
def spelled(shop):
    """Claims on two makers, one of them written two ways."""
    for number, maker in TWO_WAYS:
        filed_in(shop, number, maker=maker, unit__model="TP-20" if "T" in maker.upper() else "CS-70")
    return shop


@pytest.mark.parametrize("maker", ["tessaly", "TESSALY PUMPS"])
def test_a_maker_under_two_spellings_is_one(spelled, maker):
    assert sorted(claims(spelled, "--maker", maker)) == ["26-0001", "26-0002"]


def test_a_maker_is_grouped_by_its_one_name(spelled):
    groups = keys(spelled, "--group", "maker")["groups"]
    assert [(group["group"], group["claims"]) for group in groups] == [("Halden", 1), ("Tessaly Pumps", 2)]


def test_a_maker_nobody_knows_is_refused_with_the_nearest(spelled):
    ran = on("2026-03-20", "pending", "--maker", "Haldn", shop=spelled)
    assert (ran.code, "Did you mean 'Halden'?" in ran.err) == (2, True)


def test_a_maker_of_whom_nothing_is_filed_is_told_by_name(spelled):
    ran = on("2026-03-20", "pending", "--maker", "Orrin & Vale", shop=spelled)
    assert (ran.code, "Nothing on Orrin & Vale is filed and unpaid." in ran.err) == (0, True)


@pytest.fixture
def part_paid(shop):
    filed_in(shop)
    took_place(shop, "26-0001", "answered", "2026-02-01", answer="part", amount="100.00")
    took_place(shop, "26-0001", "paid", "2026-02-20", amount="100.00")
    return shop


def test_what_was_refused_of_a_paid_claim_is_told_below(part_paid):
    ran = on("2026-03-20", "pending", shop=part_paid)
    assert "50.00 USD refused on 1 claim accepted in part" in ran.out


def test_scripts_read_what_was_refused_of_claims_accepted_in_part(part_paid):
    rest = {"claim": "26-0001", "maker": "Halden", "currency": "USD", "amount": "50.00"}
    assert keys(part_paid)["refused_rests"] == [{**rest, "accepted_by_silence_on": None, "pay_due": None}]


def test_a_rest_of_another_maker_is_not_told(part_paid):
    filed_in(part_paid, "26-0002", maker="Tessaly Pumps")
    assert keys(part_paid, "--maker", "tessaly-pumps")["refused_rests"] == []


def test_a_refusal_after_silence_is_to_be_contested(shop):
    filed_in(shop, received="2026-01-02")
    took_place(shop, "26-0001", "answered", "2026-03-01", answer="refused")
    claim = keys(shop)["claims"][0]
    assert (claim["state"], claim["step"]) == ("refused", "contest: silence accepted it on 2026-02-16")
    assert (claim["accepted_by_silence_on"], claim["pay_due"]) == ("2026-02-16", "2026-03-18")


def test_a_refusal_to_contest_names_the_letter(shop):
    filed_in(shop, received="2026-01-02")
    took_place(shop, "26-0001", "answered", "2026-03-01", answer="refused")
    assert "A letter that contests a refusal: claimpack chase CLAIM" in on("2026-03-20", "pending", shop=shop).err


def test_an_acceptance_after_silence_is_overdue_from_the_day_of_silence(shop):
    filed_in(shop, received="2026-01-02")
    took_place(shop, "26-0001", "answered", "2026-03-01", answer="accepted")
    claim = keys(shop)["claims"][0]
    assert (claim["pay_due"], claim["days_overdue"]) == ("2026-03-18", 2)


def test_a_shop_without_a_currency_has_nothing_outstanding_in_none(tmp_path):
    claimpack("shop", "init", "shop", folder=tmp_path)
    said = on("2026-03-20", "pending", shop=tmp_path / "shop").out
    assert ("Outstanding: 0\n" in said, "None" in said) == (True, False)


@pytest.fixture
def part_paid_late(shop):
    filed_in(shop, received="2026-01-02")
    took_place(shop, "26-0001", "answered", "2026-03-01", answer="part", amount="100.00")
    took_place(shop, "26-0001", "paid", "2026-03-05", amount="100.00")
    return shop


def test_a_rest_refused_after_silence_is_to_be_contested_with_a_letter(part_paid_late):
    out = " ".join(on("2026-03-20", "pending", shop=part_paid_late).out.split())
    assert "after silence had accepted the whole; contest with claimpack chase CLAIM: 26-0001." in out
    assert ("sent in again" in out, "us-tx: Tex. Bus. & Com. Code 57.253" in out) == (False, True)


def test_scripts_read_the_days_of_a_rest_refused_after_silence(part_paid_late):
    (rest,) = keys(part_paid_late)["refused_rests"]
    assert (rest["accepted_by_silence_on"], rest["pay_due"]) == ("2026-02-16", "2026-03-18")


@pytest.mark.parametrize(
    ("day", "refused", "late", "contests"),
    [("2026-01-03", False, False, False), ("2026-03-20", False, True, False), ("2026-02-01", True, False, True)],
    ids=["in time", "silent too long", "refused without grounds"],
)
def test_a_letter_is_named_where_one_is_due(shop, day, refused, late, contests):
    filed_in(shop, received="2026-01-02")
    if refused:
        took_place(shop, "26-0001", "answered", "2026-01-20", answer="refused")
    told = on(day, "pending", shop=shop).err
    assert ("A letter about a late one" in told, "contests" in told) == (late, contests)


def test_a_claim_sent_in_again_tells_both_days(shop):
    filed_in(shop, received="2026-01-02")
    assert "first filed on" not in on("2026-02-20", "pending", shop=shop).out
    took_place(shop, "26-0001", "answered", "2026-01-20", answer="refused", form="yes", because="No plate.")
    took_place(shop, "26-0001", "filed", "2026-02-10", claimed="150.00", currency="USD", revision="1")
    assert "first filed on 2026-01-02, again on 2026-02-10" in " ".join(
        on("2026-02-20", "pending", shop=shop).out.split()
    )
