from __future__ import annotations

import datetime as dt
import json

import pytest
from running import NOW, Pipe, Terminal
from shop_builders import a_shop, happen

from claimpack.book.tables.entries import Wanted
from claimpack.commands.desk.desk import Desk
from claimpack.commands.desk.say import Say
from claimpack.commands.desk.world import World
from claimpack.commands.screen.listing import shortened, tell_claims


def listed(shop, wanted=None, *, as_json=False):
    """How many were shown and how many there are, and what was said."""
    world = World(stdin=Pipe(), stdout=Pipe(), stderr=Pipe(), environ={}, folder=shop, clock=NOW)
    counts = tell_claims(Say(world), Desk(world), wanted or Wanted(), json=as_json)
    return counts, world.stdout.getvalue()


@pytest.mark.parametrize(
    ("text", "shown"),
    [
        ("short", "short"),
        ("x" * 28, "x" * 28),
        ("x" * 29, "x" * 27 + "…"),
        ("two\nlines", "two lines"),
        ("a\tb", "a b"),
        ("\x1b[31mred", "[U+001B][31mred"),
        ("", ""),
    ],
    ids=["short", "just fits", "one too many", "line end", "tab", "escape", "nothing"],
)
def test_a_cell_is_one_harmless_line_cut_where_it_is_too_long(text, shown):
    assert shortened(text) == shown


def test_a_list_off_a_terminal_has_a_line_a_claim_under_its_titles(tmp_path):
    _, out = listed(a_shop(tmp_path, "26-0001", "26-0002"))
    assert [line.split()[0] for line in out.splitlines()] == ["Claim", "26-0002", "26-0001"]


def test_a_limit_shows_some_and_counts_all(tmp_path):
    shop = a_shop(tmp_path, "26-0001", "26-0002", "26-0003")
    assert [listed(shop, Wanted(limit=limit))[0] for limit in (2, 3, 4, None)] == [(2, 3), (3, 3), (3, 3), (3, 3)]


def test_no_claims_are_no_lines_and_an_empty_document(tmp_path):
    shop = a_shop(tmp_path)
    none = Wanted(text="zebra")
    assert (listed(shop, none), json.loads(listed(shop, none, as_json=True)[1])) == (
        ((0, 0), ""),
        {"format": 1, "claims": [], "count": 0},
    )


def test_scripts_read_days_and_money_as_text(tmp_path):
    shop = a_shop(tmp_path)
    happen(shop, "26-0001", "filed", claimed="1204.50", currency="USD")
    row = json.loads(listed(shop, as_json=True)[1])["claims"][0]
    assert (row["filed"], row["claimed"], row["refused_for_form"]) == ("2026-03-01", "1204.50", False)
    assert (row["paid_on"], row["next"]) == (None, "wait for the answer")


def test_what_steers_a_terminal_is_shown_not_obeyed(tmp_path):
    _, out = listed(a_shop(tmp_path, owner__name="a\N{RIGHT-TO-LEFT OVERRIDE}b"))
    assert "a[U+202E]b" in out


@pytest.mark.parametrize(("second", "amounts"), [("USD", ["1.00", "2.00"]), ("CAD", ["1.00 USD", "2.00 CAD"])])
def test_a_currency_is_told_once_where_all_amounts_are_in_it(tmp_path, second, amounts):
    shop = a_shop(tmp_path, "26-0001", "26-0002")
    happen(shop, "26-0001", "filed", claimed="1.00", currency="USD")
    happen(shop, "26-0002", "filed", claimed="2.00", currency=second)
    head, *rows = listed(shop)[1].splitlines()
    assert (" Claimed USD " in head, any("USD" in row for row in rows)) == (second == "USD", second != "USD")
    assert all(f"  {amount}  " in row for amount, row in zip(reversed(amounts), rows, strict=True))


def test_where_a_claim_is_too_long_for_two_lines_nothing_of_owner_and_money_is_cut(tmp_path, monkeypatch):
    monkeypatch.setenv("COLUMNS", "80")
    shop = a_shop(
        tmp_path, owner__name="Copperbeech Fleet Wash", unit__serials=[{"role": "unit", "value": "PW240-2-01190"}]
    )
    happen(shop, "26-0001", "filed", claimed="725.56", currency="USD")
    out = Terminal()
    world = World(stdout=out, stderr=Pipe(), environ={"NO_COLOR": "1"}, folder=shop, clock=NOW)
    tell_claims(Say(world), Desk(world), Wanted(), json=False)
    assert [line.strip() for line in out.getvalue().splitlines()[3:]] == [
        "PW240-2-01190 · Copperbeech Fleet Wash",
        "725.56 outstanding → wait for the answer",
    ]


@pytest.mark.parametrize("columns", [60, 80, 120, 200])
def test_a_model_is_never_cut_and_every_line_fits_the_screen(tmp_path, monkeypatch, columns):
    monkeypatch.setenv("COLUMNS", str(columns))
    shop = a_shop(
        tmp_path, unit__model="CS-70 Professional Wet Cut Edition", failure__component="recoil starter pulley"
    )
    out = Terminal()
    world = World(stdout=out, stderr=Pipe(), environ={"NO_COLOR": "1"}, folder=shop, clock=NOW)
    tell_claims(Say(world), Desk(world), Wanted(), json=False)
    lines = out.getvalue().splitlines()
    assert (lines[0].split()[0], "Halden CS-70 Professional Wet Cut Edition" in out.getvalue()) == ("Claim", True)
    assert max(map(len, lines)) <= columns


@pytest.mark.parametrize("text", ['id = "own"\nname = "x"\nanswer_within = "soon"\n', "id = own", None])
def test_a_claim_is_listed_whatever_its_terms_are_worth(tmp_path, text):
    shop = a_shop(tmp_path, terms="own")
    if text is not None:
        (shop / "terms" / "own.toml").write_text(text)
    happen(shop, "26-0001", "filed", claimed="150.00", currency="USD")
    (row,) = json.loads(listed(shop, as_json=True)[1])["claims"]
    assert (row["number"], row["terms_unread"], "26-0001" in listed(shop)[1]) == ("26-0001", "own", True)


def on_a_screen(shop, monkeypatch, columns):
    """The lines of a list on a terminal so wide."""
    monkeypatch.setenv("COLUMNS", str(columns))
    out = Terminal()
    world = World(stdout=out, stderr=Pipe(), environ={"NO_COLOR": "1"}, folder=shop, clock=NOW)
    tell_claims(Say(world), Desk(world), Wanted(), json=False)
    return out.getvalue().splitlines()


def test_a_list_that_just_fits_has_a_line_a_claim_and_two_where_a_column_is_lacking(tmp_path, monkeypatch):
    shop = a_shop(tmp_path)
    happen(shop, "26-0001", "filed", claimed="150.00", currency="USD")
    whole = on_a_screen(shop, monkeypatch, 300)
    widest = max(map(len, whole))
    assert [len(on_a_screen(shop, monkeypatch, columns)) for columns in (widest, widest - 1)] == [2, 4]
    assert on_a_screen(shop, monkeypatch, widest) == whole


def test_amounts_stand_under_each_other(tmp_path, monkeypatch):
    shop = a_shop(tmp_path, "26-0001", "26-0002")
    happen(shop, "26-0001", "filed", claimed="1150.00", currency="USD")
    happen(shop, "26-0002", "filed", claimed="2.00", currency="USD")
    for columns in (300, 100):
        told = "\n".join(on_a_screen(shop, monkeypatch, columns))
        ends = {told.splitlines()[at].index(amount) + len(amount) for at, amount in enumerate_rows(told)}
        assert len(ends) == 1


def enumerate_rows(told):
    """The lines that claims begin in, with the amount claimed of each."""
    lines = told.splitlines()
    amounts = {"26-0001": "1,150.00", "26-0002": "2.00"}
    return [(at, amounts[line[:7]]) for at, line in enumerate(lines) if line[:7] in amounts]


@pytest.mark.parametrize(
    ("owner", "serial", "filed", "second"),
    [
        ("A. Customer", "HC70-1", False, "HC70-1 · A. Customer → "),
        ("", "HC70-1", False, "HC70-1 → "),
        ("", None, False, "→ "),
        ("A. Customer", "HC70-1", True, "HC70-1 · A. Customer · 150.00 outstanding → "),
        ("", None, True, "150.00 outstanding → "),
    ],
)
def test_the_second_line_of_a_claim_tells_what_there_is(tmp_path, monkeypatch, owner, serial, filed, second):
    serials = [{"role": "unit", "value": serial}] if serial else []
    shop = a_shop(tmp_path, owner__name=owner, unit__serials=serials, dates__repaired=None)
    if filed:
        happen(shop, "26-0001", "filed", claimed="150.00", currency="USD")
    # it begins under the second column
    assert on_a_screen(shop, monkeypatch, 80)[3].startswith(" " * len("26-0001  ") + second)


@pytest.mark.parametrize(
    ("states", "numbers"),
    [
        (("filed",), ["26-0001"]),
        (("refused",), ["26-0002"]),
        (("filed", "refused"), ["26-0002", "26-0001"]),
        ((), ["26-0002", "26-0001"]),
    ],
)
def test_the_claims_of_a_state_are_those_that_stand_so(tmp_path, states, numbers):
    shop = a_shop(tmp_path, "26-0001", "26-0002")
    for number in ("26-0001", "26-0002"):
        happen(shop, number, "filed", claimed="150.00", currency="USD")
    happen(shop, "26-0002", "answered", answer="refused")
    told = json.loads(listed(shop, Wanted(states=states), as_json=True)[1])
    assert ([row["number"] for row in told["claims"]], told["count"]) == (numbers, len(numbers))


def test_a_claim_whose_day_to_file_is_past_says_so_in_colour(tmp_path, monkeypatch):
    monkeypatch.setenv("COLUMNS", "300")
    shop = a_shop(tmp_path, plan="halden-2025")
    shown = {}
    for days in (1, 300):
        out = Terminal()
        world = World(stdout=out, stderr=Pipe(), environ={}, folder=shop, clock=NOW + dt.timedelta(days=days))
        tell_claims(Say(world), Desk(world), Wanted(), json=False)
        shown[days] = "\x1b[1;31m" in out.getvalue()
    assert shown == {1: False, 300: True}


def test_component_and_model_stand_in_the_first_line_as_long_as_they_fit_it_to_the_last_mark(tmp_path, monkeypatch):
    component = "recoil starter pulley"
    shop = a_shop(tmp_path, unit__model="CS-70 Wet Cut", failure__component=component)
    happen(shop, "26-0001", "filed", claimed="150.00", currency="USD")
    whole = len(on_a_screen(shop, monkeypatch, 110)[0])
    shortest, without = whole - len(component) + 12, whole - len(component) - 2
    for columns, has in {shortest: (True, True), shortest - 1: (False, True), without - 1: (False, False)}.items():
        head, _, first, *_ = on_a_screen(shop, monkeypatch, columns)
        assert ("Component" in head, "Wet Cut" in first) == has
    assert "Wet Cut" in on_a_screen(shop, monkeypatch, without)[2]


def test_whose_a_claim_is_and_what_is_next_share_a_line_that_just_fits(tmp_path, monkeypatch):
    shop = a_shop(tmp_path, owner__name="Copperbeech Fleet Wash, Ashby")
    happen(shop, "26-0001", "filed", claimed="150.00", currency="USD")
    fits = len(on_a_screen(shop, monkeypatch, 110)[3])
    assert [len(on_a_screen(shop, monkeypatch, columns)) for columns in (fits, fits - 1)] == [4, 5]


@pytest.mark.parametrize("columns", [48, 90])
def test_the_currency_of_all_amounts_stands_over_them_or_beside_the_titles(tmp_path, monkeypatch, columns):
    shop = a_shop(tmp_path)
    happen(shop, "26-0001", "filed", claimed="150.00", currency="USD")
    head, titles, *_ = on_a_screen(shop, monkeypatch, columns)
    assert (titles.partition("Next")[2].strip(), len(titles)) == ("USD", max(len(head), titles.index("Next") + 9))
