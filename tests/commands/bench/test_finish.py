import pytest
from running import claimpack
from shop_builders import a_shop, kept_claim

from claimpack.template_files import shipped

FAILURE = {"complaint": "Dead.", "component": "short block"}


@pytest.fixture
def shop(tmp_path):
    """A shop with a claim that was taken in, nothing of its repair written down; a parts list of its maker."""
    shop = a_shop(tmp_path, failure=FAILURE, parts=[], labour=[], held=[], dates__repaired=None)
    (shop / "parts").mkdir()
    (shop / "parts" / f"{kept_claim(shop).maker}.csv").write_text("number,name,cost\n70-1180,Short block,146.40\n")
    return shop


def finished(shop, *options, typed=""):
    return claimpack("finish", "26-0001", *options, folder=shop, typed=typed)


TALK = """Worn ring.
New short block.
1
70-1180
70-9 x2 =1.50 Gasket

1

B3
y

"""


def test_one_conversation_writes_a_whole_repair_down(shop):
    ran = finished(shop, typed=TALK)
    claim = kept_claim(shop)
    assert (ran.code, claim.failure.cause, claim.failure.defect) == (0, "Worn ring.", "material")
    assert [(part.name, str(part.unit_cost)) for part in claim.parts] == [("Short block", "146.40"), ("Gasket", "1.50")]
    assert [work.operation for work in claim.labour] == ["short-block-replace"]
    assert [(held.part, held.shelf, held.drained) for held in claim.held] == [("short block", "B3", True)]
    assert str(claim.dates.repaired) == "2026-03-01"
    assert "Caution:" in ran.out.splitlines()


def test_options_write_the_same(shop):
    texts = ("--cause", "Worn ring.", "--correction", "New short block.", "--defect", "material")
    lists = ("--part", "70-1180", "--part", "70-9 x2 =1.50 Gasket", "--labour", "short-block-replace")
    finished(shop, *texts, *lists, "--shelf", "B3", "--drained", "--repaired", "today", "--returned", "today")
    by_options = kept_claim(shop)
    assert (len(by_options.parts), by_options.held[0].shelf, by_options.failure.cause) == (2, "B3", "Worn ring.")
    assert (by_options.labour[0].operation, str(by_options.dates.repaired)) == ("short-block-replace", "2026-03-01")
    assert by_options.dates.returned == by_options.dates.repaired


def test_where_time_in_repair_lengthens_cover_the_day_it_was_ready_is_asked_for(shop):
    plan = (shipped("coverage") / "halden-2025.toml").read_text()
    (shop / "coverage").mkdir(exist_ok=True)
    (shop / "coverage" / "halden-2025.toml").write_text(
        plan.replace("statutes =", 'repair_time_extends = "calendar"\nstatutes =')
    )
    finished(shop, typed=f"{TALK}2026-03-01\n")
    assert str(kept_claim(shop).dates.returned) == "2026-03-01"


def test_back_takes_the_last_part_away(shop):
    ran = finished(shop, typed="Worn.\nNew.\n1\n70-1180\nback\n\n\nn\n\n")
    assert ("Taken away: Short block" in ran.err, "NAME is missing" in ran.err) == (True, False)
    assert (ran.code, kept_claim(shop).parts) == (0, ())


def test_stop_changes_nothing(shop):
    ran = finished(shop, typed="Worn.\nstop\n")
    assert (ran.code, kept_claim(shop).failure.cause) == (4, "")


@pytest.mark.parametrize(
    ("option", "named"),
    [
        (("--part", "70-2"), "--part: NAME is missing"),
        (("--labour", "swept the floor"), "--labour: 'swept the floor' is not in the maker's schedule"),
        (("--labour", "1 99"), "--labour: "),
        (("--defect", "w"), "--defect: 'w' may be workmanship or wear"),
        (("--part", "70-1180 =12,20"), "--part: =COST: '12,20'"),
        (("--part", "70-1180 =€12"), "--part: =COST: '€12' is in €, and the claim's currency is USD"),
    ],
)
def test_an_option_that_cannot_be_taken_is_named_and_nothing_is_kept(shop, option, named):
    ran = finished(shop, "--cause", "Worn.", *option)
    assert (ran.code, named in ran.err, kept_claim(shop).failure.cause) == (2, True, "")


def test_a_part_may_be_sent_by_the_maker_or_paid_by_the_owner(shop):
    finished(shop, "--part", "70-1180 sent", "--part", "70-9 =1.50 Gasket owner")
    told = [(part.name, part.source, str(part.unit_cost), part.payer) for part in kept_claim(shop).parts]
    assert told == [("Short block", "maker", "0", "maker"), ("Gasket", "stock", "1.50", "owner")]


def test_what_was_written_down_before_is_not_asked_again(shop):
    claimpack("set", "26-0001", "failure.cause", "Worn ring.", folder=shop)
    assert "What caused it?" not in finished(shop, typed="stop\n").err


def test_a_price_that_differs_from_the_list_is_told(shop):
    ran = finished(shop, "--part", "70-1180 =150.00")
    assert "at 146.40 (parts/" in ran.err


def test_a_day_of_repair_that_is_known_is_not_asked(shop):
    claimpack("set", "26-0001", "dates.repaired", "2026-02-24", folder=shop)
    assert "Repaired on?" not in finished(shop, typed=TALK.replace("B3\ny", "n")).err


def test_labour_taken_from_the_schedule_is_said_to_be(shop):
    ran = finished(shop, typed=TALK)
    assert "short-block-replace, by the schedule" in ran.out + ran.err


def test_a_script_that_says_nothing_is_told_that_nothing_was_done(shop):
    assert finished(shop, "--json").json["error"]["kind"] == "not done"


@pytest.mark.parametrize(("options", "drained"), [(("--drained",), True), (("--not-drained",), False), ((), None)])
def test_whether_a_part_is_drained_is_kept_as_it_was_said(shop, options, drained):
    finished(shop, "--shelf", "B3", *options)
    assert kept_claim(shop).held[0].drained is drained


@pytest.mark.parametrize("as_json", [False, True])
def test_scripts_read_what_was_changed(shop, as_json):
    ran = finished(shop, "--cause", "Worn ring.", *["--json"][:as_json])
    assert ran.out.startswith("{") is as_json
    if as_json:
        assert [each["key"] for each in ran.json["changed"]] == ["failure.cause"]


def test_what_was_written_down_is_counted(shop):
    lists = ("--part", "70-1180", "--labour", "1", "--labour", "short-block-replace", "--shelf", "B3")
    ran = finished(shop, *lists, "--repaired", "2026-02-24")
    assert ran.out.splitlines()[0] == "26-0001: 1 part, 2 labour entries, 1 held part, repaired on 2026-02-24"


def test_the_part_that_is_held_already_is_not_held_again(shop):
    finished(shop, "--shelf", "B3")
    assert (finished(shop, "--shelf", "B4").code, len(kept_claim(shop).held)) == (2, 1)


def test_parts_that_were_there_are_told_before_more_are_asked_for(shop):
    finished(shop, "--part", "70-1180")
    told = finished(shop, "--part", "70-9 =1.50 Gasket", "--ask", typed="stop\n").err
    assert ("already: 1 of parts" in told, "of labour" in told) == (True, False)
