from __future__ import annotations

import pytest

from claimpack.errors import BadInput
from claimpack.tag.stock import stock_from


def refused(data):
    with pytest.raises(BadInput) as caught:
        stock_from(data, "mine.toml")
    return caught.value


def test_every_shipped_stock_prints_both_barcodes(stock):
    assert {"barcode", "qr"} <= {block.what for block in stock.block}


def test_an_unknown_key_suggests_the_nearest(stock_data):
    data = stock_data("label-4x6")
    data["block"][0]["widht"] = "3 pt"
    assert refused(data).what == "mine.toml: key block[1].widht is not known. Did you mean width?"


def test_an_unknown_word_suggests_the_nearest(stock_data):
    data = stock_data("label-4x6")
    data["words"]["bannner"] = data["words"].pop("banner")
    assert refused(data).problems == (
        "  key words.banner is missing",
        "  key words.bannner is not known. Did you mean banner?",
    )


def test_an_unknown_hazard_suggests_the_nearest(stock_data):
    data = stock_data("shipping-tag-5")
    data["cautions"]["feul"] = "drain it"
    assert "Did you mean fuel?" in refused(data).what


def test_all_problems_are_listed_at_once(stock_data):
    data = stock_data("label-4x6") | {"width": "4", "dpi": 20, "colour": "red"}
    error = refused(data)
    assert len(error.problems) == 3
    assert "3 things are wrong" in error.what


def test_a_block_beyond_the_tag_is_refused(stock_data):
    data = stock_data("shipping-tag-5")
    data["block"][0]["width"] = "400 pt"
    assert "block 1 (band) reaches beyond the tag" in refused(data).problems[0]


def test_a_block_over_the_hole_is_refused(stock_data):
    data = stock_data("shipping-tag-5")
    data["block"][3]["x"] = "40 pt"
    assert "block 4 (facts) lies over the hole" in str(refused(data).lines())


@pytest.mark.parametrize("change", [{"x": "11.9 pt"}, {"y": "11.9 pt"}, {"width": "264.1 pt"}, {"height": "408.1 pt"}])
def test_a_block_nearer_an_edge_than_the_margin_is_refused(stock_data, change):
    data = stock_data("label-4x6")
    data["block"] = [{"what": "claim", "x": "12 pt", "y": "12 pt", "width": "264 pt", "height": "408 pt"}]
    assert stock_from(data, "label").block
    data["block"][0] |= change
    assert "nearer the edge than the margin" in refused(data).what


def test_a_code_may_fill_the_tag_to_its_edges_and_no_further(stock_data):
    data = stock_data("label-4x6")
    data["block"] = [{"what": "qr", "x": "0 pt", "y": "0 pt", "width": "288 pt", "height": "432 pt"}]
    assert stock_from(data, "label").block
    for side in ("x", "y"):
        beyond = data | {"block": [data["block"][0] | {side: "0.1 pt"}]}
        assert "reaches beyond the tag" in refused(beyond).what


def test_a_turned_sheet_leaves_the_printer_as_any_sheet(a_stock):
    assert a_stock("sheet-letter").page == (612, 792)


def test_more_tags_than_a_sheet_holds_are_refused(stock_data):
    data = stock_data("sheet-a4")
    data["sheet"]["rows"] = 3
    assert "3 rows of 2 tags do not fit on the sheet" in refused(data).what


@pytest.mark.parametrize("gap", ["gap_across", "gap_down"])
def test_gaps_between_the_tags_of_a_sheet_take_room_as_well(stock_data, gap):
    data = stock_data("sheet-a4")
    data["sheet"][gap] = "400 pt"
    assert "do not fit on the sheet" in refused(data).what


def test_a_smallest_size_above_the_largest_is_refused(stock_data):
    data = stock_data("label-4x6")
    data["block"][0]["least"] = "40 pt"
    assert "least (40 pt) is larger than size" in refused(data).what


def test_facts_without_rows_are_refused(stock_data):
    data = stock_data("label-4x6")
    del data["block"][2]["rows"]
    assert "a facts block needs rows" in refused(data).what


def test_a_turned_stock_leaves_the_printer_narrow_side_first(a_stock):
    width, height = a_stock("roll-62mm").page
    assert (width / 72 * 25.4, height / 72 * 25.4) == (pytest.approx(62), pytest.approx(124))


@pytest.mark.parametrize(("side", "gap", "begun"), [("width", "gap_across", "left"), ("height", "gap_down", "top")])
def test_a_sheet_is_as_large_as_its_tags_and_the_gaps_between_them(stock_data, side, gap, begun):
    data = stock_data("sheet-a4")
    whole = 2 * stock_from(data, "").model_dump()[side] + 10 + 30
    data["sheet"] |= {"rows": 2, "columns": 2, gap: "10 pt", begun: "30 pt", side: f"{whole:.4f} pt"}
    assert stock_from(data, "sheet").sheet
    data["sheet"][side] = f"{whole - 0.1:.4f} pt"
    assert "do not fit on the sheet" in refused(data).what


def test_a_smallest_size_may_be_the_largest(stock_data):
    data = stock_data("label-4x6")
    data["block"][0] |= {"size": "20 pt", "least": "20 pt"}
    assert stock_from(data, "label").block[0].least == 20


@pytest.mark.parametrize(
    ("side", "just", "beyond"), [("width", "288.01 pt", "288.02 pt"), ("height", "432.01 pt", "432.02 pt")]
)
def test_a_hundredth_of_a_point_beyond_the_tag_is_not_beyond_it(stock_data, side, just, beyond):
    data = stock_data("label-4x6")
    data["block"] = [{"what": "qr", "x": "0 pt", "y": "0 pt", "width": "288 pt", "height": "432 pt"} | {side: just}]
    assert stock_from(data, "label").block
    data["block"][0][side] = beyond
    assert "reaches beyond the tag" in refused(data).what


def test_a_hundredth_of_a_point_nearer_the_edge_is_not_nearer(stock_data):
    data = stock_data("label-4x6")
    data["block"] = [{"what": "claim", "x": "11.99 pt", "y": "12 pt", "width": "264 pt", "height": "408 pt"}]
    assert stock_from(data, "label").block
    data["block"][0]["x"] = "11.98 pt"
    assert "nearer the edge than the margin" in refused(data).what


@pytest.mark.parametrize(("side", "other"), [("x", "y"), ("y", "x")])
def test_a_block_may_touch_the_hole_and_not_lie_over_it(stock_data, side, other):
    data = stock_data("label-4x6") | {"hole": {"x": "36 pt", "y": "36 pt", "across": "20 pt"}}
    data["block"] = [{"what": "qr", side: "46 pt", other: "20 pt", "width": "100 pt", "height": "100 pt"}]
    assert stock_from(data, "label").block
    data["block"][0][side] = "45.9 pt"
    assert "lies over the hole" in refused(data).what


def test_what_a_stock_does_not_say_is_not_so_and_a_sheet_is_marked_to_be_cut(stock_data):
    label = stock_data("label-4x6")
    of_block = {"x": "12 pt", "y": "12 pt", "width": "200 pt", "height": "50 pt"}
    panels = {"what": "panels", "panels": [{"what": "hold", "size": "20 pt"}], **of_block}
    sheet = dict.fromkeys(("width", "height"), "600 pt") | dict.fromkeys(("left", "top"), "0 pt")
    kept = {key: label[key] for key in ("format", "id", "name", "width", "height", "margin", "dpi", "words")}
    stock = stock_from(kept | {"block": [panels], "sheet": sheet | {"rows": 1, "columns": 1}}, "own.toml")
    (block,) = stock.block
    assert not any((stock.turned, stock.thermal, block.ruled, block.count, block.panels[0].terms))
    assert stock.sheet.cut_marks
