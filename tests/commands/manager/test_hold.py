import io

import pytest
import zxingcpp
from made_once import made_once
from manager_shop import PART, a_managed_shop, filed_in, on, took_place
from PIL import Image
from printed import page_texts

COIL = {"part": "ignition coil", "number": "70-22", "shelf": "A1"}


@pytest.fixture
def shop(tmp_path):
    return the_shop(tmp_path)


@made_once
def the_shop(place):
    shop = a_managed_shop(place)
    filed_in(shop, "26-0001", held=[PART, COIL])
    filed_in(shop, "26-0002", "2026-03-01", owner__name="Marrow Lane Paving")
    return shop


def codes(shop, *arguments, day="2026-03-20"):
    return [part["code"] for part in on(day, "hold", *arguments, "--json", shop=shop).json["parts"]]


def test_every_part_in_the_shop_is_listed_by_shelf(shop):
    assert codes(shop, "list") == ["26-0001/2", "26-0001/1", "26-0002/1"]


def test_what_to_do_first_stands_on_top(shop):
    took_place(shop, "26-0002", "part called back", "2026-03-10", part="1", send_by="2026-03-30")
    assert codes(shop, "list", day="2026-04-03") == ["26-0002/1", "26-0001/2", "26-0001/1"]


def test_the_list_is_narrowed_by_shelf_and_state(shop):
    took_place(shop, "26-0002", "part called back", "2026-03-10", part="1")
    assert (codes(shop, "list", "--shelf", "b3"), codes(shop, "list", "--state", "called back")) == (
        ["26-0002/1", "26-0001/1"],
        ["26-0002/1"],
    )


@pytest.mark.parametrize(("day", "found"), [("2026-04-02", []), ("2026-04-03", ["26-0001/2", "26-0001/1"])])
def test_what_may_go_is_listed_from_the_day_after_its_hold(shop, day, found):
    took_place(shop, "26-0001", "paid", "2026-02-02", amount="150.00")
    assert codes(shop, "list", "--may-go", day=day) == found


def test_a_part_better_kept_is_not_listed_among_those_that_may_go(shop):
    assert codes(shop, "list", "--may-go", day="2026-04-03") == []


def test_the_shelf_list_says_which_parts_are_better_kept(shop):
    took_place(shop, "26-0001", "paid", "2026-02-02", amount="150.00")
    on("2026-06-03", "hold", "sheet", "--out", "list.pdf", shop=shop)
    said = page_texts(shop / "list.pdf")[0]
    assert said.index("may go") < said.index("26-0002/1") < said.index("better kept")


def test_scripts_learn_where_a_part_is_and_until_when(shop):
    part = on("2026-03-20", "hold", "list", "--json", shop=shop).json["parts"][0]
    told = ("claim", "index", "part", "number", "shelf", "state", "keep_until", "may_go", "rule")
    assert [part[key] for key in told] == [
        "26-0001", 2, "ignition coil", "70-22", "A1", "held", "2026-04-02", False, None,
    ]  # fmt: skip


def test_a_state_that_is_none_is_refused(shop):
    assert on("2026-03-20", "hold", "list", "--state", "lost", shop=shop).code == 2


@pytest.mark.parametrize(
    ("said", "found"),
    [
        ("26-0001/2", ["26-0001/2"]),
        ("coil", ["26-0001/2"]),
        ("marrow", ["26-0002/1"]),
        ("26-0002", ["26-0002/1"]),
        ("26-0009/1", []),
    ],
)
def test_a_part_is_found_by_its_code_or_by_words(shop, said, found):
    assert codes(shop, "find", said) == found


def test_a_part_that_left_is_found_with_its_state(shop):
    took_place(shop, "26-0002", "part called back", "2026-03-10", part="1")
    took_place(shop, "26-0002", "part sent", "2026-03-12", part="1")
    assert "sent" in on("2026-03-20", "hold", "find", "26-0002", shop=shop).out


def test_the_tag_printed_again_carries_the_code(shop):
    ran = on("2026-03-20", "hold", "tag", "26-0001/2", "--png", shop=shop)
    picture = Image.open(io.BytesIO((shop / "26-0001-2-tag.png").read_bytes()))
    assert (ran.code, {found.text for found in zxingcpp.read_barcodes(picture)}) == (0, {"26-0001/2"})


def test_the_tag_shows_its_cautions(shop):
    ran = on("2026-03-20", "hold", "tag", "26-0001/1", shop=shop)
    assert ("Fire hazard" in ran.err, (shop / "26-0001-1-tag.pdf").is_file()) == (True, True)


def test_a_number_that_means_several_parts_is_refused_with_their_codes(shop):
    ran = on("2026-03-20", "hold", "tag", "26-0001", shop=shop)
    assert (ran.code, "26-0001/2 ignition coil" in ran.err) == (2, True)


@pytest.mark.parametrize("code", ["26-0001/3", "26-0009/1", "nonsense!", "26-0001/0"])
def test_a_code_of_no_part_is_refused(shop, code):
    assert on("2026-03-20", "hold", "tag", code, shop=shop).code == 2


def test_the_shelf_list_has_every_part_under_its_shelf(shop):
    ran = on("2026-03-20", "hold", "sheet", "--out", "list.pdf", shop=shop)
    said = page_texts(shop / "list.pdf")[0]
    assert ran.code == 0
    assert said.index("Shelf A1") < said.index("26-0001/2") < said.index("Shelf B3") < said.index("26-0002/1")


def test_one_shelf_alone_can_be_printed(shop):
    assert on("2026-03-20", "hold", "sheet", "A1", "--json", shop=shop).json["parts"] == 1


@pytest.mark.parametrize(("terminal", "width"), [(False, 100), (True, 80)])
def test_no_line_is_wider_than_the_page(shop, terminal, width):
    ran = on("2026-04-03", "hold", "list", shop=shop, terminal=terminal, environ={"NO_COLOR": "1"})
    assert max(map(len, ran.out.split("\n"))) <= width


def test_a_part_of_an_unpaid_claim_is_better_kept_than_scrapped_when_its_hold_ran_out(tmp_path):
    shop = a_managed_shop(tmp_path)
    filed_in(shop)
    ran = on("2026-04-03", "hold", "list", shop=shop)
    assert ("0 may be scrapped" in ran.out, "better kept" in ran.out) == (True, True)


def test_a_shop_that_holds_nothing_is_told_how_to_keep_a_part(tmp_path):
    ran = on("2026-03-20", "hold", "list", shop=a_managed_shop(tmp_path))
    assert (ran.code, ran.out, "claimpack part hold CLAIM PART" in ran.err) == (0, "", True)


def test_a_shop_that_let_everything_go_is_told_how_to_see_it(tmp_path):
    shop = a_managed_shop(tmp_path)
    filed_in(shop, "26-0001", held=[PART])
    for what in ("part released", "part scrapped"):
        took_place(shop, "26-0001", what, "2026-03-10", part="1")
    assert "claimpack hold list --state all" in on("2026-03-20", "hold", "list", shop=shop).err


def test_parts_of_another_shelf_are_not_said_to_be_none(shop):
    assert on("2026-03-20", "hold", "list", "--shelf", "Z9", shop=shop).err == "No held part matches.\n"
    assert on("2026-03-20", "hold", "list", "--may-go", shop=shop).err == "No held part matches.\n"


def test_the_list_gives_way_on_a_narrow_terminal(shop, monkeypatch):
    monkeypatch.setenv("COLUMNS", "60")
    filed_in(shop, "26-0003-KLM-001", held=[{"part": "carburetor with its linkage", "shelf": "steel box 12"}])
    took_place(shop, "26-0003-KLM-001", "part called back", "2026-03-10", part="1")
    ran = on("2026-04-03", "hold", "list", shop=shop, terminal=True, environ={"NO_COLOR": "1"})
    assert (max(map(len, ran.out.split("\n"))) <= 60, "26-0003-KLM-001/1" in ran.out) == (True, True)


@pytest.mark.parametrize(
    ("options", "file"),
    [((), "26-0001-1-tag.pdf"), (("--png",), "26-0001-1-tag.png"), (("--out", "tag.png"), "tag.png")],
)
def test_a_tag_is_a_picture_where_that_or_its_name_says_so(shop, options, file):
    ran = on("2026-03-20", "hold", "tag", "26-0001/1", *options, shop=shop)
    begins = b"\x89PNG" if file.endswith("png") else b"%PDF"
    assert (ran.out, (shop / file).read_bytes()[:4]) == (f"{file}\n", begins)


def test_a_picture_of_a_tag_has_the_dots_of_its_printer(shop):
    widths = []
    for dpi in (203, 406):
        on("2026-03-20", "hold", "tag", "26-0001/1", "--out", "tag.png", "--dpi", dpi, shop=shop)
        widths.append(Image.open(shop / "tag.png").width)
    assert widths[1] == 2 * widths[0]


@pytest.mark.parametrize("command", [("tag", "26-0001/1"), ("sheet",)])
def test_scripts_read_which_file_was_written(shop, command):
    ran = on("2026-03-20", "hold", *command, "--out", "some.pdf", "--json", shop=shop)
    assert ran.json["file"] == str(shop / "some.pdf")


@pytest.mark.parametrize(("said", "found"), [("22", ["26-0001/2"]), ("intake/exhaust", []), ("26-0001/3", [])])
def test_only_a_number_behind_a_slash_makes_a_code(shop, said, found):
    assert codes(shop, "find", said) == found


def test_the_list_counts_what_is_to_be_sent_and_what_may_be_scrapped(shop):
    took_place(shop, "26-0001", "paid", "2026-02-02", amount="150.00")
    took_place(shop, "26-0002", "part called back", "2026-03-10", part="1", send_by="2026-05-30")
    told = on("2026-04-03", "hold", "list", shop=shop).out
    assert told.startswith("3 parts: 1 to send, 2 may be scrapped\n")
    assert told.count("2025-12-01") == 2


def test_the_shelf_list_has_the_last_day_of_a_part_or_the_day_to_send_it_by(shop):
    took_place(shop, "26-0002", "part called back", "2026-03-10", part="1", send_by="2026-05-30")
    on("2026-03-20", "hold", "sheet", "--out", "list.pdf", shop=shop)
    said = page_texts(shop / "list.pdf")[0]
    assert ("2026-05-30" in said, said.count("2026-04-02")) == (True, 2)


def test_the_list_names_the_shelf_of_a_part_or_that_it_lies_on_none(shop):
    filed_in(shop, "26-0003", held=[{"part": "carburetor", "since": "2025-12-01"}])
    rows = [line.split() for line in on("2026-03-20", "hold", "list", shop=shop).out.splitlines()]
    shelves = {row[0]: row[1] for row in rows if row and "/" in row[0]}
    assert shelves == {"26-0001/1": "B3", "26-0001/2": "A1", "26-0002/1": "B3", "26-0003/1": "nowhere"}
