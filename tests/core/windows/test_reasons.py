import pytest

from claimpack.core.windows.reasons import fails, passes, settled, unknown

FOR = passes("owner", "owner.first")
AGAINST = fails("owner", "owner.later")
OPEN = unknown("owner", "owner.first_owner", "owner.unknown")


@pytest.mark.parametrize(
    ("reasons", "answer"),
    [([], True), ([FOR], True), ([FOR, OPEN], None), ([OPEN, AGAINST], False), ([AGAINST, FOR], False)],
    ids=["nothing said", "one for", "one open", "one against and one open", "one against"],
)
def test_one_reason_against_settles_it_and_one_open_leaves_it_open(reasons, answer):
    assert settled(reasons) is answer


def test_a_reason_is_said_in_english():
    assert passes("event", "event.on", event="2026-02-05", role_word="presented").because == (
        "The claim is judged on 2026-02-05, the day it was brought in."
    )


def test_an_open_reason_names_the_fact_it_waits_for():
    assert (OPEN.outcome, OPEN.asks) == ("unknown", "owner.first_owner")
