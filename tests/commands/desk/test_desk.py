from __future__ import annotations

import datetime as dt
from decimal import Decimal

import pytest
from builders import a_claim
from manager_shop import a_managed_shop, filed_in, on, took_place
from running import NOW, claimpack
from several_shops import two_shops
from shop_builders import a_shop, happen, the_desk

from claimpack.book.held import HELD_NOW
from claimpack.book.tables.entries import Wanted
from claimpack.commands.desk.desk import Desk, change_of
from claimpack.commands.desk.world import World
from claimpack.core.events.events import NewEvent
from claimpack.core.events.standing import Standing
from claimpack.errors import AlreadyChanged, BadInput, NotFound, WrongState
from claimpack.template_files import shipped

OWN_PLAN = """
id = "{id}"
maker = "halden"
currency = "USD"
models = ["CS-70"]
[[window]]
id = "engine"
covers = ["*"]
period = "P12M"
[pays]
labour_rate = "{rate}"
"""


@pytest.fixture
def shop(tmp_path):
    return a_shop(tmp_path)


def renamed(claim, name):
    return claim.model_copy(update={"owner": claim.owner.model_copy(update={"name": name})})


def last(shop):
    return the_desk(shop).book.history("26-0001")[-1]


def test_a_desk_stands_in_a_shop(tmp_path):
    with pytest.raises(NotFound, match="there is no shop here"):
        Desk(World(folder=tmp_path, environ={}, clock=NOW))


def test_the_day_may_be_told(shop):
    assert Desk(World(folder=shop, environ={}, clock=NOW), "2026-03-31").day == dt.date(2026, 3, 31)


def test_a_change_to_a_draft_is_an_edit_and_to_a_filed_claim_a_correction():
    called = [change_of(Standing(state=state)) for state in ("draft", "filed", "paid")]
    assert called == ["edited", "corrected", "corrected"]


def test_a_change_tells_nothing_more_than_it_is_told(shop):
    with the_desk(shop).changing("26-0001") as changing:
        changing.keep(renamed(changing.claim, "B. Customer"), why="misheard", facts={"key": "owner.name"})
    event = last(shop)
    assert (event.what, event.on, event.who, event.why) == ("edited", NOW.date(), "ann", "misheard")


def test_what_lists_show_follows_the_change(shop):
    with the_desk(shop).changing("26-0001") as changing:
        misused = changing.claim.failure.model_copy(update={"defect": "misuse"})
        changing.keep(changing.claim.model_copy(update={"failure": misused}))
    assert the_desk(shop).book.claims()[0].verdict == "not covered"


def test_leaving_without_keeping_changes_nothing(shop):
    with the_desk(shop).changing("26-0001"):
        pass
    assert last(shop).what == "opened"


def test_a_change_from_an_old_look_is_refused(shop):
    happen(shop, "26-0001", "edited")
    with pytest.raises(AlreadyChanged), the_desk(shop).changing("26-0001", revision=1):
        pass


@pytest.mark.parametrize(("state", "is_told"), [("draft", False), ("filed", True)])
def test_a_change_to_what_the_maker_has_is_told_to_be_a_new_version(shop, capsys, state, is_told):
    if state == "filed":
        happen(shop, "26-0001", "filed", claimed="150.00", currency="USD")
    with the_desk(shop).changing("26-0001") as changing:
        changing.keep(renamed(changing.claim, "B. Customer"))
    assert ("new version" in capsys.readouterr().err) is is_told


def test_what_happens_to_a_claim_is_no_new_version_of_it(shop, capsys):
    happen(shop, "26-0001", "filed", claimed="150.00", currency="USD")
    with the_desk(shop).changing("26-0001") as changing:
        changing.record(NewEvent(what="received", on=NOW.date()))
    assert capsys.readouterr().err == ""


def test_a_settled_claim_is_refused_before_work_is_put_into_it(shop):
    happen(shop, "26-0001", "filed", claimed="150.00", currency="USD")
    the_desk(shop).must_take_changes("26-0001")
    happen(shop, "26-0001", "withdrawn")
    with pytest.raises(WrongState):
        the_desk(shop).must_take_changes("26-0001")


def test_a_number_that_is_taken_is_not_added(shop):
    with pytest.raises(BadInput, match="26-0001"):
        the_desk(shop).add(a_claim(), NewEvent(what="opened", on=NOW.date()))


def test_a_claim_added_comes_back_as_the_book_has_it(shop):
    entry = the_desk(shop).add(a_claim(number="26-0002"), NewEvent(what="opened", on=NOW.date()))
    assert (entry.revision, entry.standing.opened) == (1, NOW.date())


def test_a_plan_on_the_command_line_is_nearer_than_the_shops(shop, tmp_path):
    (shop / "coverage" / "own.toml").write_text(OWN_PLAN.format(id="own", rate="80.00"))
    (tmp_path / "own.toml").write_text(OWN_PLAN.format(id="own", rate="90.00"))
    world = World(folder=shop, environ={}, clock=NOW)
    claim = a_claim(plan="own")
    desks = Desk(world), Desk(world, plans=[tmp_path / "own.toml"])
    assert [desk.plan_of(claim).pays.labour_rate for desk in desks] == [Decimal("80.00"), Decimal("90.00")]


def test_a_claim_no_plan_is_for_has_none(shop):
    assert the_desk(shop).plan_of(a_claim(maker="nobody")) is None


def test_a_maker_is_spelled_as_written_and_as_the_plans_have_it(shop):
    assert the_desk(shop).spellings("orrin & vale") == ("orrin & vale", "orrin-vale", "Orrin & Vale")


@pytest.mark.parametrize("said", ["", "halden", "HALDEN", "Tessaly Pumps"])
def test_a_maker_of_the_book_or_of_a_plan_is_known(shop, said):
    assert the_desk(shop).must_know_maker(said) is None


def test_a_maker_of_claims_alone_is_known(tmp_path):
    assert the_desk(a_shop(tmp_path, maker="Ashby Tools")).must_know_maker("ashby-tools") is None


def test_a_maker_that_nobody_knows_is_refused_with_the_nearest(shop):
    with pytest.raises(BadInput) as refused:
        the_desk(shop).must_know_maker("Haldn")
    assert refused.value.do == "Did you mean 'Halden'?"


@pytest.mark.parametrize("key", ["tessaly", "Tessaly Pumps"])
def test_terms_are_found_by_either_spelling_of_a_maker(shop, key):
    settings = shop / "shop.toml"
    settings.write_text(settings.read_text().replace("[maker_terms]", f'[maker_terms]\n"{key}" = "us-wa"'))
    assert [the_desk(shop).terms_with(maker) for maker in ("tessaly", "TESSALY PUMPS")] == ["us-wa", "us-wa"]


HALDEN = (shipped("coverage") / "halden-2025.toml").read_text(encoding="utf-8")


@pytest.fixture
def two_claims(tmp_path):
    """A shop with a draft and a filed claim, both judged under the maker's plan as it was."""
    held = [{"part": "short block", "shelf": "B3", "since": "2026-02-24"}]
    shop = a_shop(tmp_path, "26-0001", "26-0002", plan="halden-2025", held=held)
    happen(shop, "26-0002", "filed", claimed="150.00", currency="USD")
    return shop


def put_right(shop, old, new):
    """The maker's plan as the shop has it from now on."""
    (shop / "coverage" / "halden-2025.toml").write_text(HALDEN.replace(f'"{old}"', f'"{new}"'), encoding="utf-8")


def test_a_draft_is_judged_by_its_plan_as_it_reads_today_and_what_was_filed_stays(two_claims):
    put_right(two_claims, "P12M", "P10M")
    desk = the_desk(two_claims)
    listed = {row.number: row.verdict for row in desk.claims(Wanted())}
    alone = {number: desk.summary_today(desk.book.get(number)).verdict for number in listed}
    assert listed == alone == {"26-0001": "undecided", "26-0002": "covered"}


@pytest.mark.parametrize(
    ("within", "until", "due"),
    [
        ("P30D", dt.date(2026, 3, 25), []),
        ("P30D", dt.date(2026, 3, 26), ["26-0001"]),
        ("P20D", dt.date(2026, 3, 16), ["26-0001"]),
    ],
    ids=["later", "that day", "sooner by a plan put right"],
)
def test_a_draft_is_due_by_the_day_of_its_plan_as_it_reads_today(two_claims, within, until, due):
    if within != "P30D":
        put_right(two_claims, "P30D", within)
    assert [row.number for row in the_desk(two_claims).drafts_due(until)] == due


def test_a_part_is_held_as_long_as_its_plan_says_today(two_claims):
    kept = {row.claim: row.keep_until for row in the_desk(two_claims).held(HELD_NOW)}
    put_right(two_claims, "P90D", "P100D")
    longer = {row.claim: row.keep_until for row in the_desk(two_claims).held(HELD_NOW)}
    assert longer["26-0002"] - kept["26-0002"] == dt.timedelta(days=10)


def test_a_part_is_held_until_no_day_that_anybody_knows_where_no_plan_is_found(tmp_path):
    shop = a_shop(tmp_path, maker="Nobody", held=[{"part": "short block", "shelf": "B3", "since": "2026-02-24"}])
    assert [row.keep_until for row in the_desk(shop).held(HELD_NOW)] == [None]


@pytest.mark.parametrize(("told", "is_said"), [('id = "hollis"', False), ("", True)])
def test_a_shop_without_an_id_is_told_so_where_the_book_holds_several(tmp_path, capsys, told, is_said):
    shop = two_shops(tmp_path) / "hollis"
    (shop / "shop.toml").write_text((shop / "shop.toml").read_text().replace('id = "hollis"', told))
    assert the_desk(shop).book.holds_several()
    assert ("this one has no id" in capsys.readouterr().err) is is_said


@pytest.fixture
def answered_shop(tmp_path):
    shop = a_managed_shop(tmp_path)
    filed_in(shop, received="2026-01-02")
    took_place(shop, "26-0001", "answered", "2026-02-20", answer="accepted")
    return shop


@pytest.mark.parametrize("command", ["pending", "due", "audit", "report", "hold list"])
def test_a_day_the_book_is_past_is_told_once(answered_shop, command):
    said = claimpack(*command.split(), "--today", "2026-02-01", folder=answered_shop).err
    assert said.count("The book stands at 2026-03-01") == 1


@pytest.mark.parametrize("day", ["2026-02-25", "2026-03-01"])
def test_today_needs_no_word_even_by_a_clock_that_is_behind_the_book(answered_shop, day):
    assert "The book stands" not in on(day, "pending", shop=answered_shop).err


@pytest.mark.parametrize("day", ["2026-03-01", "2026-03-05"])
def test_a_past_day_on_which_the_book_stood_as_now_needs_no_word(answered_shop, day):
    assert "The book stands" not in on("2026-03-20", "pending", "--today", day, shop=answered_shop).err


def test_a_past_day_of_an_empty_book_needs_no_word(tmp_path):
    said = on("2026-03-20", "pending", "--today", "2026-03-05", shop=a_managed_shop(tmp_path))
    assert (said.code, "The book stands" in said.err) == (0, False)
