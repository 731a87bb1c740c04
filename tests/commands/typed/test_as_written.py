import pytest
from running import claimpack
from shop_builders import a_shop, kept_claim


@pytest.fixture(scope="module")
def shop(tmp_path_factory):
    shop = a_shop(tmp_path_factory.mktemp("written"))
    settings = shop / "shop.toml"
    settings.write_text(f'dates = "month-first"\ncurrency = "USD"\n{settings.read_text()}'.replace("format = 1\n", ""))
    return shop


def test_a_day_among_the_options_is_read_and_told(shop):
    ran = claimpack("part", "hold", "26-0001", "coil", "--since", "2/20/2026", folder=shop)
    assert ("--since: 2/20/2026 is 2026-02-20" in ran.err, str(kept_claim(shop).held[-1].since)) == (True, "2026-02-20")


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
