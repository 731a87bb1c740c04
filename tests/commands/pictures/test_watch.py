import threading

import pytest
import watchfiles
from phones import a_phone, shots, taken
from running import NOW, Pipe, Terminal, claimpack
from shop_builders import a_shop, happen, kept_claim

from claimpack.__main__ import run
from claimpack.commands.desk.world import World


def watch(shop, *arguments, **options):
    return claimpack("photo", "watch", shop.parent / "phone", "--now", *arguments, folder=shop, **options)


def a_phone_beside(tmp_path):
    shop = a_shop(tmp_path, "26-0001", "26-0002", "26-0003", plan="halden-2025")
    a_phone(shop)
    return shop


def test_pictures_are_filed_by_the_tag_before_them_else_on_the_claim_named(tmp_path):
    shop = a_phone_beside(tmp_path)
    ran = watch(shop, "--claim", "26-0003", "--json")
    filed = {each["file"]: each["claim"] for each in ran.json["filed"]}
    named = dict.fromkeys(("a.jpg", "d.jpg"), "26-0003")
    assert filed == {**named, "b.jpg": "26-0001", "c.jpg": "26-0001", "e.jpg": "26-0002", "f.jpg": "26-0002"}


def test_the_claim_at_hand_takes_what_no_tag_speaks_for(tmp_path):
    shop = a_phone_beside(tmp_path)
    claimpack("at-hand", "26-0003", folder=shop)
    watch(shop)
    assert [file for file, _ in shots(shop, "26-0003")] == ["photos/a.jpg", "photos/d.jpg"]


def test_a_picture_that_nobody_knows_a_claim_for_is_left_alone(tmp_path):
    shop = a_phone_beside(tmp_path)
    ran = watch(shop, "--json")
    assert (ran.code, [each["file"] for each in ran.json["left"]]) == (4, ["a.jpg", "d.jpg"])


def test_at_a_terminal_each_of_them_is_asked_about_at_the_end(tmp_path):
    shop = a_phone_beside(tmp_path)
    ran = watch(shop, terminal=True, typed="26-0002\n26-0999\n")
    assert (("photos/a.jpg", "") in shots(shop, "26-0002"), "d.jpg is left alone" in ran.err) == (True, True)


def test_a_second_run_files_nothing_twice(tmp_path):
    shop = a_phone_beside(tmp_path)
    watch(shop, "--claim", "26-0003")
    again = watch(shop, "--claim", "26-0003", "--json").json
    assert (again["filed"], len(again["there"])) == ([], 6)


def test_one_undo_takes_back_the_whole_run(tmp_path):
    shop = a_phone_beside(tmp_path)
    watch(shop, "--claim", "26-0003")
    claimpack("photo", "sort", "--undo", "--yes", folder=shop)
    assert [shots(shop, f"26-000{number}") for number in (1, 2, 3)] == [[], [], []]


def test_a_damaged_picture_is_told_and_the_others_are_filed(tmp_path):
    shop = a_phone_beside(tmp_path)
    (shop.parent / "phone" / "z.jpg").write_bytes((shop.parent / "phone" / "a.jpg").read_bytes()[:3000])
    ran = watch(shop, "--claim", "26-0003", "--json")
    assert (len(ran.json["filed"]), [each["file"] for each in ran.json["left"]]) == (6, ["z.jpg"])


def test_what_is_no_picture_is_passed_over(tmp_path):
    shop = a_phone_beside(tmp_path)
    (shop.parent / "phone" / "notes.txt").write_text("no picture")
    (shop.parent / "phone" / ".pending-g.jpg").write_bytes((shop.parent / "phone" / "a.jpg").read_bytes())
    out = watch(shop, "--claim", "26-0003", "--json").out
    assert ("notes" in out, "pending" in out) == (False, False)


def test_a_claim_that_takes_no_pictures_is_refused_before_anything_is_filed(tmp_path):
    shop = a_phone_beside(tmp_path)
    happen(shop, "26-0003", "withdrawn")
    assert (watch(shop, "--claim", "26-0003").code, shots(shop, "26-0001")) == (2, [])


@pytest.fixture
def coming(monkeypatch):
    """Tells the watcher what comes into the folder, a batch of changes after the other, until Ctrl-C is pressed."""

    def come(*batches):
        def watched(_folder, *, raise_interrupt, **_how):
            yield from batches
            if raise_interrupt:
                raise KeyboardInterrupt

        monkeypatch.setattr(watchfiles, "watch", watched)

    return come


def test_a_picture_that_is_written_in_two_steps_is_filed_once(tmp_path, coming):
    shop = a_shop(tmp_path, "26-0001", plan="halden-2025")
    path = taken(shop, "a.jpg", "09:00:00")
    coming({(watchfiles.Change.added, str(path))}, {(watchfiles.Change.modified, str(path))})
    told = claimpack("photo", "watch", path.parent, "--claim", "26-0001", "--json", folder=shop).json
    assert ([each["file"] for each in told["filed"]], told["there"]) == (["a.jpg"], [])


def test_a_file_that_is_gone_again_is_passed_over(tmp_path, coming):
    coming({(watchfiles.Change.added, str(tmp_path / "phone" / "IMG_1.jpg"))})
    (tmp_path / "phone").mkdir()
    assert claimpack("photo", "watch", tmp_path / "phone", "--json", folder=a_shop(tmp_path)).json["left"] == []


@pytest.mark.parametrize("terminal", [False, True])
def test_enter_is_offered_where_somebody_can_press_it(tmp_path, coming, terminal):
    coming()
    (tmp_path / "phone").mkdir()
    ran = claimpack("photo", "watch", tmp_path / "phone", folder=a_shop(tmp_path), terminal=terminal)
    assert ("Enter or Ctrl-C" in ran.err) is terminal


class Told(Pipe):
    """A stream that lets others wait until it told something."""

    def __init__(self):
        super().__init__()
        self.begun, self.filed = threading.Event(), threading.Event()

    def write(self, text):
        written = super().write(text)
        self.begun.set() if "ends it" in text else None
        self.filed.set() if "photos/" in text else None
        return written


class Keyboard(Terminal):
    """A terminal at which Enter is pressed once a picture was filed."""

    def __init__(self, told):
        super().__init__()
        self.told = told

    def readline(self, _size=-1):
        self.told.filed.wait(60)
        return "\n"


def a_watched_shop(place):
    shop, told = a_shop(place, "26-0001", plan="halden-2025"), Told()
    (place / "phone").mkdir()
    world = World(Keyboard(told), Pipe(), told, {"CLAIMPACK_WHO": "ann"}, folder=shop, clock=NOW)
    line = ["photo", "watch", str(place / "phone"), "--claim", "26-0001"]
    running = threading.Thread(target=run, args=(line, world))
    running.start()
    return shop, told, running


def test_a_picture_is_filed_as_it_comes(tmp_path):
    shop, told, running = a_watched_shop(tmp_path)
    # The watcher begins a little after it says so: a picture is dropped until one is seen.
    names = (f"{number}.jpg" for number in range(100))
    while told.begun.wait(60) and not told.filed.is_set():
        taken(shop, next(names), "09:00:00")
        told.filed.wait(1)
    running.join(60)
    assert kept_claim(shop, "26-0001").photos


def test_a_watch_that_breaks_off_leaves_no_clock_running(tmp_path):
    shop, told, running = a_watched_shop(tmp_path)
    told.begun.wait(60)
    happen(shop, "26-0001", "withdrawn")
    names = (f"{number}.jpg" for number in range(100))
    while running.is_alive():
        taken(shop, next(names), "09:00:00")
        running.join(1)
    clocks = [each for each in threading.enumerate() if isinstance(each, threading.Timer)]
    for clock in clocks:
        # one that was stopped ends at once, and one that was not goes on for minutes
        clock.join(20)
    assert not any(clock.is_alive() for clock in clocks)
    told.filed.set()
