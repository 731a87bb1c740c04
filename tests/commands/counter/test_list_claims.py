import io

import pytest
from made_once import made_once
from running import NOW, claimpack
from shop_builders import a_shop, happen

from claimpack.__main__ import run
from claimpack.commands.desk.world import World


@pytest.fixture
def shop(tmp_path):
    return the_shop(tmp_path)


@made_once
def the_shop(place):
    """Three claims: one open, one filed, one withdrawn."""
    shop = a_shop(place, "26-0001", "26-0002", "26-0003")
    happen(shop, "26-0002", "filed", claimed="159.70", currency="USD")
    happen(shop, "26-0003", "withdrawn")
    return shop


def numbers(shop, *arguments):
    return [claim["number"] for claim in claimpack("list", *arguments, "--json", folder=shop).json["claims"]]


def test_open_claims_are_listed_the_latest_first(shop):
    assert numbers(shop) == ["26-0002", "26-0001"]


@pytest.mark.parametrize(
    ("arguments", "expected"),
    [
        (["--all"], ["26-0003", "26-0002", "26-0001"]),
        (["--open"], ["26-0002", "26-0001"]),
        (["--state", "filed"], ["26-0002"]),
        (["--state", "filed", "--state", "withdrawn"], ["26-0003", "26-0002"]),
        (["--maker", "Halden"], ["26-0002", "26-0001"]),
        (["--maker", "orrin-vale"], []),
        (["--limit", "1"], ["26-0002"]),
    ],
)
def test_options_narrow_the_list(shop, arguments, expected):
    assert numbers(shop, *arguments) == expected


def test_a_line_says_how_many_there_are(shop):
    err = claimpack("list", "--limit", "1", folder=shop).err
    assert err.startswith("1 of 2 open claims, the latest first.")


def test_every_column_is_there(shop):
    head, filed, draft = claimpack("list", folder=shop).out.splitlines()
    assert head.split("  ")[0] == "Claim"
    assert ("  159.70  " in filed, "wait for the answer" in filed, "file by 2026-03-26" in draft) == (True,) * 3
    assert all(
        word in draft for word in ("draft", "2026-02-05", "Halden CS-70", "HC70-1", "short block", "A. Customer")
    )


def test_an_unknown_state_suggests_the_nearest(shop):
    ran = claimpack("list", "--state", "fild", folder=shop)
    assert (ran.code, "'filed'" in ran.err) == (2, True)


def test_states_are_read_with_a_hyphen_too(shop):
    assert claimpack("list", "--state", "written-off", folder=shop).code == 0


def test_one_way_to_choose_is_enough(shop):
    assert claimpack("list", "--all", "--state", "filed", folder=shop).code == 2


def test_an_empty_book_is_said_to_be(tmp_path):
    claimpack("shop", "init", "shop", folder=tmp_path)
    ran = claimpack("list", folder=tmp_path / "shop")
    assert (ran.code, ran.out, ran.err) == (0, "", "0 open claims.\n")


class NarrowTerminal(io.StringIO):
    encoding = "utf-8"

    def isatty(self):
        return True


def on_a_terminal(shop, monkeypatch, columns):
    monkeypatch.setenv("COLUMNS", str(columns))
    out = NarrowTerminal()
    run(["list"], World(stdout=out, stderr=io.StringIO(), environ={"NO_COLOR": "1"}, folder=shop, clock=NOW))
    return out.getvalue().splitlines()


def test_on_eighty_columns_a_claim_takes_two_lines(shop, monkeypatch):
    lines = on_a_terminal(shop, monkeypatch, 80)
    assert (len(lines), max(map(len, lines)) <= 80, "→ wait for the answer" in lines[3]) == (6, True, True)


@pytest.mark.parametrize("columns", [60, 80])
def test_an_amount_is_never_cut(tmp_path, monkeypatch, columns):
    labour = [{"operation": "short-block-replace", "hours": "1.6"}]
    shop = a_shop(tmp_path, maker="Halden", failure__component="carburettor and intake manifold", labour=labour)
    lines = on_a_terminal(shop, monkeypatch, columns)
    assert (lines[2].endswith("147.20"), max(map(len, lines)) <= columns) == (True, True)


def test_on_a_wide_terminal_a_claim_takes_one_line(shop, monkeypatch):
    assert len(on_a_terminal(shop, monkeypatch, 160)) == 3


def test_terms_in_force_say_whose_turn_it_is(tmp_path):
    shop = a_shop(tmp_path)
    (shop / "shop.toml").write_text('format = 1\nterms = "us-tx"\n')
    happen(shop, "26-0001", "filed", claimed="159.70", currency="USD", received="2026-01-02")
    assert "ask for payment" in claimpack("list", folder=shop).out


def test_a_maker_nobody_knows_is_refused_with_the_nearest(shop):
    ran = claimpack("list", "--maker", "Haldn", folder=shop)
    assert (ran.code, "Did you mean 'Halden'?" in ran.err) == (2, True)


def test_a_claim_paid_in_part_says_what_is_still_to_be_decided(shop):
    happen(shop, "26-0002", "answered", answer="part", amount="100.00")
    happen(shop, "26-0002", "paid", amount="100.00")
    row = claimpack("list", "--state", "paid", "--json", folder=shop).json["claims"][0]
    assert (row["next"], row["refused_rest"]) == ("contest or write off 59.70 USD", "59.70")


def test_a_rest_refused_after_silence_is_to_be_chased_under_the_terms_in_force(tmp_path):
    shop = a_shop(tmp_path)
    (shop / "shop.toml").write_text('format = 1\nterms = "us-tx"\n')
    happen(shop, "26-0001", "filed", claimed="159.70", currency="USD", received="2026-01-02")
    happen(shop, "26-0001", "answered", answer="part", amount="100.00")
    happen(shop, "26-0001", "paid", amount="100.00")
    assert "chase 59.70 USD: silence accepted it on 2026-02-16" in claimpack("list", folder=shop).out


@pytest.fixture
def part_paid(shop):
    happen(shop, "26-0002", "answered", answer="part", amount="100.00")
    happen(shop, "26-0002", "paid", amount="100.00")
    return shop


def listed(shop, *arguments):
    return [row["number"] for row in claimpack("list", *arguments, "--json", folder=shop).json["claims"]]


def test_a_claim_paid_in_part_is_still_open(part_paid):
    assert "26-0002" in listed(part_paid)


def test_a_rest_that_was_let_go_opens_no_claim(part_paid):
    claimpack("write-off", "26-0002", "--rest", "--because", "Not worth a letter.", folder=part_paid)
    assert "26-0002" not in listed(part_paid)


def test_states_asked_for_are_all_that_is_listed(part_paid):
    assert "26-0002" not in listed(part_paid, "--state", "draft")


@pytest.mark.parametrize(("today", "late"), [("2026-03-26", False), ("2026-03-27", True)])
def test_a_missed_day_to_file_has_the_colour_of_lateness(shop, today, late):
    out = claimpack("list", "--today", today, folder=shop, terminal=True).out
    assert ("file by 2026-03-26 (late)\x1b[0m" in out) is late


@pytest.mark.parametrize(
    ("arguments", "says"),
    [
        (("--limit", "1"), "1 of 2 open claims, the latest first. All: add --limit 0; settled ones too: add --all."),
        (("--all", "--limit", "1"), "1 of 3 claims, the latest first. All: add --limit 0."),
        (("--all", "--limit", "3"), "3 claims."),
        (("--state", "filed"), "1 filed claim."),
        (("--maker", "halden"), "2 open claims of halden."),
    ],
)
def test_below_a_list_stands_how_many_there_are_and_how_to_see_all(shop, arguments, says):
    assert claimpack("list", *arguments, folder=shop).err.strip() == says


@pytest.mark.parametrize("ways", [("--open", "--all"), ("--state", "filed", "--open"), ("--state", "filed", "--all")])
def test_claims_are_chosen_in_one_way(shop, ways):
    assert claimpack("list", *ways, folder=shop).code == 2


def test_a_list_for_scripts_says_nothing_beside_it(shop):
    assert claimpack("list", "--limit", "1", "--json", folder=shop).err == ""
