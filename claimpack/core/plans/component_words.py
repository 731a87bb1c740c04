"""Words for components: which word of a plan a person most likely means by another one."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from functools import lru_cache
from itertools import chain

from claimpack.core.plans.plan import Plan
from claimpack.core.values.words import folded, nearest, word_set
from claimpack.errors import BadInput

_MOST_NEAR = 3
_HARDLY_ALIKE = 0.5
_ONE_PIECE = 0.8

ALIKE = 0.88
"""How alike two words are that may be one word mistyped: a plural, a letter too many; not two parts of one kind."""

SPELLINGS = {
    "aluminum": "aluminium",
    "caliper": "calliper",
    "carburator": "carburettor",
    "carburetor": "carburettor",
    "carburetter": "carburettor",
    "center": "centre",
    "disk": "disc",
    "fiber": "fibre",
    "gage": "gauge",
    "gray": "grey",
    "hourmeter": "hour metre",
    "meter": "metre",
    "mold": "mould",
    "molding": "moulding",
    "plow": "plough",
    "tire": "tyre",
}
"""American and other spellings of the trade's words, each with the British one that both are compared by."""

_WHOLE = ("assembly", "assy", "complete", "kit", "set", "unit")
"""Words after a component that leave it what it is."""

_ARTICLES = ("a", "an", "the")

_OFTEN = 2000
"""Phrases of plans and claims that are remembered: a plan that is tried asks for the same ones thousands of times."""

_MOST_PLANS = 200

_WORK_ON = re.compile(
    "(?:replace|renew|overhaul|rebuild|repair|(?:remove|take off) and refit) (.+?)(?: and .+|,.+)?", re.IGNORECASE
)
_REPLACE = re.compile(r"replace (.+?)(?: and .+|,.+)?", re.IGNORECASE)


def replaced_by_operations(plan: Plan) -> tuple[str, ...]:
    """What the operations of the plan's time schedule replace, as their names say it, in the schedule's order."""
    named = (_REPLACE.fullmatch(operation.name) for operation in plan.operation)
    return tuple(dict.fromkeys(match[1] for match in named if match))


def components_offered(plan: Plan) -> tuple[str, ...]:
    """The words for what failed that the plan knows: what its operations replace first, then the others by letter."""
    # what the maker has a time for is what fails most, so it is offered first
    renewed = {folded(word): word for word in replaced_by_operations(plan)}
    others = {folded(word): word for word in (*plan.component_words(), *plan.words)}
    return (*renewed.values(), *sorted(word for fold, word in others.items() if fold not in renewed))


def refuse_no_component(said: str, where: str) -> None:
    """Refuse a date or a number as what failed.

    Args:
        said: what somebody says that failed; an empty text passes.
        where: what it is called where it was written.

    Raises:
        BadInput: it has no letters.

    Source: a rule of this tool's, no source.
    """
    if said and not any(mark.isalpha() for mark in said):
        raise BadInput(
            f"{where}{said!r} is no component", "What failed is a part of the unit.", "Name it, as in ignition coil."
        )


def names_one_of(word: str, words: Iterable[str], plan: Plan) -> bool:
    """Whether a word names a component of a list: it is one in whatever order, or the plan's other word for one.

    Source: common practice, no source; parts lists write the noun first.
    """
    own = _own_words(tuple(plan.words.items()))
    meant = _plain(word, own)
    return any(_plain(other, own) == meant for other in words)


def without(words: Sequence[str], out: Sequence[str], plan: Plan) -> Sequence[str]:
    """The words of a list that name none of the components that are left out."""
    return [word for word in words if not names_one_of(word, out, plan)] if out else words


def is_known(word: str, plan: Plan) -> bool:
    """Whether the plan speaks of a component by this word or by another word of its own for it."""
    # an operation's object is a word of the plan as well: "replace carburetor" knows of carburetors
    worked_on = (match[1] for operation in plan.operation if (match := _WORK_ON.fullmatch(operation.name)))
    said = word_set(word)
    own = chain(plan.component_words(), plan.words, *plan.words.values(), worked_on)
    return any(word_set(other) == said for other in own)


def slip_for(word: str, plan: Plan, among: Iterable[str]) -> str | None:
    """The word that another one is most likely a slip of the pen, a plural or another spelling for.

    None where the plan knows the word as it stands.

    Source: common practice, no source.
    """
    if not word or is_known(word, plan):
        return None
    known = {name: other for other in among for name in (other, *_other_words(plan, [other]))}
    # another spelling is certain where likeness is a guess
    same = next((name for name in known if is_spelling_of(name, word)), None)
    near = same or nearest(word, known, ALIKE)
    return known[near] if near else None


def kind_of(word: str, plan: Plan, among: Iterable[str]) -> str | None:
    """The component that a phrase may be one of, or may mean in short.

    A front gear case is a gear case; somebody who says coil may mean the ignition coil.

    Source: common practice, no source.
    """
    if is_known(word, plan):
        return None
    # "starter assembly" is a starter; "kit" alone stays what it is
    pieces = tuple(piece for piece in _pieces(word) if piece not in _WHOLE) or _pieces(word)
    return next((other for other in among if _is_in_short(pieces, _pieces(other))), None)


def component_meant(word: str, plan: Plan, among: Iterable[str]) -> str | None:
    """The word of a list that a component is, is a slip for, or is one of the kind of; where asking too much is safe.

    Source: common practice, no source.
    """
    known = list(among)
    if named := next((other for other in known if names_one_of(word, [other], plan)), None):
        return named
    return slip_for(word, plan, known) or kind_of(word, plan, known)


def words_it_may_be(word: str, plan: Plan, among: Iterable[str]) -> tuple[str, ...]:
    """The components that a word may mean which the plan does not know: the nearest first, at most three.

    Source: a rule of this tool's, no source.
    """
    known = list(dict.fromkeys(among))
    # a component is as likely as the likeliest of its names
    likeness = {other: max(_likeness(word, name) for name in (other, *_other_words(plan, [other]))) for other in known}
    near = [other for other in known if likeness[other] >= _HARDLY_ALIKE]
    return tuple(sorted(near, key=lambda other: -likeness[other])[:_MOST_NEAR])


def is_same_component(word: str, earlier: str, plan: Plan) -> bool | None:
    """Whether what failed is what an earlier repair was of; None where a word unknown to the plan leaves it open.

    Source: a rule of this tool's, no source.
    """
    if word and names_one_of(earlier, [word], plan):
        return True
    if not is_known(word, plan):
        return None
    if is_known(earlier, plan):
        return False
    near = words_it_may_be(earlier, plan, (*plan.component_words(), word))
    return None if any(names_one_of(word, [other], plan) for other in near) else False


def spoken_of(word: str, plan: Plan, among: Iterable[str]) -> str | None:
    """The component that stands anywhere in a phrase, word for word or mistyped, or that the phrase may mean in short.

    Source: common practice, no source.
    """
    if not word or is_known(word, plan):
        return None
    return next((other for other in among if _stands_in(other, word) or _is_short_for(word, other)), None)


def _other_words(plan: Plan, components: Iterable[str]) -> tuple[str, ...]:
    """The plan's other words for components."""
    wanted = {word_set(component) for component in components}
    return tuple(other for word, others in plan.words.items() if word_set(word) in wanted for other in others)


def _plain(word: str, own: dict[tuple[str, ...], tuple[str, ...]]) -> tuple[str, ...]:
    """The words of a component by the plan's own word for it."""
    said = word_set(word)
    # one step and no more: the plan's other words stand for a word of its lists, never for another other word
    return own.get(said, said)


@lru_cache(maxsize=_MOST_PLANS)
def _own_words(words: tuple[tuple[str, tuple[str, ...]], ...]) -> dict[tuple[str, ...], tuple[str, ...]]:
    """A plan's own word for each of its other words, word for word."""
    return {word_set(other): word_set(own) for own, others in words for other in others}


@lru_cache(maxsize=_OFTEN)
def _likeness(word: str, other: str) -> float:
    """How alike two phrases are, from 0 to 1: letter by letter, or by the words they share, each perhaps mistyped."""
    from difflib import SequenceMatcher

    letters = SequenceMatcher(None, folded(word), folded(other)).ratio()
    pieces, others = (set(_pieces(phrase)) - set(_WHOLE) for phrase in (word, other))
    shared = [piece for piece in pieces if nearest(piece, others, _ONE_PIECE)]
    # short words share letters by chance, long phrases whole words: the better of the two counts
    return max(letters, len(shared) / min(len(pieces), len(others)) if pieces and others else 0.0)


def _is_in_short(one: tuple[str, ...], other: tuple[str, ...]) -> bool:
    return sorted(one) == sorted(other) or _one_ends_in_the_other(one, other)


def _one_ends_in_the_other(one: tuple[str, ...], other: tuple[str, ...]) -> bool:
    fewer = min(len(one), len(other))
    # the noun stands last, what tells it apart before it
    return one[-fewer:] == other[-fewer:]


def _is_short_for(word: str, component: str) -> bool:
    pieces = _pieces(word)
    return _pieces(component)[-len(pieces) :] == pieces


@lru_cache(maxsize=_OFTEN)
def is_spelling_of(word: str, other: str) -> bool:
    """Whether two words are one in the singular and the plural, in two spellings, or run together and apart.

    Source: common practice, no source.
    """
    one, two = _pieces(word), _pieces(other)
    return sorted(one) == sorted(two) or "".join(one) == "".join(two)


@lru_cache(maxsize=_OFTEN)
def _stands_in(component: str, phrase: str) -> bool:
    wanted, pieces = _pieces(component), _pieces(phrase)
    runs = (pieces[first : first + len(wanted)] for first in range(len(pieces) - len(wanted) + 1))
    sought = " ".join(wanted)
    return set(wanted) <= set(pieces) or any(nearest(" ".join(run), [sought], ALIKE) for run in runs)


@lru_cache(maxsize=_OFTEN)
def _pieces(phrase: str) -> tuple[str, ...]:
    """The words of a phrase without articles, in the singular and in one spelling."""
    ones = (_singular(word) for word in re.findall(r"\w+", folded(phrase)) if word not in _ARTICLES)
    return tuple(" ".join(SPELLINGS.get(one, one) for one in ones).split())


def _singular(word: str) -> str:
    if word.endswith(("sses", "xes", "zes", "ches", "shes")):
        return word.removesuffix("es")
    # batteries are of one battery, but ties are of no "ty", and a series is one as it stands
    if word.endswith(("ies", "ie")) and len(word) >= len("bodies") and word != "series":
        return re.sub("ies?$", "y", word)
    return word if word.endswith("ss") else word.removesuffix("s")
