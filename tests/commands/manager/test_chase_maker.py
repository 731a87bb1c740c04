import pytest
from made_once import made_once
from manager_shop import a_managed_shop, filed_in, on, took_place
from several_shops import two_shops

LATE = "2026-03-20"


@made_once
def two_late(place):
    """A shop with two claims of 150.00 whose time to pay is over, and one that still has time."""
    shop = a_managed_shop(place)
    for number in ("26-0001", "26-0002", "26-0003"):
        filed_in(shop, number, received="2026-01-02" if number != "26-0003" else "2026-03-10")
    return shop


@pytest.fixture
def shop(tmp_path):
    return two_late(tmp_path)


def due(shop):
    items = on(LATE, "due", "--within", "60", "--json", shop=shop).json["items"]
    return [(item["claim"], item["on"]) for item in items if item["what"] == "look again"]


def test_one_letter_names_every_late_claim_its_section_and_the_total(shop):
    ran = on(LATE, "chase", "--maker", "halden", "--text", shop=shop)
    text = " ".join(ran.out.split())
    assert [piece in text for piece in ("26-0001", "26-0002", "26-0003", "300.00 USD", "57.2")] == [
        *(True, True, False, True, True)
    ]


def test_scripts_get_the_claims_and_the_file(shop):
    told = on(LATE, "chase", "--maker", "halden", "--json", shop=shop).json
    assert ([one["claim"] for one in told["claims"]], (shop / "halden-letter.pdf").is_file()) == (
        ["26-0001", "26-0002"],
        True,
    )


def test_a_letter_that_went_out_comes_up_again_until_the_maker_does_something(shop):
    on(LATE, "chase", "--maker", "halden", "--sent", shop=shop)
    assert due(shop) == [("26-0001", "2026-04-04"), ("26-0002", "2026-04-04")]
    on(LATE, "pay", "26-0001", "150.00", shop=shop)
    assert due(shop) == [("26-0002", "2026-04-04")]


def test_the_command_told_for_afterwards_can_be_copied_into_a_shell(shop):
    ran = on(LATE, "chase", "--maker", " Halden", "--text", shop=shop)
    assert "--maker ' Halden' --sent" in ran.err


def test_another_day_to_ask_again_may_be_said(shop):
    on(LATE, "chase", "26-0001", "--sent", "--again", "2026-04-20", shop=shop)
    assert due(shop) == [("26-0001", "2026-04-20")]


@pytest.mark.parametrize(
    ("words", "code"),
    [
        ("chase 26-0003 --sent", 3),
        ("chase --maker tessaly --sent", 3),
        ("chase 26-0001 --maker halden", 2),
        ("chase", 2),
    ],
)
def test_nothing_is_noted_where_nothing_is_late_or_meant(shop, words, code):
    assert (on(LATE, *words.split(), shop=shop).code, due(shop)) == (code, [])


@pytest.mark.parametrize(("early", "left"), [((), ["26-0003"]), (("--early",), [])])
def test_what_silence_accepted_and_is_not_late_yet_is_asked_for_only_where_it_is_said(shop, early, left):
    told = on("2026-05-01", "chase", "--maker", "halden", *early, "--json", shop=shop).json
    assert [one["claim"] for one in told["not_late_yet"]] == left
    assert len(told["claims"]) == 3 - len(left)


def test_a_letter_about_one_claim_takes_nothing_in_early(shop):
    assert on(LATE, "chase", "26-0001", "--early", shop=shop).code == 2


@pytest.mark.parametrize("lines", ["", 'halden = "40 Foundry Lane"'], ids=["none", "known"])
def test_a_letter_without_the_makers_address_says_so(shop, lines):
    settings = shop / "shop.toml"
    settings.write_text(settings.read_text().replace("[maker_addresses]", f"[maker_addresses]\n{lines}"))
    assert ("no address" in on(LATE, "chase", "--maker", "halden", "--text", shop=shop).err) is not bool(lines)


@pytest.mark.parametrize(("day", "code"), [("2026-01-03", 3), (LATE, 0)])
@pytest.mark.parametrize("as_json", [False, True])
def test_a_letter_to_a_maker_is_told_in_words_or_in_one_document(shop, day, code, as_json):
    ran = on(day, "chase", "--maker", "halden", *["--json"][:as_json], shop=shop)
    assert (ran.code, ran.out.startswith("{"), (shop / "halden-letter.pdf").exists()) == (code, as_json, code == 0)


def test_what_was_refused_of_a_claim_after_silence_is_contested_in_a_letter_of_its_own(tmp_path):
    shop = a_managed_shop(tmp_path)
    filed_in(shop, received="2026-01-02")
    took_place(shop, "26-0001", "answered", "2026-03-01", answer="refused")
    told = on(LATE, "chase", "--maker", "halden", "--json", shop=shop)
    assert (told.code, told.json["claims"], told.json["contested"]) == (3, [], ["26-0001"])


@pytest.mark.parametrize(("use", "contested"), [("professional", True), ("rental", False)])
def test_a_refusal_without_grounds_is_contested_unless_the_claim_asked_a_favour(tmp_path, use, contested):
    shop = a_managed_shop(tmp_path)
    # a rented unit is covered for 90 days alone
    filed_in(shop, received="2026-01-02", unit__use=use)
    on("2026-01-20", "answer", "26-0001", "refused", shop=shop)
    assert (on("2026-01-21", "chase", "26-0001", "--text", shop=shop).code == 0) == contested


def test_a_rest_refused_after_silence_of_a_claim_that_was_paid_is_contested_alone(tmp_path):
    shop = a_managed_shop(tmp_path)
    filed_in(shop, received="2026-01-02")
    took_place(shop, "26-0001", "answered", "2026-03-01", answer="part", amount="100.00")
    took_place(shop, "26-0001", "paid", "2026-03-05", amount="100.00")
    told = on(LATE, "chase", "--maker", "halden", "--json", shop=shop)
    assert (told.code, told.json["contested"]) == (3, ["26-0001"])


@pytest.mark.parametrize(("shop", "named"), [("ashby", False), ("hollis", True)])
def test_a_shop_of_the_book_whose_folder_is_not_known_is_named_as_one_without_letters(tmp_path, shop, named):
    place = two_shops(tmp_path) / shop
    said = on("2026-03-30", "chase", "--maker", "halden", "--text", "--all-shops", shop=place).err
    assert ("No letters of ashby:" in said) == named
    assert "No letters of hollis" not in said
