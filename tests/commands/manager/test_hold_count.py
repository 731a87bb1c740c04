import pytest
from made_once import made_once
from manager_shop import PART, a_managed_shop, filed_in, on
from running import NOW, Terminal
from shop_builders import the_desk

from claimpack.__main__ import run
from claimpack.commands.desk.world import World

TWO = [PART, {"part": "ignition coil", "shelf": "B3"}]


@pytest.fixture
def shop(tmp_path):
    return the_shop(tmp_path)


@made_once
def the_shop(place):
    shop = a_managed_shop(place)
    filed_in(shop, "26-0001", held=TWO)
    filed_in(shop, "26-0002", held=[{**PART, "shelf": "A1"}])
    return shop


def count(shop, *arguments, day="2026-03-20", **how):
    return on(day, "hold", "count", *arguments, shop=shop, **how)


def missing(shop, nth):
    return the_desk(shop).book.get("26-0001").standing.part(nth).missing


def test_a_shelf_that_holds_what_the_book_says_is_equal(shop):
    ran = count(shop, "B3", "26-0001/1", "26-0001/2")
    assert (ran.code, ran.out.split("  ")[0]) == (0, "Shelf B3 MATCHES")


def test_missing_extra_and_wrong_shelf_are_told(shop):
    ran = count(shop, "B3", "26-0001/1", "26-0002", "26-0077/1", "--json")
    keys = ran.json
    assert (ran.code, keys["equal"], keys["found"]) == (3, False, ["26-0001/1"])
    assert [part["code"] for part in keys["missing"] + keys["extra"] + keys["wrong_shelf"]] == [
        "26-0001/2",
        "26-0077/1",
        "26-0002/1",
    ]


def test_codes_are_read_line_by_line_from_a_scanner(shop):
    assert count(shop, "B3", typed="26-0001/1\r\n\n26-0001/2\r\n").code == 0


def test_at_a_terminal_an_empty_line_ends_the_count(shop):
    ran = count(shop, "B3", typed="26-0001/1\n26-0001/2\n\n26-0077/1\n", terminal=True)
    assert (ran.code, "An empty line ends" in ran.err) == (0, True)


def test_a_scan_that_is_no_code_does_not_end_the_count(shop):
    ran = count(shop, "B3", typed="26-0001/1\n4006381333931;\n26-0001/2\n")
    assert (ran.code, "4006381333931" in ran.out) == (3, True)


def test_an_empty_shelf_is_equal_to_an_empty_count(shop):
    on("2026-03-10", "hold", "move", "26-0002/1", "B3", shop=shop)
    assert count(shop, "a1").code == 0


@pytest.mark.parametrize("terminal", [False, True])
def test_a_shelf_nobody_ever_used_is_refused_with_those_the_book_knows(shop, terminal):
    ran = count(shop, "C22", terminal=terminal)
    assert (ran.code, ran.out, "It knows A1, B3." in ran.err) == (2, "", True)


def test_what_was_scanned_on_a_new_shelf_is_told_all_the_same(shop):
    ran = count(shop, "shelf 9", "26-0002/1")
    assert (ran.code, "claimpack hold move CODE 'shelf 9'" in ran.err) == (3, True)


def test_a_count_that_is_stopped_hands_back_what_was_scanned(shop):
    class Stopped(Terminal):
        """A keyboard on which a code is typed, and then Ctrl-C."""

        def readline(self, *_size):
            return super().readline() or interrupted()

    out, err = Terminal(), Terminal()
    world = World(stdin=Stopped("26-0001/1\n"), stdout=out, stderr=err, environ={}, folder=shop, clock=NOW)
    code = run(["hold", "count", "B3"], world)
    assert (code, "Nothing was counted." in err.getvalue()) == (130, True)
    assert "claimpack hold count B3 26-0001/1\n" in err.getvalue()


def interrupted():
    raise KeyboardInterrupt


def test_what_is_missing_is_noted_until_it_is_counted_again(shop):
    count(shop, "B3", "26-0001/1")
    first = missing(shop, 2)
    count(shop, "B3", "26-0001/1", "26-0001/2", day="2026-03-27")
    assert (str(first), missing(shop, 2)) == ("2026-03-20", None)


def test_a_part_missing_twice_is_noted_once(shop):
    for day in ("2026-03-20", "2026-03-27"):
        count(shop, "B3", "26-0001/1", day=day)
    noted = [event for event in the_desk(shop).book.history("26-0001") if event.what == "shelf counted"]
    assert len(noted) == 1


def test_the_list_says_what_a_count_missed(shop):
    count(shop, "B3", "26-0001/1")
    assert "not found when the shelf was counted on 2026-03-20" in on("2026-03-21", "hold", "list", shop=shop).out


def test_only_looking_notes_nothing(shop):
    ran = count(shop, "B3", "26-0001/1", "--look")
    assert (ran.code, missing(shop, 2)) == (3, None)


def test_a_shelf_is_not_counted_on_a_day_still_to_come(shop):
    ran = count(shop, "B3", "26-0001/1", "--on", "2026-03-21")
    assert (ran.code, "still to come" in ran.err, missing(shop, 2)) == (2, True, None)


def test_every_code_is_asked_for_by_its_number(shop):
    asked = count(shop, "B3", typed="26-0001/1\n26-0001/2\n\n", terminal=True).err
    assert [f"{place}:" in asked for place in (1, 2, 3, 4)] == [True, True, True, False]


@pytest.mark.parametrize(
    ("codes", "noted", "moved"),
    [
        (("26-0001/1", "26-0001/2"), False, False),
        (("26-0001/1",), True, False),
        (("26-0001/1", "--look"), False, False),
        (("26-0001/1", "26-0001/2", "26-0002"), False, True),
    ],
    ids=["all found", "one missing", "only looked", "one too many"],
)
def test_what_to_do_after_a_count_is_told_where_there_is_something_to_do(shop, codes, noted, moved):
    told = count(shop, "B3", *codes).err
    assert ("is noted in the history" in told, "hold move CODE B3" in told) == (noted, moved)


@pytest.mark.parametrize(("shelf", "says"), [("A1", "on shelf A1"), ("", "has it nowhere")])
def test_where_the_book_has_what_lies_on_the_wrong_shelf_is_told(tmp_path, shelf, says):
    shop = a_managed_shop(tmp_path)
    filed_in(shop, "26-0001", held=[{**PART, "shelf": shelf}, PART])
    assert says in count(shop, "B3", "26-0001/1", "26-0001/2").out
