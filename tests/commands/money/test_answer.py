import pytest
from manager_shop import a_managed_shop, filed_in, on
from running import claimpack
from shop_builders import the_desk
from shops_with_claims import CLAIMED, a_copy, walked


@pytest.fixture
def shop(filed_shop, tmp_path):
    return a_copy(filed_shop, tmp_path)


def answered(shop, *options):
    return claimpack("answer", "26-0001", *options, folder=shop)


def last_event(shop):
    return the_desk(shop).book.history("26-0001")[-1]


@pytest.mark.parametrize(
    ("answer", "state", "outstanding"),
    [
        (["accepted"], "accepted", "147.20"),
        (["part", "--amount", "100"], "accepted", "100.00"),
        (["refused"], "refused", "147.20"),
        (["questioned"], "questioned", "147.20"),
    ],
)
def test_an_answer_leaves_the_claim_in_its_state(shop, answer, state, outstanding):
    told = answered(shop, *answer, "--on", "2026-02-27", "--json").json
    assert (told["state"], told["answered"], told["outstanding"]) == (state, "2026-02-27", outstanding)


def test_an_answer_is_in_the_history_with_its_reason(shop):
    answered(shop, "refused", "--form", "--because", "Serial number missing.")
    event = last_event(shop)
    assert (event.what, event.why, event.facts) == (
        "answered",
        "Serial number missing.",
        {"answer": "refused", "form": "yes"},
    )


def test_without_a_day_an_answer_came_in_today(shop):
    assert answered(shop, "accepted", "--json").json["answered"] == "2026-03-01"


def test_a_refusal_for_form_says_that_it_can_be_sent_in_again(shop):
    ran = answered(shop, "refused", "--form")
    assert "26-0001 is refused" in ran.out
    assert "resubmit it: claimpack file 26-0001" in ran.err


@pytest.mark.parametrize(
    ("options", "said"),
    [
        (["part"], "--amount is missing"),
        (["part", "--amount", "147.21"], "more than was claimed"),
        (["part", "--amount", "1.005"], "more decimals than USD"),
        (["part", "--amount", "0"], "not above zero"),
        (["approved"], "'approved'"),
        ([], "ANSWER is missing"),
        (["accepted", "--on", "2026-02-24"], "2026-02-25"),
        (["accepted", "--on", "2026-03-02"], "2026-03-02"),
        (["accepted", "--on", "2026-2-27"], "2026-2-27"),
        (["refused", "--because", "a\x1b[2Jb"], "control character"),
    ],
)
def test_what_cannot_be_is_refused_and_changes_nothing(shop, options, said):
    ran = answered(shop, *options)
    assert (ran.code, said in ran.err, last_event(shop).what) == (2, True, "filed")


def test_a_draft_is_not_answered(draft_shop, tmp_path):
    ran = answered(a_copy(draft_shop, tmp_path), "accepted")
    assert (ran.code, "the claim is a draft, so it cannot be answered now" in ran.err) == (2, True)


def test_an_answer_entered_by_mistake_is_undone_and_both_stay_in_the_history(shop):
    walked(shop, "answer refused --on 2026-02-26")
    ran = answered(shop, "--undo", "--because", "Meant for another claim.")
    assert "26-0001 is filed" in ran.out
    kinds = [event.what for event in the_desk(shop).book.history("26-0001")]
    assert kinds == ["imported", "filed", "answered", "answer undone"]


def test_an_undone_answer_needs_a_reason(shop):
    walked(shop, "answer refused --on 2026-02-26")
    ran = answered(shop, "--undo")
    assert (ran.code, "--because is missing" in ran.err) == (2, True)


def test_the_book_stays_whole_over_answers_and_undoing(shop):
    walked(shop, "answer questioned", "answer part --amount 100", "answer --undo --because slip", "answer accepted")
    assert claimpack("shop", "verify", folder=shop).out.startswith("WHOLE")


def test_a_part_says_in_one_line_what_was_not_accepted_and_the_ways_on(shop):
    said = answered(shop, "part", "--amount", "100").err.splitlines()[-1]
    assert said.startswith("47.20 USD was not accepted.")
    assert "claimpack write-off 26-0001 --rest" in said


def test_a_maker_that_gives_in_after_paying_owes_the_rest(shop):
    walked(shop, "answer part --amount 100", "pay 100")
    told = answered(shop, "accepted", "--json").json
    assert (told["state"], told["accepted"], told["outstanding"]) == ("accepted", CLAIMED, "47.20")


def test_giving_in_is_undone_and_the_claim_is_paid_as_before(shop):
    walked(shop, "answer part --amount 100", "pay 100", "answer accepted")
    told = answered(shop, "--undo", "--because", "Meant for another claim.", "--json").json
    assert (told["state"], told["outstanding"], told["refused_rest"]) == ("paid", "0.00", "47.20")


def test_an_answer_that_does_not_follow_names_the_command_that_does(draft_shop, tmp_path):
    ran = answered(a_copy(draft_shop, tmp_path), "accepted")
    assert "claimpack file 26-0001" in ran.err


def test_an_answer_undone_is_named(shop):
    walked(shop, "answer accepted --on 2026-02-26")
    assert "Undone: the answer accepted of 2026-02-26." in walked(shop, "answer --undo --because slip")[0].err


def test_an_answer_after_silence_had_accepted_is_remarked_on_under_the_terms(tmp_path):
    shop = a_managed_shop(tmp_path)
    filed_in(shop, received="2026-01-02")
    ran = on("2026-03-01", "answer", "26-0001", "refused", "--because", "misuse", shop=shop)
    assert ran.err.startswith("Silence accepted it on 2026-02-16, before the answer of 2026-03-01")
    assert "claimpack chase 26-0001" in ran.err


def test_an_undone_answer_is_not_remarked_on(tmp_path):
    shop = a_managed_shop(tmp_path)
    filed_in(shop, received="2026-01-02")
    on("2026-03-01", "answer", "26-0001", "refused", shop=shop)
    ran = on("2026-03-01", "answer", "26-0001", "--undo", "--because", "slip", shop=shop)
    assert (ran.code, "Silence" in ran.err) == (0, False)


def test_a_refusal_without_a_reason_says_that_none_is_recorded(shop):
    assert "No reason is recorded." in answered(shop, "refused").err


def test_a_claim_accepted_in_part_is_said_to_be(shop):
    assert answered(shop, "part", "--amount", "100").out.startswith("26-0001 is accepted in part: claimed 147.20 USD")


def test_an_answer_to_a_paid_claim_is_refused_in_words(shop):
    walked(shop, "answer accepted", "pay 147.20")
    ran = answered(shop, "refused")
    said = "What can happen to a paid claim: more money comes in or the maker takes money back."
    assert (ran.code, said in " ".join(ran.err.split())) == (2, True)


def test_an_answer_before_the_one_it_follows_is_refused(shop):
    walked(shop, "answer refused --on 2026-02-27")
    ran = answered(shop, "accepted", "--on", "2026-02-26")
    assert (ran.code, "is before 2026-02-27, the day it was refused" in ran.err) == (2, True)


@pytest.mark.parametrize(("use", "counts"), [("professional", True), ("rental", False)])
def test_a_refusal_without_grounds_counts_as_acceptance_by_the_terms_but_not_of_a_favour(tmp_path, use, counts):
    shop = a_managed_shop(tmp_path)
    # a rented unit is covered for 90 days alone
    filed_in(shop, received="2026-01-02", unit__use=use)
    ran = on("2026-01-20", "answer", "26-0001", "refused", shop=shop)
    assert (ran.code, "57.253" in ran.err) == (0, counts)


def test_an_answer_under_no_terms_is_remarked_on_by_none(tmp_path):
    shop = a_managed_shop(tmp_path, terms="")
    filed_in(shop, received="2026-01-02", unit__use="rental")
    assert on("2026-01-20", "answer", "26-0001", "refused", shop=shop).code == 0
