"""What the maker asked about a claim, kept with it together with what the shop answered."""

from __future__ import annotations

from datetime import date

from claimpack.core.claims.claim import Claim
from claimpack.core.events.events import NewEvent
from claimpack.core.events.standing import Standing
from claimpack.core.facts.cases import Question
from claimpack.errors import BadInput


def with_what_was_asked(claim: Claim, before: Standing, event: NewEvent) -> Claim:
    """The claim with the question of an answer that is recorded, or without that of an answer taken back.

    A question without words is no more than a state; one that was answered since stays with its answer.

    Source: common practice, no source.
    """
    if event.what == "answered" and event.facts.get("answer") == "questioned" and event.why:
        asked = Question(asked=event.on, text=event.why)
        return claim.model_copy(update={"questions": (*claim.questions, asked)})
    last = before.answers[-1] if before.answers else None
    if event.what != "answer undone" or last is None or last.answer != "questioned":
        return claim
    # found by what it says: it has no number, and one that was answered since is another by its answer
    undone = Question(asked=last.on, text=last.because)
    if undone not in claim.questions:
        return claim
    # asked the same twice, the later one is taken back
    place = len(claim.questions) - 1 - claim.questions[::-1].index(undone)
    return claim.model_copy(update={"questions": (*claim.questions[:place], *claim.questions[place + 1 :])})


def open_questions(claim: Claim) -> tuple[Question, ...]:
    """What the maker asked and nobody answered yet, the first one first."""
    return tuple(question for question in claim.questions if not question.answer)


def asked_without_words(standing: Standing) -> tuple[str, ...]:
    """That nobody wrote down what the maker asked, so that no packet can answer it; empty where somebody did."""
    if standing.state != "questioned" or standing.because:
        return ()
    said = f"What the maker asked on {standing.answered} is not noted, so the packet cannot answer it."
    return (f"{said} Take the answer back with answer --undo, then record it with questioned --because TEXT.",)


def with_reply(claim: Claim, reply: str, on: date) -> Claim:
    """The claim with an answer to every question that is open; as it is without a reply.

    Raises:
        BadInput: the maker asked nothing that is not answered.
    """
    if not reply:
        return claim
    if not open_questions(claim):
        raise BadInput(
            f"--reply: claim {claim.number} has no question of the maker's that waits for an answer",
            "The packet prints a reply beside what was asked.",
            f"Record the question: claimpack answer {claim.number} questioned --because TEXT; or leave --reply out.",
        )
    answered = {"answered": on, "answer": reply}
    questions = tuple(one if one.answer else one.model_copy(update=answered) for one in claim.questions)
    return claim.model_copy(update={"questions": questions})


def unanswered(claim: Claim) -> tuple[str, ...]:
    """That a packet goes out with questions of the maker's that have no answer in it, a sentence each."""
    return tuple(
        f"The maker's question of {one.asked} has no answer in the packet; file --reply TEXT gives one."
        for one in open_questions(claim)
    )
