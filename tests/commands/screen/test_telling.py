from __future__ import annotations

from decimal import Decimal
from functools import partial
from pathlib import Path

import pytest
from builders import TODAY, a_claim, a_plan, a_window
from running import Pipe

from claimpack.commands.desk.say import Say
from claimpack.commands.desk.world import World
from claimpack.commands.screen.telling import how_far, note_no_plan, tell, tell_summary, tell_verdict, tell_verdict_line
from claimpack.core.judging.assessment import Circumstances, assess
from claimpack.core.pricing.retail import Retail

OVERRIDE = "\N{RIGHT-TO-LEFT OVERRIDE}"
PARTS = [{"name": "Ring", "unit_cost": "10.00"}]


def heard(teller, *plans, **changes):
    """What is said of a claim on stdout and on stderr."""
    world = World(stdin=Pipe(), stdout=Pipe(), stderr=Pipe(), environ={}, folder=Path("/nowhere"))
    teller(Say(world), assess(a_claim(**changes), plans or [a_plan()], TODAY))
    return world.stdout.getvalue(), world.stderr.getvalue()


def told_of(say, assessment):
    """The whole assessment of a claim by Halden, told."""
    tell(say, assessment, "Halden")


def lines(teller, *plans, **changes):
    return heard(teller, *plans, **changes)[0].splitlines()


@pytest.mark.parametrize(
    ("days", "said"), [(-31, "31 days ago"), (-1, "1 day ago"), (0, "today"), (1, "in 1 day"), (28, "in 28 days")]
)
def test_how_far_a_day_is(days, said):
    assert how_far(days) == said


@pytest.mark.parametrize(
    ("changes", "begins"),
    [
        ({}, "COVERED  until 2026-03-14"),
        ({"failure__component": "deck"}, "NOT COVERED  "),
        ({"failure__component": None, "failure__part": None}, "UNDECIDED  "),
    ],
)
def test_the_verdict_is_said_once_and_comes_first(changes, begins):
    first = lines(tell_verdict, a_plan(words={"deck": []}), **changes)[0]
    assert (first.startswith(begins), first.lower().count("covered") <= 1) == (True, True)


def test_windows_that_do_not_apply_are_told_last_with_what_speaks_against_them():
    windows = [a_window(id="deck", name="deck", covers=["deck"]), a_window()]
    said = lines(partial(tell_verdict, why=True), a_plan(window=windows))
    at = said.index("Windows that do not apply")
    assert any("deck" in line for line in said[at:])
    assert not any(line.startswith("deck:") for line in said[:at])


def test_of_a_window_that_does_not_apply_only_what_speaks_against_it_is_told_and_not_that_it_is_over():
    deck = a_window(id="deck", name="deck", covers=["deck"], period="P1M")
    judged = assess(a_claim(), [a_plan(window=[deck, a_window()])], TODAY)
    (against,) = [window for window in judged.windows if window.id == "deck"]
    (component,) = [str(reason.because) for reason in against.reasons if reason.rule == "component"]
    told = " ".join(heard(partial(tell_verdict, why=True), a_plan(window=[deck, a_window()]))[0].split())
    assert (told.endswith(f"- deck. {component}"), "age" in {reason.rule for reason in against.reasons}) == (True, True)


def test_windows_that_do_not_apply_are_one_line_unless_somebody_asks_why():
    windows = [a_window(id="deck", name="deck", covers=["deck"]), a_window()]
    said = [line for line in lines(tell_verdict, a_plan(window=windows)) if "deck" in line]
    assert said == ["  - 1 window does not apply: deck. Why: claimpack check 26-0001 --why"]


def test_the_window_that_decides_is_told_before_the_other_open_ones():
    windows = [a_window(id="a", name="shorter", period="P13M"), a_window(id="b", name="longer", period="P24M")]
    said = [line for line in lines(tell_verdict, a_plan(window=windows)) if ": holds" in line]
    assert [line.partition(":")[0] for line in said] == ["longer", "shorter"]


def test_what_steers_a_terminal_is_shown_not_obeyed():
    changes = {"maker": f"hal{OVERRIDE}den", "failure__component": f"short{OVERRIDE} block"}
    whole, _ = heard(
        lambda say, judged: tell(say, judged, f"hal{OVERRIDE}den"), a_plan(maker=f"hal{OVERRIDE}den"), **changes
    )
    assert (OVERRIDE in whole, "hal[U+202E]den CS-70" in whole) == (False, True)


def test_the_first_line_says_which_unit_it_is():
    assert lines(told_of)[0] == "26-0001 · Halden CS-70 · unit HC70-1, engine E70-1"


def test_a_unit_without_serial_numbers_ends_the_first_line_with_its_model():
    assert lines(told_of, unit__serials=[])[0] == "26-0001 · Halden CS-70"


def test_what_owner_and_shop_pay_is_told_where_they_pay():
    said = lines(told_of, parts=[{**PARTS[0], "payer": "owner"}, {**PARTS[0], "payer": "shop"}])
    paid = [line.strip() for line in said if " pays " in line]
    assert paid == ["· the owner pays 10.00", "· the shop pays 10.00"]


def test_the_tax_in_what_the_owner_pays_is_told():
    parts = [{**PARTS[0], "payer": payer} for payer in ("owner", "shop")]
    charges = Circumstances(retail=Retail(tax=Decimal("0.08")))
    world = World(stdin=Pipe(), stdout=Pipe(), stderr=Pipe(), environ={}, folder=Path("/nowhere"))
    told_of(Say(world), assess(a_claim(parts=parts), [a_plan()], TODAY, charges))
    paid = [line.strip() for line in world.stdout.getvalue().splitlines() if " pays " in line]
    assert paid == ["· the owner pays 10.80 (tax in it: 0.80)", "· the shop pays 10.00"]


def test_the_answer_stands_before_what_is_missing_the_dates_and_why():
    plan = a_plan(filing={"within": "P30D", "of": "repaired"}, requires=SHOTS)
    said = lines(told_of, plan, parts=PARTS)
    order = ["Claimed from the maker: 10.00 USD", "Dates to keep", "Why", "How the amount adds up"]
    assert [line for line in said if line in order] == order
    assert said.index("Claimed from the maker: 10.00 USD") < _missing_at(said) < said.index("Dates to keep")


def test_what_is_missing_says_by_when_it_must_be_there():
    said = lines(told_of, a_plan(filing={"within": "P30D", "of": "repaired"}, requires=SHOTS), parts=PARTS)
    assert said[_missing_at(said)].endswith(", by 2026-03-26 (in 25 days)")


def _missing_at(said):
    return next(at for at, line in enumerate(said) if line.startswith("Missing before it can be filed"))


def test_amounts_stand_in_one_column():
    said = lines(told_of, parts=PARTS)
    assert [line for line in said if line.endswith("10.00")] == ["  parts    10.00", "  claimed  10.00"]


def test_where_nothing_is_priced_nothing_adds_up():
    assert "How the amount adds up" not in lines(told_of)


def test_the_summary_is_verdict_amount_and_what_blocks_filing():
    said = lines(tell_summary, a_plan(requires={"serial_roles": ["unit", "starter"]}), parts=PARTS)
    assert said[1:3] == ["Claimed from the maker: 10.00 USD", "Missing before it can be filed:"]
    assert any("starter" in line for line in said[3:])


def test_a_summary_of_a_complete_claim_has_two_lines():
    assert len(lines(tell_summary, parts=PARTS, held=[{"part": "ring", "drained": True}])) == 2


@pytest.mark.parametrize(("maker", "noted"), [("halden", False), ("nobody", True)])
def test_where_no_plan_was_found_it_is_said_where_plans_are(maker, noted):
    assert ("claimpack plan list" in heard(note_no_plan, maker=maker)[1]) is noted


def test_a_terminal_gets_the_verdict_in_colour():
    world = World(stdout=Pipe(), environ={"FORCE_COLOR": "1"}, folder=Path())
    tell_verdict_line(Say(world), assess(a_claim(), [a_plan()], TODAY))
    assert world.stdout.getvalue().startswith("\x1b[1;32mCOVERED\x1b[0m  until")


SHOTS = {"shots": ["serial plate", "whole unit"]}


def test_shots_that_are_missing_share_a_line():
    said = lines(told_of, a_plan(requires=SHOTS), parts=PARTS)
    assert [line for line in said if "photo" in line] == ["  • photo: serial plate, whole unit. The plan asks for it."]


def test_a_clock_of_no_minutes_beside_scheduled_hours_is_told():
    plan = a_plan(operation=[{"code": "coil", "name": "Replace coil", "hours": "0.5"}])
    stopped = {"operation": "coil", "started": "2026-02-24T09:00:00", "ended": "2026-02-24T09:00:00"}
    assert "0.00 h" in heard(told_of, plan, labour=[stopped])[0]


def test_a_claim_that_is_not_covered_need_not_be_filed():
    said = heard(told_of, a_plan(requires=SHOTS, words={"deck": []}), failure__component="deck")[0]
    assert ("Not covered: it need not be filed" in said, "Missing before" in said) == (True, False)
    assert "If it is filed all the same, it still needs: photo: serial plate, whole unit" in said


def test_a_date_that_lies_ahead_is_to_be_put_right_and_not_missing():
    said = lines(told_of, dates__repaired="2026-03-05")
    after = said[next(at for at, line in enumerate(said) if line.startswith("To correct")) + 1]
    assert after.startswith("  • a date in the future: the day it was repaired.")


def test_a_share_that_is_not_all_is_told_right_after_the_verdict():
    plan = a_plan(window=[a_window(shares=[{"until": "P1Y", "maker": "0.50"}])])
    assert "pays 50 %" in lines(tell_verdict_line, plan)[1]


@pytest.mark.parametrize(
    ("window", "changes", "told"),
    [
        ({}, {}, "engine: holds · 2025-03-14 to 2026-03-14"),
        ({"cites": "p. 12"}, {}, "engine: holds · 2025-03-14 to 2026-03-14 (p. 12)"),
        ({}, {"dates__purchased": None, "dates__delivered": None}, "engine: not known yet · days not known"),
    ],
)
def test_a_window_is_told_with_its_days_and_what_it_cites(window, changes, told):
    assert told in lines(tell_verdict, a_plan(window=[a_window(**window)]), **changes)


def test_windows_stand_in_the_order_that_matters():
    windows = [
        a_window(id="closed", name="closed", period="P1M"),
        a_window(id="open", name="open", period="P13M"),
        a_window(id="cited", name="cited", period="P24M"),
    ]
    said = lines(tell_verdict, a_plan(window=windows))
    assert [line.partition(":")[0] for line in said if " · " in line] == ["cited", "open", "closed"]


@pytest.mark.parametrize(
    ("changes", "adds_up"),
    [({}, False), ({"parts": PARTS}, True), ({"parts": [{**PARTS[0], "payer": "owner"}]}, True)],
    ids=["nothing", "the maker pays", "the owner pays"],
)
def test_how_the_amount_adds_up_is_told_where_anybody_pays_anything(changes, adds_up):
    assert ("How the amount adds up" in lines(told_of, **changes)) is adds_up


def test_by_when_it_must_be_filed_is_not_told_of_what_is_not_covered():
    plan = a_plan(filing={"within": "P30D", "of": "repaired"}, requires=SHOTS, words={"deck": []})
    title = next(line for line in lines(told_of, plan, failure__component="deck") if line.startswith("Not covered: it"))
    assert title == "Not covered: it need not be filed"


@pytest.mark.parametrize(
    ("goodwill", "told"),
    [
        ({"asks": "parts", "because": "Nearly new."}, "GOODWILL ASKED  parts: Nearly new."),
        ({"asks": "parts"}, "GOODWILL ASKED  parts"),
        ({"because": "Nearly new."}, "GOODWILL ASKED  Nearly new."),
        ({}, "GOODWILL ASKED  no reason is given yet"),
    ],
)
def test_what_is_asked_as_a_favour_is_told_with_its_reason(goodwill, told):
    said = lines(
        tell_verdict_line, a_plan(words={"deck": []}), case="goodwill", goodwill=goodwill, failure__component="deck"
    )
    assert [line for line in said if line.startswith("GOODWILL")] == [told]


@pytest.mark.parametrize(("named", "command"), [("", "check 26-0001 --why"), ("./saw", "check ./saw --why")])
def test_why_windows_do_not_apply_is_asked_by_the_name_the_claim_goes_by(named, command):
    windows = [a_window(id="deck", name="deck", covers=["deck"]), a_window()]
    for teller in (partial(tell_verdict, named=named), partial(tell, maker="Halden", named=named)):
        assert f"claimpack {command}" in heard(teller, a_plan(window=windows))[0]


@pytest.mark.parametrize(("within", "late"), [("P3D", True), ("P30D", False)])
def test_a_claim_whose_day_to_file_is_past_is_said_to_be_late(within, late):
    said = lines(tell_verdict_line, a_plan(filing={"within": within, "of": "repaired"}))
    assert [line[6:7].isupper() for line in said if line.startswith("LATE  ")] == [True] * late


@pytest.mark.parametrize(("payer", "named"), [("maker", False), ("owner", True)])
def test_a_note_on_a_line_names_who_pays_it_where_that_is_not_the_maker(payer, named):
    plan = a_plan(operation=[{"code": "coil", "name": "Replace coil", "hours": "0.5"}])
    stopped = {"operation": "coil", "started": "2026-02-24T09:00:00", "ended": "2026-02-24T09:00:00", "payer": payer}
    assert (f", the {payer} pays: " in heard(told_of, plan, labour=[stopped])[0]) is named
