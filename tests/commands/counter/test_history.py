import hashlib
import json

import pytest
from claim_folders import a_folder
from made_once import made_once
from running import claimpack
from shop_builders import a_shop, happen, the_desk

from claimpack.core.claims.claim import Claim


@pytest.fixture
def shop(tmp_path):
    return the_shop(tmp_path)


@made_once
def the_shop(place):
    shop = a_shop(place, "26-0001", "26-0002")
    claimpack("set", "26-0001", "unit.hours", "112.4", "--because", "misread", folder=shop)
    return shop


def history(shop, *arguments):
    return claimpack("history", *arguments, "--full", folder=shop)


def test_a_change_is_one_line_of_when_who_what_and_why(shop):
    ran = claimpack("history", "26-0001", folder=shop)
    assert ran.out.splitlines() == ["2026-03-01 09:30  ann: opened", "2026-03-01 09:30  ann: edited: misread"]


def test_a_long_why_goes_on_below_its_beginning_and_is_cut_in_the_end(shop, monkeypatch):
    monkeypatch.setenv("COLUMNS", "60")
    claimpack("withdraw", "26-0001", "--because", "why " * 50, folder=shop)
    lines = claimpack("history", "26-0001", folder=shop, terminal=True, environ={"NO_COLOR": "1"}).out.splitlines()
    assert (max(map(len, lines)) <= 60, lines[-1][:21], lines[-1][-1]) == (True, " " * 18 + "why", "…")


def test_a_change_says_when_who_what_and_why(shop):
    first, changed, why, value = history(shop, "26-0001").out.splitlines()
    assert first.startswith("2026-03-01 09:30  ann: opened, revision 1  ")
    assert changed.startswith("2026-03-01 09:30  ann: edited, revision 2  ")
    assert (why.strip(), value.strip()) == ("· because: misread", "· unit.hours: 100 -> 112.4")


def test_scripts_read_values_before_and_after_by_revision(shop):
    told = history(shop, "26-0001", "--json").json["changes"]
    assert told == [{"revision": 2, "key": "unit.hours", "before": "100", "after": "112.4"}]


def test_of_the_latest_changes_the_one_before_gives_the_values(shop):
    claimpack("set", "26-0001", "owner.name", "B. Customer", folder=shop)
    lines = history(shop, "26-0001", "--limit", "1").out.splitlines()
    assert [line.strip() for line in lines[1:]] == ["· owner.name: A. Customer -> B. Customer"]


def test_of_the_whole_book_the_keys_are_told(shop):
    assert "· changed: unit.hours" in history(shop).out


def test_a_long_text_is_told_where_it_differs(shop):
    long = "Dies when hot, mostly after ten minutes of cutting, and does not start again before it has cooled"
    for text in (f"{long} down.", f"{long} off."):
        claimpack("set", "26-0001", "failure.complaint", text, folder=shop)
    assert history(shop, "26-0001").out.endswith(
        "· failure.complaint: …before it has cooled down. -> …before it has cooled off.\n"
    )


def test_more_changes_than_a_screen_holds_are_counted(shop):
    with the_desk(shop).changing("26-0001") as changing:
        names = [{"operation": f"work {number}", "hours": "0.1"} for number in range(22)]
        changing.keep(Claim.model_validate(changing.claim.model_dump() | {"labour": names}))
    assert history(shop, "26-0001").out.endswith("· and 2 more; all: claimpack history 26-0001 --json\n")


@pytest.mark.parametrize("columns", [60, 80])
def test_a_line_too_long_for_the_terminal_breaks_between_words(shop, monkeypatch, columns):
    monkeypatch.setenv("COLUMNS", str(columns))
    claimpack("withdraw", "26-0001", "--on", "2026-02-27", "--because", "x", folder=shop)
    who = {"CLAIMPACK_WHO": "Wilhelmina of the front counter", "NO_COLOR": "1"}
    claimpack("reopen", "26-0001", "--on", "2026-02-28", "--because", "x", folder=shop, environ=who)
    lines = claimpack("history", "--full", folder=shop, environ={"NO_COLOR": "1"}, terminal=True).out.splitlines()
    told = " ".join(" ".join(lines).split())
    assert (
        max(map(len, lines)) <= columns,
        "Wilhelmina of the front counter: reopened (counts from 2026-02-28), revision 4" in told,
    ) == (True, True)


def test_without_a_claim_the_whole_book_is_told_by_number(shop):
    lines = [line for line in history(shop).out.splitlines() if not line.startswith(" ")]
    assert [line.split()[2] for line in lines] == ["26-0001", "26-0002", "26-0001"]


def test_the_latest_so_many_are_told_in_their_order(shop):
    events = history(shop, "--limit", "2", "--json").json["events"]
    assert [(event["claim"], event["what"]) for event in events] == [("26-0002", "opened"), ("26-0001", "edited")]


def test_what_is_left_out_is_said(shop):
    assert "The latest 2 of 3 changes." in history(shop, "--limit", "2").err


def test_another_business_day_is_said(shop):
    claimpack("withdraw", "26-0002", "--on", "2026-02-27", "--because", "x", folder=shop)
    assert "(counts from 2026-02-27)" in history(shop, "26-0002").out


def test_each_entry_carries_the_hash_of_the_one_before(shop):
    events = history(shop, "--json").json["events"]
    assert [event["previous"] for event in events] == ["0" * 64, *(event["hash"] for event in events[:-1])]


def test_a_hash_is_computed_again_by_hand_from_the_document(shop):
    event = history(shop, "26-0001", "--json").json["events"][0]
    seal = event.pop("hash")
    canonical = json.dumps(event, sort_keys=True, separators=(",", ":"), ensure_ascii=False)
    assert hashlib.sha256(canonical.encode()).hexdigest() == seal


def test_an_unknown_claim_is_refused(shop):
    assert history(shop, "26-0009").code == 2


def test_a_claim_folder_has_no_history(tmp_path):
    a_folder(tmp_path / "claim")
    ran = claimpack("history", "claim", folder=tmp_path)
    assert (ran.code, "Only the book keeps a history" in ran.err) == (2, True)


def test_facts_are_told_in_words(shop):
    happen(shop, "26-0002", "part called back", part="1", send_by="2026-03-20")
    assert "send by: 2026-03-20" in history(shop, "26-0002").out


@pytest.mark.parametrize(
    ("arguments", "named", "more", "whole"),
    [
        (("26-0001",), False, False, True),
        ((), True, False, True),
        (("--limit", "1"), True, True, True),
        (("26-0001", "--full"), False, False, False),
    ],
    ids=["a claim", "the book", "the latest", "in full"],
)
def test_what_a_history_leaves_out_is_told_and_how_to_see_it(shop, arguments, named, more, whole):
    ran = claimpack("history", *arguments, folder=shop)
    assert ("26-000" in ran.out, "--limit 0" in ran.err, "--full" in ran.err) == (named, more, whole)


@pytest.mark.parametrize("claim", [(), ("26-0001",)])
def test_no_limit_is_all(shop, claim):
    told = claimpack("history", *claim, "--limit", "0", "--json", folder=shop).json
    assert (len(told["events"]), "changes" in told) == (2 if claim else 3, bool(claim))
    assert told["claim"] == ("26-0001" if claim else None)


def test_a_payment_is_told_with_amount_and_memo(shop):
    happen(shop, "26-0002", "filed", claimed="10.00", currency="USD")
    happen(shop, "26-0002", "paid", amount="10.00", memo="CM-7")
    told = claimpack("history", "26-0002", folder=shop).out.splitlines()
    assert [line.partition(": ")[2] for line in told[1:]] == ["filed", "paid 10.00 memo CM-7"]


def test_a_change_without_a_reason_says_which_keys_it_changed(shop):
    claimpack("set", "26-0002", "unit.hours", "112.4", folder=shop)
    assert claimpack("history", "26-0002", folder=shop).out.splitlines()[-1].endswith("ann: edited: unit.hours")


def test_in_full_values_stand_in_place_of_the_keys(shop):
    told = history(shop, "26-0001").out
    assert ("100 -> 112.4" in told, "changed: unit.hours" in told, "because: misread" in told) == (True, False, True)
    assert "changed: unit.hours" in history(shop).out
