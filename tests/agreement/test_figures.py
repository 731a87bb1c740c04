"""Figures above a thousand read alike in a claim's packet, its letter and on the screen; scripts read them as ever."""

from __future__ import annotations

import pytest
from builders import TODAY, a_claim, a_plan, a_window
from drawn_packets import a_layout, draw, text_of

from claimpack.core.judging.assessment import assess
from claimpack.core.judging.assessment_json import as_json
from claimpack.core.payment.letters.approval_letter import request
from claimpack.core.payment.letters.letter import Sender, as_text

CLAIM = a_claim(
    unit__hours="1240.5",
    findings=[{"what": "idle speed", "value": "3400", "unit": "rpm", "low": "2700", "high": "3100"}],
    parts=[{"number": "70-1180", "name": "Short block", "quantity": 2, "unit_cost": "1908.82"}],
    labour=[{"operation": "block", "technician": "Marit Sund"}],
)
PLAN = a_plan(
    window=[a_window(hours="1500")],
    pays={"labour_rate": "92.00", "claim_cap": "2500.00"},
    operation=[{"code": "block", "name": "Replace block", "hours": "1.6"}],
)


@pytest.fixture(scope="module")
def said():
    """What each says of the claim, blanks and line ends made one blank."""
    found = assess(CLAIM, [PLAN], TODAY)
    letter = request(found, "", Sender(name="Quarry Road"), (), ())
    return {
        "packet": text_of(draw(CLAIM, PLAN)),
        "letter": " ".join(as_text(letter).split()),
        "screen": " ".join(reason.because for window in found.windows for reason in window.reasons),
        "in Spanish": text_of(draw(CLAIM, PLAN, a_layout("carta-a4"))),
        "scripts": as_json(found),
    }


@pytest.mark.parametrize(
    ("where", "figures"),
    [
        ("packet", ("1,240.5 h", "1,500 h", "259.5 h", "3,400 rpm", "2,700", "1,908.82", "2,500.00", "up to 2,500.00")),
        ("letter", ("1,240.5 h", "3,400 rpm", "2,700 to 3,100 rpm", "2,500.00 USD")),
        ("screen", ("1,240.5 h", "1,500 h")),
    ],
)
def test_thousands_stand_apart_by_commas_in_english(said, where, figures):
    assert [figure for figure in figures if figure not in said[where]] == []


def test_thousands_stand_apart_by_blanks_in_spanish(said):
    figures = ("1 240.5", "1 500", "3 400", "1 908.82", "2 500.00")
    assert [figure for figure in figures if figure not in said["in Spanish"]] == []
    assert not any(figure in said["in Spanish"] for figure in ("1,240.5", "1240.5", "2500.00", "1,500 h"))


def test_scripts_read_figures_as_they_were_written_down(said):
    assert said["scripts"]["windows"][0]["hours_limit"] == "1500"
    assert any("1240.5 h; the limit is 1500 h" in reason for reason in said["scripts"]["windows"][0]["reasons"])
    assert "limit is 1500 h" not in said["screen"]
