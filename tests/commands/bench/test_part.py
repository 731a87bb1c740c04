from __future__ import annotations

import io
from decimal import Decimal

import pypdf
import pytest
from running import claimpack
from screen_columns import ending_under
from shop_builders import a_shop, happen, kept_claim


@pytest.fixture
def shop(tmp_path):
    return a_shop(tmp_path)


def part(shop, *arguments, **options):
    return claimpack("part", *arguments, folder=shop, **options)


def test_a_part_is_added_with_its_cost(shop):
    ran = part(shop, "add", "26-0001", "H70-4410", "Short block", "--cost", "212.50")
    assert ran.out == "26-0001: Short block (H70-4410), 1 x 212.50 USD, maker pays\n"


def test_everything_said_of_a_part_is_kept(shop):
    options = ("--quantity", "2.5", "--cost", "0.125", "--source", "maker", "--payer", "shop")
    part(shop, "add", "26-0001", "H-1", "Fuel line", *options)
    kept = kept_claim(shop).parts[0]
    assert (kept.quantity, kept.unit_cost, kept.source, kept.payer) == (
        Decimal("2.5"),
        Decimal("0.125"),
        "maker",
        "shop",
    )


def test_a_part_without_a_cost_is_pointed_out(shop):
    assert "--cost AMOUNT" in part(shop, "add", "26-0001", "H-1", "Gasket").err


def test_a_part_the_maker_sent_needs_no_cost(shop):
    assert part(shop, "add", "26-0001", "H-1", "Gasket", "--source", "maker").err == ""


@pytest.mark.parametrize("option", [("--cost", "-1"), ("--cost", "12,50"), ("--quantity", "0"), ("--quantity", "1e99")])
def test_an_amount_that_is_none_is_refused(shop, option):
    ran = part(shop, "add", "26-0001", "H-1", "Gasket", *option)
    assert (ran.code, f"{option[0]}: '{option[1]}'" in ran.err, kept_claim(shop).parts) == (2, True, ())


def test_parts_are_listed_with_those_that_are_held(shop):
    part(shop, "add", "26-0001", "H-1", "Gasket", "--cost", "3.20")
    part(shop, "hold", "26-0001", "short block", "--shelf", "B3", "--drained", "--boxed")
    listed = part(shop, "list", "26-0001", "--json").json
    held = listed["held"][0]
    assert (listed["parts"][0]["unit_cost"], held["code"], held["shelf"], held["drained"]) == (
        *("3.20", "26-0001/1"),
        *("B3", True),
    )


def test_the_list_reads_in_columns(shop):
    part(shop, "add", "26-0001", "H-1", "Gasket", "--cost", "3.20")
    part(shop, "hold", "26-0001", "short block", "--not-drained")
    lines = part(shop, "list", "26-0001").out.splitlines()
    assert [" ".join(line.split()) for line in lines] == [
        *("Number Part Count Each Pays", "1 H-1 Gasket 1 3.20 maker"),
        *("", "Held for the maker", "Part Shelf Since Fuel and oil", "1 short block no shelf 2026-03-01 NOT drained"),
    ]


def test_counts_and_prices_of_parts_stand_under_each_other(tmp_path):
    parts = [{"number": f"H-{n}", "name": "Seal", "quantity": f"{n}", "unit_cost": "3.20"} for n in range(1, 10)]
    last = {"number": "H-10", "name": "Block", "quantity": "10", "unit_cost": "1318.40"}
    told = part(a_shop(tmp_path, parts=[*parts, last]), "list", "26-0001").out
    assert ending_under(told, "Count") == [f"{count}" for count in range(1, 11)]
    assert ending_under(told, "Each") == [*["3.20"] * 9, "1,318.40"]
    assert [line[:2] for line in told.splitlines()[1:]] == [f"{place:>2}" for place in range(1, 11)]


@pytest.mark.parametrize("columns", [60, 80])
def test_no_line_of_the_list_is_wider_than_the_terminal(shop, monkeypatch, columns):
    monkeypatch.setenv("COLUMNS", str(columns))
    part(shop, "add", "26-0001", "OV-4410-2231-B", "Carburettor with gasket, spacer and linkage", "--source", "maker")
    part(
        shop, "hold", "26-0001", "carburettor with intake manifold", "--number", "OV-4410-2231", "--boxed", "--drained"
    )
    out = part(shop, "list", "26-0001", terminal=True, environ={"NO_COLOR": "1"}).out
    assert (max(map(len, out.splitlines())) <= columns, out.count("drained")) == (True, 1)


def test_a_part_is_taken_off(shop):
    part(shop, "add", "26-0001", "H-1", "Gasket")
    part(shop, "add", "26-0001", "H-2", "Kit")
    part(shop, "remove", "26-0001", "1")
    assert [each.name for each in kept_claim(shop).parts] == ["Kit"]


def test_a_held_part_is_kept_since_today(shop):
    part(shop, "hold", "26-0001", "short block")
    kept = kept_claim(shop).held[0]
    assert (str(kept.since), kept.drained, kept.boxed) == ("2026-03-01", None, False)


def test_a_held_part_may_be_kept_since_another_day(shop):
    part(shop, "hold", "26-0001", "short block", "--since", "2026-02-24")
    assert str(kept_claim(shop).held[0].since) == "2026-02-24"


def test_a_held_part_tells_its_dangers_and_how_to_print_its_tag(shop):
    ran = part(shop, "hold", "26-0001", "short block")
    assert ("drain fuel and oil" in ran.out, "claimpack tag 26-0001 --part 1" in ran.err) == (True, True)


def test_the_tag_that_is_named_can_be_printed(shop):
    part(shop, "hold", "26-0001", "short block", "--shelf", "B3")
    claimpack("tag", "26-0001", "--part", "1", folder=shop)
    text = pypdf.PdfReader(io.BytesIO((shop / "26-0001-tag.pdf").read_bytes())).pages[0].extract_text()
    assert ("short block" in text, "B3" in text) == (True, True)


def test_a_day_that_is_none_is_refused(shop):
    ran = part(shop, "hold", "26-0001", "short block", "--since", "lately")
    assert (ran.code, kept_claim(shop).held) == (2, ())


@pytest.mark.parametrize(("since", "code"), [("2026-03-01", 0), ("2026-03-02", 2)])
def test_a_part_is_not_held_since_a_day_still_to_come(shop, since, code):
    assert part(shop, "hold", "26-0001", "coil", "--since", since, "--today", "2026-03-01").code == code


def test_a_part_that_is_held_already_is_not_held_again(shop):
    part(shop, "hold", "26-0001", "piston", "--number", "H70-22")
    ran = part(shop, "hold", "26-0001", "piston", "--number", "H70-22")
    assert (ran.code, "26-0001/1 piston (number H70-22) is already held" in ran.err) == (2, True)
    assert len(kept_claim(shop).held) == 1


def test_a_further_part_like_one_that_is_held_is_held_on_request(shop):
    part(shop, "hold", "26-0001", "piston", "--number", "H70-22")
    ran = part(shop, "hold", "26-0001", "piston", "--number", "H70-22", "--another")
    assert (ran.code, ran.out.startswith("26-0001/2: piston held"), len(kept_claim(shop).held)) == (0, True, 2)


@pytest.mark.parametrize(
    "command",
    [
        ("part", "add", "26-0001", "H-1", "Gasket", "--cost", "2"),
        ("part", "hold", "26-0001", "short block"),
        ("finding", "add", "26-0001", "compression", "42", "psi"),
        ("labour", "add", "26-0001", "short-block-replace", "--hours", "1", "--technician", "ben"),
    ],
)
def test_bench_work_on_a_filed_claim_is_a_new_version_that_is_told(shop, command):
    happen(shop, "26-0001", "filed", claimed="10.00", currency="USD")
    assert claimpack(*command, folder=shop).err.count("26-0001 is filed: this is a new version") == 1


def test_bench_work_on_a_draft_says_nothing_of_versions(shop):
    assert "version" not in part(shop, "add", "26-0001", "H-1", "Gasket").err


def test_a_part_number_that_is_on_the_claim_already_is_told(shop):
    part(shop, "add", "26-0001", "H-1", "Gasket", "--cost", "2")
    told = part(shop, "add", "26-0001", "h-1", "Gasket", "--cost", "2").err
    assert "h-1 is already on the claim, as part 1; it was added as part 2." in told


@pytest.fixture
def with_list(shop):
    """The shop with a parts list of its claim's maker."""
    (shop / "parts").mkdir()
    (shop / "parts" / f"{kept_claim(shop).maker}.csv").write_text("number,name,cost\n70-1,Ignition coil,38.15\n")
    return shop


def test_the_parts_list_fills_in_name_and_cost(with_list):
    assert part(with_list, "add", "26-0001", "70-1").code == 0
    used = kept_claim(with_list).parts[-1]
    assert (used.name, str(used.unit_cost)) == ("Ignition coil", "38.15")


def test_what_differs_from_the_parts_list_is_told_and_the_claim_keeps_its_own(with_list):
    ran = part(with_list, "add", "26-0001", "70-1", "--cost", "40.00")
    assert ("at 38.15 (parts/" in ran.err, str(kept_claim(with_list).parts[-1].unit_cost)) == (True, "40.00")


def test_a_part_that_no_list_has_needs_a_name(with_list):
    ran = part(with_list, "add", "26-0001", "70-2")
    assert (ran.code, "NAME is missing" in ran.err) == (2, True)


def test_list_price_and_core_are_written_down(shop):
    given = ("--list-price", "183.00", "--core", "45.00", "--core-returned", "2026-02-26", "--today", "2026-03-01")
    part(shop, "add", "26-0001", "70-1180", "short block", "--cost", "120", *given)
    used = kept_claim(shop).parts[-1]
    assert (str(used.list_price), str(used.core), str(used.core_returned)) == ("183.00", "45.00", "2026-02-26")


def test_a_core_returned_on_a_day_to_come_is_refused(shop):
    given = ("--core", "45.00", "--core-returned", "2026-03-02", "--today", "2026-03-01")
    assert part(shop, "add", "26-0001", "70-1180", "short block", *given).code == 2


@pytest.mark.parametrize("has", [(), ("add",), ("hold",), ("add", "hold")])
def test_a_list_says_how_to_begin_where_no_part_is_used_or_held(tmp_path, has):
    shop = a_shop(tmp_path, parts=[], held=[])
    for what in has:
        part(shop, what, "26-0001", *(("H-1", "Gasket") if what == "add" else ("Gasket",)))
    told = part(shop, "list", "26-0001")
    assert ("part add 26-0001" in told.err, "Held for the maker" in told.out) == (not has, "hold" in has)


def test_places_of_held_parts_stand_under_each_other(tmp_path):
    shop = a_shop(tmp_path, held=[{"part": f"seal {n}", "since": "2026-02-24"} for n in range(1, 11)])
    told = part(shop, "list", "26-0001").out.partition("Held for the maker")[2]
    assert [line[:2] for line in told.splitlines()[2:]] == [f"{place:>2}" for place in range(1, 11)]


def test_a_price_of_a_claim_without_a_plan_is_in_its_own_currency(tmp_path):
    shop = a_shop(tmp_path, maker="Nobody", plan=None, currency="CAD")
    assert "1 x 2.00 CAD" in part(shop, "add", "26-0001", "H-1", "Gasket", "--cost", "2").out
