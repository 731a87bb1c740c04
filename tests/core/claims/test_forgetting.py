from datetime import date

import pytest

from claimpack.core.claims.forgetting import (
    ERASED,
    Erased,
    erased_of,
    facts_struck,
    owner_words,
    says,
    struck,
    without_files,
    without_owner,
)

OWNER = {"name": "Ann Lee", "phone": "555-0101", "email": "ann@example.com", "address": "1 Quarry Road\nAshby"}


def test_everything_that_names_the_owner_is_looked_for_the_longest_first():
    said = ("1 Quarry Road\nAshby", "ann@example.com", "1 Quarry Road", "555-0101", "Ann Lee", "Ashby")
    assert owner_words([{"owner": OWNER}, {"owner": {"name": "Ann Lee"}}, {}]) == said


@pytest.mark.parametrize(
    ("name", "looked_for"), [("Al", False), ("Ann", True), ("Anna", True), ("55501", False), ("555010", True)]
)
def test_a_word_too_short_to_tell_is_not_looked_for(name, looked_for):
    assert bool(owner_words([{"owner": {"name": name}}])) is looked_for


@pytest.mark.parametrize(
    ("text", "left"),
    [
        ("Ann Lee called", f"{ERASED} called"),
        ("ANN   lee called", f"{ERASED} called"),
        ("Ann Leeds called", "Ann Leeds called"),
        ("Joann Lee called", "Joann Lee called"),
        ("Mary-Ann Lee called", "Mary-Ann Lee called"),
    ],
    ids=["as written", "another case and blanks", "a longer word", "the end of a word", "a part of a name"],
)
def test_a_whole_word_is_struck_out(text, left):
    assert (struck(text, ["Ann Lee"]), says(text, ["Ann Lee"])) == (left, text != left)


def test_a_claim_keeps_what_its_figures_hang_on_and_loses_its_owner():
    claim = {
        "owner": {**OWNER, "use": "private"},
        "complaint": "Ann Lee says it stalls.",
        "unit": {"maker": "Ann Lee"},
        "parts": [{"name": "Coil", "note": "for Ann Lee"}],
        "days": [date(2026, 1, 1), 3],
    }
    assert without_owner(claim, ["Ann Lee"]) == {
        "owner": {"use": "private"},
        "complaint": f"{ERASED} says it stalls.",
        "unit": {"maker": "Ann Lee"},
        "parts": [{"name": "Coil", "note": f"for {ERASED}"}],
        "days": [date(2026, 1, 1), 3],
    }


def test_a_claim_without_an_owner_gets_none():
    assert without_owner({"case": "warranty"}, ["Ann Lee"]) == {"case": "warranty"}


def test_a_file_that_is_gone_is_named_nowhere():
    claim = {
        "photos": [{"file": "photos/a.jpg", "shot": "unit"}, {"file": "photos/b.jpg"}],
        "papers": ["papers/r.pdf", "papers/s.pdf"],
        "proof": {"kind": "receipt", "file": "papers/r.pdf"},
        "number": "26-0001",
    }
    assert without_files(claim, {"photos/a.jpg", "papers/r.pdf"}) == {
        "photos": [{"file": "photos/b.jpg"}],
        "papers": ["papers/s.pdf"],
        "proof": {"kind": "receipt"},
        "number": "26-0001",
    }


def test_the_facts_of_an_event_lose_the_owners_words_and_keep_their_hashes():
    facts = {"because": "Ann Lee asked", "contents": "Ann Lee", "packet": "Ann Lee"}
    assert facts_struck(facts, ["Ann Lee"]) == {**facts, "because": f"{ERASED} asked"}


@pytest.mark.parametrize(
    "erased", [Erased(), Erased(("aa", "bb"), {2: "cc", 3: "dd"}, {7: "ee"})], ids=["nothing", "everything"]
)
def test_what_an_erasure_left_is_read_as_it_was_kept(erased):
    assert erased_of(erased.facts()) == erased


def test_what_an_erasure_did_not_leave_is_not_kept():
    assert Erased(contents=("aa",)).facts() == {"contents": "aa"}


def test_what_was_read_off_a_proof_goes_with_it():
    proof = {"kind": "receipt", "file": "papers/a.pdf", "read": [{"key": "dates.purchased", "text": "2025-03-14"}]}
    assert without_files({"proof": proof}, {"papers/a.pdf"}) == {"proof": {"kind": "receipt"}}
