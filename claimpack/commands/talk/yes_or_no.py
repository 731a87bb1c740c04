"""Questions answered by yes or no: at a terminal one key answers, and nobody is asked who is not there."""

from __future__ import annotations

from typing import TYPE_CHECKING

from claimpack.commands.talk.asking import typed_at

if TYPE_CHECKING:
    from claimpack.commands.desk.say import Say

# Somebody who answers with anything else is asked again, but not for ever.
_MOST_TRIES = 3
_WORDS = {"y": True, "yes": True, "n": False, "no": False}


def says_yes(say: Say, question: str, *, otherwise: bool = False) -> bool | None:
    """Whether the user says yes; None when the input ends.

    Args:
        say: the voice that asks.
        question: what is asked, without the answers.
        otherwise: what Enter alone says, and whoever answers something else again and again.
    """
    for _ in range(_MOST_TRIES):
        typed = typed_at(say, f"{question} [{'Y/n' if otherwise else 'y/N'}]", "yYnN").answer
        if typed is None:
            return None
        word = typed.strip().casefold()
        if not word or word in _WORDS:
            return _WORDS.get(word, otherwise)
        say.aloud().note("Please answer y for yes or n for no.")
    return otherwise


def agrees(say: Say, question: str, yes: bool, *, json: bool = False) -> bool:
    """Whether the user agrees to a step; with --yes they did, and off a terminal nobody is asked.

    Args:
        say: the voice that asks.
        question: what is asked, without the answers.
        yes: whether they agreed beforehand.
        json: whether the document is to tell that they did not.
    """
    agreed = yes or _asked(say, question)
    if json and not agreed:
        say.nothing_done("The same command with --yes.")
    return agreed


def _asked(say: Say, question: str) -> bool:
    # A script that pipes something in has not read the question.
    if not say.world.stdin.isatty():
        say.aloud().note("Nothing was done; to do it: the same command with --yes.")
        return False
    said = says_yes(say, question)
    if not said:
        say.aloud().note("\nNothing was done." if said is None else "Nothing was done.")
    return bool(said)
