import pytest
from claim_folders import CLAIM, a_folder
from running import NOW, claimpack
from shop_builders import a_shop, kept_claim

from claimpack.commands.desk.world import World
from claimpack.commands.typed.as_written import AMOUNT, DAY, as_meant, options_as_meant
from claimpack.errors import BadInput
from claimpack.template_files import shipped


@pytest.fixture(scope="module")
def shop(tmp_path_factory):
    shop = a_shop(tmp_path_factory.mktemp("written"))
    settings = shop / "shop.toml"
    settings.write_text(f'dates = "month-first"\ncurrency = "USD"\n{settings.read_text()}'.replace("format = 1\n", ""))
    return shop


def test_a_day_among_the_options_is_read_and_told(shop):
    ran = claimpack("part", "hold", "26-0001", "coil", "--since", "2/20/2026", folder=shop)
    assert ("--since: 2/20/2026 is 2026-02-20" in ran.err, str(kept_claim(shop).held[-1].since)) == (True, "2026-02-20")


def test_a_day_without_a_year_is_the_last_before_the_day_it_is_said_to_be(shop):
    ran = claimpack(
        "cover",
        "--maker",
        "Halden",
        "--model",
        "CS-70",
        "--component",
        "coil",
        "--purchased",
        "1 Feb",
        "--today",
        "3/10/2025",
        folder=shop,
    )
    assert "--purchased: 1 Feb is 2025-02-01" in ran.err


def test_an_amount_among_the_options_is_read_and_told(shop):
    ran = claimpack("part", "add", "26-0001", "70-1", "Coil", "--cost", "$1,200.50", folder=shop)
    assert ("--cost: $1,200.50 is 1200.50" in ran.err, str(kept_claim(shop).parts[-1].unit_cost)) == (True, "1200.50")


def test_what_reads_two_ways_is_refused_by_name(shop):
    ran = claimpack("part", "add", "26-0001", "70-1", "Coil", "--cost", "12,50", folder=shop)
    assert (ran.code, "--cost: '12,50'" in ran.err) == (2, True)


def test_set_reads_days_too(shop):
    ran = claimpack("set", "26-0001", "dates.failed", "1 Feb", folder=shop)
    assert (ran.code, str(kept_claim(shop).dates.failed)) == (0, "2026-02-01")


def test_where_the_shop_names_no_currency_that_of_the_claim_is_meant(tmp_path):
    shop = a_shop(tmp_path, currency="USD")
    settings = shop / "shop.toml"
    settings.write_text("\n".join(line for line in settings.read_text().split("\n") if "currency" not in line))
    ran = claimpack("part", "add", "26-0001", "70-1", "Coil", "--cost", "$1,200.50", folder=shop)
    assert (ran.code, str(kept_claim(shop).parts[-1].unit_cost)) == (0, "1200.50")


@pytest.fixture(scope="module")
def abroad(tmp_path_factory):
    """A shop of dollars with a claim under a plan that pays in euros."""
    shop = a_shop(tmp_path_factory.mktemp("abroad"), currency="USD")
    plan = (shipped("coverage") / "halden-2025.toml").read_text()
    (shop / "coverage").mkdir(exist_ok=True)
    (shop / "coverage" / "halden-2025.toml").write_text(plan.replace('currency = "USD"', 'currency = "EUR"'))
    claimpack("set", "26-0001", "currency", "EUR", folder=shop)
    return shop


def test_an_amount_of_a_claim_is_read_in_the_claim_s_currency_and_not_the_shop_s(abroad):
    ran = claimpack("set", "26-0001", "approval.up_to", "€1.200,50", folder=abroad)
    assert (ran.code, str(kept_claim(abroad).approval.up_to)) == (0, "1200.50")


def test_an_amount_in_the_shop_s_currency_is_refused_of_a_claim_in_another(abroad):
    ran = claimpack("set", "26-0001", "approval.up_to", "$12", folder=abroad)
    assert (ran.code, "the claim's currency is EUR" in ran.err) == (2, True)


def test_finish_reads_a_cost_in_the_claim_s_currency(abroad):
    claimpack("finish", "26-0001", "--part", "70-7 =1.200,50 Ring", folder=abroad)
    assert str(kept_claim(abroad).parts[-1].unit_cost) == "1200.50"


def a_world(place, settings=""):
    (place / "shop.toml").write_text(settings)
    return World(folder=place, environ={}, clock=NOW)


@pytest.mark.parametrize(
    ("kind", "written"),
    [(DAY, ""), (DAY, "2026-02-01"), (AMOUNT, ""), (AMOUNT, "38"), (AMOUNT, "38.15"), (AMOUNT, "0.0475")],
)
def test_what_is_written_as_it_is_kept_is_taken_without_asking_the_shop(tmp_path, kind, written):
    assert as_meant(a_world(tmp_path, "not = "), kind, "--x", written) == written


@pytest.mark.parametrize(
    ("option", "day"), [("--on", "2025-04-04"), ("--again", "2026-04-04"), ("--send-by", "2026-04-04")]
)
def test_without_a_year_only_what_is_to_come_is_a_day_ahead(tmp_path, option, day):
    assert as_meant(a_world(tmp_path), DAY, option, "4 Apr") == day


@pytest.mark.parametrize(("own", "sign"), [('currency = "EUR"\n', "€"), ("", "$")])
def test_an_amount_of_a_claim_folder_is_in_its_own_currency_or_in_that_of_its_plan(tmp_path, own, sign):
    a_folder(tmp_path / "26-0001", own + CLAIM, shots=())
    world = a_world(tmp_path, 'currency = "GBP"')
    assert as_meant(world, AMOUNT, "key x", f"{sign}38.15", claim="26-0001") == "38.15"
    with pytest.raises(BadInput, match="the claim's currency is"):
        as_meant(world, AMOUNT, "key x", "£38.15", claim="26-0001")


def test_an_amount_of_a_claim_that_says_no_currency_is_in_the_shops(tmp_path):
    a_folder(
        tmp_path / "26-0001", CLAIM.replace('maker = "halden"\nplan = "halden-2025"', 'maker = "nobody"'), shots=()
    )
    assert as_meant(a_world(tmp_path, 'currency = "GBP"'), AMOUNT, "key x", "£38.15", claim="26-0001") == "38.15"


def test_days_among_the_options_are_counted_from_the_day_it_is_said_to_be(tmp_path):
    params = {"again": "4 Apr", "on": "1 Feb", "today": "10 Mar 2024", "claims": ["26-0001"], "why": None}
    kinds = {"again": (DAY, "--again"), "on": (DAY, "--on"), "today": (DAY, "--today"), "why": (DAY, "--why")}
    options_as_meant(a_world(tmp_path), params, kinds)
    read = {"again": "2024-04-04", "on": "2024-02-01", "today": "2024-03-10"}
    assert params == {**read, "claims": ["26-0001"], "why": None}
