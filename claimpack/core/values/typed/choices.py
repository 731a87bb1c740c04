"""Answers chosen from a few: by word, by number, or by the letters a word begins with."""

from __future__ import annotations

from collections.abc import Sequence

from claimpack.core.values.words import folded, word_set


def chosen(typed: str, choices: Sequence[str], numbered: Sequence[str] = (), *, closed: bool) -> str | None:
    """The choice that somebody typed; None where it is none.

    Args:
        typed: a choice in any case, its number, or what it begins with.
        choices: what may be chosen.
        numbered: those that were shown with numbers, from 1.
        closed: whether there are no other answers; only then do a few letters stand for a choice.

    Raises:
        ValueError: several choices begin so.
    """
    word = folded(typed)
    same = next((choice for choice in choices if folded(choice) == word), None)
    if same is not None:
        return same
    if word.isdecimal() and word.isascii() and 1 <= int(word) <= len(numbered):
        return numbered[int(word) - 1]
    begin = beginning(word, choices) if closed else []
    if len(begin) > 1:
        raise ValueError(f"{typed!r} may be {' or '.join(begin)}.")
    return begin[0] if begin else None


def beginning(typed: str, choices: Sequence[str]) -> list[str]:
    """The choices that begin so, each once."""
    word = folded(typed)
    return list(dict.fromkeys(choice for choice in choices if word and folded(choice).startswith(word)))


def meant_by(said: str, known: Sequence[str]) -> list[str]:
    """The known phrases that somebody may mean by some of their words, or by how these begin: `plate`, `serial plate`.

    One that is said whole is the only one; what is a phrase of its own means none.
    """
    if any(folded(phrase) == folded(said) for phrase in known):
        return [next(phrase for phrase in known if folded(phrase) == folded(said))]
    words = word_set(said) if said.strip() else ()
    whole = [phrase for phrase in known if words and set(words) <= set(word_set(phrase))]
    begun = [phrase for phrase in known if words and all(_begins_one(word, phrase) for word in words)]
    return list(dict.fromkeys(whole or begun))


def _begins_one(word: str, phrase: str) -> bool:
    return any(other.startswith(word) for other in word_set(phrase))
