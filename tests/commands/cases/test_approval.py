import pytest
from builders import TODAY
from printed import page_texts, words_of
from running import claimpack
from shop_builders import a_shop, kept_claim, the_desk

WAITING = {"proof": {"kind": "receipt"}, "plan": "halden-2025", "dates__repaired": None}


@pytest.fixture
def shop(tmp_path):
    return a_shop(tmp_path, **WAITING)


def run(shop, *arguments):
    return claimpack(*arguments, "--today", TODAY, folder=shop)


def request(shop, *options):
    return run(shop, "approval", "request", "26-0001", "--operation", "short-block-replace", *options)


def facts_kept(shop):
    return the_desk(shop).book.history("26-0001")[-1].facts


def the_next(shop):
    return run(shop, "list", "--json").json["claims"][0]["next"]


def test_the_request_is_written_and_the_claim_waits(shop):
    ran = request(shop, "--ask", "May we?")
    approval = kept_claim(shop).approval
    assert (ran.code, (shop / "26-0001-approval.pdf").is_file()) == (0, True)
    assert (approval.state, approval.asked, approval.question) == ("asked", TODAY, "May we?")


def test_the_estimate_is_priced_by_the_plan_and_nothing_is_added_to_the_claim(shop):
    asked = request(shop, "--json").json
    assert (asked["estimate"], "147.20 USD" in asked["text"], kept_claim(shop).labour) == ("147.20", True, ())


@pytest.mark.parametrize(
    ("options", "file"),
    [
        ((), "26-0001-approval.pdf"),
        (("--text",), None),
        (("--out", "a.pdf"), "a.pdf"),
        (("--text", "--out", "a.pdf"), "a.pdf"),
    ],
)
def test_a_request_said_as_text_is_a_pdf_only_where_one_is_named(shop, options, file):
    assert request(shop, *options).code == 0
    assert [path.name for path in shop.glob("*.pdf")] == ([file] if file else [])


def test_text_does_not_go_where_the_pdf_does(shop):
    assert (request(shop, "--text", "--out", "-").code, kept_claim(shop).approval) == (2, None)


def test_the_history_of_a_request_says_what_was_to_be_done_for_how_much(shop):
    request(shop)
    facts = facts_kept(shop)
    assert (facts["operations"], facts["estimate"]) == ("short-block-replace", "147.20")


def test_a_request_for_what_is_on_the_claim_already_names_no_further_operation(shop):
    claimpack("part", "add", "26-0001", "H70-4410", "short block", "--cost", "100.00", folder=shop)
    assert run(shop, "approval", "request", "26-0001").code == 0
    assert "operations" not in facts_kept(shop)


def test_without_a_plan_nobody_is_sent_to_its_schedule(tmp_path):
    refused = request(a_shop(tmp_path, **WAITING | {"plan": "", "maker": "Nobody"}))
    assert (refused.code, "See why: claimpack check 26-0001" in refused.err) == (2, True)


def test_the_request_says_what_the_text_says(shop):
    request(shop, "--ask", "May we?")
    said = words_of(shop / "26-0001-approval.pdf")
    assert all(part in said for part in ("Our question: May we?", "147.20 USD", "Piston scored."))


def test_what_was_found_goes_along_page_by_page(shop):
    claimpack("finding", "add", "26-0001", "compression", "42", "psi", "--low", "110", folder=shop)
    assert "1 finding" in request(shop, "--json").json["text"]
    assert "Findings against limits" in page_texts(shop / "26-0001-approval.pdf")[-1]


def test_a_list_says_that_the_answer_is_waited_for(shop):
    request(shop)
    assert the_next(shop).startswith("wait for the maker's approval")


def test_who_starts_work_before_the_answer_is_told_at_once(shop):
    request(shop)
    ran = claimpack("labour", "start", "26-0001", "short-block-replace", "--json", folder=shop)
    assert "approval given|refused 26-0001" in ran.json["first"][1]


@pytest.mark.parametrize(
    "begun",
    [["labour", "add", "26-0001", "welding", "--hours", "1"], ["set", "26-0001", "dates.repaired", "2026-02-24"]],
)
def test_work_written_down_without_it_is_told_at_once(shop, begun):
    assert "approval given 26-0001" in claimpack(*begun, folder=shop).err


def test_an_approval_is_recorded_with_its_number_amount_day_and_conditions(shop):
    request(shop)
    options = ("--number", "A-7", "--amount", "300", "--expires", "2026-03-20", "--conditions", "Send it back.")
    assert run(shop, "approval", "given", "26-0001", *options).code == 0
    given = kept_claim(shop).approval
    assert (given.state, given.number, str(given.up_to), str(given.expires)) == ("given", "A-7", "300.00", "2026-03-20")
    assert the_next(shop) == "repair, then file"


def test_a_refusal_is_the_next_thing_to_tell(shop):
    request(shop)
    run(shop, "approval", "refused", "26-0001", "--because", "Wear.")
    assert the_next(shop).startswith("tell the owner")
    assert run(shop, "approval", "given", "26-0001", "--number", "A-9").code == 0
    assert the_next(shop) == "repair, then file"


ASKED = "approval request 26-0001 --operation short-block-replace"
GIVEN = "approval given 26-0001 --number A-7"
REFUSED = "approval refused 26-0001 --because Wear."


@pytest.mark.parametrize(
    ("steps", "undo", "left"),
    [
        ((ASKED,), "request", "nothing is recorded of an approval"),
        ((ASKED, GIVEN), "given", "the approval is asked"),
        ((ASKED, REFUSED), "refused", "the approval is asked"),
        ((GIVEN, REFUSED), "refused", "the approval is given"),
        (("set 26-0001 approval.number A-7", REFUSED), "refused", "the approval is given"),
    ],
)
def test_each_step_can_be_taken_back_and_what_stands_then_is_told(shop, steps, undo, left):
    for step in steps:
        assert run(shop, *step.split()).code == 0
    ran = run(shop, "approval", undo, "26-0001", "--undo", "--because", "Wrong claim.")
    assert (ran.code, ran.out.rstrip().rpartition("; ")[2]) == (0, left)


def test_after_a_refusal_is_taken_back_the_claim_is_as_it_was_before_it(shop):
    request(shop)
    before = kept_claim(shop)
    run(shop, *REFUSED.split())
    run(shop, "approval", "refused", "26-0001", "--undo", "--because", "Wrong claim.")
    assert kept_claim(shop) == before


def test_an_approval_without_a_number_counts_for_nothing(shop):
    assert run(shop, "approval", "given", "26-0001").code == 2
    assert kept_claim(shop).approval is None


def test_one_more_request_takes_the_place_of_an_approval_only_where_it_is_said(shop):
    run(shop, "approval", "given", "26-0001", "--number", "A-7")
    assert (request(shop).code, kept_claim(shop).approval.number) == (2, "A-7")
    assert (request(shop, "--again").code, kept_claim(shop).approval.state) == (0, "asked")


@pytest.mark.parametrize(
    "wrong",
    [
        ["request", "26-0001"],
        ["request", "26-0001", "--operation", "polish"],
        ["request", "26-0001", "--operation", "short-block-replace", "--out", "no/where.pdf"],
        ["given", "26-0001", "--number", "A-7", "--amount", "1.005"],
        ["given", "26-0001", "--number", "A-7", "--on", "2026-03-02"],
        ["given", "26-0001", "--number", "A-7", "--expires", "2026-02-01"],
        ["given", "26-0001", "--undo", "--because", "Slip."],
        ["refused", "26-0001", "--undo"],
        ["request", "26-9999"],
    ],
)
def test_what_makes_no_sense_is_refused_and_changes_nothing(shop, wrong):
    ran = run(shop, "approval", *wrong)
    assert (ran.code, kept_claim(shop).approval) == (2, None)


def test_after_the_repair_nothing_is_asked_for_before_it(shop):
    claimpack("set", "26-0001", "dates.repaired", "2026-02-24", folder=shop)
    assert (request(shop).code, kept_claim(shop).approval) == (2, None)


def test_a_favour_may_be_asked_for_before_the_repair(shop):
    claimpack("set", "26-0001", "dates.purchased", "2023-03-14", "dates.delivered", "2023-03-14", folder=shop)
    assert request(shop).code == 2
    claimpack("set", "26-0001", "case", "goodwill", "goodwill.because", "Known fault.", folder=shop)
    asked = request(shop, "--json").json["text"]
    assert ("request for goodwill and approval" in " ".join(asked.split()), "out of cover" in asked) == (True, True)
