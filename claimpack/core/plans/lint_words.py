"""Words of a plan that are written two ways, so that what one list says the others do not hear."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator

from claimpack.core.plans.component_words import ALIKE, is_known, is_spelling_of, names_one_of, replaced_by_operations
from claimpack.core.plans.plan import Plan
from claimpack.core.values.words import folded, nearest, word_set

_LONG, _MOST_LETTERS = 5, 3


def lists_of_words(plan: Plan) -> Iterator[tuple[str, tuple[str, ...]]]:
    """Every list of components in a plan, by its key."""
    for window in plan.window:
        yield f"window {window.id}: covers", tuple(word for word in window.covers if word != "*")
        yield f"window {window.id}: except", window.except_
        yield f"window {window.id}: scheduled", tuple(renewal.component for renewal in window.scheduled)
    yield "excluded.components", plan.excluded.components
    yield "requires.approval_components", plan.requires.approval_components
    yield from (("elsewhere.components", other.components) for other in plan.elsewhere)
    yield "words", tuple(plan.words)


def words_spelt_two_ways(plan: Plan) -> Iterable[str]:
    """A component in the singular in one list and in the plural in another is two components to the plan.

    Source: a rule of this tool's, no source.
    """
    for key, word, other_key, other in _pairs(plan):
        if is_spelling_of(word, other):
            yield f"{key}: {word!r} stands as {other!r} under {other_key}; write both alike, or claims miss one of them"


def words_nearly_alike(plan: Plan) -> Iterable[str]:
    """A component that is nearly another one of the plan is most likely that one mistyped.

    Source: a rule of this tool's, no source.
    """
    for key, word, other_key, other in _pairs(plan):
        if not is_spelling_of(word, other) and _is_nearly(word, other):
            yield f"{key}: {word!r} is nearly {other!r} under {other_key}; if both are parts, name both under [words]"


def operations_for_no_component(plan: Plan) -> Iterable[str]:
    """What an operation replaces is written as the windows and exclusions write it.

    Source: a rule of this tool's, no source.
    """
    known = [word for _, words in lists_of_words(plan) for word in words]
    for word in replaced_by_operations(plan):
        if not names_one_of(word, known, plan) and (near := nearest(word, known, ALIKE)):
            yield f"operation: replaces {word!r}, which is written {near!r} elsewhere in the plan"


def _pairs(plan: Plan) -> Iterator[tuple[str, str, str, str]]:
    """Each word with each later one that is another component and does not stand beside it as its other spelling."""
    lists = list(lists_of_words(plan))
    by_word: dict[tuple[str, ...], tuple[str, str]] = {}
    for key, words in lists:
        for word in words:
            # each word once, where it stands first: its other places say the same
            by_word.setdefault(word_set(word), (key, word))
    found = list(by_word.values())
    for place, (other_key, other) in enumerate(found):
        for key, word in found[place + 1 :]:
            if not _is_worth_comparing(word, other) or names_one_of(word, [other], plan):
                continue
            # whoever wrote both into one list knew that they are two
            if not any(_holds(words, word) and _holds(words, other) for _, words in lists):
                yield key, word, other_key, other


def _is_worth_comparing(word: str, other: str) -> bool:
    """A quick look at whether two phrases are worth comparing: a slip leaves the length and the beginnings."""
    begins = ({piece[:1] for piece in word_set(one)} for one in (word, other))
    # a cheap look before the dear comparison, for plans of hundreds of words
    return abs(len(word) - len(other)) <= _MOST_LETTERS and bool(set.intersection(*begins))


def _holds(words: Iterable[str], word: str) -> bool:
    return word_set(word) in {word_set(one) for one in words}


def _is_nearly(word: str, other: str) -> bool:
    numbers = (re.findall(r"\d+", one) for one in (word, other))
    # "cylinder 1" and "cylinder 2" are alike but for what tells them apart
    return len(set(map(tuple, numbers))) == 1 and nearest(word, [other], ALIKE) is not None


def is_written_otherwise(component: str, words: Iterable[str], plan: Plan) -> str | None:
    """The word of a list that is most likely the component, but which the plan takes for another one.

    It is the component in another spelling, or with a letter too many, too few or in the wrong place. Two parts that
    are really two are both named under `words`.
    """
    if not component:
        return None
    known = list(words)
    alike = (word for word in known if abs(len(word) - len(component)) <= _MOST_LETTERS)
    other = next((word for word in alike if is_spelling_of(word, component) or _is_slip(word, component)), None)
    if other is None or (_holds(plan.words, component) and _holds(plan.words, other)):
        return None
    is_meant = names_one_of(component, known, plan) or not is_known(component, plan)
    return None if is_meant else other


def _is_slip(word: str, other: str) -> bool:
    """Whether a long word becomes another one by a letter more or less, or by two changing places; never a digit."""
    short, long = sorted((folded(word), folded(other)), key=len)
    # short words are a letter apart by chance, as belt and bolt
    if len(short) < _LONG or re.findall(r"\d", short) != re.findall(r"\d", long):
        return False
    if len(long) == len(short) + 1:
        return any(long[:place] + long[place + 1 :] == short for place in range(len(long)))
    swapped = (short[:place] + short[place + 1] + short[place] + short[place + 2 :] for place in range(len(short) - 1))
    return long in swapped
