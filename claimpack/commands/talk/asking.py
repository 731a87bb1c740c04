"""The counter's conversation: each open question asked until it is answered or skipped, and the one before again."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from enum import Enum
from typing import TYPE_CHECKING, NamedTuple, Protocol

if TYPE_CHECKING:
    from claimpack.commands.desk.say import Say
    from claimpack.commands.talk.question import Question


class Conversation(Protocol):
    """What is being filled in: which questions there are, what it says so far, how an answer goes into it."""

    @property
    def questions(self) -> Sequence[Question]:
        """What is asked, in order."""

    def is_open(self, question: Question, /) -> bool:
        """Whether a question is to be asked."""

    def said(self, key: str, /) -> str:
        """What was answered to the question of a key, as a person would type it; empty where nothing was."""

    def kept(self, question: Question, /) -> str:
        """What was taken of the answer just given."""

    def answer(self, question: Question, typed: str, /) -> None:
        """Take an answer."""

    def skip(self, question: Question, /) -> None:
        """Leave a question without an answer."""

    def take_back(self, question: Question, /) -> str:
        """Take away the last of several answers; what it was, empty where there is none."""


HOW = "Enter skips a question, ? explains it, back returns to the one before, {stop}."
"""What a conversation says of itself first."""

# Seconds in which the Enter of somebody who always presses it still belongs to the key before.
_HABIT = 0.3
# Lines that were pasted by mistake are quoted back in short, so that the question stays in sight.
_LONGEST = 60


class _Move(Enum):
    ON, AGAIN, BACK, STOP, LAST = range(5)


class Typed(NamedTuple):
    """One answer, None where there is none, and whether the input was ended after it."""

    answer: str | None
    is_end: bool = False


def converse(say: Say, session: Conversation, heard: Callable[[Question], None] = lambda _question: None) -> bool:
    """Ask every open question in order, and those that were passed on the way back once more; False at a stop.

    Args:
        say: the voice that asks.
        session: the claim being filled in.
        heard: told of each question after its answer was taken.
    """
    # Whoever is asked must see the choices, and why an answer was not taken.
    say = say.aloud()
    questions = session.questions
    place, passed, step = 0, -1, _Move.ON
    while place < len(questions):
        question = questions[place]
        # on the way back every question is asked again, answered or not; beyond it only those that are open
        if not (question.is_due(session) if place <= passed else session.is_open(question)):
            place += 1
            continue
        step = _ask(say, session, question, again=step is _Move.AGAIN)
        if step is _Move.STOP:
            return False
        if step is _Move.AGAIN:
            heard(question)
        elif step is _Move.BACK:
            passed = max(passed, place)
            place = _before(say, session, place)
        else:
            heard(question)
            if step is _Move.LAST:
                return False
            place += 1
    return True


def _before(say: Say, session: Conversation, place: int) -> int:
    """The place of the question before, answered or not."""
    earlier = [index for index in range(place) if session.questions[index].is_due(session)]
    if not earlier:
        say.note("  This is the first question.")
    return earlier[-1] if earlier else place


def _ask(say: Say, session: Conversation, question: Question, *, again: bool) -> _Move:
    """Ask one question until it is answered or skipped; Enter keeps an answer that is there.

    Asked once more for another answer, it does not show its choices again.
    """
    said = session.said(question.key)
    suggested = "" if said else question.suggestion(session)
    hint = f" [{_in_short(said or suggested)}]" if said or suggested else ""
    if question.example and not again:
        say.paragraph(f"  As in: {question.example}.", hanging=9)
    if not again:
        say.choices(*question.shown(session))
    while True:
        asked, at_once = f"{question.asks}{hint}", question.at_once(session)
        typed, is_end = typed_at(say, asked, at_once, several_lines=question.several_lines)
        word = None if typed is None else typed.strip().casefold()
        if word is None or word == "stop":
            return _Move.STOP
        if word == "back":
            gone = session.take_back(question)
            if not gone:
                return _Move.STOP if is_end else _Move.BACK
            say.note(f"  Taken away: {gone}")
            continue
        if word == "?":
            say.paragraph(f"  {question.explains(session)}", hanging=2)
            say.choices(question.listed(session))
        elif _taken(say, session, question, (typed or "").strip() or suggested):
            is_more = question.repeats and (typed or "").strip()
            # an answer that the end of the input came with is still taken
            return _Move.LAST if is_end else _Move.AGAIN if is_more else _Move.ON
        if is_end:
            return _Move.STOP


def typed_at(say: Say, asked: str, at_once: str, *, several_lines: bool = False) -> Typed:
    """One answer, by one key of `at_once` or a line; of lines pasted at once the first alone, or all of them."""
    from claimpack.commands.talk.one_key import key_or_line
    from claimpack.commands.talk.pasted import came_along

    typed = say.ask(asked, key_or_line(at_once) if at_once else None)
    if typed is None:
        return Typed(None)
    if len(typed) == 1 and typed in at_once:
        more, is_end = came_along(say.world.stdin, _HABIT)
        # an Enter out of habit answers no other question, and letters at once behind a figure make it a word
        behind, _, more = more.partition("\n")
        typed += behind
    else:
        more, is_end = came_along(say.world.stdin)
    if not more.strip():
        return Typed(typed, is_end)
    if not more.endswith("\n"):
        say.note("")
    whole = "\n".join(line.rstrip() for line in (typed, *more.splitlines())).strip()
    if several_lines:
        say.note(f"  {len(whole.splitlines())} lines came at once and are taken together; back changes them.")
        return Typed(whole, is_end)
    say.note(f"  Of the lines that came at once only the first is taken; not taken: {_in_short(more.strip())}")
    return Typed(typed, is_end)


def _in_short(text: str) -> str:
    line = " / ".join(part for part in text.splitlines() if part.strip())
    return line if len(line) <= _LONGEST else f"{line[: _LONGEST - 1]}…"


def _taken(say: Say, session: Conversation, question: Question, typed: str) -> bool:
    """Whether an answer, or none, was taken; says why where it was not."""
    from claimpack.errors import BadInput

    try:
        if typed:
            session.answer(question, typed)
        else:
            session.skip(question)
    except BadInput as wrong:
        for line in wrong.lines():
            say.paragraph(f"  {line}", hanging=2)
        return False
    kept = session.kept(question)
    # told only where something else was understood than stands on the screen
    if typed and not question.several_lines and kept != typed:
        say.paragraph(f"  = {kept}", hanging=4)
    return True
