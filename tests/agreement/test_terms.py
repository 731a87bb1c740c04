"""What a maker's terms say of a claim is told alike at the counter, by check, on paper and by a trial."""

from __future__ import annotations

from datetime import date

import pytest
from booklets import under
from drawn_packets import a_layout, page_texts
from running import Pipe
from typed_booklets import BATTERY_TOOL

from claimpack.commands.desk.say import Say
from claimpack.commands.desk.world import World
from claimpack.commands.plans.booklet.session import BookletSession
from claimpack.commands.screen.telling import tell_verdict
from claimpack.core.drafting.booklet.keys import plan_keys
from claimpack.core.drafting.imagined import TrialAsked, axes_of
from claimpack.core.drafting.imagined_claims import at_age, imagined_claim
from claimpack.core.drafting.trial import try_plan
from claimpack.core.judging.assessment import assess
from claimpack.core.payment.letters.approval_letter import request
from claimpack.core.payment.letters.letter import Sender
from claimpack.core.plans.plan import Plan
from claimpack.packet.drawing.evidence import PageEvidence
from claimpack.packet.drawn_pages import draw_pages

ASKED_AT_THE_COUNTER = {
    "unit": ("model", "use", "built", "model_year", "sold_in", "invoiced", "hours"),
    "dates": ("purchased", "delivered", "in_service", "registered", "failed", "presented", "resold", "transferred"),
}
DECIDED_BY = ("verdict", "plan", "window", "starts", "ends", "judged_on", "days_left", "hours_left", "limits_left")


def asked_at_the_counter(told):
    """The options of `cover` for the unit and the days of a claim."""
    given = ["--maker", told["maker"], "--component", told["failure"]["component"]]
    for table, keys in ASKED_AT_THE_COUNTER.items():
        for key in keys:
            if told[table].get(key) is not None:
                given += [f"--{key.replace('_', '-')}", told[table][key]]
    unit, owner = told["unit"], told.get("owner", {})
    serial = next((one["value"] for one in unit["serials"] if one["role"] == "unit"), "")
    flags = {
        "--no-meter": unit.get("meter") is False,
        "--second-owner": owner.get("first_owner") is False,
        "--never-registered": told["dates"].get("never_registered"),
        "--no-proof": told.get("proof", {}).get("kind") == "none",
    }
    case = ["--case", "stock"] if told.get("case") == "stock" else []
    return [*given, *(["--serial", serial] if serial else []), *case, *(flag for flag, said in flags.items() if said)]


def test_the_counter_answers_as_check_does(samples):
    plain = {
        number: told["claim"]
        for number, told in samples.shown.items()
        if told["claim"].get("case", "repair") in ("repair", "stock") and not told["claim"].get("earlier")
    }
    counter = {number: samples.told("cover", *asked_at_the_counter(claim)) for number, claim in plain.items()}
    of_both = {
        number: [{fact: told[fact] for fact in DECIDED_BY} for told in (counter[number], samples.checked[number])]
        for number in plain
    }
    assert len(plain) > 5
    assert {number: one for number, (one, _) in of_both.items()} == {
        number: two for number, (_, two) in of_both.items()
    }


SHARED = """
repair_time_extends = "calendar"
[[window]]
id = "unit"
name = "unit warranty"
covers = ["*"]
period = "P36M"
shares = [ {until = "P12M", maker = "1"}, {until = "P36M", maker = "0.50"} ]
[requires]
findings = [ {what = "capacity", unit = "%", at_most = "70", components = ["battery"]} ]
"""
IN_FULL = ""
HALF = "dates = {purchased = 2024-01-31, delivered = 2024-01-31, failed = 2026-02-01, presented = 2026-02-05}\n"
AT_LEAST = HALF + 'earlier = [ {component = "starter", presented = 2025-01-10, repaired = 2025-01-20} ]\n'
NOT_MEASURED = 'failure = {component = "battery"}\n'
NO_FAILURE = NOT_MEASURED + 'findings = [ {what = "capacity", value = "82", unit = "%"} ]\n'


@pytest.mark.parametrize("claim", [IN_FULL, HALF, AT_LEAST, NOT_MEASURED, NO_FAILURE])
def test_screen_packet_and_letter_tell_one_verdict_and_one_share(claim, tmp_path):
    found = under(SHARED, claim)
    out = Pipe("")
    tell_verdict(Say(World(out, out, out, {}, tmp_path, None)), found)
    packet = page_texts(draw_pages(found, a_layout(sections=["cover"]), PageEvidence()))[0]
    letter = request(found, "", Sender(name="Quarry Road"), (), ()).paragraphs[0]
    told = [str(said) for said in (found.headline, found.share) if said]
    for words in (" ".join(out.getvalue().split()), packet, letter):
        assert [said.partition(": ")[2] or said.partition(" ")[2] in words for said in told]


def test_a_trial_pays_what_a_claim_of_that_day_is_paid():
    session = BookletSession("own", date(2026, 3, 1), currency="USD")
    for question in session.questions:
        if session.is_open(question):
            typed = BATTERY_TOOL.get(question.key) or question.suggestion(session)
            session.answer(question, typed) if typed else session.skip(question)
    plan = Plan.model_validate({"format": 1, **plan_keys(session.values, "own")})
    axes = axes_of([plan], date(2026, 3, 1), TrialAsked(components=("battery",), uses=("household",)))
    (row,) = try_plan(plan, axes).blocks[0].rows
    claim = imagined_claim(plan, axes.sold, axes.units[0])
    for age, paid in zip(axes.ages, row.paid, strict=True):
        whole = at_age(claim, age, "household", "battery")
        part = {"name": "battery", "unit_cost": "3600.00"}
        keys = {**whole.model_dump(mode="json", exclude_unset=True, by_alias=True), "parts": [part]}
        found = assess(type(whole).model_validate(keys), [plan], date(2030, 1, 1))
        assert (paid.verdict, f"{paid.shares[0] * 3600:.2f}") == (found.verdict, str(found.amounts.parts))
