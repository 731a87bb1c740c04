"""The counter's conversation: each open question asked until it is answered or skipped."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from claimpack.commands.say import Say
    from claimpack.counter_questions import Question, Session


def converse(say: Say, session: Session, heard: Callable[[Question], None] = lambda _question: None) -> bool:
    """Ask every open question in order; False when the user stops.

    Args:
        say: the voice that asks.
        session: the claim being filled in.
        heard: told of each question after its answer was taken.
    """
    for question in session.open_questions():
        if not _ask(say, session, question):
            return False
        heard(question)
    return True


def _ask(say: Say, session: Session, question: Question) -> bool:
    """Ask one question until it is answered or skipped; False when the user stops."""
    from claimpack.errors import BadInput

    if not question.is_due(session):
        return True
    while True:
        suggested = question.suggestion(session)
        hint = f" [{suggested}]" if suggested else ""
        typed = say.ask(f"{question.asks}{hint}")
        if typed is None or typed.strip().casefold() == "stop":
            return False
        typed = typed.strip() or suggested
        if typed == "?":
            say.note(f"  {question.explains(session)}")
            continue
        if not typed:
            return True
        try:
            session.answer(question, typed)
        except BadInput as wrong:
            for line in wrong.lines():
                say.note(f"  {line}")
            continue
        return True
