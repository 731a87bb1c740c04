import re
from pathlib import Path

import pytest
from made_once import made_once
from manager_shop import PART, a_managed_shop, filed_in, on, open_in
from printed import page_texts
from running import claimpack
from shop_builders import happen, kept_claim, the_desk

from claimpack.core.holding.release_rules import NOT_INSPECTED, RAN_OUT

HALDEN = Path(__file__).parents[3] / "templates" / "coverage" / "halden-2025.toml"
TWO = [PART, {"part": "ignition coil", "shelf": "A1"}]


WHY = ("--because", "No room.")


@pytest.fixture
def shop(tmp_path):
    return the_shop(tmp_path)


@made_once
def the_shop(place):
    shop = a_managed_shop(place)
    filed_in(shop, "26-0001", held=TWO)
    return shop


def hold(shop, *arguments, day="2026-03-20", **how):
    return on(day, "hold", *arguments, shop=shop, **how)


def state(shop, nth=1, number="26-0001"):
    return the_desk(shop).book.get(number).standing.part(nth).state


def events(shop, number="26-0001"):
    return [event for event in the_desk(shop).book.history(number) if event.what.startswith("part")]


def test_a_part_moved_lies_on_its_new_shelf(shop):
    ran = hold(shop, "move", "26-0001/2", "C7")
    assert (ran.code, kept_claim(shop).held[1].shelf, events(shop)[0].facts["from"]) == (0, "C7", "A1")


def test_a_part_called_back_and_sent_is_gone(shop):
    hold(shop, "call-back", "26-0001/1", "--on", "2026-03-10", "--send-by", "2026-03-25")
    ran = hold(shop, "send", "26-0001/1", "--on", "2026-03-20", "--carrier", "Northway", "--tracking", "NF-1")
    assert (ran.code, state(shop)) == (0, "sent")
    assert events(shop)[-1].facts == {"part": "1", "carrier": "Northway", "tracking": "NF-1"}


def test_sending_shows_the_cautions(shop):
    hold(shop, "call-back", "26-0001/1")
    said = hold(shop, "send", "26-0001/1").err
    assert ("49 CFR 173.220" in said, "carrier" in said) == (True, True)


def test_a_part_nobody_called_back_is_not_sent_and_no_slip_is_written(shop):
    ran = hold(shop, "send", "26-0001/1", "--slip", "slip.pdf")
    assert (ran.code, state(shop), (shop / "slip.pdf").exists()) == (2, "held", False)


def test_the_packing_slip_goes_into_the_box(shop):
    hold(shop, "call-back", "26-0001/1")
    ran = hold(shop, "send", "26-0001/1", "--slip", "slip.pdf", "--carrier", "Northway")
    said = page_texts(shop / "slip.pdf")[0]
    assert ran.out.endswith("\nslip.pdf\n")
    wanted = ("26-0001/1", "short block", "HC70-1", "E70-1", "Northway", "Fire hazard")
    assert all(word in said for word in wanted)


@pytest.mark.parametrize("slip", [(), ("--slip", "slip.pdf")])
def test_scripts_read_of_a_part_sent_in_one_document(shop, slip):
    hold(shop, "call-back", "26-0001/1")
    told = hold(shop, "send", "26-0001/1", *slip, "--json").json
    assert told["slip"] == (str(shop / "slip.pdf") if slip else None)


def test_the_makers_release_is_recorded_with_its_reason(shop):
    ran = hold(shop, "release", "26-0001/1", "--on", "2026-03-15", "--because", "Mail of its inspector.")
    event = events(shop)[0]
    assert (ran.code, event.on.isoformat(), event.why) == (0, "2026-03-15", "Mail of its inspector.")


def test_a_release_without_a_reason_is_refused(shop):
    assert (hold(shop, "release", "26-0001/1").code, state(shop)) == (2, "held")


def test_a_released_part_may_be_scrapped(shop):
    hold(shop, "release", "26-0001/1", "--because", "Mail.")
    assert (hold(shop, "scrap", "--yes", "26-0001/1").code, state(shop)) == (0, "scrapped")


@pytest.mark.parametrize(("day", "code"), [("2026-04-01", 3), ("2026-04-02", 3), ("2026-04-03", 0)])
def test_a_held_part_is_scrapped_only_after_the_last_day_of_its_hold(shop, day, code):
    assert hold(shop, "scrap", "--yes", "26-0001/1", *WHY, day=day).code == code


def test_a_hold_that_the_plan_made_longer_since_counts(shop):
    shipped = HALDEN.read_text(encoding="utf-8")
    (shop / "coverage" / "halden-2025.toml").write_text(re.sub(r'(\[hold\]\s+for = )"P90D"', r'\1"P180D"', shipped))
    ran = hold(shop, "scrap", "--yes", "26-0001/1", *WHY, day="2026-04-03")
    assert (ran.code, "2026-07-02" in ran.out, state(shop)) == (3, True, "held")


def test_a_refusal_says_from_which_day_it_may_go(shop):
    ran = hold(shop, "scrap", "--yes", "26-0001/1")
    assert ("2026-04-03" in ran.out, state(shop)) == (True, "held")


def test_a_part_that_must_be_kept_names_how_the_makers_release_is_recorded(shop):
    ran = hold(shop, "scrap", "--yes", "26-0001/1", *WHY)
    assert (ran.code, "claimpack hold release 26-0001/1 --because TEXT" in ran.err) == (3, True)


def test_the_rule_that_let_a_part_go_is_recorded_before_it_is_scrapped(shop):
    hold(shop, "scrap", "--yes", "26-0001/1", *WHY, day="2026-04-03")
    told = [(event.what, event.facts.get("rule"), event.revision) for event in events(shop)]
    assert told == [("part released", RAN_OUT, 3), ("part scrapped", RAN_OUT, 3)]


def test_the_day_it_was_scrapped_decides_and_not_the_day_it_is_entered(shop):
    assert hold(shop, "scrap", "--yes", "26-0001/1", *WHY, "--on", "2026-04-01", day="2026-04-20").code == 3


def test_of_several_parts_all_or_none_are_scrapped(shop):
    hold(shop, "release", "26-0001/1", "--because", "Mail.")
    assert (hold(shop, "scrap", "--yes", "26-0001/1", "26-0001/2").code, state(shop, 1)) == (3, "released")


def test_of_several_parts_none_is_scrapped_where_one_was_released_later(shop):
    hold(shop, "release", "26-0001/1", "--on", "2026-03-10", "--because", "Mail.")
    hold(shop, "release", "26-0001/2", "--on", "2026-03-05", "--because", "Mail.")
    ran = hold(shop, "scrap", "26-0001/1", "26-0001/2", "--on", "2026-03-07", typed="y\n", terminal=True)
    assert (ran.code, state(shop, 2), "[y/N]" in ran.err) == (2, "released", False)
    assert "2026-03-07 is before 2026-03-10, the day it was released" in ran.err


def test_a_part_is_not_sent_before_it_was_called_back_and_no_slip_is_written(shop):
    hold(shop, "call-back", "26-0001/1", "--on", "2026-03-10")
    ran = hold(shop, "send", "26-0001/1", "--on", "2026-03-05", "--slip", "slip.pdf")
    assert (ran.code, state(shop), (shop / "slip.pdf").exists()) == (2, "called back", False)


def test_several_parts_of_several_claims_are_scrapped_at_once(shop):
    filed_in(shop, "26-0002")
    ran = hold(
        shop, "scrap", "--yes", "26-0001/1", "26-0001/2", "26-0002", "26-0001/1", *WHY, "--json", day="2026-04-03"
    )
    assert [part["code"] for part in ran.json["scrapped"]] == ["26-0001/1", "26-0001/2", "26-0002/1"]


def test_a_part_of_an_unpaid_claim_is_not_scrapped_because_its_hold_ran_out(shop):
    ran = hold(shop, "scrap", "--yes", "26-0001/1", day="2026-04-03")
    assert (ran.code, state(shop, 1), "150.00 USD outstanding" in ran.out) == (3, "held", True)


def test_scrapping_shows_the_cautions_and_what_is_not_paid(shop):
    said = hold(shop, "scrap", "--yes", "26-0001/1", "--because", "no room", day="2026-04-03").err
    assert ("Fire hazard" in said, "150.00 USD outstanding" in said, "carrier" in said) == (True, True, False)


def test_the_time_to_inspect_lets_a_part_go(tmp_path):
    shop = a_managed_shop(tmp_path, "us-sc")
    filed_in(shop, received="2026-01-05")
    ran = hold(shop, "scrap", "--yes", "26-0001", "--json", day="2026-03-04")
    assert (ran.code, ran.json["scrapped"][0]["rule"]) == (0, NOT_INSPECTED)


def test_a_part_called_back_is_never_scrapped(shop):
    hold(shop, "call-back", "26-0001/1")
    assert hold(shop, "scrap", "--yes", "26-0001/1", day="2026-05-01").code == 3


def test_a_part_of_a_draft_is_kept_until_it_is_known_when_it_may_go(tmp_path):
    shop = a_managed_shop(tmp_path)
    open_in(shop)
    ran = hold(shop, "scrap", "--yes", "26-0001")
    assert (ran.code, state(shop)) == (3, "held")


@pytest.mark.parametrize("step", ["scrap", "send", "move", "call-back", "release"])
def test_what_left_the_shop_stays_gone(shop, step):
    hold(shop, "scrap", "--yes", "26-0001/1", *WHY, day="2026-04-03")
    more = {"move": ["C1"], "release": ["--because", "Mail."]}.get(step, [])
    assert hold(shop, step, "26-0001/1", *more, day="2026-04-03").code == 2


@pytest.mark.parametrize("day", ["2026-01-01", "2026-03-21", "soon"])
def test_a_day_that_cannot_be_is_refused(shop, day):
    assert hold(shop, "call-back", "26-0001/1", "--on", day).code == 2


@pytest.mark.parametrize(("typed", "after"), [("y\n", "scrapped"), ("n\n", "held"), ("", "held")])
def test_a_person_is_asked_before_a_part_is_scrapped(shop, typed, after):
    hold(shop, "scrap", "26-0001/1", *WHY, day="2026-04-03", typed=typed, terminal=True)
    assert state(shop) == after


def test_off_a_terminal_nothing_is_scrapped_without_yes(shop):
    ran = hold(shop, "scrap", "26-0001/1", *WHY, day="2026-04-03")
    assert (ran.code, state(shop), "--yes" in ran.err) == (4, "held", True)


def test_scripts_read_that_nothing_was_scrapped(shop):
    ran = hold(shop, "scrap", "26-0001/1", *WHY, "--json", day="2026-04-03")
    assert (ran.code, ran.json) == (4, {"scrapped": [], "refused": []})


@pytest.mark.parametrize(("day", "late"), [("2026-03-19", False), ("2026-03-20", True)])
def test_a_part_sent_after_the_day_it_was_wanted_by_is_told_at_once(shop, day, late):
    hold(shop, "call-back", "26-0001/1", "--on", "2026-03-10", "--send-by", "2026-03-19")
    assert ("wanted it sent by 2026-03-19" in hold(shop, "send", "26-0001/1", "--on", day).err) is late


def test_a_part_that_was_not_called_back_is_said_to_be_so(shop):
    assert (hold(shop, "send", "26-0001/1").code, state(shop)) == (2, "held")


def test_yes_asks_nobody(shop):
    ran = hold(shop, "scrap", "--yes", "26-0001/1", *WHY, day="2026-04-03", terminal=True)
    assert (state(shop), "[y/N]" in ran.err) == ("scrapped", False)


def test_a_part_that_cannot_be_sent_names_the_commands(shop):
    ran = hold(shop, "send", "26-0001/1")
    assert "claimpack hold call-back 26-0001/1; it lets it go: claimpack hold release 26-0001/1" in ran.err


def test_a_part_may_have_been_moved_before_its_claim_was_filed(shop):
    assert hold(shop, "move", "26-0001/1", "C7", "--on", "2025-12-02").code == 0


def test_a_part_is_not_moved_on_a_day_still_to_come(shop):
    ran = hold(shop, "move", "26-0001/1", "C7", "--on", "2026-03-21")
    assert (ran.code, "still to come" in ran.err) == (2, True)


def test_the_maker_calls_nothing_back_before_the_claim_was_filed(shop):
    ran = hold(shop, "call-back", "26-0001/1", "--on", "2026-01-01")
    assert (ran.code, "2026-01-02" in ran.err) == (2, True)


def test_a_part_of_a_paid_claim_is_better_kept_while_its_refused_rest_is_undecided(shop):
    happen(shop, "26-0001", "answered", answer="part", amount="100.00")
    happen(shop, "26-0001", "paid", amount="100.00")
    part = hold(shop, "list", "--json", day="2026-09-20").json["parts"][0]
    assert (part["may_go"], "50.00 USD" in part["better_kept"]) == (True, True)
    assert "0 may be scrapped" in hold(shop, "list", day="2026-09-20").out


UNDO = ("--undo", "--because", "The wrong tag was scanned.")


def kept_facts(shop):
    """The parts as a list tells them."""
    return hold(shop, "list", "--state", "all", "--json").json["parts"]


@pytest.mark.parametrize(
    ("before", "step"),
    [
        ([], ("call-back", "--send-by", "2026-03-25")),
        ([("call-back", "--send-by", "2026-03-25")], ("send",)),
        ([("call-back", "--send-by", "2026-03-25")], ("call-back", "--send-by", "2026-04-30")),
        ([], ("release", "--because", "Mail.")),
        ([("release", "--because", "Mail.")], ("scrap", "--yes")),
    ],
    ids=["call-back", "send", "another day", "release", "scrap"],
)
def test_an_undone_step_leaves_the_part_as_it_was(shop, before, step):
    for each in before:
        hold(shop, each[0], "26-0001/1", *each[1:])
    was = kept_facts(shop)
    hold(shop, step[0], "26-0001/1", *step[1:])
    ran = hold(shop, step[0], "26-0001/1", *UNDO)
    assert (ran.code, kept_facts(shop)) == (0, was)


def test_an_undone_scrapping_is_undone_with_the_rule_that_let_the_part_go(shop):
    hold(shop, "scrap", "--yes", "26-0001/1", "26-0001/2", *WHY, day="2026-04-03")
    hold(shop, "scrap", "26-0001/1", "26-0001/2", *UNDO, day="2026-04-03")
    assert (state(shop, 1), state(shop, 2)) == ("held", "held")


def test_the_wrong_step_stays_in_a_history_that_holds(shop):
    hold(shop, "release", "26-0001/1", "--because", "Mail.")
    hold(shop, "release", "26-0001/1", *UNDO)
    kinds = [event.what for event in events(shop)]
    assert (kinds, hold(shop, "list").code) == (["part released", "part release undone"], 0)
    assert on("2026-03-20", "shop", "verify", shop=shop).out.startswith("WHOLE")


def test_undoing_says_where_the_part_stands_again(shop):
    hold(shop, "call-back", "26-0001/1", "--on", "2026-03-10", "--send-by", "2026-03-25")
    hold(shop, "send", "26-0001/1", "--on", "2026-03-15")
    ran = hold(shop, "send", "26-0001/1", *UNDO)
    assert ran.out == (
        "26-0001/1 short block is called back again, to be sent by 2026-03-25; the book has it on shelf B3\n"
    )
    assert ran.err == "Undone: the sending of 2026-03-15.\n"


def test_scripts_read_where_the_part_stands_again(shop):
    hold(shop, "release", "26-0001/1", "--because", "Mail.")
    told = hold(shop, "release", "26-0001/1", *UNDO, "--json").json["undone"][0]
    assert (told["code"], told["undone"], told["state"]) == ("26-0001/1", "part release undone", "held")


@pytest.mark.parametrize("how", [("--undo",), UNDO], ids=["no reason", "not the last step"])
def test_a_step_that_cannot_be_undone_is_refused(shop, how):
    hold(shop, "call-back", "26-0001/1")
    step = "release" if how == UNDO else "call-back"
    assert (hold(shop, step, "26-0001/1", *how).code, state(shop)) == (2, "called back")


def test_the_maker_may_want_a_part_by_another_day(shop):
    hold(shop, "call-back", "26-0001/1", "--on", "2026-03-10", "--send-by", "2026-03-25")
    ran = hold(shop, "call-back", "26-0001/1", "--send-by", "2026-04-30")
    assert "is to be sent by 2026-04-30 now, not by 2026-03-25" in ran.out
    assert "send it by 2026-04-30" in hold(shop, "list").out


@pytest.fixture
def given_up(tmp_path):
    """A shop that holds a part of a claim withdrawn before it was filed."""
    shop = a_managed_shop(tmp_path)
    open_in(shop)
    happen(shop, "26-0001", "withdrawn")
    return shop


def test_a_part_of_a_withdrawn_claim_goes_with_a_reason(given_up):
    ran = hold(given_up, "scrap", "--yes", "26-0001", "--because", "The owner took the unit back.")
    assert (ran.code, state(given_up)) == (0, "scrapped")


def test_a_part_of_a_withdrawn_claim_does_not_go_without_a_reason(given_up):
    ran = hold(given_up, "scrap", "--yes", "26-0001")
    assert (ran.code, state(given_up), "--because is missing" in ran.err) == (2, "held", True)


def test_the_list_says_that_a_part_of_a_withdrawn_claim_may_go(given_up):
    said = " ".join(hold(given_up, "list", "--may-go").out.split())
    assert "it may be scrapped (say why: --because): its claim was withdrawn, so nobody will inspect it" in said


@pytest.mark.parametrize(("today", "mark"), [("2026-03-25", "•"), ("2026-03-26", "✗")])
def test_a_part_to_be_sent_back_is_marked_once_its_day_is_over(shop, today, mark):
    hold(shop, "call-back", "26-0001/1", "--on", "2026-03-10", "--send-by", "2026-03-25")
    listed = claimpack("hold", "list", "--today", today, folder=shop, environ={"NO_COLOR": "1"}, terminal=True)
    assert f"{mark} the maker called it back" in listed.out


def test_money_at_stake_is_marked_on_monday_once_its_day_is_over(shop):
    hold(shop, "call-back", "26-0001/1", "--on", "2026-03-10", "--send-by", "2026-03-25")
    ran = claimpack("pending", "--today", "2026-03-26", folder=shop, environ={"NO_COLOR": "1"}, terminal=True)
    assert "✗ send " in ran.out


@pytest.mark.parametrize(
    "steps",
    [
        [("move", "26-0001/1", "C7")],
        [("call-back", "26-0001/1"), ("send", "26-0001/1")],
        [("release", "26-0001/1", "--because", "told so"), ("scrap", "26-0001/1", "--yes")],
    ],
    ids=lambda steps: steps[-1][0],
)
@pytest.mark.parametrize("as_json", [False, True])
def test_a_step_is_told_in_words_or_in_one_document(shop, steps, as_json):
    for step in steps:
        ran = hold(shop, *step, *["--json"][:as_json])
        assert (ran.code, ran.out.startswith("{"), "26-0001/1" in ran.out) == (0, as_json, True)


@pytest.mark.parametrize(
    "steps",
    [
        [("call-back", "26-0001/1")],
        [("release", "26-0001/1", "--because", "told so")],
        [("call-back", "26-0001/1"), ("send", "26-0001/1")],
        [("release", "26-0001/1", "--because", "told so"), ("scrap", "26-0001/1", "--yes")],
    ],
    ids=lambda steps: steps[-1][0],
)
@pytest.mark.parametrize("as_json", [False, True])
def test_a_step_taken_back_is_told_in_words_or_in_one_document(shop, steps, as_json):
    for step in steps:
        hold(shop, *step)
    ran = hold(shop, steps[-1][0], "26-0001/1", "--undo", "--because", "slip", *["--json"][:as_json])
    assert (ran.code, ran.out.startswith("{"), "None" in ran.out) == (0, as_json, False)


@pytest.mark.parametrize(("send_by", "again"), [((), "again; "), (("--send-by", "2026-03-30"), "by 2026-03-30; ")])
def test_a_part_not_sent_after_all_is_to_be_sent_by_the_day_it_was(shop, send_by, again):
    hold(shop, "call-back", "26-0001/1", *send_by)
    hold(shop, "send", "26-0001/1")
    assert again in hold(shop, "send", "26-0001/1", "--undo", "--because", "slip").out


def test_a_part_called_back_twice_keeps_the_day_it_was_called_back_first(shop):
    days = [
        hold(shop, "call-back", "26-0001/1", "--on", day, "--send-by", "2026-04-01", "--json").json["called_back"]
        for day in ("2026-03-10", "2026-03-12")
    ]
    assert days == ["2026-03-10", "2026-03-10"]


@pytest.mark.parametrize(("first", "says"), [((), "now;"), (("--send-by", "2026-03-30"), "not by 2026-03-30;")])
def test_another_day_to_send_a_part_by_is_told_beside_the_one_before(shop, first, says):
    hold(shop, "call-back", "26-0001/1", *first)
    assert says in hold(shop, "call-back", "26-0001/1", "--send-by", "2026-04-09").out


def test_a_part_without_a_shelf_is_told_without_one(tmp_path):
    shop = a_managed_shop(tmp_path)
    filed_in(shop, "26-0001", held=[{"part": "coil", "since": "2025-12-01"}])
    told = [hold(shop, *step).out for step in (("call-back", "26-0001/1"), ("move", "26-0001/1", "C7"))]
    assert ("shelf" in told[0], "(was" in told[1]) == (False, False)


@pytest.mark.parametrize(("codes", "named"), [(("26-0001/1",), "26-0001/1"), (("26-0001/1", "26-0001/2"), "CODE")])
def test_of_several_parts_to_be_kept_none_is_named_for_release(shop, codes, named):
    assert f"hold release {named} --because" in hold(shop, "scrap", *codes, "--yes").err
