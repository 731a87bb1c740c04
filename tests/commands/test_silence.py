"""What silence that refuses does, seen through every command that tells of the claim."""

import pytest
from running import claimpack
from shop_builders import the_desk
from shops_with_claims import a_copy, walked

TERMS = """
format = 1
id = "our-agreement"
name = "Our agreement"
cites = "Dealer agreement 7"
answer_within = "P30D"
silence = "refused"
resubmit_within = "P30D"
audit_reach = "P1Y"
"""
LAST, AFTER, LAST_AGAIN, TOO_LATE = "2026-03-29", "2026-03-30", "2026-04-28", "2026-04-29"


@pytest.fixture(scope="module")
def under_terms(draft_shop, tmp_path_factory):
    folder = a_copy(draft_shop, tmp_path_factory.mktemp("filed"))
    (folder / "terms").mkdir(exist_ok=True)
    (folder / "terms" / "our-agreement.toml").write_text(TERMS)
    settings = folder / "shop.toml"
    settings.write_text(settings.read_text().replace('terms = ""', 'terms = "our-agreement"', 1))
    walked(folder, "file --on 2026-02-25 --received 2026-02-27")
    return folder


@pytest.fixture
def shop(under_terms, tmp_path):
    return a_copy(under_terms, tmp_path)


def told(shop, day, *command):
    return claimpack(*command, "--today", day, "--json", folder=shop).json


@pytest.mark.parametrize(("day", "state"), [(LAST, "filed"), (AFTER, "refused")])
def test_every_list_says_the_same_of_a_claim_that_silence_refused(shop, day, state):
    shown = told(shop, day, "show", "26-0001")["standing"]["state"]
    listed, found = (told(shop, day, *way)["claims"][0]["state"] for way in (["list"], ["find", "26-0001"]))
    pending = told(shop, day, "pending")["claims"][0]["state"]
    assert [shown, listed, found, pending] == [state] * 4


@pytest.mark.parametrize(("state", "count"), [("refused", 1), ("filed", 0)])
def test_a_list_of_one_state_goes_by_the_day(shop, state, count):
    assert told(shop, AFTER, "list", "--state", state)["count"] == count


def test_the_ledger_and_the_report_go_by_the_day(shop):
    claimpack("export", "--csv", "all.csv", "--today", AFTER, folder=shop)
    first = told(shop, AFTER, "report", "--csv")["sections"]
    assert "refused" in (shop / "all.csv").read_text()
    assert "silence refused it" in str(first)


def test_a_claim_that_silence_refused_is_sent_in_again_and_the_history_says_why(shop):
    assert claimpack("file", "26-0001", "--on", LAST_AGAIN, "--today", LAST_AGAIN, folder=shop).code == 0
    silent, again = the_desk(shop).book.history("26-0001")[-2:]
    assert (silent.what, silent.on.isoformat(), again.what) == ("answered", LAST, "filed")
    assert silent.facts == {"answer": "refused", "silence": "yes"}


def test_before_silence_has_spoken_it_is_not_sent_in_again(shop):
    assert claimpack("file", "26-0001", "--on", LAST, "--today", LAST, folder=shop).code == 2


def test_sending_in_again_too_late_is_told_and_asks_for_a_reason(shop):
    ran = claimpack("file", "26-0001", "--on", TOO_LATE, "--today", TOO_LATE, "--json", folder=shop)
    assert (ran.json["filed"], "Dealer agreement 7" in ran.json["blocks"][0]) == (False, True)
    assert ran.code == 4


def test_with_a_reason_it_goes_all_the_same_and_the_reason_is_kept(shop):
    ran = claimpack(
        "file", "26-0001", "--on", TOO_LATE, "--anyway", "They asked for it.", "--today", TOO_LATE, folder=shop
    )
    event = the_desk(shop).book.history("26-0001")[-1]
    assert (ran.code, event.why, event.facts["against"].startswith("The last day")) == (0, "They asked for it.", True)


def test_a_refusal_for_form_sent_in_again_too_late_asks_for_a_reason_too(shop):
    walked(shop, "answer refused --form --on 2026-03-10 --today 2026-03-10")
    late = claimpack("file", "26-0001", "--on", "2026-04-10", "--today", "2026-04-10", folder=shop)
    in_time = claimpack("file", "26-0001", "--on", "2026-04-09", "--today", "2026-04-10", folder=shop)
    assert (late.code, in_time.code) == (4, 0)


def test_no_letter_asks_for_an_answer_once_silence_has_refused(shop):
    assert told(shop, AFTER, "chase", "26-0001")["asks"] is None


@pytest.mark.parametrize(("on", "told_of"), [("2027-03-10", False), ("2027-03-11", True)])
def test_a_charge_back_after_an_audit_could_reach_is_told_with_the_section(shop, on, told_of):
    walked(shop, "answer accepted --on 2026-03-01", "pay 147.20 --on 2026-03-10 --today 2026-03-10")
    back = ("pay", "26-0001", "40.00", "--charged-back", "--because", "Audit", "--on", on, "--today", on)
    assert ("Dealer agreement 7" in claimpack(*back, folder=shop).err) is told_of
    assert claimpack("chase", "26-0001", "--today", "2027-03-12", "--json", folder=shop).json["contests"] is told_of
