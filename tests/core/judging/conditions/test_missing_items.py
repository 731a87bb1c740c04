from __future__ import annotations

import pytest
from builders import TODAY, a_claim, a_plan

from claimpack.core.judging.assessment import Circumstances, assess
from claimpack.core.judging.conditions.missing_items import (
    MissingItem,
    absent_and_wrong,
    files_lacking,
    not_kept,
    told_in_short,
    told_together,
)
from claimpack.core.values.wording.sentence import say

ASKED = say("why.plan-requires")


def a_shot(shot):
    return MissingItem(say("missing.shot", shot=shot), ASKED)


def ahead(role, on="2026-03-05"):
    return MissingItem(say("missing.future", role_word=role), say("why.future", date=on, today="2026-03-01"))


def test_things_of_one_kind_and_one_reason_share_a_line():
    proof = MissingItem(say("missing.proof"), ASKED)
    assert told_together([a_shot("serial plate"), proof, a_shot("whole unit")]) == [
        "photo: serial plate, whole unit. The plan asks for it.",
        "proof of purchase. The plan asks for it.",
    ]


def test_another_reason_has_a_line_of_its_own():
    assert len(told_together([ahead("failed"), ahead("repaired", "2026-03-06")])) == 2


def test_several_dates_are_joined_by_words():
    said = told_together([ahead("failed"), ahead("repaired")])[0]
    assert said.startswith("a date in the future: the day it failed and the day it was repaired. ")


def test_in_short_the_reasons_are_left_out():
    assert told_in_short([a_shot("plate"), ahead("failed"), a_shot("unit")]) == (
        "photo: plate, unit; a date in the future: the day it failed"
    )


@pytest.mark.parametrize(("item", "wrong"), [(a_shot("plate"), False), (ahead("failed"), True)])
def test_what_is_there_and_cannot_stand_is_wrong_and_not_missing(item, wrong):
    assert item.is_wrong is wrong


NAMED = {
    "photos": [{"file": "photos/a.jpg"}, {"file": "photos/b.jpg"}],
    "papers": ["papers/receipt.pdf", "papers/letter.pdf"],
}
ALL = ("photos/a.jpg", "photos/b.jpg", "papers/receipt.pdf", "papers/letter.pdf")


@pytest.mark.parametrize("kept", [(), ("photos/a.jpg",), ("papers/receipt.pdf", "photos/b.jpg"), ALL])
def test_what_is_named_and_not_kept_is_found_each_once(kept):
    assert not_kept(a_claim(**NAMED), kept) == tuple(file for file in ALL if file not in kept)


@pytest.mark.parametrize(
    ("file", "says"),
    [
        ("photos/b.jpg", ("claimpack photo add 26-0001 FILE", "claimpack photo remove 26-0001 2")),
        ("papers/receipt.pdf", ("claimpack paper add 26-0001 FILE --proof receipt",)),
        ("papers/letter.pdf", ("claimpack paper add 26-0001 FILE", "claimpack paper remove 26-0001 2")),
    ],
    ids=["photo", "proof", "paper"],
)
def test_each_names_the_command_that_adds_it(file, says):
    lacking = files_lacking(a_claim(**NAMED), [file])[0]
    assert (str(lacking.what), lacking.blocks_filing) == (f"the file {file}", True)
    assert all(command in str(lacking.why) for command in says)


@pytest.mark.parametrize(("kind", "said"), [("dealer-record", "dealer-record"), ("none", "receipt"), (None, "receipt")])
def test_a_proof_is_added_as_the_kind_it_is_said_to_be(kind, said):
    claim = a_claim(proof={"kind": kind, "file": "papers/r.pdf"})
    assert f"--proof {said} " in str(files_lacking(claim, ["papers/r.pdf"])[0].why)


@pytest.mark.parametrize("plans", [[], [a_plan()]], ids=["no plan", "a plan"])
def test_a_claim_that_names_what_is_not_kept_is_not_complete(plans):
    told = assess(a_claim(), plans, TODAY, Circumstances(not_kept=("papers/receipt.pdf",)))
    assert [str(item.what) for item in told.missing if item.blocks_filing] == ["the file papers/receipt.pdf"]


@pytest.mark.parametrize(
    ("key", "blocks", "is_approval"),
    [("missing.approval", True, True), ("missing.approval", False, False), ("missing.proof", True, False)],
)
def test_what_blocks_filing_for_want_of_the_makers_word_is_its_approval(key, blocks, is_approval):
    assert MissingItem(say(key), ASKED, blocks_filing=blocks).is_approval is is_approval


def test_what_blocks_filing_is_told_apart_by_whether_it_is_there():
    plate, wrong, seen = a_shot("plate"), ahead("failed"), a_shot("unit")._replace(blocks_filing=False)
    assert absent_and_wrong([plate, wrong, seen]) == ([plate], [wrong])
